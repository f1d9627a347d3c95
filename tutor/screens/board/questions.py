"""Questions to the group: those of a lesson's scenes, and those that the solver's answer gives."""

from __future__ import annotations

from tutor.coach.catalogue import sentences
from tutor.coach.feedback import shown
from tutor.coach.hints import Rung, hint, purpose
from tutor.coach.sight import SpokenPosition
from tutor.lesson.questions import subject_of
from tutor.lesson.scenes import OfferedAnswer, Quiz
from tutor.lesson.variation import Variation
from tutor.method.answer import Answer
from tutor.screens.board import words
from tutor.screens.board.state import AskedGroup, Presentation, Reveal
from tutor.screens.parts.rail import notation_of
from tutor.session.house import Session
from tutor.session.judging import answer_at
from tutor.session.looking_back import colour_words

_ASKED = {
    Reveal.PIECES: ("step", words.WHICH_STEP, Reveal.STEP),
    Reveal.STEP: ("turn", words.WHICH_TURN, Reveal.TURN),
    Reveal.TURN: ("count", words.HOW_MANY, Reveal.TURN),
}
"""By how much is shown: what is asked about, how, and how much is shown afterwards."""
_ORDER = tuple(_ASKED)


def quiz_question(scene: Quiz) -> AskedGroup:
    """The question of a lesson's scene."""
    return AskedGroup(sentences(scene.text)[-1], scene.answers, scene.because, Reveal.HIDDEN)


def next_question(session: Session, board: Presentation) -> AskedGroup | None:
    """The question that fits how much is shown, or, where one is open, the next; None without an answer."""
    answer = answer_at(session, board.attempt)
    if answer is None or not answer.distance:
        return None
    first = min(max(board.reveal, Reveal.PIECES), Reveal.TURN)
    begin = _ORDER.index(first)
    if board.asked is not None:
        open_now = next((n for n, each in enumerate(_ORDER) if _ASKED[each][1] == board.asked.text), begin)
        begin = open_now + 1
    order = [_ORDER[(begin + step) % len(_ORDER)] for step in range(len(_ORDER))]
    found = (_computed(session, board, answer, each) for each in order)
    return next((question for question in found if question is not None), None)


def _computed(session: Session, board: Presentation, answer: Answer, reveal: Reveal) -> AskedGroup | None:
    """A question about the position; None where it has not just one true answer."""
    bearing = board.attempt.bearing()
    if bearing is None:
        return None
    about, text, leads_to = _ASKED[reveal]
    if about == "count" and len(answer.lines[0]) < len(answer.routes[0].turns):
        # The group has seen the route, or will: a shorter way would make it look wrong.
        return None
    colours = colour_words(session, board.attempt.cube, bearing)
    seen = SpokenPosition(bearing.position, bearing.task, colours)
    subject = subject_of(about, seen, Variation(), lambda _position, _task: answer)
    if len(subject.offered) < 2:
        return None
    answers = tuple(
        OfferedAnswer(
            subject.words(each), each in subject.true, "" if each in subject.true else subject.why(each)
        )
        for each in subject.offered
    )
    return AskedGroup(text, answers, _reason(about, answer, colours), leads_to)


def _reason(about: str, answer: Answer, colours: tuple[str, ...]) -> str:
    """Why the right answer is right; that of a step leaves the turn to be found."""
    if about == "count":
        return words.one_way(notation_of(answer.lines[0]))
    if about == "step":
        return purpose(answer, colours).text
    idea = hint(answer, colours, Rung.IDEA).text
    if "?" not in idea:
        return idea
    turn, *following = answer.way.turns
    return shown(answer, turn, tuple(following), colours, answer.step).coming
