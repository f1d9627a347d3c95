"""What runs in the processes that work out answers and advice, and in the one that makes large tables."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from tutor.cube.position import Position
from tutor.method.answer import Answer, answer
from tutor.session.advisor import advise
from tutor.session.commands import Question
from tutor.solver.search import Solver
from tutor.solver.store import Store
from tutor.solver.tables import Tables
from tutor.solver.task import Task
from tutor.workers.desk import Desk
from tutor.workers.priority import let_others_go_first
from tutor.workers.table_news import TablesMissing, TablesNotice, TablesShare


class Answering:
    """Works out answers for positions and tasks, and reports about the tables."""

    def __init__(self, desk: Desk, folder: Path, spare: Path | None) -> None:
        self._desk = desk
        self._tables = Tables(Store(folder, spare))
        self._solver = Solver(self._tables, desk.go_on)
        self._notices_told = 0
        self._missing_told = False
        self._tell_of_tables()

    def __call__(self, question: tuple[Position, Task] | None) -> Answer | None:
        """The answer; with None for a question the large tables that have been made since are taken up."""
        if question is None:
            self._tables.refresh()
            self._missing_told = False
            return None
        found = answer(self._solver, *question)
        self._tell_of_tables()
        return found

    def _tell_of_tables(self) -> None:
        if not self._missing_told and not self._tables.large_ready():
            self._missing_told = True
            self._desk.tell(TablesMissing())
        self._notices_told += _tell_notices(self._desk, self._tables, self._notices_told)


def building(desk: Desk, folder: Path, spare: Path | None) -> Callable[[None], None]:
    """Makes the large tables that are missing, and reports how far it is."""

    # Once more: to make tables is least urgent of all.
    let_others_go_first()

    def build(_: None) -> None:
        tables = Tables(Store(folder, spare))
        tables.build_large(lambda share: desk.tell(TablesShare(share)))
        _tell_notices(desk, tables, 0)

    return build


def advising(desk: Desk) -> Callable[[Question], object]:
    """Advice about whole solves."""
    solver = Solver(Tables.open(), desk.go_on)
    return lambda question: advise(solver, question, desk.go_on)


def _tell_notices(desk: Desk, tables: Tables, told: int) -> int:
    """Report the notices about the tables after the first ``told``; how many there were."""
    new = tables.notices[told:]
    for notice in new:
        desk.tell(TablesNotice(notice.text))
    return len(new)
