"""The slides of the demonstration and of another trade, read back from the files that their sites publish."""

from __future__ import annotations

import io
import json
import re
import zipfile
from functools import cache
from pathlib import Path

import pptx
import pytest
from demo import ROOT, demo_built
from passageproof.rendering.slides.deck import deck
from passageproof.rendering.slides.own_template import COLOURS
from passageproof.results.values.line import MarkKind
from passageproof.results.values.talk import slides_path
from pptx.enum.shapes import MSO_SHAPE_TYPE
from slides import Deck, read_deck

PICTURE = MSO_SHAPE_TYPE.PICTURE
QUESTIONS = ("broken-instrument", "exposed-pulp", "root-perforation")
MARK = "invented for demonstration"
KINDS = set(MarkKind.__args__)  # type: ignore[attr-defined]


@cache
def content(question: str) -> bytes:
    return b"".join(demo_built().files.pieces(slides_path(question)))


@cache
def made(question: str) -> Deck:
    return read_deck(content(question))


@cache
def ledger() -> dict[str, dict[str, object]]:
    rows = map(json.loads, demo_built().files["data/figures.jsonl"].splitlines())
    return {row["id"]: row for row in rows}


each_question = pytest.mark.parametrize("question", QUESTIONS)


@each_question
def test_every_number_is_a_figure_of_the_ledger_or_says_what_it_is(question: str) -> None:
    wrong = []
    for slide in made(question).slides:
        for run in (*slide.runs, *slide.note_runs):
            if run.figure:
                if ledger().get(run.figure, {}).get("text") != run.text:
                    wrong.append((slide.name, run))
            elif run.mark:
                assert run.mark in KINDS | {"page"}
            elif re.search(r"\d", run.text):
                wrong.append((slide.name, run))
    assert wrong == []


@each_question
def test_the_ledger_names_the_slides_for_exactly_their_figures(question: str) -> None:
    named = {name: row["text"] for name, row in ledger().items() if slides_path(question) in row["shown_on"]}
    found = made(question)
    assert found.listed == named
    assert {run.figure for slide in found.slides for run in (*slide.runs, *slide.note_runs)} - {""} <= set(named)


def test_no_number_stands_on_slides_alone() -> None:
    alone = [
        name for name, row in ledger().items() if all(path.endswith(".pptx") for path in row["shown_on"])
    ]  # fmt: skip
    assert alone == []


@each_question
def test_the_talk_is_nine_slides_at_most_and_spares_follow(question: str) -> None:
    found = made(question)
    assert 7 <= len(found.main) <= 9
    assert [slide.is_spare for slide in found.slides] == sorted(slide.is_spare for slide in found.slides)
    names = [slide.name for slide in found.slides]
    assert len(set(names)) == len(names)
    for name in ("in-short", "definitions", "came-back", "same-patients", "failing", "guideline", "disagreements",
                 "pooled", "studies", "cite", "references"):  # fmt: skip
        assert name in names


@each_question
def test_nothing_is_smaller_than_eighteen_points(question: str) -> None:
    # House rule of the talk pack, common practice: what is shown in a room is read at 18 points.
    small = [
        (slide.name, run) for slide in made(question).slides for run in slide.runs if run.size < 1800
    ]  # fmt: skip
    assert small == []


@each_question
def test_the_mark_of_the_demonstration_stands_on_every_slide(question: str) -> None:
    for slide in made(question).slides:
        mark = slide.shape("Mark")
        assert mark is not None
        assert mark.text == MARK, slide.name


@each_question
def test_whatever_names_a_report_has_its_number_and_its_doi_at_the_end(question: str) -> None:
    found = made(question)
    listed = "\n".join(slide.shape("Text").text for slide in found.slides if slide.name.startswith("references"))  # type: ignore[union-attr]
    named = {
        number
        for slide in found.slides
        for run in (*slide.runs, *slide.note_runs)
        if run.mark == "reference"
        for number in re.findall(r"\[(\d+)\]", run.text)
    }
    assert named
    assert named == set(re.findall(r"^\[(\d+)\]", listed, re.MULTILINE))
    assert sorted(map(int, named)) == list(range(1, len(named) + 1))
    assert listed.count(" DOI 10.5555/") > len(named) // 2


@each_question
def test_a_slide_that_names_reports_says_which_at_its_foot(question: str) -> None:
    for slide in made(question).slides:
        body, foot = slide.shape("Text"), slide.shape("References")
        if body is None:
            # A plot alone, which names its studies itself.
            assert foot is None
            continue
        numbers = set(re.findall(r" \[(\d+)\]", body.text))
        if slide.name.startswith("references"):
            continue
        assert (foot is not None) == bool(numbers), slide.name
        if foot is not None and not foot.text.startswith("References with DOI behind"):
            assert set(re.findall(r"\[(\d+)\]", foot.text)) == numbers


@each_question
def test_the_same_evidence_gives_the_same_bytes(question: str) -> None:
    guide = demo_built().guide
    assert guide is not None
    assert deck(guide, question) == content(question)
    with zipfile.ZipFile(io.BytesIO(content(question))) as packed:
        names = packed.namelist()
        assert {entry.date_time for entry in packed.infolist()} == {(1980, 1, 1, 0, 0, 0)}
    assert names[0] == "[Content_Types].xml"
    assert names[1:] == sorted(names[1:])
    day = f"{guide.evidence_date.isoformat()}T00:00:00Z"
    core = made(question).parts["docProps/core.xml"].decode()
    assert re.findall(r">(\d{4}-[^<]*)<", core) == [day, day]


@each_question
def test_another_reader_finds_the_same_slides_and_notes(question: str) -> None:
    # python-pptx 1.0.2, which knows nothing of ours.
    shown = pptx.Presentation(io.BytesIO(content(question)))
    found = made(question)
    assert len(shown.slides) == len(found.slides)
    assert (shown.slide_width, shown.slide_height) == (12192000, 6858000)
    for slide, ours in zip(shown.slides, found.slides, strict=True):
        assert slide.shapes.title.text == ours.shape("Title").text  # type: ignore[union-attr]
        assert slide.has_notes_slide == bool(ours.notes)
        if ours.notes:
            assert slide.notes_slide.notes_text_frame.text == "\n".join(note.text for note in ours.notes)
    assert [layout.name for layout in shown.slide_layouts] == [
        "Opening", "Text", "Text with plot", "Plot", "Frame to fill",
    ]  # fmt: skip


@each_question
def test_a_picture_is_crisp_in_its_place_and_says_what_it_shows(question: str) -> None:
    shown = pptx.Presentation(io.BytesIO(content(question)))
    pictures = [shape for slide in shown.slides for shape in slide.shapes if shape.shape_type == PICTURE]
    assert len(pictures) > 3
    for shape in pictures:
        says = shape._element.nvPicPr.cNvPr.get("descr")
        assert len(says) > 60
        assert says.endswith("(invented for demonstration)") or MARK not in says
        assert shape.left >= 0
        assert shape.left + shape.width <= shown.slide_width
        assert shape.top + shape.height <= 495 * 12700  # the rule above the foot
        width, height = shape.image.size
        assert width / height == pytest.approx(shape.width / shape.height, rel=0.01)
        # At least as many pixels as it is shown on, where a slide is 1280 wide.
        assert width >= 1280 * shape.width / shown.slide_width


@each_question
def test_what_takes_a_rate_back_stands_on_its_slide(question: str) -> None:
    (over_time,) = (slide for slide in made(question).main if slide.name == "over-time")
    later = [slide for slide in made(question).slides if slide.name == "over-time-1"]
    assert "Early is not lasting" in over_time.shape("Text").text or not later  # type: ignore[union-attr]


def test_colours_are_those_of_the_pages() -> None:
    tokens = (ROOT / "builder" / "theme" / "stylesheets" / "tokens.css").read_text("utf-8").partition("@media")[0]
    by_name = dict(re.findall(r"--(\w+): #(\w{6});", tokens))
    assert {name: colour.lower() for name, colour in COLOURS.items()} == by_name


def test_answers_of_a_case_fill_its_blanks_and_leave_out_all_others() -> None:
    guide = demo_built().guide
    assert guide is not None
    found = read_deck(deck(guide, "root-perforation", frozenset({"hole-size=large"})))
    of_answers = {slide.of for slide in found.slides} - {""}
    assert of_answers == {"hole-size=large"}
    whole = made("root-perforation")
    assert len({slide.of for slide in whole.slides}) > 15
    findings = next(slide for slide in found.slides if slide.name == "findings")
    assert "Size of the hole: over 3 mm" in findings.shape("Text").text  # type: ignore[union-attr]
    factors = next(slide for slide in found.slides if slide.name == "factors").shape("Text")
    assert factors is not None
    assert factors.text.startswith("Size of the hole: over 3 mm")
    assert len(found.main) == 9


def test_another_trade_has_a_talk_in_its_own_words(graft_site: Path) -> None:
    found = read_deck(graft_site / "graft-cloudy" / "talk" / "slides.pptx")
    titles = [slide.shape("Title").text for slide in found.slides]  # type: ignore[union-attr]
    assert "How such grafts do over time" in titles
    assert 7 <= len(found.main) <= 9
