"""What the views of several rooms are made of."""
