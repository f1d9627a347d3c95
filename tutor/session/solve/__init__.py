"""Whole solves: a cube from its scramble to two layers home, advice, review, looking ahead."""
