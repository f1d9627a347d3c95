"""What the board says: the page on which a list is prepared, and the lines that a group reads."""

from __future__ import annotations

from tutor.counting import figured

NAME = "Board"
DESCRIPTION = "Show cases to a group, large and with the answer hidden."

# ------------------------------------------------------------------------------------------- its keys
# Settings files give them other keys by these names.

KEY_NEXT = "show the next thing"
KEY_BACK = "show less"
KEY_NEXT_CASE = "next case"
KEY_CASE_BEFORE = "case before"
KEY_OTHER_SLOT = "show the case in another slot"
KEY_MIRROR = "mirror the case"
KEY_SLOWLY = "show the route slowly"
KEY_SPOTLIGHT = "spotlight on or off"
KEY_ASK = "ask the group"
KEY_FEWER = "take the last hand away"
KEY_PREPARE = "prepare another list"

# -------------------------------------------------------------------------------- the page of the list

TITLE = "What will the board show?"
FIELD = "Type cases, for instance 3, 14, 7-9, or a lesson's name. Then press Enter"
HOW = "Space or Page Down shows the next thing. So does a remote clicker."
READY_MADE = "Or choose a list"
ALL_CASES = "All 41 cases"
SLIPPING = "Cases that slip most"
LESSONS = "Scenes of a lesson"
OPENING = "Preparing the board …"
NOTHING_SLIPS = "No case slips from anybody yet, so there is no such list."
TYPE_A_LIST = "Type the number of a case, or the name of a lesson."


def no_such_case(text: str) -> str:
    """A number that no case has."""
    return f"There is no case {text}. The cases have the numbers 1 to 41."


def unknown_list(text: str) -> str:
    """Neither cases nor a lesson."""
    return f"“{text}” is neither a list of cases nor a lesson. Type for instance 3, 14, 7-9."


def unreadable(problem: str) -> str:
    """A lesson that cannot be played."""
    return f"The program cannot play this lesson: {problem}"


def nothing_to_show(title: str) -> str:
    """A lesson in which nothing is to be solved or answered."""
    return f"“{title}” has no scene for the board."


CASES = "Cases"
AS_WRITTEN = "This lesson is shown only as written."


# ------------------------------------------------------------------------------------ what a group reads

FIND = "Find the pair for the framed slot."
WORKING = "Working out this case …"
HIDDEN = "Answer hidden"
ALL_SHOWN = "The pair is in its slot."
WHICH_STEP = "Which step comes first here?"
WHICH_TURN = "Which turn comes first?"
HOW_MANY = "How many turns does it take at least?"
RIGHT, WRONG = "Right", "Wrong"


def one_way(notation: str) -> str:
    """Why a number of turns is right."""
    return f"This way needs no more: {notation}"


def hands(count: int) -> str:
    """The hands that an answer has."""
    return figured(count, "hand")


# ---------------------------------------------------------------------------------------- its buttons

SHOW_PIECES = "Show the two pieces"
SHOW_STEP = "Show the step"
SHOW_TURN = "Show the first turn"
SHOW_ROUTE = "Show the route"
PAUSE = "Pause"
PLAY_ON = "Play on"
SHOW_RIGHT = "Show the right answer"
SHOW_WRONG = "Why not the other one?"
GO_ON = "Continue"
BACK = "Back"
NEXT_CASE = "Next case"
CASE_BEFORE = "Case before"
ASK = "Ask the group"
FEWER = "Take a hand away"
OTHER_SLOT = "Other slot"
MIRROR = "Mirror"
TURN_CUBE = "Turn the cube"
SLOWLY = "Again, slowly"
SPOTLIGHT = "Spotlight"
PREPARE = "Another list"
FULL_SCREEN = "Full screen"


def place(number: int, count: int, name: str) -> str:
    """Where the list is."""
    return f"{name}  ·  {number} of {count}" if name else f"{number} of {count}"


def case(number: int) -> str:
    """A case by its number."""
    return f"Case {number}"


def scene(number: int) -> str:
    """A scene by its number."""
    return f"Scene {number}"
