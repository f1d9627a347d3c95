"""Every text of looking ahead."""

from __future__ import annotations

from tutor.counting import counted, figured, noun, number
from tutor.cube.faces import Face
from tutor.cube.words import SIDES

# --------------------------------------------------------------------------------- the way to this screen

TITLE = "Looking ahead"
WHAT = (
    "The program solves one pair slowly. You follow the two pieces of your next pair, and see nothing else."
)


def cross_missing(edges: int) -> str:
    """Why the exercise cannot begin yet: the cross, of which so many edges are in place."""
    count = number(edges) if edges else "none"
    verb = noun(edges, "is", "are")
    return f"To look ahead, solve the cross first. So far {count} of its four edges {verb} in place."


def pairs_missing(pairs: int) -> str:
    """Why the exercise cannot begin any more: only so many pairs are unsolved."""
    return f"To look ahead, you need two unsolved pairs. You have {counted(pairs, 'unsolved pair')} left."


# --------------------------------------------------------------------------------------------- one round

WAITING = "Working out which turns to play …"
START = "Start"
PAUSE = "Pause"
CONTINUE = "Continue"
NOT_YOURS = "The program turns the cube here. Keep your eyes on the two pieces."


def ready(pair: str) -> str:
    """Before the turns: which two pieces are shown."""
    return f"You see only the {pair} pair. Find its corner and its edge, then follow them with your eyes."


def playing(pair: str, following: str) -> str:
    """While the turns are played: which pair they solve, and which one to follow."""
    return (
        f"The program is solving the {pair} pair. Keep your eyes on the two pieces of the {following} pair."
    )


def where_is(kind: str, pair: str) -> str:
    """The question, after the turns."""
    return f"Where is the {kind} of the {pair} pair now? Click its place, or choose below."


def place(faces: tuple[Face, ...]) -> str:
    """A place on top or in a slot, for instance "on top at the front right"."""
    sides = [SIDES[face] for face in (Face.F, Face.B, Face.L, Face.R) if face in faces]
    return f"on top at the {' '.join(sides)}" if Face.U in faces else f"in the {'-'.join(sides)} slot"


# --------------------------------------------------------------------------------- what came of an answer

RIGHT = "Right"
WRONG = "Not there"


def it_is(kind: str, faces: tuple[Face, ...]) -> str:
    """Where the piece is."""
    return f"The {kind} is {place(faces)}."


def chose_last_layer(kind: str, colour: str) -> str:
    """The piece at the place that was chosen belongs to no pair; ``colour`` is the one on top of the cube."""
    article = "an" if kind == "edge" else "a"
    return f"You chose {article} {kind} with {colour} on it, so it belongs to no pair."


def chose_other_pair(kind: str, pair: str) -> str:
    """The piece at the place that was chosen belongs to another pair."""
    return f"You chose the {kind} of the {pair} pair."


CHOSE_CROSS = "You chose an edge of the cross."


def was_there(kind: str, turn: int, turns: int, layer: Face) -> str:
    """The piece was at the place that was chosen, until this turn."""
    return (
        f"Your {kind} was there until turn {turn} of {turns}. "
        f"Watch the {SIDES[layer]} layer then: it carries the {kind} away."
    )


def never_there(kind: str, turn: int, turns: int, layer: Face) -> str:
    """The piece never was at the place that was chosen; this turn brought it to where it is."""
    return (
        f"Your {kind} was never there. "
        f"Watch the {SIDES[layer]} layer on turn {turn} of {turns}: it brings the {kind} to its place."
    )


def never_moved(kind: str) -> str:
    """No turn moved the piece."""
    return f"No turn moved your {kind}. It is still where you saw it at the start."


def score(right: int, asked: int) -> str:
    """How many answers were right."""
    return f"You have found {figured(right, 'piece')} out of {asked}."


# --------------------------------------------------------------------------------------------- and then


def next_round(pair: str) -> str:
    """What the next round is about."""
    return f"Next, the program solves this pair, and you follow the {pair} pair."


NEXT_PAIR = "Follow the next pair"
FINISH = "Finish"
SEE_AGAIN = "See these turns again"
OVER = "There is no next pair left to follow. Try another position."
ANOTHER = "Try another position"
SLOWER = "Slower"
FASTER = "Faster"
BACK_TO_SOLVE = "Back to the solve"

# ------------------------------------------------------------------------------------------- on the rail


def pace(turns: int) -> str:
    """How fast turns are played."""
    return f"{figured(turns, 'turn')} a minute"


def pace_and_turn(turns: int, current: int, of: int) -> str:
    """How fast turns are played, and which one of them is under way."""
    return f"{pace(turns)} · turn {current} of {of}"


# -------------------------------------------------------------------------------------- on the key sheet

KEYS = "Looking ahead"
KEY_QUICKER = "more turns a minute"
KEY_CALMER = "fewer turns a minute"
