"""Pages in a real browser without a screen: Debian's chromium, driven by selenium, opened once for all.

The pictures are drawn by a stand-in whose colours are read back from the browser's own pixels, and compared
with stickers turned in space by another module that shares nothing with the program.
"""

from __future__ import annotations

import base64
import shutil
from collections.abc import Callable, Iterator
from datetime import date
from functools import cache, partial
from io import BytesIO
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from msgspec import Struct
from PIL import Image
from pypdf import PdfReader
from selenium.webdriver import ActionChains, Chrome, ChromeOptions, Keys
from selenium.webdriver.chrome.service import Service
from selenium.webdriver.remote.webelement import WebElement
from selenium.webdriver.support.wait import WebDriverWait

from tests.coach import sticker_replay
from tests.publish.conftest import COLOURS, INKS, plain_draw
from tutor.app.drawing import draw_stage
from tutor.cube.faces import Face
from tutor.cube.geometry import STICKERS
from tutor.cube.position import Position, Slot
from tutor.lesson.assembly import LessonSetting
from tutor.lesson.library import load_facing_lesson
from tutor.method.answer import Answer
from tutor.method.cases import CASES
from tutor.publish.case_sheet import CaseSheet, case_document
from tutor.publish.document import CubePicture, Document
from tutor.publish.document_html import document_html
from tutor.publish.lesson_sheet import NumberedLesson, lesson_document
from tutor.publish.page import CaseCard, Section, data_address, page
from tutor.publish.printing import Print, printed
from tutor.publish.stills import webp_bytes
from tutor.publish.subject import case_subject
from tutor.solver.task import Task
from tutor.ui.view import Look, Stage

pytestmark = pytest.mark.slow

Answers = Callable[[Position, Task], Answer]
HOW = Print(((242, 197, 61), (255, 255, 255), (176, 42, 44), (240, 148, 63), (47, 154, 92), (27, 63, 134)))
DAY = date(2026, 11, 28)
PHONE, DESKTOP = (390, 844), (1280, 800)
LEAST_TEXT = 14
MOST_BYTES = 6_000_000
PATIENCE = 30.0
CASE = 14


class Browser(Struct, frozen=True):
    """The browser with the pages it can open, and what is read off them."""

    driver: Chrome
    pages: dict[str, Path]

    def open(self, name: str, size: tuple[int, int] = DESKTOP) -> None:
        metrics = {"width": size[0], "height": size[1], "deviceScaleFactor": 1, "mobile": False}
        self.driver.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", metrics)
        self.driver.get(self.pages[name].as_uri())

    def run(self, script: str, *arguments: object) -> Any:
        return self.driver.execute_script(script, *arguments)

    def stepper(self, case: int) -> WebElement:
        return self.driver.find_elements("css selector", ".stepper")[case - 1]

    def at(self, stepper: WebElement) -> int:
        return int(stepper.get_attribute("data-at") or -1)

    def press(self, key: str) -> None:
        ActionChains(self.driver).send_keys(key).perform()

    def comes(self, happened: Callable[[], bool]) -> None:
        WebDriverWait(self.driver, PATIENCE, 0.02).until(lambda _: happened())

    def fields(self, stepper: WebElement) -> tuple[int, ...]:
        """The colours of the 54 fields of the picture that is shown, by the browser's own pixels."""
        read = """
            const image = arguments[0].querySelector("img"), canvas = document.createElement("canvas");
            [canvas.width, canvas.height] = [image.naturalWidth, image.naturalHeight];
            const paper = canvas.getContext("2d");
            paper.drawImage(image, 0, 0);
            const { data } = paper.getImageData(0, 0, canvas.width, canvas.height);
            return [canvas.width, canvas.height, Array.from(data)];"""
        width, height, data = self.run(read, stepper)
        pixels = np.array(data, dtype=np.int64).reshape(height, width, 4)[..., :3]
        middles = pixels[height // 12 :: height // 6, width // 18 :: width // 9][:6, :9].reshape(54, 3)
        apart = np.abs(middles[:, None] - COLOURS.astype(np.int64)[None]).sum(axis=2)
        return tuple(int(colour) for colour in apart.argmin(axis=1))


def small(stage: Stage, look: Look) -> str:
    """A picture by the stand-in, without a loss."""
    written = BytesIO()
    Image.fromarray(plain_draw(stage, look, (90, 60), None)).save(written, "PNG")
    return data_address(written.getvalue(), "image/png")


def html(document: Document) -> str:
    address = cache(small)
    return document_html(document, lambda picture: address(picture.stage, picture.look))


@pytest.fixture(scope="module")
def every_case(answers: Answers) -> Document:
    return case_document(CaseSheet(CASES, Slot.FR, Face.D, "All", steps=True), HOW, answers, DAY)


@pytest.fixture(scope="module")
def browser(
    every_case: Document, answers: Answers, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[Browser]:
    folder = tmp_path_factory.mktemp("pages")
    lesson = NumberedLesson(8, load_facing_lesson("part-the-two", LessonSetting(answers)))
    card = CaseCard(("Case 14", "a name"), small(Stage((0,) * 54), Look()), (("Join", "R U"),), "14.gif")
    texts = {
        "cases": html(every_case),
        "lesson": html(lesson_document((lesson,), HOW, answers, DAY, steps=True)),
        "films": page("Films", "All of them.", (Section("Both on top", (card,) * 3),), INKS),
    }
    pages = {name: folder / f"{name}.html" for name in texts}
    for name, text in texts.items():
        pages[name].write_text(text, encoding="utf-8")
    options = ChromeOptions()
    for flag in ("--headless=new", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage"):
        options.add_argument(flag)
    program = shutil.which("chromedriver")
    assert program is not None, "install chromium and chromium-driver"
    driver = Chrome(options=options, service=Service(program))
    yield Browser(driver, pages)
    driver.quit()


def turned(case: int, turns: list[str]) -> tuple[int, ...]:
    """The colours of a case after turns, by stickers that another module turns in space."""
    colours = case_subject(CASES[case - 1], Slot.FR).cube.colours
    places = {sticker: (sticker, place) for place, sticker in enumerate(map(in_space, STICKERS))}
    cube = {sticker: sticker for sticker in places}
    moved = sticker_replay.after(cube, turns)  # type: ignore[arg-type]
    return tuple(colours[places[moved[in_space(sticker)]][1]] for sticker in STICKERS)  # type: ignore[index]


def in_space(sticker: tuple[Any, Face]) -> tuple[sticker_replay.Vector, sticker_replay.Vector]:
    cubie, face = sticker
    x, y, z = cubie
    return (x, y, z), sticker_replay.NORMALS[face.name]


@pytest.mark.parametrize("case", [CASE, 38])
def test_stepping_shows_the_right_picture_and_sentence_for_each_turn(browser: Browser, case: int) -> None:
    browser.open("cases")
    stepper = browser.stepper(case)
    turns = [each.text for each in stepper.find_elements("css selector", ".turns li")]
    back, _, on = stepper.find_elements("css selector", "button")
    assert (back.text, on.text, back.get_attribute("aria-disabled")) == ("Back", "Next turn", "true")
    for done in range(len(turns) + 1):
        wanted = turned(case, turns[:done])
        browser.comes(partial(lambda wanted: browser.fields(stepper) == wanted, wanted))
        (now,) = stepper.find_elements("css selector", ".said > .now")
        if done < len(turns):
            assert now.find_element("css selector", "b").text.endswith(f": {turns[done]}")
            assert stepper.find_element("css selector", ".turns .now").text == turns[done]
            on.click()
    assert on.get_attribute("aria-disabled") == "true"
    back.click()
    browser.comes(lambda: browser.fields(stepper) == turned(case, turns[:-1]))


def test_the_arrow_keys_go_through_the_case_in_use(browser: Browser) -> None:
    browser.open("cases")
    stepper, other = browser.stepper(CASE), browser.stepper(CASE + 1)
    browser.press(Keys.ARROW_RIGHT)
    # With many cases on the page, none moves before one is in use.
    assert browser.run("return document.querySelectorAll('.stepper[data-at=\"0\"]').length") == 41
    on = stepper.find_elements("css selector", "button")[2]
    browser.run("arguments[0].focus()", on)
    browser.press(Keys.ENTER)
    browser.press(Keys.ARROW_RIGHT)
    browser.press(Keys.ARROW_RIGHT)
    browser.press(Keys.ARROW_LEFT)
    assert (browser.at(stepper), browser.at(other)) == (2, 0)
    # Tab leads on to the speed, whose arrows are its own, and then to the next case.
    browser.press(Keys.TAB)
    browser.press(Keys.ARROW_DOWN)
    assert browser.run("return document.activeElement.value") == "2"
    assert (
        browser.run("return new Set([...document.querySelectorAll('select')].map((e) => e.value)).size") == 1
    )
    browser.press(Keys.TAB)
    browser.press(Keys.TAB)
    browser.press(Keys.ARROW_RIGHT)
    assert (browser.at(stepper), browser.at(other)) == (2, 1)


def test_a_route_plays_to_its_end_and_can_be_paused(browser: Browser) -> None:
    browser.open("cases")
    stepper = browser.stepper(13)
    turns = [each.text for each in stepper.find_elements("css selector", ".turns li")]
    play = stepper.find_elements("css selector", "button")[1]
    play.click()
    assert (play.text, browser.at(stepper)) == ("Pause", 0)
    play.click()
    assert play.text == "Play"
    browser.run(
        "arguments[0].querySelectorAll('.said > div').forEach((e) => (e.dataset.seconds = 0.01))", stepper
    )
    play.click()
    browser.comes(lambda: browser.fields(stepper) == turned(13, turns) and play.text == "Play")
    # From the end it plays again.
    play.click()
    browser.comes(lambda: browser.at(stepper) < len(turns))


@pytest.mark.parametrize("size", [PHONE, DESKTOP])
@pytest.mark.parametrize("name", ["cases", "lesson", "films"])
def test_every_page_is_readable_and_fetches_nothing(
    browser: Browser, name: str, size: tuple[int, int]
) -> None:
    browser.open(name, size)
    smallest = """return Math.min(...[...document.querySelectorAll("body *")]
        .filter((e) => e.checkVisibility())
        .filter((e) => [...e.childNodes].some((n) => n.nodeType === 3 && n.data.trim()))
        .map((e) => parseFloat(getComputedStyle(e).fontSize)))"""
    assert browser.run(smallest) >= LEAST_TEXT
    assert browser.run("return document.documentElement.scrollWidth") <= size[0]
    fetched = browser.run('return performance.getEntriesByType("resource").map((each) => each.name)')
    assert [each for each in fetched if not each.startswith("data:")] == []
    covered = """return [...document.querySelectorAll("img")].filter((image) => image.checkVisibility())
        .filter((image) => { image.scrollIntoView({ block: "center" });
            const { left, top, width, height } = image.getBoundingClientRect();
            return [.1, .5, .9].some((part) => document
                .elementFromPoint(left + part * width, top + part * height) !== image) }).length"""
    assert browser.run(covered) == 0
    assert browser.driver.get_log("browser") == []  # type: ignore[no-untyped-call]


def test_print_has_the_routes_and_no_buttons(browser: Browser) -> None:
    for name, said in {"cases": "Case 41: ", "lesson": "Watch one piece go down"}.items():
        browser.open(name)
        paper = PdfReader(BytesIO(base64.b64decode(browser.driver.print_page())))
        text = " ".join(" ".join(sheet.extract_text() for sheet in paper.pages).split())
        assert said in text
        assert "Insert" in text
        assert "Next turn" not in text
        assert "Speed" not in text


def test_a_page_of_all_cases_is_small(every_case: Document) -> None:
    pictures: dict[tuple[Stage, Look], CubePicture] = {}

    def named(picture: CubePicture) -> str:
        pictures.setdefault((picture.stage, picture.look), picture)
        return f"{len(pictures)}"

    words = len(document_html(every_case, named))
    sample = list(pictures.values())[::12]
    drawn = [len(webp_bytes(printed(each, draw_stage, grey=False))) for each in sample]
    # Base64 writes three bytes as four letters (RFC 4648).
    assert words + len(pictures) * sum(drawn) / len(drawn) * 4 / 3 < 0.95 * MOST_BYTES
