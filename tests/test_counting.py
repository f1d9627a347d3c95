"""Numbers with their nouns."""

from tutor.counting import counted, figured, noun, number, times


def test_english_has_two_plural_categories_and_none_is_many() -> None:
    # Unicode CLDR, English cardinals: "one" for 1, "other" for all else, 0 too.
    assert [counted(count, "turn") for count in (0, 1, 2)] == ["no turns", "one turn", "two turns"]
    assert noun(2, "try", "tries") == "tries"


def test_numbers_are_words_up_to_twenty_and_figures_beyond() -> None:
    assert [number(count) for count in (20, 21, 1234)] == ["twenty", "21", "1,234"]
    assert figured(1, "try", "tries") == "1 try"
    assert figured(40000, "attempt") == "40,000 attempts"


def test_how_often() -> None:
    assert [times(count) for count in (1, 2, 3, 21)] == ["once", "twice", "three times", "21 times"]
