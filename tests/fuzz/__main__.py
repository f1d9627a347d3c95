"""``python -m tests.fuzz``: far more hostile inputs than a run of the tests tries.

By default hypothesis makes them, ``--examples`` for each target. With ``--coverage TARGET`` the inputs are
led by the code they reach (atheris, which is installed with “pip install atheris” where it has a wheel), for
``--seconds``.
"""

from __future__ import annotations

import argparse
import importlib
import os
import sys
from typing import Any

import pytest


def led_by_coverage(name: str, seconds: int) -> int:
    """Run atheris on one target; it ends the process with a status of its own when something is found.

    Only the program and what reads for it are watched: to watch all that is imported takes minutes.
    """
    try:
        atheris: Any = importlib.import_module("atheris")
    except ImportError:
        print("atheris is not installed; get it with: pip install atheris", file=sys.stderr)
        return 2
    with atheris.instrument_imports(include=["tutor", "msgspec", "tomllib"]):
        targets = importlib.import_module("tests.fuzz.targets")
        inputs = importlib.import_module("tests.fuzz.inputs")
    if name not in targets.TARGETS:
        print(f"“{name}” is no target; there are {', '.join(targets.TARGETS)}", file=sys.stderr)
        return 2
    target = targets.TARGETS[name]
    for document in inputs.DOCUMENTS[name]:
        target(document)
    targets.solver()
    atheris.Setup([sys.argv[0], f"-max_total_time={seconds}", f"-max_len={targets.LARGEST}"], target)
    atheris.Fuzz()
    return 0


def main() -> int:
    """Run it from the command line."""
    parser = argparse.ArgumentParser(prog="python -m tests.fuzz", description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--examples", type=int, default=5000, help="inputs for each target, usually 5000")
    parser.add_argument("--coverage", metavar="TARGET", help="a name of tests/fuzz/targets.py, TARGETS")
    parser.add_argument("--seconds", type=int, default=60, help="with --coverage, usually 60")
    chosen = parser.parse_args()
    if chosen.coverage:
        return led_by_coverage(chosen.coverage, chosen.seconds)
    os.environ["FUZZ_EXAMPLES"] = str(chosen.examples)
    return int(pytest.main(["-q", "-p", "no:cacheprovider", "tests/fuzz"]))


if __name__ == "__main__":
    sys.exit(main())
