"""The window: events become inputs, views become frames."""
