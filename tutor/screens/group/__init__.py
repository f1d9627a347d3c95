"""The group: who remembers which case, and how the last evening went."""
