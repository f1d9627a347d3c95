"""Painting your own cube."""
