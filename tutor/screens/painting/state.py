"""A cube being painted: its stickers, the cursor, the colour in hand, and every change to undo and redo."""

from __future__ import annotations

from enum import Enum

from msgspec import Struct
from msgspec.structs import replace

from tutor.cube.faces import FACES, Face
from tutor.cube.geometry import FACE_OF_NORMAL, STICKER_AT, STICKERS, Vector
from tutor.cube.legality import BLANK
from tutor.session.holder import Holder

Colours = tuple[int, ...]
CENTRES = tuple(9 * face + 4 for face in FACES)
NET_ORDER = (Face.U, Face.L, Face.F, Face.R, Face.B, Face.D)
"""The faces in the order in which you read them on the unfolded cube."""
PATH = tuple(9 * face + place for face in NET_ORDER for place in range(9) if place != 4)
"""The 48 stickers that a person paints, in the order in which the cursor moves by itself."""


class Heading(Enum):
    """A way for the cursor on the unfolded cube; the value is its step along rows and columns."""

    UP = (-1, 0)
    DOWN = (1, 0)
    LEFT = (0, -1)
    RIGHT = (0, 1)


class Painting(Struct, frozen=True):
    """54 colour numbers, BLANK where nothing is painted yet; the centres are given.

    ``cursor`` is the sticker that keys paint, ``brush`` the colour that a click paints (BLANK erases).
    ``earlier`` and ``later`` are the colours that undo and redo lead to, the nearest last.
    """

    colours: Colours
    cursor: int = PATH[0]
    brush: int = int(Face.D)
    earlier: tuple[Colours, ...] = ()
    later: tuple[Colours, ...] = ()

    @property
    def blank(self) -> Colours:
        """The centres alone."""
        return tuple(c if place in CENTRES else BLANK for place, c in enumerate(self.colours))

    @property
    def solved(self) -> Colours:
        """Every face in the colour of its centre."""
        return tuple(self.colours[9 * (place // 9) + 4] for place in range(54))

    @property
    def painted(self) -> int:
        """Stickers painted so far, centres not counted."""
        return sum(self.colours[place] != BLANK for place in PATH)

    def with_colours(self, colours: Colours) -> Painting:
        """The painting after a change, which leaves nothing to redo."""
        if colours == self.colours:
            return self
        return replace(self, colours=colours, earlier=(*self.earlier, self.colours), later=())

    def with_sticker(self, sticker: int, colour: int) -> Painting:
        """The painting with one sticker painted or erased, and the cursor there; a centre stays as it is."""
        there = replace(self, cursor=sticker)
        if sticker in CENTRES:
            return there
        return there.with_colours((*self.colours[:sticker], colour, *self.colours[sticker + 1 :]))

    def stepped(self, step: int) -> Painting:
        """The cursor on the next sticker to paint, or the one before; from a centre as from its middle."""
        order = [place for face in NET_ORDER for place in range(9 * face, 9 * face + 9)]
        index = order.index(self.cursor) + step
        while order[index % 54] in CENTRES:
            index += step
        return replace(self, cursor=order[index % 54])

    def moved(self, heading: Heading) -> Painting:
        """The cursor on the neighbouring sticker, over the edge of the cube where the face ends."""
        return replace(self, cursor=neighbour(self.cursor, heading))

    def undone(self) -> Painting:
        """The painting with the last change undone."""
        if not self.earlier:
            return self
        *earlier, before = self.earlier
        return replace(self, colours=before, earlier=tuple(earlier), later=(*self.later, self.colours))

    def redone(self) -> Painting:
        """The painting with the change undone last made once more."""
        if not self.later:
            return self
        *later, after = self.later
        return replace(self, colours=after, later=tuple(later), earlier=(*self.earlier, self.colours))


def neighbour(sticker: int, heading: Heading) -> int:
    """The sticker beside another one, as its face is seen on the unfolded cube."""
    face, place = divmod(sticker, 9)
    row, column = place // 3 + heading.value[0], place % 3 + heading.value[1]
    if 0 <= row < 3 and 0 <= column < 3:
        return 9 * face + 3 * row + column
    # Beyond the edge lies the other sticker of the same piece that looks that way.
    beside = 9 * face + 4 + 3 * heading.value[0] + heading.value[1]
    (x, y, z), (middle_x, middle_y, middle_z) = STICKERS[beside][0], STICKERS[9 * face + 4][0]
    way: Vector = (x - middle_x, y - middle_y, z - middle_z)
    return STICKER_AT[STICKERS[sticker][0], FACE_OF_NORMAL[way]]


PAINTING: Holder[Painting | None] = Holder("painting", None)
"""The learner's own cube as far as it is painted; None before that."""
