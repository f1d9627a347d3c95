"""After a case: the learner's turns against the shortest line and the route step by step, in words."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct

from tutor.coach.catalogue import ENGLISH
from tutor.coach.claims import StepDone
from tutor.coach.claims_of_ways import (
    AllBeside,
    Best,
    ByHand,
    Costs,
    Later,
    LeadsTo,
    NeverDone,
    ShortestOfAll,
    StaysShortest,
    ToGo,
)
from tutor.coach.phrase import NOTHING, Phrase, finished, tell
from tutor.coach.scene import Moment
from tutor.counting import counted
from tutor.cube.faces import Turn
from tutor.method.answer import Answer
from tutor.method.continuations import Verdict
from tutor.method.routes import Route
from tutor.method.shortcut import Shortcut, compare
from tutor.method.steps import Step

_NAMED_ORDINALS = 10
_ENDINGS = {1: "st", 2: "nd", 3: "rd"}


class Review(Struct, frozen=True):
    """A case looked back on.

    ``made`` turns against the ``fewest`` by hand (of all turns where there was no way by hand); ``left`` to
    go at the end. ``split`` is the index of the turn that cost most of those that left every shortest way,
    from where the learner is shown on; of equals the first. It is None when none left, when the learner's
    own way took no more turns, or when it was the route that is taught. ``split_told`` is what is said of
    it. ``line`` and ``route`` are those compared, ``shortcut`` is what the line saves (both None when no
    route leads from the start); ``taught`` is the route that was made turn by turn. ``phrases`` are what is
    said, in order, with claims about the start.
    """

    made: tuple[Turn, ...]
    fewest: int
    left: int
    split: int | None
    split_told: Phrase
    line: tuple[Turn, ...]
    route: Route | None
    taught: Route | None
    shortcut: Shortcut | None
    phrases: tuple[Phrase, ...]

    @property
    def text(self) -> str:
        """All that is said."""
        return " ".join(phrase.text for phrase in self.phrases)

    @property
    def extra(self) -> int:
        """Turns made and still to make beyond the fewest; below 0 for a shorter way with far layers."""
        return len(self.made) + self.left - self.fewest


def review(answers: Sequence[Answer], turns: Sequence[Turn]) -> Review:
    """The review of ``turns``, all named from the viewpoint of the first position.

    ``answers[i]`` is the answer for the position before ``turns[i]``, from that same viewpoint. Raises
    ValueError when there is not one for each turn, or no turn at all.
    """
    if not turns or len(answers) != len(turns):
        raise ValueError(f"a review needs one answer for each turn; got {len(answers)} for {len(turns)}")
    made = tuple(turns)
    start, left = answers[0], answers[-1].continuations[made[-1]].to_go
    taught = next((each for each in start.routes if each.turns == made), None)
    away = () if taught is not None or len(made) + left <= start.to_go else _away(answers, made)
    split = max(away, key=lambda index: _cost(answers, made, index), default=None)
    line = _line_shown(start, made[: away[0]] if away else made)
    route = start.routes[0] if start.routes else None
    shortcut = None if route is None else compare(start.position, start.task, line, route)
    split_told = NOTHING if split is None else finished(_split_told(answers, made, split, split == away[0]))
    if taught is not None and len(made) > start.to_go:
        split_told = finished(tell("review.as_taught", LeadsTo(made, 0)))
    compared = NOTHING if route is None or shortcut is None else _comparison(line, route, shortcut)
    shortest = _as_short_as_can_be(start, made, left)
    if shortest and shortcut is not None and not shortcut.saved:
        # That going step by step is no longer is no news to who made a way that none is shorter than.
        compared = NOTHING
    summary = _none_shorter(start, made) if shortest else _summary(start, made, left)
    told = (finished(summary), split_told, finished(compared))
    phrases = tuple(phrase for phrase in told if phrase.text)
    return Review(made, start.to_go, left, split, split_told, line, route, taught, shortcut, phrases)


def _away(answers: Sequence[Answer], made: tuple[Turn, ...]) -> tuple[int, ...]:
    """The indices of the turns that begin no shortest way, as the coach counts the length of ways."""
    judged = ((answer.to_go, answer.continuations[turn]) for answer, turn in zip(answers, made, strict=True))
    return tuple(index for index, (to_go, own) in enumerate(judged) if own.to_go != to_go - 1)


def _cost(answers: Sequence[Answer], made: tuple[Turn, ...], index: int) -> int:
    """How many turns longer a turn made the way, as it is told."""
    return answers[index].continuations[made[index]].lost


def _line_shown(start: Answer, shared: tuple[Turn, ...]) -> tuple[Turn, ...]:
    """The line that goes longest with the learner's own turns; of those the most comfortable."""

    def together(line: tuple[Turn, ...]) -> int:
        pairs = zip(line, shared, strict=False)
        return next((count for count, (one, other) in enumerate(pairs) if one is not other), len(shared))

    return max(start.lines, key=together)


def _summary(start: Answer, made: tuple[Turn, ...], left: int) -> Phrase:
    """The learner's own way, which faces it took, and the shortest."""
    beside = {turn.face for turn in made} <= start.task.working_faces
    by_hand = start.by_hand is not None
    own = tell(
        "review.way" if not left else "review.so_far",
        LeadsTo(made, left),
        AllBeside(made, beside),
        made=counted(len(made), "turn"),
        where=ENGLISH.say("review.beside" if beside else "review.far"),
    )
    if left:
        own += tell("review.left", left=counted(left, "more turn"))
    key = "review.shortest" if by_hand else "review.shortest_far"
    fewest = Phrase(counted(start.to_go, "turn"), (ToGo(Moment.BEFORE, start.to_go),))
    return own + tell(key, ByHand(Moment.BEFORE, by_hand), fewest=fewest)


def _none_shorter(start: Answer, made: tuple[Turn, ...]) -> Phrase:
    """The learner's own way by hand, of which it is told that none is shorter."""
    fewest = ByHand(Moment.BEFORE, True), ToGo(Moment.BEFORE, start.to_go)
    claims = LeadsTo(made, 0), AllBeside(made, True), *fewest
    return tell("review.none_shorter", *claims, made=counted(len(made), "turn"))


def _as_short_as_can_be(start: Answer, made: tuple[Turn, ...], left: int) -> bool:
    """Whether the learner solved the pair by hand in as few turns as there can be."""
    by_hand = start.by_hand is not None and {turn.face for turn in made} <= start.task.working_faces
    return by_hand and left == 0 and len(made) == start.to_go


def ordinal(number: int) -> str:
    """The word for a place in a row, from 1; beyond ten in figures, for instance ``21st``."""
    if number <= _NAMED_ORDINALS:
        return ENGLISH.say(f"nth.{number}")
    teen = number // 10 % 10 == 1
    ending = "th" if teen else _ENDINGS.get(number % 10, "th")
    return ENGLISH.say(f"nth.{ending}", n=str(number))


def _split_told(answers: Sequence[Answer], made: tuple[Turn, ...], split: int, first: bool) -> Phrase:
    """Where the learner left the shortest way, ``first`` or once more, and what that turn cost."""
    best = answers[split].lines[0][0]
    own = answers[split].continuations[made[split]]
    lost = _cost(answers, made, split)
    shortest = (StaysShortest(made[:split]), StaysShortest((*made[:split], best)))
    claims = shortest if first else (Later((*made[:split], best), Best(best)),)
    key = "review.split" if own.verdict is Verdict.DETOUR else "review.other_way"
    place = tell(
        key if first else "review.costliest",
        StaysShortest(made[: split + 1], False),
        *claims,
        nth=ordinal(split + 1),
        turn=own.turn.notation,
        best=best.notation,
    )
    if own.verdict is Verdict.OPTIMAL:
        return place + tell("review.far_there", Later(made[: split + 1], ShortestOfAll()))
    costs = Later(made[: split + 1], Costs(lost))
    if own.verdict is Verdict.ACCEPTABLE:
        return place + tell("review.longer_there", costs, longer=counted(lost, "turn"))
    if not lost:
        return place + tell("review.far_shorter", Later(made[: split + 1], ShortestOfAll(False)))
    return place + tell("review.cost_there", costs, extra=counted(lost, "extra turn"))


def _comparison(line: tuple[Turn, ...], route: Route, shortcut: Shortcut) -> Phrase:
    """The line beside the route, and the shortcut in it."""
    line_turns = Phrase(counted(len(line), "turn"), (StaysShortest(line), LeadsTo(line, 0)))
    if not shortcut.saved:
        return tell("review.same_length", LeadsTo(route.turns, 0), line_turns=line_turns)
    told = tell(
        "review.shortcut",
        LeadsTo(route.turns, 0),
        route_turns=counted(len(route.turns), "turn"),
        line_turns=line_turns,
    )
    return told + merging(line, shortcut, "review.merges") + skipping(line, shortcut, "review.skips")


def merging(line: tuple[Turn, ...], shortcut: Shortcut, key: str) -> Phrase:
    """The steps that the line does with one turn, in the text of ``key``."""
    if not shortcut.merged:
        return NOTHING
    steps = shortcut.merged[0]
    end = next(count for step, count in shortcut.ends if step is steps[0])
    if not end:
        return NOTHING
    claims = tuple(Later(line[:end], StepDone(Moment.AFTER, step.value)) for step in steps)
    return tell(key, *claims, steps=_names(steps), turn=line[end - 1].notation)


def skipping(line: tuple[Turn, ...], shortcut: Shortcut, key: str) -> Phrase:
    """The steps that the line never does, in the text of ``key``."""
    if not shortcut.skipped:
        return NOTHING
    claims, reached = [], 0
    for step, end in shortcut.ends:
        if end is None:
            claims.append(NeverDone(line, step.value, reached))
        else:
            reached = end
    return tell(key, *claims, steps=_names(shortcut.skipped))


def _names(steps: tuple[Step, ...]) -> str:
    """Step names as a list in words."""
    return listed([ENGLISH.say(f"step.{step.value}") for step in steps])


def listed(names: Sequence[str]) -> str:
    """Names in a row."""
    text = names[-1]
    for index, name in enumerate(reversed(names[:-1])):
        text = ENGLISH.say("list.more", first=name, rest=text) if index else _two(name, text)
    return text


def _two(first: str, second: str) -> str:
    return ENGLISH.say("list.two", first=first, second=second)
