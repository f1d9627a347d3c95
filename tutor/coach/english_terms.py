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
    "cross": ("The four edges with the bottom colour. It is whole when all four are home.", ("cross",)),
    "slot": ("The upright gap between two sides where one pair belongs.", ("slot", "slots")),
    "pair": ("The corner and the edge that belong in one slot.", ("pair", "pairs")),
    "home": ("Where a piece belongs, turned the right way.", ("home",)),
    "whole": ("Said of the cross: all its four edges are home.", ("whole",)),
    "lift": ("To turn a side layer so that a slot comes up to the top.",
             ("lift", "lifts", "lifted", "lifting")),
    "touch": ("Corner and edge touch when they lie side by side.",
              ("touch", "touches", "touched", "touching")),
    "match": ("They touch, and both colours run on from one to the other.",
              ("match", "matches", "matched", "matching")),
    "mirror": ("One of the panes round the cube that show its back, left and bottom.",
               ("mirror", "mirrors")),
    "Find": ("First step: look for the corner and the edge of the pair.", ("find",)),
    "Raise": ("Second step: bring both to the top layer, with the cross whole.", ("raise",)),
    "Part": ("Third step: if they touch without matching, set them apart.", ("part", "apart")),
    "Join": ("Fourth step: bring them together so that they match.", ("join", "joins", "joined")),
    "Insert": ("Last step: take the joined pair into its slot.", ("insert",)),
    "Optimal": ("A turn that begins a quickest way home.", ("optimal",)),
    "Acceptable": ("A turn that works, by a way a little longer.", ("acceptable",)),
    "Detour": ("A turn that leads away: it costs turns.", ("detour", "detours")),
    "route": ("A way home step by step.", ("route", "routes")),
    "line": ("A quickest way home, whatever the steps.", ("line", "lines")),
    "case": ("One way in which a corner and an edge can lie to start with.", ("case", "cases")),
}  # fmt: skip
"""The terms a beginner is told: meaning in one line, and the forms that sentences use."""
