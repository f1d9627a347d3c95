"""How to install what is installed only when wanted, by the way in which the program itself was installed."""

from __future__ import annotations

import json
import sys
from importlib import metadata
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit
from urllib.request import url2pathname

from tutor.publish import words

NAME = "pairwright"
SOURCE = Path(__file__).parents[2]
"""The folder of the source, where the program runs from one that was never installed."""


def in_bundle() -> bool:
    """Whether the program is frozen into a bundle, which takes no other packages."""
    return getattr(sys, "frozen", False)


def installing(extra: str) -> str:
    """What to type for an extra of this installation of the program."""
    if in_bundle():
        return words.IN_A_BUNDLE
    try:
        return installing_for(extra, metadata.distribution(NAME))
    except metadata.PackageNotFoundError:
        return words.install_in(f"pip install '.[{extra}]'", str(SOURCE))


def installing_for(extra: str, installed: metadata.Distribution) -> str:
    """What to type for an extra, read from the record of where the program came from (PEP 610)."""
    origin = _origin(installed)
    if origin is None:
        return words.install_anywhere(f"pip install '{NAME}[{extra}]'")
    url = str(origin["url"])
    if "dir_info" in origin:
        editable = "--editable " if origin["dir_info"].get("editable") else ""
        return words.install_in(f"pip install {editable}'.[{extra}]'", url2pathname(urlsplit(url).path))
    system = f"{origin['vcs_info']['vcs']}+" if "vcs_info" in origin else ""
    return words.install_anywhere(f"pip install '{NAME}[{extra}] @ {system}{url}'")


def _origin(installed: metadata.Distribution) -> dict[str, Any] | None:
    """Where the program came from; None when it came from an index."""
    written = installed.read_text("direct_url.json")
    if written is None:
        return None
    read: dict[str, Any] = json.loads(written)
    return read
