"""The name of this room."""

NAME = "home"
