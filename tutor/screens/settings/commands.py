"""The name of this room."""

NAME = "settings"
