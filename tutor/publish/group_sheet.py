"""A page about a group: its last evening, learners by cases, and the cases that most find hard."""

from __future__ import annotations

from tutor.method.cases import Case
from tutor.method.words import case_title
from tutor.progress.group import GroupMember, GroupReport, MemberCase, told, told_across
from tutor.progress.summary import Memory
from tutor.publish import words
from tutor.publish.document import Chapter, Document, DocumentBlock, Paragraph, SignCell, SignRow, SignTable
from tutor.publish.document import Subheading as Heading

_GROUNDS = {
    Memory.SETTLING: ((226, 217, 196), False),
    Memory.SLIPPING: ((158, 63, 27), True),
    Memory.STICKS: ((205, 220, 203), False),
    Memory.SURE: ((58, 104, 56), True),
}
"""The ground of each sign, in the colours of the light theme; whether what is on it is white."""


def group_document(report: GroupReport) -> Document:
    """The page."""
    blocks: list[DocumentBlock] = [Heading(words.EVENING)]
    blocks += [Paragraph(f"{words.numbered(number)} {line}") for number, line in enumerate(told(report), 1)]
    if report.evening is not None:
        blocks += [Heading(words.WHO_REMEMBERS), _table(report)]
    if report.hardest:
        blocks.append(Heading(words.HARDEST_CASES))
        blocks += [Paragraph(_told(report, case)) for case in report.hardest]
    lead = words.group_lead(len(report.members))
    legend = (words.signs_legend([(each.sign, each.word) for each in _GROUNDS]),)
    return Document(words.GROUP, (Chapter(words.GROUP, lead, tuple(blocks)),), legend, report.day)


def _table(report: GroupReport) -> SignTable:
    rows = tuple(_row(member, report.cases) for member in report.members)
    return SignTable(tuple(str(case.number) for case in report.cases), rows)


def _row(member: GroupMember, cases: tuple[Case, ...]) -> SignRow:
    return SignRow(member.learner, tuple(_cell(member.of(case)) for case in cases), str(member.slipping))


def _cell(known: MemberCase) -> SignCell:
    if known.memory is Memory.NOT_MET:
        return SignCell(words.NOT_MET_SIGN)
    ground, white = _GROUNDS[known.memory]
    return SignCell(known.memory.sign, ground, white, known.today)


def _told(report: GroupReport, case: Case) -> str:
    title = case_title(case.number, case.short_name())
    return f"{title}. {' '.join(told_across(report, case))}"
