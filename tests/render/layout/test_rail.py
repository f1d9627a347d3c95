from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from render.layout.boxes import Box, BoxKind, Panel, Playhead
from render.layout.buttons import Metrics
from render.layout.rail import NAMES, RAIL_HEIGHT, ROW, place_rail
from render.layout.rail_cells import grouped
from tests.render.named import Named
from tests.render.sample_views import free_play, own_rail, route_rail
from tutor.ui.view import Bay, BayState, Mark, Rail, Tile


def tiles(panel: Panel, start: str) -> list[Box]:
    return [box for box in panel.boxes if box.kind is BoxKind.TILE and str(box.action).startswith(start)]


def placed(rail: Rail, wide: float = 1280) -> tuple[Panel, Playhead]:
    panel, playhead = place_rail(rail, wide, Metrics())
    assert playhead is not None
    return panel, playhead


def test_the_five_bays_stand_in_a_row_with_their_titles() -> None:
    panel, _ = placed(route_rail())
    bays = [box for box in panel.boxes if box.kind is BoxKind.BAY]
    assert [box.lines[0].text for box in bays] == ["Find", "Raise", "Part", "Join", "Insert"]
    assert len({box.rect.y for box in bays}) == 1
    assert [box.rect.x for box in bays] == sorted(box.rect.x for box in bays)
    assert {box.signs[0].icon for box in bays} == {"done", "current", "ahead"}


def test_a_turn_that_left_the_rail_lies_lower() -> None:
    panel, _ = placed(own_rail())
    own = tiles(panel, "own")
    lower = [box.action for box in own if box.rect.y > min(other.rect.y for other in own)]
    assert list(map(str, lower)) == ["own 3", "own 4"]


def test_every_judged_turn_has_its_sign() -> None:
    panel, _ = placed(own_rail())
    icons = [[sign.icon for sign in box.signs] for box in tiles(panel, "own")]
    assert icons == [["optimal"]] * 3 + [["detour"]] * 2 + [["acceptable"], ["waiting"]]


@pytest.mark.parametrize("current", [0, 5, 20, 45])
def test_of_many_turns_those_round_the_current_one_are_shown(current: int) -> None:
    view = free_play()
    assert view.rail is not None
    own = tuple(replace(tile, current=i == current) for i, tile in enumerate(view.rail.own))
    panel, playhead = placed(replace(view.rail, own=own), 960)
    shown = tiles(panel, "own")
    assert f"own {current}" in {str(box.action) for box in shown}
    assert len(shown) < len(own)
    assert shown[0].action == Named(f"own {playhead.first}")


@given(st.floats(0, 12))
def test_the_playhead_comes_back_to_where_it_was_dragged_from(position: float) -> None:
    _, playhead = placed(route_rail())
    back = playhead.position_of(playhead.x_of(position))
    assert back == pytest.approx(position, abs=1e-6)


def test_the_playhead_goes_through_the_turn_it_is_in() -> None:
    panel, playhead = placed(own_rail())
    box = tiles(panel, "own 5")[0]
    assert box.rect.x < playhead.x_of(5.4) < box.rect.right
    assert playhead.x_of(0) == tiles(panel, "own 0")[0].rect.x
    assert playhead.x_of(99) == tiles(panel, "own 6")[0].rect.right


def test_the_route_is_scrubbed_over_the_bays() -> None:
    panel, playhead = placed(route_rail())
    shown = tiles(panel, "jump")
    assert len(playhead.spans) == len(shown) == 12
    assert [span[0] for span in playhead.spans] == [box.rect.x for box in shown]


@pytest.mark.parametrize("scale", [1.0, 1.25, 1.5, 2.0])
def test_the_rail_keeps_its_height_whatever_is_on_it(scale: float) -> None:
    own, route = own_rail(), route_rail()
    rails = (
        own,
        route,
        replace(own, own=()),
        Rail(),
        replace(route, own=own.own),
        free_play().rail or Rail(),
    )
    for rail in rails:
        panel = place_rail(rail, 864, Metrics(scale))[0]
        assert panel.content == panel.rect.height == RAIL_HEIGHT


def test_a_bay_is_as_wide_as_its_tiles() -> None:
    panel, _ = placed(route_rail(), 864)
    bays = {box.lines[0].text: box.rect for box in panel.boxes if box.kind is BoxKind.BAY}
    assert bays["Insert"].width > bays["Part"].width > bays["Find"].width
    inside = [box for box in tiles(panel, "jump") if bays["Insert"].contains(box.rect.x, box.rect.y)]
    assert [box.lines[0].text for box in inside] == ["U'", "R", "U", "R'"]


def test_own_turns_stand_in_the_bay_of_their_step() -> None:
    panel, _ = placed(own_rail(), 864)
    bays = {box.lines[0].text: box.rect for box in panel.boxes if box.kind is BoxKind.BAY}

    def bay_of(name: str) -> list[str]:
        x = tiles(panel, name)[0].rect.x
        return [title for title, rect in bays.items() if rect.x <= x < rect.right]

    assert [bay_of(f"own {number}") for number in (0, 2, 3, 6)] == [["Raise"], ["Raise"], ["Part"], ["Part"]]


def test_turns_of_no_known_step_stand_where_the_first_step_is_to_be_done() -> None:
    bays = tuple(Bay(name, BayState.AHEAD) for name in ("Raise", "Part", "Join", "Insert"))
    own = (Tile("R", action=Named("own 0"), bay=1), Tile("L", action=Named("own 1")))
    find = Bay("Find", BayState.DONE)
    assert [len(cells) for cells in grouped(Rail((find, *bays), own=own[1:]))] == [0, 1, 0, 0, 0]
    assert [len(cells) for cells in grouped(Rail((find, find, *bays[1:]), own=own))] == [0, 1, 1, 0, 0]


def test_after_a_solve_equal_turns_stand_under_each_other_and_others_are_outlined() -> None:
    made = ("R", "U2", "R'", "U2", "F'", "U2")
    own = tuple(Tile(label, action=Named(f"own {i}")) for i, label in enumerate(made))
    names = ("Best by hand: 12 turns", "You: 6 turns")
    panel, _ = place_rail(
        replace(route_rail(), scrubs_route=False, own=own, row_names=names), 1280, Metrics()
    )
    best, yours = tiles(panel, "jump"), tiles(panel, "own")
    assert {box.rect.y for box in best} == {NAMES}
    assert {box.rect.y for box in yours} == {NAMES + ROW}
    # The rail ends where the window ends: what stands lowest keeps off the edge.
    assert {RAIL_HEIGHT - box.rect.bottom for box in yours} == {3.0}
    above = {box.rect.x: box for box in best}
    pairs = [(box.lines[0].text, above[box.rect.x].lines[0].text, box.outlined) for box in yours]
    assert pairs == [
        ("R", "R", False), ("U2", "U", True), ("R'", "R'", False),
        ("U2", "U2", False), ("F'", "F'", False), ("U2", "U2", False),
    ]  # fmt: skip
    assert {"Best by hand: 12 turns", "You: 6 turns"} <= {
        line.text for box in panel.boxes for line in box.lines
    }


@pytest.mark.parametrize("wide", [480, 640, 864])
def test_with_large_text_the_rail_shows_the_step_under_way_and_the_last_turns(wide: float) -> None:
    panel, _ = place_rail(own_rail(), wide, Metrics(2.0))
    bays = [box for box in panel.boxes if box.kind is BoxKind.BAY]
    assert [[line.text for line in box.lines] for box in bays] == [["Part", "3 of 5"]]
    last = tiles(panel, "own")[-1]
    assert str(last.action) in ("own 5", "own 6")
    assert last.rect.right <= wide


def test_a_rail_without_turns_has_no_playhead() -> None:
    assert place_rail(Rail(own=(), playhead=0.0), 1280, Metrics())[1] is None
    assert place_rail(Rail(own=(Tile("R", Mark.NONE),)), 1280, Metrics())[1] is None


def test_tiles_of_a_crowded_bay_are_squeezed_and_stay_targets() -> None:
    rail = route_rail()
    crowded = replace(rail.bays[1], tiles=tuple(Tile("U2", action=Named(f"jump {i}")) for i in range(14)))
    panel, _ = place_rail(replace(rail, bays=(rail.bays[0], crowded, *rail.bays[2:])), 960, Metrics(1.5))
    # WCAG 2.2, 2.5.8: at least 24 by 24 px.
    assert all(box.rect.width >= 24 for box in tiles(panel, "jump"))
