"""What ``picture``, ``film`` and ``sheet`` say alike: their common options and mistakes."""

from __future__ import annotations

from collections.abc import Sequence

from tutor.publish.words import one_of

CASE_HELP = "a case: its number, such as 14, or its name; “pairwright cases” lists all"
SETUP_HELP = "instead of a case: moves from a solved cube"
SLOT_HELP = "FR, FL, BL or BR; without it, a case is in FR"
TOP_HELP = "with a case: turn the top by U, U2 or U'"
THEME_HELP = "the paper and the text, usually light"
PALETTE_HELP = "the colours of the stickers"
LETTERS_HELP = "letters on the stickers"
MIRRORS_HELP = "mirrors behind and below the cube"
MARKS_HELP = "mark the pair and its slot, and dim the rest"
CAMERA_HELP = "look from so many degrees to the right and from above, usually 32,28"
FORCE_HELP = "replace a file that already exists"

WRITE_A_CASE = "write what to show: either a case, for instance 14, or --setup with moves"
TOP_WITHOUT_CASE = "--top works only with a case; write that turn at the end of the setup instead"


def size_help(usual: str) -> str:
    """The size of a picture."""
    return f"pixels across and down, usually {usual}"


def cross_help(colours: Sequence[str]) -> str:
    """The colours to choose from."""
    return f"the cross colour: {one_of(colours)}; usually white"


def no_case(name: str, near: Sequence[str], most: int) -> str:
    """No case has this number or name; ``near`` are the names most like it."""
    advice = f"did you mean {one_of(near)}? " if near else f"write a number from 1 to {most}; "
    return f"there is no case “{name}”; {advice}“pairwright cases” lists all"


def no_size(text: str, least: int, most: int) -> str:
    """A size cannot be read, or is too small or too large."""
    return f"“{text}” is not a size; write for instance 1280x720, with sides from {least} to {most}"


def no_view(text: str) -> str:
    """A view cannot be read, or looks from where nothing can be seen."""
    advice = "write two numbers, for instance 32,28: the first from -180 to 180, the second from -60 to 60"
    return f"“{text}” is not a view; {advice}"


def bad_lesson(first: str, *, more: bool) -> str:
    """A lesson cannot be read; ``first`` is its first mistake. How many there are the check alone knows."""
    return f"{first} There is more; “pairwright lesson check FILE” lists it all" if more else first


def needs_pair(show: str) -> str:
    """A route or line where no pair is in question."""
    return f"a {show} needs a pair to solve; name its slot with --slot, or write turns after --show"
