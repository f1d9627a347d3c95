"""What can be wrong with the form of a script, each time with what would be right."""

from __future__ import annotations

from tutor.counting import figured, noun

Fault = tuple[str, str]

# ------------------------------------------------------------------------------------------ the file itself


def unreadable_file(reason: str) -> Fault:
    """The system does not give the file."""
    return f"The file cannot be read: {reason}.", "Check its name, and whether you may read it."


A_FOLDER: Fault = ("This is a folder.", "Name a file in it.")


def large_file(most: int) -> Fault:
    """A file larger than a script may be."""
    return "The file is too large.", f"Keep a script within {figured(most, 'byte')}."


NOT_TEXT: Fault = ("This is not UTF-8 text.", "Save the file as UTF-8.")


def oddly_named(end: str, name: str) -> Fault:
    """A file whose name has the right end in another way."""
    return f"The file's name must end in {end}, once and in small letters.", f"Rename the file to {name}."


def no_such_lesson(names: tuple[str, ...]) -> Fault:
    """A name that no lesson has."""
    return "There is no lesson of this name.", (
        f"The lessons are {', '.join(names)}. "
        "For a lesson of your own, write its file, such as my-lessons/evening-club.toml."
    )


# --------------------------------------------------------------------------------------------------- TOML


def large_text(size: int, most: int) -> Fault:
    """A text with more bytes than a script may have."""
    return f"The file has {figured(size, 'byte')}.", f"Keep a script within {figured(most, 'byte')}."


def long_line(length: int, most: int) -> Fault:
    """A line with more characters than a line may have."""
    return (
        f"This line has {figured(length, 'character')}.",
        f"Keep lines within {figured(most, 'character')}.",
    )


def not_toml(column: str, reason: str) -> Fault:
    """What the TOML reader refuses; ``column`` is empty where it is not known."""
    at = f" at column {column}" if column else ""
    return f"This is not TOML{at}: {reason}.", 'Write key = "value", one on each line, with texts in quotes.'


TOO_DEEP: Fault = (
    "Lists or tables are nested too deep.",
    "A script needs three levels: the file, its scenes, and what a scene has.",
)
LONG_NUMBER: Fault = ("A number is too long.", "Write a number of a few digits.")


# ------------------------------------------------------------------------------------------------- values


def other_kind(found: str, wanted: str) -> Fault:
    """A value of another kind than the key has; both in words."""
    return f"The value here is {found}.", f"Write {wanted}."


A_TABLE = "a table of keys"
A_SCENE = "each scene as a table that begins with [[scene]]"


def unknown_key(key: str, close: str, known: str) -> Fault:
    """A key that the table does not have; ``close`` is one much like it, or empty."""
    return f"There is no key “{key}” here.", f"Did you mean “{close}”?" if close else f"The keys are {known}."


def missing_key(key: str, example: str) -> Fault:
    """A key that must be there."""
    return "This key is missing.", f"Add {key} = {example}."


def unknown_scene(kind: str, known: str) -> Fault:
    """A kind of scene that does not exist."""
    return f"“{kind}” is not a kind of scene.", _one_of(known)


def missing_kind(known: str) -> Fault:
    """A scene that does not say its kind."""
    return "This key is missing.", _one_of(known)


def not_offered(value: str, known: str) -> Fault:
    """A value that is none of those to choose from."""
    return f"“{value}” is not possible here.", _one_of(known)


def _one_of(known: str) -> str:
    return f"Write one of {known}."


def too_many(count: int, most: int) -> Fault:
    """A list with more values than it may have."""
    return f"This list has {figured(count, 'value')}.", f"Leave at most {most}."


EMPTY_LIST: Fault = ("This list is empty.", "Write at least one value.")
EMPTY_TEXT: Fault = ("This text is empty.", "Write something, or leave the key out.")


def control_character(escape: str) -> Fault:
    """A character that writes nothing, and that a terminal or a screen would obey."""
    return f"This text has the control character {escape}.", "Leave it out."


def long_text(length: int, most: int) -> Fault:
    """A text with more characters than it may have."""
    return f"This text has {figured(length, 'character')}.", f"Keep it within {figured(most, 'character')}."


def out_of_range(value: str, least: float, most: float) -> Fault:
    """A number that is too small or too large."""
    return f"{value} is out of range.", f"Write a number from {least:g} to {most:g}."


# The kinds of values, for ``other_kind``.
FLAG, TEXT, NUMBER, LIST, TABLE, DATE = (
    "true or false",
    "a text",
    "a number",
    "a list",
    "a table",
    "a date or time",
)
QUOTED_TEXT, BRACKETED_LIST = "a text in quotes", "a list in square brackets"


# ------------------------------------------------------------------------------------------- the library


def folder_unreadable(folder: str, reason: str) -> str:
    """On Home: a teacher's folder cannot be looked through."""
    return f"Your lessons in {folder} cannot be read: {reason}."


def more_than_listed(folder: str, count: int, listed: int) -> str:
    """On Home: a teacher's folder has more lessons than the list."""
    more = count - listed
    return (
        f"There are {figured(count, 'lesson')} in {folder}. You see the first {listed} by name: "
        f"{more:,} {noun(more, 'is', 'are')} not listed. Move some to another folder."
    )
