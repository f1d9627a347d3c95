"""The question about a turn, its answers, and what is said once one is chosen."""

from __future__ import annotations

from collections.abc import Mapping

WHY_TEXTS: Mapping[str, tuple[str, ...]] = {
    "why.question": ("What does {turn} do here?", "Why is {turn} a good turn here?"),
    "why.home": ("It solves {pair}.",),
    "why.seated": ("It slides {pair} into its slot. Then only the {lifted} layer has to turn back.",),
    "why.joined": ("It makes {c} and {e} match.",),
    "why.apart": ("It separates {c} and {e}, so that they no longer touch.",),
    "why.both_up": ("It brings {both} up to the top layer.",),
    "why.corner_up": ("It brings {c} up to the top layer.",),
    "why.edge_up": ("It brings {e} up to the top layer.",),
    "why.corner_spared": ("It moves {c} out of the {was_lifted} layer, so you can turn that layer back.",),
    "why.edge_spared": ("It moves {e} out of the {was_lifted} layer, so you can turn that layer back.",),
    "why.settled": ("It puts {kept} back in place.",),
    "why.opened": ("It lifts the {slot} and leaves {both} where they are.",),
    "why.carried_corner": ("It lifts the {slot} and takes {c} along, but not {e}.",),
    "why.carried_edge": ("It lifts the {slot} and takes {e} along, but not {c}.",),
    "why.carried_both": ("It lifts the {slot} and takes {both} along.",),
    "why.cleared": ("It leaves neither {c} nor {e} in the {next} layer.",),
    "why.set_corner": ("It leaves {c} in the {next} layer, but not {e}.",),
    "why.set_edge": ("It leaves {e} in the {next} layer, but not {c}.",),
    "why.split": ("It separates {c} and {e}, although they match.",),
    "why.corner_down": ("It takes {c} out of the top layer.",),
    "why.edge_down": ("It takes {e} out of the top layer.",),
}
"""Every text by its key."""
