"""Exact answers: tables, search and the judgement of turns."""
