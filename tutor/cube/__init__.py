"""The cube: faces, turns, notation, positions, viewpoints and legality."""
