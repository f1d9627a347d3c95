from render.pace import BUDGET, FRAMES, Pace


def paced(*taken: float) -> Pace:
    pace = Pace()
    for seconds in taken:
        pace.took(seconds)
    return pace


def test_frames_inside_the_budget_stay_smooth() -> None:
    assert paced(*[0.9 * BUDGET] * 100).fits


def test_frames_that_take_too_long_make_motion_rough() -> None:
    assert not paced(*[1.1 * BUDGET] * FRAMES).fits


def test_few_hitches_among_quick_frames_change_nothing() -> None:
    assert paced(*[0.2, 0.5 * BUDGET, 0.5 * BUDGET] * 20).fits


def test_another_size_is_judged_anew() -> None:
    pace = paced(*[1.1 * BUDGET] * FRAMES)
    pace.afresh()
    assert pace.fits
