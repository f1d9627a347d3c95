"""The case book."""
