"""What the Case book says: the list of all cases, then the page of one."""

from __future__ import annotations

from tutor.counting import counted, figured, number

NAME = "Case book"
DESCRIPTION = "See all 41 cases in any slot, mirrored too, played slowly."

# What its own key does; settings files give it another key by this name.
KEY_TRY = "try the case"
KEY_OTHER_WAY = "explain another way"

INTRODUCTION = (
    "Each case is one way a pair can lie while the cross and the other pairs are solved. "
    "Choose a case to see it played."
)


def family(name: str, cases: int) -> str:
    """A family with how many cases it has."""
    return f"{name[:1].upper()}{name[1:]}: {figured(cases, 'case')}"


def in_list(number: int, short_name: str) -> str:
    """A case in the list."""
    return f"{number}. {short_name}"


# ------------------------------------------------------------------------------------ the page of a case

AT_FRONT_RIGHT = "The full name describes it in the front-right slot."
TOP_UNTURNED = "The full name describes it before you turn the top."
WORKING = "Working out this case …"
SHOW_ROUTE = "Show the route"
SHOW_LINE = "Show a shortest line"
HIDE_TURNS = "Hide the turns"
SHOW_TURNS = "Show the turns"
TRY = "Try it"
OTHER_WAY = "I know another way"
WRITE_OTHER_WAY = "Write your turns for this case, then press Enter"
BACK_TO_ROUTE = "Back to the route"
NO_OTHER_WAY = "These turns come to nothing."
MIRROR = "Show the mirror image"
SLOT = "Slot"
TOP_LAYER = "Top layer"
TOPS = ("Top", "Top U", "Top U2", "Top U'")
ALL_CASES = "Show all cases"


def full_name(name: str) -> str:
    """The full name of the case, beside the short one above it."""
    return f"{name}."


def taught_in(number: int, title: str) -> str:
    """The lesson that teaches the case."""
    return f"Lesson {number} teaches it: {title}."


def by_hand(turns: int, best: int) -> str:
    """How many turns the cube on the stage takes, and how many the case where the top is turned as best."""
    said = f"By hand, this cube takes {counted(turns, 'turn')} at best."
    return said if best == turns else f"{said} With the top turned another way, {number(best)} are enough."


def step(name: str, notation: str) -> str:
    """A step of the route with its turns."""
    return f"{name} {notation}"


def route(turns: int, steps: list[str]) -> str:
    """The route, step by step."""
    return f"Route, {figured(turns, 'turn')}: {'  ·  '.join(steps)}"


def line(turns: int, notation: str) -> str:
    """A shortest line."""
    return f"Shortest by hand, {figured(turns, 'turn')}: {notation}"


def with_far_layers(turns: int, notation: str) -> str:
    """A shorter way that nobody would find by hand."""
    return f"If you turn far layers too, {counted(turns, 'turn')} can do it: {notation}"


def only_looking(key: str) -> str:
    """Why a turn is not made, and what to do instead."""
    pressed = f", or press {key}," if key else ""
    return f"In the book you only look. Choose “{TRY}”{pressed} to turn this cube yourself."


def too_long(most: int) -> str:
    """The way written has too many turns to explain."""
    return f"Write at most {figured(most, 'turn')}."
