"""Looking ahead: following the pieces of the next pair."""
