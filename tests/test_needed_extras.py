"""Without an extra that the tests need, one sentence says how to get it."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
COLLECT = """
import sys
sys.modules.update(dict.fromkeys(sys.argv[1:]))  # as if not installed
import pytest
sys.exit(pytest.main(["--collect-only", "-q", "-p", "no:cacheprovider", "tests/test_counting.py"]))
"""


def test_all_that_is_missing_is_named_in_one_sentence() -> None:
    command = [sys.executable, "-c", COLLECT, "av", "unified_planning"]
    ended = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False)
    assert ended.returncode == pytest.ExitCode.USAGE_ERROR
    assert ended.stderr.strip() == (
        "ERROR: these tests need more than is installed; type “pip install --editable '.[film,planner]'”"
    )
    assert ended.stdout == ""
