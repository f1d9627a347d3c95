"""The name of this room."""

NAME = "learners"
