"""Lines of keys in TOML."""

from tutor.lesson.line_numbers import key_lines, line_of

TEXT = """\
# a comment with = and [brackets]
title = "a \\" quote"   # 2

[[scene]]
kind = 'tell'
text = \"\"\"
three = 3
[[scene]]
\"\"\"
highlight = [
  "corner",  # 11
  "edge",
]

[[scene]]  # 15
camera.yaw = 1
answers = [
  { text = "a, b] }", true = true },
  { text = "c",
    value = 3 },
]
"quoted.key" = 1979-05-27 07:32:00
[scene.steps]
raise = '''x'''
[[scene.parts]]
turns = "R"
[[scene.parts]]
turns = "U"
"""


def test_every_key_and_element_has_its_line() -> None:
    lines = key_lines(TEXT)
    expected = {
        ("title",): 2,
        ("scene",): 4,
        ("scene", 0): 4,
        ("scene", 0, "kind"): 5,
        ("scene", 0, "text"): 6,
        ("scene", 0, "highlight"): 10,
        ("scene", 0, "highlight", 0): 11,
        ("scene", 0, "highlight", 1): 12,
        ("scene", 1): 15,
        ("scene", 1, "camera", "yaw"): 16,
        ("scene", 1, "answers", 0): 18,
        ("scene", 1, "answers", 0, "true"): 18,
        ("scene", 1, "answers", 1, "value"): 20,
        ("scene", 1, "quoted.key"): 22,
        ("scene", 1, "steps", "raise"): 24,
        ("scene", 1, "parts", 0, "turns"): 26,
        ("scene", 1, "parts", 1): 27,
        ("scene", 1, "parts", 1, "turns"): 28,
    }
    assert {path: lines.get(path) for path in expected} == expected


def test_text_inside_quotes_is_no_key() -> None:
    assert not any("three" in path for path in key_lines(TEXT))


def test_line_of_a_missing_key_is_that_of_what_is_around_it() -> None:
    lines = key_lines(TEXT)
    assert line_of(lines, ("scene", 1, "text")) == 15
    assert line_of(lines, ("goal",)) == 1
