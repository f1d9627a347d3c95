"""Everything that is true without a screen, and the application that joins it to one."""
