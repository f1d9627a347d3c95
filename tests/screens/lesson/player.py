"""Plays a lesson through the pilot, scene by scene, and keeps all that is shown."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from msgspec import Struct
from msgspec.structs import replace

from tests.session.held import held
from tests.session.pilot import Pilot, all_blocks
from tests.words.shown import texts_shown
from tutor.cube.faces import TURNS, Turn
from tutor.lesson.scenes import Alone, Ask, Find, Quiz, Scene, Show
from tutor.method.answer import Answer
from tutor.method.continuations import Verdict
from tutor.screens.lesson.questions import options
from tutor.screens.lesson.state import LESSON, LessonPlay
from tutor.screens.lesson.update import settled
from tutor.session.commands import Act
from tutor.session.judging import answer_at
from tutor.session.looking_back import last_judged, last_remark
from tutor.ui.view import Mark, Text, VerdictNote, View

BEAT = 0.5
"""Seconds between two looks at what is shown by itself."""
MOST_LOOKS = 600
MOST_TURNS = 40


class SaidOfTurn(Struct, frozen=True):
    """A verdict on the screen, and the position in which its turn was made."""

    start: Answer
    turn: Turn
    note: VerdictNote


class SaidAsHint(Struct, frozen=True):
    """A hint on the screen, and the position that it is about."""

    start: Answer
    rung: int
    text: str


@dataclass
class Play:
    """One way through a lesson: what was shown, and what was said of which turn."""

    pilot: Pilot
    name: str
    texts: set[str] = field(default_factory=set)
    views: list[tuple[int, View]] = field(default_factory=list)
    """Each different view, without its stage and rail, with the number of its scene."""
    said: list[SaidOfTurn] = field(default_factory=list)
    hints: list[SaidAsHint] = field(default_factory=list)
    undone: int = 0
    others: int = 0
    """Turns made that the asked way does not make."""
    visited: list[int] = field(default_factory=list)

    @property
    def played(self) -> LessonPlay | None:
        """The lesson as it is being played."""
        return LESSON.of(self.pilot.session)

    @property
    def scene(self) -> Scene:
        """The scene on the screen."""
        played = held(self.played)
        return played.lesson.scenes[played.scene]

    @property
    def open(self) -> bool:
        """Whether the lesson is still open."""
        return self.played is not None and self.played.lesson.name == self.name

    def look(self) -> None:
        """Keep what is shown now."""
        view = self.pilot.view
        self.texts.update(texts_shown(view))
        bare = replace(view, stage=None, rail=None)
        if not self.views or self.views[-1][1] != bare:
            self.views.append((held(self.played).scene, bare))

    def start(self) -> Answer:
        """What the solver says of the cube on the screen."""
        return held(answer_at(self.pilot.session, held(self.played).attempt))

    def turn(self, turn: Turn, *, halves: bool = False) -> None:
        """Make a turn, a half one as two quarters if wished, and keep what is said of it."""
        quarters = 2 if halves and turn.quarters == 2 else 1
        for _ in range(quarters):
            made = Turn.of(turn.face, 1) if quarters == 2 else turn
            self.pilot.turn(made.notation)
            self.look()
            self._hear()

    def _hear(self) -> None:
        session, attempt = self.pilot.session, held(self.played).attempt
        judged, remark = last_judged(session, attempt), last_remark(session, attempt)
        notes = [block for block in all_blocks(self.pilot.view.card) if isinstance(block, VerdictNote)]
        verdicts = (Mark.OPTIMAL, Mark.ACCEPTABLE, Mark.DETOUR)
        told = [note for note in notes if note.mark in verdicts and remark and note.text == remark.text]
        if judged is not None and judged.answer is not None and told:
            self.said.append(SaidOfTurn(judged.answer, judged.turn, told[0]))

    def ask_hints(self) -> None:
        """Ask for every rung of the hint, one after the other."""
        for rung in (1, 2, 3):
            self.pilot.key("h")
            self.pilot.settle()
            self.look()
            texts = [block.text for block in all_blocks(self.pilot.view.card) if isinstance(block, Text)]
            number = [at for at, text in enumerate(texts) if text.startswith(f"Hint {rung}")]
            if number:
                self.hints.append(SaidAsHint(self.start(), rung, texts[number[0] + 1]))

    def watch(self) -> None:
        """Let a scene play to its end; where it waits after a turn, step on."""
        for _ in range(MOST_LOOKS):
            self.look()
            shown = self.pilot.session.demonstration
            if shown is None or shown.seen(self.pilot.now):
                break
            if shown.moving(self.pilot.now):
                self.pilot.wait(BEAT)
            else:
                self.pilot.press(Act.STEP_ON)
        else:
            raise AssertionError("what is shown comes to no end")

    def go_on(self) -> None:
        """Press Enter on a scene that is done."""
        assert settled(self.pilot.session), (self.name, held(self.played).scene)
        self.visited.append(held(self.played).scene)
        self.pilot.key("enter")
        self.pilot.wait(0.1)

    # ---------------------------------------------------------------------------------- the ways of playing

    def as_asked(self) -> None:
        """The first true answer, the first accepted turns, a shortest line."""
        match self.scene:
            case Quiz() | Find():
                self._choose(right=True)
            case Ask() | Alone() as scene if scene.accept:
                for turn in scene.accept[0]:
                    self.turn(turn)
            case Ask() | Alone():
                for _ in self._until_settled():
                    self.turn(self.start().lines[0][0])
            case _:
                pass

    def otherwise(self) -> None:
        """A wrong answer first, hints, another allowed turn if there is one, half turns as two quarters."""
        match self.scene:
            case Quiz() | Find():
                self._choose(right=False)
                self._choose(right=True)
            case Ask() as scene:
                if not scene.accept:
                    self.ask_hints()
                if not self.undone:
                    self._wrong_turn_undone(scene)
                self._another_way(scene)
            case Alone() as scene:
                self._another_way(scene)
            case _:
                pass

    def _another_way(self, scene: Ask | Alone) -> None:
        if scene.accept:
            for turn in scene.accept[-1]:
                self.turn(turn, halves=True)
        for made in self._until_settled():
            start = self.start()
            asked = start.lines[0][0]
            # Acceptable turns alone could go round in circles.
            wanted = (Verdict.OPTIMAL, Verdict.ACCEPTABLE) if made < 2 else (Verdict.OPTIMAL,)
            others = [turn for verdict in wanted for turn in start.turns(verdict) if turn is not asked]
            nearer = [turn for turn in others if made < 2 or start.continuations[turn].by_hand is not None]
            turn = nearer[-1] if nearer and made < 4 else asked
            self.others += turn is not asked
            self.turn(turn, halves=True)

    def _wrong_turn_undone(self, scene: Ask) -> None:
        """A Detour, or where only some turns answer the scene another one, made and undone."""
        start = self.start()
        layers = {turns[0].face for turns in scene.accept}
        wrong = start.turns(Verdict.DETOUR) or tuple(turn for turn in TURNS if turn.face not in layers)
        before = held(self.played).attempt.cube
        self.turn(next(turn for turn in wrong if turn.quarters != 2 and turn.face not in layers))
        self.pilot.press(Act.UNDO)
        self.pilot.settle()
        self.look()
        assert held(self.played).attempt.cube == before
        self.undone += 1

    def _choose(self, *, right: bool) -> None:
        offered = options(self.scene)
        index = next(at for at, (_, true) in enumerate(offered) if true is right)
        self.pilot.key(str(index + 1))
        self.pilot.settle()
        self.look()

    def _until_settled(self) -> Iterator[int]:
        """Counts turns while the scene still asks for some."""
        for made in range(MOST_TURNS):
            if settled(self.pilot.session):
                return
            yield made
        raise AssertionError(f"{self.name}, scene {held(self.played).scene}: no end is reached")


def played_through(pilot: Pilot, name: str, *, other: bool) -> Play:
    """A lesson from its first scene to its last."""
    play = Play(pilot, name)
    pilot.press(f"lesson:0:0:{name}")
    pilot.settle()
    while play.open:
        play.look()
        if isinstance(play.scene, Show):
            play.watch()
        elif other:
            play.otherwise()
        else:
            play.as_asked()
        play.look()
        play.go_on()
    return play
