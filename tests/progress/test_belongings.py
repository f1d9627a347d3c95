"""What a learner has beside the attempts follows every change, also one that was broken off."""

from pathlib import Path

import msgspec
import pytest

from tutor.app.compose import take_over
from tutor.app.files.places import PlacesFile, load_places
from tutor.progress.attempt import GUEST
from tutor.progress.belongings import Belongings, FolderMove, move_into
from tutor.session.places import of_learner, renamed, with_places
from tutor.session.state import FINISHED, LessonPlace


def files(folder: Path) -> dict[str, str]:
    return {str(path.relative_to(folder)): path.read_text() for path in folder.rglob("*") if path.is_file()}


def write(path: Path, text: str) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text)


def test_the_folder_is_one_for_all_ways_to_write_a_name_and_safe_for_any(tmp_path: Path) -> None:
    own = Belongings(tmp_path)
    assert own.of("Ilva") == own.of("ILVA ")
    names = ("Ilva", "Ilva/..", "..", "con", "Сюзанна", "x" * 40, "a:b", GUEST)
    folders = [own.of(name) for name in names]
    assert len(set(folders)) == len(names)
    assert all(folder.parent == tmp_path / "learners" and len(folder.name) < 40 for folder in folders)


def test_moving_into_a_folder_writes_over_nothing(tmp_path: Path) -> None:
    one, other = tmp_path / "one", tmp_path / "other"
    for folder, text in ((one, "first"), (other, "second")):
        write(folder / "painting.txt", text)
        write(folder / "solves" / "2026-03-03-183000.txt", text)
    write(other / "solves" / "2026-03-03-183000-2.txt", "third")
    move_into(one, other)
    assert not one.exists()
    assert files(other) == {
        "painting.txt": "second",
        "painting-2.txt": "first",
        "solves/2026-03-03-183000.txt": "second",
        "solves/2026-03-03-183000-2.txt": "third",
        "solves/2026-03-03-183000-3.txt": "first",
    }


def test_when_the_change_fails_the_folder_stays(tmp_path: Path) -> None:
    own = Belongings(tmp_path)
    write(own.of("Ilva") / "painting.txt", "mine")
    with pytest.raises(RuntimeError), own.following(FolderMove("Ilva", str(own.of("Tova")))):
        raise RuntimeError
    assert files(tmp_path) == {f"learners/{own.of('Ilva').name}/painting.txt": "mine"}


@pytest.mark.parametrize(("there", "whose"), [(True, "Ilva"), (False, "Tova")])
def test_a_change_broken_off_is_finished_only_if_the_attempts_have_changed(
    tmp_path: Path, there: bool, whose: str
) -> None:
    own = Belongings(tmp_path)
    write(own.of("Ilva") / "painting.txt", "mine")
    note = tmp_path / "learners" / "change-0.json"
    note.write_bytes(msgspec.json.encode(FolderMove("Ilva", str(own.of("Tova")))))
    write(tmp_path / "learners" / "change-1.json", "no note")
    own.settle(lambda name: there and name == "Ilva")
    assert files(own.of(whose)) == {"painting.txt": "mine"}
    assert not note.exists()


def test_what_was_everybodys_before_is_given_to_the_learner_chosen(tmp_path: Path) -> None:
    own = Belongings(tmp_path).of("Ilva")
    write(tmp_path / "solves" / "2026-03-03-183000.txt", "a solve")
    write(tmp_path / "painting.txt", "a cube")
    for _ in range(2):
        take_over(own, tmp_path / "solves", tmp_path / "painting.txt")
        assert files(own) == {"painting.txt": "a cube", "solves/2026-03-03-183000.txt": "a solve"}
    assert [path.name for path in tmp_path.iterdir()] == ["learners"]


def test_places_follow_a_new_name_and_a_join_keeps_what_either_did(tmp_path: Path) -> None:
    places = (
        LessonPlace("notation", 1),
        LessonPlace("Ilva/notation", 2, (1,)),
        LessonPlace("ILVA/parts", FINISHED),
    )
    assert [place.lesson for place in of_learner(places, "ilva")] == ["notation", "parts"]
    moved = renamed(places, "Ilva", "Tova/Imre")
    assert of_learner(moved, "Ilva") == ()
    assert of_learner(moved, "tova/imre") == (
        LessonPlace("notation", 2, (1,)),
        LessonPlace("parts", FINISHED, (), True),
    )
    joined = renamed((*places, LessonPlace("Tova/notation", 4, (3,))), "Ilva", "tova")
    assert of_learner(joined, "Tova")[0] == LessonPlace("notation", 4, (1, 3))
    assert of_learner(joined, GUEST) == (LessonPlace("notation", 1),)
    gone = renamed(places, "ilva", "")
    assert gone == places[:1]
    assert of_learner(with_places(gone, "Ilva", of_learner(places, "Ilva")), "Ilva") == of_learner(
        places, "Ilva"
    )
    file = PlacesFile(tmp_path)
    file.save(places)
    file.save(moved)
    assert of_learner(load_places(tmp_path), "Ilva") == ()
    assert len(load_places(tmp_path)) == 3
