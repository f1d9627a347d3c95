"""The stage drawn with several samples a pixel and kept, so that only what changes is drawn anew."""

from __future__ import annotations

from render.region import Region, changed_regions
from render.sight import sight
from render.stage import StageRenderer
from render.surface import Surface
from render.theme import Theme
from tutor.session.view import Look, Stage


class KeptStage:
    """The picture of the stage drawn last. Needs a current context."""

    def __init__(self, renderer: StageRenderer) -> None:
        """``renderer`` draws, and stays its owner's."""
        self._renderer = renderer
        self._surface = Surface()
        self._drawn: tuple[Stage, Look, Theme, tuple[int, int]] | None = None

    def draw(self, stage: Stage, look: Look, theme: Theme, viewport: Region) -> None:
        """Bring the picture up to date and copy it into the viewport of the bound framebuffer."""
        size = viewport[2:]
        regions = self._regions(stage, look, theme, size)
        if regions is None or regions:
            inside = (0, 0, *size)
            self._surface.draw(
                size, lambda: self._renderer.draw(stage, look, theme, inside, regions), regions
            )
        self._drawn = stage, look, theme, size
        self._surface.copy_to(viewport)

    def _regions(
        self, stage: Stage, look: Look, theme: Theme, size: tuple[int, int]
    ) -> tuple[Region, ...] | None:
        """What must be drawn; None for everything."""
        if self._drawn is None or self._drawn[1:] != (look, theme, size):
            return None
        return changed_regions(self._drawn[0], stage, sight(stage.camera, size, look.mirrors), look.mirrors)

    def delete(self) -> None:
        """Free what it owns."""
        self._surface.delete()
