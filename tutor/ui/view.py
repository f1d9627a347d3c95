"""What a screen shows, as plain values: the only thing the renderer is given.

Space is right-handed with x to the right (face R), y up (face U) and z towards the viewer (face F).
The 27 cubies lie at coordinates -1, 0, 1; a cubie's index is ``9 * (x + 1) + 3 * (y + 1) + (z + 1)``.
The 54 stickers are numbered ``9 * face + 3 * row + column``, rows downwards and columns to the right
as the face is seen from outside, with these faces upmost on the page: B above U, F above D, U above the
four sides. Everything is in the frame of the cube as held, so the renderer knows nothing of viewpoints.
"""

from __future__ import annotations

from enum import Enum

from msgspec import Struct, field

from tutor.cube.faces import Face as Face
from tutor.cube.faces import Turn as Turn
from tutor.ui.action import Action as Action
from tutor.ui.plots import PlotGrid as PlotGrid

HIDDEN = -1
"""A sticker's colour when an exercise hides it: drawn as bare, neutral plastic."""


# ---------------------------------------------------------------------------------------------- stage


class Turning(Struct, frozen=True):
    """A layer on its way: ``angle`` in radians, clockwise positive as seen from outside ``face``.

    ``layers`` counts from the face inwards: 1 a face turn, 2 a wide turn, 3 the whole cube.
    """

    face: Face
    angle: float
    layers: int = 1


class Camera(Struct, frozen=True):
    """Where the cube is seen from: degrees round the upright axis, degrees above the horizon, zoom factor.

    A positive yaw shows more of the right side. The rest view shows the faces F, R and U.
    """

    yaw: float = 32.0
    pitch: float = 28.0
    zoom: float = 1.0


REST_CAMERA = Camera()


class Arrow(Struct, frozen=True):
    """A coming turn, drawn as a curved arrow that hugs its layer."""

    turn: Turn


class Stage(Struct, frozen=True):
    """The cube and everything marked on it.

    Cubie and sticker numbers mean places before ``turning`` is applied; marks travel with the layer.
    """

    colours: tuple[int, ...]
    """54 palette colour numbers (0..5, in the order of Face for the cube as first held), or HIDDEN."""
    turning: Turning | None = None
    camera: Camera = REST_CAMERA
    dimmed: frozenset[int] = frozenset()
    """Cubies that do not matter now."""
    outlined: frozenset[int] = frozenset()
    """Cubies of the target pair: each of their stickers has a ring."""
    framed: frozenset[int] = frozenset()
    """Places (cubie numbers) of the target slot: a frame that stays put while layers turn."""
    filled: bool = False
    """Whether the slot has its pair: its frame is whole then, and dashed before."""
    glowing: frozenset[int] = frozenset()
    """Cubies to look at now (first rung of a hint)."""
    arrow: Arrow | None = None
    crossfade: tuple[int, ...] | None = None
    """With reduced motion: the 54 colours faded from, instead of a turning layer."""
    crossfade_mix: float = 1.0
    """0 shows ``crossfade`` alone, 1 shows ``colours`` alone."""


# --------------------------------------------------------------------------------------------- blocks


class TextStyle(Enum):
    """How a text is set."""

    TITLE = "title"
    HEADING = "heading"
    BODY = "body"
    QUESTION = "question"
    SMALL = "small"


class Tone(Enum):
    """What a text or mark means; each tone has its own icon, so that colour is never alone."""

    PLAIN = "plain"
    MUTED = "muted"
    GOOD = "good"
    NEUTRAL = "neutral"
    WARNING = "warning"


class Mark(Enum):
    """The small sign beside a verdict or on a tile."""

    NONE = "none"
    OPTIMAL = "optimal"
    ACCEPTABLE = "acceptable"
    DETOUR = "detour"
    WAITING = "waiting"
    MAKING = "making"
    """A turn that may still become a good one."""


class Text(Struct, frozen=True):
    """A paragraph; wraps to the width it is given."""

    text: str
    style: TextStyle = TextStyle.BODY
    tone: Tone = Tone.PLAIN
    fresh: bool = False
    """Said just now, as a verdict is: on a card it is scrolled into sight."""


class Chevron(Enum):
    """The small arrow on a button of the bar."""

    NONE = "none"
    BACK = "back"
    """It leads back, and stands before the title."""
    MENU = "menu"
    """It opens a small sheet of buttons."""


class Button(Struct, frozen=True):
    """Something to press. ``action`` comes back when it is; ``key`` is shown as a hint.

    As long as ``key`` is None it is still to be put in: whatever key gives the action.
    """

    action: Action
    label: str
    key: str | None = None
    primary: bool = False
    enabled: bool = True
    selected: bool = False
    detail: str = ""
    """A second, quieter line."""
    choice: bool = False
    """One of several answers to what the card asks: across its width, and large where there is room."""
    chevron: Chevron = Chevron.NONE


class ButtonRow(Struct, frozen=True):
    """Buttons side by side; they wrap when the width is short."""

    buttons: tuple[Button, ...]


class VerdictNote(Struct, frozen=True):
    """A verdict: its sign, its word and what is said about it."""

    mark: Mark
    title: str
    text: str = ""


class Entry(Struct, frozen=True):
    """A field to type into."""

    action: Action
    label: str
    text: str
    caret: int
    focused: bool = False
    error: str = ""
    error_column: int | None = None
    """Counted from 0, or None."""
    chosen: bool = False
    """Whether all of the text is chosen, so that what is typed takes its place."""


class Table(Struct, frozen=True):
    """Rows of cells under a header; columns as wide as their widest cell, the last one wraps."""

    header: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


class Gap(Struct, frozen=True):
    """Empty space, in steps of 8 px."""

    steps: int = 1


class Progress(Struct, frozen=True):
    """A thin line with a caption, filled by ``fraction`` (0 to 1)."""

    caption: str
    fraction: float


class Group(Struct, frozen=True):
    """Blocks that belong together, drawn on a slightly raised ground."""

    blocks: tuple[Block, ...]


class Miniature(Struct, frozen=True):
    """A small cube to press, with its name beneath; drawn without mirrors.

    ``badge`` is a sign in its corner that says how well the case is remembered; ``tone`` goes with it.
    ``tip`` shows, line by line, while it is pointed at or has the focus.
    """

    action: Action | None
    label: str
    stage: Stage
    badge: str = ""
    tone: Tone = Tone.PLAIN
    selected: bool = False
    solid: bool = False
    """On a map: the badge's ground is full of its tone, else only tinged with it."""
    dotted: bool = False
    tip: tuple[str, ...] = ()
    number: str = ""
    """On a map: the case's number, in the corner of its cell."""


class MiniatureGrid(Struct, frozen=True):
    """Small cubes in rows, as many side by side as fit; as a ``map`` smaller, over badge and label."""

    miniatures: tuple[Miniature, ...]
    map: bool = False


class Legend(Struct, frozen=True):
    """What badges of a map mean: for each its letter, tone, whether it is solid, and words."""

    entries: tuple[tuple[str, Tone, bool, str], ...]


class MapCell(Struct, frozen=True):
    """A sign in its tone, its ground full of it when ``solid``; without a ground where it is MUTED."""

    badge: str
    tone: Tone
    solid: bool = False
    dotted: bool = False


class MapRow(Struct, frozen=True):
    """What begins and ends a row of a map: a name to press, and a figure."""

    action: Action | None
    name: str
    figure: str


class MapColumn(Struct, frozen=True):
    """A column to press, with a cell for each row; ``tip`` as for a miniature."""

    action: Action | None
    head: str
    cells: tuple[MapCell, ...]
    selected: bool = False
    tip: tuple[str, ...] = ()


class CaseMap(Struct, frozen=True):
    """Rows by columns; columns that do not fit beside the others go on below, with the names again.

    ``ends`` stand over the first and the last column.
    """

    rows: tuple[MapRow, ...]
    columns: tuple[MapColumn, ...]
    ends: tuple[str, str] = ("", "")


class Swatch(Struct, frozen=True):
    """A colour to take in hand; HIDDEN stands for erasing. ``tone`` says what its count means."""

    action: Action
    colour: int
    label: str
    selected: bool = False
    tone: Tone = Tone.PLAIN


class Palette(Struct, frozen=True):
    """Colours to take in hand, side by side."""

    swatches: tuple[Swatch, ...]


class Net(Struct, frozen=True):
    """The cube unfolded into a cross of six faces: U above F, D below it, L F R B in a row.

    ``colours`` are 54 colour numbers or HIDDEN. ``actions`` has what a press on each sticker does, None for
    nothing. Keys act on the sticker at ``cursor``; ``marked`` stickers have something wrong with them.
    """

    colours: tuple[int, ...]
    actions: tuple[Action | None, ...]
    cursor: int | None = None
    marked: frozenset[int] = frozenset()


_Set = Text | VerdictNote | Entry | Table | Gap | Progress | Group
Block = _Set | Button | ButtonRow | MiniatureGrid | CaseMap | Palette | Net | Legend | PlotGrid


# ----------------------------------------------------------------------------------------------- rail


class BayState(Enum):
    """How far a step is."""

    DONE = "done"
    CURRENT = "current"
    AHEAD = "ahead"


class Tile(Struct, frozen=True):
    """One turn on the rail. ``action`` (if any) jumps to it."""

    label: str
    mark: Mark = Mark.NONE
    played: bool = False
    current: bool = False
    action: Action | None = None
    off_rail: bool = False
    """In the learner's row: the turn left the rail (a detour or its way back); drawn one step lower."""
    bay: int | None = None
    """In the learner's row: the bay of the step that it was made in; None for the one under way."""


class Bay(Struct, frozen=True):
    """One of the five steps with the turns of the route that belong to it."""

    title: str
    state: BayState
    tiles: tuple[Tile, ...] = ()


class Rail(Struct, frozen=True):
    """The five bays with the turns of a route or the learner's own, or both to compare, and the playhead.

    ``playhead`` counts turns from the start with a fraction inside a turn; None hides it. It belongs to the
    bays' tiles when ``scrubs_route`` is true, otherwise to the learner's row.
    """

    bays: tuple[Bay, ...] = ()
    own: tuple[Tile, ...] = ()
    playhead: float | None = None
    scrubs_route: bool = False
    caption: str = ""
    controls: tuple[Button, ...] = ()
    """Buttons that play what the rail shows: back, on, pause. They stand at the card's foot."""
    pace: tuple[Button, ...] = ()
    """Buttons for its speed, in quiet form beneath the others."""
    unsettled: str = ""
    """What is said while a slot is lifted, or the cross or a solved pair is out; empty when none is."""
    row_names: tuple[str, str] = ("", "")
    """What the route's row and the learner's are called where both are shown, one under the other."""


# ---------------------------------------------------------------------------------------------- whole


class Look(Struct, frozen=True):
    """How everything is drawn."""

    theme: str = "light"
    """Name of a theme in assets/themes."""
    palette: str = "usual"
    """Name of a sticker palette in assets/palettes."""
    text_scale: float = 1.0
    """1.0 to 2.0."""
    mirrors: bool = True
    mirror_below: bool = True
    """Whether there is, of the mirrors, also the one below the cube; without it the cube is larger."""
    arrangement: tuple[int, ...] = (0, 1, 2, 3, 4, 5)
    """Which of the palette's colours each face of the cube as first held has, in the order of Face."""
    letters: bool = False
    """Letters on the stickers, so that colour is never the only sign."""


class Board(Struct, frozen=True):
    """What a group reads beside a large cube; its letters grow with the window.

    The view's card goes beneath it: buttons with the answers of a question, and the main button.
    """

    line: str
    """What is said, above the cube."""
    hidden: str = ""
    """In place of the answer, in a frame."""
    step: str = ""
    turn: str = ""
    """The turn that is shown or made, larger than all else."""
    way: tuple[str, ...] = ()
    """The turns of a route."""
    at: int | None = None
    """Which of them is shown."""
    spotlight: bool = False
    """Whether all but what the pointer points at is shaded."""


class View(Struct, frozen=True):
    """A screen: either a ``page`` (full width, two columns when wide) or a stage with a card."""

    screen: str
    """The name of the room that shows it."""
    title: str
    bar: tuple[Button, ...] = ()
    """Buttons in the top bar, from the left; the title stands after one that leads back."""
    more: tuple[Button, ...] = ()
    """Buttons on the sheet that the bar's last button opens."""
    place: str = ""
    """Where one is, in a word or two, beside the title."""
    page: tuple[tuple[Block, ...], ...] = ()
    """Columns of blocks of a screen without a stage, left to right; stacked when the window is narrow."""
    stage: Stage | None = None
    board: Board | None = None
    """With a stage: it is as large as the window allows, and the bar is at the window's foot."""
    card: tuple[Block, ...] = ()
    foot: tuple[Block, ...] = ()
    """What stays in sight at the card's bottom: the way on and back, and help."""
    rail: Rail | None = None
    overlay: tuple[Block, ...] = ()
    """Drawn over everything, for instance the key table; Esc closes it."""
    notice: str = ""
    """A line at the foot of the page or of the stage, for instance how far the setup is."""
    focus: Action | None = None
    """The action that has the keyboard's focus."""
    look: Look = field(default_factory=Look)

    @property
    def takes_typing(self) -> bool:
        """Whether a field takes what is typed."""
        columns = (self.overlay,) if self.overlay else (self.card, self.foot, *self.page)
        return any(_takes_typing(block) for column in columns for block in column)


def _takes_typing(block: Block) -> bool:
    if isinstance(block, Group):
        return any(map(_takes_typing, block.blocks))
    return isinstance(block, Entry) and block.focused
