"""Looking ahead: the learner follows the pieces of the next pair."""
