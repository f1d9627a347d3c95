"""Answers to a question: written ones held against the cube, or ones made from it."""

from __future__ import annotations

from collections.abc import Callable

from msgspec import Struct

from tutor.coach.catalogue import ENGLISH, capitalised
from tutor.coach.sight import SpokenPosition
from tutor.counting import counted
from tutor.cube.faces import TURNS, Face
from tutor.cube.geometry import CORNER_CUBIES, CORNER_FACES, EDGE_CUBIES, EDGE_FACES, place_name
from tutor.cube.notation import parse_turns
from tutor.cube.position import SLOTS, Position, Slot
from tutor.lesson import wrong_answers
from tutor.lesson.problems import Path
from tutor.lesson.reading import Report
from tutor.lesson.scenes import OfferedAnswer, Sought
from tutor.lesson.script import AnswerScript, ChooseScript
from tutor.lesson.variation import Variation
from tutor.lesson.words import faults_of_scenes as words
from tutor.lesson.words import replies
from tutor.method.answer import Answer
from tutor.method.continuations import Verdict
from tutor.method.pairs import match, pair_locations, touch
from tutor.method.steps import TURNING_STEPS, Step
from tutor.solver.task import Task, carried_slot

Answerer = Callable[[Position, Task], Answer]
"""Where exact answers come from."""

OFFERED = 4
"""How many answers the program makes up, at most."""

JOINTS = ("apart", "touching", "joined")
"""How corner and edge can lie."""


class QuestionSubject(Struct, frozen=True):
    """What a question is about, at one position."""

    true: frozenset[str]
    offered: tuple[str, ...]
    """Claims to choose from, the true one among them; empty when there is not just one true."""
    reading: Callable[[str | int], str]
    """The claim that a written value makes, as played; raises ValueError with what would be right."""
    words: Callable[[str], str]
    why: Callable[[str], str]
    """Why a wrong claim is wrong here, and where to look."""


def subject_of(about: str, seen: SpokenPosition, variation: Variation, answers: Answerer) -> QuestionSubject:
    """What is true about a subject (one of the script's) in a position with its task."""
    if about == "turn":
        return _turn_subject(seen, variation, answers(seen.position, seen.task))
    if about == "step":
        return _step_subject(seen, answers(seen.position, seen.task))
    if about == "slot":
        return _slot_subject(seen.position, variation, answers)
    if about == "count":
        return _count_subject(answers(seen.position, seen.task))
    if about == "joint":
        return _joint_subject(seen)
    return _place_subject(Sought(about), seen, variation)


def choices_of(
    scene: ChooseScript,
    path: Path,
    subject: QuestionSubject | None,
    say: Callable[[str, Path], str],
    report: Report,
) -> tuple[OfferedAnswer, ...] | None:
    """The answers as shown, or None when something is wrong with them (and noted).

    ``say`` fills in the placeholders of a text written at a path.
    """
    if not scene.answers:
        return _made_up(path, subject, report)
    noted = len(report.problems)
    if len(scene.answers) < 2:
        report.add((*path, "answers"), *words.ONE_ANSWER)
    marked = [number for number, answer in enumerate(scene.answers) if answer.true]
    if len(marked) != 1:
        report.add((*path, "answers"), *words.marked_true(len(marked)))
    choices = []
    for number, answer in enumerate(scene.answers):
        choices.append(_written(answer, (*path, "answers", number), subject, say, report))
    return None if len(report.problems) > noted else tuple(choices)


def _made_up(path: Path, subject: QuestionSubject | None, report: Report) -> tuple[OfferedAnswer, ...] | None:
    if subject is None:
        report.add((*path, "answers"), *words.NO_ANSWERS)
        return None
    if len(subject.offered) < 2:
        report.add((*path, "about"), *words.nothing_to_offer(len(subject.true) != 1))
        return None
    return tuple(_offered(subject, value) for value in subject.offered)


def _offered(subject: QuestionSubject, value: str) -> OfferedAnswer:
    true = value in subject.true
    return OfferedAnswer(subject.words(value), true, "" if true else subject.why(value))


def _written(
    answer: AnswerScript,
    path: Path,
    subject: QuestionSubject | None,
    say: Callable[[str, Path], str],
    report: Report,
) -> OfferedAnswer:
    text = say(answer.text, (*path, "text")) if answer.text is not None else ""
    why = say(answer.why, (*path, "why")) if answer.why is not None else ""
    if answer.true and answer.why is not None:
        report.add((*path, "why"), *words.WHY_OF_THE_TRUE)
    if subject is None:
        if answer.value is not None:
            report.add((*path, "value"), *words.VALUE_WITHOUT_SUBJECT)
        elif answer.text is None:
            report.add((*path, "text"), *words.NO_TEXT)
        return OfferedAnswer(text, answer.true, why or ("" if answer.true else replies.LOOK_AT_THE_CUBE))
    if answer.value is None:
        report.add((*path, "value"), *words.NO_VALUE)
        return OfferedAnswer(text, answer.true)
    try:
        value = subject.reading(answer.value)
    except ValueError as error:
        report.add((*path, "value"), *words.impossible_value(str(answer.value)[:30], str(error)))
        return OfferedAnswer(text, answer.true)
    if answer.true != (value in subject.true):
        _note_untrue(answer, path, subject, report)
        return OfferedAnswer(text, answer.true)
    return OfferedAnswer(
        text or subject.words(value), answer.true, why or ("" if answer.true else subject.why(value))
    )


def _note_untrue(answer: AnswerScript, path: Path, subject: QuestionSubject, report: Report) -> None:
    if answer.true:
        truth = sorted(subject.words(value) for value in subject.true)
        report.add((*path, "true"), *words.marked_but_wrong(str(answer.value), truth))
    else:
        report.add((*path, "value"), *words.true_as_well(str(answer.value)))


# ----------------------------------------------------------------------------------------------- subjects


def _one_true(true: frozenset[str], others: list[str]) -> tuple[str, ...]:
    """Up to four claims with the one true among them, in a fixed order that does not give it away."""
    if len(true) != 1:
        return ()
    wrong = [value for value in dict.fromkeys(others) if value not in true][: OFFERED - 1]
    return tuple(sorted([*true, *wrong], key=str))


def _turn_subject(seen: SpokenPosition, variation: Variation, answer: Answer) -> QuestionSubject:
    """Good turns are true, and only Detours are offered as wrong: what is accepted of a hand is so here."""
    good = [turn for turn in TURNS if answer.continuations[turn].verdict is not Verdict.DETOUR]
    # The route's first turn is the one to offer, since it is what is taught.
    ways = [*(route.turns for route in answer.routes), *answer.lines]
    shown = [way[0] for way in ways if way][:1]
    # Near misses first: the same face another way, then the other faces one works with.
    near = [turn for turn in TURNS if turn.face in {good.face for good in shown}]
    working = seen.task.working_faces
    near += [turn for turn in TURNS if turn.face in working and turn.quarters != 2]
    near += [turn for turn in TURNS if turn.face in working]
    wrong = [turn.notation for turn in near if turn not in good]
    true = frozenset(turn.notation for turn in good)
    offered = _one_true(frozenset({shown[0].notation}), wrong) if shown else ()

    def reading(value: str | int) -> str:
        try:
            [turn] = parse_turns(str(value))
        except ValueError:
            raise ValueError(words.ONE_TURN) from None
        return variation.symmetry.turn(turn).notation

    def why(value: str) -> str:
        return wrong_answers.turn_reply(parse_turns(value)[0], seen, answer)

    return QuestionSubject(true, offered, reading, str, why)


def _step_subject(seen: SpokenPosition, answer: Answer) -> QuestionSubject:
    names = [step.value for step in TURNING_STEPS]
    true: frozenset[str] = frozenset({answer.step.value} & set(names))
    offered: tuple[str, ...] = tuple(names) if true else ()
    return QuestionSubject(
        true,
        offered,
        _among(names),
        lambda value: ENGLISH.say(f"step.{value}"),
        lambda value: wrong_answers.step_reply(Step(value), seen),
    )


def _slot_subject(position: Position, variation: Variation, answers: Answerer) -> QuestionSubject:
    """The slot whose pair is home in the fewest turns, of those not yet home."""
    open_slots = [slot for slot in SLOTS if not position.pair_home(slot)]
    distances = {slot: answers(position, Task.at(position, slot)).to_go for slot in open_slots}
    least = min(distances.values(), default=0)
    true = frozenset(slot.name for slot in open_slots if distances[slot] == least)
    offered = tuple(slot.name for slot in open_slots) if len(true) == 1 else ()

    def reading(value: str | int) -> str:
        if value not in Slot.__members__:
            raise ValueError(words.ONE_SLOT)
        return carried_slot(Slot[str(value)], variation.symmetry).name

    def why(value: str) -> str:
        slot = Slot[value]
        return wrong_answers.slot_reply(slot, answers(position, Task.at(position, slot)))

    return QuestionSubject(
        true, offered, reading, lambda value: capitalised(f"the {ENGLISH.say(f'slot.{value}')}"), why
    )


def _count_subject(answer: Answer) -> QuestionSubject:
    distance = answer.to_go
    near = [str(distance + 1), str(max(distance - 1, 1)), str(distance + 2)]
    true = frozenset({str(distance)})

    def reading(value: str | int) -> str:
        if not isinstance(value, int):
            raise ValueError(words.A_NUMBER)
        return str(value)

    # Numbers are offered in their order, so that the place of the true one says nothing.
    offered = tuple(sorted(_one_true(true, near), key=int))
    return QuestionSubject(
        true,
        offered,
        reading,
        lambda value: capitalised(counted(int(value), "turn")),
        lambda value: wrong_answers.count_reply(int(value), answer),
    )


def _joint_subject(seen: SpokenPosition) -> QuestionSubject:
    slot = seen.task.slot
    where = pair_locations(seen.position, slot)
    apart, touching, joined = JOINTS
    beside = touching if touch(*where) else apart
    true = joined if match(slot, *where) else beside
    return QuestionSubject(
        frozenset({true}),
        JOINTS,
        _among(list(JOINTS)),
        str.capitalize,
        lambda value: wrong_answers.joint_reply(value, seen),
    )


def _place_subject(piece: Sought, seen: SpokenPosition, variation: Variation) -> QuestionSubject:
    corner = piece is Sought.CORNER
    position, slot = seen.position, seen.task.slot
    places = [place_name(faces) for faces in (CORNER_FACES if corner else EDGE_FACES[:8])]
    at = position.corners[slot.corner] // 3 if corner else position.edges[slot.edge] // 2
    true: frozenset[str] = frozenset({places[at]} if at < len(places) else ())
    turned: list[str] = [places[(at + step) % len(places)] for step in (1, 2, 4, 5)]

    def reading(value: str | int) -> str:
        faces = {Face[letter] for letter in str(value) if letter in Face.__members__}
        carried = place_name(tuple(variation.symmetry.faces[face] for face in faces))
        if len(faces) != len(str(value)) or carried not in places:
            raise ValueError(words.a_place(places[0]))
        return carried

    def why(value: str) -> str:
        cubies = CORNER_CUBIES if corner else EDGE_CUBIES
        return wrong_answers.place_reply(piece, cubies[places.index(value)], seen)

    return QuestionSubject(true, _one_true(true, turned), reading, place_words, why)


def _among(names: list[str]) -> Callable[[str | int], str]:
    def reading(value: str | int) -> str:
        if value not in names:
            raise ValueError(words.one_of(names))
        return str(value)

    return reading


def place_words(name: str) -> str:
    """A place of a corner, or of an edge not in the bottom layer, in words: ``On top at the front right``."""
    sides = "".join(letter for letter in name if letter in "FBLR")
    if "U" in name:
        kind = "corner" if len(sides) == 2 else "edge"
        return capitalised(ENGLISH.say("place.top", spot=ENGLISH.say(f"spot.{kind}.{sides}")))
    return capitalised(ENGLISH.say("place.slot", slot=ENGLISH.say(f"slot.{sides}")))
