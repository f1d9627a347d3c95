"""Practice: the cases one after the other, with help that fades."""
