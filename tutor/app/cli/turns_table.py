"""The answer of ``turns`` as a table for people."""

from __future__ import annotations

from rich.console import Console
from rich.table import Table
from rich.text import Text

from tutor.app.cli.route_text import by_step
from tutor.app.cli.words import turns as words
from tutor.app.terminal import answer_console
from tutor.cube.faces import Face, Turn
from tutor.cube.notation import format_moves
from tutor.method.answer import Answer
from tutor.method.cases import CaseSighting
from tutor.method.continuations import Continuation, Verdict
from tutor.method.steps import Step
from tutor.method.ticks import lifted_slot, out_of_place

_ORDER = list(Verdict)
_STYLES = {Verdict.OPTIMAL: "bold green", Verdict.ACCEPTABLE: "cyan", Verdict.DETOUR: "dim"}


def show_answer(found: Answer, setup: str, console: Console | None = None) -> None:
    """Write the answer to the console, by default standard output: best turns first."""
    console = answer_console() if console is None else console
    console.print(_facts(found, setup))
    console.print(_turns(found))
    if found.to_go:
        console.print(_ways(found))


def _facts(found: Answer, setup: str) -> Table:
    kept = " ".join(slot.name for slot in sorted(found.task.keep))
    facts = _grid()
    facts.add_row(words.SETUP, Text(setup.strip() or words.SOLVED_CUBE))
    facts.add_row(words.SLOT, Text(words.slot(found.task.slot.name, kept)))
    facts.add_row(words.KEPT, Text(_kept(found)))
    if found.sighting is not None:
        facts.add_row(words.case(found.sighting.case.number), Text(_names(found.sighting)))
    facts.add_row(words.STEP, Text(_step(found)))
    facts.add_row(words.TO_GO, Text(_to_go(found)))
    return facts


def _kept(found: Answer) -> str:
    if out_of_place(found.position, found.task):
        return words.comes_first(words.PAIR_OUT if found.position.cross_home else words.CROSS_OUT)
    if (lifted := lifted_slot(found.position, found.task)) is not None:
        return words.lifted(lifted.name)
    return words.ALL_SOLVED if found.settled else words.NOT_ALL_SOLVED


def _step(found: Answer) -> str:
    if found.step is Step.DONE:
        return words.DONE
    step = found.step.value.capitalize()
    return words.step_that_mends(step) if out_of_place(found.position, found.task) else step


def _to_go(found: Answer) -> str:
    if not found.to_go:
        return words.NOTHING_TO_GO
    return words.to_go(found.to_go, by_hand=found.by_hand is not None)


def _names(sighting: CaseSighting) -> str:
    """The case as it looks in its slot; its full name too, with the turn of the top that makes that true."""
    case, slot = sighting.case, sighting.slot
    back = Turn.of(Face.U, sighting.alignment).inverse.notation if sighting.alignment else ""
    return words.case_names(case.short_name(slot, alignment=sighting.alignment), *case.name_lines(slot), back)


def _turns(found: Answer) -> Table:
    by_hand = found.by_hand is not None
    table = Table(
        words.TURN,
        words.TO_GO_BY_HAND if by_hand else words.TO_GO_AFTER,
        words.LOST,
        words.VERDICT,
        words.WHY,
    )
    ranked = sorted(found.continuations, key=lambda one: (_ORDER.index(one.verdict), one.lost, one.turn))
    for one in ranked:
        verdict = Text(one.verdict.value.capitalize(), style=_STYLES[one.verdict])
        to_go = _after(one) if by_hand else str(one.after)
        table.add_row(one.turn.notation, to_go, str(one.lost), verdict, Text(one.why))
    return table


def _after(one: Continuation) -> str:
    return words.NO_WAY if one.by_hand is None else str(one.by_hand)


def _ways(found: Answer) -> Table:
    ways = _grid()
    word = words.SHORTEST_WITH_FAR if found.by_hand is None else words.SHORTEST_BY_HAND
    for line in found.lines:
        ways.add_row(word, Text(format_moves(line)))
    for route in found.routes:
        far = any(turn.face not in found.task.working_faces for turn in route.turns)
        ways.add_row(words.route(len(route.turns), far=far), Text(by_step(route)))
    if found.at_all_line:
        told = words.far_layers(len(found.at_all_line), format_moves(found.at_all_line))
        ways.add_row(words.WITH_FAR_TOO, Text(told))
    return ways


def _grid() -> Table:
    grid = Table.grid(padding=(0, 2))
    grid.add_column(style="bold", no_wrap=True)
    grid.add_column()
    return grid
