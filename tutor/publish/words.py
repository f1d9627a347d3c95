"""What handouts say: titles, legends, captions, and why one cannot be made."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from tutor.counting import counted, figured
from tutor.method.terms import Family, Step

# ------------------------------------------------------------------------------------------------- cases

ALL_CASES = "The 41 cases"


def where_shown(slot: str, top: str) -> str:
    """The slot of a case; ``top`` is the turn that takes the top away from the case's name, or empty."""
    return f"Slot {slot}, with the top turned by {top}" if top else f"Slot {slot}"


def after_setup(setup: str) -> str:
    """The title of a cube that a setup made."""
    return f"After {setup}" if setup.strip() else "The solved cube"


def family_heading(family: Family) -> str:
    """The heading over the cases of a family."""
    return f"{family.value[:1].upper()}{family.value[1:]}"


# ------------------------------------------------------------------------------------------------- films

SLOWLY = "slowly"
AT_REAL_SPEED = "at real speed"

FIND = "Find the corner and its edge."
STEP_CAPTIONS: Mapping[Step | None, str] = {
    Step.RAISE: "Raise: lift both pieces to the top layer.",
    Step.PART: "Part: move the two apart, so that you can join them.",
    Step.JOIN: "Join: bring the two together, colour to colour.",
    Step.INSERT: "Insert: slide the pair into its slot.",
}
"""The caption of each step of a route."""
IN_ITS_SLOT = "The pair is in its slot."


def step_name(step: Step) -> str:
    """The name over the turns of a step."""
    return step.value.capitalize()


def line_caption(turns: int) -> str:
    """The caption of a line."""
    return f"A shortest line takes {counted(turns, 'turn')}."


# ---------------------------------------------------------------------------------------- pages and sheets

FILMS_LEAD = (
    "A case is one way the two pieces can lie while the cross and the other pairs are solved. "
    "Press a picture to play it."
)
PLAY, STOP = "Play", "Stop"
LINE, MIRROR, OWN_WORDS = "Line", "Mirror", "In your own words"


def own_words(text: str) -> str:
    """The learner's own line under the name of a case."""
    return f"{OWN_WORDS}: {text}"


def slot_of_card(slot: str) -> str:
    """The slot of a film on the page of films."""
    return f"Slot {slot}"


def mirror_label(slot: str) -> str:
    """The word beside the line of the mirror image."""
    return f"{MIRROR} {slot}"


def sheet_title(cases: int, slot: str, *, every: bool) -> str:
    """The title of a sheet; ``every`` says that it shows all cases."""
    return f"{ALL_CASES if every else counted(cases, 'case').capitalize()} in slot {slot}"


def sheet_legend(cross: str, letters: Sequence[tuple[str, str]]) -> str:
    """How to read a sheet; ``letters`` are those on the stickers, each with its colour."""
    hold = f"Hold the cube with the {cross} cross down. {_KEPT}"
    named = ", ".join(f"{letter} {colour}" for letter, colour in letters)
    stickers = f" The letters on the stickers name colours: {named}." if named else ""
    return f"{hold} {_TURNS} {_STEPS} {_LINE} {_MIRROR}{stickers}"


_KEPT = "The cross and the other three pairs are solved, and they stay solved."
_TURNS = (
    "U is the top, R the right, L the left, F the front and B the back. A letter turns that side a quarter "
    "clockwise, as you look straight at it. With ' it turns the other way, and with 2 it turns half round."
)
_STEPS = (
    "“Raise” lifts both pieces to the top layer, and “Part” moves them apart. "
    "“Join” brings them together, and “Insert” slides the pair into its slot. "
    "Some steps are done before you start."
)
_LINE = "“Line” is a shortest way by hand: it turns only the top and the two faces beside the slot."
_MIRROR = "“Mirror” is that line for the mirror image, in the slot where the mirror shows it."
PRESS_FOR_ROUTE = "Press a picture to see its route."


def page_number(page: int, pages: str) -> str:
    """The foot of a sheet."""
    return f"Page {page} of {pages}"


# ----------------------------------------------------------------------------------- what cannot be shown

ALREADY_SOLVED = "the pair is already solved, so there is nothing to show; choose another slot or setup"
NO_ROUTE = "there is no route from this position; write --show line instead"
NO_TURNS = "there are no turns to show; write some, or ask for the route or the line"


def shows_no_turns(lesson: str) -> str:
    """A lesson has no scene that a film could show."""
    return f"no scene of the lesson “{lesson}” shows turns, and a film needs one; choose another lesson"


def begins_with_no_case(lesson: str) -> str:
    """A lesson has no case that a sheet could print."""
    return (
        f"no scene of the lesson “{lesson}” begins with a case, and a sheet needs one; choose another lesson"
    )


def too_long(minutes: float, most: float) -> str:
    """A film would take too long."""
    told = f"the film would take {minutes:.0f} minutes, and {most:.0f} is the most"
    return f"{told}; show fewer turns, or show them faster"


# ------------------------------------------------------------------------------------ names, sizes, packages


def one_of(choices: Iterable[str]) -> str:
    """The choices with “or” before the last."""
    *others, last = choices
    return f"{', '.join(others)} or {last}"


def no_kind_of_film(suffix: str, kinds: Iterable[str]) -> str:
    """The end of a film's name says no format."""
    said = f"“{suffix}” is not a kind of film" if suffix else "the name does not say which kind of film"
    return f"{said}; end the name in {one_of(kinds)}"


def no_room(width: int, height: int) -> str:
    """The words of a film leave too little of it to the cube."""
    return f"a film of {width}x{height} has no room for the cube; choose a larger size, for instance 640x480"


def odd_sides(width: int, height: int) -> str:
    """MP4 takes even sides only."""
    even = f"{width + width % 2}x{height + height % 2}"
    return f"an MP4 film needs an even width and height, and {width}x{height} is odd; choose {even}"


def no_mp4(install: str, kinds: Iterable[str]) -> str:
    """The package for MP4 is absent."""
    return (
        f"an MP4 film needs the package av, which is not installed here; {install} (about 105 MB), "
        f"or end the name in {one_of(kinds)}"
    )


def no_pdf(install: str) -> str:
    """The package for PDF is absent."""
    return (
        f"a PDF sheet needs the package fpdf2, which is not installed here; {install} (35 MB), "
        "or end the name in .html"
    )


def install_in(command: str, folder: str) -> str:
    """What to type, and in which folder."""
    return f"type “{command}” in the folder {folder}"


def install_anywhere(command: str) -> str:
    """What to type, wherever one is."""
    return f"type “{command}”"


# ----------------------------------------------------------------------------------------------- the disk


def is_folder(path: str) -> str:
    """A folder is where a file should go."""
    return f"{path} is a folder; add the name of a file"


def already_there(path: str) -> str:
    """A file would be replaced."""
    return f"{path} already exists; choose another name, or add --force to replace it"


def no_folder(path: str) -> str:
    """The folder to write to is missing."""
    return f"there is no folder {path}; make it first, or choose another"


def not_written(path: str, reason: str) -> str:
    """The system refuses a file."""
    return f"the program cannot write {path}: {reason}; choose another folder, or make room in this one"


def other_films(path: str, others: int) -> str:
    """Files in the folder of films are not those that are wanted."""
    if not others:
        said, them = f"{path} already exists and is not the film you want", "it"
    else:
        said = f"{path} and {figured(others, 'other file')} already exist and are not the films you want"
        them = "them"
    return f"{said}; choose another folder, or add --force to replace {them}"
