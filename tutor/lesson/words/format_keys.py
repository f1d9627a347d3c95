"""What each key and placeholder of a script is for: the tables of lessons/FORMAT.md, from top to bottom."""

from __future__ import annotations

# ------------------------------------------------------------------------------------------------ the file

TITLE = "what the list of lessons shows"
GOAL = "one sentence that says what the learner can do afterwards"
IDEAS = "names of the few ideas of the lesson; if there is one, every scene is about it"
FIXED = "`true` if the lesson is only for the slot as written, never for another slot or the mirror"
SCENES = "the scenes in their order"

# --------------------------------------------------------------------------------------------- every scene

TEXT = "what the card says; the program fills in the placeholders"
ON_SCREEN = (
    "what makes sense only at the screen, such as keys, the mouse and the mirrors; it follows the text, and "
    "sheets and films leave it out"
)
CASE = "start at this case, by its name or its number, in `slot`"
TOP = "with `case`: turn the top layer once more before the start"
SETUP = "start at the solved cube, cross face down, after these moves"
STICKERS = "start at the cube that shows these six lines of colours"
FROM = (
    "`here` starts where the scene before ended, as a scene without a position does; "
    "`start` starts where the scene before started"
)
SLOT = (
    "the slot whose pair the scene is about; it stays until you name another, "
    "or `none`, for a scene about no pair"
)
KEEP = "slots that must be solved at the end; without this key, those solved at the start"
CAMERA = "where you see the cube from"
HIGHLIGHT = "what lights up: corner, edge, pair, slot, cross, top, or places like UFR"
SPEED = "how fast the layers turn; 1 is the usual speed"
CAPTION = "a line under the cube"
RAIL = "`false` in lessons about turning itself: no step is named, and no turn judged for the pair"
IDEA = "which of the lesson's ideas the scene is about"
VOICE = "a sound file beside the script, which films of the lesson play with the scene"

# ---------------------------------------------------------------------------------------------------- show

SHOWN = "`route`, `line`, or the moves themselves if one text goes with all of them"
STEPS = "with `route` or `line`: a text for each step"
PARTS = "instead of `turns`: the moves in parts, each with its text"
SLIP = "with moves in `turns`: `true` if you show a Detour on purpose"
PART_TURNS = "the moves of this part, as in WCA Regulations 12a"
PART_TEXT = "what the card says during this part"
PART_SLIP = "`true` if you show a Detour on purpose"


def step_text(step: str) -> str:
    """The text for a step."""
    return f"what the card says during {step}"


# ------------------------------------------------------------------------------------ ask, alone, and find

EXTENT = "what you ask for: the next turn, the rest of the step, or the rest of the case"
UNTIL = 'with `extent = "step"`: the step to finish, if it is not the one under way'
ACCEPT = (
    "if your text asks for certain turns: these turns. Other turns, however good, are then no answer. "
    "The next scene starts after the first of these"
)
AFTERWARDS = "what the card says when the learner has done it"
WHAT = "what the learner has to find"
FOUND = "what the card says when the learner has found it"
SOLVED = "what the card says when the pair is solved"

# -------------------------------------------------------------------------------------------------- choose

ABOUT = (
    "what the answers are about, so that the program knows the true one: the next `turn`, "
    "the `step` under way, the `slot` to take first, the `count` of turns to the end, "
    "the place of the `corner` or `edge`, or how the two lie, `joint`"
)
ANSWERS = "the answers to choose from; without this key, the program makes them from `about`"
BECAUSE = "what the card says after the true answer"
ANSWER_TEXT = "what the learner reads; with `about` you may leave it out"
VALUE = "with `about`: what this answer claims"
TRUE = "`true` for the one true answer"
WHY = (
    "for a wrong answer: why it is wrong here, and where to look, without the true answer. "
    "With `about` the program finds this itself, and your words replace its own"
)

# --------------------------------------------------------------------------------------- recap, and camera

POINTS = "a list of short sentences under the text"
YAW = "degrees round the upright axis; positive shows more of the right"
PITCH = "degrees above the horizon"
ZOOM = "1 is the usual size"

# -------------------------------------------------------------------------------------------- placeholders

CORNER_COLOURS = "the corner's three colours, the cross colour first"
CORNER_PLACE = "where the corner is"
CORNER_POINTS = "where the corner's cross colour points"
EDGE_COLOURS = "the edge's two colours"
EDGE_PLACE = "where the edge is"
EDGE_UP = "the edge's colour on top, while the edge is in the top layer"
SLOT_OF_PAIR = "the slot of the pair, by where it is"
CROSS = "the cross colour"
TOP_CENTRE = "the colour of the top centre"
STEP = "the step under way"
TURNS_LEFT = "the fewest turns until the pair is in its slot, by hand"
CASE_NAME = "the name of the case, while the position is one of the 41"
TURN = "moves as the learner makes them, for example {turn:R U R'}"
SIDE = "the word for a side face, for example {side:R}"
COLOUR = "the colour of a face's centre, for example {colour:F}"
PLACE = "the word for a place in the top layer, for example {place:UFR}"
SLOT_BY_NAME = "the word for a slot, for example {slot:FL}"

# -------------------------------------------------------------------------------------- the tables themselves

TABLES = {
    "LessonScript": "The file",
    "TellScript": "Every scene",
    "ShowScript": "More keys of show",
    "PartScript": "A part of a show",
    "StepTexts": "The texts for the steps of a show",
    "AskScript": "More keys of ask",
    "FindScript": "More keys of find",
    "ChooseScript": "More keys of choose",
    "AnswerScript": "An answer of a choose",
    "AloneScript": "More keys of alone",
    "RecapScript": "More keys of recap",
    "CameraScript": "A camera",
}
"""The title of each table, by the type that it is made from."""
PLACEHOLDERS = "Placeholders"
KEYS_HEAD = "| key | value | what it is for |"
PLACEHOLDERS_HEAD = "| you write | it becomes |"


def marks_missing(begin: str, end: str) -> str:
    """A page without the two lines between which the tables belong."""
    return f"the page needs the marks “{begin}” and “{end}”, each on a line of its own"


TRUE_OR_FALSE = "true or false"


def list_of(inner: str) -> str:
    """What a key takes that has several values."""
    return f"list of {inner}"


def between(least: float, most: float) -> str:
    """What a key takes that is a number with limits."""
    return f"{least:g} to {most:g}"
