"""What a button, tile or field carries, and gives back when it is pressed."""

from __future__ import annotations


class Action:
    """Something that can be asked for: a value, compared by what it says and not by identity.

    What shows it knows nothing of it but that two equal ones do the same.
    """

    __slots__ = ()
