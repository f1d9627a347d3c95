from __future__ import annotations

from types import ModuleType

import pytest

from render.offscreen import shared_context
from render.window.keyboard import key_names, modifiers_of, motion_names
from tutor.ui.inputs import KEY_NAMES, Modifier


@pytest.fixture(scope="module")
def library() -> ModuleType:
    shared_context()
    from pyglet.window import key

    found: ModuleType = key
    return found


def test_every_key_has_the_name_the_inputs_define(library: ModuleType) -> None:
    letters_and_digits = set("abcdefghijklmnopqrstuvwxyz0123456789")
    assert set(key_names(library).values()) == letters_and_digits | set(KEY_NAMES)


def test_keys_are_told_by_what_is_on_them(library: ModuleType) -> None:
    names = key_names(library)
    # X Window System keysyms, X11/keysymdef.h: Latin letters and digits have their character's code.
    assert names[ord("r")] == "r"
    assert names[ord("2")] == "2"
    assert names[0xFF1B] == "escape"
    assert names[0xFF55] == "page up"


def test_modifiers_are_translated(library: ModuleType) -> None:
    assert modifiers_of(0, library) is Modifier.NONE
    held = library.MOD_SHIFT | library.MOD_CTRL | library.MOD_NUMLOCK
    assert modifiers_of(held, library) == Modifier.SHIFT | Modifier.CONTROL
    assert modifiers_of(library.MOD_ALT, library) == Modifier.ALT


def test_repeating_motions_are_keys_too(library: ModuleType) -> None:
    assert set(motion_names(library).values()) <= set(KEY_NAMES)
