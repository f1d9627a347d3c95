"""The Settings screen: a row of values for everything that you choose once."""

from __future__ import annotations

from functools import lru_cache

from tutor.screens.parts.frame import screen_view
from tutor.screens.settings import words
from tutor.session.commands import Choose
from tutor.session.house import Session
from tutor.session.settings_options import OPTIONS, Setting
from tutor.ui.view import Block, Button, ButtonRow, Gap, Text, TextStyle, Tone, View

_KEYS_FILE = Text(words.KEYS_FILE, TextStyle.SMALL, Tone.MUTED)
_LOOKS = (
    Setting.THEME,
    Setting.TEXT,
    Setting.PALETTE,
    Setting.LETTERS,
    Setting.MIRRORS,
    Setting.MOTION,
)


@lru_cache(maxsize=2)
def settings_screen(session: Session) -> View:
    """The Settings screen: looks on the left, the rest on the right."""
    others = tuple(setting for setting in Setting if setting not in _LOOKS)
    return screen_view(
        session,
        words.NAME,
        page=(
            (Text(words.LOOKS, TextStyle.HEADING), Gap(1), *_rows(session, _LOOKS)),
            (
                Text(words.WORKS, TextStyle.HEADING),
                Gap(1),
                *_rows(session, others),
                *_files(session),
            ),
        ),
    )


def _files(session: Session) -> tuple[Block, ...]:
    """What is in which file: the keys, and, once that is known, the backups."""
    folder = session.records.backups
    backups = (Text(words.backups(folder), TextStyle.SMALL, Tone.MUTED),) if folder else ()
    return (_KEYS_FILE, *backups)


def _rows(session: Session, settings: tuple[Setting, ...]) -> tuple[Block, ...]:
    blocks: list[Block] = []
    for setting in settings:
        buttons = tuple(
            Button(
                Choose(setting.name, number),
                session.settings.colour_names[number] if setting is Setting.CROSS else option.word,
                selected=option.holds(session.settings),
            )
            for number, option in enumerate(OPTIONS[setting])
        )
        blocks += [Text(setting.value, TextStyle.SMALL, Tone.MUTED), ButtonRow(buttons), Gap(1)]
    return tuple(blocks)
