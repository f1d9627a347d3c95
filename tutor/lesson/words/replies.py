"""What a learner reads after a wrong answer: why it is wrong here, and where to look."""

from __future__ import annotations

from collections.abc import Sequence

from tutor.counting import counted, noun, number

LOOK_AT_THE_CUBE = "The cube shows something else. Read the question again, and look at both pieces."
"""After a wrong answer about which neither the program nor the script knows more."""


# ------------------------------------------------------------------------- where is the corner, the edge


def listed(names: Sequence[str]) -> str:
    """Names in a row: ``white, green and red``."""
    return f"{', '.join(names[:-1])} and {names[-1]}" if len(names) > 1 else names[0]


def other_corner(found: str, kind: str, wanted: Sequence[str]) -> str:
    """Another piece was taken for the corner; ``found`` is its colours, ``kind`` what kind it is."""
    return f"{_that_is(found, kind, 'corner')} Look for the corner with {listed(wanted)}."


def other_edge(found: str, kind: str, wanted: Sequence[str]) -> str:
    """Another piece was taken for the edge."""
    return f"{_that_is(found, kind, 'edge')} Look for the edge with {listed(wanted)}."


_COLOURS = {"edge": "An edge has two colours.", "corner": "A corner has three colours."}


def _that_is(found: str, kind: str, wanted: str) -> str:
    told = f"That is the {found} {kind}."
    return told if kind == wanted else f"{told} {_COLOURS[wanted]}"


def other_slot(slot: str, own: Sequence[str], wanted: Sequence[str]) -> str:
    """Another slot was taken for the pair's; slots lie between two centres with the colours given."""
    return (
        f"The {slot} lies between the {own[0]} and the {own[1]} centre. "
        f"Look for the slot between {wanted[0]} and {wanted[1]}."
    )


def no_slot(wanted: Sequence[str]) -> str:
    """A piece in no slot was taken for the slot."""
    return (
        "That is not a slot. A slot is the upright gap between two sides. "
        f"Look for the one between the {wanted[0]} and the {wanted[1]} centre."
    )


# --------------------------------------------------------------------------------- how do the two lie


def not_touching(corner: str, edge: str) -> str:
    """They were taken for touching; both places are given."""
    return f"{_places(corner, edge)} Two pieces touch when they lie side by side. These two do not."


def not_joined(corner: str, edge: str) -> str:
    """They were taken for joined, and do not touch."""
    return f"{_places(corner, edge)} Two joined pieces lie side by side. Look whether these two do."


def lie_together(corner: str, edge: str) -> str:
    """They were taken for apart."""
    return f"{_places(corner, edge)} They lie side by side. Compare their colours where they meet."


def _places(corner: str, edge: str) -> str:
    if corner == edge:
        return f"Both are {corner}."
    return f"The corner is {corner}, and the edge is {edge}."


def more_than_touching() -> str:
    """They were taken for just touching, and match."""
    return (
        "They touch, but you can say more. Compare the edge with the corner on both sides, colour by colour."
    )


def colours_differ(side: str, corner: str, edge: str) -> str:
    """They were taken for joined, and on one side their colours differ; ``side`` is a layer's word."""
    place = "the top" if side == "top" else f"the {side} side"
    return f"Look at {place}, where they meet. The corner shows {corner} there, and the edge shows {edge}."


# -------------------------------------------------------------------------------------- which step


def not_on_top(step: str, pieces: Sequence[str]) -> str:
    """A step that needs both pieces on top, while one or both are not."""
    missing = f"the {pieces[0]} is not" if len(pieces) == 1 else "neither is"
    return f"{step} comes when both pieces are on top, and here {missing}. Look where each of the two lies."


RAISED_ALREADY = (
    "Both pieces are on top, and everything that should be solved is solved. "
    "So nothing is left to raise. Look at how the two lie."
)


def not_ready(touch: bool) -> str:
    """Join, while the two would meet the wrong way round."""
    if touch:
        return (
            "The two touch, but their colours do not line up. Something has to happen before they can join."
        )
    return "From here the two would meet the wrong way round. Something has to happen before they can join."


READY_ALREADY = (
    "Part is for two pieces that would meet the wrong way round. These two would not. "
    "Look whether they have met yet."
)
MATCH_ALREADY = (
    "The two match: they touch, and their colours line up on both sides. Look where they have to go now."
)
NOT_MATCHING = "You insert a joined pair. Here the colours of the two do not line up yet. Look how they lie."


def in_the_midst(step: str) -> str:
    """Another step has begun, and a layer is turned away."""
    return (
        f"Something is out of place here, so a step has begun. That step is not {step}. "
        "Look at what it does with the two."
    )


# ---------------------------------------------------------------------------------- how many turns


def too_few(count: int, steps: Sequence[str]) -> str:
    """Fewer turns than are needed."""
    turns = f"{counted(count, 'turn').capitalize()} {noun(count, 'is', 'are')}"
    return f"{turns} not enough here. {_count_steps(steps)}"


def too_many(count: int, steps: Sequence[str]) -> str:
    """More turns than are needed."""
    return f"You need fewer than {counted(count, 'turn')} here. {_count_steps(steps)}"


def too_many_with_a_shortcut(count: int) -> str:
    """More turns than are needed, where some turns serve two steps."""
    return f"You need fewer than {counted(count, 'turn')} here. Look for a turn that does the work of two."


def _count_steps(steps: Sequence[str]) -> str:
    if not steps:
        return "Think the turns through one by one, and count them."
    return f"Count the turns of {listed(steps)}."


# ------------------------------------------------------------------------------------- which pair first


def farther(slot: str, count: int) -> str:
    """A pair that needs more turns than another."""
    return (
        f"The pair of the {slot} needs {counted(count, 'turn')}, and another pair needs fewer. "
        "Compare where the corner and the edge of each pair lie."
    )


def solved_already(slot: str) -> str:
    """A pair that is in its slot."""
    return f"The pair of the {slot} is solved already. Choose among the pairs that are not."


# -------------------------------------------------------------------------------------- which turn


def moves(turn: str, corner: bool, edge: bool) -> str:
    """Which pieces of the pair a turn moves."""
    if corner and edge:
        return f"{turn} moves both pieces of the pair."
    if corner:
        return f"{turn} moves the corner and leaves the edge in place."
    if edge:
        return f"{turn} moves the edge and leaves the corner in place."
    return f"{turn} moves neither the corner nor the edge."


def takes_out(turn: str, pieces: str) -> str:
    """What a turn of a layer that the pair does not need takes out of place."""
    return f"{turn} takes {pieces} out of place."


def needs_after(before: int, after: int) -> str:
    """How many turns the pair needs after a turn, and needed before it."""
    if after == before:
        return f"After it the pair still needs {counted(after, 'turn')}."
    return f"After it the pair needs {counted(after, 'turn')} instead of {number(before)}."


OTHER_WAY = "This layer is a good choice, but look which way it has to turn, and how far."
NEAR_LAYERS = "Look at the top and at the layers beside the slot."
NEAR_LAYERS_OF_SEVERAL = "Look at the top and at the layers beside the unsolved slots."


def aim(step: str) -> str:
    """Where to look for a turn that serves the step under way; ``step`` is its key."""
    return _AIMS[step]


_AIMS = {
    "raise": "You want both pieces on top. Look which layer can bring them there.",
    "part": "You want to set the two apart. Look which of them should move and which should stay.",
    "join": "You want the two to meet, colour to colour. Look which of them should move, and where to.",
    "insert": "You want to slide the pair into its slot. Look where it lies, and which layer lifts the slot.",
}
