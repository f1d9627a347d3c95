"""The tables of lessons/FORMAT.md and the schema file, produced from the types.

After a change of the format run ``python -m tutor.lesson.format_page lessons``; a test fails until then.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from tutor.lesson.placeholders import placeholder_meanings
from tutor.lesson.script import SCENE_TYPES, schema
from tutor.lesson.words import format_keys as words

PAGE, SCHEMA = "FORMAT.md", "schema.json"
BEGIN = "<!-- made from the types: begin -->"
END = "<!-- made from the types: end -->"

# Keys without a description of their own: what a table or list of tables holds is described by its own table.
_KIND = "kind"
_OTHER_SCENES = {kind.__name__ for kind in SCENE_TYPES.values()} - {"TellScript"}
"""Their tables leave out what every scene has."""


def schema_text() -> str:
    """The JSON Schema of the format, as the file holds it."""
    return json.dumps(schema(), indent=2, ensure_ascii=False) + "\n"


def tables() -> str:
    """All tables in Markdown: keys by where they stand, then the placeholders."""
    definitions: Mapping[str, Any] = schema()["$defs"]
    common = set(definitions["TellScript"]["properties"])
    parts = []
    for name, title in words.TABLES.items():
        skipped = common if name in _OTHER_SCENES else {_KIND}
        rows = _rows(definitions[name], skipped)
        if rows:
            parts.append(f"### {title}\n\n{words.KEYS_HEAD}\n| --- | --- | --- |\n{rows}")
    meanings = "\n".join(f"| `{name}` | {meaning} |" for name, meaning in placeholder_meanings().items())
    head = f"### {words.PLACEHOLDERS}\n\n{words.PLACEHOLDERS_HEAD}\n| --- | --- |\n"
    parts.append(f"{head}{meanings}\n")
    return "\n".join(parts)


def filled_page(page: str) -> str:
    """The page with the tables between its two marks. Raises ValueError when a mark is missing."""
    before, found_begin, rest = page.partition(BEGIN)
    _, found_end, after = rest.partition(END)
    if not (found_begin and found_end):
        raise ValueError(words.marks_missing(BEGIN, END))
    return f"{before}{BEGIN}\n\n{tables()}\n{END}{after}"


def _rows(definition: Mapping[str, Any], skipped: set[str]) -> str:
    required = definition.get("required", [])
    lines = []
    for key, value in definition["properties"].items():
        if key in skipped:
            continue
        name = f"**{key}**" if key in required else key
        lines.append(f"| {name} | {_value(value)} | {value.get('description', '')} |\n")
    return "".join(lines)


def _value(value: Mapping[str, Any]) -> str:
    """A value's kind in a few words."""
    if "anyOf" in value:
        kinds = [_value(choice) for choice in value["anyOf"] if choice.get("type") != "null"]
        return " or ".join(dict.fromkeys(kinds))
    if "enum" in value:
        # None stands in the schema for a key that is left out.
        return ", ".join(
            f"`{choice}`" if choice else '`""`' for choice in value["enum"] if choice is not None
        )
    if value.get("type") == "array":
        inner = "tables" if "$ref" in value["items"] or "anyOf" in value["items"] else "texts"
        return words.list_of(inner)
    if "minimum" in value:
        return words.between(value["minimum"], value["maximum"])
    names = {"string": "text", "boolean": words.TRUE_OR_FALSE, "integer": "number", "number": "number"}
    return "table" if "$ref" in value else names[value["type"]]


def main(folder: Path) -> None:
    """Write page and schema anew in the folder of the lessons."""
    page = folder / PAGE
    page.write_text(filled_page(page.read_text(encoding="utf-8")), encoding="utf-8")
    (folder / SCHEMA).write_text(schema_text(), encoding="utf-8")


if __name__ == "__main__":
    main(Path(sys.argv[1]))
