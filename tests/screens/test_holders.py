"""What the rooms keep in the session is kept under names of its own."""

from __future__ import annotations

import pkgutil
from importlib import import_module

import tutor.screens
from tutor.session.holder import Holder


def test_no_two_holders_have_one_name() -> None:
    states = [
        import_module(module.name)
        for module in pkgutil.walk_packages(tutor.screens.__path__, "tutor.screens.")
        if module.name.endswith(".state")
    ]
    held = {
        id(value): value.name
        for state in states
        for value in vars(state).values()
        if isinstance(value, Holder)
    }
    assert len(held) > 5
    assert len(set(held.values())) == len(held)
