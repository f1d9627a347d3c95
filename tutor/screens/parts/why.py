"""Why a turn is a Detour: the cube with it beside the cube without it, and what has to come back."""

from __future__ import annotations

from tutor.cube.geometry import CORNER_CUBIES, EDGE_CUBIES
from tutor.cube.held_cube import HeldCube
from tutor.screens.parts import words
from tutor.screens.parts.card import verdict_note
from tutor.screens.parts.stage import with_damage
from tutor.session.demonstration import ShownDetour
from tutor.session.house import Session
from tutor.session.target import Bearing
from tutor.ui.view import Block, Miniature, MiniatureGrid, Stage, Text


def why_blocks(session: Session) -> tuple[Block, ...]:
    """What goes with a Detour that is being explained, its verdict first; nothing where none is."""
    shown = None if session.demonstration is None else session.demonstration.detour
    attempt = session.attempt
    if shown is None or attempt is None or attempt.aim is None:
        return ()
    turn = shown.turn.notation
    pictures = (
        Miniature(None, words.as_it_is(turn), _picture(shown, shown.after, attempt.aim.bearing(shown.after))),
        Miniature(
            None, words.as_it_was(turn), _picture(shown, shown.before, attempt.aim.bearing(shown.before))
        ),
    )
    note = verdict_note(session, attempt)
    return (*(() if note is None else (note,)), Text(shown.told), MiniatureGrid(pictures))


def _picture(shown: ShownDetour, cube: HeldCube, bearing: Bearing) -> Stage:
    """A small picture with colour on the centres and on the pieces that were put out of order."""
    bare = Stage(cube.colours, dimmed=frozenset(CORNER_CUBIES + EDGE_CUBIES))
    return with_damage(bare, bearing, shown)
