"""The system's own speech: turns and sentences as words to hear, and sound files made of them."""
