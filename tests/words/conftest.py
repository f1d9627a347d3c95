"""The solver of the session's tests, for the views whose words are counted."""

from tests.session.conftest import solver

__all__ = ["solver"]
