"""How the group is doing: printed as text, or written as a page, a picture or a table."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from msgspec.structs import replace

from tutor.app.cli.task_request import RequestError
from tutor.app.cli.words import progress as words
from tutor.app.drawing import page_png
from tutor.app.files.folders import config_folder
from tutor.app.terminal import answer_console
from tutor.method.words import case_title
from tutor.progress.attempt import now_utc
from tutor.progress.group import GroupReport, format_group, group_report, told, told_across
from tutor.progress.local_zone import LOCAL_ZONE
from tutor.progress.store import AttemptStore
from tutor.progress.study import load_study
from tutor.progress.summary import Memory
from tutor.quoting import visible


def report_of(store: AttemptStore) -> GroupReport:
    """How all learners are doing now."""
    now = now_utc()
    studies = {learner: load_study(store, learner, now) for learner in store.learners()}
    return group_report(studies, now, LOCAL_ZONE, store.assignments())


def print_group(report: GroupReport) -> None:
    """The last evening, a row for each learner, and the hardest cases."""
    # Imported here, so that files do not wait for it.
    from rich.table import Table

    console = answer_console(markup=False)
    console.print(words.EVENING)
    for index, line in enumerate(told(report), start=1):
        console.print(words.evening_line(index, line))
    if report.evening is None:
        return
    table = Table(words.LEARNER, words.TRIES, *(each.word.capitalize() for each in Memory), words.TODAY)
    for member in report.members:
        counts = [sum(case.memory is each for case in member.cases) for each in Memory]
        today = sum(case.today for case in member.cases)
        table.add_row(visible(member.learner), *map(str, (member.attempts, *counts, today)))
    console.print(table)
    if report.hardest:
        console.print(words.HARDEST)
    for case in report.hardest:
        said = " ".join(told_across(report, case))
        console.print(words.hard_case(case_title(case.number, case.short_name()), said))


def save_group(file: Path, report: GroupReport, *, force: bool) -> None:
    """Write it in the form that the end of the name says. Raises RequestError, CannotDrawError."""
    from tutor.publish.files import PublishError, check_target, write_bytes

    made = _FORMS.get(file.suffix.lower())
    if made is None:
        raise RequestError(words.no_group_form(file, _FORMS))
    try:
        check_target(file, force=force)
        write_bytes(file, made(report), force=force)
    except PublishError as fault:
        raise RequestError(str(fault)) from fault


def _pdf(report: GroupReport) -> bytes:
    from tutor.publish.document_pdf import Paper, check_pdf, document_pdf
    from tutor.publish.group_sheet import group_document

    check_pdf()
    return document_pdf(group_document(report), Paper.A4, None)


def _html(report: GroupReport) -> bytes:
    from tutor.publish.document_html import document_html
    from tutor.publish.group_sheet import group_document

    return document_html(group_document(report), lambda _: "").encode()


def _png(report: GroupReport) -> bytes:
    from tutor.app.files.settings import load_settings
    from tutor.screens.group.commands import NAME
    from tutor.screens.group.state import REPORT
    from tutor.screens.group.view import sheet
    from tutor.screens.table import SCREENS
    from tutor.session.beginning import new_session

    session = new_session(SCREENS, load_settings(config_folder()).settings, ())
    return page_png(sheet(REPORT.put(replace(session, screen=NAME), report)))


def _csv(report: GroupReport) -> bytes:
    # Without the mark spreadsheets take names for those of an older code page.
    return "".join(format_group(report)).encode("utf-8-sig")


_FORMS: dict[str, Callable[[GroupReport], bytes]] = {
    ".pdf": _pdf,
    ".html": _html,
    ".png": _png,
    ".csv": _csv,
}
