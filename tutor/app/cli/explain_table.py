"""The answer of ``explain`` for people."""

from __future__ import annotations

from rich.console import Console
from rich.table import Table
from rich.text import Text

from tutor.app.cli.route_text import by_step
from tutor.app.cli.words import explain as words
from tutor.app.cli.words import turns as turns_words
from tutor.app.terminal import answer_console
from tutor.coach.explanation import ExplainedTurn, Explanation
from tutor.coach.explanation_sentences import brief, more
from tutor.cube.notation import format_moves
from tutor.method.steps import Step


def show_explanation(found: Explanation, setup: str, console: Console | None = None) -> None:
    """Write the explanation to the console, by default standard output."""
    console = answer_console() if console is None else console
    console.print(_facts(found, setup))
    for phrase in brief(found):
        console.print(Text(phrase.text))
    console.print(_turns(found))
    for phrase in more(found):
        console.print(Text(phrase.text))


def _facts(found: Explanation, setup: str) -> Table:
    way, task, sighting = found.way, found.start.task, found.start.sighting
    facts = Table.grid(padding=(0, 2))
    facts.add_column(style="bold", no_wrap=True)
    facts.add_column()
    facts.add_row(words.SEQUENCE, Text(words.sequence(format_moves(way.turns), len(way.turns))))
    facts.add_row(words.SETUP, Text(setup.strip() or turns_words.SOLVED_CUBE))
    kept = " ".join(slot.name for slot in sorted(task.keep))
    facts.add_row(words.SLOT, Text(turns_words.slot(task.slot.name, kept)))
    if sighting is not None:
        name = sighting.case.short_name(sighting.slot, alignment=sighting.alignment)
        facts.add_row(turns_words.case(sighting.case.number), Text(name))
    facts.add_row(words.STEPS, Text(by_step(way)))
    return facts


def _turns(found: Explanation) -> Table:
    table = Table(words.TURN, words.STEP, words.VERDICT, words.DOES)
    for each in found.each:
        table.add_row(each.turn.notation, _step(each), _verdict(each), Text(each.said.text))
    return table


def _step(each: ExplainedTurn) -> str:
    return words.NONE if each.step is Step.DONE else each.step.value.capitalize()


def _verdict(each: ExplainedTurn) -> str:
    return words.NONE if each.verdict is None else each.verdict.value.capitalize()
