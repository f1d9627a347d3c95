"""What windows need of one system beyond the library: a usual system, and those that need more."""
