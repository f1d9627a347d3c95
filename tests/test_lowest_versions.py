from __future__ import annotations

import pytest

from tests.lowest_versions import PROJECT, lowest_versions

ALIKE = """
[project]
dependencies = ["one>=1.2", "two>=2,<3"]
[project.optional-dependencies]
more = ["one>=1.2", "three==3.8.0"]
"""


def test_each_requirement_gives_its_lowest_version() -> None:
    assert lowest_versions(ALIKE) == {"one": "1.2", "two": "2", "three": "3.8.0"}


@pytest.mark.parametrize("wrong", ["one", "one<2", "one>=1.3"])
def test_a_requirement_without_a_lowest_version_or_with_two_is_refused(wrong: str) -> None:
    with pytest.raises(ValueError, match=f"“{wrong}”"):
        lowest_versions(ALIKE.replace("three==3.8.0", wrong))


def test_everything_this_project_needs_has_a_lowest_version() -> None:
    assert len(lowest_versions(PROJECT.read_text("utf-8"))) > 20
