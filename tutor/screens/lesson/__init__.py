"""A lesson, scene by scene."""
