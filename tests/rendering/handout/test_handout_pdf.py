"""The sheet that is handed out: what the PDF holds, how it is tagged, and that it stays within two sides."""

from __future__ import annotations

import io
import json
import re
from collections.abc import Iterator
from functools import cache
from typing import Any

import pytest
from demo import demo_built
from passageproof.rendering.citations.numbered import cited_by_number
from passageproof.rendering.handout.pdf import handout_pdf, pages_of
from passageproof.results.values.document import StudyRows, walk
from passageproof.results.values.figures import Figure
from passageproof.results.values.guide import Guide
from passageproof.results.values.handout import Evidence, Handout, figures_on, handout_path
from passageproof.results.values.line import Line, Marked, line, plain_text, typed
from pypdf import PdfReader
from pypdf.generic import DictionaryObject, IndirectObject

QUESTIONS = ("broken-instrument", "exposed-pulp", "root-perforation")


def demo_guide() -> Guide:
    guide = demo_built().guide
    assert guide is not None
    return guide


@cache
def sheet(question: str) -> bytes:
    return b"".join(demo_built().files.pieces(handout_path(question)))


def reader(pdf: bytes) -> PdfReader:
    return PdfReader(io.BytesIO(pdf))


def text_of(pdf: bytes) -> str:
    return "\n".join(page.extract_text() for page in reader(pdf).pages)


def tags(node: Any) -> Iterator[DictionaryObject]:
    """Every element of the structure tree (ISO 32000-1, 14.7.2)."""
    node = node.get_object() if isinstance(node, IndirectObject) else node
    if isinstance(node, DictionaryObject):
        if "/S" in node:
            yield node
        inside = node.get("/K", [])
        for child in inside if isinstance(inside, list) else [inside]:
            yield from tags(child)


def structure(pdf: bytes) -> list[DictionaryObject]:
    return list(tags(reader(pdf).trailer["/Root"]["/StructTreeRoot"]))


@pytest.mark.parametrize("question", QUESTIONS)
def test_it_says_that_it_is_pdf_ua_with_its_title_and_language(question: str) -> None:
    # ISO 14289-1, clauses 5 (identification) and 7.1, 7.2 (tagged, titled, of a language); the identifier's schema is
    # that of the standard's own annex.
    root = reader(sheet(question)).trailer["/Root"]
    assert root["/MarkInfo"]["/Marked"] is True or root["/MarkInfo"]["/Marked"].value is True
    assert str(root["/Lang"]).startswith("en")
    assert root["/ViewerPreferences"]["/DisplayDocTitle"]
    metadata = root["/Metadata"].get_data().decode("utf-8")
    assert re.search(r"pdfuaid:part>1<|pdfuaid:part=\"1\"", metadata)
    assert reader(sheet(question)).metadata is not None
    assert plain_text(demo_guide().handouts[question].title) == reader(sheet(question)).metadata.title  # type: ignore[union-attr]


@pytest.mark.parametrize("question", QUESTIONS)
def test_headings_tables_and_the_picture_are_tagged(question: str) -> None:
    found = structure(sheet(question))
    kinds = [str(node["/S"]) for node in found]
    assert kinds.count("/H1") == 1
    assert kinds.count("/H2") >= 4
    handout = demo_guide().handouts[question]
    assert kinds.count("/Table") == len(handout.tables)
    # A row for the header of each table.
    assert kinds.count("/TR") == sum(len(table.rows) + 1 for table in handout.tables)
    assert kinds.count("/TH") == sum(len(table.header) for table in handout.tables)
    pictures = [node for node in found if node["/S"] == "/Figure"]
    assert len(pictures) == 1
    assert handout.plot is not None
    names = [row.name for row in handout.plot.drawn.rows] if isinstance(handout.plot.drawn, StudyRows) else []
    assert all(name in str(pictures[0]["/Alt"]) for name in names)


@pytest.mark.parametrize("question", QUESTIONS)
def test_one_side_or_two(question: str) -> None:
    assert pages_of(sheet(question)) == len(reader(sheet(question)).pages) <= 2
    size = reader(sheet(question)).pages[0].mediabox
    # ISO 216: A4 is 210 by 297 mm.
    assert (round(float(size.width) / 72 * 25.4), round(float(size.height) / 72 * 25.4)) == (210, 297)


def lines_of(handout: Handout) -> Iterator[Line]:
    yield from (handout.title, handout.case, *handout.answer, *handout.say, *handout.not_say)
    for table in handout.tables:
        yield from (table.title, *table.below)
        for row in table.rows:
            yield from row
    yield from (handout.citation, *handout.foot)
    if handout.plot is not None:
        yield from (handout.plot.title, handout.plot.read)
        drawn = handout.plot.drawn
        if isinstance(drawn, StudyRows):
            yield drawn.caption
            for row in drawn.rows:
                yield from (line(typed(row.name)), row.first)
            if drawn.scale is not None:
                yield line(*(typed(label, "scale") for _, label in drawn.scale.ticks))


@pytest.mark.parametrize("question", QUESTIONS)
def test_every_number_of_the_pdf_is_a_figure_or_is_marked_as_none(question: str) -> None:
    guide = demo_guide()
    handout = guide.handouts[question]
    told: list[str] = []
    for said in lines_of(handout):
        told.extend(item.text for item in walk(said) if isinstance(item, (Figure, Marked)))
    told.extend(cited_by_number(guide, handout.references))
    known = {number for text in told for number in re.findall(r"\d+", text)}
    known |= set(re.findall(r"\d+", f"{guide.release} {guide.evidence_date.isoformat()}")) | {"1", "2"}
    shown = re.findall(r"\d+", text_of(sheet(question)))
    assert len(shown) > 100
    # A line that ends within a DOI parts its number.
    whole = "".join(sorted(known))
    assert [number for number in shown if number not in known and number not in whole] == []


@pytest.mark.parametrize("question", QUESTIONS)
def test_its_figures_are_attached_and_stand_in_the_ledger_with_the_sheet(question: str) -> None:
    (attached,) = reader(sheet(question)).attachments["figures.jsonl"]
    rows = [json.loads(text) for text in attached.decode("utf-8").splitlines()]
    mine = figures_on(demo_guide().handouts[question])
    assert [(row["id"], row["text"]) for row in rows] == [(figure.id, figure.text) for figure in mine]
    ledger = {row["id"]: row for row in map(json.loads, demo_built().files["data/figures.jsonl"].splitlines())}
    for row in rows:
        assert ledger[row["id"]]["text"] == row["text"]
        assert handout_path(question) in ledger[row["id"]]["shown_on"]
    listed = {name for name, row in ledger.items() if handout_path(question) in row["shown_on"]}
    assert listed == {row["id"] for row in rows}


@pytest.mark.parametrize("question", QUESTIONS)
def test_no_word_is_lost_on_the_way(question: str) -> None:
    told = [plain_text(said) for said in lines_of(demo_guide().handouts[question])]
    shown = re.sub(r"\s+", "", text_of(sheet(question)))
    words = {word for text in told for word in re.findall(r"[^\W\d]{4,}", text)}
    assert len(words) > 60
    assert [word for word in words if word not in shown] == []
    assert "inventedfordemonstration" in shown


def test_the_same_bytes_each_time() -> None:
    guide = demo_guide()
    assert handout_pdf(guide, guide.handouts["root-perforation"]) == sheet("root-perforation")


HOSTILE = '#image("x") $x^2$ *bold* _it_ @key `raw` <label> // note /* */ \\ #{} = Heading - item ~ "quotes" [x](y) 5%'


def hostile() -> Handout:
    return (
        demo_guide()
        .handouts["root-perforation"]
        ._replace(
            title=line(typed(HOSTILE)),
            answer=(line(typed(HOSTILE)),),
            say=(line(typed(HOSTILE)),),
            tables=(Evidence(line(typed(HOSTILE)), ("A", "B", "C", "D", "E"), ((line(typed(HOSTILE)),) * 5,), ()),),
        )
    )


def test_what_somebody_typed_is_never_markup() -> None:
    shown = re.sub(r"\s+", "", text_of(handout_pdf(demo_guide(), hostile())))
    assert shown.count(re.sub(r"\s+", "", HOSTILE)) >= 3


def test_a_sheet_of_too_much_stays_within_two_sides() -> None:
    long = line(typed("a sentence that goes on and on since somebody had much to tell " * 4))
    row = tuple(line(typed("Working Group on Very Long Names 2019")) for _ in range(5))
    table = Evidence(long[:1], ("Study", "Design", "How many", "When", "Which way"), (row,) * 7, (long, long))
    whole = demo_guide().handouts["root-perforation"]
    full = whole._replace(answer=(long, long), tables=(table,) * 3, say=(long,) * 6, not_say=(long,) * 6)
    assert pages_of(handout_pdf(demo_guide(), full)) <= 2
