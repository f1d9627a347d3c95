"""From the pointer and the wheel to inputs: knows the scene, but neither OpenGL nor the window library.

Hover, pressed state and scroll offsets live here, since they are nobody else's business.
"""

from __future__ import annotations

from typing import Protocol

from msgspec import Struct, field
from msgspec.structs import replace

from render.layout.boxes import Box, BoxKind, Panel, Rect, Scene, WindowPart
from render.layout.panels import layout
from render.paint.painter import Pointer
from render.paint.scene_painter import scrollbar
from render.window.scrolling import is_cursor, scroll_in_new_measures, scroll_to_show, words_of
from tutor.ui.inputs import (
    Activated,
    Input,
    LayerDragged,
    LayerReleased,
    Looked,
    LookReleased,
    Scrubbed,
    StickerPressed,
    Zoomed,
)
from tutor.ui.view import Action, Face, Look, Stage, View

DRAG = 5.0
"""A press that moves this many px is a drag."""
FOLLOW = 3.0
"""A layer follows the pointer from this many px on."""
LOOK = 0.35
"""Degrees of looking round per px."""
NOTCH = 56.0
"""Px scrolled per notch of the wheel."""
_HEAD = 3
"""A card whose first boxes have other words is another card, and is read from its top."""


class Grip(Protocol):
    """A sticker taken hold of; says how far its layer follows the pointer."""

    @property
    def sticker(self) -> int:
        """The sticker's number."""

    def drag(self, x: float, y: float) -> tuple[Face, float] | None:
        """The face and angle when the pointer is at this point of the stage; None where nothing turns."""

    def decided(self, x: float, y: float) -> bool:
        """Whether the pointer's way means one layer alone; before that it may still be the other one."""

    def holds_still(self, x: float, y: float) -> bool:
        """Whether the pointer goes a way on which nothing turns."""


class Hand(Protocol):
    """Takes hold of what is on the stage. Points are in px from the stage's upper left corner."""

    def grip(self, stage: Stage, look: Look, size: tuple[float, float], x: float, y: float) -> Grip | None:
        """The sticker there, or None for the background."""


class LateHand:
    """Takes hold of what is on the stage; what that needs is imported when there is a stage to touch."""

    def grip(self, stage: Stage, look: Look, size: tuple[float, float], x: float, y: float) -> Grip | None:
        """The sticker there, or None for the background."""
        from render.stage.picking import StageHand

        return StageHand().grip(stage, look, size, x, y)


class _Press(Struct):
    """What the pointer holds down, and since where."""

    x: float
    y: float
    kind: str
    action: Action | None = None
    place: WindowPart | None = None
    grip: Grip | None = None
    last: tuple[float, float] = (0.0, 0.0)
    layer: tuple[Face, float] | None = None
    decided: bool = False
    dragged: bool = False
    far: bool = False
    """Whether it has been dragged too far to be a click as well."""


class Interface(Struct):
    """The view on the screen and what the pointer does with it. Points are in logical px, y downwards."""

    hand: Hand | None = None
    pointer: Pointer = field(default_factory=Pointer)
    scrolls: dict[WindowPart, float] = field(default_factory=dict)
    scene: Scene | None = None
    view: View | None = None
    _key: object = None
    _measures: tuple[float, ...] = ()
    """The window's size and the text scale of the last layout."""
    _origin: tuple[Scene, dict[WindowPart, float]] | None = None
    """What was in sight before the window or its text changed size, with the scroll offsets."""
    _left_at: dict[WindowPart, float] = field(default_factory=dict)
    """The offsets after the last layout; where they are others now, somebody has scrolled."""
    _focus: Action | None = None
    _said: tuple[str, ...] = ()
    _head: tuple[str, ...] = ()
    _screen: object = None
    _pages: dict[object, float] = field(default_factory=dict)
    """How far down the page of each screen was when it was left."""
    _cursor: Rect | None = None
    _caret: Rect | None = None
    _press: _Press | None = None
    _at: tuple[float, float] | None = None
    """Where the pointer is; None outside the window."""

    # -- what is shown

    def show(self, view: View, wide: float, high: float, ratio: float) -> Scene:
        """Lay the view out, if anything that the layout depends on has changed since the last one."""
        rail = view.rail and replace(view.rail, playhead=None if view.rail.playhead is None else 0.0)
        still = replace(view, stage=None, rail=rail)
        key = (wide, high, ratio, view.stage is None, still)
        if self.scene is None or key != self._key:
            before, measures = self.scene, (wide, high, ratio, view.look.text_scale)
            self.scene = layout(view, wide, high, ratio)
            self._settle(view, before if measures != self._measures else None)
            self._key, self._measures = key, measures
        if self.scene.playhead and view.rail and self.scene.playhead.position != view.rail.playhead:
            playhead = replace(self.scene.playhead, position=view.rail.playhead)
            self.scene = replace(self.scene, playhead=playhead)
        self.view = view
        self.pointer = replace(self.pointer, light=self._light())
        return self.scene

    def _light(self) -> tuple[float, float] | None:
        """Where the spotlight is, while there is one."""
        board = self.view.board if self.view else None
        return self._at if board is not None and board.spotlight else None

    def _settle(self, view: View, before: Scene | None) -> None:
        """Keep scroll offsets in their limits; on another screen begin where it was left; show what is new.

        ``before`` is the scene in other measures, of the window or of its text; None where they are the same.
        """
        assert self.scene is not None
        title = (view.screen, view.title)
        opens = title != self._screen
        if opens:
            self._pages[self._screen] = self.scrolls.get(WindowPart.PAGE, 0.0)
            self._screen = title
            self.scrolls = {WindowPart.PAGE: self._pages.get(title, 0.0)}
        if before is None or opens:
            self._origin = None
        else:
            self._keep_in_sight(before, self.scene)
        for place in list(self.scrolls):
            panel = self.scene.panel(place)
            if panel is not None:
                self.scrolls[place] = min(self.scrolls[place], panel.scroll_limit)
            elif place is not WindowPart.PAGE:
                # A page that gives way to a cube and its card comes back as it was.
                self.scrolls[place] = 0.0
        self._left_at = dict(self.scrolls)
        anew = before is None or opens
        opens |= self._show_what_is_new(anew=anew)
        if view.focus != self._focus:
            self._focus = view.focus
            self._reveal([box for _, box in self.scene.boxes() if box.focused])
        self._follow(anew=anew, opens=opens)

    def _keep_in_sight(self, before: Scene, after: Scene) -> None:
        """Scroll so that what was in sight in other measures is in sight again.

        A window is resized in many small steps, and what is in sight must not wander off with them. So all
        steps go by what was in sight before the first, until somebody scrolls.
        """
        if self._origin is None or self.scrolls != self._left_at:
            self._origin = before, {panel.place: self._scroll(panel) for panel in before.panels}
        origin, offsets = self._origin
        for panel in after.panels:
            earlier = origin.panel(panel.place)
            if earlier is not None and panel.scroll_limit > 0:
                offset = offsets[panel.place]
                self.scrolls[panel.place] = scroll_in_new_measures(earlier, offset, panel)

    def _show_what_is_new(self, *, anew: bool) -> bool:
        """Read another card from its top, and show what was said just now; whether the card is another one.

        Unless it is shown ``anew``, a card that looks another one is the same in other measures.
        """
        assert self.scene is not None
        card = self.scene.panel(WindowPart.CARD)
        boxes = card.boxes if card else ()
        head = tuple(words_of(box) for box in boxes[:_HEAD])
        another = anew and head != self._head
        if another:
            self.scrolls.pop(WindowPart.CARD, None)
        fresh = [box for box in boxes if box.fresh]
        said = tuple(words_of(box) for box in fresh)
        if card and fresh and anew and said != self._said:
            # From the card's top, so that as much as there is room for is in sight of what was asked.
            self.scrolls[WindowPart.CARD] = scroll_to_show(card, 0.0, fresh[-1].rect)
        self._head, self._said = head, said
        return another

    def _follow(self, *, anew: bool, opens: bool) -> None:
        """Show the net's cursor and the field typed into wherever they move; not where only measures do."""
        assert self.scene is not None
        cursors = [box for _, box in self.scene.boxes() if is_cursor(box)]
        cursor = cursors[0].rect if cursors else None
        if cursor != self._cursor:
            self._cursor = cursor
            self._reveal(cursors if anew else [])
        fields = [box for _, box in self.scene.boxes() if box.caret]
        caret = fields[0].caret if fields else None
        if caret != self._caret:
            self._caret = caret
            # A screen or card begins at its top; from then on the field is in sight, though pushed down.
            self._reveal(fields if anew and not opens else [])

    def _reveal(self, boxes: list[Box]) -> None:
        """Scroll the boxes' panels so that they are in sight."""
        assert self.scene is not None
        for panel, box in self.scene.boxes():
            if panel.scroll_limit > 0 and any(box is wanted for wanted in boxes):
                self.scrolls[panel.place] = scroll_to_show(panel, self._scroll(panel), box.rect)

    def _scroll(self, panel: Panel) -> float:
        return min(self.scrolls.get(panel.place, 0.0), panel.scroll_limit)

    # -- where things are

    def _panel_at(self, x: float, y: float) -> Panel | None:
        """The topmost panel there; an overlay keeps everything beneath it from the pointer."""
        assert self.scene is not None
        overlay = self.scene.panel(WindowPart.OVERLAY)
        panels = (overlay,) if overlay else self.scene.panels
        return next((panel for panel in panels if panel.rect.contains(x, y)), None)

    def box_at(self, x: float, y: float) -> Box | None:
        """The box with an action there, if it can be used."""
        panel = self._panel_at(x, y) if self.scene else None
        if panel is None:
            return None
        y += self._scroll(panel)
        found = [box for box in panel.boxes if box.action and box.enabled and box.rect.contains(x, y)]
        return found[-1] if found else None

    def _on_stage(self, x: float, y: float) -> Rect | None:
        scene = self.scene
        if scene is None or scene.stage is None or scene.panel(WindowPart.OVERLAY):
            return None
        return scene.stage if scene.stage.contains(x, y) else None

    def _playhead_y(self, y: float) -> float:
        assert self.scene is not None
        rail = self.scene.panel(WindowPart.RAIL)
        return y + (self._scroll(rail) if rail else 0.0)

    def _scrubs(self, x: float, y: float) -> bool:
        panel = self._panel_at(x, y)
        playhead = self.scene.playhead if self.scene else None
        return bool(
            playhead
            and panel
            and panel.place is WindowPart.RAIL
            and playhead.area.contains(x, self._playhead_y(y))
        )

    def cursor(self, x: float, y: float) -> str:
        """The pointer's look there: ``text``, ``hand`` or the usual arrow ``""``."""
        box = self.box_at(x, y)
        if box is None:
            return ""
        return "text" if box.kind is BoxKind.FIELD else "hand"

    @property
    def holding(self) -> bool:
        """Whether the pointer has something pressed, to click or to drag it."""
        return self._press is not None

    # -- what the pointer does; each returns the inputs it means

    def move(self, x: float, y: float) -> bool:
        """The pointer moved with nothing held; True when that changes the picture."""
        box = self.box_at(x, y)
        self._at = (x, y) if min(x, y) >= 0 else None
        pointer = replace(self.pointer, hover=box.action if box else None, light=self._light())
        changed = pointer != self.pointer
        self.pointer = pointer
        return changed

    def press(self, x: float, y: float) -> list[Input]:
        """The main button went down."""
        self._press = press = self._pressed(x, y)
        if press:
            press.last = (x, y)
            self.pointer = replace(self.pointer, pressed=press.action)
        return []

    def _pressed(self, x: float, y: float) -> _Press | None:
        stage = self._on_stage(x, y)
        panel = self._panel_at(x, y) if self.scene else None
        box = self.box_at(x, y)
        action = box.action if box else None
        if panel is not None:
            bar = scrollbar(panel, self._scroll(panel))
            if bar and bar[0].inset(-4, 0).contains(x, y):
                return _Press(x, y, "scrollbar", place=panel.place)
            if self._scrubs(x, y):
                return _Press(x, y, "rail", action)
            return _Press(x, y, "box", action) if action else None
        if stage is not None and self.view and self.view.stage:
            size = (stage.width, stage.height)
            point = (x - stage.x, y - stage.y)
            grip = self.hand.grip(self.view.stage, self.view.look, size, *point) if self.hand else None
            return _Press(x, y, "sticker" if grip else "background", grip=grip)
        return None

    def drag(self, x: float, y: float) -> list[Input]:
        """The pointer moved with the main button down."""
        press = self._press
        if press is None:
            return []
        before, press.last = press.last, (x, y)
        least = FOLLOW if press.kind == "sticker" else DRAG
        travel = max(abs(x - press.x), abs(y - press.y))
        press.far = press.far or travel >= DRAG
        if not press.dragged and travel < least:
            return []
        if not press.dragged and press.kind == "background":
            before = (press.x, press.y)
        press.dragged = True
        match press.kind:
            case "rail":
                self.pointer = replace(self.pointer, pressed=None)
                return self._scrub(x)
            case "background":
                return [Looked(LOOK * (before[0] - x), LOOK * (y - before[1]))]
            case "sticker":
                return self._drag_layer(press, x, y)
            case "scrollbar":
                self._drag_scrollbar(press, before[1], y)
        return []

    def _scrub(self, x: float) -> list[Input]:
        playhead = self.scene.playhead if self.scene else None
        return [Scrubbed(playhead.position_of(x))] if playhead else []

    def _drag_layer(self, press: _Press, x: float, y: float) -> list[Input]:
        stage = self.scene.stage if self.scene else None
        if press.grip is None or stage is None:
            return []
        place = x - stage.x, y - stage.y
        layer = press.grip.drag(*place)
        if press.layer is None and press.grip.holds_still(*place):
            # Nothing turns this way, so the hand takes the whole cube and looks round.
            press.kind = "background"
            return [Looked(LOOK * (press.x - x), LOOK * (y - press.y))]
        if layer and (press.layer is None or not press.decided or layer[0] is press.layer[0]):
            # Once it is clear which layer moves, the hand keeps that layer.
            press.layer = layer
        press.decided = press.decided or press.grip.decided(*place)
        return [LayerDragged(*press.layer)] if press.layer else []

    def _drag_scrollbar(self, press: _Press, before: float, y: float) -> None:
        panel = self.scene.panel(press.place) if self.scene and press.place else None
        bar = scrollbar(panel, self._scroll(panel)) if panel else None
        if panel is None or bar is None:
            return
        travel = max(1.0, bar[0].height - bar[1].height)
        self._scroll_by(panel, (y - before) * panel.scroll_limit / travel)

    def let_go(self) -> list[Input]:
        """The main button went up, and maybe another window heard of it: what was dragged stays there."""
        press, self._press = self._press, None
        self.pointer = replace(self.pointer, pressed=None)
        if press is None:
            return []
        if press.kind == "background":
            return [LookReleased()] if press.dragged else []
        return [LayerReleased(*press.layer)] if press.layer else []

    def release(self, x: float, y: float) -> list[Input]:
        """The main button went up here."""
        press, let_go = self._press, self.let_go()
        if press is None or press.kind == "background":
            return let_go
        if press.kind == "sticker" and press.grip:
            # A hand that trembles while it clicks still points at the sticker.
            return let_go if press.far else [*let_go, StickerPressed(press.grip.sticker)]
        if press.kind == "rail" and not press.dragged and not press.action:
            return self._scrub(x)
        box = self.box_at(x, y)
        if (
            press.action
            and not (press.kind == "rail" and press.dragged)
            and box
            and box.action == press.action
        ):
            return [Activated(press.action)]
        return []

    def wheel(self, x: float, y: float, notches: float) -> list[Input]:
        """The wheel turned; positive is away from the person: nearer on the stage, up in a panel."""
        if self._on_stage(x, y) is not None:
            return [Zoomed(notches)]
        panel = self._panel_at(x, y) if self.scene else None
        if panel is not None and panel.place is WindowPart.FOOT and self.scene:
            panel = self.scene.panel(WindowPart.CARD)
        if panel is not None:
            self._scroll_by(panel, -notches * NOTCH)
        return []

    def page_key(self, key: str) -> bool:
        """Scroll by a page key what is uppermost and can scroll; True when it was one."""
        scene = self.scene
        if scene is None or key not in ("page up", "page down", "home", "end"):
            return False
        order = (
            (WindowPart.OVERLAY,) if scene.panel(WindowPart.OVERLAY) else (WindowPart.PAGE, WindowPart.CARD)
        )
        panel = next((panel for place in order if (panel := scene.panel(place))), None)
        if panel is None or panel.scroll_limit <= 0:
            return False
        page = 0.85 * panel.rect.height
        self._scroll_by(panel, {"page up": -page, "page down": page, "home": -1e9, "end": 1e9}[key])
        return True

    def _scroll_by(self, panel: Panel, by: float) -> None:
        self.scrolls[panel.place] = min(max(0.0, self._scroll(panel) + by), panel.scroll_limit)
