"""The screen of looking ahead: two pieces in an otherwise blank cube, then where they are."""

from __future__ import annotations

from msgspec.structs import replace

from tutor.coach.solve_review_sentences import pair_name
from tutor.cube.geometry import STICKERS, cubie_number
from tutor.cube.held_cube import HeldCube
from tutor.method.advice import PlanQuestion
from tutor.screens.looking_ahead import words
from tutor.screens.looking_ahead.commands import AheadAct
from tutor.screens.looking_ahead.misses import faces_of, miss_words
from tutor.screens.looking_ahead.state import LOOKING, PACES, LookingAhead, RoundPhase
from tutor.screens.looking_ahead.update import asking, places
from tutor.screens.parts.card import unknown_blocks
from tutor.screens.parts.frame import screen_view
from tutor.screens.solve.commands import NAME as SOLVE
from tutor.session.commands import Act, ChooseAnswer, Open
from tutor.session.demonstration import Demonstration
from tutor.session.house import Session
from tutor.session.target import colours_as_held
from tutor.session.timeline import ease
from tutor.ui.view import (
    HIDDEN,
    Block,
    Button,
    ButtonRow,
    Mark,
    Rail,
    Stage,
    Text,
    TextStyle,
    Tone,
    VerdictNote,
    View,
)

_CUBIES = tuple(cubie_number(cubie) for cubie, _ in STICKERS)
_STICKERS_OF = {
    number: tuple(sticker for sticker, cubie in enumerate(_CUBIES) if cubie == number) for number in _CUBIES
}


def looking_view(session: Session, now: float) -> View:
    """The exercise at a moment."""
    looking = LOOKING.of(session)
    if looking is None:
        return screen_view(session, words.TITLE, page=((Text(words.WAITING),),))
    return screen_view(
        session,
        words.TITLE,
        stage=_stage(session, looking, now),
        card=_card(session, looking, now),
        rail=_rail(session, looking, now),
    )


# ------------------------------------------------------------------------------------------ the stage


def _stage(session: Session, looking: LookingAhead, now: float) -> Stage:
    playing = session.demonstration
    if playing is not None and not playing.finished(now):
        return _played(session, looking, playing, now)
    cube = looking.end if playing is not None else looking.shown
    stage = Stage(cube.colours, camera=session.camera)
    if looking.watch in (RoundPhase.WAITING, RoundPhase.OVER):
        return stage
    if looking.watch is RoundPhase.TOLD:
        return replace(stage, outlined=frozenset(looking.pieces(cube) or ()))
    return replace(stage, colours=_bared(cube, _seen(looking, cube)))


def _seen(looking: LookingAhead, cube: HeldCube) -> tuple[int, ...]:
    """The cubies shown: both before the turns, none when they are asked for, each once it is answered."""
    pieces = looking.pieces(cube) or ()
    return pieces if looking.watch is RoundPhase.READY else pieces[: len(looking.pointed)]


def _played(session: Session, looking: LookingAhead, playing: Demonstration, now: float) -> Stage:
    pose = playing.pose(now)
    if pose.turning is None or not session.settings.reduced_motion or not playing.playing:
        colours = _bared(pose.cube, looking.pieces(pose.cube) or ())
        return Stage(colours, turning=pose.turning, camera=session.camera)
    beat = playing.beat(now)
    before, after = (playing.start.after(playing.turns[: beat.turn + made]) for made in (0, 1))
    return Stage(
        _bared(after, looking.pieces(after) or ()),
        camera=session.camera,
        crossfade=_bared(before, looking.pieces(before) or ()),
        crossfade_mix=ease(beat.share),
    )


def _bared(cube: HeldCube, cubies: tuple[int, ...]) -> tuple[int, ...]:
    """The stickers of a cube, all hidden but those on these cubies."""
    shown = {sticker for cubie in cubies for sticker in _STICKERS_OF[cubie]}
    return tuple(colour if place in shown else HIDDEN for place, colour in enumerate(cube.colours))


# ------------------------------------------------------------------------------------------- the card


def _card(session: Session, looking: LookingAhead, now: float) -> tuple[Block, ...]:
    blocks: list[Block] = [*_told(session, looking), *_step(session, looking, now)]
    if looking.asked:
        score = words.score(looking.right, looking.asked)
        blocks.append(Text(score, TextStyle.SMALL, Tone.MUTED))
    blocks.append(_pace(session, looking))
    if session.house[SOLVE].attempt(session) is not None:
        blocks.append(Button(Open(SOLVE), words.BACK_TO_SOLVE))
    return tuple(blocks)


def _step(session: Session, looking: LookingAhead, now: float) -> tuple[Block, ...]:
    kind = asking(session, now)
    if kind:
        return _question(session, looking, kind, now)
    match looking.watch:
        case RoundPhase.WAITING:
            asked = PlanQuestion(looking.cube.position)
            return unknown_blocks(session, asked, words.WAITING)
        case RoundPhase.READY:
            said = words.ready(_name(session, looking, 1))
            return (Text(said, TextStyle.QUESTION), Button(Act.NEXT, words.START, primary=True))
        case RoundPhase.PLAYING:
            playing = session.demonstration
            moving = playing is not None and playing.moving(now)
            said = words.playing(_name(session, looking, 0), _name(session, looking, 1))
            label = words.PAUSE if moving else words.CONTINUE
            return (Text(said), Button(Act.NEXT, label, primary=True))
        case RoundPhase.TOLD:
            return _onward(session, looking)
        case _:
            return _over()


def _question(session: Session, looking: LookingAhead, kind: str, now: float) -> tuple[Block, ...]:
    offered = places(session, now)
    buttons = tuple(
        Button(ChooseAnswer(index), place, str(index + 1) if index < 8 else "", choice=True)
        for index, (place, _) in enumerate(offered)
    )
    asked = words.where_is(kind, _name(session, looking, 1))
    return (Text(asked, TextStyle.QUESTION), *buttons)


def _told(session: Session, looking: LookingAhead) -> tuple[Block, ...]:
    """What came of the answers given in this round."""
    pieces = looking.pieces(looking.end)
    if pieces is None:
        return ()
    colours, notes = _colours(session, looking), []
    for kind, given, cubie in zip(("corner", "edge"), looking.pointed, pieces, strict=False):
        if given == cubie:
            notes.append(VerdictNote(Mark.OPTIMAL, words.RIGHT, words.it_is(kind, faces_of(cubie))))
        else:
            notes.append(VerdictNote(Mark.DETOUR, words.WRONG, miss_words(looking, kind, given, colours)))
    return tuple(notes)


def _onward(session: Session, looking: LookingAhead) -> tuple[Block, ...]:
    again = Button(AheadAct.SEE_AGAIN, words.SEE_AGAIN)
    if len(looking.stages) < 3:
        return (Button(Act.NEXT, words.FINISH, primary=True), again)
    said = words.next_round(_name(session, looking, 2))
    return (Text(said), Button(Act.NEXT, words.NEXT_PAIR, primary=True), again)


def _over() -> tuple[Block, ...]:
    return (Text(words.OVER), Button(AheadAct.ANEW, words.ANOTHER, primary=True))


def _pace(session: Session, looking: LookingAhead) -> ButtonRow:
    # Their keys look up and down while no turns are being played.
    key = "" if session.demonstration is None else None
    slower = Button(AheadAct.CALMER, words.SLOWER, key, enabled=looking.pace > PACES[0])
    faster = Button(AheadAct.QUICKER, words.FASTER, key, enabled=looking.pace < PACES[-1])
    return ButtonRow((slower, faster))


def _name(session: Session, looking: LookingAhead, number: int) -> str:
    """The pair of a stage by its colours."""
    return pair_name(looking.stages[number].slot, _colours(session, looking))


def _colours(session: Session, looking: LookingAhead) -> tuple[str, ...]:
    """The colour words of the faces as held."""
    return colours_as_held(looking.cube, session.settings.colour_names)


def _rail(session: Session, looking: LookingAhead, now: float) -> Rail:
    """Which of the turns is being played; nothing says what it is."""
    playing = session.demonstration
    if playing is None or playing.finished(now):
        return Rail(caption=words.pace(looking.pace))
    return Rail(caption=words.pace_and_turn(looking.pace, playing.beat(now).turn + 1, len(looking.turns)))
