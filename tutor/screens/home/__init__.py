"""Home: where one was, the lessons, and the ways to all other rooms."""
