"""The cube on its stage: meshes, marks, mirrors, and what is under a point of the picture."""
