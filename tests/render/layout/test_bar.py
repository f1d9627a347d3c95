from __future__ import annotations

import pytest
from msgspec.structs import replace

from render.layout.boxes import WindowPart
from render.layout.panels import layout
from tests.render.named import Named
from tests.render.sample_views import lesson
from tutor.ui.view import Button, Chevron, Look

SCALES = (1.0, 1.25, 1.5, 2.0)


def usual_bar() -> tuple[Button, ...]:
    return (
        Button(Named("home"), "Home", chevron=Chevron.BACK),
        Button(Named("words"), "Words", "F8"),
        Button(Named("keys"), "Keys", "F1"),
        Button(Named("more"), "More", "F10", chevron=Chevron.MENU),
    )


@pytest.mark.parametrize("scale", SCALES)
@pytest.mark.parametrize("wide", [960, 1280])
def test_the_bar_is_one_row_with_the_way_back_at_its_left(wide: int, scale: float) -> None:
    buttons = usual_bar() if scale < 1.5 else (usual_bar()[0], usual_bar()[-1])
    title = "A title that is rather long for a bar of any width, and still goes on and on and on"
    view = replace(lesson(Look(text_scale=scale)), title=title, place="Lesson 4", bar=usual_bar())
    view = replace(view, more=tuple(button for button in usual_bar() if button not in buttons))
    bar = layout(view, wide, 640).panel(WindowPart.BAR)
    assert bar is not None
    assert bar.content == {1.0: 48, 1.25: 48, 1.5: 54, 2.0: 72}[scale]
    actions = [str(box.action) for box in sorted(bar.boxes, key=lambda box: box.rect.x) if box.action]
    assert actions == [str(button.action) for button in buttons]
    titles = [line.text for box in bar.boxes for line in box.lines if line.text.startswith("A title")]
    assert len(titles) == 1
    icons = [sign.icon for box in bar.boxes for sign in box.signs]
    assert icons == ["back", "menu"]
    named = [
        box for box in bar.boxes if box.action or any(line.text.startswith("A title") for line in box.lines)
    ]
    assert {box.rect.y + box.rect.height / 2 for box in named} == {bar.content / 2}


def test_the_place_stands_beside_a_title_that_leaves_room_for_it() -> None:
    def said(title: str) -> set[str]:
        view = replace(lesson(), title=title, place="Lesson 4", bar=usual_bar())
        bar = layout(view, 1280, 800).panel(WindowPart.BAR)
        assert bar is not None
        return {line.text for box in bar.boxes for line in box.lines}

    assert {"Short", "Lesson 4"} <= said("Short")
    assert "Lesson 4" not in said("A long title " * 12)


def test_where_text_is_large_the_title_gives_way_to_the_place() -> None:
    view = lesson(Look(text_scale=2.0))
    view = replace(view, bar=view.bar[:1], title="A very long title " * 4, place="12 of 18")
    # However much room the letters leave that still fit.
    for wide in range(960, 1000):
        bar = layout(view, wide, 640).panel(WindowPart.BAR)
        assert bar is not None
        assert "12 of 18" in [line.text for box in bar.boxes for line in box.lines], wide
