"""What is said of a turn: what it did, what it costs, and what went wrong."""

from __future__ import annotations

from collections.abc import Mapping

_DID: Mapping[str, tuple[str, ...]] = {
    "did.home": (
        "Solved! The {slot} has its pair: {corner} and {edge}. {all_kept} too.",
        "{turn} solves the pair: {corner} and {edge} have reached the {slot}. {all_kept} too.",
    ),
    "did.joined": (
        "{cross} pointed {was_points} and {e} was {was_edge_place}, so {turn} makes {two} match.",
        "{turn} joins {corner} and {edge}: their colours line up on both sides.",
        "{e} was {was_edge_place}, so {turn} joins it to {c} colour to colour.",
    ),
    "did.seated": (
        "{turn} slides the joined pair into the lifted slot. Now only the {lifted} layer has to turn back.",
        "{two} match, and {turn} slides them into the lifted slot. Now turn the {lifted} layer back.",
    ),
    "did.parted": (
        "Now {two} are ready to join. {c} is {corner_place} and {e} is {edge_place}.",
        "{turn} makes {two} ready to join. {c} is {corner_place} and {e} is {edge_place}.",
    ),
    "did.raised": (
        "{turn} turns the {layer} layer back. {both} are on top now, and {all_kept} again.",
        "Now {c} is on top at the {corner_spot} and {e} is on top at the {edge_spot}. {all_kept} again.",
    ),
    "did.both_up": (
        "{turn} brings {corner} and {edge} up to the top layer.",
        "{both} were below the top, and {turn} brings them up together.",
    ),
    "did.corner_up": (
        "{c} was {was_corner_place}. {turn} brings it up, and {cross} now points {points}.",
        "{turn} brings {corner} up to the top layer, with {cross} pointing {points}.",
    ),
    "did.edge_up": (
        "{e} was {was_edge_place}. {turn} brings it up, with {edge_up} on top.",
        "{turn} brings {edge} up to the top layer. Now {edge_up} is on top.",
    ),
    "did.apart": (
        "{c} and {e} touched without matching, and {turn} separates them.",
        "{turn} separates {corner} and {edge}, so they no longer touch.",
    ),
    "did.corner_spared": (
        "{turn} moves {c} out of the {was_lifted} layer. Now {c} stays on top when you turn that layer back.",
        "{c} is {corner_place} now. It stays there when you turn the {was_lifted} layer back.",
    ),
    "did.edge_spared": (
        "{turn} moves {e} out of the {was_lifted} layer. Now {e} stays on top when you turn that layer back.",
        "{e} is {edge_place} now. It stays there when you turn the {was_lifted} layer back.",
    ),
    "did.lowered": (
        "{turn} turns the {layer} layer back, and {all_kept} again.",
        "With the {layer} layer back, {all_kept} again. {c} is {corner_place}.",
    ),
    "did.put_back": ("{turn} puts {put_back} back in place.",),
    "did.opened": (
        "{turn} lifts the {slot} and leaves {both} where they were.",
        "The {slot} is lifted now, and {both} did not move.",
    ),
    "did.carried_corner": (
        "{turn} lifts the {slot} and takes {c} along. {e} stays {edge_place}.",
        "{turn} lifts the {slot}. {c} went along and is {corner_place}, with {cross} pointing {points}.",
    ),
    "did.carried_edge": (
        "{turn} lifts the {slot} and takes {e} along. {c} stays {corner_place}.",
        "{turn} lifts the {slot}. {e} went along and is {edge_place}. {c} stayed {corner_place}.",
    ),
    "did.cleared": (
        "Now neither {c} nor {e} is in the {next} layer. You can lift the slot without them.",
        "Now {both} are outside the {next} layer, so they stay where they are when you lift the slot.",
    ),
    "did.set_corner": (
        "Now {c} is in the {next} layer and {e} is not. Lifting the slot takes only {c} along.",
        "With {c} in the {next} layer and {e} outside it, lifting the slot moves {c} alone.",
    ),
    "did.set_edge": (
        "Now {e} is in the {next} layer and {c} is not. Lifting the slot takes only {e} along.",
        "With {e} in the {next} layer and {c} outside it, lifting the slot moves {e} alone.",
    ),
    "did.taken_out": ("{turn} takes out {taken_out}, which {were} already solved.",),
    "did.split": ("{c} and {e} matched, and {turn} separates them.",),
    "did.both_down": ("{turn} takes both down from the top. {c} is {corner_place} and {e} is {edge_place}.",),
    "did.corner_down": ("{turn} takes {c} down from the top, and now it is {corner_place}.",),
    "did.edge_down": ("{turn} takes {e} down from the top, and now it is {edge_place}.",),
    "did.moved_both": (
        "{turn} moves both. {c} is {corner_place} and {e} is {edge_place}.",
        "{turn} moves both, and {cross} points {points} now.",
    ),
    "did.moved_corner": ("{turn} moves only {c}, and now it is {corner_place}. {cross} points {points}.",),
    "did.moved_edge": ("{turn} moves only {e}, and now it is {edge_place}.",),
    "did.moved_none": (
        "{turn} moves neither {c} nor {e}.",
        "{turn} leaves {both} where they were.",
    ),
    "was.one": ("was",),
    "was.more": ("were",),
}

_COMING: Mapping[str, tuple[str, ...]] = {
    "coming.home": ("{turn} solves the pair: {corner} and {edge} go into the {slot}.",),
    "coming.joined": (
        "{cross} points {was_points} and {e} is {was_edge_place}, so {turn} makes {two} match.",
        "{e} is {was_edge_place}, so {turn} joins it to {c} colour to colour.",
    ),
    "coming.seated": ("{turn} slides the joined pair into the lifted slot.",),
    "coming.parted": ("{turn} makes {two} ready to join.",),
    "coming.raised": ("{turn} turns the {layer} layer back. Then {both} are on top, and {all_kept} again.",),
    "coming.both_up": ("{turn} brings {corner} and {edge} up to the top layer.",),
    "coming.corner_up": ("{c} is {was_corner_place}, and {turn} brings it up to the top layer.",),
    "coming.edge_up": ("{e} is {was_edge_place}, and {turn} brings it up to the top layer.",),
    "coming.apart": ("{c} and {e} touch without matching, and {turn} separates them.",),
    "coming.corner_spared": ("{turn} moves {c} out of the {was_lifted} layer.",),
    "coming.edge_spared": ("{turn} moves {e} out of the {was_lifted} layer.",),
    "coming.lowered": ("{turn} turns the {layer} layer back. Then {all_kept} again.",),
    "coming.put_back": ("{turn} puts {put_back} back in place.",),
    "coming.opened": ("{turn} lifts the {slot} and leaves {both} where they are.",),
    "coming.carried_corner": ("{turn} lifts the {slot} and takes only {c} along.",),
    "coming.carried_edge": ("{turn} lifts the {slot} and takes only {e} along.",),
    "coming.cleared": ("after {turn}, neither {c} nor {e} is in the {next} layer.",),
    "coming.set_corner": ("after {turn}, {c} is in the {next} layer and {e} is not.",),
    "coming.set_edge": ("after {turn}, {e} is in the {next} layer and {c} is not.",),
    "coming.moved_both": ("{turn} moves {both}.",),
    "coming.moved_corner": ("{turn} moves only {c}.",),
    "coming.moved_edge": ("{turn} moves only {e}.",),
    "coming.moved_none": ("{turn} leaves {both} where they are.",),
}

_COST: Mapping[str, tuple[str, ...]] = {
    # Optimal.
    "cost.optimal": ("You need {to_go}.",),
    "cost.step": ("{step} is done. You need {to_go}.",),
    "cost.next": ("You need {to_go}, and the next can {prospect}.",),
    "cost.later": ("You need {to_go}, and a later one can {prospect}.",),
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
    "cost.far": ("You need {to_go}, and far layers have to help.",),
    "cost.far_only": ("That begins a shortest way with far layers. From here there is no way by hand.",),
    "cost.far_also": ("That begins a shortest way with far layers. By hand you need {to_go}.",),
    # Acceptable.
    "cost.route": ("It works too. This way through the steps takes {longer} more than the shortest.",),
    "cost.another_way": ("It works too. This other way takes {longer} more than the shortest.",),
    # Detour.
    "idle.plain": ("That does not help here.",),
    "idle.but": ("But that does not help here.",),
    "lift.with_pair": ("{turn} lifts the {slot}, but it takes {pair} along.",),
    "lift.no_way_in": ("{turn} lifts the {slot}, but now no turn of the top slides {pair} into it.",),
    "lift.useless": ("{turn} lifts the {slot}, but that does not help here.",),
    "also.split": ("It also separates {c} and {e}, although they matched.",),
    "also.both_down": ("It also takes {both} down from the top.",),
    "also.corner_down": ("It also takes {c} down from the top.",),
    "also.edge_down": ("It also takes {e} down from the top.",),
    "cost.detour": ("That costs {extra}.",),
    "cost.back": ("Turn it back. This detour costs {turns}.",),
    "cost.shorter": ("There was a way {turns} shorter.",),
    "cost.shorter_but": ("But there was a way {turns} shorter.",),
    "cost.far_shorter.plain": ("There was a shorter way with far layers. By hand you need {to_go}.",),
    "cost.far_shorter.but": ("But there was a shorter way with far layers. By hand you need {to_go}.",),
    "cost.cannot": ("You cannot put that right by hand, so it costs {extra}.",),
    # Solved.
    "cost.nothing": ("{pair} was solved already, so you did not need to turn.",),
}

_SLIPS: Mapping[str, tuple[str, ...]] = {
    "slip.wrong_way": ("The {layer} layer should turn, but the other way round.",),
    "slip.wrong_way_too": ("The {layer} layer can help, but turn it the other way round.",),
    "slip.too_far": ("The {layer} layer should turn, but only a quarter.",),
    "slip.too_far_too": ("The {layer} layer can help, but turn it only a quarter.",),
    "slip.too_short": ("The {layer} layer should turn, but half way round.",),
    "slip.too_short_too": ("The {layer} layer can help, but turn it half way round.",),
    "slip.too_early": (
        "Lifting with {turn} is right, but it comes one turn too early. Turn the top layer first.",
    ),
    "slip.too_early_too": ("Lifting with {turn} can help, but turn the top layer first.",),
    "slip.both_lifted": ("{turn} takes {c} and {e} along together, so they still touch without matching.",),
    "slip.wrong_join": ("Now {two} touch the wrong way round: {corner_colour} meets {edge_colour} {joint}.",),
    "slip.left_lifted": (
        "The {was_lifted} layer is still turned. Turn it back before you do anything else.",
    ),
}

_MENDING: Mapping[str, tuple[str, ...]] = {
    "mend.taken_out": ("First you have to put {taken_out} back, and {back} does that.",),
    "mend.split": ("{c} and {e} matched before, and {back} joins them again.",),
    "mend.both_down": ("Both pieces were on top before, and {back} brings them up again.",),
    "mend.corner_down": ("The corner was on top before, and {back} brings it up again.",),
    "mend.edge_down": ("The edge was on top before, and {back} brings it up again.",),
    "mend.nothing": ("This turn took no solved piece out, so you only have to turn back with {back}.",),
}

TURN_TEXTS: Mapping[str, tuple[str, ...]] = {**_DID, **_COMING, **_COST, **_SLIPS, **_MENDING}
"""Every text by its key."""
