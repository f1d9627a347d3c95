"""What is kept of a learner: attempts on their way to the store, and how one stands."""
