"""The session's state as one immutable value, and the room: what the kernel knows of a screen.

The kernel calls a room through these methods and through nothing else. A room overrides those that it needs.
Every method that takes a session is a pure function of it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from types import MappingProxyType

from msgspec import Struct, field

from tutor.coach.feedback import Shown
from tutor.coach.guidance import Guidance
from tutor.cube.faces import Face, Turn
from tutor.cube.held_cube import HeldCube
from tutor.cube.notation import Move
from tutor.cube.position import Position, Slot
from tutor.method.cases import Case
from tutor.progress.presence import Engaged
from tutor.session import words
from tutor.session.advice_cache import Advices
from tutor.session.answers import Answers, Key
from tutor.session.binding import Binding, Shows
from tutor.session.commands import Open, Question, RoomCommand
from tutor.session.demonstration import Demonstration
from tutor.session.effect import Effect
from tutor.session.learner_records import Records
from tutor.session.record_commands import StoreAnswer
from tutor.session.saving_commands import Saving
from tutor.session.settings import Settings
from tutor.session.state import Attempt, LessonPlace, LessonTitle, Sheet, Writing
from tutor.session.timeline import Timeline
from tutor.session.turns_taken import TurnTaken
from tutor.ui.action import Action
from tutor.ui.view import REST_CAMERA, Button, Camera, Stage, Turning, View


class Session(Struct, frozen=True, eq=False):
    """Everything the program knows while it runs. Compared by identity: every change makes a new one.

    What belongs to one room is in ``held``, which the room reads and writes with its own ``Holder``.
    """

    house: House
    settings: Settings
    lessons: tuple[LessonTitle, ...]
    screen: str = ""
    """The name of the open room; empty before the first is entered."""
    held: Mapping[str, object] = field(default_factory=lambda: MappingProxyType({}))
    advices: Advices = field(default_factory=Advices)
    records: Records = field(default_factory=Records)
    guidance: tuple[tuple[str, Guidance], ...] = ()
    """What guidance the learner needs for each case met, by the case's slug."""
    places: tuple[LessonPlace, ...] = ()
    """Where each learner left each lesson; see ``places.places_of``."""
    timeline: Timeline = field(default_factory=Timeline)
    demonstration: Demonstration | None = None
    answers: Answers = field(default_factory=Answers)
    camera: Camera = field(default_factory=Camera)
    dragged: Turning | None = None
    """The layer that follows the hand."""
    dragged_since: float = 0.0
    """When the hand took hold of it."""
    sprung_back: bool = False
    """Whether a layer that was dragged too little has sprung back once, and the learner was told why."""
    faded_from: tuple[HeldCube, float] | None = None
    """With reduced motion: the cube faded from, and when the fade began."""
    writing: Writing = field(default_factory=Writing)
    sheet: Sheet = Sheet.NONE
    told: tuple[str, ...] = ()
    """What the sheet tells that says what is wrong: its heading, and a paragraph for each thing."""
    full_screen: bool = False
    """Whether the window fills the screen; nobody keeps that for the next time."""
    notice: str = ""
    saving: Saving = field(default_factory=Saving)
    failure: str = ""
    """What went wrong inside, for a card; empty when nothing did."""
    coming: str = ""
    """What the program is opening, in words; forgotten when the learner leaves the room."""
    shifted: HeldCube | None = None
    """The cube after the turn made last by a key with Shift."""
    shift_told: HeldCube | None = None
    """The cube at which the card says, once, that Shift turns a layer the other way; None before that."""
    all_turns: bool = False
    """Whether there are turn buttons for all 18 turns, where there are any."""
    told_more_at: tuple[object, ...] | None = None
    """The place at which the learner asked to be told more; anywhere else a card is brief again."""
    draw_request: int = 0
    """Number of the random position asked for last; 0 before the first."""

    @property
    def room(self) -> Room:
        """The open room."""
        return self.house[self.screen]

    @property
    def attempt(self) -> Attempt | None:
        """The cube in hand in the open room, if it has one."""
        return self.room.attempt(self)

    @property
    def place(self) -> tuple[object, ...]:
        """Where the learner is: the screen, its page and the cube in hand."""
        attempt = self.attempt
        return self.screen, self.room.page(self), None if attempt is None else attempt.cube

    @property
    def tells_more(self) -> bool:
        """Whether the card says all that it could."""
        return self.told_more_at is not None and self.told_more_at == self.place

    @property
    def covered(self) -> bool:
        """Whether something lies over the screen."""
        return self.sheet is not Sheet.NONE or bool(self.failure)


Update = tuple[Session, tuple[Effect, ...]]


class Room:
    """A screen with all that belongs to it. It keeps its values in the session, with holders of its own."""

    name: str = ""
    """Its name, in one or two words; no other room has it."""
    up: str = ""
    """The room that closing it leads to; empty for the first of the house."""
    shows: Shows = Shows.NO_CUBE
    keys: tuple[Binding, ...] = ()
    """Its own keys, beside those that all rooms have."""
    waits: bool = False
    """Whether turns shown here wait for the person at every beat, unless the settings say otherwise."""
    cross_hints: bool = False
    """Whether hints are for the cross as well, until it is solved."""
    bar_label: str = ""
    """The label of the button that leads to it from every other room's bar; empty without one."""

    # ------------------------------------------------------------------------------- coming and going

    def door(self, session: Session) -> Button | None:
        """The button that leads to it from the room above; None without one."""

    def begun(self, session: Session) -> Session:
        """The session at its very beginning, or with another cross colour chosen."""
        return session

    def opened(self, session: Session, now: float) -> Session:
        """The session after the learner has come here; nothing lies over it, nothing is on the way."""
        return session

    def left(self, session: Session) -> Session:
        """The session after the learner has left."""
        return session

    def closed(self, session: Session, now: float) -> Session | None:
        """With the uppermost open thing here closed; None when nothing is open, and the learner leaves."""

    def learner_changed(self, session: Session) -> Session:
        """Without what belonged to the learner before: somebody else learns now."""
        return session

    def page(self, session: Session) -> object:
        """The page that is open; when it changes, nothing has the keyboard's focus any more."""
        return None

    def engaged(self, session: Session) -> Engaged:
        """What the learner is at here, as other windows on a shared folder are told."""
        return Engaged()

    def turns_tried(self, session: Session) -> tuple[TurnTaken, ...]:
        """Every turn made in the task in hand, those taken back included, where the room keeps them."""
        return ()

    # ------------------------------------------------------------------------------- the cube in hand

    def attempt(self, session: Session) -> Attempt | None:
        """The cube in hand, with the pair to solve."""

    def with_attempt(self, session: Session, attempt: Attempt) -> Session:
        """The session with another cube in hand."""
        return session

    def followed(self, session: Session, attempt: Attempt) -> Attempt:
        """The attempt after its history changed; its hints are gone already."""
        return attempt

    def turns_allowed(self, session: Session) -> bool:
        """Whether the learner may turn the cube now."""
        return False

    def rotations_allowed(self, session: Session) -> bool:
        """Whether the learner may rotate the cube now."""
        return self.turns_allowed(session)

    def going_allowed(self, session: Session) -> bool:
        """Whether the learner may undo, redo and jump among the moves made."""
        return self.turns_allowed(session)

    def hints_allowed(self, session: Session) -> bool:
        """Whether the learner may ask for a hint now."""
        return self.turns_allowed(session) and not self.silent(session)

    def turns_to_read(self, session: Session) -> tuple[Turn, ...]:
        """Where turning itself is taught: the turns to make, of which no step is named. Empty elsewhere."""
        return ()

    def starts_with_turn_buttons(self, session: Session) -> bool:
        """Whether there are turn buttons here before the learner has chosen where they are."""
        return False

    def hint_refused(self, session: Session) -> str:
        """Why the learner gets no hint here, where the room has a word of its own for it."""
        return ""

    def way_refused(self, session: Session) -> str:
        """Why the way is not shown now, where the room has a question open that it would answer."""
        return ""

    def many_together(self, session: Session) -> bool:
        """Whether the program makes very many written moves in one go."""
        return False

    def refused(self, session: Session) -> str:
        """Why the learner cannot turn the cube."""
        return words.NOT_NOW

    def silent(self, session: Session) -> bool:
        """Whether the room gives no verdicts and hints."""
        return False

    def cross(self, session: Session) -> Face:
        """The cross colour in this room."""
        return session.settings.cross

    def rail_from(self, session: Session, attempt: Attempt) -> int:
        """How many moves of the history come before those on the rail."""
        return min(attempt.since, attempt.history.cursor)

    def turned(self, session: Session, move: Move, now: float) -> Session | None:
        """The session after a turn that answers a question; None where a turn moves the cube."""

    def halved(self, session: Session) -> Session | None:
        """The session after such a turn becomes a half turn; None where a turn moves the cube."""

    def turned_over(self, session: Session) -> Session | None:
        """The session after such a turn goes the other way; None where a turn moves the cube."""

    def noted(self, session: Session, move: Move, now: float, *, with_last: bool) -> Session:
        """With a note of a turn that is about to be made; ``with_last``: it joins the turn made last."""
        return session

    def hinted(self, session: Session, rung: int, now: float) -> Session:
        """With a note of a hint that the learner has asked for."""
        return session

    def checked(self, session: Session, now: float) -> Session:
        """The session after the cube changed, or an answer came: that may answer or end something."""
        return session

    def revealed(self, session: Session, now: float) -> Session:
        """With the verdicts that the learner asks for where the room gives none."""
        return session

    # ---------------------------------------------------------------------------------- what is shown

    def shows_by_itself(self, session: Session) -> bool:
        """Whether the turns shown belong to the task here, so that Esc does not close them."""
        return False

    def said(self, session: Session, index: int) -> Shown | None:
        """What there is to read here of a turn shown, where the room tells it itself; None for the coach."""

    def handed_over(self, session: Session, now: float) -> Session:
        """The session once the learner has watched what the room shows by itself: now the learner turns."""
        return session

    def shown_from(self, session: Session, attempt: Attempt) -> tuple[int, ...]:
        """After how many moves the shown way may begin, the first choice first."""
        return min(attempt.since, attempt.history.cursor), attempt.history.cursor

    def rest_camera(self, session: Session) -> Camera:
        """The camera that the view returns to."""
        return REST_CAMERA

    # ----------------------------------------------------------------------------- what else is asked

    def does(self, session: Session, command: RoomCommand, now: float) -> Update:
        """Carry out a command of its own, whichever room is open."""
        raise NotImplementedError(f"{self.name} has no commands of its own")

    def gone_on(self, session: Session, now: float) -> Update:
        """Continue: Space, or Enter where nothing has the focus."""
        return session, ()

    def chosen(self, session: Session, index: int, now: float) -> Session:
        """The session after the learner chose this answer, counted from 0."""
        return session

    def choosing(self, session: Session) -> bool:
        """Whether digits choose answers now."""
        return False

    def pointed(self, session: Session, sticker: int, now: float) -> Session:
        """The session after the learner pointed at a sticker."""
        return session

    def writes(self, session: Session) -> bool:
        """Whether the learner can write here now."""
        return self.attempt(session) is not None and self.turns_allowed(session)

    def submitted(self, session: Session, now: float) -> Update | None:
        """Take what the learner wrote; None where that is moves to make."""

    def slot_chosen(self, session: Session, slot: Slot) -> Session:
        """With the pair of this slot, as held, to solve."""
        return session

    def slot_stepped(self, session: Session, step: int) -> Session:
        """With the pair of the next slot to solve, or with -1 the slot before."""
        return session

    def scrambled(self, session: Session) -> Update:
        """Ask for a new cube."""
        return session, ()

    def drawn(self, session: Session, position: Position, now: float) -> Session:
        """The session with the random position that it asked for."""
        return session

    def told(self, session: Session, command: StoreAnswer, now: float) -> Update | None:
        """What else an answer of the store means here; None for nothing. The kernel asks every room."""

    # ------------------------------------------------------------------------- after every command

    def clocked(self, session: Session, now: float, *, seen: bool) -> Session:
        """With its clocks right: a try takes no time while it is out of sight. The kernel asks every room."""
        return session

    def finished(self, session: Session, now: float) -> Update:
        """Hand finished attempts to the store, each once. The kernel asks every room."""
        return session, ()

    def needed(self, session: Session) -> tuple[Key, ...]:
        """The answers that finished attempts still need. The kernel asks every room."""
        return ()

    def kept_up(self, before: Session, after: Session, filed: Iterable[Effect], now: float) -> Update:
        """What follows here from any command; ``filed`` goes to the store. The kernel asks every room."""
        return after, ()

    def questions(self, session: Session) -> tuple[Question, ...]:
        """Its questions about a whole solve while it is open, the most needed first."""
        return ()

    def due(self, session: Session, now: float) -> RoomCommand | None:
        """The command that is due by the clock now, while the room is open."""

    def watched(self, session: Session) -> tuple[str, Effect] | None:
        """The lesson whose file to watch, and the effect when it changes. The kernel asks every room."""

    def heard(self, session: Session) -> bool:
        """Whether turns made here make a sound, for those who want it."""
        return True

    # ---------------------------------------------------------------------------------------- seen

    def view(self, session: Session, now: float) -> View:
        """All that you see of it at a moment."""
        raise NotImplementedError

    def marked(self, session: Session, attempt: Attempt, stage: Stage) -> Stage | None:
        """The stage with marks of its own; None for the usual marks of the pair."""

    def with_focus(self, session: Session, view: View, focus: Action) -> View:
        """The view with what goes with the button that has the focus."""
        return view

    def pointed_out(self, session: Session, cube: HeldCube) -> frozenset[int]:
        """Cubies that glow beside the marks, on a cube as held."""
        return frozenset()

    def shown_case(self, session: Session) -> tuple[Case, Slot, int] | None:
        """The case on the screen with its slot and alignment, where the screen names one."""

    def shown_word(self, session: Session, shown: Demonstration) -> str:
        """A word for the name of a file with these turns."""
        return "route"

    def title(self, session: Session) -> str:
        """The title of a picture or clip of the screen."""
        return self.name.capitalize()

    def file_name(self, session: Session) -> str:
        """The name of a file of it, without its ending; empty for the usual name."""
        return ""

    def hides(self, session: Session) -> bool:
        """Whether showing turns would give the answer away."""
        return self.silent(session)

    def saving_buttons(self, session: Session) -> tuple[Button, ...]:
        """Buttons that save something other than the stage."""
        return ()

    def picture(self, session: Session) -> Update | None:
        """Save a picture of it, where that is more than its stage."""


class House:
    """All rooms, in their order; the program begins in the first."""

    def __init__(self, rooms: Iterable[Room]) -> None:
        """No two rooms may have one name."""
        self.rooms = tuple(rooms)
        self._by_name = {room.name: room for room in self.rooms}
        self._with_own: dict[str, tuple[Room, ...]] = {}
        if len(self._by_name) < len(self.rooms):
            raise ValueError("two rooms have one name")

    def __getitem__(self, name: str) -> Room:
        return self._by_name[name]

    def __contains__(self, name: str) -> bool:
        return name in self._by_name

    def __iter__(self) -> Iterator[Room]:
        return iter(self.rooms)

    def with_own(self, method: Callable[..., object]) -> tuple[Room, ...]:
        """The rooms that override ``method``, one of ``Room``'s."""
        name = method.__name__
        if name not in self._with_own:
            own = (room for room in self.rooms if getattr(type(room), name) is not getattr(Room, name))
            self._with_own[name] = tuple(own)
        return self._with_own[name]

    @property
    def first(self) -> Room:
        """The room in which the program begins, and to which every room leads back."""
        return self.rooms[0]

    def above(self, room: Room) -> Room:
        """The room that closing another leads to."""
        return self._by_name.get(room.up, self.first)

    def leads_somewhere(self, action: Action | None) -> bool:
        """Whether an action belongs to a room of this house, or to no room alone."""
        match action:
            case Open(name):
                return name in self
            case RoomCommand():
                return action.room in self
            case _:
                return True

    def doors(self, room: Room, session: Session) -> tuple[Button, ...]:
        """The ways from a room to those beneath it."""
        beneath = (each for each in self.rooms if self.above(each) is room and each is not room)
        return tuple(door for each in beneath if (door := each.door(session)) is not None)


def way_to(room: Room, label: str, detail: str = "") -> Button:
    """A button that opens a room."""
    return Button(Open(room.name), label, detail=detail)
