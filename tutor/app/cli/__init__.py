"""The command line: the commands without a window, and what only they use."""
