"""The three hints: where to look, the idea, the turn."""

from __future__ import annotations

from collections.abc import Mapping

_LOOK: Mapping[str, tuple[str, ...]] = {
    "look.done": ("{pair} is solved, so there is nothing to look for.",),
    "look.low_both": ("Look below the top. {corner} is {was_corner_place}. {edge} is {was_edge_place}.",),
    "look.low_together": ("Look below the top. Both are {was_corner_place}: {corner} and {edge}.",),
    "look.corner_low": (
        "Look below the top: {corner} is {was_corner_place}, with {cross} pointing {was_points}.",
    ),
    "look.edge_low": ("Look below the top: {edge} is {was_edge_place}.",),
    "look.touching": (
        "Look on top at the {was_corner_spot}, where {corner} touches {edge}. "
        "Do their colours line up on both sides?",
    ),
    "look.apart": (
        "Look at the top. {corner} is {was_corner_place}, with {cross} pointing {was_points}. "
        "{edge} is {was_edge_place}, with {was_edge_up} on top.",
    ),
    "look.pair": ("{corner} and {edge} match. Now look at the {slot}.",),
    "look.lifted": ("Look at the {was_lifted} layer, because it has been turned. {place}",),
    "look.mixed": ("More than one layer has been turned. Look at the cross first. {place}",),
    "look.together": ("Both are {was_corner_place}: {corner} and {edge}.",),
    "look.board_both": ("{both} are {place}.",),
    "look.board_each": ("{c} is {corner}, and {e} is {edge}.",),
    "look.where": ("{corner} is {was_corner_place}. {edge} is {was_edge_place}.",),
}

_IDEA: Mapping[str, tuple[str, ...]] = {
    "idea.step": ("{step}: {idea}",),
    "idea.done": ("{pair} is solved, so nothing is left to do.",),
    "idea.home": ("{pair} is in the lifted slot, so turn the {layer} layer back.",),
    "idea.home_other": ("one turn solves the pair. Which layer has been turned?",),
    "idea.joined": (
        "{cross} points {was_points} and {e} is {was_edge_place}. Which layer brings {two} together?",
    ),
    "idea.seated": ("{two} match and their slot is lifted, so slide them into it.",),
    "idea.parted": ("one turn makes {two} ready to join. Which layer has to turn?",),
    "idea.raised": ("turn the {was_lifted} layer back to put {kept} back in place. Then {both} are on top.",),
    "idea.both_up": ("{c} is {was_corner_place} and {e} is {was_edge_place}. Bring both up with one turn.",),
    "idea.both_up_together": ("{both} are {was_corner_place}. Bring them up with one turn.",),
    "idea.corner_up": ("{c} is {was_corner_place}. Bring it up to the top layer.",),
    "idea.edge_up": ("{e} is {was_edge_place}. Bring it up to the top layer.",),
    "idea.apart": ("{c} and {e} touch without matching. Separate them.",),
    "idea.corner_spared": (
        "{c} is in the {was_lifted} layer. Move it out, and it stays on top when that layer turns back.",
    ),
    "idea.edge_spared": (
        "{e} is in the {was_lifted} layer. Move it out, and it stays on top when that layer turns back.",
    ),
    "idea.lowered": ("turn the {was_lifted} layer back to put {kept} back in place.",),
    "idea.put_back": ("first put {put_back} back in place.",),
    "idea.opened": ("lift the {slot} without moving {c} or {e}.",),
    "idea.carried_corner": ("lift the {slot} so that {c} goes along and {e} stays where it is.",),
    "idea.carried_edge": ("lift the {slot} so that {e} goes along and {c} stays where it is.",),
    "idea.cleared": ("turn the top until neither {c} nor {e} is in the {next} layer.",),
    "idea.set_corner": ("turn the top until {c} is in the {next} layer and {e} is not.",),
    "idea.set_edge": ("turn the top until {e} is in the {next} layer and {c} is not.",),
    "idea.layer": ("start with the {layer} layer. Which way should it turn, and how far?",),
    "idea.first": ("{aim}. First turn the {layer} layer.",),
    "idea.board": ("{aim}.",),
    "aim.home": ("you are about to solve {pair}",),
    "aim.joined": ("you want to make {c} and {e} match",),
    "aim.seated": ("you want to slide {pair} into the lifted slot",),
    "aim.parted": ("you want to make {c} and {e} ready to join",),
    "aim.raised": ("you want {kept} back in place with {both} on top",),
    "aim.both_up": ("you want to bring {both} up to the top layer",),
    "aim.corner_up": ("you want to bring {c} up to the top layer",),
    "aim.edge_up": ("you want to bring {e} up to the top layer",),
    "aim.apart": ("you want to separate {c} and {e}",),
    "aim.corner_spared": ("you want to move {c} out of the lifted layer",),
    "aim.edge_spared": ("you want to move {e} out of the lifted layer",),
    "aim.lowered": ("you want to put {kept} back in place",),
    "aim.put_back": ("you want to put {put_back} back in place",),
    "aim.opened": ("you want to lift the {slot} without moving {c} or {e}",),
    "aim.carried_corner": ("you want to lift the {slot} and take only {c} along",),
    "aim.carried_edge": ("you want to lift the {slot} and take only {e} along",),
    "aim.cleared": ("you want to lift the slot without {c} or {e}",),
    "aim.set_corner": ("you want only {c} in the layer that lifts the slot",),
    "aim.set_edge": ("you want only {e} in the layer that lifts the slot",),
}

_TURN: Mapping[str, tuple[str, ...]] = {
    "turn.show": ("Make {turn}: {way}.",),
    "turn.done": ("{pair} is solved, so no turn is needed.",),
    "way.U": ("turn the top layer so that its front goes left",),
    "way.U'": ("turn the top layer so that its front goes right",),
    "way.D": ("turn the bottom layer so that its front goes right",),
    "way.D'": ("turn the bottom layer so that its front goes left",),
    "way.L": ("turn the left layer so that its front goes down",),
    "way.L'": ("turn the left layer so that its front goes up",),
    "way.R": ("turn the right layer so that its front goes up",),
    "way.R'": ("turn the right layer so that its front goes down",),
    "way.F": ("turn the front layer so that its top goes right",),
    "way.F'": ("turn the front layer so that its top goes left",),
    "way.B": ("turn the back layer so that its top goes left",),
    "way.B'": ("turn the back layer so that its top goes right",),
    "way.half": ("turn the {layer} layer half way round",),
}

HINT_TEXTS: Mapping[str, tuple[str, ...]] = {**_LOOK, **_IDEA, **_TURN}
"""Every text by its key."""
