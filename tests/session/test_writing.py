from hypothesis import given
from hypothesis import strategies as st

from tutor.session.commands import EditKey
from tutor.session.state import Writing
from tutor.session.writing import LONGEST_TEXT, edited, opened, typed

KEYS = [key for key in EditKey if key is not EditKey.SUBMIT]


@given(st.lists(st.text(max_size=8) | st.sampled_from(KEYS), max_size=40))
def test_the_caret_stays_within_the_text(steps: list[str | EditKey]) -> None:
    writing = opened(Writing())
    for step in steps:
        writing = edited(writing, step) if isinstance(step, EditKey) else typed(writing, step)
        assert 0 <= writing.caret <= len(writing.text) <= LONGEST_TEXT
        assert writing.text == "".join(each for each in writing.text if each.isprintable())


def test_characters_go_in_and_out_at_the_caret() -> None:
    writing = typed(opened(Writing()), "R R'")
    for _ in range(3):
        writing = edited(writing, EditKey.LEFT)
    writing = typed(writing, " U")
    assert (writing.text, writing.caret) == ("R U R'", 3)
    assert edited(writing, EditKey.ERASE).text == "R  R'"
    assert edited(edited(writing, EditKey.START), EditKey.ERASE_AHEAD).text == " U R'"
