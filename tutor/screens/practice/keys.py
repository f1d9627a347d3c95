"""The keys of practice."""

from __future__ import annotations

from tutor.screens.practice.commands import NAME
from tutor.session.keys import answer_keys

KEYS = answer_keys(NAME)
