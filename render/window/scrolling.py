"""How far a panel is scrolled so that what matters in it is in sight."""

from __future__ import annotations

from render.layout.boxes import Box, BoxKind, Panel, Rect


def words_of(box: Box) -> str:
    """All that is written on a box, however its lines are broken."""
    return "".join(line.text for line in box.lines).replace(" ", "")


def scroll_in_new_measures(before: Panel, scroll: float, after: Panel) -> float:
    """The offset at which a panel laid out in other measures shows what it showed at ``scroll`` before.

    What has the focus or is worked on stays in sight, else the newest words, else what begins first beneath
    the upper edge.
    """
    top, bottom = before.rect.y + scroll, before.rect.bottom + scroll
    seen = [box for box in before.boxes if top <= box.rect.y and box.rect.bottom <= bottom]
    told = [box for box in seen if box.focused or box.caret or is_cursor(box)]
    told = told or [box for box in seen if box.fresh][-1:]
    mark = next(iter(told or sorted(seen, key=lambda box: box.rect.y)), None)
    found = None if mark is None else _counterpart(mark, before, after)
    if mark is None or found is None or (scroll <= 0.0 and not told):
        return min(scroll, after.scroll_limit)
    stays = max(0.0, found.rect.y - after.rect.y - (mark.rect.y - top))
    return scroll_to_show(after, stays, found.rect) if told else min(stays, after.scroll_limit)


def is_cursor(box: Box) -> bool:
    """Whether it is the cursor on a net of stickers."""
    return box.kind is BoxKind.STICKER and box.selected


def _counterpart(box: Box, before: Panel, after: Panel) -> Box | None:
    """The box that does or says the same, of several the one that comes at about the same place."""
    number = before.boxes.index(box)
    same = [
        (abs(place - number), place)
        for place, each in enumerate(after.boxes)
        if (each.action == box.action if box.action else words_of(each) == words_of(box))
    ]
    return after.boxes[min(same)[1]] if same else None


def scroll_to_show(panel: Panel, scroll: float, rect: Rect, margin: float = 24.0) -> float:
    """The offset nearest to ``scroll`` that brings ``rect`` into sight; its top wins when it is too tall."""
    lowest = rect.bottom + margin - panel.rect.bottom
    highest = rect.y - margin - panel.rect.y
    return min(max(0.0, min(max(scroll, lowest), highest)), panel.scroll_limit)
