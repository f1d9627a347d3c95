"""The texts that lie in the program's source, found by reading it."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

ROOT = Path(__file__).parents[2]
FILLED_IN = "…"
"""Stands for what a text has filled in."""
_TEXT = re.compile(r"[A-Za-z]{2,}[,;:.!?]? +[A-Za-z…]|^[A-Z][a-z]+[.!?]$")


def texts_of(path: Path) -> Iterator[tuple[int, str]]:
    """Line and text of everything in a module that reads like English, its documentation aside."""
    tree = ast.parse(path.read_text("utf-8"))
    inside = _documentation(tree) | _pieces_of_longer_texts(tree)
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant | ast.JoinedStr) and id(node) not in inside:
            text = _text(node)
            if _TEXT.search(text):
                yield node.lineno, text


def _documentation(tree: ast.AST) -> set[int]:
    """Strings that are statements of their own: docstrings and notes below a value."""
    alone = (node.value for node in ast.walk(tree) if isinstance(node, ast.Expr))
    return {id(value) for value in alone if isinstance(value, ast.Constant)}


def _pieces_of_longer_texts(tree: ast.AST) -> set[int]:
    found = (node for node in ast.walk(tree) if isinstance(node, ast.JoinedStr))
    return {id(piece) for node in found for piece in ast.walk(node) if piece is not node}


def _text(node: ast.Constant | ast.JoinedStr) -> str:
    if isinstance(node, ast.Constant):
        return node.value if isinstance(node.value, str) else ""
    return "".join(
        str(piece.value) if isinstance(piece, ast.Constant) else FILLED_IN for piece in node.values
    )
