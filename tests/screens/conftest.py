"""The pilots of the session's tests, for those of its screens."""

from tests.session.conftest import made_pair, painter, pilot, pupil

__all__ = ["made_pair", "painter", "pilot", "pupil"]
