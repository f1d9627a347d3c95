"""A lesson as written: the keys of a script, their types and what each is for.

A script is a TOML file (https://toml.io/en/v1.0.0) with a title, a goal and a list of scenes. The types here
are the format: reading refuses whatever is not in them, and the schema and the tables of lessons/FORMAT.md
are produced from them.
"""

from __future__ import annotations

from typing import Annotated, Any, Literal

import msgspec
from msgspec import Meta, Struct, field

from tutor.lesson.words import format_keys as keys

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
SoundFile = Annotated[str, Meta(min_length=1, max_length=100)]
IdeaName = Annotated[str, Meta(min_length=1, max_length=80)]


class CameraScript(Struct, forbid_unknown_fields=True, frozen=True, kw_only=True):
    """Where the cube is seen from."""

    yaw: Annotated[
        float,
        Meta(ge=-180, le=180, description=keys.YAW),
    ] = 32.0
    pitch: Annotated[float, Meta(ge=-60, le=60, description=keys.PITCH)] = 28.0
    zoom: Annotated[float, Meta(ge=0.5, le=2, description=keys.ZOOM)] = 1.0


class StepTexts(Struct, forbid_unknown_fields=True, frozen=True, kw_only=True):
    """What is said while each step of a computed route is shown."""

    raising: Annotated[CardText | None, Meta(description=keys.step_text("Raise"))] = field(
        default=None, name="raise"
    )
    part: Annotated[CardText | None, Meta(description=keys.step_text("Part"))] = None
    join: Annotated[CardText | None, Meta(description=keys.step_text("Join"))] = None
    insert: Annotated[CardText | None, Meta(description=keys.step_text("Insert"))] = None


class PartScript(Struct, forbid_unknown_fields=True, frozen=True, kw_only=True):
    """One piece of a shown sequence, with the text that goes with it."""

    turns: Annotated[Notation, Meta(description=keys.PART_TURNS)]
    text: Annotated[CardText | None, Meta(description=keys.PART_TEXT)] = None
    slip: Annotated[bool, Meta(description=keys.PART_SLIP)] = False


class AnswerScript(Struct, forbid_unknown_fields=True, frozen=True, kw_only=True):
    """One answer to a question."""

    text: Annotated[ShortText | None, Meta(description=keys.ANSWER_TEXT)] = None
    value: Annotated[str | int | None, Meta(description=keys.VALUE)] = None
    true: Annotated[bool, Meta(description=keys.TRUE)] = False
    why: Annotated[
        CardText | None,
        Meta(description=keys.WHY),
    ] = None


Subject = Literal["turn", "step", "slot", "count", "corner", "edge", "joint"]
"""What a question can be about so that the program knows the true answer."""


class SceneScript(Struct, forbid_unknown_fields=True, frozen=True, kw_only=True, tag_field="kind"):
    """The keys that every scene has."""

    text: Annotated[CardText, Meta(description=keys.TEXT)]
    on_screen: Annotated[CardText | None, Meta(description=keys.ON_SCREEN)] = None
    case: Annotated[CaseName | None, Meta(description=keys.CASE)] = None
    top: Annotated[
        Literal["", "U", "U2", "U'"],
        Meta(description=keys.TOP),
    ] = ""
    setup: Annotated[Notation | None, Meta(description=keys.SETUP)] = None
    stickers: Annotated[StickerLines | None, Meta(description=keys.STICKERS)] = None
    origin: Annotated[
        Literal["here", "start"] | None,
        Meta(description=keys.FROM),
    ] = field(default=None, name="from")
    slot: Annotated[
        Literal["FR", "FL", "BL", "BR", "none"] | None,
        Meta(description=keys.SLOT),
    ] = None
    keep: Annotated[
        tuple[SlotName, ...] | None,
        Meta(description=keys.KEEP),
    ] = None
    camera: Annotated[CameraScript | None, Meta(description=keys.CAMERA)] = None
    highlight: Annotated[
        tuple[Annotated[str, Meta(max_length=8)], ...],
        Meta(
            max_length=20,
            description=keys.HIGHLIGHT,
        ),
    ] = ()
    speed: Annotated[float, Meta(ge=0.25, le=4, description=keys.SPEED)] = 1.0
    caption: Annotated[ShortText | None, Meta(description=keys.CAPTION)] = None
    rail: Annotated[bool, Meta(description=keys.RAIL)] = True
    idea: Annotated[IdeaName | None, Meta(description=keys.IDEA)] = None
    voice: Annotated[SoundFile | None, Meta(description=keys.VOICE)] = None


class TellScript(SceneScript, tag="tell", forbid_unknown_fields=True, frozen=True, kw_only=True):
    """Text beside the cube; nothing turns."""


class ShowScript(SceneScript, tag="show", forbid_unknown_fields=True, frozen=True, kw_only=True):
    """Turns played in step with text."""

    turns: Annotated[Notation | None, Meta(description=keys.SHOWN)] = None
    steps: Annotated[StepTexts | None, Meta(description=keys.STEPS)] = None
    parts: Annotated[
        tuple[PartScript, ...],
        Meta(max_length=MOST_PARTS, description=keys.PARTS),
    ] = ()
    slip: Annotated[bool, Meta(description=keys.SLIP)] = False


Accept = Annotated[
    tuple[Notation, ...],
    Meta(
        max_length=MOST_ACCEPTED,
        description=keys.ACCEPT,
    ),
]


class AskScript(SceneScript, tag="ask", forbid_unknown_fields=True, frozen=True, kw_only=True):
    """The learner turns, and every turn is judged."""

    extent: Annotated[
        Literal["turn", "step", "case"],
        Meta(description=keys.EXTENT),
    ] = "case"
    until: Annotated[
        StepName | None,
        Meta(description=keys.UNTIL),
    ] = None
    accept: Accept = ()
    afterwards: Annotated[CardText | None, Meta(description=keys.AFTERWARDS)] = None


class FindScript(SceneScript, tag="find", forbid_unknown_fields=True, frozen=True, kw_only=True):
    """The learner clicks a piece or a slot, or picks it by key."""

    what: Annotated[Literal["corner", "edge", "slot"], Meta(description=keys.WHAT)]
    afterwards: Annotated[CardText | None, Meta(description=keys.FOUND)] = None


class ChooseScript(SceneScript, tag="choose", forbid_unknown_fields=True, frozen=True, kw_only=True):
    """A question with answers of which exactly one is true; `text` is the question."""

    about: Annotated[
        Subject | None,
        Meta(description=keys.ABOUT),
    ] = None
    answers: Annotated[
        tuple[AnswerScript, ...],
        Meta(max_length=MOST_ANSWERS, description=keys.ANSWERS),
    ] = ()
    because: Annotated[CardText | None, Meta(description=keys.BECAUSE)] = None


class AloneScript(SceneScript, tag="alone", forbid_unknown_fields=True, frozen=True, kw_only=True):
    """The whole case without verdicts."""

    accept: Accept = ()
    afterwards: Annotated[CardText | None, Meta(description=keys.SOLVED)] = None


class RecapScript(SceneScript, tag="recap", forbid_unknown_fields=True, frozen=True, kw_only=True):
    """What was learnt, in a few points."""

    points: Annotated[tuple[ShortText, ...], Meta(max_length=6, description=keys.POINTS)] = ()


AnyScene = TellScript | ShowScript | AskScript | FindScript | ChooseScript | AloneScript | RecapScript
ASKING = (AskScript, FindScript, ChooseScript, AloneScript)
"""The kinds of scene that ask something of the learner."""
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

    title: Annotated[str, Meta(min_length=1, max_length=LONGEST_TITLE, description=keys.TITLE)]
    goal: Annotated[
        str,
        Meta(
            min_length=1,
            max_length=LONGEST_TEXT,
            description=keys.GOAL,
        ),
    ]
    ideas: Annotated[
        tuple[IdeaName, ...],
        Meta(max_length=8, description=keys.IDEAS),
    ] = ()
    fixed: Annotated[
        bool,
        Meta(description=keys.FIXED),
    ] = False
    scene: Annotated[
        tuple[AnyScene, ...], Meta(min_length=1, max_length=MOST_SCENES, description=keys.SCENES)
    ]


def schema() -> dict[str, Any]:
    """The format as a JSON Schema (draft 2020-12, https://json-schema.org), produced from the types."""
    return msgspec.json.schema(LessonScript)
