"""Practice: what comes next, one run of a case, flashes, the beat, and who learns."""
