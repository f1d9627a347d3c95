"""The Progress screen through the real application: its figures are the summary's and follow what is kept."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence
from datetime import UTC, date, datetime, timedelta, timezone, tzinfo
from pathlib import Path

import pytest
from PIL import Image

from render.layout.panels import layout
from render.picture import page_height
from tests.make_history import CLUB, asker, history
from tests.screens.practice.sitting import finish
from tests.session.held import held
from tests.session.names import action_name, actions_in
from tests.session.pilot import EPOCH, Pilot, Reading
from tutor.app.drawing import DRAWING, PAGE_WIDTH, PIXEL_RATIO
from tutor.coach.guidance import Help
from tutor.cube.faces import Turn
from tutor.method.cases import CASES
from tutor.method.terms import Verdict
from tutor.progress.attempt import AttemptRecord
from tutor.progress.store import AttemptStore
from tutor.progress.study import Study, load_study
from tutor.progress.summary import Memory, Summary, summarise
from tutor.screens.practice.commands import PracticeAct, TryCase
from tutor.screens.practice.state import RUN
from tutor.screens.progress.plots import gist, marks_up
from tutor.screens.progress.view import sheet
from tutor.screens.progress.words import on_the_list
from tutor.session.record_commands import ChooseLearner, Summarise, UndoAttempt
from tutor.session.saving_commands import SaveSheet, SaveTable, SavingReport, SavingWish
from tutor.session.update import update
from tutor.solver.search import Solver
from tutor.ui.inputs import Modifier
from tutor.ui.plots import Plot
from tutor.ui.view import Legend, Miniature, MiniatureGrid, PlotGrid, Progress, Table
from tutor.workers.recorder import Recorder
from tutor.workers.saving import saved

ILVA = CLUB[0]
NOW = datetime.fromtimestamp(EPOCH + 100.0, UTC)
"""The pilot's time of day at its beginning."""


@pytest.fixture(scope="module")
def evenings(solver: Solver) -> tuple[AttemptRecord, ...]:
    """Two weeks of an invented learner, which ended the day before the pilot begins."""
    attempts = history(asker(solver), ILVA, weeks=2, begins=NOW - timedelta(days=15))
    return tuple(each for each in attempts if each.time < NOW - timedelta(hours=12))


class DirectSaver:
    """Saves at once, in this process."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.wishes: list[SavingWish] = []
        self.reports: list[SavingReport] = []

    def ask(self, request: int, wish: SavingWish) -> None:
        self.wishes.append(wish)
        self.reports.append(saved(wish, self.folder, DRAWING, lambda _: None))

    def forget(self, requests: Sequence[int]) -> None:
        raise AssertionError("nothing takes long enough to be stopped")

    def poll(self) -> tuple[SavingReport, ...]:
        given, self.reports = tuple(self.reports), []
        return given

    def close(self) -> None:
        pass


def seated(
    solver: Solver, folder: Path, evenings: tuple[AttemptRecord, ...] = (), zone: tzinfo = UTC
) -> Pilot:
    """A pilot whose learner is Ilva, with these attempts in the store, at the Progress screen."""
    with AttemptStore.open(folder, lambda: NOW) as store:
        store.add_learner(ILVA.name)
        store.merge(evenings)
    pilot = Pilot(solver, keeper=Recorder(folder, lambda: NOW, zone), saver=DirectSaver(folder / "saved"))
    assert pilot.view.screen == "home"
    pilot.settle()
    pilot.application.give(ChooseLearner(ILVA.name))
    pilot.press("open:PROGRESS")
    pilot.settle()
    return pilot


def study_in(folder: Path) -> Study:
    with AttemptStore.open(folder, lambda: NOW) as store:
        return load_study(store, ILVA.name, NOW)


def summary_in(folder: Path) -> Summary:
    return summarise(study_in(folder), NOW, UTC)


def cells(pilot: Pilot) -> dict[str, Miniature]:
    maps = [block for block in Reading(pilot.view).blocks if isinstance(block, MiniatureGrid)]
    return {action_name(cell.action): cell for each in maps for cell in each.miniatures}


def plots(pilot: Pilot) -> dict[str, Plot]:
    grids = [block for block in Reading(pilot.view).blocks if isinstance(block, PlotGrid)]
    return {plot.title: plot for grid in grids for plot in grid.plots}


def test_a_case_names_the_day_in_whose_list_it_stands(
    solver: Solver, tmp_path: Path, evenings: tuple[AttemptRecord, ...]
) -> None:
    zone = timezone(timedelta(hours=13))
    pilot = seated(solver, tmp_path, evenings, zone)
    shown = {action: cell.tip[-1] for action, cell in cells(pilot).items()}
    study = study_in(tmp_path)
    later = summarise(study, NOW, zone).week[1:]
    named = [(shown[action_name(TryCase(slug))], on_the_list(day.day)) for day in later for slug in day.slugs]
    assert [said for said, _ in named] == [wanted for _, wanted in named]
    # The days of UTC would be others.
    assert [day.slugs for day in later] != [day.slugs for day in summarise(study, NOW, UTC).week[1:]]


def test_home_leads_to_progress_and_a_new_learner_is_led_to_practice(pilot: Pilot, tmp_path: Path) -> None:
    pilot = seated(pilot.solver, tmp_path)
    reading = Reading(pilot.view)
    assert pilot.view.screen == "progress"
    assert action_name(reading.button("Start to practise").action) == "open:PRACTICE"
    assert {cell.badge for cell in cells(pilot).values()} == {"Nm"}
    assert not plots(pilot)
    pilot.key("s", Modifier.CONTROL)
    pilot.press("progress:SAVE_TABLE")
    assert not (tmp_path / "saved").exists()
    pilot.key("escape")
    assert action_name(Reading(pilot.view).button("Progress").action) == "open:PROGRESS"


def test_every_case_is_on_the_map_with_its_number_sign_and_chance(
    solver: Solver, tmp_path: Path, evenings: tuple[AttemptRecord, ...]
) -> None:
    pilot, summary = seated(solver, tmp_path, evenings), summary_in(tmp_path)
    shown = cells(pilot)
    assert len(shown) == 41
    # The order of the book is that of the map.
    assert [cell.number for cell in shown.values()] == [str(number) for number in range(1, 42)]
    today = set(summary.week[0].slugs)
    for each in summary.cases:
        cell = shown[action_name(TryCase(each.case.slug))]
        assert cell.badge == each.memory.sign
        assert cell.number == str(each.case.number)
        assert cell.label == ("" if each.remember is None else f"{each.remember:.0%}")
        assert cell.dotted == (each.case.slug in today)
        assert cell.tip[0] == f"Case {each.case.number}: {each.case.short_name()}"
    legend = next(block for block in Reading(pilot.view).blocks if isinstance(block, Legend))
    assert [entry[3] for entry in legend.entries] == [
        f"{memory.word}: {summary.count(memory)}" for memory in Memory
    ]
    assert len({entry[:3] for entry in legend.entries}) == len(Memory)


def test_plots_steps_and_slots_show_the_figures_of_the_summary(
    solver: Solver, tmp_path: Path, evenings: tuple[AttemptRecord, ...]
) -> None:
    pilot, summary = seated(solver, tmp_path, evenings), summary_in(tmp_path)
    shown = plots(pilot)
    assert [y for _, y in shown["Turns over the fewest by hand"].points] == [p.extra for p in summary.series]
    assert [y for _, y in shown["Time to the first turn"].points] == [p.recognition for p in summary.series]
    assert [y for _, y in shown["Hints"].points] == [p.hints for p in summary.series]
    assert [y for _, y in shown["To practise this week"].points] == [len(day.slugs) for day in summary.week]
    assert [y for _, y in shown["Without practice"].points] == [
        100 * each.remember for each in summary.forecast
    ]
    assert all(plot.unit and 2 <= len(plot.across) <= 7 and len(plot.up) <= 3 for plot in shown.values())
    blocks = Reading(pilot.view).blocks
    bars = [block for block in blocks if isinstance(block, Progress)]
    assert [bar.caption.split(" turns")[0] for bar in bars] == [
        f"{each.step.value.capitalize()}: {each.lost:.2f}" for each in summary.steps
    ]
    assert max(bar.fraction for bar in bars) == pytest.approx(1.0)
    table = next(block for block in blocks if isinstance(block, Table))
    assert [(row[0], row[1]) for row in table.rows] == [
        (each.slot.name, str(each.attempts)) for each in summary.slots
    ]


def test_a_field_of_the_map_is_reached_by_tab_and_opens_its_case(
    solver: Solver, tmp_path: Path, evenings: tuple[AttemptRecord, ...]
) -> None:
    pilot = seated(solver, tmp_path, evenings)
    first = action_name(TryCase(CASES[0].slug))
    assert {*cells(pilot)} <= set(actions_in(pilot.view))
    while pilot.focus != first:
        pilot.key("tab")
    pilot.key("enter")
    assert pilot.view.screen == "practice"
    assert RUN.of(pilot.session) is not None
    assert held(RUN.of(pilot.session)).case == CASES[0]


def test_an_attempt_shows_at_once_and_taken_back_it_is_gone(solver: Solver, tmp_path: Path) -> None:
    pilot = seated(solver, tmp_path)
    case = action_name(TryCase(CASES[0].slug))
    pilot.press(case)
    finish(pilot)
    pilot.settle()
    pilot.press("open:PROGRESS")
    pilot.settle()
    assert cells(pilot)[case].badge != "Nm"
    pilot.press("open:PRACTICE")
    pilot.press(action_name(PracticeAct.UNCOUNT))
    pilot.settle()
    pilot.press("open:PROGRESS")
    pilot.settle()
    assert {cell.badge for cell in cells(pilot).values()} == {"Nm"}


def test_an_attempt_taken_back_while_the_screen_is_open_changes_it(solver: Solver, tmp_path: Path) -> None:
    pilot = seated(solver, tmp_path)
    case = action_name(TryCase(CASES[0].slug))
    pilot.press(case)
    finish(pilot)
    pilot.settle()
    run = RUN.of(pilot.session)
    assert run is not None
    assert run.filed is not None
    pilot.press("open:PROGRESS")
    pilot.settle()
    assert cells(pilot)[case].badge != "Nm"
    assert pilot.keeper is not None
    pilot.application.give(pilot.keeper.carry_out(UndoAttempt(run.filed, ILVA.name)))
    assert cells(pilot)[case].badge == "Nm"


def test_the_figures_are_those_of_the_day_and_are_asked_for_once_when_it_begins(
    solver: Solver, tmp_path: Path, evenings: tuple[AttemptRecord, ...]
) -> None:
    pilot = seated(solver, tmp_path, evenings)
    # The pilot's day is 25 November; midnight is the first moment of the next one.
    pilot.now += (datetime(2026, 11, 26, tzinfo=UTC) - NOW).total_seconds() - 1
    first = pilot.session.records.summarised
    pilot.settle()
    assert pilot.session.records.summarised is first
    pilot.now += 1
    after, effects = update(pilot.session, held(pilot.session.room.due(pilot.session, pilot.now)), pilot.now)
    assert effects == (Summarise(ILVA.name, datetime(2026, 11, 26, tzinfo=UTC)),)
    assert after.room.due(after, pilot.now) is None
    pilot.settle()
    second = held(pilot.session.records.summarised)
    assert second.summary.week[0].day == date(2026, 11, 26)
    assert plots(pilot)["To practise this week"].points[0][1] == len(second.summary.week[0].slugs)
    pilot.wait(60.0)
    assert pilot.session.records.summarised is second


def test_a_picture_asks_nobody_to_press_anything(
    solver: Solver, tmp_path: Path, evenings: tuple[AttemptRecord, ...]
) -> None:
    pilot = seated(solver, tmp_path, evenings)
    assert any("Press" in text for text in Reading(pilot.view).texts)
    assert not any("Press" in text for text in Reading(sheet(pilot.session)).texts)


def test_the_picture_is_the_whole_page_and_the_table_agrees_with_it(
    solver: Solver, tmp_path: Path, evenings: tuple[AttemptRecord, ...]
) -> None:
    pilot = seated(solver, tmp_path, evenings)
    pilot.key("s", Modifier.CONTROL)
    pilot.settle()
    day = NOW.date().isoformat()
    assert f"progress-ilva-{day}.png" in pilot.view.notice
    with Image.open(tmp_path / "saved" / f"progress-ilva-{day}.png") as picture:
        high = page_height(sheet(pilot.session), PAGE_WIDTH)
        assert picture.size == (PAGE_WIDTH * PIXEL_RATIO, round(high * PIXEL_RATIO))
        assert len(set(picture.convert("L").tobytes())) > 50
    scene = layout(sheet(pilot.session), PAGE_WIDTH, high)
    assert all(panel.scroll_limit <= 1 for panel in scene.panels)
    assert not any(box.action for _, box in scene.boxes())
    pilot.key("s", Modifier.CONTROL | Modifier.SHIFT)
    pilot.settle()
    text = (tmp_path / "saved" / f"progress-ilva-{day}.csv").read_bytes().decode("utf-8")
    rows = list(csv.DictReader(io.StringIO(text)))
    shown = cells(pilot)
    assert [row["sign"] for row in rows] == [shown[action_name(TryCase(row["case"]))].badge for row in rows]
    pilot.press("progress:SAVE_TABLE")
    pilot.settle()
    assert (tmp_path / "saved" / f"progress-ilva-{day}-2.csv").is_file()
    saver = pilot.saver
    assert isinstance(saver, DirectSaver)
    assert [type(wish) for wish in saver.wishes] == [SaveSheet, SaveTable, SaveTable]


@pytest.mark.parametrize(
    ("highest", "top"),
    [(0.0, 1.0), (0.03, 0.04), (0.2, 0.2), (1.0, 1.0), (1.01, 2.0), (4.3, 6.0), (73.0, 100.0)],
)
def test_the_upright_axis_ends_at_a_round_figure_above_all_others(highest: float, top: float) -> None:
    marks = marks_up(highest)
    assert [value for value, _ in marks] == pytest.approx([0.0, top / 2, top])


def test_the_gist_compares_the_first_third_with_the_last() -> None:
    assert gist([3.0, 3.0, 2.0, 2.0, 1.0, 1.0]) == "3.0 at first, 1.0 recently."
    assert not gist([3.0, 1.0])


def test_turns_that_were_undone_are_lost_yet_not_over_the_fewest_and_the_words_say_so(
    solver: Solver, tmp_path: Path
) -> None:
    """The detour's cost stays in its step, while the way that was kept is as short as can be."""
    pilot = seated(solver, tmp_path)
    pilot.application.give(TryCase(CASES[0].slug, help=Help.WITH_HINTS))
    pilot.settle()
    answer = held(pilot.session.answers.at(held(pilot.session.attempt).bearing()))
    astray = answer.continuation(Turn.L)
    assert astray.verdict is Verdict.DETOUR
    pilot.turn("L")
    pilot.key("backspace")
    finish(pilot)
    pilot.press("open:PROGRESS")
    pilot.settle()
    extra, texts = plots(pilot)["Turns over the fewest by hand"], Reading(pilot.view).texts
    assert [figure for _, figure in extra.points] == [0.0]
    assert extra.unit == "on average, without undone turns"
    bars = [block.caption for block in Reading(pilot.view).blocks if isinstance(block, Progress)]
    step = answer.step.value.capitalize()
    assert f"{step}: {astray.lost:.2f} turns lost on average, some in 100% of tries" in bars
    assert (
        "In the last 30 days. Detours that you undid count here, and tries that you gave up too. "
        "Find is only looking, so it costs time but no turns."
    ) in texts
    assert "In the last 30 days. Turns over the fewest leave out those that you undid." in texts
