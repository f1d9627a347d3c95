"""A lesson as written: the keys of a script, their types and what each is for.

A script is a TOML file (https://toml.io/en/v1.0.0) with a title, a goal and a list of scenes. The types here
are the format: reading refuses whatever is not in them, and the schema and the tables of lessons/FORMAT.md
are produced from them.
"""

from __future__ import annotations

from typing import Annotated, Any, Literal

import msgspec
from msgspec import Meta, Struct, field

LONGEST_TEXT = 240
"""Most characters on a card, placeholders filled in."""
LONGEST_ANSWER = 90
"""Most characters of one answer to a question, and of one point of a recap."""
LONGEST_TITLE = 48
LONGEST_CAPTION = 90
MOST_SCENES = 60
MOST_PARTS = 20
MOST_ANSWERS = 6
MOST_ACCEPTED = 12
LONGEST_SETUP = 200
"""Most moves of a setup."""
MOST_SHOWN = 40
"""Most turns of one show scene, and of one placeholder."""
MOST_SHOWN_IN_ALL = 400
"""Most turns shown in a lesson."""
LONGEST_NOTATION = 400
"""Most characters of notation in one place."""

SlotName = Literal["FR", "FL", "BL", "BR"]
StepName = Literal["raise", "part", "join", "insert"]
Notation = Annotated[str, Meta(max_length=LONGEST_NOTATION)]
# A text may be longer as written than on the card, since placeholders shrink when they are filled in.
CardText = Annotated[str, Meta(min_length=1, max_length=2 * LONGEST_TEXT)]
ShortText = Annotated[str, Meta(min_length=1, max_length=2 * LONGEST_ANSWER)]
CaseName = Annotated[str, Meta(max_length=200)]
StickerLines = Annotated[str, Meta(max_length=400)]
IdeaName = Annotated[str, Meta(min_length=1, max_length=80)]


class CameraScript(Struct, forbid_unknown_fields=True, frozen=True, kw_only=True):
    """Where the cube is seen from."""

    yaw: Annotated[
        float,
        Meta(ge=-180, le=180, description="degrees round the upright axis; positive shows more of the right"),
    ] = 32.0
    pitch: Annotated[float, Meta(ge=-60, le=60, description="degrees above the horizon")] = 28.0
    zoom: Annotated[float, Meta(ge=0.5, le=2, description="1 is the usual size")] = 1.0


class StepTexts(Struct, forbid_unknown_fields=True, frozen=True, kw_only=True):
    """What is said while each step of a computed route is shown."""

    raising: Annotated[CardText | None, Meta(description="said with Raise")] = field(
        default=None, name="raise"
    )
    part: Annotated[CardText | None, Meta(description="said with Part")] = None
    join: Annotated[CardText | None, Meta(description="said with Join")] = None
    insert: Annotated[CardText | None, Meta(description="said with Insert")] = None


class PartScript(Struct, forbid_unknown_fields=True, frozen=True, kw_only=True):
    """One piece of a shown sequence, with the text that goes with it."""

    turns: Annotated[Notation, Meta(description="the moves of this part, as in WCA Regulations 12a")]
    text: Annotated[CardText | None, Meta(description="said during this part")] = None
    slip: Annotated[bool, Meta(description="true when a Detour is shown on purpose")] = False


class AnswerScript(Struct, forbid_unknown_fields=True, frozen=True, kw_only=True):
    """One answer to a question."""

    text: Annotated[
        ShortText | None, Meta(description="as shown; may be left out where the question has a subject")
    ] = None
    value: Annotated[
        str | int | None, Meta(description="what the answer claims, when the question has a subject")
    ] = None
    true: Annotated[bool, Meta(description="true for the one true answer")] = False


Subject = Literal["turn", "step", "slot", "count", "corner", "edge", "joint"]
"""What a question can be about so that the program knows the true answer."""


class SceneScript(Struct, forbid_unknown_fields=True, frozen=True, kw_only=True, tag_field="kind"):
    """The keys that every scene has."""

    text: Annotated[CardText, Meta(description="said on the card; placeholders are filled in")]
    case: Annotated[CaseName | None, Meta(description="start at the case of this name, in `slot`")] = None
    top: Annotated[
        Literal["", "U", "U2", "U'"],
        Meta(description="with `case`: the top layer turned once more at the start"),
    ] = ""
    setup: Annotated[
        Notation | None, Meta(description="start at the solved cube, cross face down, after these moves")
    ] = None
    stickers: Annotated[
        StickerLines | None, Meta(description="start at the cube that shows these six lines of colours")
    ] = None
    origin: Annotated[
        Literal["here", "start"] | None,
        Meta(
            description="`here` goes on where the scene before ended (the usual when no position is given); "
            "`start` begins where that scene began"
        ),
    ] = field(default=None, name="from")
    slot: Annotated[
        Literal["FR", "FL", "BL", "BR", "none"] | None,
        Meta(
            description="the slot whose pair is in question; stays until another is named, or `none`, which "
            "says that the scene is about no pair"
        ),
    ] = None
    keep: Annotated[
        tuple[SlotName, ...] | None,
        Meta(description="slots that must be solved at the end; usually those solved at the start"),
    ] = None
    camera: Annotated[CameraScript | None, Meta(description="where the cube is seen from")] = None
    highlight: Annotated[
        tuple[Annotated[str, Meta(max_length=8)], ...],
        Meta(
            max_length=20,
            description="what lights up: corner, edge, pair, slot, cross, top, or places like UFR",
        ),
    ] = ()
    speed: Annotated[float, Meta(ge=0.25, le=4, description="1 is the usual speed of turning")] = 1.0
    caption: Annotated[ShortText | None, Meta(description="a line under the cube")] = None
    rail: Annotated[
        bool, Meta(description="`false` leaves out the rail with the steps, where turning itself is taught")
    ] = True
    idea: Annotated[IdeaName | None, Meta(description="which of the lesson's ideas the scene is about")] = (
        None
    )


class TellScript(SceneScript, tag="tell", forbid_unknown_fields=True, frozen=True, kw_only=True):
    """Text beside the cube; nothing turns."""


class ShowScript(SceneScript, tag="show", forbid_unknown_fields=True, frozen=True, kw_only=True):
    """Turns played in step with text."""

    turns: Annotated[
        Notation | None, Meta(description="`route`, `line`, or the moves themselves when they have one text")
    ] = None
    steps: Annotated[
        StepTexts | None, Meta(description="with `route` or `line`: what is said with each step")
    ] = None
    parts: Annotated[
        tuple[PartScript, ...],
        Meta(max_length=MOST_PARTS, description="instead of `turns`: the moves in parts"),
    ] = ()
    slip: Annotated[bool, Meta(description="with moves in `turns`: a Detour is shown on purpose")] = False


Accept = Annotated[
    tuple[Notation, ...],
    Meta(
        max_length=MOST_ACCEPTED,
        description="where the text asks for something in particular: the turns that do it. Others, however "
        "good, do not answer then, and the next scene goes on after the first of these",
    ),
]


class AskScript(SceneScript, tag="ask", forbid_unknown_fields=True, frozen=True, kw_only=True):
    """The learner turns, and every turn is judged."""

    extent: Annotated[
        Literal["turn", "step", "case"],
        Meta(description="asked for: the next turn, the rest of the step, or the rest of the case"),
    ] = "case"
    until: Annotated[
        StepName | None,
        Meta(description='with `extent = "step"`: the step that must be done, if not the one under way'),
    ] = None
    accept: Accept = ()
    afterwards: Annotated[CardText | None, Meta(description="said when it is done")] = None


class FindScript(SceneScript, tag="find", forbid_unknown_fields=True, frozen=True, kw_only=True):
    """The learner clicks a piece or a slot, or picks it by key."""

    what: Annotated[Literal["corner", "edge", "slot"], Meta(description="what is to be found")]
    afterwards: Annotated[CardText | None, Meta(description="said when it is found")] = None


class ChooseScript(SceneScript, tag="choose", forbid_unknown_fields=True, frozen=True, kw_only=True):
    """A question with answers of which exactly one is true; `text` is the question."""

    about: Annotated[
        Subject | None,
        Meta(
            description="what the answers claim, so that the program can tell the true one: the next "
            "`turn`, the `step` under way, the `slot` to take first, the `count` of turns to go, the place "
            "of the `corner` or `edge`, or the `joint` of the two"
        ),
    ] = None
    answers: Annotated[
        tuple[AnswerScript, ...],
        Meta(max_length=MOST_ANSWERS, description="left out, the program makes them from `about`"),
    ] = ()
    because: Annotated[CardText | None, Meta(description="said after the answer")] = None


class AloneScript(SceneScript, tag="alone", forbid_unknown_fields=True, frozen=True, kw_only=True):
    """The whole case without verdicts."""

    accept: Accept = ()
    afterwards: Annotated[CardText | None, Meta(description="said when the pair is solved")] = None


class RecapScript(SceneScript, tag="recap", forbid_unknown_fields=True, frozen=True, kw_only=True):
    """What was learnt, in a few points."""

    points: Annotated[
        tuple[ShortText, ...], Meta(max_length=6, description="a list of short sentences under the text")
    ] = ()


AnyScene = TellScript | ShowScript | AskScript | FindScript | ChooseScript | AloneScript | RecapScript
SCENE_TYPES: dict[str, type[SceneScript]] = {
    "tell": TellScript,
    "show": ShowScript,
    "ask": AskScript,
    "find": FindScript,
    "choose": ChooseScript,
    "alone": AloneScript,
    "recap": RecapScript,
}


class LessonScript(Struct, forbid_unknown_fields=True, frozen=True, kw_only=True):
    """A whole script."""

    title: Annotated[
        str, Meta(min_length=1, max_length=LONGEST_TITLE, description="as it stands in the list")
    ]
    goal: Annotated[
        str,
        Meta(
            min_length=1,
            max_length=LONGEST_TEXT,
            description="one sentence: what the learner can do afterwards",
        ),
    ]
    ideas: Annotated[
        tuple[IdeaName, ...],
        Meta(max_length=8, description="names of the few ideas shown; a single one holds for every scene"),
    ] = ()
    fixed: Annotated[
        bool,
        Meta(description="true when the lesson is played only as written, never in another slot or mirrored"),
    ] = False
    scene: Annotated[
        tuple[AnyScene, ...], Meta(min_length=1, max_length=MOST_SCENES, description="the scenes in order")
    ]


def schema() -> dict[str, Any]:
    """The format as a JSON Schema (draft 2020-12, https://json-schema.org), produced from the types."""
    return msgspec.json.schema(LessonScript)
