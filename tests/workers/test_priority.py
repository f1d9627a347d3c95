"""The processor is left to the window; on Windows by numbers of its documents (SetPriorityClass)."""

from __future__ import annotations

import os
from ctypes.wintypes import HANDLE
from multiprocessing import get_context
from unittest.mock import MagicMock

from tutor.workers.priority import GENTLE, let_others_go_first, lower


def test_on_windows_the_class_of_this_process_is_below_the_usual_one() -> None:
    system = MagicMock()
    system.GetCurrentProcess.return_value = -1
    lower(system)
    system.SetPriorityClass.assert_called_once_with(-1, 0x4000)
    # Without these a handle would be cut to 32 bits.
    assert system.GetCurrentProcess.restype is HANDLE
    assert system.SetPriorityClass.argtypes[0] is HANDLE


def _lowered() -> None:
    before = os.nice(0)
    let_others_go_first()
    os._exit(os.nice(0) - before)


def test_elsewhere_the_process_is_nice() -> None:
    process = get_context("fork").Process(target=_lowered)
    process.start()
    process.join(60)
    assert process.exitcode == GENTLE
