"""``python -m tests.lowest_versions``: the lowest versions that pyproject.toml allows, as pip's constraints.

Make an environment outside the tree with them: ``python -m tests.lowest_versions > lowest.txt`` and
``pip install --editable '.[test,planner]' --constraint lowest.txt``.
"""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

PROJECT = Path(__file__).parent.parent / "pyproject.toml"
_BOUND = re.compile(r"([\w-]+)[>=]=([\d.]+)(?:,<[\d.]+)?")


def lowest_versions(project: str) -> dict[str, str]:
    """Every requirement of a pyproject.toml and its extras by name, with the lowest version allowed.

    Raises ValueError when a requirement has no lowest version, or when two disagree.
    """
    described = tomllib.loads(project)["project"]
    lowest: dict[str, str] = {}
    for group in (described["dependencies"], *described["optional-dependencies"].values()):
        for requirement in group:
            bound = _BOUND.fullmatch(requirement)
            if bound is None or lowest.setdefault(bound[1], bound[2]) != bound[2]:
                raise ValueError(f"“{requirement}” names no lowest version, or another one than before")
    return lowest


if __name__ == "__main__":
    for name, version in lowest_versions(PROJECT.read_text("utf-8")).items():
        print(f"{name}=={version}")
