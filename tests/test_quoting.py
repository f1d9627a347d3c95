"""What a terminal would obey is shown: C0, DEL, C1 (ISO/IEC 6429), Unicode's ends of lines and overrides."""

import unicodedata

from tutor.quoting import quotable, visible, visible_lines

OVERRIDES = "\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069"
"""From the Unicode Bidirectional Algorithm (UAX 9), sections 2.1 to 2.4."""


def test_nothing_that_would_be_obeyed_is_left_of_any_character() -> None:
    every = "".join(map(chr, range(0x110000)))
    shown = visible(every)
    assert not [each for each in shown if unicodedata.category(each) in ("Cc", "Zl", "Zp", "Cs")]
    assert not set(shown) & set(OVERRIDES)


def test_letters_of_every_language_stay() -> None:
    for name in ("Ильва", "Zoë", "نور", "李雷", "a b", "Ana-Lúcia O’Neil", "👩‍🏫"):
        assert visible(name) == name


def test_escapes_can_be_read_and_are_not_escaped_again() -> None:
    shown = visible("a\x1b[31m\x07\x00\n\r\t\x7f\x9b\u202e\u2028")
    assert shown == r"a\x1b[31m\x07\x00\n\r\t\x7f\x9b\u202e\u2028"
    assert visible(shown) == shown
    assert visible_lines("one\x1b\ntwo\r") == "one\\x1b\ntwo\\r"
    # Escapes count as long as they are shown.
    assert quotable("\x1b" * 30, 9) == r"\x1b\x1b…"
