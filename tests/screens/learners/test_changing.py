"""Learners found by typing, renamed, joined, removed; what is theirs follows them."""

from __future__ import annotations

from pathlib import Path
from unicodedata import normalize

import pytest
from msgspec.structs import replace

from tests.screens.learners.learner_views import CLUB, club, press
from tests.screens.practice.sitting import begin, finish, practised_before, run_of, sits_down
from tests.session.pilot import Pilot, Reading
from tutor.app.compose import on_shelf
from tutor.app.files.painting import load_painting, save_painting
from tutor.progress.attempt import GUEST
from tutor.progress.belongings import Belongings
from tutor.progress.store import AttemptStore
from tutor.screens.painting.state import PAINTING
from tutor.session.commands import Act
from tutor.session.house import Session
from tutor.session.places import places_of, with_place
from tutor.session.record_commands import ChooseLearner
from tutor.session.state import LessonPlace
from tutor.solver.search import Solver
from tutor.ui.view import Button, Entry


@pytest.fixture
def pilot(solver: Solver, tmp_path: Path) -> Pilot:
    """A club of twelve at Home, with files for what each paints and solves."""
    pilot, own = club(solver, tmp_path), Belongings(tmp_path)
    pilot.rewire(
        save_painting=lambda learner, text: save_painting(own.of(learner), text),
        load_painting=lambda learner: load_painting(own.of(learner)),
        shelf=lambda effect: on_shelf(own, effect),
    )
    return pilot


def field(pilot: Pilot) -> Entry:
    return next(block for block in Reading(pilot.view).blocks if isinstance(block, Entry))


def named(pilot: Pilot) -> list[str]:
    """The learners that the screen names, to choose from."""
    return [each.label for each in Reading(pilot.view).buttons if isinstance(each.action, ChooseLearner)]


def take_in_hand(pilot: Pilot, name: str) -> None:
    pilot.press("open:LEARNERS")
    press(pilot, "Change", pilot.session.records.learners.index(name))


def rename(pilot: Pilot, name: str, new: str) -> None:
    take_in_hand(pilot, name)
    pilot.write(new)
    pilot.key("enter")
    pilot.settle()


def remove(pilot: Pilot, name: str) -> None:
    take_in_hand(pilot, name)
    for label in ("Remove this learner", "Yes, remove", "Write a backup and remove"):
        press(pilot, label)


def learn(pilot: Pilot, name: str) -> None:
    pilot.press("open:LEARNERS")
    press(pilot, name)


def paint(pilot: Pilot, keys: str) -> None:
    pilot.press("open:PAINTING")
    pilot.give_keys(*keys)


def painted(pilot: Pilot) -> bool:
    pilot.press("open:PAINTING")
    pilot.settle()
    painting = PAINTING.of(pilot.session)
    return painting is not None and painting.painted > 0


def test_with_more_than_eight_learners_home_finds_one_by_part_of_a_name(pilot: Pilot) -> None:
    assert named(pilot) == [GUEST, "Bao", "Ilva", "Imre", "Ivo", "Maximiliana Rosalinde", "Nyla", "Oskar"]
    pilot.press(field(pilot).action)
    pilot.write("v")
    assert named(pilot) == ["Ilva", "Ivo", "Ravi", "Tova"]
    pilot.write("i")
    assert named(pilot) == ["Ravi"]
    pilot.key("enter")
    pilot.settle()
    assert (pilot.view.screen, pilot.session.records.learner) == ("home", "Ravi")
    assert pilot.session.writing.text == ""
    pilot.press(field(pilot).action)
    pilot.write(normalize("NFD", "ZOË"))
    assert named(pilot) == ["Zoë"]
    pilot.write("x")
    pilot.key("enter")
    assert field(pilot).error == "No learner has this in their name."
    assert pilot.session.records.learner == "Ravi"


def test_up_to_eight_learners_are_all_there_without_a_field(solver: Solver, tmp_path: Path) -> None:
    with AttemptStore.open(tmp_path) as store:
        for name in CLUB[:7]:
            store.add_learner(name)
    pilot = sits_down(solver, tmp_path)
    assert named(pilot) == [GUEST, *sorted(CLUB[:7])]
    assert not any(isinstance(block, Entry) for block in Reading(pilot.view).blocks)
    pilot.press(Act.WRITE)
    assert not pilot.session.writing.open


def test_a_renamed_learner_goes_on_with_all_that_is_theirs(pilot: Pilot, tmp_path: Path) -> None:
    learn(pilot, "Ilva")
    pilot.application.session = with_lesson(pilot, "notation")
    paint(pilot, "wr")
    assert painted(pilot)
    begin(pilot, "practise:SLIPPING:")
    case = run_of(pilot).case
    rename(pilot, "Ilva", "Ylva")
    assert pilot.session.notice == "Ilva is now called Ylva."
    assert pilot.session.records.learner == pilot.session.settings.learner == "Ylva"
    assert run_of(pilot).case is case
    assert [place.lesson for place in places_of(pilot.session)] == ["notation"]
    assert painted(pilot)
    assert (Belongings(tmp_path).of("ylva") / "painting.txt").exists()
    assert not Belongings(tmp_path).of("Ilva").exists()
    pilot.press("open:PRACTICE")
    finish(pilot)
    with AttemptStore.open(tmp_path) as store:
        assert "Ilva" not in store.learners()
        assert len(store.attempts("Ylva")) == 9


def with_lesson(pilot: Pilot, name: str) -> Session:
    """The session of a learner who has been in a lesson."""
    return replace(pilot.session, places=with_place(pilot.session, LessonPlace(name, 2, (1,))))


def test_another_learners_name_is_refused_at_the_field(pilot: Pilot) -> None:
    rename(pilot, "Ilva", "RAVI")
    told = "Nothing has changed for Ilva: there is already a learner called Ravi; "
    assert field(pilot).error == f"{told}join the two if they are one person."
    pilot.key("a")
    rename(pilot, "Ilva", "=1")
    assert field(pilot).error.startswith("“=1” cannot be a learner's name.")
    assert set(pilot.session.records.learners) == {GUEST, *CLUB}


def test_two_who_are_one_person_are_joined_after_a_question(pilot: Pilot, tmp_path: Path) -> None:
    learn(pilot, "Ilva")
    paint(pilot, "wr")
    take_in_hand(pilot, "Ilva")
    press(pilot, "Join with another learner")
    press(pilot, "Ravi", -1)
    press(pilot, "Keep them apart")
    assert "Ilva" in pilot.session.records.learners
    press(pilot, "Join with another learner")
    press(pilot, "Ravi", -1)
    press(pilot, "Join them")
    assert pilot.session.notice.startswith(
        "Ilva and Ravi are one learner now, called Ravi. The backup is before-join-"
    )
    assert (pilot.session.records.learner, len(pilot.session.records.learners)) == ("Ravi", 11)
    assert painted(pilot)
    with AttemptStore.open(tmp_path) as store:
        assert len(store.attempts("Ravi")) == 8


def test_a_removed_learner_is_asked_for_twice_and_can_be_brought_back(pilot: Pilot, tmp_path: Path) -> None:
    learn(pilot, "Ilva")
    pilot.application.session = with_lesson(pilot, "notation")
    paint(pilot, "wr")
    take_in_hand(pilot, "Ilva")
    press(pilot, "Remove this learner")
    pilot.key("enter")
    assert "Ilva" in pilot.session.records.learners
    remove(pilot, "Ilva")
    assert pilot.session.notice.startswith("Ilva is removed. The backup is before-removal-")
    assert pilot.session.records.learner == GUEST
    assert "Ilva" not in pilot.session.records.learners
    assert not Belongings(tmp_path).of("Ilva").exists()
    assert not painted(pilot)
    pilot.press("open:LEARNERS")
    press(pilot, "Bring Ilva back")
    assert pilot.session.notice == "Ilva is back."
    learn(pilot, "Ilva")
    assert [place.lesson for place in places_of(pilot.session)] == ["notation"]
    assert painted(pilot)
    with AttemptStore.open(tmp_path) as store:
        assert len(store.attempts("Ilva")) == 8


def test_everybody_has_a_painting_of_their_own(pilot: Pilot) -> None:
    paint(pilot, "wr")
    learn(pilot, "Tova")
    assert not painted(pilot)
    paint(pilot, "ww")
    learn(pilot, GUEST)
    assert painted(pilot)


def test_who_is_named_otherwise_in_the_settings_is_the_learner_of_the_store(
    solver: Solver, tmp_path: Path
) -> None:
    practised_before(tmp_path, learner="Ilva")
    pilot = sits_down(solver, tmp_path)
    pilot.press("open:LEARNERS")
    pilot.write("iLVA")
    pilot.key("enter")
    pilot.settle()
    assert pilot.session.records.learner == "Ilva"
    assert pilot.session.notice == "Ilva was here before. Now Ilva is learning."


def test_esc_leads_back_page_by_page(pilot: Pilot) -> None:
    take_in_hand(pilot, "Tova")
    press(pilot, "Remove this learner")
    assert [each.label for each in Reading(pilot.view).buttons if isinstance(each, Button)][
        -1
    ] == "Yes, remove"
    pilot.key("escape")
    assert field(pilot).text == "Tova"
    for _ in range(3):
        pilot.key("escape")
    assert field(pilot).label == "Name, then Enter"
