"""What the Lesson screen says, from top to bottom, and what Home says about lessons."""

from __future__ import annotations

from tutor.counting import counted, figured, times

# ------------------------------------------------------------------------------------------------- on Home


CONTINUE = "Continue the lesson"
"""The button to the lesson that is open or was left last."""
START = "Start the first lesson"
START_NEXT = "Start the next lesson"
"""The button to the first lesson without a tick, when others have one."""


def left_at(title: str, scene: int) -> str:
    """Which lesson goes on, and at which scene."""
    return f"{title}, scene {scene}"


CASE_BOOK_INSTEAD = "Begin with the case book"
"""Where there are no lessons."""
COMING = "Opening the lesson …"


def unreadable(name: str) -> str:
    """Over all that is wrong in a lesson."""
    return f"The lesson “{name}” cannot be played yet:"


# ---------------------------------------------------------------------------------------- top of the card


def place(number: int, count: int) -> str:
    """The scene, beside the bar that shows it."""
    return f"{number} of {count}"


SCRIPT_CHANGED = "You changed the script, and it cannot be played yet:"


def more_problems(count: int) -> str:
    """How many more things are wrong than there is room for."""
    return f"and {figured(count, 'more problem')}"


# ------------------------------------------------------------------------------------------------- a show


SLIP_SIGN = "A slip, on purpose"
"""Over a part that shows a Detour on purpose."""


def cube_turned(front: str) -> str:
    """The whole cube is held otherwise than in the scene before."""
    return f"The whole cube has turned, and {front} is in front now."


def slip(turns: str) -> str:
    """The heading of a part that shows a Detour on purpose."""
    return f"{SLIP_SIGN}: {turns}"


def step(name: str, turns: str) -> str:
    """The heading of a part: its step and its turns."""
    return f"{name.capitalize()}: {turns}"


# ------------------------------------------------------------------------------------------- turns asked for

TURNED_ROUND = "You turned the whole cube. The words above speak of it as it was. O turns it back."
CHANGED_SINCE = "You have changed the cube since then. Undo and redo lead back."
WHICH_TURN = "Which turn comes next?"
MAKE_TURN = "Your turn: make this turn."
"""Where the text says which."""
MAKE_TURNS = "Your turn: make these turns."
FINISH_STEP = "Your turn: finish this step."
SOLVE_PAIR = "Your turn: bring the pair into its slot."
AS_ASKED = "You made the turn that the lesson asks for."
ALL_AS_ASKED = "You made the turns that the lesson asks for."
WAYS = ("clockwise", "half way round", "anticlockwise")
"""How a turn of one, two or three quarters goes."""


def turn_read(notation: str, layer: str, way: str) -> str:
    """What a turn is, where turning itself is taught."""
    return f"{notation} turns the {layer} layer {way}."


OTHER_TURNS = "These are not the turns that the lesson asks for here. Undo them and try again."


def other_turn(notation: str, layer: str) -> str:
    """One turn of a layer that is not to turn now."""
    return f"{notation} turns the {layer} layer, but the lesson asks for another turn. Undo it and try again."


def works_too(notation: str, asked: str) -> str:
    """A good turn that is not the one asked for; ``asked`` has the turns that the text names, if it does."""
    if asked:
        return f"{notation} works too, but here you practise {asked}. Undo it and try again."
    return f"{notation} works too, but the lesson asks for another turn. Undo it and try again."


def wrong_way(notation: str, layer: str) -> str:
    """One turn of the layer asked for, in the other direction."""
    return f"{notation} turns the {layer} layer the wrong way. Undo it and try again."


def too_far(notation: str, layer: str) -> str:
    """A half turn of the layer asked for, where a quarter turn is asked for."""
    return f"{notation} turns the {layer} layer too far. Undo it and try again."


ON_YOUR_OWN = "On your own: bring the pair into its slot."
JUDGED_LATER = "You see at the end how good your turns were. You may undo turns."
TURNS_ON_YOUR_OWN = "On your own: make these turns."
MAY_UNDO = "You may undo turns."

# ---------------------------------------------------------------------------------------------- questions

CLICK_OR_CHOOSE = "Click it on the cube, or choose:"
TRIED = "not this one"
"""Under an answer that was chosen and is wrong."""
YES = "Yes"
NO = "Not that one"

# ------------------------------------------------------------------------------------------------- buttons

HELP_ME = "Help me"
UNDO = "Undo"
WRITE = "Write moves"
SHOW_THE_WAY = "Show me the way"
"""Before the program has shown the way in this scene."""
SHOW_AGAIN = "Show again"
IN_THE_NEXT_SLOT = "Again, in the next slot"
MIRRORED = "Again, mirrored"
BACK = "Scene before"
GO_ON = "Go on"
SKIP = "Skip"
FINISH = "Finish"
FINISH_TO_THE_NEXT = "Finish, next lesson"

# -------------------------------------------------------------------------------------- a lesson's last scene


def solved_unaided(count: int) -> str:
    """Cases solved in this lesson without a hint."""
    return f"You solved {counted(count, 'case')} without help."


def helped(count: int) -> str:
    """How often there was a hint or the way in this lesson."""
    return f"You asked for help {times(count)}."


def new_cases(count: int) -> str:
    """Cases solved here that the learner had not met before."""
    return f"You met {counted(count, 'new case')}."


def skipped(count: int) -> str:
    """Tasks left undone: no tick yet."""
    them = "it" if count == 1 else "them"
    return f"You skipped {counted(count, 'task')}. The lesson gets its tick when you have done {them}."


ALL_DONE = "You did every task of this lesson."
DO_SKIPPED = "Do what you skipped"


def next_lesson(title: str) -> str:
    """The lesson that comes after this one."""
    return f"Next: {title}"


# ----------------------------------------------------------------------------------- at the foot: no turns

ANSWER_FIRST = "This question needs no turns. Choose an answer first."
POINT_FIRST = "This question needs no turns. Click what you found, or choose it."
NO_HINT_ON_TURNS = "The text says which turns to make, so you need no hint."
NO_TURNS_HERE = "This scene needs no turns from you. Press Enter to go on."
NO_TURNS_AT_THE_END = "This scene needs no turns from you. Press Enter to finish the lesson."

# ---------------------------------------------------------------------------------------- on the key sheet

LEARNING = "Learning"
SKIP_SCENE = "skip this scene"
SCENE_BEFORE = "the scene before"


def number(lesson: int) -> str:
    """Which lesson of the course it is, beside its title."""
    return f"Lesson {lesson}"
