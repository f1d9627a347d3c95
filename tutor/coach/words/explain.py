"""What is said of a whole sequence of turns that is taken apart."""

from __future__ import annotations

from collections.abc import Mapping

EXPLAIN_TEXTS: Mapping[str, tuple[str, ...]] = {
    # What it does, and how long it is.
    "explain.solves": ("This solves the pair in {made}, {where}.",),
    "explain.shortest": ("No way by hand is shorter.",),
    "explain.is_route": ("These are the turns of the route.",),
    "explain.like_route": ("It goes step by step, in as many turns as the route.",),
    "explain.route": ("The route takes {turns}: {route}.",),
    "explain.merges": ("{turn} does {steps} at once.",),
    "explain.skips": ("It solves the pair without finishing {steps} first.",),
    # Beside the first turn that is best only where far layers may turn as well.
    "explain.far_turn": ("It starts a shortest way, but one that turns far layers too.",),
    "explain.one_by_one": ("It does the steps of the route one by one, too.",),
    # Where it went wrong, and what is missing.
    "explain.wrong": ("This does not solve the pair. Its {nth} turn, {turn}, is a Detour.",),
    "explain.undone": (
        "This does not solve the pair. It was solved before the {nth} turn, and {turn} takes it apart again.",
    ),
    "explain.longer": (
        "This does not solve the pair yet. "
        "Its {nth} turn, {turn}, begins a longer way by hand, and it ends too early.",
    ),
    "explain.longer_far": (
        "This does not solve the pair yet. "
        "Its {nth} turn, {turn}, begins a longer way, and it ends too early.",
    ),
    "explain.early": (
        "This does not solve the pair yet. Every turn is on a shortest way, but it ends too early.",
    ),
    "explain.left": ("At the end you need {left}.",),
    "explain.missing": ("At the end {missing} {verb} unsolved.",),
    "verb.one": ("is",),
    "verb.more": ("are",),
    # The other slots.
    "explain.spares": ("Any other pair that was solved is solved at the end, and the cross too.",),
    "explain.spoils.one": ("Use it only while {spoilt} is unsolved, because it takes that out.",),
    "explain.spoils.more": ("Use it only while {spoilt} are unsolved, because it takes them out.",),
    "explain.between.one": ("On the way it takes out {out} and puts it back.",),
    "explain.between.more": ("On the way it takes out {out} and puts them back.",),
    # The hands, and the mirror.
    "explain.hands": ("Your hands need {asked}.",),
    "explain.easy": ("It is easy on the hands, without a new grip or a half turn.",),
    "explain.mirror": ("Swap left and right, and it becomes {turns}, for the {slot}.",),
}
"""Every text by its key."""
