"""The words of hints and of questions about a turn, in English; part of the catalogue in ``english``."""

from __future__ import annotations

from collections.abc import Mapping

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
    "look.done": ("Nothing to look for: {pair} is solved.",),
    "look.low_both": ("Look low: {corner} is {was_corner_place} and {edge} {was_edge_place}.",),
    "look.low_together": ("Look low: {corner} and {edge} are both {was_corner_place}.",),
    "look.corner_low": (
        "Look low for {corner}: it is {was_corner_place}, its {cross} pointing {was_points}.",
    ),
    "look.edge_low": ("Look low for {edge}: it is {was_edge_place}.",),
    "look.touching": (
        "Look on top, at the {was_corner_spot}: {corner} touches {edge}. "
        "Do their colours line up on both sides?",
    ),
    "look.apart": (
        "Look at {corner}, {was_corner_place}: {cross} points {was_points}. "
        "Then at {edge}, {was_edge_place}: {was_edge_up} is on top.",
    ),
    "look.pair": ("{corner} and {edge} match. Look at them and at the {slot}.",),
    "look.lifted": ("Look at the {was_lifted} layer: it has been turned. {place}",),
    "look.mixed": ("More than one layer has been turned. Look at the cross first. {place}",),
    "look.together": ("{corner} and {edge} are both {was_corner_place}.",),
    "look.where": ("{corner} is {was_corner_place}, {edge} {was_edge_place}.",),
    "idea.step": ("{step}: {idea}",),
    "idea.done": ("{pair} is solved: nothing is left to do.",),
    "idea.home": ("{pair} is in the lifted slot, so lower the slot.",),
    "idea.home_other": ("A single turn solves the pair. Which layer has been turned?",),
    "idea.joined": (
        "{cross} points {was_points} and {e} is {was_edge_place}. Which layer brings {two} together?",
    ),
    "idea.seated": ("{two} match and their slot is lifted, so bring them into it.",),
    "idea.parted": ("one turn makes {two} ready to join. Which layer has to turn?",),
    "idea.raised": ("turn the {was_lifted} layer back to put {kept} in place. {both} stay on top.",),
    "idea.both_up": ("{c} is {was_corner_place}, {e} {was_edge_place}. Bring both up in one go.",),
    "idea.both_up_together": ("both pieces are {was_corner_place}. Bring them up in one go.",),
    "idea.corner_up": ("{c} is {was_corner_place}. Bring it up to the top layer.",),
    "idea.edge_up": ("{e} is {was_edge_place}. Bring it up to the top layer.",),
    "idea.apart": ("{c} and {e} touch without matching. Separate them.",),
    "idea.corner_spared": (
        "{c} is in the {was_lifted} layer. Move it off, so it stays on top when that layer turns back.",
    ),
    "idea.edge_spared": (
        "{e} is in the {was_lifted} layer. Move it off, so it stays on top when that layer turns back.",
    ),
    "idea.lowered": ("turn the {was_lifted} layer back to put {kept} back in place.",),
    "idea.put_back": ("first put {put_back} back in place.",),
    "idea.opened": ("lift the {slot} without moving {c} or {e}.",),
    "idea.carried_corner": ("lift the {slot} so that {c} goes along and {e} stays.",),
    "idea.carried_edge": ("lift the {slot} so that {e} goes along and {c} stays.",),
    "idea.cleared": ("make room. Turn the top until neither {c} nor {e} is in the {next} layer.",),
    "idea.set_corner": ("turn the top until {c} is in the {next} layer and {e} is not.",),
    "idea.set_edge": ("turn the top until {e} is in the {next} layer and {c} is not.",),
    "idea.layer": ("start with the {layer} layer. Which way round, and how far?",),
    "idea.first": ("{aim}. First, the {layer} layer has to turn.",),
    "aim.home": ("you are about to solve {pair}",),
    "aim.joined": ("the aim is to make {c} and {e} match",),
    "aim.seated": ("the aim is to slide {pair} into the lifted slot",),
    "aim.parted": ("the aim is to make {c} and {e} ready to join",),
    "aim.raised": ("the aim is to put {kept} back in place with {both} on top",),
    "aim.both_up": ("the aim is to bring {both} up to the top layer",),
    "aim.corner_up": ("the aim is to bring {c} up to the top layer",),
    "aim.edge_up": ("the aim is to bring {e} up to the top layer",),
    "aim.apart": ("the aim is to separate {c} and {e}",),
    "aim.corner_spared": ("the aim is to move {c} off the lifted slot's layer",),
    "aim.edge_spared": ("the aim is to move {e} off the lifted slot's layer",),
    "aim.lowered": ("the aim is to put {kept} back in place",),
    "aim.put_back": ("the aim is to put {put_back} back in place",),
    "aim.opened": ("the aim is to lift the {slot} without moving {c} or {e}",),
    "aim.carried_corner": ("the aim is to lift the {slot} and take only {c} along",),
    "aim.carried_edge": ("the aim is to lift the {slot} and take only {e} along",),
    "aim.cleared": ("the aim is to lift the slot without {c} or {e}",),
    "aim.set_corner": ("the aim is to have only {c} in the layer that lifts the slot",),
    "aim.set_edge": ("the aim is to have only {e} in the layer that lifts the slot",),
    "turn.show": ("Turn {turn}: {way}.",),
    "turn.done": ("{pair} is solved: no turn is needed.",),
}

_WHY: Mapping[str, tuple[str, ...]] = {
    "why.question": ("What is {turn} for, here?", "Why {turn}, here?"),
    "why.home": ("It solves {pair}.",),
    "why.seated": ("It brings {pair} into its slot. Then only the {lifted} layer has to turn back.",),
    "why.joined": ("It makes {c} and {e} match.",),
    "why.apart": ("It separates {c} and {e}, so that they no longer touch.",),
    "why.both_up": ("It brings {both} up to the top layer.",),
    "why.corner_up": ("It brings {c} up to the top layer.",),
    "why.edge_up": ("It brings {e} up to the top layer.",),
    "why.corner_spared": ("It moves {c} off the {was_lifted} layer, so you can turn that layer back.",),
    "why.edge_spared": ("It moves {e} off the {was_lifted} layer, so you can turn that layer back.",),
    "why.settled": ("It puts {kept} back in place.",),
    "why.opened": ("It lifts the {slot} and leaves {both} where they are.",),
    "why.carried_corner": ("It lifts the {slot} and takes {c} along, but not {e}.",),
    "why.carried_edge": ("It lifts the {slot} and takes {e} along, but not {c}.",),
    "why.carried_both": ("It lifts the {slot} and takes {both} along.",),
    "why.cleared": ("After it, neither {c} nor {e} is in the {next} layer.",),
    "why.set_corner": ("After it, {c} is in the {next} layer and {e} is not.",),
    "why.set_edge": ("After it, {e} is in the {next} layer and {c} is not.",),
    "why.split": ("It separates {c} and {e}, although they match.",),
    "why.corner_down": ("It takes {c} out of the top layer.",),
    "why.edge_down": ("It takes {e} out of the top layer.",),
    "why.other_turn": ("{other} would do that here, not {turn}.",),
    "why.other_start": ("{turn} would do that from another start, one turn away from this one.",),
}

HINT_TEXTS: Mapping[str, tuple[str, ...]] = {**_WAYS, **_HINTS, **_WHY}
"""Every text by its key."""
