"""The table of benchmarks says what was measured; that it is measured rightly, a run of it shows."""

from __future__ import annotations

from io import StringIO

import pytest
from rich.console import Console

from tests.bench.table import Row, comparison, median_rows, table_of


def test_a_row_gives_both_figures_with_their_unit_and_how_many_times() -> None:
    row = Row("a film", "drawn once", 3.0, 1.5, "s")
    assert row.cells() == ("a film", "3 s", "1.5 s", "2.00", "drawn once")


def test_a_baseline_of_nothing_is_no_baseline() -> None:
    with pytest.raises(ZeroDivisionError):
        Row("a film", "drawn once", 3.0, 0.0, "s").cells()


def test_the_table_has_every_row() -> None:
    rows = [Row("one", "plain", 2.0, 1.0, "ms"), Row("two", "bare", 4500.0, 1000.0, "MiB")]
    console = Console(width=120, record=True, file=StringIO())
    console.print(table_of(rows))
    printed = console.export_text()
    assert all(cell in printed for row in rows for cell in row.cells())


def test_rounds_are_joined_row_by_row_and_set_beside_the_other_commit() -> None:
    here = median_rows([[Row("a film", "plain", mine, 1.0, "s")] for mine in (9.0, 2.0, 3.0)])
    assert [row.mine for row in here] == [3.0]
    console = Console(width=120, record=True, file=StringIO())
    console.print(comparison(here, [Row("a film", "plain", 6.0, 1.5, "s")], "v1"))
    line = next(line for line in console.export_text().splitlines() if "a film" in line)
    assert [cell.strip() for cell in line.strip("│").split("│")] == [
        "a film",
        "3 s",
        "3.00",
        "6 s",
        "4.00",
        "0.50",
    ]
