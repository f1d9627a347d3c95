import pytest

from tests.render.named import Named
from tests.session.names import action_name, command_of
from tutor.coach.guidance import Help
from tutor.cube.faces import Turn
from tutor.cube.position import Slot
from tutor.method.cases import Family
from tutor.progress.attempt import Mode
from tutor.screens.case_book.commands import OpenCase
from tutor.screens.lesson.commands import Carried, StartLesson
from tutor.screens.painting.commands import Paint, PaintSticker, TakeColour
from tutor.screens.practice.commands import NameTurn, PracticeAct, Practise, SetGoal, TryCase
from tutor.screens.table import SCREENS
from tutor.session.commands import Act, Choose, ChooseAnswer, ChooseSlot, Command, JumpTo, Open, Scrub, Zoom
from tutor.session.record_commands import ChooseLearner
from tutor.ui.focus import pressable
from tutor.ui.view import Button, ButtonRow, Text, View


@pytest.mark.parametrize(
    "command",
    [
        *Act,
        *(Open(room.name) for room in SCREENS),
        *Paint,
        PaintSticker(53),
        TakeColour(-1),
        TakeColour(5),
        *(ChooseSlot(slot) for slot in Slot),
        StartLesson("a-made-pair", 3),
        StartLesson("with:colon", 0),
        StartLesson("carried", 2, Carried(3, mirrored=True)),
        OpenCase("some-case", Slot.BL, 3),
        TryCase("some-case", Slot.BR, 1, Help.LAST_STEP),
        TryCase("some-case"),
        ChooseAnswer(2),
        Practise(Mode.TODAY),
        Practise(Mode.FAMILY, Family.BOTH_IN_SLOT),
        SetGoal("attempts", 10),
        NameTurn(Turn.R2),
        PracticeAct.END,
        ChooseLearner("Tova: the elder"),
        Choose("THEME", 1),
        JumpTo(17),
        Scrub(3.25),
    ],
)
def test_names_and_commands_go_back_and_forth(command: Command) -> None:
    assert command_of(action_name(command)) == command


@pytest.mark.parametrize("name", ["", "act:NONSENSE", "jump:x", "unknown:1", "open:", "scrub:far"])
def test_names_that_mean_nothing_give_nothing(name: str) -> None:
    assert command_of(name) is None


def test_what_no_button_gives_has_no_name() -> None:
    with pytest.raises(ValueError, match="no button"):
        action_name(Zoom(1.0))


def test_tab_goes_through_what_can_be_pressed_in_reading_order() -> None:
    view = View(
        "home",
        "Test",
        bar=(Button(Named("bar"), "Bar"),),
        card=(
            Text("words"),
            ButtonRow((Button(Named("one"), "1"), Button(Named("two"), "2", enabled=False))),
        ),
        page=((Button(Named("three"), "3"),),),
    )
    assert list(map(str, pressable(view))) == ["one", "three", "bar"]


def test_a_sheet_over_the_screen_keeps_the_focus_to_itself() -> None:
    view = View("home", "Test", card=(Button(Named("one"), "1"),), overlay=(Button(Named("close"), "Close"),))
    assert list(map(str, pressable(view))) == ["close"]
