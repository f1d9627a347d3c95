"""The composition root and the command line; the only place that knows the window."""
