"""``python -m tutor``: the program, and its commands without a window; a frozen program starts here, too."""

from __future__ import annotations

import sys

from tutor.app.cli.command_line import main


def start() -> int:
    """Run what the arguments ask for; the exit status."""
    if getattr(sys, "frozen", False) and _played_python():
        return 0
    return main()


def _played_python() -> bool:
    """Whether the process was started for another purpose than the program's, and has served it.

    A frozen program has no Python beside it. What it starts as ``python -m MODULE`` or as a process of
    multiprocessing's is the program itself, which then does that instead.
    """
    # Imported here, for these two take as long to import as the rest of what the help needs.
    import runpy
    from multiprocessing import freeze_support

    freeze_support()
    if sys.argv[1:2] != ["-m"]:
        return False
    del sys.argv[:2]
    runpy.run_module(sys.argv[0], run_name="__main__", alter_sys=True)
    return True


if __name__ == "__main__":
    sys.exit(start())
