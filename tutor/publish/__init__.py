"""Handouts: pictures, films and sheets, made from exact data without a window."""
