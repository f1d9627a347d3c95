"""A case looked back on, and why one way is easier on the hands than another."""

from __future__ import annotations

from collections.abc import Mapping

REVIEW_TEXTS: Mapping[str, tuple[str, ...]] = {
    "review.way": ("You solved the pair in {made}, {where}.",),
    "review.none_shorter": ("You solved the pair in {made}, and no way by hand is shorter.",),
    "review.so_far": ("You made {made}, {where}.",),
    "review.beside": ("all by hand",),
    "review.far": ("with the help of far layers",),
    "review.left": ("The pair still needed {left}.",),
    "review.shortest": ("The shortest way by hand takes {fewest}.",),
    "review.shortest_far": ("The shortest way takes {fewest}, with the help of far layers.",),
    "review.split": ("At your {nth} turn you left the shortest way, with {turn} instead of {best}.",),
    "review.as_taught": ("You took the route, step by step.",),
    "review.cost_there": ("That turn alone cost {extra}.",),
    "review.other_way": ("At your {nth} turn you took another way, with {turn} instead of {best}.",),
    "review.costliest": ("Your {nth} turn cost the most, with {turn} instead of {best}.",),
    "review.longer_there": ("It works too and takes {longer} more.",),
    "review.far_there": ("With the help of far layers, it begins a shortest way.",),
    "review.far_shorter": ("With far layers there was a shorter way.",),
    "review.same_length": ("Going step by step takes {line_turns}, as many as the shortest line.",),
    "review.shortcut": ("Going step by step takes {route_turns}. The shortest line takes {line_turns}.",),
    "review.merges": ("In that line, {turn} does {steps} at once.",),
    "review.skips": ("The line skips {steps}.",),
    "comfort.because": ("{line} is as short as {other} but easier on the hands, with {reasons}.",),
    "comfort.smoother": ("{line} is as short as {other}, but its layers are easier to reach.",),
    "comfort.fewer": ("{less} instead of {more}",),
    "comfort.hold.one": ("new grip",),
    "comfort.hold.more": ("new grips",),
    "comfort.half.one": ("half turn",),
    "comfort.half.more": ("half turns",),
    "comfort.back.one": ("turn of the back",),
    "comfort.back.more": ("turns of the back",),
    "comfort.down.one": ("turn of the bottom",),
    "comfort.down.more": ("turns of the bottom",),
}
"""Every text by its key."""
