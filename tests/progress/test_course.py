"""New cases come in the order of the lessons."""

from tutor.lesson.library import curriculum_names, find_script, taught
from tutor.lesson.script import AloneScript, AskScript, ShowScript
from tutor.method.cases import CASES, parse_case
from tutor.progress.course import course, lesson_of, route_ideas


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


def test_what_is_looked_up_in_a_script_is_what_the_whole_script_says() -> None:
    for name in curriculum_names():
        script = find_script(name).script
        turning = (s for s in script.scene if isinstance(s, ShowScript | AskScript | AloneScript))
        assert taught(name).ideas == script.ideas
        assert taught(name).named == tuple(scene.case for scene in script.scene if scene.case is not None)
        assert taught(name).turned == tuple(scene.case for scene in turning if scene.case is not None)


def test_the_idea_of_each_step_of_each_route_is_taught_in_some_lesson() -> None:
    ideas = {idea for name in curriculum_names() for idea in taught(name).ideas}
    for case in CASES:
        needed = dict(route_ideas(case))
        # Every step that has turns needs an idea: the steps are those of the printed route.
        assert list(needed) == [step for step, _ in case.route().segments]
        assert all(ideas.intersection(each) for each in needed.values()), case.slug


def test_each_case_is_taught_by_the_lesson_about_the_first_thing_to_do_in_it() -> None:
    # By the book's numbers; from memory, by how the two pieces lie.
    assert {lesson_of(case) for case in CASES[36:]} == {"both-in-slot"}
    assert {lesson_of(case) for case in CASES[30:36]} == {"corner-in-slot"}
    assert {lesson_of(case) for case in CASES[24:30]} == {"edge-in-slot"}
    by_number = {case.number: lesson_of(case) for case in CASES}
    assert (by_number[10], by_number[23]) == ("made-pair", "made-pair")
    assert (by_number[13], by_number[20]) == ("three-turn-join", "three-turn-join")
    assert {by_number[n] for n in (3, 4, 5, 6)} == {"cross-up-apart"}
    assert {by_number[n] for n in (1, 2, 7, 8)} == {"cross-up-touching"}


def test_a_case_and_its_mirror_are_taught_in_one_lesson() -> None:
    assert [case.slug for case in CASES if lesson_of(case) != lesson_of(case.mirror)] == []
