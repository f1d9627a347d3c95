"""OpenGL and window: draws a view, reports input; knows nothing of lessons, solver or store."""
