"""A passage on its source page: as typed, readable, each proved number marked in its place."""

from __future__ import annotations

import re
from html import unescape

from passageproof.reading.latex import readable_text
from passageproof.rendering.passages import passage_html
from passageproof.results.values.document import Marks, PassageText
from rendering.sample_guide import PASSAGE, sample_book


def block(*spans: tuple[int, int, tuple[str, ...]], text: str = PASSAGE.text) -> PassageText:
    book = sample_book()
    marks = []
    for start, end, names in spans:
        figures = [book.quoted(f"marlow2019furcal/overall/{name}") for name in names]
        marks.append(Marks(start, end, tuple(figure for figure in figures if figure is not None)))
    return PassageText(PASSAGE.slug, PASSAGE.bracket, text, tuple(marks))


def read(html: str) -> str:
    return unescape(re.sub(r"<[^>]+>", "", html))


def test_the_passage_reads_as_it_was_typed_without_its_notation() -> None:
    html = passage_html(block((8, 10, ("events",)), (14, 16, ("total",)), (24, 26, ("success_rate",))), readable_text)
    assert read(html) == "p. 46, Table 2 healed: 39 of 47 teeth (83%)"
    assert '<data class="figure" data-figure="marlow2019furcal/overall/events" value="39">39</data>' in html


def test_a_number_that_two_claims_quote_carries_both() -> None:
    html = passage_html(block((8, 10, ("events", "total"))), str)
    assert html.count("data-figure=") == 2
    assert read(html).count("39") == 1


def test_what_stands_in_a_passage_is_never_html() -> None:
    assert "<script>" not in passage_html(block(text="<script>alert(1)</script>"), str)


def test_the_anchor_is_the_slug_of_the_bracket() -> None:
    assert 'id="p-46-table-2"' in passage_html(block(), str)


def test_a_passage_in_rows_and_columns_is_a_table_with_its_marks() -> None:
    typed = "Size | Teeth | Healed\n      up to 3 mm | 47 | 39\n over 3 mm | 12 | 7"
    start = typed.index("39")
    html = passage_html(block((start, start + 2, ("events",)), text=typed), readable_text)
    rows = [re.findall(r"<t([hd])>(.*?)</t\1>", row) for row in re.findall(r"<tr>(.*?)</tr>", html)]
    assert [[read(cell) for _, cell in row] for row in rows] == [
        ["Size", "Teeth", "Healed"], ["up to 3 mm", "47", "39"], ["over 3 mm", "12", "7"],
    ]  # fmt: skip
    assert {name for name, _ in rows[0]} == {"h"}
    assert rows[1][2][1].startswith("<data")
    # A bar in a sentence makes none.
    assert "<table>" not in passage_html(block(text="39 of 47 | healed"), readable_text)
