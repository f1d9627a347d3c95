"""What the Practice screen says, in English."""

from __future__ import annotations

from collections.abc import Iterable

from tutor.counting import counted, figured, noun, number, times
from tutor.cube.position import Slot
from tutor.method.terms import Family

TITLE = "Practice"
DOOR = "Practise the cases. You get less help as you improve."

# ----------------------------------------------------------------------------------- what you can practise

LOADING = "Loading your progress …"
CHOOSING = "Choosing a case …"
BEGINNER = "You start with the first case of the lessons."


def learner(name: str) -> str:
    """Who practises, where there are several."""
    return f"Learner: {name}"


def ready_now(count: int) -> str:
    """How many cases of the list practice can give now."""
    return f"Today's list has {counted(count, 'case')} for you now."


NOTHING_READY = "Today's list has no case to repeat now."


def nothing_ready_until(when: str) -> str:
    """When the next case comes back."""
    return f"{NOTHING_READY} The next one comes back {when}."


def after(count: int, unit: str) -> str:
    """How long it takes till then."""
    return f"in {counted(count, unit)}"


TODAY = "Today's list"
TODAY_DETAIL = "Cases to repeat come first. Then you meet new ones, up to three a day."
SLIPPING = "Slipping first"
SLIPPING_DETAIL = "Practise the cases that you are most likely to forget."
GLANCE = "At a glance"
GLANCE_DETAIL = "Look at a case. Name its step and its first turn, and turn nothing."
STEADY = "Slow and steady"
STEADY_DETAIL = "Make one turn for each beat, and look ahead at the next pieces."


def unlocks_when_met(met: int) -> str:
    """What unlocks a choice, and how far the learner is."""
    return f"Unlocks when you have met two cases. You have met {number(met) if met else 'none'}."


def unlocks_when_solved(solved: int) -> str:
    """What unlocks Slow and steady, and how far the learner is."""
    so_far = "So far you have one." if solved else "So far you have none."
    return f"Unlocks when you have solved two cases twice in a row, without a hint or a detour. {so_far}"


ONE_FAMILY = "One family"


def family(which: Family) -> str:
    """The name of a family of cases."""
    return f"{which.value[:1].upper()}{which.value[1:]}"


def cases(count: int) -> str:
    """How many cases a family has."""
    return figured(count, "case")


# ---------------------------------------------------------------------------------------- goal, pace, rest

UNDER_WAY = "You are practising"
STOP_WHEN = "Stop when …"


def goal(kind: str, amount: int) -> str:
    """When to stop: today's list is done, so many tries are made, or so many minutes are over."""
    if kind == "attempts":
        return f"{figured(amount, 'try', 'tries')} are done"
    return f"{figured(amount, 'minute')} are over" if kind == "minutes" else "today's list is done"


def tries_so_far(count: int) -> str:
    """How many tries, where the goal has no number."""
    return f"You have made {counted(count, 'try', 'tries')} so far."


def goal_so_far(done: int, wanted: int, kind: str) -> str:
    """How far the goal is reached."""
    what = noun(wanted, "try", "tries") if kind == "attempts" else noun(wanted, "minute")
    return f"{done} of {wanted} {what}"


BEAT = "Beat for Slow and steady"


def pace(beats: int) -> str:
    """How quick the beat is."""
    return f"{figured(beats, 'beat')} a minute"


SLOWER, FASTER = "Slow down", "Speed up"
_STRAIN = "Long practice strains your hands and wrists."


def caution(minutes: int) -> str:
    """That hands need rest, and whether the program reminds you."""
    if minutes <= 0:
        return f"{_STRAIN} Rest them now and then."
    return f"{_STRAIN} After {counted(minutes, 'minute')} the program reminds you to rest them."


def rest(minutes: int) -> str:
    """The reminder to rest."""
    return f"You have practised for {counted(minutes, 'minute')}. Rest your hands a little."


# ------------------------------------------------------------------------------------------- nothing, end

NO_CASE = "No case to practise this way now"
NO_STEADY = "Slow and steady needs a case that you have solved twice. There is none to choose now."
NO_GLANCE = "At a glance needs a case that you have met. There is none to choose now."
SLIPPING_INSTEAD = "Practise slipping cases first"
TODAY_INSTEAD = "Start with today's list"
GOAL_REACHED = "You have reached your goal"
DONE = "Done for now"
NEXT_HEADING = "What comes next"
STOP = "Back to Home"
MORE = "Practise more"
MORE_SLIPPING = "Practise more, slipping first"


def time_spent(minutes: int) -> str:
    """How long the learner practised."""
    spent = counted(minutes, "minute") if minutes else "less than a minute"
    return f"You practised for {spent}, not counting pauses."


# ----------------------------------------------------------------------------------------- a case on the cube

_SLOTS = {
    Slot.FR: "front-right slot",
    Slot.FL: "front-left slot",
    Slot.BL: "back-left slot",
    Slot.BR: "back-right slot",
}


def caption(how: str, slot: Slot, mirror_of: int | None) -> str:
    """How you meet the case: the help, its slot, and the number of the case whose mirror image it is."""
    mirrored = "" if mirror_of is None else f" · mirror image of case {mirror_of}"
    return f"{how} · {_SLOTS[slot]}{mirrored}"


def case(number: int) -> str:
    """A case by its number in the book."""
    return f"Case {number}"


WATCH, LAST_TURN, LAST_STEP = "Watch", "The last turn", "The last step"
WITH_HINTS, ALONE = "With hints", "On your own"
WORKING_OUT = "Working out this case …"
WATCH_ALL = "Watch the solution of this case. You do nothing yet."
WATCH_ALL_BUT_ONE = "Watch all turns but the last. Then the last turn is yours."
WATCH_FIRST_STEPS = "Watch the first steps. Then the last step is yours."
LAST_TURN_YOURS = "Only the last turn is left. It is yours."
LAST_STEP_YOURS = "Only the last step is left. It is yours."
ALL_YOURS = "All turns of this case are yours."
ALL_YOURS_WITH_HINTS = "All turns are yours. Ask for a hint whenever you like."
ALL_YOURS_ALONE = "All turns are yours. You see verdicts once the pair is solved."
DONE_WATCHING, MY_TURN = "Done watching", "Let me turn now"
SOLVE_THE_PAIR = "Solve the pair."
HELP_ME, UNDO, WRITE, GIVE_UP = "Help me", "Undo", "Write moves", "Give up"
END = "Finish for now"


def back_to(screen: str) -> str:
    """The way back to the screen where the case was picked."""
    return f"Back to {screen}"


WATCH_FIRST = "Watch first. The cube is yours after this. Press Enter to take over now."
ONLY_WATCH = "This time you only watch. You turn the cube next time."
OVER = "This try is over. Press Enter for what comes next."

# ------------------------------------------------------------------------------- what you see in a new case

NEW_CASE = "What do you see?"
FIND_THE_TWO = "Find the two pieces for the framed slot."
WHICH_STEP_FIRST = "Which step comes first?"
WATCH_IT_FIRST = "Watch it first"
LOOK_FIRST = "Look first: answer the question, or press Enter to turn now."


def click_or_choose(piece: str) -> str:
    """How to answer, with the mouse or by key."""
    return f"Click them on the cube, or choose where the {piece} is."


def step_first(step: str) -> str:
    """You named the step that comes first."""
    return f"Yes, {step} comes first"


# ---------------------------------------------------------------------------------------------- at a glance

WHICH_STEP, WHICH_TURN = "Which step is next?", "And which turn is first?"
HOW_TO_NAME = "Press its key and then Enter, or press a button."
STEP_FIRST = "Name the step first, with the keys 1 to 4."
TURN_NEXT = "Now name the first turn."
NO_HELP_AT_A_GLANCE = "At a glance has no hints. Choose an answer, and you see the way after it."
ONLY_NAME = "Name the first turn only. You turn nothing here."
I_DO_NOT_KNOW = "I do not know"
TAKE_YOUR_TIME = "Take all the time you need"


def seconds(count: int) -> str:
    """How long you have looked so far."""
    return figured(count, "second")


def answer(turn: str) -> str:
    """The button that gives the turn as the answer."""
    return f"Answer {turn}"


def the_step(right: str) -> str:
    """The step, where you named it right or not at all."""
    return f"The step is {right}"


def not_the_step(right: str, named: str) -> str:
    """The step, where you named another."""
    return f"The step is {right}, not {named}"


def shortest_way(turn: str) -> str:
    """A first turn as good as any."""
    return f"A shortest way starts with {turn}."


def starts_shortest(turn: str) -> str:
    """You named a best turn."""
    return f"{turn} starts a shortest way"


def starts_good(turn: str) -> str:
    """You named a turn that is nearly as good."""
    return f"{turn} starts a good way"


def is_detour(turn: str) -> str:
    """You named a turn that leads away."""
    return f"{turn} is a detour here"


def named_after(count: int) -> str:
    """How long it took to name both."""
    return f"You named both after {counted(count, 'second')}."


def why(turn: str) -> str:
    """The heading over the reason for a turn."""
    return f"Why {turn}?"


# ------------------------------------------------------------------------------------------ slow and steady

EARLY = "You were a little early. Wait for the beat."
ON_BEAT = "You were on the beat."
LATE = "You were a little late. That is fine: take the next beat."
SOLVE_ON_THE_BEAT = "Solve the pair with one turn on each beat."
_EYES = "While you turn, watch the two glowing pieces. Pretend they are your next pair."


def beat(place: int, bar: int) -> str:
    """Which beat of the bar it is."""
    return f"Beat {place} of {bar}"


def watch_the_glowing(*, verdicts_later: bool) -> str:
    """What to do with your eyes."""
    return f"{_EYES} You see verdicts at the end." if verdicts_later else _EYES


def timing(on_beat: int, turns: int, early: int, late: int) -> str:
    """How many turns were in time."""
    parts = [f"{on_beat} of {figured(turns, 'turn')} {noun(on_beat, 'was', 'were')} on the beat"]
    parts += [f"{count} {what}" for count, what in ((early, "early"), (late, "late")) if count]
    return f"{', '.join(parts)}."


GLOW_AGAIN = "The two other pieces glow again. Were your eyes on them?"

# ------------------------------------------------------------------------------------------------- the end

SAVING, SAVED = "Saving …", "Saved."


def not_saved(notices: Iterable[str]) -> str:
    """The try is not on the disk, and why."""
    told = " ".join(notices) or "The program keeps it and saves it as soon as it can."
    return f"Not saved yet. {told}"


UNCOUNTED = "This try does not count. Nothing changes for this case."
LEFT_EARLY = "You left before the end, so this does not count as watched."
LAST_TURN_NEXT, LAST_STEP_NEXT = "Next time the last turn is yours.", "Next time the last step is yours."
ALL_TURNS_NOW = "Now all turns are yours."
NOT_WATCHED = "Watch it again, or choose what comes next."
SOLVED = "Solved."
FIRST_UNAIDED = "This is your first solve of this case without help."
YOU, BEST_BY_HAND, BEST = "You", "Best by hand", "Best, with far layers"
NONE_SHORTER = "none is shorter"


def turns(count: int) -> str:
    """A number of turns, as a figure."""
    return figured(count, "turn")


def besides(undone: int, helped: int) -> str:
    """What a try took besides the turns of its way; empty for nothing."""
    said = (
        f"You undid {counted(undone, 'turn')}." if undone else "",
        f"You asked for help {times(helped)}." if helped else "",
    )
    return " ".join(each for each in said if each)


def beside_the_best(extra: int) -> str:
    """How many turns the learner's way takes over the best."""
    if extra > 0:
        return f"{number(extra)} more than the best"
    return "as few as the best" if not extra else f"{number(-extra)} fewer, with far layers"


def one_thing(place: int) -> str:
    """The heading over the turn that cost most."""
    return f"One thing to look at: turn {place}"


MOMENT_BEFORE = "The cube shows the moment before this turn."
GAVE_UP = "You gave up this time, and that is fine. Watch the case, then try again."
YES, NOT_HERE = "Yes", "Not here"

NEXT_CASE = "Next case"
TRY_NOW = "Try it now"
SEE_IT = "Watch it once more"
EASIER = "Try an easier case first"
SAME_CASE, SOLVE_IT = "Try this case again", "Solve it now"
SHOW, SHOW_AGAIN = "Show me the way", "Show again"
ON_MY_OWN = "Try it on my own"
DO_NOT_COUNT = "Do not count this"
