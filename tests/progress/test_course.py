"""New cases come in the order of the lessons."""

from tutor.lesson.library import curriculum_names, find_script
from tutor.method.cases import CASES, parse_case
from tutor.progress.course import course


def test_the_course_has_every_case_once() -> None:
    assert len(course()) == 41
    assert set(course()) == set(CASES)


def test_a_case_comes_no_later_than_those_of_later_lessons() -> None:
    # The lesson on whole cases in the slot comes after those with both pieces on top; so do its cases.
    order = [case.slug for case in course()]
    names = curriculum_names()
    assert names.index("made-pair") < names.index("both-in-slot")
    ends = [scene.case for scene in find_script("both-in-slot").script.scene if scene.case]
    begins = [scene.case for scene in find_script("made-pair").script.scene if scene.case]
    assert max(order.index(parse_case(slug).slug) for slug in begins) < min(
        order.index(slug) for slug in ends
    )


def test_a_case_that_is_only_looked_at_is_not_met_yet() -> None:
    # "slot-and-pair" shows a corner in its slot to be found; its moves are taught in "corner-in-slot".
    looked_at = "corner-in-front-edge-right-front-up"
    assert any(scene.case == looked_at for scene in find_script("slot-and-pair").script.scene)
    order = [case.slug for case in course()]
    assert order.index(looked_at) > order.index("corner-up-edge-front-right-up")
