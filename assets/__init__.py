"""Shaders, palettes and themes; data only."""
