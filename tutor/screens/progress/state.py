"""What the Progress screen keeps; its figures are in the records."""

from __future__ import annotations

from datetime import date

from tutor.session.holder import Holder

ASKED: Holder[date | None] = Holder("figures", None)
"""The day on which its figures were asked for last."""
