"""Free play: any position, any slot."""
