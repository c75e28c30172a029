"""Drawings of evidence: shapes alone come through, and whatever else stands in the file is told."""

from __future__ import annotations

import pytest
from passageproof.problems import Problem
from passageproof.reading.pictures import Picture, read_picture

HEAD = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 20">'


def drawing(inner: str, head: str = HEAD) -> tuple[Picture | None, list[Problem]]:
    problems: list[Problem] = []
    return read_picture("a.svg", "evidence/pictures/a.svg", f"{head}\n{inner}\n</svg>", problems), problems


def test_shapes_come_through_with_place_and_form_alone():
    inner = '<title>An eye</title><g id="lid" fill="red" class="x"><path d="M0 0h2"/></g><circle r="2" stroke="red"/>'
    picture, problems = drawing(inner)
    assert problems == []
    lid = '<g id="lid"><path d="M0 0h2"/></g>'
    assert picture == Picture("a.svg", "0 0 10 20", (("lid", lid), ("", '<circle r="2"/>')))
    assert picture.shapes == f'{lid}<circle r="2"/>'


def test_what_stands_in_a_group_with_an_id_belongs_to_it():
    picture, _ = drawing('<g transform="scale(2)"><g id="a"><g id="b"><rect/></g></g><line id="c"/></g>')
    assert picture is not None
    assert picture.parts == (
        ("", '<g transform="scale(2)">'), ("a", '<g id="a"><g id="b"><rect/></g></g>'), ("c", '<line id="c"/>'),
        ("", "</g>"),
    )  # fmt: skip


def test_a_title_inside_a_shape_is_words_and_no_shape():
    picture, problems = drawing('<rect width="2" height="2"><title>a lid</title></rect>')
    assert (picture is not None, problems) == (True, [])
    assert picture is not None
    assert picture.shapes == '<rect width="2" height="2"/>'


@pytest.mark.parametrize(
    ("inner", "found"),
    [
        ("<script>x()</script>", "<script>"),
        ("<style>*{}</style>", "<style>"),
        ('<a href="https://example.org"><rect/></a>', "`href`"),
        ("<a><rect/></a>", "<a>"),
        ('<rect style="fill:red"/>', "`style`"),
        ('<rect onclick="x()"/>', "`onclick`"),
        ('<path d="M0 0" fill="url(#x)"/>', "`url(`"),
        ('<image xmlns:x="http://www.w3.org/1999/xlink" x:href="a.png"/>', "`href`"),
        ("<text>words</text>", "<text>"),
        ("<use/>", "<use>"),
        ("<rect/>words", 'the text "words"'),
        ('<h:p xmlns:h="http://www.w3.org/1999/xhtml"/>', "<p>"),
        ("<?x y?><rect/>", "an instruction of its own"),
    ],
)
def test_what_is_no_plain_shape_is_refused_at_its_place(inner: str, found: str):
    picture, problems = drawing(inner)
    assert picture is None
    (problem,) = problems
    assert problem.rule == "picture-not-allowed"
    assert found in problem.message
    assert problem.position.line == 2
    assert "path, rect, circle" in problem.hint


@pytest.mark.parametrize(
    "text",
    [
        "",
        "<svg",
        "<svg/>",
        f"{HEAD}</svg>",
        f"{HEAD}<rect></svg>",
        HEAD.replace("0 0 10 20", "all") + "<rect/></svg>",
        '<!DOCTYPE svg [<!ENTITY a "b">]>' + HEAD + "<rect/></svg>",
        '<!DOCTYPE svg [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;">]>' + HEAD + "<desc>&b;</desc><rect/></svg>",
    ],
)
def test_what_is_no_drawing_is_told_once(text: str):
    problems: list[Problem] = []
    assert read_picture("a.svg", "evidence/pictures/a.svg", text, problems) is None
    assert [problem.rule for problem in problems] == ["picture-not-allowed"]
