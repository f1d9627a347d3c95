"""Home: the lessons, and the ways to all other rooms."""
