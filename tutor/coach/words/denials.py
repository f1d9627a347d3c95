"""Why an answer in practice is wrong here, and where to look instead, in English.

The pieces come as ``c`` and ``e`` ("the corner", with a mirror where only that shows it), or as ``piece``;
places as "on top at the front right"; ``turn`` is the turn asked about.
"""

from __future__ import annotations

# ------------------------------------------------------------------------------- what a turn does not do here


def not_solved(turn: str, corner_place: str, edge_place: str) -> str:
    """The pair is not in its slot after the turn."""
    return f"{turn} does not solve the pair. After it, the corner is {corner_place}, the edge {edge_place}."


def not_solved_by(turn: str, layer: str) -> str:
    """One more turn of the layer does not solve the pair."""
    return f"After {turn}, no turn of the {layer} layer solves the pair."


MATCH_ALREADY = "The two match already, before the turn."
NO_MATCH_YET = "The two do not match now, so there is no joined pair to separate."


def no_match_after(turn: str, *, touching: bool) -> str:
    """The two do not match after the turn."""
    if touching:
        return f"After {turn}, the two touch, but their colours do not line up."
    return f"After {turn}, the two do not even touch."


def match_still(turn: str) -> str:
    """The two match after the turn, too."""
    return f"After {turn}, the two still match."


NO_TOUCH_NOW = "The two do not touch now, so you need not separate them."


def touch_still(turn: str) -> str:
    """The two touch after the turn, too."""
    return f"After {turn}, the two still touch."


def on_top_already(piece: str) -> str:
    """A piece is in the top layer before the turn."""
    return f"{piece} is in the top layer already."


def not_on_top_now(piece: str, place: str) -> str:
    """A piece is not in the top layer before the turn."""
    return f"{piece} is {place} now, not on top."


def not_on_top_after(turn: str, piece: str, place: str) -> str:
    """A piece is not in the top layer after the turn."""
    return f"After {turn}, {piece} is {place}, not on top."


def on_top_still(turn: str, piece: str) -> str:
    """A piece is in the top layer after the turn, too."""
    return f"After {turn}, {piece} is still in the top layer."


def in_layer_now(piece: str, layer: str, *, inside: bool) -> str:
    """A piece is in a layer before the turn, or not."""
    return f"{piece} is {'' if inside else 'not '}in the {layer} layer now."


def in_layer_after(turn: str, piece: str, layer: str, *, inside: bool) -> str:
    """A piece is in a layer after the turn, or not."""
    return f"After {turn}, {piece} is {'' if inside else 'not '}in the {layer} layer."


def settled_already(all_kept: str) -> str:
    """The cross and the kept pairs are solved before the turn, as ``all_kept`` says."""
    return f"{all_kept} already, so no layer has to turn back."


def not_settled_after(turn: str, kept: str) -> str:
    """The cross or a kept pair is out of place after the turn."""
    return f"{turn} does not put {kept} back in place."


def not_settled_by(turn: str, layer: str, kept: str) -> str:
    """One more turn of a layer does not put everything back."""
    return f"After {turn}, no turn of the {layer} layer puts {kept} back in place."


def not_the_lifted_layer(layer: str, kept: str) -> str:
    """Before the turn, no turn of the layer would put everything back."""
    return f"Now, no turn of the {layer} layer puts {kept} back in place."


def lifts_nothing(turn: str, slot: str) -> str:
    """The turn does not lift the slot."""
    return f"{turn} does not lift the {slot}."


def moves(turn: str, piece: str, *, moved: bool) -> str:
    """The turn moves a piece, or leaves it."""
    return f"{turn} moves {piece}." if moved else f"{turn} leaves {piece} where it is."


# --------------------------------------------------------------------------------------------- where to look

LOOK_AT_THE_JOINT = "Look where the two meet, at both colours of the edge."
LOOK_AT_THE_CROSS = "Look at the cross and at the other pairs."
LOOK_FOR_THE_TWO = "Look where the two are now, and follow both through the turn."


def look_at_the_piece(piece: str, turn: str) -> str:
    """Which piece to follow."""
    return f"Look where {piece} is now, and follow it through {turn}."


def look_at_the_layer(layer: str) -> str:
    """Which layer to look at."""
    return f"Look which pieces are in the {layer} layer."


# -------------------------------------------------------------------------------------------- the wrong step


def low(piece: str, place: str) -> str:
    """One of the two is not in the top layer."""
    return f"{piece} is {place}, so bring it to the top first."


def low_both(c: str, corner_place: str, e: str, edge_place: str) -> str:
    """Neither of the two is in the top layer."""
    return f"{c} is {corner_place} and {e} {edge_place}, so bring them to the top first."


def low_together(both: str, place: str) -> str:
    """Both are in one slot."""
    return f"{both} are {place}, so bring them to the top first."


BOTH_ON_TOP = "Both pieces are in the top layer already, so Raise is done."
MATCH = "The two match already, so only Insert is left."
TOUCH_WRONG = "The two touch, but their colours do not line up. Separate them first."
NOT_READY = "The two are apart, but they are not ready to join."
READY = "The two are ready to join, so Part is done."
READY_NOT_JOINED = "The two are ready to join, but they do not match yet."

LOOK_LOW = "Look in the slots: is one of the two there?"
LOOK_AT_COLOURS = "Look at the colours of the two on top and at the sides."
LOOK_HOW_APART = "Look how far apart the two are, and which colours they show on top."
LOOK_AT_SLOT = "Look at the joined pair and at its slot."


# -------------------------------------------------------------------------------------- the wrong first turn


def turn_it_otherwise(layer: str, best: str) -> str:
    """The layer is one to turn, and this is how."""
    return f"You can turn the {layer} layer here, but as {best}."


def takes_out(turn: str, taken_out: str) -> str:
    """The turn takes solved pairs or cross edges out of place."""
    return f"{turn} takes out {taken_out}."


def separates(turn: str) -> str:
    """The turn separates a joined pair."""
    return f"{turn} separates the two, although they match."


def leaves_them(turn: str, corner_place: str, edge_place: str) -> str:
    """Where the turn leaves the two."""
    return f"After {turn}, the corner is {corner_place}, the edge {edge_place}."


def costs(turns: str) -> str:
    """What the turn costs."""
    return f"That costs {turns}."
