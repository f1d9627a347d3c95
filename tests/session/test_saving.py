"""Saving what is on the screen, through the real application: what is asked for, and what is told."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import pytest
from msgspec.structs import replace

from tests.session.held import held
from tests.session.pilot import Pilot, stage_of
from tutor.coach.feedback import Shown
from tutor.cube.notation import Rotation, format_moves
from tutor.cube.position import Slot
from tutor.lesson.scenes import Lesson as ReadLesson
from tutor.lesson.scenes import Quiz, Show
from tutor.method.cases import parse_case
from tutor.screens.free_play.state import FREE
from tutor.screens.practice.state import RUN
from tutor.session import saving, words
from tutor.session.judging import answer_at
from tutor.session.saving_commands import (
    NotSaved,
    SaveClip,
    Saved,
    SavePicture,
    SavingReport,
    SavingTold,
    SavingWish,
)
from tutor.solver.search import Solver
from tutor.ui.inputs import KeyPressed, Looked, Modifier

CASE = "corner-up-edge-left-front-up"
CONTROL = Modifier.CONTROL
CONTROL_SHIFT = Modifier.CONTROL | Modifier.SHIFT


@dataclass
class Desk:
    """Stands in for the process that saves: keeps what is asked, and reports what the test says."""

    wishes: list[SavingWish] = field(default_factory=list)
    stopped: list[int] = field(default_factory=list)
    reports: list[SavingReport] = field(default_factory=list)
    closed: bool = False

    def ask(self, request: int, wish: SavingWish) -> None:
        self.wishes.append(wish)

    def forget(self, requests: Sequence[int]) -> None:
        self.stopped += requests

    def poll(self) -> tuple[SavingReport, ...]:
        found, self.reports = tuple(self.reports), []
        return found

    def close(self) -> None:
        self.closed = True

    @property
    def picture(self) -> SavePicture:
        wish = self.wishes[-1]
        assert isinstance(wish, SavePicture)
        return wish

    @property
    def clip(self) -> SaveClip:
        wish = self.wishes[-1]
        assert isinstance(wish, SaveClip)
        return wish


@pytest.fixture
def desk() -> Desk:
    return Desk()


@pytest.fixture
def saver(solver: Solver, made_pair: ReadLesson, desk: Desk) -> Pilot:
    return Pilot(solver, {made_pair.name: made_pair}, saver=desk)


def report(pilot: Pilot, desk: Desk, *reports: SavingReport) -> None:
    desk.reports += reports
    pilot.settle()


def labels(pilot: Pilot) -> list[str]:
    return [button.label for button in (*pilot.view.bar, *pilot.view.more)]


# -------------------------------------------------------------------------------------------- pictures


def test_a_picture_is_the_stage_as_it_is_on_the_screen(saver: Pilot, desk: Desk) -> None:
    saver.free_play("R U R'")
    saver.give(Looked(40.0, -10.0))
    saver.key("f2")
    saver.key("f4")
    for _ in range(3):
        saver.key("h")
    saver.key("s", CONTROL)
    assert desk.picture.stage == stage_of(saver)
    assert desk.picture.stage.arrow is not None
    assert desk.picture.stage.outlined
    assert desk.picture.stage.camera == saver.session.camera
    assert desk.picture.look == saver.view.look
    assert (desk.picture.look.theme, desk.picture.look.palette) == ("dark", "high-contrast")


def test_a_picture_in_the_middle_of_a_turn_shows_the_turn(saver: Pilot, desk: Desk) -> None:
    saver.free_play()
    saver.key("r")
    saver.now += 0.1
    saver.key("s", CONTROL)
    assert desk.picture.stage.turning is not None
    assert desk.picture.stage == stage_of(saver)


@pytest.mark.parametrize(
    ("opened", "name"),
    [
        (f"case:BL:1:{CASE}", f"{CASE}-BL"),
        (f"try:FL:0:WITH_HINTS:{CASE}", f"{CASE}-FL"),
        ("lesson:0:0:made-pair", "made-pair-1"),
    ],
)
def test_the_name_says_what_it_is(opened: str, name: str, saver: Pilot, desk: Desk) -> None:
    saver.press(opened)
    saver.settle()
    saver.press("act:SAVE_PICTURE")
    assert desk.picture.name == name


def test_in_free_play_the_name_tells_the_slot(saver: Pilot, desk: Desk) -> None:
    saver.free_play("R U R'")
    saver.press("act:SAVE_PICTURE")
    assert desk.picture.name == "free-play-FR"
    report(saver, desk, Saved(1, "a.png", "~"))
    saver.turn("L D")
    saver.press("free:RESET")
    saver.turn("R2 L2 F2")
    saver.press("act:SAVE_PICTURE")
    assert desk.picture.name.startswith("free-play")


def test_without_a_cube_nothing_is_saved_and_no_button_says_so(saver: Pilot, desk: Desk) -> None:
    for act in ("act:SAVE_PICTURE", "act:SAVE_CLIP"):
        saver.press(act)
    saver.give(KeyPressed("s", CONTROL))
    assert desk.wishes == []
    assert "Save picture" not in labels(saver)
    saver.press("open:FREE_PLAY")
    assert {"Save picture", "Save clip"} <= set(labels(saver))


# ----------------------------------------------------------------------------------------------- clips


def test_a_clip_shows_what_is_being_shown(saver: Pilot, desk: Desk) -> None:
    saver.press(f"case:BL:2:{CASE}")
    saver.settle()
    saver.key("a")
    saver.key("up")
    shown = saver.session.demonstration
    assert shown is not None
    saver.key("s", CONTROL_SHIFT)
    clip = desk.clip
    assert (clip.start, clip.turns, clip.steps) == (shown.start, shown.turns, shown.steps)
    assert (clip.speed, clip.twice) == (1.5, True)
    assert clip.case == (parse_case(CASE), Slot.BL, 2)
    assert clip.name == f"{CASE}-BL-route"
    bearing = clip.aim.bearing(clip.start.after(clip.turns)) if clip.aim else None
    assert bearing is not None
    assert bearing.task.done(bearing.position)


def test_else_a_clip_shows_the_learners_own_turns_from_where_the_attempt_began(
    saver: Pilot, desk: Desk
) -> None:
    saver.press(f"try:FR:0:WITH_HINTS:{CASE}")
    saver.settle()
    begin = held(RUN.of(saver.session)).attempt.cube if held(RUN.of(saver.session)) else None
    saver.turn("y L U' D")
    saver.key("backspace")
    saver.press("act:SAVE_CLIP")
    assert desk.clip.start == begin
    assert format_moves(desk.clip.turns) == "y L U'"
    assert isinstance(desk.clip.turns[0], Rotation)
    assert desk.clip.name == f"{CASE}-FR-own-turns"


def test_in_free_play_own_turns_begin_where_the_case_was_set_up(saver: Pilot, desk: Desk) -> None:
    saver.free_play("R U R'")
    saver.turn("U F")
    saver.press("act:SAVE_CLIP")
    assert format_moves(desk.clip.turns) == "U F"
    assert format_moves(entry.move for entry in FREE.of(saver.session).history.made) == "R U R' U F"


def test_else_a_clip_shows_the_route_for_the_case(saver: Pilot, desk: Desk) -> None:
    saver.free_play("R U R'")
    saver.press("act:SAVE_CLIP")
    clip = desk.clip
    assert clip.name == "free-play-FR-route"
    assert None not in clip.steps
    assert clip.start == FREE.of(saver.session).cube
    assert clip.start.after(clip.turns).position.home_pairs == frozenset(Slot)


def test_where_no_route_leads_on_a_clip_shows_a_line(
    saver: Pilot, desk: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    saver.free_play("R U R'")
    known = answer_at(saver.session, FREE.of(saver.session))
    assert known is not None
    monkeypatch.setattr(
        saving, "answer_at", lambda *_: replace(known, route_set=replace(known.route_set, routes=()))
    )
    saver.press("act:SAVE_CLIP")
    assert desk.clip.name == "free-play-FR-line"
    assert desk.clip.turns == known.lines[0]
    monkeypatch.setattr(saving, "answer_at", lambda *_: None)
    report(saver, desk, Saved(1, "a.gif", "~"))
    saver.press("act:SAVE_CLIP")
    assert saver.view.notice == words.ONE_MOMENT


def test_a_lesson_scene_that_plays_is_filmed_once_slowly_as_it_plays(saver: Pilot, desk: Desk) -> None:
    scene = saver.scene(Show)
    assert isinstance(scene, Show)
    saver.press("act:SAVE_CLIP")
    shown = saver.session.demonstration
    assert shown is not None
    assert desk.clip.turns == scene.turns
    assert desk.clip.twice == shown.twice
    assert desk.clip.title == saver.lessons["made-pair"].title


def test_words_of_the_room_for_some_turns_alone_leave_all_to_the_coach(
    saver: Pilot, desk: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    scene, said = saver.scene(Show), Shown("Look.", "")
    assert isinstance(scene, Show)
    room = type(saver.session.room)
    for number, first in enumerate((None, said), start=1):
        monkeypatch.setattr(room, "said", lambda *about, own=first: said if about[2] else own)
        saver.press("act:SAVE_CLIP")
        assert desk.clip.said == (() if first is None else (said,) * len(scene.turns))
        report(saver, desk, Saved(number, "a.gif", "~"))


def test_a_clip_gives_nothing_away_that_is_still_asked(saver: Pilot, desk: Desk) -> None:
    saver.press(f"try:FR:0:ALONE:{CASE}")
    saver.settle()
    saver.press("act:SAVE_CLIP")
    assert desk.wishes == []
    assert saver.view.notice == words.STILL_TO_FIND
    saver.press("act:REVEAL")
    saver.press("act:SAVE_CLIP")
    assert desk.clip.name.endswith("-route")
    report(saver, desk, NotSaved(1, ""))
    saver.scene(Quiz)
    saver.press("act:SAVE_CLIP")
    assert len(desk.wishes) == 1
    assert saver.view.notice == words.STILL_TO_FIND


def test_without_turns_it_is_said_what_would_help(saver: Pilot, desk: Desk) -> None:
    saver.press("open:FREE_PLAY")
    saver.settle()
    saver.press("act:SAVE_CLIP")
    assert desk.wishes == []
    assert saver.view.notice == words.NOTHING_TO_SHOW


# ------------------------------------------------------------------------------------- how it goes on


def test_how_far_it_is_stands_at_the_foot_until_the_file_is_told(saver: Pilot, desk: Desk) -> None:
    saver.free_play("R U R'")
    saver.press("act:SAVE_CLIP")
    assert saver.view.notice == "Saving the clip … 0% (Ctrl+. stops it)"
    report(saver, desk, SavingTold(1, 0.4))
    assert saver.view.notice.startswith("Saving the clip … 40%")
    saver.press("open:HOME")
    assert saver.view.screen == "home"
    assert saver.view.notice.startswith("Saving the clip … 40%")
    report(saver, desk, Saved(1, "free-play-FR-route.gif", "~/Videos/Pairwright"))
    assert saver.view.notice == "Saved free-play-FR-route.gif in ~/Videos/Pairwright"
    assert "Stop saving" not in labels(saver)


def test_one_thing_is_saved_at_a_time(saver: Pilot, desk: Desk) -> None:
    saver.free_play("R U R'")
    saver.press("act:SAVE_CLIP")
    for act in ("act:SAVE_CLIP", "act:SAVE_PICTURE"):
        saver.press(act)
        assert len(desk.wishes) == 1
        assert words.ONE_AT_A_TIME in saver.view.notice
    report(saver, desk, Saved(1, "a.gif", "~"))
    saver.press("act:SAVE_PICTURE")
    assert desk.picture.request == 2


def test_saving_can_be_stopped_by_button_and_key(saver: Pilot, desk: Desk) -> None:
    saver.free_play("R U R'")
    saver.press("act:SAVE_CLIP")
    assert "Stop saving" in labels(saver)
    assert "Save clip" not in labels(saver)
    saver.key("period", CONTROL)
    assert desk.stopped == [1]
    report(saver, desk, NotSaved(1, ""))
    assert saver.view.notice == "You stopped it, so the clip was not saved."
    saver.press("act:STOP_SAVING")
    assert desk.stopped == [1]


def test_what_went_wrong_is_said(saver: Pilot, desk: Desk) -> None:
    saver.free_play("R U R'")
    saver.press("act:SAVE_PICTURE")
    report(saver, desk, NotSaved(1, "No space left on device (~/Pictures/Pairwright)."))
    said = "The program could not save the picture: No space left on device (~/Pictures/Pairwright)."
    assert saver.view.notice == said
    assert "Save picture" in labels(saver)


def test_reports_of_what_is_not_under_way_are_dropped(saver: Pilot, desk: Desk) -> None:
    saver.free_play("R U R'")
    saver.press("act:SAVE_CLIP")
    report(saver, desk, Saved(1, "a.gif", "~"))
    saver.press("act:SAVE_CLIP")
    report(saver, desk, SavingTold(1, 0.9), Saved(1, "b.gif", "~"))
    assert saver.session.saving.under_way is not None
    assert saver.session.saving.share == 0.0


def test_with_other_keys_the_foot_tells_those(saver: Pilot, desk: Desk) -> None:
    saver.free_play("R U R'")
    settings = saver.session.settings
    saver.application.session = replace(
        saver.session, settings=replace(settings, keys=(("stop saving", "f12"),))
    )
    saver.press("act:SAVE_PICTURE")
    assert saver.view.notice == "Saving the picture … (F12 stops it)"


def test_closing_closes_what_saves(saver: Pilot, desk: Desk) -> None:
    saver.application.close()
    assert desk.closed
