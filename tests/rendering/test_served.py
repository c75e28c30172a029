"""Style sheets and scripts as served: smaller, and the same."""

from __future__ import annotations

import re
from hashlib import sha256
from pathlib import Path

import pytest
from passageproof.rendering.served import script, stylesheet
from rcssmin import cssmin

STYLESHEETS = Path(__file__).parents[2] / "builder" / "theme" / "stylesheets"


@pytest.mark.parametrize(
    ("typed", "served"),
    [
        ("a { color: red; }\n\nb { top: 0 }", "a{color:red}b{top:0}"),
        ("/* why\n it is */ a { x: y }", "a{x:y}"),
        ('a::before { content: "Careful: " }', 'a::before{content:"Careful: "}'),
        ("a :hover { width: calc(1rem + 2px) }", "a :hover{width:calc(1rem + 2px)}"),
        ("a > b , c { x: y }", "a>b,c{x:y}"),
        ("@media (max-width: 36rem) { a { x: y } }", "@media (max-width:36rem){a{x:y}}"),
    ],
    ids=["blanks", "comments", "strings", "where blanks carry meaning", "combinators", "conditions"],
)
def test_a_sheet_is_made_smaller(typed: str, served: str, tmp_path: Path) -> None:
    (tmp_path / "tokens.css").write_text("/* shared */\n", "utf-8")
    (tmp_path / "reading.css").write_text(typed, "utf-8")
    (tmp_path / "rows.css").touch()
    assert stylesheet(tmp_path, "reading") == f"{served}\n"


def test_a_script_loses_its_comments_and_indents_and_nothing_else(tmp_path: Path) -> None:
    typed = '// why\n/* a\n heading */\nfunction f() {\n  // here\n  return "a // b /* c */"\n}\n'
    (tmp_path / "frame.js").write_text(typed, "utf-8")
    assert script(tmp_path, "frame") == 'function f(){return"a // b /* c */"}\n'


def test_parts_of_a_script_do_not_run_into_one_another(tmp_path: Path) -> None:
    (tmp_path / "common.js").write_text("const a = 1; // the last line ends in a comment\n", "utf-8")
    (tmp_path / "situation.js").write_text("f(a);\n", "utf-8")
    assert script(tmp_path, "question") == "const a=1;f(a);\n"


def test_both_looks_begin_with_the_same_colours_and_type() -> None:
    tokens = cssmin((STYLESHEETS / "tokens.css").read_text("utf-8"))
    assert stylesheet(STYLESHEETS, "frame").startswith(tokens)
    values = re.findall(r":([^;:{}]+)[;}]", tokens)
    for name in ("reading", "question"):
        assert re.findall(r":([^;:{}]+)[;}]", stylesheet(STYLESHEETS, name))[: len(values)] == values


def test_properties_of_our_own_have_short_names_and_each_that_is_asked_for_has_a_value(tmp_path: Path) -> None:
    (tmp_path / "tokens.css").write_text(":root { --paper: #fff; --ink: #000 }", "utf-8")
    (tmp_path / "reading.css").write_text("a-b { --x: 1; color: var(--ink); left: calc(var(--x)*1em) }", "utf-8")
    (tmp_path / "rows.css").touch()
    assert (
        stylesheet(tmp_path, "reading") == ":root{--b:#fff;--a:#000}a-b{--c:1;color:var(--a);left:calc(var(--c)*1em)}\n"
    )
    text = stylesheet(STYLESHEETS, "reading")
    assert set(re.findall(r"var\((--\w+)\)", text)) <= set(re.findall(r"(--\w+):", text))


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


@pytest.mark.parametrize(
    ("part", "named", "served_in", "digest"),
    [
        # The npm registry: minisearch 7.2.0, dist/umd/index.js.
        ("minisearch", "MiniSearch 7.2.0", "search",
         "03c27931eb603af1d3358579e9885eafdb6a2f5fa9929557b3e77d7e99d06d03"),
    ],
    ids=["words"],
)  # fmt: skip
def test_what_others_wrote_is_served_as_they_published_it_and_with_their_licence(
    part: str, named: str, served_in: str, digest: str
) -> None:
    text = (STYLESHEETS.parent / "javascripts" / "vendor" / f"{part}.js").read_text("utf-8")
    notice, _, published = text.partition("*/\n")
    assert sha256(published.encode()).hexdigest() == digest
    served = script(STYLESHEETS.parent / "javascripts", served_in)
    assert notice.startswith(f"/*! {named}")
    assert notice in served
    assert "Permission is hereby granted, free of charge" in re.sub(r"\s+", " ", served)
