"""The processor is left to the window; on Windows by numbers of its documents (SetPriorityClass)."""

from __future__ import annotations

import os
from multiprocessing import get_context

from tutor.workers.priority import GENTLE, let_others_go_first, lower


def test_on_windows_the_class_of_this_process_is_below_the_usual_one() -> None:
    class Calls:
        told = (0, 0)

        def GetCurrentProcess(self) -> int:  # noqa: N802
            return -1

        def SetPriorityClass(self, process: int, priority: int) -> int:  # noqa: N802
            self.told = process, priority
            return 0

    calls = Calls()
    lower(calls)
    assert calls.told == (-1, 0x4000)


def _lowered() -> None:
    before = os.nice(0)
    let_others_go_first()
    os._exit(os.nice(0) - before)


def test_elsewhere_the_process_is_nice() -> None:
    process = get_context("fork").Process(target=_lowered)
    process.start()
    process.join(60)
    assert process.exitcode == GENTLE
