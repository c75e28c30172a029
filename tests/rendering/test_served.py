"""Style sheets and scripts as served: smaller, and the same."""

from __future__ import annotations

from pathlib import Path

import pytest
from passageproof.rendering.served import minified_css, minified_script, stylesheet

STYLESHEETS = Path(__file__).parents[2] / "builder" / "theme" / "stylesheets"


@pytest.mark.parametrize(
    ("typed", "served"),
    [
        ("a { color: red; }\n\nb { top: 0 }", "a{color:red}b{top:0}\n"),
        ("/* why\n it is */ a { x: y }", "a{x:y}\n"),
        ('a::before { content: "Careful: " }', 'a::before{content:"Careful: "}\n'),
        ("a :hover { width: calc(1rem + 2px) }", "a :hover{width:calc(1rem + 2px)}\n"),
        ("a > b , c { x: y }", "a>b,c{x:y}\n"),
        ("@media (max-width: 36rem) { a { x: y } }", "@media (max-width:36rem){a{x:y}}\n"),
    ],
    ids=["blanks", "comments", "strings", "where blanks carry meaning", "combinators", "conditions"],
)
def test_a_sheet_is_made_smaller(typed: str, served: str) -> None:
    assert minified_css(typed) == served


def test_a_script_loses_its_comments_and_indents_and_nothing_else() -> None:
    typed = '// why\n/* a\n heading */\nfunction f() {\n  // here\n  return "a // b /* c */";\n}\n'
    assert minified_script(typed) == 'function f() {\nreturn "a // b /* c */";\n}\n'


@pytest.mark.parametrize("name", ["reading", "frame"])
def test_both_looks_begin_with_the_same_colours_and_type(name: str) -> None:
    tokens = minified_css((STYLESHEETS / "tokens.css").read_text("utf-8"))
    assert stylesheet(STYLESHEETS, name).startswith(tokens.strip())


@pytest.mark.parametrize(
    "feature",
    ["prefers-color-scheme:dark", "forced-colors:active", "@media print", ":focus-visible"],
)
def test_reading_pages_heed_what_the_reader_set(feature: str) -> None:
    assert feature in stylesheet(STYLESHEETS, "reading")


def test_nothing_moves() -> None:
    # WCAG 2.2, success criterion 2.3.3: what does not move needs no switch for it.
    text = stylesheet(STYLESHEETS, "reading")
    assert "animation" not in text
    assert "transition" not in text
