"""Looking back on the turns of a case."""

from __future__ import annotations

import pytest

from tests.session.pilot import Pilot
from tutor.cube.notation import format_moves
from tutor.lesson.scenes import Alone
from tutor.screens.lesson.state import LESSON
from tutor.session.looking_back import attempt_review


@pytest.mark.parametrize("after", ["", "U", "D", "D R U", "D D'"])
def test_turns_made_after_the_pair_was_home_belong_to_no_case(pupil: Pilot, after: str) -> None:
    pupil.scene(Alone)
    played = LESSON.of(pupil.session)
    assert played is not None
    known = pupil.session.answers.at(played.attempt.bearing())
    assert known is not None
    pupil.turn(f"{format_moves(known.lines[0])} {after}")
    played = LESSON.of(pupil.session)
    assert played is not None
    found = attempt_review(pupil.session, played.attempt)
    assert found is not None
    assert found.made == known.lines[0]
    assert (found.extra, found.left, found.split) == (0, 0, None)
    assert not pupil.session.failure
