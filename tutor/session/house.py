"""The session's whole state as one immutable value, and what a screen is to all that knows no screen: a room.

The kernel calls a room by what is here, and by nothing else. What a room has no use for stays as it is here.
Every method that is given a session is a pure function of it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

from tutor.coach.guidance import Guidance
from tutor.cube.faces import Face
from tutor.cube.held_cube import HeldCube
from tutor.cube.notation import Move
from tutor.cube.position import Position, Slot
from tutor.method.cases import Case
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
from tutor.session.state import Attempt, LessonTitle, Sheet, Writing
from tutor.session.timeline import Timeline
from tutor.ui.action import Action
from tutor.ui.view import REST_CAMERA, Button, Camera, Stage, Turning, View


@dataclass(frozen=True, slots=True, eq=False)
class Session:
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
    """Where the learner stands with each case met, by the case's slug."""
    places: tuple[tuple[str, int], ...] = ()
    """Where each lesson was left, by each learner; see ``places.places_of``."""
    timeline: Timeline = field(default_factory=Timeline)
    demonstration: Demonstration | None = None
    answers: Answers = field(default_factory=Answers)
    camera: Camera = field(default_factory=Camera)
    dragged: Turning | None = None
    """The layer that follows the hand."""
    faded_from: tuple[HeldCube, float] | None = None
    """With reduced motion: the cube faded from, and when the fade began."""
    writing: Writing = field(default_factory=Writing)
    sheet: Sheet = Sheet.NONE
    notice: str = ""
    saving: Saving = field(default_factory=Saving)
    failure: str = ""
    """What went wrong inside, told on a card; empty when nothing did."""
    coming: str = ""
    """What is being opened, in words; forgotten when one goes elsewhere."""
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
    def covered(self) -> bool:
        """Whether something lies over the screen."""
        return self.sheet is not Sheet.NONE or bool(self.failure)


Update = tuple[Session, tuple[Effect, ...]]


class Room:
    """A screen with all that is its own. It keeps its values in the session, with holders of its own."""

    name: str = ""
    """What it is called, in one or two words; no other room has the name."""
    up: str = ""
    """The room that closing it leads to; empty for the first of the house."""
    shows: Shows = Shows.NO_CUBE
    keys: tuple[Binding, ...] = ()
    """Its own keys, beside those that all rooms have."""
    reasoned: bool = False
    """Whether the coach tells what each turn shown does."""
    bar_label: str = ""
    """What leads to it from the bar of every other room; empty when nothing does."""

    # ------------------------------------------------------------------------------- coming and going

    def door(self, session: Session) -> Button | None:
        """What leads to it from the room above; None when nothing there does."""

    def begun(self, session: Session) -> Session:
        """The session at its very beginning, or with another cross colour chosen."""
        return session

    def opened(self, session: Session, now: float) -> Session:
        """One has come here, or come back; nothing lies over it and nothing is on the way."""
        return session

    def left(self, session: Session) -> Session:
        """One goes elsewhere."""
        return session

    def closed(self, session: Session, now: float) -> Session | None:
        """With the uppermost thing that is open here closed; None when nothing is, and one leaves."""

    def learner_changed(self, session: Session) -> Session:
        """Somebody else learns now: what belonged to the other is put away."""
        return session

    def page(self, session: Session) -> object:
        """What is open of it: when that changes, nothing has the keyboard's focus any more."""
        return None

    # ------------------------------------------------------------------------------- the cube in hand

    def attempt(self, session: Session) -> Attempt | None:
        """The cube in hand, with what is aimed at."""

    def with_attempt(self, session: Session, attempt: Attempt) -> Session:
        """The session with another cube in hand."""
        return session

    def followed(self, session: Session, attempt: Attempt) -> Attempt:
        """The attempt after its history changed; hints have fallen away already."""
        return attempt

    def turns_allowed(self, session: Session) -> bool:
        """Whether the cube is the learner's to turn now."""
        return False

    def rotations_allowed(self, session: Session) -> bool:
        """Whether the cube may be taken in hand another way now."""
        return self.turns_allowed(session)

    def going_allowed(self, session: Session) -> bool:
        """Whether one may go to and fro among the moves made."""
        return self.turns_allowed(session)

    def hints_allowed(self, session: Session) -> bool:
        """Whether a hint may be asked for now."""
        return self.turns_allowed(session) and not self.silent(session)

    def many_together(self, session: Session) -> bool:
        """Whether very many written moves may be made in one go."""
        return False

    def refused(self, session: Session) -> str:
        """Why a turn is not made."""
        return words.NOT_NOW

    def silent(self, session: Session) -> bool:
        """Whether no verdicts and hints are given."""
        return False

    def cross(self, session: Session) -> Face:
        """The cross colour that is worked with."""
        return session.settings.cross

    def rail_from(self, session: Session, attempt: Attempt) -> int:
        """How many moves of the history come before those on the rail."""
        return min(attempt.since, attempt.history.cursor)

    def turned(self, session: Session, move: Move, now: float) -> Session | None:
        """What a turn means where it is not made but answers something; None where it is made."""

    def halved(self, session: Session) -> Session | None:
        """What making it a half turn means there; None where the cube is turned."""

    def noted(self, session: Session, move: Move, now: float, *, with_last: bool) -> Session:
        """A turn is about to be made: what is to be kept of it. ``with_last``: it goes on with the last."""
        return session

    def hinted(self, session: Session, rung: int, now: float) -> Session:
        """A hint was asked for: what is to be kept of it."""
        return session

    def checked(self, session: Session, now: float) -> Session:
        """The cube, or what is known of it, changed: whether that answers or ends something."""
        return session

    def revealed(self, session: Session, now: float) -> Session:
        """Verdicts are asked for where none are given."""
        return session

    # ---------------------------------------------------------------------------------- what is shown

    def shows_by_itself(self, session: Session) -> bool:
        """Whether what is shown belongs to what is asked here, and is not to be closed."""
        return False

    def handed_over(self, session: Session, now: float) -> Session:
        """What is shown by itself was seen to its end, or gone on from: the cube is the learner's."""
        return session

    def shown_from(self, session: Session, attempt: Attempt) -> tuple[int, ...]:
        """After how many moves the case to show may begin, the first choice first."""
        return min(attempt.since, attempt.history.cursor), attempt.history.cursor

    def rest_camera(self, session: Session) -> Camera:
        """Where the view goes back to."""
        return REST_CAMERA

    # ----------------------------------------------------------------------------- what else is asked

    def does(self, session: Session, command: RoomCommand, now: float) -> Update:
        """Carry out a command of its own, wherever one is."""
        raise NotImplementedError(f"{self.name} has no commands of its own")

    def gone_on(self, session: Session, now: float) -> Update:
        """Go on: Space, or Enter where nothing has the focus."""
        return session, ()

    def chosen(self, session: Session, index: int, now: float) -> Session:
        """The answer at this place, counted from 0, was chosen."""
        return session

    def choosing(self, session: Session) -> bool:
        """Whether digits choose answers now."""
        return False

    def pointed(self, session: Session, sticker: int, now: float) -> Session:
        """A sticker was pointed at."""
        return session

    def writes(self, session: Session) -> bool:
        """Whether something can be written here now."""
        return self.attempt(session) is not None and self.turns_allowed(session)

    def submitted(self, session: Session, now: float) -> Update | None:
        """What was written is to be taken; None where it is moves to make."""

    def slot_chosen(self, session: Session, slot: Slot) -> Session:
        """The pair of this slot as held is to be taken on."""
        return session

    def slot_stepped(self, session: Session, step: int) -> Session:
        """The next slot's pair is to be taken on, or with -1 the one before."""
        return session

    def scrambled(self, session: Session) -> Update:
        """Another cube is wanted."""
        return session, ()

    def drawn(self, session: Session, position: Position, now: float) -> Session:
        """The random position asked for has come."""
        return session

    def told(self, session: Session, command: StoreAnswer, now: float) -> Update | None:
        """The store has answered, which means more here. Asked of every room; None: it means no more."""

    # ------------------------------------------------------------------------- after every command

    def clocked(self, session: Session, now: float, *, seen: bool) -> Session:
        """Its clocks: time out of sight is no time of a try. Asked of every room."""
        return session

    def finished(self, session: Session, now: float) -> Update:
        """Attempts that are over are handed to the store, once. Asked of every room."""
        return session, ()

    def needed(self, session: Session) -> tuple[Key, ...]:
        """The answers without which what is over cannot be kept. Asked of every room."""
        return ()

    def kept_up(self, before: Session, after: Session, filed: Iterable[Effect], now: float) -> Update:
        """What else follows here from whatever was done; ``filed`` goes to the store. Asked of every room."""
        return after, ()

    def questions(self, session: Session) -> tuple[Question, ...]:
        """What should be known about a whole solve while it is open, the most needed first."""
        return ()

    def due(self, session: Session, now: float) -> RoomCommand | None:
        """What the clock asks for now while it is open."""

    def watched(self, session: Session) -> tuple[str, Effect] | None:
        """The lesson whose file is to be looked at, and what to ask when it changed. Asked of every room."""

    def heard(self, session: Session) -> bool:
        """Whether turns made here are heard by those who want to hear turns."""
        return True

    # ---------------------------------------------------------------------------------------- seen

    def view(self, session: Session, now: float) -> View:
        """All that is seen of it at a moment."""
        raise NotImplementedError

    def marked(self, session: Session, attempt: Attempt, stage: Stage) -> Stage | None:
        """The stage as it marks it itself; None where the pair is marked as usual."""

    def pointed_out(self, session: Session, cube: HeldCube) -> frozenset[int]:
        """Cubies that are lit beside what is marked, on a cube as held."""
        return frozenset()

    def shown_case(self, session: Session) -> tuple[Case, Slot, int] | None:
        """The case on the screen with its slot and alignment, where there is one by its name."""

    def shown_word(self, session: Session, shown: Demonstration) -> str:
        """What is shown, in a word for the name of a file."""
        return "route"

    def title(self, session: Session) -> str:
        """What is on the screen, as the title of what is saved of it."""
        return self.name.capitalize()

    def file_name(self, session: Session) -> str:
        """What a file of it is called, without its end; empty for the usual name."""
        return ""

    def hides(self, session: Session) -> bool:
        """Whether showing turns would tell what is asked here."""
        return self.silent(session)

    def saving_buttons(self, session: Session) -> tuple[Button, ...]:
        """What saves something here that is no stage."""
        return ()

    def picture(self, session: Session) -> Update | None:
        """A picture of it is to be saved, where that is more than its stage."""


class House:
    """All rooms, in the order in which they are listed; one is at first in the first of them."""

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
        """The rooms that do more than every room does where ``method``, one of ``Room``'s, is asked for."""
        name = method.__name__
        if name not in self._with_own:
            own = (room for room in self.rooms if getattr(type(room), name) is not getattr(Room, name))
            self._with_own[name] = tuple(own)
        return self._with_own[name]

    @property
    def first(self) -> Room:
        """The room in which one begins, and to which everything leads back."""
        return self.rooms[0]

    def above(self, room: Room) -> Room:
        """The room that closing another leads to."""
        return self._by_name.get(room.up, self.first)

    def leads_somewhere(self, action: Action | None) -> bool:
        """Whether what is pressed belongs to a room that is there, or to no room alone."""
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
