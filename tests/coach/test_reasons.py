from __future__ import annotations

import pytest

from tests.coach.table import Table
from tutor.coach.reasons import easier
from tutor.cube.notation import parse_turns
from tutor.method.ergonomics import comfort


def test_the_reason_names_what_is_spared() -> None:
    text = easier(parse_turns("R U R'"), parse_turns("R U B"))
    assert text.startswith("R U R' is as short as R U B")
    assert "no turns of the back instead of one" in text


def test_a_line_that_is_not_easier_gets_no_reason() -> None:
    assert easier(parse_turns("R U B"), parse_turns("R U R'")) == ""


def test_only_equally_long_lines_are_compared() -> None:
    with pytest.raises(ValueError, match="3 and 2"):
        easier(parse_turns("R U R'"), parse_turns("R U"))


def test_the_first_line_shown_is_never_the_harder_one(table: Table) -> None:
    lines = table.at("R U2 R' U R U R'").lines
    for other in lines[1:]:
        assert easier(other, lines[0]) == ""
        assert easier(lines[0], other) or comfort(other).cost == comfort(lines[0]).cost
