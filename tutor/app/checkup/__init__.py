"""What the machine offers, and whether the saved data is sound."""
