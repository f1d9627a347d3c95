"""The glossary in the order in which a beginner meets its terms: each with its meaning and its forms."""

from __future__ import annotations

from collections.abc import Mapping

TERMS: Mapping[str, tuple[str, tuple[str, ...]]] = {
    "layer": ("A slice of nine pieces that turns together: top, bottom, left, right, front or back.",
              ("layer", "layers")),
    "turn": ("One layer goes a quarter or half way round. R turns the right layer, and R' turns it back.",
             ("turn", "turns", "turned", "turning")),
    "corner": ("A piece with three colours.", ("corner", "corners")),
    "edge": ("A piece with two colours.", ("edge", "edges")),
    "cross": ("The four edges that have the colour of the bottom.", ("cross",)),
    "slot": ("The upright gap between two sides, where one pair belongs.", ("slot", "slots")),
    "pair": ("The corner and the edge that belong in one slot.", ("pair", "pairs")),
    "solved": ("A pair or the cross is solved when all its pieces are in place, the right way round.",
               ("solved", "solve", "solves")),
    "lift": ("You lift a slot when a turn of a side layer brings its two places up to the top.",
             ("lift", "lifts", "lifted", "lifting")),
    "touch": ("A corner and an edge touch when they lie side by side.",
              ("touch", "touches", "touched", "touching")),
    "match": ("A corner and an edge match when they touch and their colours line up on both sides.",
              ("match", "matches", "matched", "matching")),
    "mirror": ("One of the three panes round the cube. They show its back, its left side and its bottom.",
               ("mirror", "mirrors")),
    "Find": ("The first step: spot the corner and its edge.", ("find",)),
    "Raise": ("The second step: lift both to the top, and put everything else back in place.", ("raise",)),
    "Part": ("The third step: set them apart, so that they can meet colour to colour.", ("part", "apart")),
    "Join": ("The fourth step: join them colour to colour.", ("join", "joins", "joined")),
    "Insert": ("The last step: slide them into the slot.", ("insert",)),
    "Optimal": ("A turn that begins a shortest way to solve the pair.", ("optimal",)),
    "Acceptable": ("A turn that works too, but makes the way a little longer.", ("acceptable",)),
    "Detour": ("A turn that costs you extra turns. Most often you turn it back.", ("detour", "detours")),
    "route": ("A way to solve the pair step by step.", ("route", "routes")),
    "line": ("A shortest way to solve the pair by hand, whether it follows the steps or not.",
             ("line", "lines")),
    "by hand": ("You solve a pair by hand when you turn only the top and the layers beside the slot.",
                ("by hand",)),
    "case": ("One way the two pieces can lie.", ("case", "cases")),
}  # fmt: skip
"""The terms a beginner is told: meaning in one line, and the forms that sentences use."""
