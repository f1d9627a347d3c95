"""One room a screen: its state, commands, update, keys and view. ``table`` lists them."""
