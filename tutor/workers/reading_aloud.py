"""Reading aloud beside the window: one text at a time, each by a process of the system's own speech.

Whatever comes next stops what is being said at once, and nothing here is waited for.
"""

from __future__ import annotations

import subprocess
from collections import deque
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import suppress
from threading import Lock

from tutor.quoting import visible
from tutor.session.commands import TellAtFoot
from tutor.speech.speaking import SpeechError, begin_to_speak, speak_with, system_voice


class Reader:
    """Reads texts aloud, the newest one only."""

    def __init__(self) -> None:
        """Nothing starts yet."""
        self._thread = ThreadPoolExecutor(1, "reading-aloud")
        self._lock = Lock()
        self._newest = 0
        self._speaking: subprocess.Popen[bytes] | None = None
        self._faults: deque[str] = deque()
        self._told = ""

    def say(self, text: str) -> None:
        """Stop what is being said, and say this; with an empty text, only stop."""
        with self._lock:
            self._newest += 1
            self._stop()
            if text:
                self._thread.submit(self._speak, text, self._newest)

    def poll(self) -> Iterator[TellAtFoot]:
        """Why nothing is heard, each reason once."""
        while self._faults:
            fault = self._faults.popleft()
            if fault != self._told:
                self._told = fault
                yield TellAtFoot(fault)

    def forget_faults(self) -> None:
        """Tell the next fault even if it is the last one again: the learner has switched reading on anew."""
        self._told = ""

    def close(self) -> None:
        """Stop, for good."""
        self.say("")
        self._thread.shutdown(wait=True)

    def _stop(self) -> None:
        if self._speaking is not None:
            # It may have come to its end by itself.
            with suppress(OSError):
                self._speaking.kill()

    def _speak(self, text: str, number: int) -> None:
        """On the thread: begin to speak, unless something newer has come, and wait for the end."""
        if number != self._newest:
            return
        try:
            voice = system_voice()
            process = begin_to_speak(voice)
            with self._lock:
                self._speaking = process
                if number != self._newest:
                    self._stop()
            speak_with(process, text, voice)
        except SpeechError as fault:
            if number == self._newest:
                told = str(fault)
                self._faults.append(visible(f"{told[:1].upper()}{told[1:]}."))
        finally:
            with self._lock:
                self._speaking = None
