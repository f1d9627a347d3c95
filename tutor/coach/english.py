"""All words for people that the coach says, in English. Replace this module's mappings to translate it.

Names in braces are filled in; every text of one group may use every field of that group:

* of a turn (``did``, ``look``, ``idea``, ``aim``, ``why``, ``slip``): ``turn``; ``corner``, ``edge`` by their
  colours; ``c``, ``e``, ``both``, ``pair`` in brief; ``corner_place``, ``edge_place``, ``points`` (where the
  cross colour of the corner points), ``edge_up`` (the edge's colour on top), ``kept`` (the cross and the
  pairs kept), ``all_kept`` (that they are solved), each also with ``was_`` for before the turn; ``cross``
  the cross colour; ``slot``; ``layer`` of the turn, ``lifted`` and ``was_lifted`` the layer that was turned,
  ``next`` the layer that is turned next; ``taken_out`` and ``put_back``: all that the turn moves so;
* of its price (``cost``): ``to_go``, ``extra``, ``step``.

A tuple holds variants that say the same; one is chosen by what is on the cube.
"""

from __future__ import annotations

from collections.abc import Mapping

from tutor.coach.english_hints import HINT_TEXTS
from tutor.coach.english_rail import RAIL_TEXTS
from tutor.coach.english_solve import SOLVE_TEXTS

NUMBERS = (
    "no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
    "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen", "twenty",
)  # fmt: skip
"""Numbers that are written as words, from none on."""

COUNTED: Mapping[str, Mapping[str, str]] = {
    "turns": {"one": "{n} turn", "other": "{n} turns"},
    "extra": {"one": "{n} extra turn", "other": "{n} extra turns"},
    "hold_changes": {"one": "{n} new grip", "other": "{n} new grips"},
    "half_turns": {"one": "{n} half turn", "other": "{n} half turns"},
    "back_turns": {"one": "{n} turn of the back", "other": "{n} turns of the back"},
    "bottom_turns": {"one": "{n} turn of the bottom", "other": "{n} turns of the bottom"},
    "cross_edges": {"one": "{n} cross edge", "other": "{n} cross edges"},
    "pairs": {"one": "{n} pair", "other": "{n} pairs"},
    "times": {"one": "once", "other": "{n} times"},
}
"""Counted nouns by plural category."""

_NAMES: Mapping[str, tuple[str, ...]] = {
    "name.corner": ("the {name} corner",),
    "name.edge": ("the {name} edge",),
    "brief.corner": ("the corner",),
    "brief.edge": ("the edge",),
    "brief.both": ("both pieces",),
    "brief.pair": ("the pair",),
    "brief.two": ("the two",),
    "brief.cross": ("the cross",),
    "aside.mirror": (" (in the {mirror} mirror)",),
    "aside.mirrors": (" (in the {first} and the {second} mirror)",),
    "mirror.L": ("left",),
    "mirror.B": ("right",),
    "mirror.D": ("lower",),
    "place.top": ("on top at the {spot}",),
    "place.bottom": ("at the bottom {spot}",),
    "place.middle": ("in the middle at the {spot}",),
    "place.slot": ("in the {slot}",),
    "slot.FR": ("front-right slot",),
    "slot.FL": ("front-left slot",),
    "slot.BL": ("back-left slot",),
    "slot.BR": ("back-right slot",),
    "side.FR": ("front-right",),
    "side.FL": ("front-left",),
    "side.BL": ("back-left",),
    "side.BR": ("back-right",),
    "pair.one": ("the {first} pair",),
    "pair.two": ("the {first} and {second} pairs",),
    "kept.cross": ("the cross",),
    "kept.some": ("the cross and {pairs}",),
    "kept.all": ("the cross and the other pairs",),
    "kept.is": ("{kept} is solved",),
    "kept.are": ("{kept} are solved",),
    "layer.U": ("top",),
    "layer.D": ("bottom",),
    "layer.L": ("left",),
    "layer.R": ("right",),
    "layer.F": ("front",),
    "layer.B": ("back",),
    "spot.corner.FR": ("front right",),
    "spot.corner.FL": ("front left",),
    "spot.corner.BL": ("back left",),
    "spot.corner.BR": ("back right",),
    "spot.edge.F": ("front",),
    "spot.edge.L": ("left",),
    "spot.edge.B": ("back",),
    "spot.edge.R": ("right",),
    "spot.edge.FR": ("front right",),
    "spot.edge.FL": ("front left",),
    "spot.edge.BL": ("back left",),
    "spot.edge.BR": ("back right",),
    "direction.U": ("up",),
    "direction.D": ("down",),
    "direction.L": ("left",),
    "direction.R": ("right",),
    "direction.F": ("to the front",),
    "direction.B": ("to the back",),
    "joint.U": ("on top",),
    "joint.D": ("underneath",),
    "joint.L": ("on the left",),
    "joint.R": ("on the right",),
    "joint.F": ("in front",),
    "joint.B": ("at the back",),
    "step.find": ("Find",),
    "step.raise": ("Raise",),
    "step.part": ("Part",),
    "step.join": ("Join",),
    "step.insert": ("Insert",),
    "title.optimal": ("Optimal",),
    "title.acceptable": ("Acceptable",),
    "title.detour": ("Detour",),
    "title.solved": ("Solved",),
}

_DID: Mapping[str, tuple[str, ...]] = {
    "did.home": (
        "Solved! {corner} and {edge} are in the {slot}. {all_kept} too.",
        "{turn} solves the pair: {corner} and {edge} are in the {slot}. {all_kept} too.",
    ),
    "did.joined": (
        "{cross} pointed {was_points} and {e} was {was_edge_place}, so {turn} makes {two} match.",
        "{turn} joins {corner} and {edge}: their colours line up on both sides.",
        "Well seen: with {e} {was_edge_place}, {turn} makes {two} match.",
    ),
    "did.seated": (
        "{turn} slides the joined pair into the lifted slot. Only the {lifted} layer has to turn back.",
        "{two} match, and {turn} slides them into the lifted slot. Now turn the {lifted} layer back.",
    ),
    "did.parted": (
        "Now {two} are ready to join: {c} is {corner_place} and {e} {edge_place}.",
        "{turn} makes {two} ready to join: {c} is {corner_place} and {e} {edge_place}.",
    ),
    "did.raised": (
        "{turn} turns the {layer} layer back: {both} are on top, and {all_kept}.",
        "{both} are on top now, {c} at the {corner_spot} and {e} at the {edge_spot}, and {all_kept}.",
    ),
    "did.both_up": ("{turn} brings {corner} and {edge} up to the top layer.",),
    "did.corner_up": (
        "{c} was {was_corner_place}; {turn} brings it up, and its {cross} now points {points}.",
        "{turn} brings {corner} up to the top layer; its {cross} now points {points}.",
    ),
    "did.edge_up": (
        "{e} was {was_edge_place}; {turn} brings it up, with {edge_up} on top.",
        "{turn} brings {edge} up to the top layer, with {edge_up} on top.",
    ),
    "did.apart": (
        "{c} and {e} touched without matching: {turn} separates them.",
        "{turn} separates {corner} and {edge}. They touched without matching.",
    ),
    "did.corner_spared": (
        "{turn} moves {c} off the {was_lifted} layer, so it stays on top when you turn that layer back.",
        "{c} is {corner_place} now, so it stays on top when you turn the {was_lifted} layer back.",
    ),
    "did.edge_spared": (
        "{turn} moves {e} off the {was_lifted} layer, so it stays on top when you turn that layer back.",
        "{e} is {edge_place} now, so it stays on top when you turn the {was_lifted} layer back.",
    ),
    "did.lowered": (
        "{turn} turns the {layer} layer back: {all_kept} again.",
        "The {layer} layer is back, and {all_kept} again; {c} is {corner_place}.",
    ),
    "did.put_back": ("{turn} puts {put_back} back in place.",),
    "did.opened": (
        "{turn} lifts the {slot} and leaves {both} where they were.",
        "The {slot} is lifted now, and {both} stayed where they were.",
    ),
    "did.carried_corner": (
        "{turn} lifts the {slot} and takes {c} along; {e} stays {edge_place}.",
        "With the {slot} lifted, {c} is {corner_place} and its {cross} points {points}.",
    ),
    "did.carried_edge": (
        "{turn} lifts the {slot} and takes {e} along; {c} stays {corner_place}.",
        "With the {slot} lifted, {e} is {edge_place}; {c} stayed {corner_place}.",
    ),
    "did.cleared": (
        "Now neither {c} nor {e} is in the {next} layer, so you can lift the slot without them.",
        "Now {both} are outside the {next} layer, so lifting does not move them.",
    ),
    "did.set_corner": (
        "Now {c} is in the {next} layer and {e} is not, so lifting takes only {c} along.",
        "With {c} in the {next} layer and {e} outside it, lifting moves {c} alone.",
    ),
    "did.set_edge": (
        "Now {e} is in the {next} layer and {c} is not, so lifting takes only {e} along.",
        "With {e} in the {next} layer and {c} outside it, lifting moves {e} alone.",
    ),
    "did.taken_out": ("{turn} takes out {taken_out}.",),
    "did.split": ("{c} and {e} matched, and {turn} separates them.",),
    "did.both_down": ("{turn} takes both down from the top: {c} is {corner_place}, {e} {edge_place}.",),
    "did.corner_down": ("{turn} takes {c} down from the top: it is {corner_place} now.",),
    "did.edge_down": ("{turn} takes {e} down from the top: it is {edge_place} now.",),
    "did.moved_both": (
        "{turn} moves both. Now {c} is {corner_place}, {e} {edge_place}.",
        "{turn} moves both, and {cross} points {points} now.",
    ),
    "did.moved_corner": ("{turn} moves only {c}: it is {corner_place} now, its {cross} pointing {points}.",),
    "did.moved_edge": ("{turn} moves only {e}: it is {edge_place} now.",),
    "did.moved_none": (
        "{turn} moves neither {c} nor {e}.",
        "{turn} leaves {both} where they were.",
    ),
}

_COST: Mapping[str, tuple[str, ...]] = {
    "cost.optimal": ("{to_go} left.",),
    "cost.later": ("{to_go} left, and a later one can {prospect}.",),
    "cost.next": ("{to_go} left, and the next can {prospect}.",),
    "next.joined": ("make {two} match",),
    "next.seated": ("slide {pair} into the lifted slot",),
    "next.parted": ("make {two} ready to join",),
    "next.both_up": ("bring {both} up to the top",),
    "next.corner_up": ("bring {c} up to the top",),
    "next.edge_up": ("bring {e} up to the top",),
    "next.apart": ("separate {two}",),
    "next.opened": ("lift the {slot} without moving {two}",),
    "next.carried_corner": ("lift the {slot} and take only {c} along",),
    "next.carried_edge": ("lift the {slot} and take only {e} along",),
    "cost.step": ("{step} is done: {to_go} left.",),
    "cost.far": ("{to_go} left, with far layers too.",),
    "cost.far_only": (
        "That begins a shortest way with far layers. The layers beside the slot cannot solve it now.",
    ),
    "cost.far_also": ("That begins a shortest way with far layers. By hand there are {to_go} left.",),
    "cost.route": ("It works too: a way through the steps, {longer} longer.",),
    "cost.another_way": ("It works too: another way, {longer} longer.",),
    "cost.detour": ("That costs {extra}.",),
    "cost.back": ("Turn it back: that costs {turns}.",),
    "cost.shorter": ("There was a way {turns} shorter.",),
    "cost.shorter_but": ("But there was a way {turns} shorter.",),
    "cost.cannot": ("The layers beside the slot cannot put that right, so it costs {extra}.",),
    "idle.plain": ("That does not help here.",),
    "idle.but": ("But that does not help here.",),
    "also.split": ("It also separates {c} and {e}, which matched.",),
    "also.both_down": ("It also takes {both} down.",),
    "also.corner_down": ("It also takes {c} down.",),
    "also.edge_down": ("It also takes {e} down.",),
    "cost.nothing": ("{pair} was solved already, so there was nothing to turn.",),
}

_SLIPS: Mapping[str, tuple[str, ...]] = {
    "slip.wrong_way": ("It is the {layer} layer that should turn, but the other way round.",),
    "slip.wrong_way_too": ("The {layer} layer can help, but turn it the other way round.",),
    "slip.too_far": ("It is the {layer} layer that should turn, but only a quarter.",),
    "slip.too_far_too": ("The {layer} layer can help, but turn it only a quarter.",),
    "slip.too_short": ("It is the {layer} layer that should turn, but half way round.",),
    "slip.too_short_too": ("The {layer} layer can help, but turn it half way round.",),
    "slip.too_early": ("Lifting with {turn} is right, but one turn too early: first turn the top layer.",),
    "slip.too_early_too": ("Lifting with {turn} can help, but turn the top layer first.",),
    "slip.both_lifted": ("{turn} takes {c} and {e} along together, so they still touch without matching.",),
    "slip.wrong_join": ("Now {two} touch the wrong way round: {corner_colour} meets {edge_colour} {joint}.",),
    "slip.left_lifted": ("The {was_lifted} layer is still turned: turn it back before you go on.",),
}

_REVIEW: Mapping[str, tuple[str, ...]] = {
    "review.way": ("Your way: {made}, {where}.",),
    "review.so_far": ("You made {made}, {where}.",),
    "review.left": ("Still to make: {left}.",),
    "review.beside": ("all beside the slot",),
    "review.far": ("with far layers too",),
    "review.shortest": ("Shortest by hand: {fewest}.",),
    "review.shortest_far": ("Shortest, with far layers too: {fewest}.",),
    "review.parted": ("You left the shortest way at your {nth} turn: {turn} instead of {best}.",),
    "review.other_way": ("At your {nth} turn you took another way: {turn} instead of {best}.",),
    "review.longer_there": ("It works too, {longer} longer.",),
    "review.far_there": ("With far layers too, it begins a shortest way.",),
    "review.cost_there": ("That turn alone cost {extra}.",),
    "review.same_length": ("Step by step takes as many turns as the shortest line: {line_turns}.",),
    "review.shortcut": ("Step by step takes {route_turns}. The shortest line takes {line_turns}.",),
    "review.merges": ("The line does {steps} with one turn, {turn}.",),
    "review.skips": ("The line skips {step}.",),
    "review.skips_all": ("The line skips {steps}.",),
    "list.two": ("{first} and {second}",),
    "list.more": ("{first}, {rest}",),
    "nth.1": ("first",),
    "nth.2": ("second",),
    "nth.3": ("third",),
    "nth.4": ("fourth",),
    "nth.5": ("fifth",),
    "nth.6": ("sixth",),
    "nth.7": ("seventh",),
    "nth.8": ("eighth",),
    "nth.9": ("ninth",),
    "nth.10": ("tenth",),
    "nth.more": ("{n}th",),
    "comfort.because": ("{line} is as short as {other}, but easier on the hands: it has {reasons}.",),
    "comfort.smoother": ("{line} is as short as {other}, but its layers are easier to reach.",),
    "comfort.fewer": ("{less} instead of {more}",),
}

TEXTS: Mapping[str, tuple[str, ...]] = {
    **_NAMES,
    **_DID,
    **_COST,
    **_SLIPS,
    **HINT_TEXTS,
    **_REVIEW,
    **RAIL_TEXTS,
    **SOLVE_TEXTS,
}
"""Every text by its key."""
