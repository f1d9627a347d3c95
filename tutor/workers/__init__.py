"""Processes and threads beside the window: how to ask them, hear from them, cancel and restart."""
