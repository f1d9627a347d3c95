"""Settings shared by every test."""

from hypothesis import settings

# How long an example takes depends on the machine; speed is measured in tests/bench alone.
settings.register_profile("untimed", deadline=None)
settings.load_profile("untimed")
