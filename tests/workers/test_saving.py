"""Pictures and clips saved by a process of their own, read back with Pillow."""

from __future__ import annotations

import os
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from signal import SIGKILL

import msgspec
import numpy as np
import pytest
from msgspec.structs import replace
from PIL import Image

from render.offscreen import render_stage
from tests.session.pilot import Pilot, stage_of
from tutor.app.drawing import DRAWING
from tutor.cube.notation import parse_moves
from tutor.publish import film
from tutor.screens.free_play.state import FREE
from tutor.session.saving import clip_wanted
from tutor.session.saving_commands import NotSaved, SaveClip, Saved, SavePicture
from tutor.solver.search import Solver
from tutor.ui.inputs import Modifier
from tutor.workers.saving import CLIP_SIZE, PICTURE_SIZE, SaveFolders, SavingService, passage_of, saved

CASE = "corner-up-edge-left-front-up"
PATIENCE = 60.0
"""Seconds a slow machine may take for any one thing."""


@pytest.fixture
def places(tmp_path: Path) -> SaveFolders:
    return SaveFolders(tmp_path / "pictures", tmp_path / "clips", tmp_path / "tables")


class Patient(SavingService):
    """At the end a busy machine may take longer over a picture than a person has patience to wait."""

    def close(self, patience: float = PATIENCE) -> None:
        super().close(patience)


@pytest.fixture
def saver(places: SaveFolders) -> Iterator[SavingService]:
    found = Patient(places, DRAWING)
    yield found
    found.close()


@pytest.fixture
def pilot(solver: Solver, saver: SavingService) -> Pilot:
    pilot = Pilot(solver, saver=saver)
    pilot.press(f"case:BL:0:{CASE}")
    pilot.settle()
    return pilot


def until(pilot: Pilot, happens: Callable[[], bool]) -> None:
    end = time.monotonic() + PATIENCE
    while not happens():
        assert time.monotonic() < end, pilot.view.notice
        pilot.application.poll()
        time.sleep(0.01)


def ended(pilot: Pilot) -> str:
    """What is told once nothing is being saved any more."""
    until(pilot, lambda: pilot.session.saving.under_way is None)
    return pilot.view.notice


def files(places: SaveFolders) -> list[str]:
    return sorted(path.name for path in (*places.pictures.glob("*"), *places.clips.glob("*")))


def picture_wish(pilot: Pilot) -> SavePicture:
    return SavePicture(1, "a", stage_of(pilot), pilot.view.look)


def clip_wish(pilot: Pilot, turns: str = "R") -> SaveClip:
    moves, cube = parse_moves(turns), FREE.of(pilot.session).cube
    nothing = (None,) * len(moves)
    view = pilot.view
    return SaveClip(1, "a", "Free play", None, cube, None, moves, nothing, view.look, stage_of(pilot).camera)


def test_a_clip_of_a_case_has_its_number_and_short_name_in_the_colours_on_the_cube(pilot: Pilot) -> None:
    _, (wish,) = clip_wanted(pilot.session)
    assert isinstance(wish, SaveClip)
    assert passage_of(wish).subject.title == "Case 3: white up, edge right, back colour on top\nSlot BL"
    swapped = msgspec.structs.replace(wish, look=replace(wish.look, arrangement=(1, 0, 2, 3, 4, 5)))
    assert passage_of(swapped).subject.title.startswith("Case 3: yellow up, ")


def test_a_picture_shows_every_pixel_of_the_stage_on_the_screen(pilot: Pilot, places: SaveFolders) -> None:
    pilot.key("f2")
    pilot.key("f5")
    pilot.key("left", Modifier.SHIFT)
    pilot.press("act:SAVE_PICTURE")
    assert ended(pilot).startswith(f"Saved {CASE}-BL.png in ")
    with Image.open(places.pictures / f"{CASE}-BL.png") as image:
        found = np.asarray(image)
    drawn = render_stage(stage_of(pilot), pilot.view.look, PICTURE_SIZE)[..., :3]
    assert (found == drawn).all()


def test_a_clip_is_told_of_and_saved_beside_those_that_are_there(pilot: Pilot, places: SaveFolders) -> None:
    places.clips.mkdir(parents=True)
    (places.clips / f"{CASE}-BL-route.gif").write_bytes(b"mine")
    told = set()
    pilot.press("act:SAVE_CLIP")

    def ended_with_notes() -> bool:
        told.add(pilot.session.saving.share)
        return pilot.session.saving.under_way is None

    until(pilot, ended_with_notes)
    assert f"{CASE}-BL-route-2.gif" in pilot.view.notice
    assert len(told) > 1
    assert files(places) == [f"{CASE}-BL-route-2.gif", f"{CASE}-BL-route.gif"]
    assert (places.clips / f"{CASE}-BL-route.gif").read_bytes() == b"mine"
    with Image.open(places.clips / f"{CASE}-BL-route-2.gif") as clip:
        assert clip.size == CLIP_SIZE
        assert clip.n_frames > 20  # type: ignore[attr-defined]


def test_a_clip_that_is_stopped_leaves_nothing(pilot: Pilot, places: SaveFolders) -> None:
    pilot.press("act:SAVE_CLIP")
    until(pilot, lambda: pilot.session.saving.share > 0.0)
    assert [name.startswith(".") for name in files(places)] == [True]
    pilot.press("act:STOP_SAVING")
    assert ended(pilot) == "You stopped it, so the clip was not saved."
    assert files(places) == []


def test_when_the_program_closes_a_clip_leaves_nothing(pilot: Pilot, places: SaveFolders) -> None:
    pilot.press("act:SAVE_CLIP")
    until(pilot, lambda: pilot.session.saving.share > 0.0)
    pilot.application.close()
    assert files(places) == []


def test_when_the_program_closes_a_picture_is_finished_first(pilot: Pilot, places: SaveFolders) -> None:
    pilot.press("act:SAVE_PICTURE")
    pilot.application.close()
    assert files(places) == [f"{CASE}-BL.png"]


def test_when_the_process_is_killed_it_is_told_and_nothing_is_left(
    pilot: Pilot, saver: SavingService, places: SaveFolders
) -> None:
    pilot.press("act:SAVE_CLIP")
    until(pilot, lambda: pilot.session.saving.share > 0.0)
    assert saver.process_id is not None
    os.kill(saver.process_id, SIGKILL)
    assert "the process that draws it stopped unexpectedly." in ended(pilot)
    assert files(places) == []
    pilot.press("act:SAVE_PICTURE")
    assert ended(pilot).startswith("Saved ")


def test_when_the_program_is_killed_the_process_ends_and_leaves_nothing(tmp_path: Path) -> None:
    script = tmp_path / "program.py"
    script.write_text(PROGRAM, encoding="utf-8")
    environment = {**os.environ, "PYTHONPATH": str(Path(__file__).parents[2])}
    command = [sys.executable, str(script), str(tmp_path)]
    with subprocess.Popen(command, env=environment, stdout=subprocess.PIPE, text=True) as program:
        assert program.stdout is not None
        number = int(program.stdout.readline())
        program.kill()
    end = time.monotonic() + PATIENCE
    while Path(f"/proc/{number}").exists():
        assert time.monotonic() < end, "the process that saves goes on alone"
        time.sleep(0.05)
    assert list((tmp_path / "clips").iterdir()) == []


PROGRAM = """
import sys, time
from pathlib import Path
from tutor.app.drawing import DRAWING
from tutor.cube.held_cube import HeldCube
from tutor.cube.notation import parse_moves
from tutor.publish import film
from tutor.session.saving_commands import SaveClip
from tutor.ui.view import REST_CAMERA, Look
from tutor.workers.saving import SaveFolders, SavingService

if __name__ == "__main__":
    folder = Path(sys.argv[1])
    saver = SavingService(SaveFolders(folder, folder / "clips", folder / "tables"), DRAWING)
    moves = parse_moves("(R U R' U')6")
    nothing = (None,) * len(moves)
    wish = SaveClip(1, "a", "Long", None, HeldCube(), None, moves, nothing, Look(), REST_CAMERA)
    saver.ask(1, wish)
    while not list(saver.poll()):
        time.sleep(0.02)
    print(saver.process_id, flush=True)
    time.sleep(600)
"""


@pytest.mark.parametrize("kind", [picture_wish, clip_wish])
def test_a_folder_that_cannot_be_written_is_told(kind: Callable[[Pilot], SavePicture], pilot: Pilot) -> None:
    report = saved(kind(pilot), Path("/proc/none"), DRAWING, lambda _: None)
    assert isinstance(report, NotSaved)
    assert report.reason == "No such file or directory (/proc/none)."


def test_a_full_disk_is_told_and_leaves_no_half_file(pilot: Pilot, places: SaveFolders) -> None:
    # Linux has a device that is always full (man 4 full); what is written beside the clip goes there.
    places.clips.mkdir(parents=True)
    wish = clip_wish(pilot)
    (places.clips / f".{wish.name}.{os.getpid()}.part").symlink_to("/dev/full")
    report = saved(wish, places.clips, DRAWING, lambda _: None)
    assert isinstance(report, NotSaved)
    assert report.reason == f"No space left on device ({places.clips})."
    assert files(places) == []


def test_a_clip_longer_than_anybody_watches_is_refused(
    pilot: Pilot, places: SaveFolders, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(film, "LONGEST_TICKS", 50)
    report = saved(clip_wish(pilot), places.clips, DRAWING, lambda _: None)
    assert isinstance(report, NotSaved)
    assert report.reason.endswith("is the most; show fewer turns, or show them faster.")
    assert files(places) == []


def test_wide_turns_and_turns_of_the_whole_cube_are_filmed(pilot: Pilot, places: SaveFolders) -> None:
    told: list[float] = []
    assert isinstance(saved(clip_wish(pilot, "y Rw"), places.clips, DRAWING, told.append), Saved)
    assert told == sorted(told)


def test_with_nothing_under_way_there_is_nothing_to_report_stop_or_close(saver: SavingService) -> None:
    saver.forget((1,))
    assert list(saver.poll()) == []
    saver.close()
