"""Who learns."""
