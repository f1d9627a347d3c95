"""Every text of whole solves that is not the coach's."""

from __future__ import annotations

from collections.abc import Sequence

from tutor.counting import figured, noun, number

# --------------------------------------------------------------------------------- the way to this screen

TITLE = "Whole solves"
WHAT = "Solve the cross, then choose your pairs."

# ------------------------------------------------------------------------------------------ the beginning

START_HEADING = "Solve two layers of a whole cube"
START_TEXT = (
    "Solve the cross first. Then choose a pair, solve it, and choose the next, until two layers are solved. "
    "The program counts exactly how many turns each pair needs."
)
NEW_SCRAMBLE = "New scramble"
NEW_SCRAMBLE_DETAIL = "A random cube."
WRITE = "Write or paste"
WRITE_DETAIL = "Type a scramble, or paste the six faces of a cube."
ENTRY = "A scramble such as R U2 F', or six faces, then press Enter"
HOW_HELD = (
    "The program makes every scramble with white on top and green in front. "
    "Then it turns the cube to put the cross at the bottom."
)

YOUR_SOLVES = "Your solves"
NO_SOLVES = "You have none yet. Finished solves are saved for you. Save others with “Keep this solve”."
DELETE_SOME = "Delete some"
DELETE_DONE = "Done"
DELETE_FOR_GOOD = "Delete it for good"
KEEP_IT = "Keep it"


def saved_solve(turns: int, time: str, *, finished: bool) -> str:
    """A saved solve in a line."""
    return f"{figured(turns, 'turn')}, {time}: {'two layers solved' if finished else 'not finished'}."


def delete_this(when: str) -> str:
    """A saved solve that can be deleted, by its moment."""
    return f"Delete {when}?"


def older_solves(count: int) -> str:
    """How many saved solves are not listed."""
    return f"{figured(count, 'older solve')} {noun(count, 'is', 'are')} saved too."


def unreadable(names: Sequence[str]) -> str:
    """Files that hold no whole solve."""
    return f"The program cannot read {noun(len(names), 'this file', 'these files')}: {', '.join(names)}."


# ---------------------------------------------------------------------------------------------- the cross

WORKING = "Working it out …"
CROSS_HEADING = "Solve the cross first"
SHOW_LINES = "Show the shortest lines"
HIDE_LINES = "Hide the shortest lines"
CROSS_COLOURS = "Fewest turns to the cross of each colour"


def hint_of(rung: int) -> str:
    """Which of the hints is on the card."""
    return f"Hint {rung} of 3"


def cross_colour(name: str, turns: int) -> str:
    """A cross colour with the turns that its cross needs."""
    return f"{name.capitalize()} {turns}"


# -------------------------------------------------------------------------------- the choice of a pair

WHICH_PAIR = "Which pair first?"
LAST_PAIR = "The last pair"
PLAN = "A plan"
LOOKING_FOR_PLAN = "Looking for a plan …"
SHOW_PLAN = "Show the plan"
SHOW_FEWEST = "Show the fewest turns"
SHORTCUTS = "Shortcuts"


def cross_first(edges: int) -> str:
    """Why no pair can be chosen yet: the cross, of which so many edges are in place."""
    count = number(edges) if edges else "none"
    verb = noun(edges, "is", "are")
    return (
        f"You can choose a pair once the cross is solved. So far {count} of its four edges {verb} in place."
    )


# -------------------------------------------------------------------------------------- the pair in hand

PAIR = "Pair"
SHOW_WAY = "Show me the way"
SHOW_AGAIN = "Show again"
COMPARE_PAIRS = "Compare pairs"

# ------------------------------------------------------------------------------------- always below these

UNDO = "Undo"
REDO = "Redo"
WRITE_MOVES = "Write moves"
MORE_CHOICES = "More choices"
FEWER_CHOICES = "Fewer choices"
COPY_POSITION = "Copy position"
COPY_SCRAMBLE = "Copy scramble"
KEEP = "Keep this solve"
LOOK_AHEAD = "Look ahead"
ANOTHER_CUBE = "Start another cube"

# ------------------------------------------------------------------------------------------- looking back

LOOKING_BACK = "Looking back at your solve …"
LEGS = ("", "Turns", "Best", "Time")
WORTH_PRACTISING = "Worth practising"
PAUSES = "Pauses"
SLIPS = "Slips"
SHOW_SLOWLY = "Show it slowly"
COPY_TURNS = "Copy the turns"
TO_FREE_PLAY = "Finish in Free play"


# ------------------------------------------------------------------------------------ at the window's foot

COPIED = "Copied. You can paste it anywhere as plain text."
KEPT = "Your solve is saved. You find it under Whole solves."

# --------------------------------------------------------------------------------------- copied as notation


def text_title(cross: str) -> str:
    """The first line."""
    return f"Whole solve, {cross} cross"


def text_scramble(scramble: str) -> str:
    """The scramble that made the start."""
    return f"Scramble, white on top and green in front: {scramble}"


TEXT_START = "The cube at the start, as held:"


def text_leg(name: str, turns: int, moves: str) -> str:
    """The moves of the cross or of a pair."""
    return f"{name} ({figured(turns, 'turn')}): {moves}"


def text_total(turns: int) -> str:
    """The last line."""
    return f"{figured(turns, 'turn')} in all"


# -------------------------------------------------------------------------------- files that cannot be read


def line_problem(line: int, message: str) -> str:
    """What is wrong in which line of a saved solve."""
    return f"line {line}: {message}"


def begins_with(heading: str) -> str:
    """The first line is another one."""
    return f"a saved solve begins with “{heading}”"


def expected(key: str) -> str:
    """A line that begins with another word."""
    return f"this line must begin with “{key}:”"


PAIR_LETTERS = "a pair is written with the letters of its two side colours, or as “-” for the cross"


def nothing_follows(last: str) -> str:
    """Something stands after the last line."""
    return f"nothing may follow the {last}"


def times_and_moves(times: int, moves: int) -> str:
    """There is not one time for each move."""
    return f"there {noun(times, 'is', 'are')} {figured(times, 'time')} for {figured(moves, 'move')}"


def colour_letter(letters: str) -> str:
    """The cross colour is no colour."""
    return f"a colour is one of the letters {letters}"


def not_saved(most: int, count: int) -> str:
    """A solve in hand with more moves than the program saves."""
    return f"The program could not save this solve: {too_many_moves(most, count)}."


def too_many_moves(most: int, count: int) -> str:
    """More moves than the program takes."""
    return f"a saved solve can have at most {figured(most, 'move')}; this one has {count:,}"


def pairs_and_moves(pairs: int, moves: int) -> str:
    """There is not one pair for each move."""
    return f"there {noun(pairs, 'is', 'are')} {figured(pairs, 'pair')} for {figured(moves, 'move')}"


TIMES_WRONG = "times are seconds from the beginning; none may be smaller than the one before it"

# -------------------------------------------------------------------------------------- on the key sheet

KEYS = "Whole cubes"
KEY_COPY = "copy the position"
