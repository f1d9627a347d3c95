"""Painting one's own cube."""
