"""Free play: any cube, any slot."""
