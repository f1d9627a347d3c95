"""A reader of HTML pages, with Python's own parser."""

from __future__ import annotations

from html.parser import HTMLParser


class PageReader(HTMLParser):
    """What is on a page: its headings, its texts, and every address it refers to."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.texts: list[str] = []
        self.addresses: list[str] = []
        self.open: list[str] = []
        self.counts: dict[str, int] = {}
        self.data = ""
        """What stands on the page for its script."""
        self._for_script = False
        self.feed(page)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.counts[tag] = self.counts.get(tag, 0) + 1
        if tag not in ("meta", "img", "br", "hr", "link"):
            self.open.append(tag)
        named = dict(attrs)
        self._for_script = named.get("type") == "application/json"
        self.addresses += [named[key] or "" for key in ("src", "href") if key in named]

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        if self._for_script:
            self.data += data
        elif data.strip() and self.open[-1] not in ("style", "script"):
            self.texts.append(data.strip())
