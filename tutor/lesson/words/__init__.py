"""Everything that the lesson package says to learners and teachers, by subject."""
