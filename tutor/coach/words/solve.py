"""Whole solves: the cross, the order of the pairs, and the look back."""

from __future__ import annotations

from collections.abc import Mapping

_CROSS: Mapping[str, tuple[str, ...]] = {
    "cross.what": (
        "Put the four {cross} edges round the {cross} centre at the bottom. "
        "The other colour of each edge must meet the centre of that colour. "
        "A hint shows you where to look.",
    ),
    "cross.distance": ("The {cross} cross needs at least {to_go}.",),
    "cross.solved": ("The cross is solved.",),
    "cross.came_one": ("the {names} edge is in place now.",),
    "cross.came_many": ("the {names} edges are in place now.",),
    "cross.went_one": ("that takes out the {names} edge, which was already in place.",),
    "cross.went_many": ("that takes out the {names} edges, which were already in place.",),
    "cross.begins": ("that begins a shortest way.",),
    "cross.begins_but": ("but it begins a shortest way.",),
    "cross.nearer": ("the cross needs {to_go}.",),
    "cross.acceptable": ("it works too and takes {longer} more than the shortest way.",),
    "cross.idle": ("that does not help here: no edge of the cross comes into place.",),
    "cross.detour": ("that costs {extra}.",),
    "cross.shorter_but": ("but there was a way {turns} shorter.",),
    "cross.look": ("Look for these edges. {places}",),
    "cross.look_one": ("the {name} edge is {place}.",),
    "cross.turned_over": ("the {name} edge is in its place but turned over.",),
    "cross.idea": ("A shortest way begins with the {layer} layer. Which way should it turn, and how far?",),
}

_PAIRS: Mapping[str, tuple[str, ...]] = {
    "pair.label": ("{slot}: {turns}",),
    "pair.begins": ("{corner} starts {corner_place}. {edge} starts {edge_place}.",),
    "pair.together": ("Both are {corner_place}: {corner} and {edge}.",),
    "pair.where": ("{corner} is {corner_place}. {edge} is {edge_place}.",),
    "trait.cheap": ("It helps that {traits}.",),
    "trait.dear": ("It takes longer because {traits}.",),
    "trait.made": ("the two are joined already",),
    "trait.touching": ("the two touch without matching",),
    "trait.both_on_top": ("both are on top",),
    "trait.own_slot": ("a piece is in its own slot",),
    "trait.one_slot": ("both are in another slot",),
    "trait.two_slots": ("they are in two different slots",),
    "trait.behind": ("a piece is hidden at the back",),
    "pair.last": ("It is the last pair.",),
    "pair.other": ("{slot} then needs {turns}, {change} than now.",),
    "pair.other_same": ("{slot} then needs {turns}, as now.",),
    "pair.other_home": ("{slot} then needs none: it is solved at the same time.",),
    "pair.more": ("{count} more",),
    "pair.fewer": ("{count} fewer",),
}

_PLAN: Mapping[str, tuple[str, ...]] = {
    "plan.order": ("Solve the pairs in this order: {slots}. That is {turns} in all.",),
    "plan.slot": ("{slot} in {turns}",),
    "plan.seams": ("If one pair ends and the next begins with the same layer, that counts as one turn.",),
    "plan.plain": ("Slot by slot, starting at the front right, it takes {turns}.",),
    "plan.found": ("The program found no shorter plan, but it has no proof that there is none.",),
    "plan.proving": ("It looks for one, for {seconds} seconds at most.",),
    "plan.unproven": ("It found none within {seconds} seconds.",),
    "plan.proven": ("The program has proved that no way solves all pairs in fewer turns.",),
    "plan.fewest": ("The program has proved that no way solves all pairs in fewer than {fewest}.",),
    "saving.made_in_raising": ("In the {slot}, you can join the pair while you raise one of its pieces.",),
    "saving.one_turn_joins": ("For the {slot}, {turn} alone joins the pair.",),
    "saving.free_slot": ("For the {slot}, the unsolved {other} gives you room to work in.",),
    "saving.two_pairs": ("{turn} brings two pairs one turn nearer, those of the {slot} and the {other}.",),
    "saving.saves_steps": ("Going step by step takes {turns} more.",),
    "saving.saves_whole": ("With all other pairs solved, it takes {turns} more.",),
}

_LOOK_BACK: Mapping[str, tuple[str, ...]] = {
    "solve.home": ("Two layers are solved.",),
    "solve.total": ("You made {turns} in {time}.",),
    "solve.outside": ("This program stops at two layers. Finish the cube in Free play.",),
    "solve.stopped": ("Two layers are solved, so this solve is over. Finish the cube in Free play.",),
    "solve.lost": ("You made {extra} more than needed, counted from where you began each pair.",),
    "solve.none_lost": ("You made no turn more than needed, counted from where you began each pair.",),
    "leg.cross": ("Cross",),
    "leg.open": ("Not solved yet",),
    "leg.the_cross": ("the cross",),
    "leg.the_pair": ("the {name} pair",),
    "leg.the_pairs": ("the {name} pairs",),
    "time.seconds": ("{seconds} s",),
    "time.minutes": ("{minutes} min {seconds} s",),
    "drill.lost": ("{extra}",),
    "drill.slipped": ("{extra}: {kind}",),
    "drill.paused": ("A pause of {seconds}",),
    "drill.none": ("Nothing stands out. Try a new scramble.",),
    "pause.before": ("{seconds} before {leg}",),
    "pause.within": ("{seconds} in {leg}, before {turn}",),
    "pause.none": ("You made no pause of two seconds or more.",),
    "slip_kind.times": ("{kind}: {times}",),
    "slip_kind.once": ("once",),
    "slip_kind.often": ("{count} times",),
    "slip_kind.wrong_way": ("a layer turned the wrong way or too far",),
    "slip_kind.left_lifted": ("a layer not turned back",),
    "slip_kind.too_early": ("the slot lifted too early",),
    "slip_kind.both_lifted": ("both pieces lifted together",),
    "slip_kind.wrong_join": ("the two put together the wrong way round",),
    "slip_kind.put_out": ("solved pieces taken out",),
    "slip_kind.none": ("You made no slips.",),
    "solve.again": ("Click a turn on the rail to go back to it. Then try it another way.",),
    "solve.rail": ("Your turns, then the fewest",),
    "solve.best": ("{leg}: best",),
    "solve.failed": ("The program could not work this out. Try again, or leave it.",),
}

SOLVE_TEXTS: Mapping[str, tuple[str, ...]] = {**_CROSS, **_PAIRS, **_PLAN, **_LOOK_BACK}
"""Every text by its key."""
