"""Type and its measures, without a window."""
