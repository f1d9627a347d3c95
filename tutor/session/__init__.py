"""State as values, commands, pure update, history, timeline and view."""
