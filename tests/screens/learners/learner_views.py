"""A club of twelve at Home and on the Learners screen: the views, one after the other."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from tests.screens.practice.sitting import practised_before, sits_down
from tests.session.pilot import Pilot, Reading
from tutor.progress.store import AttemptStore
from tutor.session.commands import Act
from tutor.solver.search import Solver
from tutor.ui.view import View

CLUB = (
    "Ilva",
    "Ravi",
    "Zoë",
    "Tova",
    "Imre",
    "Sanna",
    "Bao",
    "Ivo",
    "Nyla",
    "Oskar",
    "Maximiliana Rosalinde",
)
"""With the guest these are twelve."""


def club(solver: Solver, folder: Path) -> Pilot:
    """A pilot at Home with twelve learners, of whom two have practised."""
    with AttemptStore.open(folder) as store:
        for name in CLUB:
            store.add_learner(name)
    practised_before(folder)
    practised_before(folder, cases=2, learner="Ilva")
    return sits_down(solver, folder)


def learner_views(solver: Solver, folder: Path) -> Iterator[tuple[str, View]]:
    """Home with a name half typed, and every page of the Learners screen; ``folder`` is empty."""
    pilot = club(solver, folder)
    yield "home of twelve", pilot.view
    pilot.press(Act.WRITE)
    pilot.write("i")
    yield "home of twelve, a name half typed", pilot.view
    pilot.write("xyz")
    pilot.key("enter")
    yield "home of twelve, nobody found", pilot.view
    pilot.press("open:LEARNERS")
    yield "learners", pilot.view
    press(pilot, "Change", -1)
    yield "a learner in hand", pilot.view
    press(pilot, "Join with another learner")
    yield "who is the same person", pilot.view
    press(pilot, "Ravi", -1)
    yield "whether to join", pilot.view
    press(pilot, "Keep them apart")
    press(pilot, "Remove this learner")
    yield "whether to remove", pilot.view
    press(pilot, "Yes, remove")
    yield "whether that is sure", pilot.view
    press(pilot, "Write a backup and remove")
    yield "a learner removed", pilot.view


def press(pilot: Pilot, label: str, number: int = 0) -> None:
    """The button that says this; of several the one of this number."""
    found = [button for button in Reading(pilot.view).buttons if button.label == label]
    assert found, f"no button says {label!r}"
    pilot.press(found[number].action)
    pilot.settle()
