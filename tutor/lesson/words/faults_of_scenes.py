"""What keeps a scene from being played, each time with what would be right."""

from __future__ import annotations

from collections.abc import Sequence

from tutor.counting import figured

Fault = tuple[str, str]
NAME_THE_SLOT = "Name the pair's slot with the key slot."
LEAVE_OUT = "Leave it out."

# ------------------------------------------------------------------------------------- where it starts


def two_starts(keys: Sequence[str]) -> Fault:
    """A start given in several ways."""
    return f"This scene gives its start twice, with {' and '.join(keys)}.", "Keep one of them."


TOP_WITHOUT_CASE: Fault = (
    "The key top turns the top layer of a case, and this scene has no case.",
    LEAVE_OUT,
)
KEEP_WITHOUT_SLOT: Fault = ("This scene keeps slots, but it names no slot to fill.", NAME_THE_SLOT)


def kept_target(slot: str) -> Fault:
    """The slot of the pair in question among those kept."""
    return f"{slot} is the slot to fill, so a scene cannot keep it.", f"Take {slot} out of keep."


TOO_FAR_OFF: Fault = (
    "The cross or a kept pair is more than four turns from being solved. "
    "That is too far off to teach a pair.",
    "Start with the cross solved, and keep only pairs that are solved.",
)


def long_setup(count: int, most: int) -> Fault:
    """A setup of too many moves."""
    return f"The setup has {figured(count, 'move')}.", f"Write at most {most}."


CASE_WITHOUT_SLOT: Fault = ("A case needs a slot.", NAME_THE_SLOT)


def unknown_case(near: Sequence[str], example: str) -> Fault:
    """No case has this name; ``near`` are names much like it."""
    advice = f"Did you mean {' or '.join(near)}?" if near else f"One of the 41 names is {example}."
    return "There is no case of this name.", advice


def not_a_move(offending: str, column: int, advice: str) -> Fault:
    """Notation that cannot be read; ``advice`` is the notation's own."""
    return f"“{offending}” in column {column} is not a move here.", sentence(advice)


def sticker_row(row: int, message: str, advice: str) -> Fault:
    """Stickers that cannot be read; both texts are the reader's own."""
    return f"In row {row}: {message.rstrip('.')}.", sentence(advice)


def impossible_cube(fault: str, rule: str) -> Fault:
    """Stickers that no cube can show; both texts are those of the colours' reader."""
    return f"No cube looks like this: {fault.rstrip('.')}.", sentence(rule)


OTHER_CENTRES: Fault = (
    "The centres are arranged in another way than on this program's cube.",
    "White is opposite yellow. With white below and green in front, red is on the left.",
)


def sentence(text: str) -> str:
    """A text that begins small and has no full stop, as a sentence."""
    ended = text if text.endswith((".", "?", "!")) else f"{text}."
    return ended[:1].upper() + ended[1:]


# ------------------------------------------------------------------------------------- turns that are shown

STEPS_OF_WRITTEN_TURNS: Fault = (
    "Texts for steps belong to turns that the program works out.",
    'Write turns = "route", or write parts, each with its own text.',
)
TURNS_ONCE: Fault = ("A show scene needs its turns once.", "Write either turns or parts.")
NO_TURNS: Fault = ("There are no turns here.", "Write moves, route or line.")


def turns_to_follow(most: int) -> Fault:
    """More turns in a scene than anybody can follow."""
    return "These are more turns than anybody can follow.", f"Show at most {most} in a scene."


def no_way_without_pair(way: str) -> Fault:
    """A route or line in a scene about no pair."""
    return f"Without a pair there is no {way}.", NAME_THE_SLOT


SOLVED_ALREADY: Fault = ("The pair is solved here, so there is nothing to show.", "Start somewhere else.")
NO_ROUTE: Fault = ("There is no route from here.", 'Show the line: turns = "line".')


# ------------------------------------------------------------------------------------------ what is asked

NO_PAIR_TO_TURN: Fault = ("This scene asks for turns, but it is about no pair.", NAME_THE_SLOT)
NO_PAIR_TO_FIND: Fault = ("This scene asks for a piece of a pair, but it is about no pair.", NAME_THE_SLOT)
NO_PAIR_TO_ASK: Fault = ("This scene asks about a pair, but it is about no pair.", NAME_THE_SLOT)


def until_without_step(extent: str) -> Fault:
    """A step to end with in a scene that asks for no step."""
    return f"The key until belongs to a step, and this scene asks for a {extent}.", (
        'Write extent = "step", or leave until out.'
    )


def unknown_idea(ideas: Sequence[str]) -> Fault:
    """An idea that the lesson does not name."""
    advice = f"Its ideas are {', '.join(ideas)}." if ideas else "Add ideas at the top of the file."
    return "The lesson has no such idea.", advice


def voice_elsewhere(name: str) -> Fault:
    """A sound file that does not lie beside the script."""
    return f"“{name}” does not lie beside the script.", "Put the sound file there and write its name alone."


def unknown_highlight(word: str) -> Fault:
    """A word that lights nothing up."""
    return f"“{word}” is nothing on this cube.", (
        "Write corner, edge, pair or slot (with the key slot), cross, top, or a place such as UFR."
    )


# ---------------------------------------------------------------------------------------------- questions

ONE_ANSWER: Fault = ("A question needs more than one answer.", "Write two to six answers.")


def marked_true(count: int) -> Fault:
    """None or several answers marked as the true one."""
    message = f"{count} answers are marked as true." if count else "No answer is marked as the true one."
    return message, "Mark exactly one with true = true."


NO_ANSWERS: Fault = ("A question needs answers.", "Write answers, or name a subject with the key about.")


def nothing_to_offer(several: bool) -> Fault:
    """No answers can be worked out: not exactly one is true, or no other is possible."""
    message = "There is not exactly one true answer here." if several else "No other answer is possible here."
    return message, "Ask about something else, or in another position."


VALUE_WITHOUT_SUBJECT: Fault = (
    "A value says what an answer claims, and this question has no subject.",
    "Name the subject with the key about.",
)
NO_TEXT: Fault = ("This answer has no text.", "Write one.")
NO_VALUE: Fault = (
    "The program cannot know whether this answer is true.",
    "Say with the key value what it claims.",
)
WHY_OF_THE_TRUE: Fault = (
    "The key why is for wrong answers, and this one is true.",
    "Write in because what you say after the true answer.",
)


def impossible_value(value: str, advice: str) -> Fault:
    """A value that the subject does not have."""
    return f"“{value}” is not possible here.", advice


def marked_but_wrong(value: str, truth: Sequence[str]) -> Fault:
    """The answer marked as true is not."""
    told = " or ".join(truth) or "nothing"
    return f"The answer marked as true is wrong: {value}.", f"True is {told}."


def true_as_well(value: str) -> Fault:
    """An answer is true without being marked."""
    return f"This answer is true as well: {value}.", "Mark it, or offer another one."


ONE_TURN = "Write one turn, for example R or U'."
ONE_SLOT = "Write one of FR, FL, BL and BR."
A_NUMBER = "Write a number."


def a_place(example: str) -> str:
    """What to write for the place of a piece."""
    return f"Write a place by the letters of its faces, for example {example}."


def one_of(names: Sequence[str]) -> str:
    """What to write where a few words are possible."""
    return f"Write one of {', '.join(names)}."


# ------------------------------------------------------------------------------------------- placeholders

# The first text follows the placeholder itself: “{slot} has no value here.”
STRAY_BRACE: Fault = ("has no partner.", "Write {{ or }} for a brace itself.")


def unknown_placeholder(known: Sequence[str], with_argument: bool) -> Fault:
    """A placeholder of no known name."""
    which = "With a colon you can write" if with_argument else "You can write"
    return "is unknown.", f"{which} {', '.join(sorted(known))}."


NO_VALUE_WITHOUT_PAIR: Fault = ("has no value here.", NAME_THE_SLOT)
NO_VALUE_HERE: Fault = ("has no value here.", LEAVE_OUT)
NO_EDGE_ON_TOP: Fault = ("has no value here.", "The edge is not in the top layer, so leave it out.")
NO_CASE: Fault = ("has no value here.", "The position is none of the 41 cases, so leave it out.")


def not_notation(advice: str) -> Fault:
    """Moves in a placeholder that cannot be read; ``advice`` is the notation's own."""
    return "is not notation.", sentence(advice)


def many_moves(count: int) -> Fault:
    """Too many moves in one placeholder."""
    return f"has {figured(count, 'move')}.", "Write the few that matter."


NO_FACE: Fault = ("names no face.", "Write one of U, D, L, R, F and B.")
NO_SLOT: Fault = ("names no slot.", ONE_SLOT)
NO_PLACE: Fault = ("is not a place on top.", "Write for example UFR or UF.")
