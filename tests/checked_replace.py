"""A plugin of mypy: it checks the arguments of ``msgspec.structs.replace`` as it does those of dataclasses.

pyproject.toml names it. mypy knows the fields of a struct (PEP 681), but the library declares what replaces
them as any keywords. ``tests/test_checked_replace.py`` fails to pass mypy once this no longer has an effect.
"""

from __future__ import annotations

from collections.abc import Callable

from mypy.plugin import FunctionSigContext, Plugin
from mypy.plugins.dataclasses import replace_function_sig_callback
from mypy.types import FunctionLike


class CheckedReplace(Plugin):
    """Gives each call the signature that the struct's fields make."""

    def get_function_signature_hook(
        self, fullname: str
    ) -> Callable[[FunctionSigContext], FunctionLike] | None:
        """The hook that makes it, for that function alone."""
        return replace_function_sig_callback if fullname == "msgspec.structs.replace" else None


def plugin(version: str) -> type[Plugin]:
    """What mypy asks for, in any ``version``."""
    return CheckedReplace
