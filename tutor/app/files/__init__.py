"""The small files of the program: where each lies, how it is read and written."""
