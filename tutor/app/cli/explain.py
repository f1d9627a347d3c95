"""``explain``: a sequence of turns taken apart, step by step and turn by turn."""

from __future__ import annotations

import argparse
import json
from functools import partial
from typing import Any

from tutor.app.cli.solver import open_solver
from tutor.app.cli.task_request import RequestError, TaskRequest, read_keep, task_request
from tutor.app.cli.words import explain as words
from tutor.app.cli.words import turns as turns_words
from tutor.app.terminal import tell
from tutor.coach.explanation import MOST_TURNS, Explanation, explained
from tutor.coach.explanation_sentences import brief, more
from tutor.coach.sight import InPlace
from tutor.cube.faces import Turn, inverse
from tutor.cube.held_cube import face_turns
from tutor.cube.merging import merged
from tutor.cube.notation import NotationError, format_moves, parse_moves
from tutor.cube.position import SLOTS, Position, Slot
from tutor.cube.stickers import COLOUR_NAMES
from tutor.method.answer import answer, route_as_dict
from tutor.method.ergonomics import Discomfort
from tutor.session.target import colours_as_held


def add_to(commands: argparse._SubParsersAction[Any], about: str) -> None:
    """Add this command to those of the command line; ``about`` says there what it does."""
    parser = commands.add_parser(
        "explain",
        help=about,
        description=words.DESCRIPTION,
        epilog=words.epilog(MOST_TURNS),
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    parser.add_argument("turns", nargs="?", metavar="TURNS", help=words.TURNS_HELP)
    parser.add_argument("--slot", metavar="SLOT", help=turns_words.SLOT_HELP)
    parser.add_argument("--setup", metavar="MOVES", help=words.SETUP_HELP)
    parser.add_argument("--keep", metavar="SLOTS", help=turns_words.KEEP_HELP)
    parser.add_argument("--json", action="store_true", help=words.JSON_HELP)
    parser.set_defaults(run=run)


def run(chosen: argparse.Namespace) -> int:
    """Explain the sequence and return the exit status. Raises RequestError for wrong arguments."""
    if chosen.turns is None or chosen.slot is None:
        raise RequestError(words.NOTHING_ASKED)
    turns = _sequence(chosen.turns)
    setup = format_moves(inverse(turns)) if chosen.setup is None else chosen.setup
    asked = task_request(setup, chosen.slot, read_keep(chosen.keep))
    _check(asked, given=chosen.setup is not None)
    with open_solver() as solver:
        colours = colours_as_held(asked.cube, COLOUR_NAMES)
        found = explained(asked.position, asked.task, turns, partial(answer, solver), colours)
    if chosen.json:
        tell(json.dumps(explanation_as_dict(found, asked.setup)))
    else:
        _show(found, asked.setup)
    return 0


def _sequence(text: str) -> tuple[Turn, ...]:
    """The turns of the sequence, named as the cube is held before the first one."""
    try:
        turns = merged(face_turns(parse_moves(text))[0])
    except NotationError as fault:
        raise RequestError(words.bad_turns(str(fault))) from fault
    if not turns:
        raise RequestError(words.NO_TURNS)
    if len(turns) > MOST_TURNS:
        raise RequestError(words.too_long(len(turns), MOST_TURNS))
    return turns


def _check(asked: TaskRequest, *, given: bool) -> None:
    """Raises RequestError where there is no pair to solve; ``given``: somebody wrote the setup."""
    slot, position = asked.task.slot, asked.position
    if given and asked.task.done(position):
        raise RequestError(words.solved_before(slot.name))
    if not given and position.pair_home(slot):
        raise RequestError(words.other_slot(slot.name, tuple(each.name for each in _moved(position))))


def _moved(position: Position) -> tuple[Slot, ...]:
    return tuple(slot for slot in SLOTS if not position.pair_home(slot))


def explanation_as_dict(found: Explanation, setup: str) -> dict[str, object]:
    """The explanation in plain values for JSON; the help of the command says what its keys mean."""
    start, way, shortcut = found.start, found.way, found.shortcut
    steps = {step.value: format_moves(turns) for step, turns in way.segments}
    hands = dict(found.hands.reasons)
    return {
        "setup": setup,
        "slot": start.task.slot.name,
        "keep": [slot.name for slot in sorted(start.task.keep)],
        "case": None if start.case is None else start.case.name,
        "turns": format_moves(way.turns),
        "length": len(way.turns),
        "solves": found.solves,
        "by_hand": start.by_hand,
        "route": None if found.route is None else route_as_dict(found.route),
        "steps": steps,
        "each": _each_as_dicts(found),
        "merges": [] if shortcut is None else [[step.value for step in group] for group in shortcut.merged],
        "skips": [] if shortcut is None else [step.value for step in shortcut.skipped],
        "spoils": _pieces_as_dict(found.spoils),
        "between": _pieces_as_dict(found.between),
        "hands": {reason.value: hands.get(reason, 0) for reason in Discomfort},
        "mirror": {"turns": format_moves(found.mirror), "slot": found.mirror_slot.name},
        "wrong": _wrong_as_dict(found),
        "missing": {**_pieces_as_dict(found.missing), "turns": found.left},
        "says": [phrase.text for phrase in (*brief(found), *more(found))],
    }


def _each_as_dicts(found: Explanation) -> list[dict[str, object]]:
    return [
        {
            "turn": each.turn.notation,
            "step": each.step.value,
            "verdict": None if each.verdict is None else each.verdict.value,
            "says": each.said.text,
            "out": _pieces_as_dict(each.out),
        }
        for each in found.each
    ]


def _pieces_as_dict(pieces: InPlace) -> dict[str, object]:
    pairs = [slot.name for slot in sorted(pieces.pairs)]
    return {"pairs": pairs, "cross_edges": [side.name for side in sorted(pieces.edges)]}


def _wrong_as_dict(found: Explanation) -> dict[str, object] | None:
    if found.wrong is None:
        return None
    return {"number": found.wrong + 1, "turn": found.way.turns[found.wrong].notation}


def _show(found: Explanation, setup: str) -> None:
    # Imported here, so that neither the window nor JSON waits for it.
    from tutor.app.cli.explain_table import show_explanation

    show_explanation(found, setup)
