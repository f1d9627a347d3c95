"""``python -m tests.soak.watched FILE …``: the program, which also writes down each screen it shows."""

from __future__ import annotations

import sys
from pathlib import Path

from tutor.app.application import Application
from tutor.app.cli.command_line import main
from tutor.ui.view import View

shown = ""


def watch(file: Path) -> None:
    """Add the name of a screen to a file whenever another one is shown."""
    view = Application.view

    def watched(self: Application, now: float) -> tuple[View, bool]:
        global shown
        if self.session.screen != shown:
            shown = self.session.screen
            with file.open("a", encoding="utf-8") as written:
                written.write(f"{shown}\n")
        return view(self, now)

    Application.view = watched  # type: ignore[method-assign]


if __name__ == "__main__":
    watch(Path(sys.argv[1]))
    sys.exit(main(sys.argv[2:]))
