"""What several screens say: the bars, cases, verdicts, hints, the rail, the sheets and the failure card."""

from __future__ import annotations

from tutor.counting import counted
from tutor.method.terms import Step

# ------------------------------------------------------------------------------------ the bar at the top

KEYS = "Keys"
WORDS = "Words"
MENU = "More"
THEME = "Light / dark"
READ_ALOUD, STOP_READING = "Read aloud", "Stop reading aloud"
SAVE_PICTURE = "Save picture"
SAVE_CLIP = "Save clip"
STOP_SAVING = "Stop saving"
OTHER_LEARNER = "Choose another learner"

# ----------------------------------------------------------------------------------------------- cases


# ---------------------------------------------------------------------------------- verdicts and waiting

WAITING = "One moment"
WAITING_FOR_VERDICT = "The program is still judging this turn."
TRY_AGAIN = "Try again"
A_QUARTER = "a quarter"
HALF_A_TURN = "half a turn"
TURN_FURTHER = "You are turning a good layer. Turn it a quarter more."
TURN_OTHER_WAY = "You are turning a good layer, but turn it the other way."
TURN_QUARTER = "You are turning a good layer, but a quarter turn is enough."
FURTHER_WORKS = "A quarter more works too, but another layer takes fewer turns."
OTHER_WAY_WORKS = "The other way round works too, but another layer takes fewer turns."
QUARTER_WORKS = "A quarter turn works too, but another layer takes fewer turns."
"""Where no turn of the layer is Optimal."""
MORE_TURNS = "More turns"
FEWER_TURNS = "Fewer turns"
SHOW_WHY = "Show me why"
UNDO = "Undo"


def shift_turns_back(plain: str) -> str:
    """What Shift does, to somebody who has pressed it where the plain turn was right."""
    return f"Shift turns a layer the other way, so press the key without Shift for {plain}."


UNDO_IT = "Undo it"
GO_ON_FROM_HERE = "Go on from here"
IDEAS = {
    Step.RAISE: "lift both to the top",
    Step.PART: "set the two apart",
    Step.JOIN: "join them colour to colour",
    Step.INSERT: "slide them into the slot",
}


def _left(turns: int, *, by_hand: bool) -> str:
    """The turns to go; ``by_hand`` where far layers would need fewer, so that no other figure contradicts."""
    return f"{counted(turns, 'turn')} to go{' by hand' if by_hand else ''}"


def back_first(notation: str, turns: int, *, by_hand: bool) -> str:
    """What undoing a Detour comes to: the turn back, and the turns to go after it."""
    return f"{notation}, then {_left(turns, by_hand=by_hand)}"


PUT_BACK = "put what is out back in place"


def from_here(turns: int, idea: str, *, far: bool, by_hand: bool) -> str:
    """What going on from a Detour comes to: the turns to go and, where it is known, the next idea.

    ``far``: no way by hand leads on, so that the figure does not stand beside one by hand.
    """
    to_go = _left(turns, by_hand=by_hand).capitalize()
    if far:
        return f"{to_go}, and far layers have to help"
    return f"{to_go}. Next: {idea}" if idea else to_go


def as_it_is(notation: str) -> str:
    """The small picture of the cube after a Detour."""
    return f"With {notation}"


def as_it_was(notation: str) -> str:
    """The small picture of the cube as it would be without the Detour."""
    return f"Without {notation}"


def so_far(notation: str, gone: str) -> str:
    """A turn that may still become a good one."""
    return f"{notation}: {gone} so far"


def verdict(notation: str, title: str) -> str:
    """A turn with its verdict."""
    return f"{notation}: {title}"


# ------------------------------------------------------------------------------------ hints and the way

HINT = "Hint"
MORE = "More"
SHOW_TURN = "Show the turn"
SHOW_THE_WAY = "Show me the way"
SHOW_AGAIN = "Show again"
PAIR_SOLVED = "The pair is solved."


def hint_number(rung: int, rungs: int, key: str) -> str:
    """Which hint it is, and the key that gives the next one, if there is one."""
    more = f". Press {key} for more" if key and rung < rungs else ""
    return f"Hint {rung} of {rungs}{more}"


def in_your_own_words(text: str) -> str:
    """The learner's own line for the case."""
    return f"In your own words: {text}"


WRITE_OWN_WORDS, CHANGE_OWN_WORDS = "Put it in my own words", "Change my own words"
YOUR_LINE = "Write one line, then press Enter. An empty line removes it."


def to_go(step: str, turns: int, *, by_hand: bool) -> str:
    """The step under way, if one is, and the fewest turns that solve the pair."""
    left = _left(turns, by_hand=True) if by_hand else f"{_left(turns, by_hand=False)} at best"
    return f"{step} · {left}" if step else left.capitalize()


# ---------------------------------------------------------------------------- writing, and looking back

WRITE_MOVES = "Write moves, then press Enter"
LOOKING_BACK = "Looking back"
SHOW_SPLIT = "Show where our ways split"

# ---------------------------------------------------------------------------------------------- the rail

BEST_BY_HAND, BEST, ROUTE = "Best by hand", "Best", "The route"
YOU = "You"
BACK = "Back"
PLAY = "Play"
PAUSE = "Pause"
NEXT_TURN = "Next turn"
WHAT_COMES = "What comes next"
"""In its place where the turn just made is told of, and the next one is not shown yet."""
AT_FULL_SPEED = "At full speed"
SLOWER = "Slower"
FASTER = "Faster"


def speed(factor: float) -> str:
    """The speed of what is shown, beside the usual one."""
    return f"{factor:g}x"


def turn_shown(number: int, turns: int, factor: float) -> str:
    """Which of the turns is shown, and the speed."""
    return f"{number} of {turns} · {speed(factor)}"


def at_full_speed(factor: float) -> str:
    """The pass at full speed, and the speed."""
    return f"{AT_FULL_SPEED} · {speed(factor)}"


def turn_of_step(step: str, notation: str) -> str:
    """The turn that is shown, with its step."""
    return f"{step}: {notation}"


# -------------------------------------------------------------------------------- the line at the foot


def saving(kind: str, share: float | None, key: str) -> str:
    """How far saving is, where that is known, and the key that stops it, where there is one."""
    done = "" if share is None else f" {share:.0%}"
    stop = f" ({key} stops it)" if key else ""
    return f"Saving the {kind} …{done}{stop}"


FROM_THE_START = "You see the whole way, from where you began."
TO_YOUR_CUBE = "Back to your cube"

# ------------------------------------------------------------------------- the sheets of keys and words

CLOSE = "Close"
WORDS_HERE = "On this screen"
OTHER_WORDS = "Other words"
ALL_WORDS = "All words"


def both(one: str, other: str) -> str:
    """Two keys, or what they do, in the same order."""
    return f"{one} and {other}"


# -------------------------------------------------------------------------------------- the failure card

WENT_WRONG = "Something went wrong"
NOTHING_LOST = "Nothing you did is lost. If it happens again, go back to the Home screen."
CONTINUE = "Continue"
GO_HOME = "Go to Home"
NAME = "Pairwright"
SCREEN_FAILED = "The program cannot show this screen."

# ------------------------------------------------------------------------------------------ more on demand

TELL_ME_MORE = "Tell me more"
TELL_ME_LESS = "Tell me less"

# ------------------------------------------------------------------------------------- turns taken apart

EXPLAINING = "Taking your turns apart …"
AFTERWARDS = "After that"


def turns_explained(notation: str) -> str:
    """The heading of turns that are taken apart."""
    return f"Your turns: {notation}"


def step_turns(step: str, notation: str) -> str:
    """A step with its turns."""
    return f"{step} {notation}"


def steps_in_row(steps: list[str]) -> str:
    """The steps of a sequence, each with its turns."""
    return "  ·  ".join(steps)


def turn_explained(notation: str, says: str, *, detour: bool) -> str:
    """A turn of the sequence, whether it is a Detour, and what it does; the turn is named once."""
    if says.startswith(f"{notation} ") and not detour:
        return says
    return f"{notation}{', a Detour' if detour else ''}: {says}"
