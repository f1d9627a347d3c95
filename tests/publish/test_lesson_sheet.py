"""Lessons on paper and as a page, read back with pypdf and with Python's own parser.

What a demonstration says is compared with what the application shows, the answers with the scripts and with
the cube. One booklet is made for all tests.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Callable, Iterator
from datetime import date
from functools import partial
from pathlib import Path
from typing import Any

import pytest
from msgspec import Struct
from msgspec.structs import replace
from pypdf import PdfReader

from tests.app.cli.pages import PageReader
from tests.publish.conftest import plain_draw
from tests.publish.test_case_sheet import HOW
from tests.session.pilot import Pilot, Reading
from tests.workers.direct import answers_of
from tutor.cube.faces import FACES, Face
from tutor.cube.held_cube import HeldCube
from tutor.cube.notation import parse_moves, parse_turns
from tutor.cube.position import SLOTS, SOLVED, Position
from tutor.cube.stickers import COLOUR_NAMES
from tutor.lesson.assembly import LessonSetting
from tutor.lesson.library import curriculum_names, load_facing_lesson
from tutor.lesson.scenes import Alone, Ask, Extent, Find, Lesson, Quiz, Show
from tutor.method.answer import Answer
from tutor.publish.document import AnswerList, Boxes, Cell, Cells, Chapter, Document, Paragraph, Subheading
from tutor.publish.document_html import document_html
from tutor.publish.document_pdf import Paper, document_pdf
from tutor.publish.lesson_sheet import NumberedLesson, lesson_document
from tutor.publish.printing import printed
from tutor.solver.search import Solver
from tutor.solver.task import Task

ROOT = Path(__file__).parents[2]
NAMES = ("notation", "part-the-two")
OWN = """\
title = "My own lesson"
goal = "You slide one pair in."
[[scene]]
kind = "choose"
case = "corner-right-edge-front-right-up"
slot = "BL"
text = "What is the sum of one and one?"
answers = [{ text = "Two", true = true }, { text = "Three", why = "Count again." }]
because = "One and one are two."
[[scene]]
kind = "show"
text = "Watch the whole way."
turns = "route"
[[scene]]
kind = "recap"
text = "That was all."
points = ["A pair slides in."]
"""


class Booklet(Struct, frozen=True):
    """Lessons, their document, and the text of each of its pages."""

    lessons: dict[str, Lesson]
    document: Document
    pages: list[str]
    page: str


@pytest.fixture(scope="module")
def booklet(
    solver: Solver, answers: Callable[[Position, Task], Answer], tmp_path_factory: pytest.TempPathFactory
) -> Booklet:
    folder = tmp_path_factory.mktemp("booklet")
    (folder / "own.toml").write_text(OWN, encoding="utf-8")
    setting = LessonSetting(answers_of(solver))
    lessons = {name: load_facing_lesson(name, setting, folder) for name in (*NAMES, "own")}
    numbers = {"notation": 1, "part-the-two": 8, "own": 0}
    numbered = tuple(NumberedLesson(numbers[name], lesson) for name, lesson in lessons.items())
    document = lesson_document(numbered, HOW, answers, date(2026, 11, 28), "Ilva")
    draw = partial(printed, draw=plain_draw, grey=False)
    (folder / "booklet.pdf").write_bytes(document_pdf(document, Paper.A4, draw))
    pages = [spaced(page.extract_text()) for page in PdfReader(folder / "booklet.pdf").pages]
    page = document_html(document, lambda _: "data:image/webp;base64,")
    return Booklet(lessons, document, pages, page)


def spaced(text: str) -> str:
    return " ".join(text.split())


def cells_of(document: Document, chapter: int) -> list[Cell]:
    blocks = (block for block in document.chapters[chapter].blocks if isinstance(block, Cells))
    return [cell for block in blocks for cell in block.cells]


def script(name: str) -> dict[str, Any]:
    return tomllib.loads((ROOT / "lessons" / f"{name}.toml").read_text(encoding="utf-8"))


def answers_in(booklet: Booklet, name: str) -> list[tuple[str, ...]]:
    """The answers of a lesson, in their order."""
    title = booklet.lessons[name].title
    blocks = booklet.document.chapters[-1].blocks
    (found,) = [block for block in blocks if isinstance(block, AnswerList) and block.title == title]
    assert [each.number for each in found.answers] == list(range(1, len(found.answers) + 1))
    return [each.texts for each in found.answers]


def test_the_contents_name_the_pages_on_which_lessons_and_answers_begin(booklet: Booklet) -> None:
    contents, *_ = booklet.pages
    signs = {
        "notation": "Lesson 1: ",
        "part-the-two": "Lesson 8: ",
        "cross-up-apart": "Lesson 9: ",
        "own": "",
    }
    for name, lesson in booklet.lessons.items():
        at = re.search(re.escape(f"{signs[name]}{lesson.title}") + r" (\d+)", contents)
        assert at is not None
        assert f"{lesson.title} {lesson.goal}" in booklet.pages[int(at[1]) - 1]
    at = re.search(r"Answers (\d+)", contents)
    assert at is not None
    assert "Answers Try first, then look." in booklet.pages[int(at[1]) - 1]
    count = len(booklet.pages)
    for number, page in enumerate(booklet.pages, start=1):
        assert f"Page {number} of {count}" in page
        assert "Pairwright, 28 November 2026" in page
        assert (f"Answers on page {at[1]}" in page) == (number < int(at[1]))


def test_every_page_explains_turns_and_steps(booklet: Booklet) -> None:
    for page in booklet.pages:
        # Clockwise, the other way, half round: WCA Regulations 12a2 and 12a3.
        assert "A letter turns its layer a quarter clockwise, as you look at that side." in page
        assert "With ' it turns the other way, and with 2 it turns half round." in page
        assert "Raise lifts both pieces to the top. Part sets them apart." in page


def words_of(lesson: Lesson) -> Iterator[str]:
    """All that a learner reads in a lesson before answering, in its order."""
    yield from (lesson.title, lesson.goal)
    for scene in lesson.scenes:
        if isinstance(scene, Quiz):
            yield scene.text
            yield from (each.text for each in scene.answers)
        elif isinstance(scene, Show):
            yield scene.text
            yield from (segment.text for segment in scene.segments if segment.text)


@pytest.mark.parametrize("kind", ["paper", "page"])
def test_all_words_of_a_lesson_are_there_in_their_order(booklet: Booklet, kind: str) -> None:
    read = PageReader(booklet.page)
    assert read.open == []
    text = " ".join(booklet.pages[1:]) if kind == "paper" else spaced(" ".join(read.texts))
    at = 0
    for lesson in booklet.lessons.values():
        # What is side by side is read side by side, so only chapters are sure to come one after the other.
        at = text.index(f"{lesson.title} {lesson.goal}", at)
        for words in words_of(lesson):
            assert text.find(words, at) >= at, words
        points = [point for scene in lesson.scenes for point in getattr(scene, "points", ())]
        assert points
        assert all(text.find(point, at) > at for point in points)
        tells = [scene.text for scene in lesson.scenes if not isinstance(scene, Quiz | Show)]
        assert all(text.find(words, at) > at for words in tells)


@pytest.mark.parametrize("name", ["part-the-two", "own"])
def test_a_demonstration_says_what_the_window_says(booklet: Booklet, solver: Solver, name: str) -> None:
    pilot = Pilot(solver, booklet.lessons)
    lesson = booklet.lessons[name]
    cells = cells_of(booklet.document, list(booklet.lessons).index(name))
    shown = iter([cell for cell in cells if cell.turns])
    for index, scene in enumerate(lesson.scenes):
        if isinstance(scene, Show):
            pilot.press(f"lesson:{index}:0:{name}")
            pilot.settle()
            for _ in scene.segments:
                check_part(pilot, scene, next(shown))
    assert next(shown, None) is None


def check_part(pilot: Pilot, scene: Show, cell: Cell) -> None:
    """Each turn of a part as it comes on the card: the step, the turn, the script's words and the coach's."""
    sign = f"{cell.sign}: " if cell.sign else ""
    details = iter(cell.details)
    for turn in cell.turns:
        pilot.wait(60.0)
        texts = [text for text in Reading(pilot.view).texts if text]
        expected = [*cell.texts, *([next(details)] if len(cell.turns) > 1 else [])]
        assert scene.text in texts
        assert texts[texts.index(f"{sign}{turn}") + 1 :] == expected
        pilot.key("space")
        if len(cell.turns) > 1:
            # The coach says what the turn has changed, too, which waits to be read.
            pilot.wait(60.0)
            pilot.key("space")
    assert next(details, None) is None


def test_the_answers_to_questions_are_those_of_the_script(booklet: Booklet) -> None:
    found = answers_in(booklet, "notation")
    scenes = script("notation")["scene"]
    asking = [
        scene
        for kinds in (("find", "choose"), ("ask", "alone"))
        for scene in scenes
        if scene["kind"] in kinds
    ]
    assert len(found) == len(asking) > 8
    for scene, texts in zip(asking, found, strict=True):
        if scene["kind"] == "choose":
            (true,) = (each for each in scene["answers"] if each.get("true"))
            assert texts[:2] == (true.get("text", true.get("value")), scene["because"])
        if scene["kind"] in ("ask", "alone"):
            assert texts[0] == scene["accept"][0]
            assert scene.get("afterwards", texts[0]) in texts
    assert answers_in(booklet, "own")[0][:2] == ("Two", "One and one are two.")


def test_the_answers_in_turns_solve_what_they_answer(booklet: Booklet) -> None:
    found, checked = iter(answers_in(booklet, "part-the-two")), 0
    fronts = set()
    scenes = booklet.lessons["part-the-two"].scenes
    for scene in sorted(scenes, key=lambda each: isinstance(each, Ask | Alone)):
        if not hasattr(scene, "afterwards") and not isinstance(scene, Quiz):
            continue
        texts = next(found)
        if not isinstance(scene, Ask | Alone) or scene.accept:
            continue
        if isinstance(scene, Alone) or scene.extent is Extent.CASE:
            way = parse_turns(re.sub(r"\w+: ", "", texts[0]).replace(".", ""))
            assert scene.task.done(scene.cube.position.after(way))
            (set_up,) = (text for text in texts if text.startswith("Set-up, "))
            front, turns = set_up.removeprefix("Set-up, ").split(" in front: ")
            fronts.add(front)
            made = solved_with(front).after(parse_turns(turns))
            assert [made.colour_of(face) for face in FACES] == [scene.cube.colour_of(face) for face in FACES]
            there, here = made.position, scene.cube.position
            assert [there.corners[slot.corner] for slot in SLOTS] == [
                here.corners[slot.corner] for slot in SLOTS
            ]
            assert [there.edges[slot.edge] for slot in SLOTS] == [here.edges[slot.edge] for slot in SLOTS]
            # All but the top layer is as in the picture.
            assert there.after(way).cross_home
            assert all(there.after(way).pair_home(slot) for slot in SLOTS)
            shorter = [text for text in texts if text.startswith("A shortest way: ")]
            for text in shorter:
                line = parse_turns(text.removeprefix("A shortest way: "))
                assert len(line) < len(way)
                assert scene.task.done(scene.cube.position.after(line))
            checked += 1
    assert next(found, None) is None
    assert checked >= 5
    assert len(fronts) > 1


def solved_with(front: str) -> HeldCube:
    """A solved cube with the white cross down and this colour in front."""
    held = HeldCube(SOLVED).held_for(Face(COLOUR_NAMES.index("white")))
    turned = (held.after(parse_moves(" ".join(["y"] * count))) for count in range(4))
    return next(cube for cube in turned if COLOUR_NAMES[cube.colour_of(Face.F)] == front)


def test_set_ups_are_explained_where_there_are_any(
    booklet: Booklet, answers: Callable[[Position, Task], Answer]
) -> None:
    own = booklet.lessons["own"]
    question = own.scenes[0]
    assert isinstance(question, Quiz)
    of_no_pair = replace(own, scenes=(replace(question, task=None),))
    plain = lesson_document((NumberedLesson(0, of_no_pair),), HOW, answers, date(2026, 11, 28))
    assert plain.chapters[-1].lead == "Try first, then look. Other ways can be good too."
    assert booklet.document.chapters[-1].lead == (
        "Try first, then look. Other ways can be good too. Where you read “Set-up”, hold a solved cube with "
        "the white cross down and the colour named in front. Then make the turns after it."
    )


def test_each_cube_that_questions_are_about_can_be_set_up_once(
    solver: Solver, answers: Callable[[Position, Task], Answer]
) -> None:
    lesson = load_facing_lesson("slot-and-pair", LessonSetting(answers_of(solver)))
    document = lesson_document((NumberedLesson(3, lesson),), HOW, answers, date(2026, 11, 28))
    (listed,) = (block for block in document.chapters[-1].blocks if isinstance(block, AnswerList))
    questions = [scene for scene in lesson.scenes if isinstance(scene, Quiz | Find)]
    assert len(questions) > len({scene.cube for scene in questions}) > 1
    seen = set()
    for scene, answer in zip(questions, listed.answers, strict=False):
        set_ups = [text for text in answer.texts if text.startswith("Set-up, ")]
        assert len(set_ups) == (scene.cube not in seen)
        seen.add(scene.cube)
        for text in set_ups:
            front, turns = text.removeprefix("Set-up, ").split(" in front: ")
            made = solved_with(front).after(parse_turns(turns))
            assert scene.task is not None
            where = [cube.position.corners[scene.task.slot.corner] for cube in (made, scene.cube)]
            where += [cube.position.edges[scene.task.slot.edge] for cube in (made, scene.cube)]
            assert where[0] == where[1]
            assert where[2] == where[3]


def test_questions_have_room_to_answer(booklet: Booklet) -> None:
    for cell in cells_of(booklet.document, 1):
        numbered = re.match(r"\d+\. ", cell.heading) is not None
        assert numbered == bool(cell.options or cell.lines)
    # Where the text itself says the turns, they are no question, and nothing is left to write.
    headings = {
        cell.texts[0]: cell.heading for cell in cells_of(booklet.document, 0) if not cell.lines and cell.texts
    }
    assert headings["The back layer starts half a turn off. Bring it back with B2."] == (
        "6. Your turn: turn your own cube."
    )
    assert [cell.heading for cell in cells_of(booklet.document, 0) if cell.lines] == [
        "4. Which turn comes next?"
    ]
    boxes = [block for block in booklet.document.chapters[1].blocks if isinstance(block, Boxes)]
    assert [[box.lines for box in block.boxes] for block in boxes] == [[0, 3]]


def test_what_must_be_found_is_not_marked_and_what_is_asked_for_in_turns_is(booklet: Booklet) -> None:
    for cell in cells_of(booklet.document, 1):
        for picture in cell.pictures:
            assert bool(picture.stage.outlined) == (not cell.options)


def test_a_question_about_a_pair_has_its_slot_framed_where_the_slot_answers_nothing(
    solver: Solver, answers: Callable[[Position, Task], Answer]
) -> None:
    def framed(name: str) -> list[frozenset[int]]:
        lesson = load_facing_lesson(name, LessonSetting(answers_of(solver)))
        document = lesson_document((NumberedLesson(1, lesson),), HOW, answers, date(2026, 11, 28))
        return [cell.pictures[0].stage.framed for cell in cells_of(document, 0) if cell.options]

    first, second = framed("made-pair")
    # The second scene of the lesson lights up the slot of which its third asks.
    lesson = load_facing_lesson("made-pair", LessonSetting(answers_of(solver)))
    assert first == lesson.scenes[1].highlight
    assert second
    # "Which pair can you solve in fewer turns?"
    assert not any(framed("split-pieces"))


def test_a_slot_faces_the_learner_as_in_the_window(booklet: Booklet) -> None:
    # In lesson 8 the whole cube is turned so that each slot is at the front right (lessons/curriculum.toml).
    for cell in cells_of(booklet.document, 1):
        assert len(cell.pictures) == 1
    # A lesson of one's own is as written: its slot is at the back left, so it is seen from behind as well.
    own = [cell for cell in cells_of(booklet.document, 2) if cell.pictures]
    assert all(len(cell.pictures) == 2 for cell in own)


def test_the_page_fetches_nothing_and_has_no_small_text(booklet: Booklet) -> None:
    read = PageReader(booklet.page)
    assert read.counts["img"] > 40
    assert all(address.startswith(("data:", "#chapter-")) for address in read.addresses)
    assert "script" not in read.counts
    assert "http" not in booklet.page
    style = booklet.page[: booklet.page.index("</style>")]
    sizes = re.findall(r"font(?:-size)?: ([\d.]+)(rem|px|em|pt)", style)
    # A rem is 16 px in every browser as it comes.
    assert len(sizes) >= 4
    assert all(unit == "rem" and float(size) * 16 >= 14 for size, unit in sizes)


def test_a_page_steps_through_each_demonstration_and_paper_prints_its_parts(
    booklet: Booklet, answers: Callable[[Position, Task], Answer]
) -> None:
    lesson = booklet.lessons["part-the-two"]
    numbered = (NumberedLesson(8, lesson),)
    document = lesson_document(numbered, HOW, answers, date(2026, 11, 28), steps=True)
    blocks = [block for block in document.chapters[0].blocks if isinstance(block, Cells)]
    stepped = [cell.stepping for block in blocks for cell in block.cells if cell.stepping is not None]
    shown = [scene for scene in lesson.scenes if isinstance(scene, Show)]
    assert [each.turns for each in stepped] == [
        tuple(turn.notation for turn in scene.turns) for scene in shown
    ]
    assert sum(block.on_paper for block in blocks) == len(shown) >= 2
    read = PageReader(document_html(document, lambda _: "data:image/webp;base64,"))
    assert read.open == []
    for scene, stepping in zip(shown, stepped, strict=True):
        said = " ".join(caption.text for stop in stepping.stops for caption in stop.said)
        assert all(segment.text in said for segment in scene.segments)


# ------------------------------------------------------------------------------------------ all lessons


@pytest.fixture(scope="module")
def course(answers: Callable[[Position, Task], Answer]) -> Document:
    """All lessons of the course, as one booklet."""
    setting = LessonSetting(answers)
    lessons = [load_facing_lesson(name, setting) for name in curriculum_names()]
    numbered = tuple(NumberedLesson(number, lesson) for number, lesson in enumerate(lessons, start=1))
    return lesson_document(numbered, HOW, answers, date(2026, 11, 28))


def printed_texts(cell: Cell) -> str:
    return " ".join((cell.sign, cell.heading, *cell.texts, *cell.details, *cell.options, cell.label))


def other_texts(chapter: Chapter) -> Iterator[str]:
    """All that a chapter says outside its cells."""
    yield from (chapter.title, chapter.lead)
    for block in chapter.blocks:
        if isinstance(block, Paragraph | Subheading):
            yield block.text
        if isinstance(block, Boxes):
            yield from (text for box in block.boxes for text in (box.title, box.text, *box.points))
        if isinstance(block, AnswerList):
            yield from (text for answer in block.answers for text in answer.texts)


AT_A_SCREEN = re.compile(
    r"\b(click|press|type|drag|scroll|tap|mouse|key(s|board)?|screen|window|button|rail|card|Undo|Shift|F1)\b",
    re.I,
)
"""Words of keyboard and screen, from memory: somebody who was not there cannot follow them on paper."""
MIRRORS = re.compile(r"\b(mirrors|a mirror|mirror shows)\b", re.I)


def test_no_lesson_on_paper_speaks_of_the_screen_or_of_mirrors_that_are_not_there(course: Document) -> None:
    for chapter in course.chapters:
        texts = list(other_texts(chapter))
        for block in chapter.blocks:
            for cell in block.cells if isinstance(block, Cells) else ():
                texts.append(printed_texts(cell))
                if not any(picture.look.mirrors for picture in cell.pictures):
                    assert MIRRORS.search(printed_texts(cell)) is None
        assert not [text for text in texts if AT_A_SCREEN.search(text)]
        assert not [text for text in other_texts(chapter) if MIRRORS.search(text)]


def test_no_part_of_a_demonstration_has_a_row_for_itself(course: Document) -> None:
    blocks = [block for chapter in course.chapters for block in chapter.blocks if isinstance(block, Cells)]
    shown = [block for block in blocks if not block.beside]
    assert len(shown) >= 30
    assert {block.columns for block in shown} == {4, 5}
    assert not [block for block in shown if len(block.cells) % block.columns == 1]


def pages_apart(chapter: Chapter) -> Iterator[list[Cells]]:
    """The cells of a chapter, parted where a page must begin."""
    together: list[Cells] = []
    for block in chapter.blocks:
        if isinstance(block, Subheading) and block.own_page:
            yield together
            together = []
        if isinstance(block, Cells):
            together.append(block)
    yield together


def test_nothing_else_that_a_page_shows_is_of_a_cube_that_it_asks_about(course: Document) -> None:
    questions = 0
    for chapter in course.chapters:
        for blocks in pages_apart(chapter):
            cells = [cell for block in blocks for cell in block.cells]
            asked = {cell.pictures[0].stage.colours for cell in cells if cell.options}
            questions += sum(bool(cell.options) for cell in cells)
            assert not asked & {cell.pictures[0].stage.colours for cell in cells if not cell.options}
            # A task, too, is not where its way has just been shown.
            tasks = {cell.pictures[0].stage.colours for cell in cells if cell.heading and not cell.options}
            assert not tasks & {cell.pictures[0].stage.colours for cell in cells if not cell.heading}
    assert questions >= 40
    assert course.chapters[-1].answers


def test_questions_and_tasks_that_need_it_begin_a_page(booklet: Booklet) -> None:
    # Lesson 8 tells of the cubes that it asks about, and asks for turns of them afterwards.
    for heading in ("Questions 1. Which step comes first for the", "Tasks 3. Your turn: finish this step."):
        assert sum(page.startswith(heading) for page in booklet.pages) == 1
    assert booklet.page.count('<h3 class="own-page">') >= 2


BEHIND = """\
title = "At the back"
goal = "You see where the two go."
[[scene]]
kind = "show"
case = "corner-in-front-edge-in-turned"
slot = "BL"
text = "Watch the whole way (it is long)."
turns = "route"
"""


def test_what_the_coach_says_beside_a_picture_without_mirrors_names_none(
    answers: Callable[[Position, Task], Answer], tmp_path: Path
) -> None:
    (tmp_path / "behind.toml").write_text(BEHIND, encoding="utf-8")
    numbered = (NumberedLesson(0, load_facing_lesson("behind", LessonSetting(answers), tmp_path)),)
    document = lesson_document(numbered, HOW, answers, date(2026, 11, 28), steps=True)
    cells = cells_of(document, 0)
    stops = [stop for cell in cells if cell.stepping is not None for stop in cell.stepping.stops]
    told = [text for cell in cells for text in cell.details]
    stepped = [caption.text for stop in stops for caption in stop.said]
    first = "L brings the white-blue-red corner and the blue-red edge up to the top layer."
    assert first in told
    assert any(first in text for text in stepped)
    assert not [text for text in (*told, *stepped) if "mirror" in text]


def test_the_learner_is_named(booklet: Booklet) -> None:
    assert "Name Ilva Date" in " ".join(booklet.pages)
    assert "Ilva" in PageReader(booklet.page).texts
