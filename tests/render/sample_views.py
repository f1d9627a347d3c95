"""Views with realistic content for the tests of layout and painting; the club is invented."""

from __future__ import annotations

from msgspec.structs import replace

from tests.render.named import Named
from tutor.cube.faces import Face, Turn
from tutor.ui.view import (
    Arrow,
    Bay,
    BayState,
    Block,
    Button,
    ButtonRow,
    Entry,
    Gap,
    Group,
    Look,
    Mark,
    Miniature,
    MiniatureGrid,
    Progress,
    Rail,
    Stage,
    Table,
    Text,
    TextStyle,
    Tile,
    Tone,
    Turning,
    VerdictNote,
    View,
)

USUAL = Look()
SOLVED = tuple(face for face in range(6) for _ in range(9))


def bar(selected: str) -> tuple[Button, ...]:
    names = ("Home", "Practice", "Free play", "Solve", "Case book", "Progress", "Settings", "Help")
    keys = {"Help": "F1"}
    return tuple(
        Button(Named(f"go {name.lower()}"), name, keys.get(name, ""), selected=name == selected)
        for name in names
    )


def home(look: Look = USUAL) -> View:
    lessons = (
        ("What a pair is", "Two pieces, one slot, five steps. About 6 minutes.", True),
        ("Raise: bring both pieces up", "Lift the corner or the edge without losing the cross.", False),
        ("Part and join", "Why a pair that touches the wrong way must be taken apart first.", False),
        ("The same from the other side", "Mirror images and the slots at the back.", False),
    )
    left: tuple[Block, ...] = (
        Text("Good evening, Tova", TextStyle.TITLE),
        Text("You left off in the middle of a lesson. Today's list has two cases for you.", tone=Tone.MUTED),
        Button(Named("continue"), "Go on with “Part and join”", "Enter", primary=True),
        Text("Lessons", TextStyle.HEADING),
        *(
            Button(Named(f"lesson {i}"), name, detail=what, selected=done)
            for i, (name, what, done) in enumerate(lessons)
        ),
    )
    right: tuple[Block, ...] = (
        Text("Your week", TextStyle.HEADING),
        Group(
            (
                Progress("Cases you have met: 14 of 41", 14 / 41),
                Progress("Insert: 8 of 10 turns were good", 0.8),
                Text("Part is the step that costs you most turns.", TextStyle.SMALL, Tone.NEUTRAL),
                ButtonRow(
                    (
                        Button(Named("weak"), "Practise what is weak"),
                        Button(Named("progress"), "See all", enabled=False),
                    )
                ),
            )
        ),
        Text("At the club", TextStyle.HEADING),
        Text("Thursday’s table: Imre, Sanna and Tova share a case each and explain it to the others."),
        Text("Rest your hands now and then.", TextStyle.SMALL, Tone.WARNING),
    )
    return View("home", "Pairwright", bar("Home"), page=(left, right), focus=Named("lesson 1"), look=look)


def _tiles(text: str, played: int = 0, current: int = -1) -> tuple[Tile, ...]:
    return tuple(
        Tile(label, played=i < played, current=i == current, action=Named(f"jump {i} {label}"))
        for i, label in enumerate(text.split())
    )


def route_rail() -> Rail:
    return Rail(
        bays=(
            Bay("Find", BayState.DONE),
            Bay("Raise", BayState.DONE, _tiles("R U R'", 3)),
            Bay("Part", BayState.CURRENT, _tiles("U2 F' U2", 1, 1)),
            Bay("Join", BayState.AHEAD, _tiles("U F")),
            Bay("Insert", BayState.AHEAD, _tiles("U' R U R'")),
        ),
        playhead=5.4,
        scrubs_route=True,
        caption="Drag to any turn",
        controls=(
            Button(Named("again"), "Show again", "Space"),
            Button(Named("back"), "Back", "←"),
            Button(Named("forward"), "On", "→"),
            Button(Named("speed"), "Speed 1×"),
        ),
    )


def own_rail() -> Rail:
    states = (BayState.DONE, BayState.DONE, BayState.CURRENT, BayState.AHEAD, BayState.AHEAD)
    return Rail(
        bays=tuple(map(Bay, ("Find", "Raise", "Part", "Join", "Insert"), states)),
        own=(
            Tile("R", Mark.OPTIMAL, True, action=Named("own 0"), bay=1),
            Tile("U", Mark.OPTIMAL, True, action=Named("own 1"), bay=1),
            Tile("R'", Mark.OPTIMAL, True, action=Named("own 2"), bay=1),
            Tile("L", Mark.DETOUR, True, action=Named("own 3"), off_rail=True),
            Tile("L'", Mark.DETOUR, True, action=Named("own 4"), off_rail=True),
            Tile("U2", Mark.ACCEPTABLE, True, True, action=Named("own 5")),
            Tile("F'", Mark.WAITING, False, action=Named("own 6")),
        ),
        playhead=5.4,
        caption="Six turns made",
    )


def lesson(look: Look = USUAL) -> View:
    card = (
        Text("Part and join", TextStyle.HEADING),
        Progress("Step 3 of 7", 3 / 7),
        Text("The corner and the edge are both in the top layer, and they touch the wrong way round."),
        Text("Which turn takes them apart without spoiling the pair at the back?", TextStyle.QUESTION),
        VerdictNote(
            Mark.DETOUR,
            "A detour",
            "L lifts the pair in the left slot, which was home. Two turns more than needed.",
        ),
        VerdictNote(Mark.ACCEPTABLE, "Fine", "One turn more than the shortest, and nothing is lost."),
        VerdictNote(Mark.OPTIMAL, "As short as can be"),
        Entry(
            Named("answer"), "Your turns", "R U R' U2 Q", 9, True, "Q is no turn; write U D L R F or B.", 10
        ),
        ButtonRow(
            (
                Button(Named("hint"), "A hint", "H"),
                Button(Named("undo"), "Take back", "Ctrl+Z"),
                Button(Named("next"), "Next", "Enter", primary=True),
            )
        ),
        Text("First rung: look at the white corner.", TextStyle.SMALL, Tone.MUTED),
    )
    stage = Stage(
        SOLVED, Turning(Face.R, 0.5), dimmed=frozenset({0, 1, 2}), outlined=frozenset({26, 23}),
        framed=frozenset({20}), arrow=Arrow(Turn.U),
    )  # fmt: skip
    return View(
        "lesson", "Part and join", bar("Home"), stage=stage, card=card, rail=own_rail(),
        notice="Tables are being built, once: 40 %", focus=Named("hint"), look=look,
    )  # fmt: skip


def free_play(look: Look = USUAL, turns: int = 46) -> View:
    labels = ("R", "U", "R'", "U'", "F2", "L", "D'", "B")
    marks = (Mark.OPTIMAL, Mark.ACCEPTABLE, Mark.DETOUR)
    own = tuple(
        Tile(labels[i % 8], marks[i % 3], True, i == turns - 1, Named(f"own {i}"), i % 7 == 3)
        for i in range(turns)
    )
    card = (
        Text("Free play", TextStyle.HEADING),
        Text("Turn as you like. Every turn is weighed as you make it."),
        Entry(Named("scramble"), "Start from", "D2 R' F2 U2 L B' D R2 U' F L2 B2 R D' F2 U L' B", 12),
        Group((Text("To go", TextStyle.SMALL, Tone.MUTED), Text("7 turns", TextStyle.QUESTION))),
        ButtonRow(
            (Button(Named("shuffle"), "New position"), Button(Named("solve"), "Show a line", enabled=False))
        ),
        Gap(2),
        Table(
            ("Slot", "Pair", "To go"), (("front right", "white, red, green", "7"), ("back left", "home", "–"))
        ),
    )
    rail = Rail(
        own=own,
        playhead=float(turns),
        caption="46 turns",
        controls=(Button(Named("undo"), "Take back", "Ctrl+Z"),),
    )
    return View(
        "free play", "Free play", bar("Free play"), stage=Stage(SOLVED), card=card, rail=rail, look=look
    )


def help_overlay(look: Look = USUAL) -> View:
    rows = (
        ("U D L R F B", "Turn that face clockwise"),
        ("Shift with a letter", "Turn it back"),
        ("2 after a letter", "Make it a half turn"),
        ("Space", "Show again, or pause"),
        ("Left, Right", "One turn back or on"),
        ("Tab", "To the next button"),
        ("Ctrl+Z, Ctrl+Y", "Take back, make again"),
    )
    overlay = (
        Text("Keys", TextStyle.TITLE),
        Table(("Key", "What it does"), rows),
        Button(Named("close help"), "Close", "Esc", primary=True),
    )
    return replace(lesson(look), overlay=overlay, focus=Named("close help"))


def case_book(look: Look = USUAL) -> View:
    names = (
        "Corner above its slot, white up",
        "Edge in its slot, turned",
        "Both home but turned",
        "Side by side",
    )
    cubes = tuple(
        Miniature(
            Named(f"case {i}"),
            f"{names[i % 4]} ({i})",
            Stage(SOLVED, Turning(Face(i % 6), 0.1 * i)),
            badge="✓" if i % 5 == 0 else "",
            tone=Tone.GOOD,
            selected=i == 2,
        )
        for i in range(23)
    )
    blocks: tuple[Block, ...] = (
        Text("Case book", TextStyle.TITLE),
        Text("Every way a pair can lie. Open one to see it played."),
        Text("Both on top: 23", TextStyle.HEADING),
        MiniatureGrid(cubes),
    )
    return View("case book", "Case book", bar("Case book"), page=(blocks,), focus=Named("case 4"), look=look)


def shown_lesson(look: Look = USUAL) -> View:
    return replace(lesson(look), rail=route_rail())


def every_view(look: Look = USUAL) -> tuple[View, ...]:
    return home(look), lesson(look), shown_lesson(look), free_play(look), help_overlay(look), case_book(look)
