"""The glossary's words in English: terms, their meanings, and the forms that sentences use."""

from __future__ import annotations

from collections.abc import Mapping

TERMS: Mapping[str, tuple[str, tuple[str, ...]]] = {
    "layer": ("A slice of nine pieces that turns together: top, bottom, left, right, front or back.",
              ("layer", "layers")),
    "turn": ("One layer turned a quarter or half way round. R is the right layer; R' turns it back.",
             ("turn", "turns", "turned", "turning")),
    "corner": ("A piece with three colours.", ("corner", "corners")),
    "edge": ("A piece with two colours.", ("edge", "edges")),
    "cross": ("The four edges with the bottom colour.", ("cross",)),
    "slot": ("The upright gap between two sides where one pair belongs.", ("slot", "slots")),
    "pair": ("The corner and the edge that belong in one slot.", ("pair", "pairs")),
    "solved": ("A pair or the cross is solved when all its pieces are in place, the right way round.",
               ("solved", "solve", "solves")),
    "lift": ("To turn a side layer so that the slot's two places come up to the top.",
             ("lift", "lifts", "lifted", "lifting")),
    "touch": ("Corner and edge touch when they lie side by side.",
              ("touch", "touches", "touched", "touching")),
    "match": ("They touch, and their colours line up on both sides.",
              ("match", "matches", "matched", "matching")),
    "mirror": ("One of the panes round the cube that show its back, left and bottom.",
               ("mirror", "mirrors")),
    "Find": ("First step: spot the corner and its edge.", ("find",)),
    "Raise": ("Second step: lift both to the top, and put everything else back in place.", ("raise",)),
    "Part": ("Third step: set them apart, so that they can meet colour to colour.", ("part", "apart")),
    "Join": ("Fourth step: join them colour to colour.", ("join", "joins", "joined")),
    "Insert": ("Last step: slide them into the slot.", ("insert",)),
    "Optimal": ("A turn that begins a shortest way to solve the pair.", ("optimal",)),
    "Acceptable": ("A turn that works too, by a way a little longer.", ("acceptable",)),
    "Detour": ("A turn that costs turns: most often you turn it back.", ("detour", "detours")),
    "route": ("A way to solve the pair step by step.", ("route", "routes")),
    "line": ("A shortest way to solve the pair by hand, whatever the steps.", ("line", "lines")),
    "by hand": ("With turns of the top and of the layers beside the slot alone.", ("by hand",)),
    "case": ("One way in which the two pieces can lie.", ("case", "cases")),
}  # fmt: skip
"""The terms a beginner is told: meaning in one line, and the forms that sentences use."""
