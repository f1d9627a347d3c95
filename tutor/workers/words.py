"""What the processes and threads beside the window say, in English."""

from __future__ import annotations

from tutor.quoting import visible

# ---------------------------------------------------------------------------- at the foot of the window


def setup_share(share: float) -> str:
    """How much of the large tables is made."""
    return f"One-time setup: {share:.0%}. You can start now."


SETUP_RESTARTED = "The one-time setup stopped. The program has started it again."


def setup_failed(reason: str) -> str:
    """The large tables could not be made."""
    told = f"The program could not finish its one-time setup: {visible(reason)}."
    return f"{told} Some answers take longer. It tries again the next time you start it."


ANSWERS_RESTARTED = "The process that works out answers stopped. The program has started it again."


def no_answer(reason: str) -> str:
    """Nothing came of a question about a position."""
    return f"The program could not work out an answer: {visible(reason)}."


STOPPED_EVERY_TIME = "the process that works on it stopped every time"

# --------------------------------------------------------------------------------- what learners have done

NOTHING_CHOSEN = (
    "The program could not choose your next case; the log says why. "
    "Try again, or choose a case in the Case book."
)


def nothing_saved_until_then(reason: str) -> str:
    """The progress file belongs to a newer version; ``reason`` is a sentence that says what to do."""
    return f"{visible(reason)} Until then the program saves nothing."


def not_added(name: str, reason: str) -> str:
    """A learner who could not be added."""
    return f"{visible(name)} could not be added: {visible(reason)}."


def learner_unchanged(name: str, reason: str) -> str:
    """A learner who could not be renamed, joined, removed or put back."""
    return f"Nothing has changed for {visible(name)}: {visible(reason)}."


def own_words_not_kept(reason: str) -> str:
    """A learner's own words for a case that could not be saved."""
    return f"Your own words are not saved: {visible(reason)}."


def not_assigned(reason: str) -> str:
    """Something to do that could not be saved."""
    return f"This task is not saved: {visible(reason)}."


def away(folder: str, reason: str) -> str:
    """The shared folder cannot be read or written."""
    return (
        f"The program cannot use the shared folder {folder} ({reason}). "
        "It keeps everything here, and shares it when the folder is back."
    )


def not_shared(folder: str, reason: str) -> str:
    """The progress file cannot take in what is in the shared folder."""
    return f"The program cannot save what comes over {folder} ({reason}). It tries again."


def still_counts(reason: str) -> str:
    """An attempt that could not be deleted."""
    return f"This attempt still counts: {visible(reason)}."


# ------------------------------------------------------------------------------------ why a file is not saved

DRAWING_STOPPED = "the process that draws it stopped unexpectedly."


def not_written(reason: str, folder: str) -> str:
    """The system refused to write a file."""
    return f"{visible(reason)} ({visible(folder)})."


def drawing_failed(kind: str) -> str:
    """A fault of the program; ``kind`` names it for whoever reads the log."""
    return f"something went wrong while the program drew it ({kind})."


# --------------------------------------------------------------------------------------------- in the log

REQUEST_FAILED = "a request failed"
PROCESS_STOPPED = "a process beside the window stopped unexpectedly"
PROCESS_NOT_STARTED = "the system did not start a process beside the window"
CHOOSING_FAILED = "the program could not choose the next case"
SAVING_FAILED = "the program could not save what was on the screen"
