"""The keys of a lesson."""

from __future__ import annotations

from tutor.screens.lesson import words
from tutor.screens.lesson.commands import NAME, PageTurn
from tutor.session.binding import Binding
from tutor.session.keys import answer_keys, second_key

_SKIP, _BACK = "go on without answering", "go back"
"""What the settings call these keys."""

_ON = Binding("page down", PageTurn.SKIP, words.SKIP_SCENE, words.LEARNING, called=_SKIP, room=NAME)
_BEFORE = Binding("page up", PageTurn.BACK, words.SCENE_BEFORE, words.LEARNING, called=_BACK, room=NAME)

KEYS = (
    _ON,
    second_key("right", _ON),
    _BEFORE,
    second_key("left", _BEFORE),
    *answer_keys(NAME),
)
