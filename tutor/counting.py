"""Numbers with their nouns, in English: the one rule for plurals that all catalogues of words share."""

from __future__ import annotations

_NUMBERS = (
    "no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
    "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen", "twenty",
)  # fmt: skip


def number(count: int) -> str:
    """A number as a word from none to twenty, in figures beyond."""
    return _NUMBERS[count] if 0 <= count < len(_NUMBERS) else f"{count:,}"


def noun(count: int, singular: str, plural: str = "") -> str:
    """The noun alone, in the plural category of the count (Unicode CLDR for English: one or other).

    The plural is the singular with an s where none is given.
    """
    return singular if count == 1 else plural or f"{singular}s"


def counted(count: int, singular: str, plural: str = "") -> str:
    """A number as a word with its noun, for instance ``three turns`` or ``one case``."""
    return f"{number(count)} {noun(count, singular, plural)}"


def figured(count: int, singular: str, plural: str = "") -> str:
    """A number in figures with its noun, for instance ``3 turns``: for tables and lists."""
    return f"{count:,} {noun(count, singular, plural)}"


def percent(share: float) -> int:
    """A share in whole hundredths, as it is shown; what counts shares goes by these."""
    return round(100 * share)


def times(count: int) -> str:
    """How often: once, twice, three times."""
    return {1: "once", 2: "twice"}.get(count, f"{number(count)} times")
