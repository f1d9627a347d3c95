"""Verdicts in words, slips and hints, all computed from the position."""
