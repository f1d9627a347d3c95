"""What handouts say: titles, legends, captions, and why one cannot be made."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date

from tutor.counting import counted, figured
from tutor.method.terms import Family, Step

# ----------------------------------------------------------------------------------------------- a group

GROUP = "The group"
EVENING, WHO_REMEMBERS, HARDEST_CASES = "The last evening", "Who remembers which case", "The hardest cases"
NOT_MET_SIGN = "·"


def group_lead(members: int) -> str:
    """Whom the page is about."""
    return f"This page shows how {counted(members, 'learner')} remember the 41 cases."


def signs_legend(signs: Iterable[tuple[str, str]]) -> str:
    """What the signs of the map mean."""
    listed = ", ".join(f"{sign} {word}" for sign, word in signs)
    return (
        f"{listed}, {NOT_MET_SIGN} not met yet. A dot in a corner means the case is on today's list. "
        "The last figure counts slipping cases. The hardest case comes first."
    )


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
SLIP = "Slip"
IN_ITS_SLOT = "The pair is in its slot."


def step_name(step: Step) -> str:
    """The name over the turns of a step."""
    return step.value.capitalize()


def turn_of_step(name: str, turn: str) -> str:
    """The turn that is shown, with the name of its step, or of what else it is."""
    return f"{name}: {turn}" if name else turn


def scene_heading(number: int, seconds: float) -> str:
    """The heading of a scene in the script to speak from."""
    return f"Scene {number}, {figured(round(seconds), 'second')}"


def points(text: str, told: Sequence[str]) -> tuple[str, ...]:
    """The end of a lesson: its last text and its points."""
    return (text, *(f"•  {point}" for point in told))


def line_caption(turns: int) -> str:
    """The caption of a line."""
    return f"A shortest line takes {counted(turns, 'turn')}."


# ---------------------------------------------------------------------------------------- pages and sheets

FILMS_LEAD = (
    "A case is one way the two pieces can lie while the cross and the other pairs are solved. "
    "Press a picture to open its film."
)
BACK, PLAY, PAUSE, NEXT_TURN = "Back", "Play", "Pause", "Next turn"
SPEED = "Speed"
SPEEDS = (("0.5", "slow"), ("1", "usual"), ("2", "fast"))
"""How fast turns play by themselves, with the words for it."""


def slot_of_card(slot: str) -> str:
    """The slot of a film on the page of films."""
    return f"Slot {slot}"


# ---------------------------------------------------------------------------------------- every sheet

PROGRAM = "Pairwright"
TURNS_LEGEND = (
    "Turns: U is the top layer, D the bottom, R the right, L the left, F the front and B the back. "
    "A letter turns its layer a quarter clockwise, as you look at that side. "
    "With ' it turns the other way, and with 2 it turns half round."
)
STEPS_LEGEND = (
    "Steps: Raise lifts both pieces to the top. Part sets them apart. Join brings them together, colour to "
    "colour. Insert slides the pair into its slot. Some steps are done before you start."
)
MARKS_LEGEND = (
    "Pictures: white rings mark the pair, and a dashed frame marks its slot. "
    "Pieces that do not matter are grey."
)
ARROW_LEGEND = "An arrow shows the next turn."
ARROWS_LEGEND = "An arrow shows the first of the turns under the picture."
COLOURS = "Colours"
NAME, DATE = "Name", "Date"
IN_THE_MIRRORS = "In the mirrors you see the left, the back and the bottom."
AS_YOU_HOLD_IT, FROM_BEHIND = "As you hold it", "The same cube from behind"


def page_number(page: int, pages: int) -> str:
    """At the foot of a page."""
    return f"Page {page} of {pages}"


def program_and_day(day: date) -> str:
    """At the foot of a page: what printed it, and when; no month's number that looks like a day's."""
    return f"{PROGRAM}, {day.day} {_MONTHS[day.month - 1]} {day.year}"


_MONTHS = (
    "January", "February", "March", "April", "May", "June", "July",
    "August", "September", "October", "November", "December",
)  # fmt: skip


def letter_and_colour(letter: str, name: str) -> str:
    """A colour in the key, with the letter of its stickers if they have one."""
    return f"{letter} {name}" if letter else name


def named_chapter(sign: str, title: str) -> str:
    """A line of the contents; ``sign`` says which lesson it is, and is empty for other chapters."""
    return f"{sign}: {title}" if sign else title


def numbered(answer: int) -> str:
    """The number of an answer."""
    return f"{answer}."


# ------------------------------------------------------------------------------------ sheets of cases

LINE = "Line"
STEP_THROUGH = (
    "Press “Next turn” to go through a route turn by turn, or “Play” to watch it. "
    "The left and right arrow keys go back and on."
)


def sheet_title(cases: int, slot: str, *, every: bool) -> str:
    """The title of a sheet; ``every`` says that it shows all cases."""
    return f"{ALL_CASES if every else counted(cases, 'case').capitalize()} in slot {slot}"


def slipping_title(learner: str, cases: int) -> str:
    """The title of a sheet with the cases that a learner forgets."""
    return f"{counted(cases, 'case').capitalize()} slipping for {learner}"


def practice_title(learner: str) -> str:
    """The title of a learner's own sheet: what slips, and what a teacher has given."""
    return f"What {learner} practises next"


def given_cases(numbers: Sequence[int], until: str) -> str:
    """The cases on a learner's sheet that a teacher has given, with one last day for all of them, or none."""
    cases, them = ("case", "it") if len(numbers) == 1 else ("cases", "them")
    return (
        f"Your teacher gave you {cases} {all_of([str(number) for number in numbers])}.{_do_by(them, until)}"
    )


def given_lesson(title: str, until: str) -> str:
    """A lesson that a teacher has given."""
    return f"Your teacher gave you the lesson “{title}”.{_do_by('it', until)}"


def _do_by(them: str, until: str) -> str:
    return f" Do {them} by {until}." if until else ""


def mirror_column(slot: str) -> str:
    """Over the turns of the mirror image."""
    return f"Mirror {slot}"


def route_column(slot: str) -> str:
    """Over the turns of the case itself."""
    return f"Slot {slot}"


def sheet_lead(cross: str, slot: str, mirror: str) -> str:
    """How to hold the cube, and what is beside each picture."""
    return (
        f"Hold the cube with the {cross} cross down and slot {slot} where you see the dashed frame. "
        "The cross and the other three pairs are solved, and they stay solved. "
        "Each case has its route, step by step. "
        f"Beside it stands the same route in the mirror, for slot {mirror}. "
        "“Line” is a shortest way by hand, where that is another one."
    )


# ------------------------------------------------------------------------------------------- lessons

BOOKLET = "Lessons"
CONTENTS = "Contents"
WATCH = "Watch"
SOLVED, AFTERWARDS = "Solved", "Afterwards"
REMEMBER, OWN_WORDS = "Remember", "Your own words"
QUESTIONS, TASKS = "Questions", "Tasks"
TICK_ONE = "Tick one."
TURN_YOUR_CUBE = "Your turn: turn your own cube."
"""Over a task whose text says the turns."""
YOUR_TURNS = "Your turns"
ANSWERS = "Answers"


ANSWERS_LEAD = "Try first, then look. Other ways can be good too."
SET_UP = "Set-up"


def set_up_lead(cross: str) -> str:
    """How to use the set-ups of answers."""
    return (
        f"Where you read “{SET_UP}”, hold a solved cube with the {cross} cross down and the colour named "
        "in front. Then make the turns after it."
    )


def any_of(choices: Sequence[str]) -> str:
    """Answers of which each is right."""
    return one_of(choices) if len(choices) > 1 else "".join(choices)


def answers_on(page: int) -> str:
    """At the foot of a page with questions."""
    return f"Answers on page {page}"


def question(number: int, text: str) -> str:
    """A question with its number."""
    return f"{number}. {text}"


def hold_lead(cross: str) -> str:
    """How to hold the cube throughout a lesson."""
    return f"Hold the cube with the {cross} cross down."


def before_turns(turns: str) -> str:
    """What a picture shows, for those who cannot see it."""
    return f"The cube before {turns}"


AT_THE_END = "The cube at the end"


def at_scene(number: int) -> str:
    """What a picture of a scene shows, for those who cannot see it."""
    return f"The cube of scene {number}"


def step_turns(step: str, turns: str) -> str:
    """The turns of a step in an answer."""
    return f"{step.capitalize()}: {turns}"


def shorter_way(turns: str) -> str:
    """A line that is shorter than the way by the steps."""
    return f"A shortest way: {turns}"


def set_up(front: str, turns: str) -> str:
    """The turns that make the question's cube from a solved one; ``front`` is the colour in front."""
    return f"{SET_UP}, {front} in front: {turns}"


# ----------------------------------------------------------------------------------- what cannot be shown

ALREADY_SOLVED = "the pair is already solved, so there is nothing to show; choose another slot or setup"
NO_ROUTE = "there is no route from this position; write --show line instead"
NOTHING_TO_SHOW = "there is nothing to show; choose another case, or show it slowly"
NO_TURNS = "there are no turns to show; write some, or ask for the route or the line"


def shows_no_turns(lesson: str) -> str:
    """A lesson has no scene that a film could show."""
    return f"no scene of the lesson “{lesson}” shows turns, and a film needs one; choose another lesson"


def too_long(minutes: float, most: float) -> str:
    """A film would take too long."""
    told = f"the film would take {minutes:.0f} minutes, and {most:.0f} is the most"
    return f"{told}; show fewer turns, or show them faster"


# ------------------------------------------------------------------------------------ names, sizes, packages


def one_of(choices: Iterable[str]) -> str:
    """The choices with “or” before the last."""
    *others, last = choices
    return f"{', '.join(others)} or {last}"


def all_of(things: Sequence[str]) -> str:
    """The things with “and” before the last."""
    *others, last = things
    return f"{', '.join(others)} and {last}" if others else last


def no_kind_of_film(suffix: str, kinds: Iterable[str]) -> str:
    """The end of a film's name says no format."""
    said = f"“{suffix}” is not a kind of film" if suffix else "the name does not say which kind of film"
    return f"{said}; end the name in {one_of(kinds)}"


def no_room(width: int, height: int) -> str:
    """The words of a film leave too little of it to the cube."""
    return f"a film of {width}x{height} has no room for the cube; choose a larger size, for instance 640x480"


def no_sound(path: str, reason: str) -> str:
    """A sound file cannot be read."""
    return f"the sound file {path} cannot be read: {reason}; choose another file"


NO_SOUND_IN_IT = "it has no sound"


def silent_film(suffix: str, mp4: str) -> str:
    """A kind of film that carries no sound."""
    return f"a {suffix} film has no sound; end the name in {mp4}"


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


def no_letters(lacking: str) -> str:
    """The typefaces of a PDF have no form for letters of a text."""
    return f"a PDF sheet has no letters for “{lacking}”; end the name in .html"


def install_in(command: str, folder: str) -> str:
    """What to type, and in which folder."""
    return f"type “{command}” in the folder {folder}"


def install_anywhere(command: str) -> str:
    """What to type, wherever one is."""
    return f"type “{command}”"


IN_A_BUNDLE = "install the program with Python, as README.md says, and then this package"

# ----------------------------------------------------------------------------------------------- the disk


def is_folder(path: str) -> str:
    """A folder is where a file should go."""
    return f"{path} is a folder; add the name of a file"


def is_file(path: str) -> str:
    """A file is where a folder should be."""
    return f"{path} is a file, and the films need a folder; choose another name"


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
        said, them = f"{path} already exists and is not the file you want", "it"
    else:
        said = f"{path} and {figured(others, 'other file')} already exist and are not the files you want"
        them = "them"
    return f"{said}; choose another folder, or add --force to replace {them}"
