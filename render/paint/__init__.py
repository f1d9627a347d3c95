"""The interface as shapes, and the shapes as pixels."""
