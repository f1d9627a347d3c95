"""What ``bench_window`` runs in processes of its own: a bare window of the library, and the program's.

Each prints one JSON line. Times of start are seconds since 1970, to be compared with the moment the process
was started at.
"""

from __future__ import annotations

import json
import sys
import time
from collections.abc import Callable
from pathlib import Path
from random import Random
from typing import Any

from tests.bench.profiling import Costs, costs_of, tell

SIZE = (1280, 800)
FRAMES = 200


def most_memory() -> float:
    """The most MiB this process has held so far (proc(5), VmHWM)."""
    lines = Path("/proc/self/status").read_text().splitlines()
    return next(int(line.split()[1]) for line in lines if line.startswith("VmHWM:")) / 1024


def bare_window() -> tuple[Any, Any]:
    """The library and a window of it with one cleared frame."""
    import pyglet
    import pyglet.window

    window = pyglet.window.Window(*SIZE, resizable=True)
    clear(pyglet, window)
    return pyglet, window


def clear(library: Any, window: Any) -> None:
    """The cheapest frame there is."""
    window.switch_to()
    library.gl.glClearColor(1.0, 1.0, 1.0, 1.0)
    window.clear()
    window.flip()


def start_bare() -> dict[str, float]:
    """When the first frame of a bare window was on the screen."""
    bare_window()
    return {"shown": time.time(), "memory": most_memory()}


def start_program() -> dict[str, float]:
    """When Home was on the screen, and when a key pressed in that very moment had moved the focus."""
    from render.window.window import Window
    from tutor.app.cli.command_line import main

    told: dict[str, float] = {}
    paint = Window._paint

    def paint_once(window: Window, shown: bool) -> None:
        paint(window, shown)
        told["shown"] = time.time()
        window.on_key_press(window._library.window.key.TAB, 0)
        paint(window, shown)
        told["answered"] = time.time()
        told["memory"] = most_memory()
        window.close()

    setattr(Window, "_paint", paint_once)  # noqa: B010
    main([])
    return told


def timed_frames(
    seconds: float, frame: Callable[[], None], finish: Callable[[], None]
) -> tuple[list[float], float]:
    """Milliseconds of each frame, with all that the driver does for it, and of processor time a frame.

    The second figure counts all the driver's threads, and hardly depends on what else the machine does.
    """
    taken: list[float] = []
    worked = time.process_time()
    end = time.perf_counter() + seconds
    while time.perf_counter() < end:
        begun = time.perf_counter()
        frame()
        finish()
        taken.append(1000 * (time.perf_counter() - begun))
    return taken, 1000 * (time.process_time() - worked) / len(taken)


def turning(library: Any, window: Any) -> Any:
    """The program in this window, warm: each frame shows a turn under way, with mirrors, arrow and marks."""
    from render.window.window import Frame, Port, Window
    from tests.session.pilot import Pilot
    from tutor.cube.faces import TURNS, Turn
    from tutor.session import update
    from tutor.session.commands import Make
    from tutor.solver.search import Solver
    from tutor.ui.inputs import Input
    from tutor.ui.view import Arrow

    # The program's own: ``tests.bench.table --compare`` measures older trees too, which have another.
    replace = vars(update)["replace"]
    pilot, random = Pilot(Solver.open()), Random(2)
    pilot.free_play("R U R'")

    class Shown(Port):
        def opened(self, window: Window) -> None:
            return

        def handle(self, event: Input) -> bool:
            return pilot.application.handle(event)

        def poll(self) -> bool:
            return False

        def failed(self, error: Exception) -> None:
            raise error

        def frame(self) -> Frame:
            pilot.now = now = time.perf_counter()
            if not pilot.moving:
                pilot.application.give(Make(random.choice(TURNS)))
            view, moving = pilot.application.view(now)
            assert view.stage is not None
            return Frame(replace(view, stage=replace(view.stage, arrow=Arrow(Turn.F))), moving)

    shown = Window(library, window)
    shown.join(Shown())
    for _ in range(10):
        shown.paint()
    return shown


def visible_window() -> tuple[Any, Any]:
    """The library and a window as the program opens it."""
    from render.window.opening import open_window

    library, window = open_window("bench", SIZE)
    window.set_visible(True)
    return library, window


def frames(seconds: float) -> dict[str, Any]:
    """A bare window's frames, then the program's while one turn follows the other."""
    library, window = visible_window()
    finish = library.gl.glFinish
    bare = timed_frames(seconds / 10, lambda: clear(library, window), finish)
    shown = turning(library, window)
    return {
        "bare": bare,
        "program": timed_frames(seconds, shown.paint, finish),
        "memory": most_memory(),
        "renderer": library.gl.gl_info.get_renderer(),
    }


def frame_costs() -> Costs:
    """What one frame costs, the mean of two hundred."""
    library, window = visible_window()
    shown = turning(library, window)

    def many() -> None:
        for _ in range(FRAMES):
            shown.paint()
            library.gl.glFinish()

    return costs_of(many, FRAMES)


def idle_bare() -> None:
    """A bare window whose loop runs as the library runs it."""
    library, _ = bare_window()
    library.app.run()


if __name__ == "__main__":
    match sys.argv[1:]:
        case ["bare"]:
            print(json.dumps(start_bare()))
        case ["program"]:
            print(json.dumps(start_program()))
        case ["frames", seconds]:
            print(json.dumps(frames(float(seconds))))
        case ["costs of a start"]:
            tell(costs_of(start_program))
        case ["costs of a frame"]:
            tell(frame_costs())
        case ["idle"]:
            idle_bare()
