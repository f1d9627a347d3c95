"""What the machine offers, and what is wrong with what the program has kept."""
