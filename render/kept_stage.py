"""The stage drawn and kept, so that only what changes is drawn anew.

A turn shows the same cube at many angles. What rests meanwhile is drawn once, over a ground that is drawn
once for each camera. Each frame takes it over, with its depth, and draws but the turning layer and the marks.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import partial

from render.mesh import cut_behind
from render.region import Region, changed_regions
from render.sight import sight
from render.stage import Part, StageRenderer
from render.surface import Surface
from render.theme import Theme
from tutor.ui.view import Camera, Look, Stage


@dataclass(frozen=True, slots=True)
class _Drawn:
    """What a picture shows, and how."""

    stage: Stage
    look: Look
    theme: Theme
    size: tuple[int, int]


class _Resting:
    """What rests while a layer turns: the ground, and over it the other layers."""

    def __init__(self, renderer: StageRenderer, smooth: bool) -> None:
        self._renderer = renderer
        self._ground, self.surface = Surface(smooth, shown=False), Surface(smooth, shown=False)
        self._ground_key: tuple[Camera, Look, Theme, tuple[int, int]] | None = None
        self._key: _Drawn | None = None

    def draw(self, wanted: _Drawn) -> None:
        """Bring it up to date for a stage with a layer turning."""
        key = _resting_key(wanted)
        if key == self._key:
            return
        ground_key = key.stage.camera, key.look, key.theme, key.size
        if ground_key != self._ground_key:
            self._ground.draw(wanted.size, partial(_paint, self._renderer, wanted, part=Part.GROUND))
            self._ground_key = ground_key

        def paint() -> None:
            self.surface.take_over(self._ground, (0, 0, *wanted.size))
            _paint(self._renderer, wanted, part=Part.RESTING)

        self.surface.draw(wanted.size, paint)
        self._key = key

    def delete(self) -> None:
        """Free it."""
        self._ground.delete()
        self.surface.delete()


class KeptStage:
    """The picture of the stage drawn last. Needs a current context."""

    def __init__(self, renderer: StageRenderer, smooth: bool = True) -> None:
        """``renderer`` draws, and stays its owner's; ``smooth`` has several samples a pixel."""
        self._renderer, self._smooth = renderer, smooth
        self._surface = Surface(smooth)
        self._resting: _Resting | None = None
        self._drawn: _Drawn | None = None
        self._camera: Camera | None = None

    def draw(self, stage: Stage, look: Look, theme: Theme, viewport: Region) -> None:
        """Bring the picture up to date and copy it into the viewport of the bound framebuffer."""
        wanted = _Drawn(stage, look, theme, viewport[2:])
        if self._drawn is not None and self._drawn.size != wanted.size:
            self.spare()
        regions = self._regions(wanted)
        before, self._camera = self._camera, stage.camera
        if regions is None and before != stage.camera and not self._smooth:
            # New all over, as the next may be, and nothing to be smoothed: it is not worth keeping.
            self._renderer.draw(stage, look, theme, viewport)
            self._drawn = None
            return
        if regions is None or regions:
            paint = partial(_paint, self._renderer, wanted, regions)
            if regions and stage.crossfade is None and cut_behind(stage.turning) is not None:
                self._resting = self._resting or _Resting(self._renderer, self._smooth)
                self._resting.draw(wanted)
                paint = partial(self._paint_turning, self._resting.surface, wanted, regions)
            self._surface.draw(wanted.size, paint, regions)
        self._drawn = wanted
        self._surface.copy_to(viewport)

    def _paint_turning(self, resting: Surface, wanted: _Drawn, regions: tuple[Region, ...]) -> None:
        for region in regions:
            self._surface.take_over(resting, region)
        _paint(self._renderer, wanted, regions, Part.TURNING)

    def _regions(self, wanted: _Drawn) -> tuple[Region, ...] | None:
        """What must be drawn; None for everything."""
        before = self._drawn
        if before is None or replace(before, stage=wanted.stage) != wanted:
            return None
        view = sight(wanted.stage.camera, wanted.size, wanted.look.mirrors)
        return changed_regions(before.stage, wanted.stage, view, wanted.look.mirrors)

    def spare(self) -> None:
        """Free what only turns need, as none will be drawn soon."""
        if self._resting is not None:
            self._resting.delete()
            self._resting = None

    def delete(self) -> None:
        """Free what it owns."""
        self._surface.delete()
        self.spare()


def _paint(
    renderer: StageRenderer,
    wanted: _Drawn,
    regions: tuple[Region, ...] | None = None,
    part: Part = Part.ALL,
) -> None:
    """Draw what is wanted, or some of it, over all of the bound surface."""
    inside = (0, 0, *wanted.size)
    renderer.draw(wanted.stage, wanted.look, wanted.theme, inside, regions, part)


def _resting_key(wanted: _Drawn) -> _Drawn:
    """The same for every angle of a turn, and whatever is marked beside the outlined cubies."""
    stage, nothing = wanted.stage, frozenset[int]()
    assert stage.turning is not None
    resting = replace(
        stage,
        turning=replace(stage.turning, angle=0.0),
        framed=nothing,
        glowing=nothing,
        arrow=None,
    )
    return replace(wanted, stage=resting)
