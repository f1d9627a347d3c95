"""Attempts kept safely, what is due when, and how well the cases hold."""
