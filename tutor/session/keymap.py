"""A person's own keys: the table of keys with those that the person has chosen instead.

Every command has a name in plain words, as on the key sheet. A choice gives it one key or several with commas
between them ("ctrl+shift+z", "backspace, ctrl+z"), or none with an empty text. The name that a command had
before works as well.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from difflib import get_close_matches
from functools import lru_cache
from itertools import combinations

from msgspec.structs import replace

from tutor.quoting import ToldError, quotable
from tutor.session import words
from tutor.session.binding import Binding, When
from tutor.session.house import House, Session
from tutor.session.keys import holds, table
from tutor.ui.inputs import KEY_NAMES, WRITTEN_KEYS, KeyPressed, Modifier

_MODIFIERS = {"ctrl": Modifier.CONTROL, "alt": Modifier.ALT, "shift": Modifier.SHIFT}
_WRITTEN = frozenset(WRITTEN_KEYS.values())


class KeysError(ToldError):
    """Keys that cannot be used; the message says which, and what would be right."""


def parse_key(text: str) -> KeyPressed:
    """A key as written: modifiers and the key's name with plus signs between them, as in "ctrl+shift+z".

    Raises KeysError when there is no such key.
    """
    *held, key = [part.strip().lower() for part in text.split("+")]
    modifiers = Modifier.NONE
    for name in held:
        if name not in _MODIFIERS:
            raise KeysError(words.wrong_modifier(quotable(text)))
        modifiers |= _MODIFIERS[name]
    if not (key in KEY_NAMES or (len(key) == 1 and key.isascii() and key.isalnum())):
        raise KeysError(words.unknown_key(quotable(text), KEY_NAMES))
    if key in _WRITTEN and modifiers & Modifier.SHIFT:
        raise KeysError(words.needless_shift(quotable(text), key))
    return KeyPressed(key, modifiers)


def format_key(pressed: KeyPressed) -> str:
    """The key as ``parse_key`` reads it."""
    return "+".join((*(name for name, flag in _MODIFIERS.items() if pressed.modifiers & flag), pressed.key))


def command_names(house: House) -> tuple[str, ...]:
    """The names of everything that has a key, in the order of the table."""
    return tuple(dict.fromkeys(binding.name for binding in table(house)))


@lru_cache(maxsize=8)
def remapped(house: House, chosen: tuple[tuple[str, str], ...]) -> tuple[Binding, ...]:
    """The table with the chosen keys, given as (name of the command, its keys).

    Raises KeysError for a name that is none, a key that is none, and a key that would do two things.
    """
    wanted: dict[str, tuple[KeyPressed, ...]] = {}
    for name, text in chosen:
        present = _present_name(house, name)
        try:
            wanted[present] = tuple(parse_key(part) for part in text.split(",")) if text.strip() else ()
        except KeysError as error:
            raise KeysError(words.in_keys(name, str(error))) from None
    bindings: Sequence[Binding] = table(house)
    for name, pressed in wanted.items():
        bindings = _with_keys(bindings, name, pressed)
    given = {key for keys in wanted.values() for key in keys}
    bindings = [each for each in bindings if each.name in wanted or not _gives_way(each, given)]
    _refuse_clashes(house, bindings)
    return tuple(bindings)


def _gives_way(binding: Binding, given: set[KeyPressed]) -> bool:
    return binding.yields and KeyPressed(binding.key, binding.modifiers) in given


def _present_name(house: House, name: str) -> str:
    """The name of a command today, given that name or the one it had before."""
    names = command_names(house)
    if name in names:
        return name
    for binding in table(house):
        if binding.former and binding.former == name:
            return binding.name
    raise KeysError(words.unknown_name(quotable(name), get_close_matches(name, names, 1, 0.0)[0]))


def _with_keys(bindings: Iterable[Binding], name: str, keys: tuple[KeyPressed, ...]) -> list[Binding]:
    """The bindings with those of one name replaced, in each room at the place of the first of them."""
    changed: list[Binding] = []
    done: set[str] = set()
    for binding in bindings:
        if binding.name != name:
            changed.append(binding)
        elif binding.room not in done:
            done.add(binding.room)
            changed += [replace(binding, key=key.key, modifiers=key.modifiers) for key in keys]
    return changed


def _refuse_clashes(house: House, bindings: Sequence[Binding]) -> None:
    by_key: dict[KeyPressed, list[Binding]] = {}
    for binding in bindings:
        by_key.setdefault(KeyPressed(binding.key, binding.modifiers), []).append(binding)
    for key, sharing in by_key.items():
        for one, two in combinations(sharing, 2):
            # What holds only at times goes before what always holds; that is no clash.
            at_once = (one.when is When.ANY) == (two.when is When.ANY)
            if at_once and any(holds(one, room) and holds(two, room) for room in house):
                raise KeysError(words.two_things(format_key(key), one.name, two.name))


def is_single(binding: Binding) -> bool:
    """Whether the key types a character, as WCAG 2.2, 2.1.4 means it: easily pressed by mistake."""
    typed = len(binding.key) == 1 or binding.key in _WRITTEN
    return typed and not binding.modifiers & (Modifier.CONTROL | Modifier.ALT)


@lru_cache(maxsize=8)
def _held(house: House, chosen: tuple[tuple[str, str], ...], single_keys: bool) -> tuple[Binding, ...]:
    return tuple(binding for binding in remapped(house, chosen) if single_keys or not is_single(binding))


def bindings_of(session: Session) -> tuple[Binding, ...]:
    """The keys that work with the session's settings. Raises KeysError as ``remapped`` does."""
    return _held(session.house, session.settings.keys, session.settings.single_keys)
