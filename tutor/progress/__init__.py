"""Attempts kept safely, which cases come back when, and how well a learner remembers them."""
