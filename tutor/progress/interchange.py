"""Attempts in writing: one JSON object a line, or one row of a CSV table; both say everything.

Columns of the CSV table, which are also the keys of a JSON line:

| column | meaning |
| --- | --- |
| uuid | the attempt's own number (RFC 9562); two files never disagree about it, so merging doubles nothing |
| learner | the name |
| time | when it ended, in UTC, as ISO 8601: 2026-03-02T18:30:05.250000Z |
| number | the number of the case it counts for, 1 to 41, for people; when read, the slug decides |
| case | the slug of the case it counts for |
| slot | FR, FL, BL or BR |
| mirror | whether the mirror image of the case was met: true or false |
| alignment | clockwise quarters the top was turned further: 0 to 3 |
| keep | the slots to keep, in the table with spaces between: FL BL BR |
| mode | single, lesson, today, slipping, family, glance or steady |
| outcome | solved, given up, watched, named or misnamed |
| turns_used | turns of the way that was kept |
| by_hand | the fewest turns by hand from where the learner began; nothing where it was not kept yet |
| at_all | the fewest turns with far layers too |
| route | turns of the shortest route; nothing without one |
| shown | turns played for the learner before |
| first_turn | seconds to the first turn; nothing without one |
| seconds | seconds in all |
| turns | every turn; in the table, with semicolons between: notation, seconds, verdict, cost, step |
| hints | every hint; in the table, with semicolons between: rung, seconds |

Beside attempts, a file may hold what learners say of cases in their own words: a JSON line with learner,
case, time and own_words, or a row of a table with these four cells filled; own_words is a further column.
What a learner has to do is a JSON line with learner, assigned (case: and a slug, or lesson: and a name), time
(of the last change), given (when), until (the last day or null) and state (given, done or withdrawn), or a
row with these cells filled.

What is not known of a turn is null in a JSON line and a hyphen in the table.

Files written before ``by_hand`` was kept have neither of the two, but ``shortest``, which is what ``at_all``
is now. They are read as they are: their attempts have no ``by_hand``, and turns count against ``at_all``.
Files up to form 3 have no ``number``, and older names of modes and outcomes, which ``Mode`` and ``Outcome``
still know: due, weakest, flash and home.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import datetime
from typing import Annotated, Any
from uuid import UUID

import msgspec

from tutor.cube.faces import TURNS, Turn
from tutor.cube.position import Slot
from tutor.method.cases import parse_case
from tutor.method.terms import Step, Verdict
from tutor.progress import words
from tutor.progress.assignment import (
    ASSIGNED_COLUMNS,
    ASSIGNED_MARK,
    Assignment,
    assigned_cells,
    assigned_from,
    parse_assigned,
)
from tutor.progress.attempt import (
    MOST_TURNS,
    AttemptError,
    AttemptRecord,
    HintTaken,
    Mode,
    Outcome,
    TurnMade,
    read_time,
)
from tutor.progress.own_words import MARK, OwnWords, own_words, parse_own
from tutor.quoting import quotable

_TURNS = {turn.notation: turn for turn in TURNS}
_SLOTS = dict(Slot.__members__)
_UNKNOWN = "-"

_Count = Annotated[int, msgspec.Meta(ge=0)]


class _TurnLine(msgspec.Struct, frozen=True, gc=False, forbid_unknown_fields=True):
    turn: str
    at: float
    verdict: Verdict | None = None
    cost: int | None = None
    step: Step | None = None


class _HintLine(msgspec.Struct, frozen=True, gc=False, forbid_unknown_fields=True):
    rung: int
    at: float


class _AttemptLine(msgspec.Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    uuid: UUID
    learner: str
    time: datetime
    number: _Count | msgspec.UnsetType = msgspec.UNSET
    """The case's number in the book, for people; the slug says which case it is."""
    case: str
    slot: str
    mirror: bool
    alignment: int
    keep: list[str]
    mode: Mode
    outcome: Outcome
    turns_used: _Count
    by_hand: _Count | None = None
    at_all: _Count | msgspec.UnsetType = msgspec.UNSET
    route: _Count | None
    shown: _Count
    first_turn: float | None
    seconds: float
    turns: list[_TurnLine]
    hints: list[_HintLine]
    shortest: _Count | msgspec.UnsetType = msgspec.UNSET
    """What ``at_all`` was called before; read, but never written."""


COLUMNS: tuple[str, ...] = tuple(name for name in _AttemptLine.__struct_fields__ if name != "shortest")
"""Keys of a JSON line and columns of the table, in their order."""
_NEEDED = tuple(name for name in COLUMNS if name != "number")
_NEEDED_BEFORE = ("shortest", *(name for name in _NEEDED if name not in ("by_hand", "at_all")))
"""Without those in a table nothing is read: in one of now, and in one written before ``by_hand`` was kept."""

_OWN = "own_words"
"""The column of a table that has learners' own words, where there are some."""
_LONGEST_CELL = 64 * MOST_TURNS
"""Characters of a cell that are read: a turn takes fewer than 64."""
_LONGEST_FAULT = 400
"""Characters quoted of what is wrong with a line, which may repeat a good part of it."""
_DECODER = msgspec.json.Decoder(_AttemptLine)
_ENCODER = msgspec.json.Encoder()


def format_line(attempt: AttemptRecord) -> str:
    """The attempt as a JSON object on one line, without the line's end."""
    return _ENCODER.encode(_written(attempt)).decode("utf-8")


def parse_line(line: str | bytes) -> AttemptRecord:
    """The attempt that a JSON line describes. Raises AttemptError with what is wrong and where."""
    try:
        return _attempt(_DECODER.decode(line))
    except AttemptError:
        raise
    except (msgspec.DecodeError, UnicodeDecodeError, RecursionError, ValueError) as fault:
        raise AttemptError(quotable(str(fault), _LONGEST_FAULT)) from fault


def parse_record(line: str | bytes) -> AttemptRecord | OwnWords | Assignment:
    """The attempt or the note of a JSON line. Raises AttemptError."""
    text = line if isinstance(line, str) else line.decode("utf-8", "replace")
    if ASSIGNED_MARK in text:
        return parse_assigned(line)
    return parse_own(line) if MARK in text else parse_line(line)


def format_table(
    attempts: Iterable[AttemptRecord], notes: Sequence[OwnWords | Assignment] = ()
) -> Iterator[str]:
    """The rows of a CSV table (RFC 4180), the columns' names first, each with its line's end."""
    own = (_OWN,) if any(isinstance(note, OwnWords) for note in notes) else ()
    assigned = ASSIGNED_COLUMNS if any(isinstance(note, Assignment) for note in notes) else ()
    further = (*own, *assigned)
    yield _csv_row((*COLUMNS, *further))
    for attempt in attempts:
        yield _csv_row((*_cells(_written(attempt)), *("" for _ in further)))
    for note in notes:
        cells = _note_cells(note)
        yield _csv_row(cells.get(name, "") for name in (*COLUMNS, *further))


def _note_cells(note: OwnWords | Assignment) -> Mapping[str, str]:
    if isinstance(note, Assignment):
        return assigned_cells(note)
    time = str(msgspec.to_builtins(note.time))
    return {"learner": note.learner, "time": time, "case": note.case, _OWN: note.text}


def table_rows(
    text: Iterable[str],
) -> Iterator[tuple[int, AttemptRecord | OwnWords | Assignment | AttemptError]]:
    """The attempts and notes of a CSV table, each with its line; for a row that is wrong, what is wrong.

    It has the columns of ``COLUMNS``, or those of before, in any order. ``text`` gives its lines with their
    ends kept. Raises AttemptError where no row can be read any more.
    """
    reader = csv.DictReader(text, strict=True)
    # Of the whole process; the usual one is less than the turns of a long attempt take.
    usual = csv.field_size_limit(_LONGEST_CELL)
    try:
        found = reader.fieldnames or ()
        columns = _NEEDED_BEFORE if "shortest" in found and "at_all" not in found else _NEEDED
        missing = [name for name in columns if name not in found]
        if missing:
            raise AttemptError(words.columns_missing(missing))
        for row in reader:
            try:
                yield reader.line_num, _from_row(row, columns, reader.line_num)
            except AttemptError as fault:
                yield reader.line_num, fault
    except csv.Error as fault:
        raise AttemptError(words.at_line(reader.line_num + 1, fault)) from fault
    finally:
        csv.field_size_limit(usual)


def _from_row(
    row: Mapping[str | None, Any], columns: tuple[str, ...], number: int
) -> AttemptRecord | OwnWords | Assignment:
    if None in row or None in row.values():
        raise AttemptError(words.wrong_cell_count(number))
    try:
        if row.get("assigned") and not row["uuid"]:
            return assigned_from({str(name): str(cell) for name, cell in row.items()})
        if _OWN in row and not row["uuid"]:
            time = msgspec.convert(row["time"], datetime)
            return own_words(row["learner"], row["case"], time, row[_OWN])
        return _attempt(msgspec.convert(_from_cells(row, columns), _AttemptLine, strict=False))
    except ValueError as fault:
        raise AttemptError(words.at_line(number, quotable(str(fault), _LONGEST_FAULT))) from fault


def _written(attempt: AttemptRecord) -> _AttemptLine:
    return _AttemptLine(
        uuid=attempt.uuid,
        learner=attempt.learner,
        time=attempt.time,
        number=parse_case(attempt.case).number,
        case=attempt.case,
        slot=attempt.slot.name,
        mirror=attempt.mirror,
        alignment=attempt.alignment,
        keep=[slot.name for slot in sorted(attempt.keep)],
        mode=attempt.mode,
        outcome=attempt.outcome,
        turns_used=attempt.turns_used,
        by_hand=attempt.by_hand,
        at_all=attempt.at_all,
        route=attempt.route,
        shown=attempt.shown,
        first_turn=attempt.first_turn,
        seconds=attempt.seconds,
        turns=[_TurnLine(t.turn.notation, t.at, t.verdict, t.cost, t.step) for t in attempt.turns],
        hints=[_HintLine(hint.rung, hint.at) for hint in attempt.hints],
    )


def _attempt(line: _AttemptLine) -> AttemptRecord:
    return AttemptRecord(
        uuid=line.uuid,
        learner=line.learner,
        time=read_time(line.time),
        case=line.case,
        slot=_slot(line.slot),
        mirror=line.mirror,
        alignment=line.alignment,
        keep=frozenset([_slot(name) for name in line.keep]),
        mode=line.mode,
        outcome=line.outcome,
        turns_used=line.turns_used,
        by_hand=line.by_hand,
        at_all=_at_all(line),
        route=line.route,
        shown=line.shown,
        first_turn=line.first_turn,
        seconds=line.seconds,
        turns=tuple([TurnMade(_turn(t.turn), t.at, t.verdict, t.cost, t.step) for t in line.turns]),
        hints=tuple([HintTaken(hint.rung, hint.at) for hint in line.hints]),
    )


def _at_all(line: _AttemptLine) -> int:
    """The fewest turns with far layers too, under the name of now or of before."""
    count, other = line.at_all, line.shortest
    if count is msgspec.UNSET:
        count, other = other, count
    if count is msgspec.UNSET or other is not msgspec.UNSET:
        raise AttemptError(words.NEITHER_OR_BOTH)
    return count


def _turn(notation: str) -> Turn:
    if notation not in _TURNS:
        raise AttemptError(words.no_turn(notation[:10]))
    return _TURNS[notation]


def _slot(name: str) -> Slot:
    if name not in _SLOTS:
        raise AttemptError(words.no_slot(name[:10], _SLOTS))
    return _SLOTS[name]


# ---------------------------------------------------------------------------------------- cells of the table


def _csv_row(cells: Iterable[str]) -> str:
    out = io.StringIO()
    csv.writer(out).writerow(cells)
    return out.getvalue()


def _cell(value: object) -> str:
    if isinstance(value, Verdict):
        return str(value.value)
    return _UNKNOWN if value is None else str(value)


def _cells(line: _AttemptLine) -> Iterator[str]:
    """The cells of a row; numbers are written so that they are read back to the last digit."""
    plain: dict[str, Any] = msgspec.to_builtins(line)
    for name in COLUMNS:
        value = getattr(line, name)
        if name == "turns":
            rows = ((t.turn, t.at, t.verdict, t.cost, t.step) for t in line.turns)
            yield "; ".join(" ".join(map(_cell, row)) for row in rows)
        elif name == "hints":
            yield "; ".join(f"{hint.rung} {hint.at}" for hint in line.hints)
        elif name == "keep":
            yield " ".join(line.keep)
        elif isinstance(value, bool):
            yield "true" if value else "false"
        else:
            yield "" if value is None else str(plain[name])


def _from_cells(row: Mapping[str | None, Any], columns: tuple[str, ...]) -> dict[str, Any]:
    cells: dict[str, Any] = {name: row[name] for name in columns}
    cells["keep"] = cells["keep"].split()
    for name in {"by_hand", "route", "first_turn"}.intersection(columns):
        cells[name] = cells[name] or None
    cells["turns"] = _named_parts(cells["turns"], _TurnLine.__struct_fields__, "turn")
    cells["hints"] = _named_parts(cells["hints"], _HintLine.__struct_fields__, "hint")
    return cells


def _named_parts(cell: str, names: tuple[str, ...], what: str) -> list[dict[str, str | None]]:
    return [_named(part.split(), names, what) for part in cell.split(";") if part.strip()]


def _named(values: list[str], names: tuple[str, ...], what: str) -> dict[str, str | None]:
    if len(values) != len(names):
        raise AttemptError(words.wrong_parts(" ".join(values)[:40], what, names))
    return {name: None if value == _UNKNOWN else value for name, value in zip(names, values, strict=True)}
