"""The screen of looking ahead: two pieces in an otherwise blank cube, then where they are."""

from __future__ import annotations

from dataclasses import replace
from math import floor

from tutor.coach.catalogue import ENGLISH, capitalised
from tutor.coach.solve_review_sentences import pair_name
from tutor.cube.faces import Face
from tutor.cube.geometry import STICKERS, cubie_number
from tutor.cube.held_cube import HeldCube
from tutor.method.advice import PlanQuestion
from tutor.screens.looking_ahead.commands import AheadAct
from tutor.screens.looking_ahead.state import LOOKING, PACES, LookingAhead, Watch
from tutor.screens.looking_ahead.update import asking, place_words, places
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
        return screen_view(session, "Looking ahead", page=((Text(ENGLISH.say("ahead.waiting")),),))
    return screen_view(
        session,
        "Looking ahead",
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
    if looking.watch in (Watch.WAITING, Watch.OVER):
        return stage
    if looking.watch is Watch.TOLD:
        return replace(stage, outlined=frozenset(looking.pieces(cube) or ()))
    return replace(stage, colours=_bared(cube, _seen(looking, cube)))


def _seen(looking: LookingAhead, cube: HeldCube) -> tuple[int, ...]:
    """The cubies shown: both before the turns, none when they are asked for, each once it is answered."""
    pieces = looking.pieces(cube) or ()
    return pieces if looking.watch is Watch.READY else pieces[: len(looking.pointed)]


def _played(session: Session, looking: LookingAhead, playing: Demonstration, now: float) -> Stage:
    pose = playing.pose(now)
    if pose.turning is None or not session.settings.reduced_motion or not playing.playing:
        colours = _bared(pose.cube, looking.pieces(pose.cube) or ())
        return Stage(colours, turning=pose.turning, camera=session.camera)
    playhead = playing.playhead(now)
    index = floor(playhead)
    before, after = (playing.start.after(playing.turns[:count]) for count in (index, index + 1))
    return Stage(
        _bared(after, looking.pieces(after) or ()),
        camera=session.camera,
        crossfade=_bared(before, looking.pieces(before) or ()),
        crossfade_mix=ease(playhead - index),
    )


def _bared(cube: HeldCube, cubies: tuple[int, ...]) -> tuple[int, ...]:
    """The stickers of a cube, all hidden but those on these cubies."""
    shown = {sticker for cubie in cubies for sticker in _STICKERS_OF[cubie]}
    return tuple(colour if place in shown else HIDDEN for place, colour in enumerate(cube.colours))


# ------------------------------------------------------------------------------------------- the card


def _card(session: Session, looking: LookingAhead, now: float) -> tuple[Block, ...]:
    blocks: list[Block] = [*_told(looking), *_step(session, looking, now)]
    if looking.asked:
        score = ENGLISH.say("ahead.score", right=str(looking.right), asked=str(looking.asked))
        blocks.append(Text(score, TextStyle.SMALL, Tone.MUTED))
    blocks.append(_pace(looking))
    if session.house[SOLVE].attempt(session) is not None:
        blocks.append(Button(Open(SOLVE), "Back to the solve"))
    return tuple(blocks)


def _step(session: Session, looking: LookingAhead, now: float) -> tuple[Block, ...]:
    kind = asking(session, now)
    if kind:
        return _question(session, looking, kind, now)
    match looking.watch:
        case Watch.WAITING:
            asked = PlanQuestion(looking.cube.position)
            return unknown_blocks(session, asked, ENGLISH.say("ahead.waiting"))
        case Watch.READY:
            said = ENGLISH.say("ahead.ready", name=_name(session, looking, 1))
            return (Text(said, TextStyle.QUESTION), Button(Act.NEXT, "Start", primary=True))
        case Watch.PLAYING:
            playing = session.demonstration
            moving = playing is not None and playing.moving(now)
            said = ENGLISH.say(
                "ahead.playing", name=_name(session, looking, 0), next=_name(session, looking, 1)
            )
            return (Text(said), Button(Act.NEXT, "Pause" if moving else "Play on", primary=True))
        case Watch.TOLD:
            return _onward(session, looking)
        case _:
            return _over()


def _question(session: Session, looking: LookingAhead, kind: str, now: float) -> tuple[Block, ...]:
    offered = places(session, now)
    buttons = tuple(
        Button(ChooseAnswer(index), words, str(index + 1) if index < 8 else "")
        for index, (words, _) in enumerate(offered)
    )
    asked = ENGLISH.say(f"ahead.{kind}", name=_name(session, looking, 1))
    return (Text(asked, TextStyle.QUESTION), *buttons)


def _told(looking: LookingAhead) -> tuple[Block, ...]:
    """What came of the answers given in this round."""
    pieces = looking.pieces(looking.end)
    if pieces is None:
        return ()
    notes = []
    for kind, given, cubie in zip(("corner", "edge"), looking.pointed, pieces, strict=False):
        right = given == cubie
        place = _place(cubie)
        text = ENGLISH.say(
            "ahead.right" if right else "ahead.wrong", piece=ENGLISH.say(f"brief.{kind}"), place=place
        )
        title, _, rest = text.partition(": ")
        notes.append(VerdictNote(Mark.OPTIMAL if right else Mark.DETOUR, title, capitalised(rest)))
    return tuple(notes)


def _place(cubie: int) -> str:
    """A place in the middle of a sentence; sticker places are numbered face by face."""
    words = place_words(tuple(Face(sticker // 9) for sticker in _STICKERS_OF[cubie]))
    return words[0].lower() + words[1:]


def _onward(session: Session, looking: LookingAhead) -> tuple[Block, ...]:
    again = Button(AheadAct.SEE_AGAIN, "See these turns again")
    if len(looking.stages) < 3:
        return (Button(Act.NEXT, "Go on", primary=True), again)
    said = ENGLISH.say("ahead.next", name=_name(session, looking, 2))
    return (Text(said), Button(Act.NEXT, "Go on", primary=True), again)


def _over() -> tuple[Block, ...]:
    return (
        Text(ENGLISH.say("ahead.over")),
        Button(AheadAct.ANEW, "Another position", primary=True),
    )


def _pace(looking: LookingAhead) -> ButtonRow:
    slower = Button(AheadAct.CALMER, "Slower", enabled=looking.pace > PACES[0])
    faster = Button(AheadAct.QUICKER, "Faster", enabled=looking.pace < PACES[-1])
    return ButtonRow((slower, faster))


def _name(session: Session, looking: LookingAhead, number: int) -> str:
    """The pair of a stage by its colours."""
    colours = colours_as_held(looking.cube, session.settings.colour_names)
    return pair_name(looking.stages[number].slot, colours)


def _rail(session: Session, looking: LookingAhead, now: float) -> Rail:
    """How many of the turns have been played; which they are is not told."""
    playing = session.demonstration
    said = ENGLISH.say("ahead.pace", pace=str(looking.pace))
    if playing is not None and not playing.finished(now):
        said = f"{said} · {floor(playing.playhead(now))} / {len(looking.turns)}"
    return Rail(caption=said)
