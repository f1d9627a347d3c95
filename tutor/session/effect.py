"""What a session asks of the world is plain data of this kind."""

from __future__ import annotations


class Effect:
    """Something asked of the world. The application carries it out."""

    __slots__ = ()
