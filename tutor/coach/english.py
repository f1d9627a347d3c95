"""All words for people that the coach says, in English. Replace this module's mappings to translate it.

Names in braces are filled in; every text of one group may use every field of that group:

* of a turn (``did``, ``look``, ``idea``, ``aim``, ``why``, ``slip``): ``turn``; ``corner``, ``edge`` by their
  colours; ``c``, ``e``, ``both``, ``pair`` in brief; ``corner_place``, ``edge_place``, ``points`` (where the
  cross colour of the corner points), ``edge_up`` (the edge's colour on top), each also with ``was_`` for
  before the turn; ``cross`` the cross colour; ``slot``; ``layer`` of the turn, ``lifted`` and ``was_lifted``
  the layer out of place, ``next`` the layer that is turned next;
* of its price (``cost``): ``to_go``, ``extra``, ``step``.

A tuple holds variants that say the same; one is chosen by what is on the cube.
"""

from __future__ import annotations

from collections.abc import Mapping

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
    "cross_out": {"one": "{n} edge of it is", "other": "{n} edges of it are"},
    "cross_edges": {"one": "{n} edge of the cross", "other": "{n} edges of the cross"},
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
    "aside.mirror": (" (in the {mirror} mirror)",),
    "aside.mirrors": (" (in the {first} and the {second} mirror)",),
    "mirror.L": ("left",),
    "mirror.B": ("right",),
    "mirror.D": ("lower",),
    "place.top": ("on top at the {spot}",),
    "place.bottom": ("at the bottom {spot}",),
    "place.slot": ("in the {slot}",),
    "slot.FR": ("front-right slot",),
    "slot.FL": ("front-left slot",),
    "slot.BL": ("back-left slot",),
    "slot.BR": ("back-right slot",),
    "pair.of": ("the pair of the {slot}",),
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
    "title.home": ("Home",),
}

_DID: Mapping[str, tuple[str, ...]] = {
    "did.home": (
        "Home! {corner} and {edge} are in the {slot}, and the cross is whole.",
        "{turn} takes the pair home: {corner} and {edge} sit in the {slot}, and the cross is whole.",
    ),
    "did.joined": (
        "{cross} pointed {was_points}, {e} was {was_edge_place}: {turn} joins {two}, and now they match.",
        "{turn} joins {corner} and {edge}: both colours run on from one to the other.",
        "Well seen: with {e} {was_edge_place}, {turn} makes {two} match.",
    ),
    "did.seated": (
        "{turn} brings the joined pair into the lifted slot; only the {lifted} layer has to go back.",
        "{two} match, and {turn} puts them into the lifted slot; only the {lifted} layer has to go back.",
    ),
    "did.parted": (
        "They touched without matching; now they are apart, {c} {corner_place} and {e} {edge_place}.",
        "{turn} leaves {two} apart: {c} {corner_place}, {e} {edge_place}.",
    ),
    "did.raised": (
        "{turn} puts the {layer} layer straight: the cross is whole and {both} are on top.",
        "The cross is whole again, and {both} are on top: {c} at the {corner_spot}, {e} at the {edge_spot}.",
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
        "They touched without matching: {turn} draws {c} and {e} apart.",
        "{turn} draws {corner} away from {edge}, which it touched without matching.",
    ),
    "did.corner_spared": (
        "{turn} moves {c} off the lifted {was_lifted} layer, to stay on top when that layer goes back.",
        "{c} was on the lifted {was_lifted} layer; now it is {corner_place}, out of that layer's way.",
    ),
    "did.edge_spared": (
        "{turn} moves {e} off the lifted {was_lifted} layer, to stay on top when that layer goes back.",
        "{e} was on the lifted {was_lifted} layer; now it is {edge_place}, out of that layer's way.",
    ),
    "did.lowered": (
        "{turn} puts the {layer} layer straight, and the cross is whole again.",
        "The {layer} layer is straight and the cross is whole again; {c} is {corner_place}.",
    ),
    "did.mended_pair": ("{turn} brings {kept} home again.",),
    "did.mended_cross": ("{turn} brings {cross_edges} home again.",),
    "did.took_back": ("{turn} takes {previous} back.",),
    "did.took_back_whole": ("{turn} takes {previous} back, and the cross is whole again.",),
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
        "Now neither {c} nor {e} is in the {next} layer: the slot can come up without them.",
        "{turn} clears the {next} layer: {c} is {corner_place} and {e} {edge_place}.",
    ),
    "did.set_corner": (
        "Now {c} is in the {next} layer and {e} is not: lifting takes only {c} along.",
        "With {c} in the {next} layer and {e} outside it, a lift will move {c} alone.",
    ),
    "did.set_edge": (
        "Now {e} is in the {next} layer and {c} is not: lifting takes only {e} along.",
        "With {e} in the {next} layer and {c} outside it, a lift will move {e} alone.",
    ),
    "did.disorder": (
        "{turn} disturbs the cross: {cross_out} out of place now.",
        "{turn} takes the cross further apart: {cross_out} out of place now.",
    ),
    "did.split": ("{c} and {e} matched; {turn} pulls them apart.",),
    "did.corner_down": ("{turn} takes {c} out of the top layer: it is {corner_place} now.",),
    "did.edge_down": ("{turn} takes {e} out of the top layer: it is {edge_place} now.",),
    "did.moved_both": (
        "{turn} moves both: {c} is {corner_place} now and {e} {edge_place}.",
        "Now {c} is {corner_place}, its {cross} pointing {points}, and {e} is {edge_place}.",
    ),
    "did.moved_corner": ("{turn} moves only {c}: it is {corner_place} now, its {cross} pointing {points}.",),
    "did.moved_edge": ("{turn} moves only {e}: it is {edge_place} now.",),
    "did.moved_none": (
        "{turn} moves neither {c} nor {e}.",
        "{turn} leaves {both} where they were.",
    ),
}

_COST: Mapping[str, tuple[str, ...]] = {
    "cost.optimal": ("{to_go} to go.",),
    "cost.later": ("{to_go} to go, and a later one can {prospect}.",),
    "cost.next": ("{to_go} to go, and the next can {prospect}.",),
    "next.joined": ("make {two} match",),
    "next.seated": ("bring {pair} into the lifted slot",),
    "next.parted": ("set {two} apart",),
    "next.raised": ("make the cross whole with {both} on top",),
    "next.both_up": ("bring {both} up to the top",),
    "next.corner_up": ("bring {c} up to the top",),
    "next.edge_up": ("bring {e} up to the top",),
    "next.apart": ("draw {two} apart",),
    "next.lowered": ("make the cross whole again",),
    "next.opened": ("lift the {slot} without moving {two}",),
    "next.carried_corner": ("lift the {slot} and take only {c} along",),
    "next.carried_edge": ("lift the {slot} and take only {e} along",),
    "cost.step": ("{step} is done, {to_go} to go.",),
    "cost.acceptable": ("It works, {longer} longer: {number} to go.",),
    "cost.idle": (
        "It brings you no nearer: {back} takes it back. With both, it is {longer} longer: {number} to go.",
    ),
    "cost.detour": ("That costs {extra}: {number} to go now.",),
    "cost.detour_but": ("But it costs {extra}: {number} to go now.",),
    "cost.nothing": ("{pair} was home already, so there was nothing to turn.",),
}

_SLIPS: Mapping[str, tuple[str, ...]] = {
    "slip.took_back": ("{turn} takes back your turn before, and that one brought you nearer.",),
    "slip.wrong_way": ("It is the {layer} layer that should turn, but the other way round.",),
    "slip.too_far": ("It is the {layer} layer that should turn, but only a quarter, not half way.",),
    "slip.too_short": ("It is the {layer} layer that should turn, but half way: a quarter is too little.",),
    "slip.too_early": (
        "Lifting with {turn} is right, but one turn too early: first the top layer must move.",
    ),
    "slip.both_lifted": ("{turn} takes {c} and {e} along together, so they still touch without matching.",),
    "slip.wrong_join": ("Now {two} touch the wrong way round: {corner_colour} meets {edge_colour} {joint}.",),
    "slip.left_lifted": ("The {was_lifted} layer was still out of place: put it straight before you go on.",),
    "slip.put_out_pair": ("{turn} takes {kept} out, and it was home.",),
    "slip.put_out_cross": ("{turn} takes {cross_edges} out of place.",),
    "slip.same_face": ("{previous} and then {turn} come to {one}: one turn of that layer does it.",),
}

_WAYS: Mapping[str, tuple[str, ...]] = {
    "way.U": ("the top layer, its front going left",),
    "way.U'": ("the top layer, its front going right",),
    "way.D": ("the bottom layer, its front going right",),
    "way.D'": ("the bottom layer, its front going left",),
    "way.L": ("the left layer, its front going down",),
    "way.L'": ("the left layer, its front going up",),
    "way.R": ("the right layer, its front going up",),
    "way.R'": ("the right layer, its front going down",),
    "way.F": ("the front layer, its top going right",),
    "way.F'": ("the front layer, its top going left",),
    "way.B": ("the back layer, its top going left",),
    "way.B'": ("the back layer, its top going right",),
    "way.half": ("the {layer} layer, half way round",),
}

_HINTS: Mapping[str, tuple[str, ...]] = {
    "look.done": ("Nothing to look for: {pair} is home.",),
    "look.low_both": ("Look low: {corner} is {was_corner_place} and {edge} {was_edge_place}.",),
    "look.corner_low": (
        "Look low for {corner}: it is {was_corner_place}, its {cross} pointing {was_points}.",
    ),
    "look.edge_low": ("Look low for {edge}: it is {was_edge_place}.",),
    "look.touching": (
        "Look on top, at the {was_corner_spot}: {corner} touches {edge}. Do both colours run on?",
    ),
    "look.apart": (
        "Look at {corner}, {was_corner_place}: {cross} points {was_points}. "
        "Then at {edge}, {was_edge_place}: {was_edge_up} is on top.",
    ),
    "look.pair": ("Look at {corner} and {edge}, which match, and at their home, the {slot}.",),
    "look.lifted": ("Look at the {was_lifted} layer, which is out of place. {place}",),
    "look.mixed": ("More than one layer is out of place; look at the cross first. {place}",),
    "look.where": ("{corner} is {was_corner_place}, {edge} {was_edge_place}.",),
    "idea.done": ("{pair} is home: nothing is left to do.",),
    "idea.home": ("{pair} is in the lifted slot: take it down.",),
    "idea.home_other": ("A single turn brings all home. Which layer is out of place?",),
    "idea.joined": (
        "{cross} points {was_points} and {e} is {was_edge_place}. Which layer brings {two} together?",
    ),
    "idea.seated": ("{two} match and their slot is lifted: bring them into it.",),
    "idea.parted": ("{two} touch without matching: set them apart.",),
    "idea.raised": ("Put the {was_lifted} layer straight: the cross becomes whole, with {both} on top.",),
    "idea.both_up": ("{c} is {was_corner_place}, {e} {was_edge_place}: bring both up in one go.",),
    "idea.corner_up": ("{c} is {was_corner_place}: bring it up to the top layer.",),
    "idea.edge_up": ("{e} is {was_edge_place}: bring it up to the top layer.",),
    "idea.apart": ("{c} and {e} touch without matching: draw them apart.",),
    "idea.corner_spared": (
        "{c} is in the {was_lifted} layer: move it off, so it stays on top when that layer goes back.",
    ),
    "idea.edge_spared": (
        "{e} is in the {was_lifted} layer: move it off, so it stays on top when that layer goes back.",
    ),
    "idea.lowered": ("Put the {was_lifted} layer straight, so that the cross is whole again.",),
    "idea.mended_pair": ("{kept} is out of place: bring it home first.",),
    "idea.mended_cross": ("The cross is not whole: bring {cross_edges} home first.",),
    "idea.opened": ("Lift the {slot} without moving {c} or {e}.",),
    "idea.carried_corner": ("Lift the {slot} so that {c} goes along and {e} stays.",),
    "idea.carried_edge": ("Lift the {slot} so that {e} goes along and {c} stays.",),
    "idea.cleared": ("Make room: turn the top until neither {c} nor {e} is in the {next} layer.",),
    "idea.set_corner": ("Turn the top until {c} is in the {next} layer and {e} is not.",),
    "idea.set_edge": ("Turn the top until {e} is in the {next} layer and {c} is not.",),
    "idea.layer": ("The quickest way on starts with the {layer} layer. Which way round, and how far?",),
    "idea.first": ("{aim} First, the {layer} layer has to turn.",),
    "aim.home": ("The aim is to take {pair} home.",),
    "aim.joined": ("The aim is to make {c} and {e} match.",),
    "aim.seated": ("The aim is to bring {pair} into the lifted slot.",),
    "aim.parted": ("The aim is to set {c} and {e} apart.",),
    "aim.raised": ("The aim is a whole cross with {both} on top.",),
    "aim.both_up": ("The aim is to bring {both} up to the top layer.",),
    "aim.corner_up": ("The aim is to bring {c} up to the top layer.",),
    "aim.edge_up": ("The aim is to bring {e} up to the top layer.",),
    "aim.apart": ("The aim is to draw {c} and {e} apart.",),
    "aim.corner_spared": ("The aim is to get {c} out of a lifted layer's way.",),
    "aim.edge_spared": ("The aim is to get {e} out of a lifted layer's way.",),
    "aim.lowered": ("The aim is to make the cross whole again.",),
    "aim.mended_pair": ("The aim is to bring {kept} home again.",),
    "aim.mended_cross": ("The aim is to bring {cross_edges} home again.",),
    "aim.opened": ("The aim is to lift the {slot} without moving {c} or {e}.",),
    "aim.carried_corner": ("The aim is to lift the {slot} and take only {c} along.",),
    "aim.carried_edge": ("The aim is to lift the {slot} and take only {e} along.",),
    "aim.cleared": ("The aim is to keep {both} out of the layer that lifts the slot.",),
    "aim.set_corner": ("The aim is to have only {c} in the layer that lifts the slot.",),
    "aim.set_edge": ("The aim is to have only {e} in the layer that lifts the slot.",),
    "turn.show": ("Turn {turn}: {way}.",),
    "turn.done": ("{pair} is home: no turn is needed.",),
}

_WHY: Mapping[str, tuple[str, ...]] = {
    "why.question": ("What is {turn} for, here?", "Why {turn}, here?"),
    "why.home": ("It takes {pair} home.",),
    "why.seated": ("It brings {pair} into its slot: then only the {lifted} layer has to go back.",),
    "why.joined": ("It makes {c} and {e} match.",),
    "why.apart": ("It sets {c} and {e} apart, so that they no longer touch.",),
    "why.both_up": ("It brings {both} up to the top layer.",),
    "why.corner_up": ("It brings {c} up to the top layer.",),
    "why.edge_up": ("It brings {e} up to the top layer.",),
    "why.corner_spared": ("It moves {c} off the lifted {was_lifted} layer.",),
    "why.edge_spared": ("It moves {e} off the lifted {was_lifted} layer.",),
    "why.whole": ("It makes the cross whole again.",),
    "why.opened": ("It lifts the {slot} and leaves {both} where they are.",),
    "why.carried_corner": ("It lifts the {slot} and takes {c} along, but not {e}.",),
    "why.carried_edge": ("It lifts the {slot} and takes {e} along, but not {c}.",),
    "why.carried_both": ("It lifts the {slot} and takes {both} along.",),
    "why.cleared": ("After it, neither {c} nor {e} is in the {next} layer.",),
    "why.set_corner": ("After it, {c} is in the {next} layer and {e} is not.",),
    "why.set_edge": ("After it, {e} is in the {next} layer and {c} is not.",),
    "why.split": ("It pulls {c} and {e} apart, which match.",),
    "why.corner_down": ("It takes {c} out of the top layer.",),
    "why.edge_down": ("It takes {e} out of the top layer.",),
    "why.other_turn": ("{other} would do that here, not {turn}.",),
    "why.other_start": ("{turn} would do that from another start, one turn away from this one.",),
}

_REVIEW: Mapping[str, tuple[str, ...]] = {
    "review.fewest": ("You took {made}: no way is shorter.",),
    "review.longer": ("You took {made}; the fewest is {fewest}.",),
    "review.unfinished": ("After {made} you had {left} to go; from the start the fewest was {fewest}.",),
    "review.parted": ("You left the shortest way at your {nth} turn: {turn} instead of {best}.",),
    "review.other_way": ("At your {nth} turn you took another way: {turn} instead of {best}.",),
    "review.longer_there": ("It works, {longer} longer.",),
    "review.cost_there": ("That turn alone cost {extra}.",),
    "review.same_length": ("The route step by step and the shortest line both take {line_turns}.",),
    "review.shortcut": ("The route step by step takes {route_turns}, the shortest line {line_number}.",),
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
    **_WAYS,
    **_HINTS,
    **_WHY,
    **_REVIEW,
    **SOLVE_TEXTS,
}
"""Every text by its key."""
