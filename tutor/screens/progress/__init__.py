"""Progress: how well a learner remembers each case."""
