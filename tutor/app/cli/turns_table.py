"""The answer of ``turns`` as a table for people."""

from __future__ import annotations

from rich.console import Console
from rich.table import Table
from rich.text import Text

from tutor.app.cli.route_text import by_step, with_far_layers
from tutor.cube.faces import Face, Turn
from tutor.cube.notation import format_moves
from tutor.method.answer import Answer
from tutor.method.cases import case_of
from tutor.method.continuations import Continuation, Verdict
from tutor.method.steps import Step
from tutor.publish.subject import name_lines

_ORDER = list(Verdict)
_STYLES = {Verdict.OPTIMAL: "bold green", Verdict.ACCEPTABLE: "cyan", Verdict.DETOUR: "dim"}


def show_answer(found: Answer, setup: str, console: Console | None = None) -> None:
    """Write the answer to the console, by default standard output: best turns first."""
    console = Console(highlight=False) if console is None else console
    console.print(_facts(found, setup))
    console.print(_turns(found))
    if found.to_go:
        console.print(_ways(found))


def _facts(found: Answer, setup: str) -> Table:
    kept = " ".join(slot.name for slot in sorted(found.task.keep)) or "none"
    facts = _grid()
    facts.add_row("Setup", Text(setup.strip() or "none: the solved cube"))
    facts.add_row("Slot", Text(f"{found.task.slot.name}, keeping {kept}"))
    facts.add_row("Settled", Text("yes" if found.settled else "no: the cross or a kept pair is not solved"))
    if found.case is not None:
        facts.add_row("Case", Text(_case_words(found)))
    done = found.step is Step.DONE
    facts.add_row("Step", Text("done: the pair is in its slot" if done else found.step.value.capitalize()))
    facts.add_row("To go", Text(_to_go(found)))
    return facts


def _to_go(found: Answer) -> str:
    if not found.to_go:
        return "nothing"
    way = "with far layers; there is no way by hand" if found.by_hand is None else "by hand"
    return f"{_counted(found.to_go)} {way}"


def _case_words(found: Answer) -> str:
    """The case as it looks in its slot; a top turned away from what the name says is told."""
    sighting = case_of(found.position, found.task)
    if sighting is None:
        raise ValueError("the position is no case")
    told = ". ".join(name_lines(sighting.case, sighting.slot))
    if not sighting.alignment:
        return told
    back = Turn.of(Face.U, sighting.alignment).inverse
    return f"{told}. The top is turned: it looks so after {back.notation}"


def _turns(found: Answer) -> Table:
    by_hand = found.by_hand is not None
    table = Table("Turn", f"To go {'by hand' if by_hand else 'after it'}", "Lost", "Verdict", "Why")
    ranked = sorted(found.continuations, key=lambda one: (_ORDER.index(one.verdict), one.lost, one.turn))
    for one in ranked:
        verdict = Text(one.verdict.value.capitalize(), style=_STYLES[one.verdict])
        to_go = _after(one) if by_hand else str(one.after)
        table.add_row(one.turn.notation, to_go, str(one.lost), verdict, Text(one.why))
    return table


def _after(one: Continuation) -> str:
    return "no way" if one.by_hand is None else str(one.by_hand)


def _ways(found: Answer) -> Table:
    ways = _grid()
    word = "Shortest with far layers" if found.by_hand is None else "Shortest by hand"
    for line in found.lines:
        ways.add_row(word, Text(format_moves(line)))
    for route in found.routes:
        ways.add_row(f"Route, {_counted(len(route.turns))}", Text(by_step(route)))
    if found.at_all_line:
        ways.add_row("With far layers too", Text(with_far_layers(found.at_all_line)))
    return ways


def _grid() -> Table:
    grid = Table.grid(padding=(0, 2))
    grid.add_column(style="bold", no_wrap=True)
    grid.add_column()
    return grid


def _counted(count: int) -> str:
    return "1 turn" if count == 1 else f"{count} turns"
