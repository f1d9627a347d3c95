"""Progress: how well each case holds."""
