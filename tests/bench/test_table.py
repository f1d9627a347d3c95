"""The table of benchmarks says what was measured; that it is measured rightly, a run of it shows."""

from __future__ import annotations

from io import StringIO
from pathlib import Path

import pytest
from rich.console import Console

from tests.bench.costs import lines_of
from tests.bench.profiling import Costs, costs_of, place_name
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


def spinning(count: int) -> int:
    """Something that takes its time in a function of its own."""
    return sum(number * number for number in range(count))


def test_a_profile_names_what_costs_most_by_its_place_in_the_tree() -> None:
    costs = costs_of(lambda: [spinning(20_000) for _ in range(10)], times=10)
    names = [name for name, _, _ in costs.largest]
    assert names[0] == "tests/bench/test_table.py: <genexpr>"
    assert {"tests/bench/test_table.py: spinning", "sum"} <= set(names)
    calls = {name: calls for name, calls, _ in costs.largest}
    assert calls["tests/bench/test_table.py: spinning"] == 1
    assert costs.whole >= sum(own for _, _, own in costs.largest) > 0 == costs.library


@pytest.mark.parametrize(
    ("file", "name"),
    [
        ("/home/render/env/lib/python3.11/site-packages/pyglet/gl/gl.py", "pyglet/gl/gl.py: draw"),
        ("/usr/lib/python3.11/enum.py", "python3.11/enum.py: draw"),
        (f"{Path.cwd()}/render/window/screen.py", "render/window/screen.py: draw"),
        ("<string>", "<string>: draw"),
    ],
)
def test_a_place_is_shortened_to_what_tells_it_from_others(file: str, name: str) -> None:
    assert place_name(file, 7, "draw") == name


def test_costs_of_two_trees_stand_side_by_side() -> None:
    here = Costs(12.0, 1.0, (("sum", 3.0, 2.5),))
    there = Costs(24.0, 6.0, (("sum", 3.0, 5.0), ("hash", 1.0, 2.0)))
    assert list(lines_of("verdict", {"before": there, "here": here})) == [
        "**verdict**: before: 24 ms, here: 12 ms; of it in pyglet 6 ms and 1 ms",
        "",
        "| before, ms | here, ms |",
        "| --- | --- |",
        "| 5: `sum` (3) | 2.5: `sum` (3) |",
        "| 2: `hash` (1) |  |",
        "",
    ]
