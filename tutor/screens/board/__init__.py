"""The board: a case or a scene before a group, in letters to read from afar, with the answer hidden."""
