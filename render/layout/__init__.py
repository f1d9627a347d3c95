"""Where everything of a view goes: pure functions of view and size."""
