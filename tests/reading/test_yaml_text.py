"""What YAML makes of texts that clinicians type, told in their words and at the right place."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
import yaml
from passageproof.reading import yaml_text
from passageproof.reading.model import Evidence

ProblemsOfText = Callable[[str], list[str]]
ProblemsOfFiles = Callable[[dict[str, str]], list[str]]
Read = Callable[[dict[str, str]], Evidence]

COUNTS = "events: 1\ntotal: 2\n"


@pytest.mark.parametrize(
    ("typed", "expected"),
    [
        pytest.param(
            "events: healed: 39",
            '11:19: a second ": " in this text cuts it short: put the whole text in quotes [text-needs-quotes]\n'
            '        events: "healed: 39"',
            id="second colon",
        ),
        pytest.param(
            "note: >3 mm",
            '11:11: a text that begins with ">" must be in quotes [text-needs-quotes]\n        note: ">3 mm"',
            id="greater than",
        ),
        pytest.param(
            "test: {between: [a, b], p: >.9}",
            '11:32: a text that begins with ">" must be in quotes [text-needs-quotes]\n    p: ">.9"',
            id="greater than in braces",
        ),
        pytest.param(
            "note: %5 of them",
            '11:11: a text that begins with "%" must be in quotes [text-needs-quotes]\n        note: "%5 of them"',
            id="percent sign",
        ),
        pytest.param(
            "note: @home",
            '11:11: a text that begins with "@" must be in quotes [text-needs-quotes]\n        note: "@home"',
            id="at sign",
        ),
        pytest.param(
            "note: `x`",
            '11:11: a text that begins with "`" must be in quotes [text-needs-quotes]\n        note: "`x`"',
            id="backtick",
        ),
        pytest.param(
            "given: Stop. Call: 112",
            '11:22: a second ": " in this text cuts it short: put the whole text in quotes [text-needs-quotes]\n'
            '        given: "Stop. Call: 112"',
            id="sentence with a colon",
        ),
        pytest.param(
            "note: 'it's so'",
            "11:15: the text goes on after its closing quote: put all of it in quotes, "
            "and double any quote inside it [text-needs-quotes]"
            '\n    type " where the text begins and where it ends',
            id="quote in quotes",
        ),
        pytest.param(
            "note: 'it is",
            "11:11: the quote that opens here is never closed [yaml-syntax]\n    note: 'it is'",
            id="open quote",
        ),
        pytest.param(
            "flow: {due: 1",
            '11:11: the bracket "{" that opens here is not closed [yaml-syntax]\n    type "}" where it ends: {due: 1}',
            id="open brace",
        ),
        pytest.param(
            "\tevents: 1",
            "11:5: there is a tab here: indent with blanks [yaml-syntax]"
            "\n    delete it, then: begin it with 4 blanks, as the fields of line 10",
            id="tab",
        ),
        pytest.param(
            "events: 1\n  total: 2",
            "12:12: this line is indented further than the field above it, which already has a value [yaml-syntax]"
            "\n    begin it with 4 blanks, as the fields of line 11",
            id="deeper line",
        ),
        pytest.param(
            'note: "a \\q"',
            "11:14: a backslash between double quotes has a meaning of its own: use single quotes instead "
            "[yaml-syntax]"
            "\n    type ' in place of both quotes",
            id="backslash",
        ),
        pytest.param(
            "note: a\x07b",
            "11:12: there is an invisible control character (U+0007) here: delete it [invisible-character]"
            "\n    delete the word that it stands in, and type it anew",
            id="control character",
        ),
    ],
)
def test_fault_of_syntax_is_one_problem_in_plain_words(of_claim: ProblemsOfText, typed: str, expected: str) -> None:
    assert of_claim(typed) == [expected]


@pytest.mark.parametrize(
    ("typed", "expected"),
    [
        pytest.param(
            "flow: {treated: 42,300, due: 5}",
            '11:24: this number was cut off at the comma before "300": put it in quotes [comma-cut-text]\n    write '
            'treated: "42,300"',
            id="thousands",
        ),
        pytest.param(
            "flow: {treated: 0,25, due: 5}",
            '11:23: this number was cut off at the comma before "25": a decimal point is written "." [comma-cut-text]\n'
            "    write treated: 0.25",
            id="decimal comma",
        ),
        pytest.param(
            "flow: {treated: 5, where: p. 44, Methods}",
            '11:38: this text was cut off at the comma before "Methods": put it in quotes [comma-cut-text]\n'
            '    write where: "p. 44, Methods"',
            id="locator",
        ),
        pytest.param(
            "flow: {where: p. 44, due}",
            '11:26: this text was cut off at the comma before "due": put it in quotes [comma-cut-text]\n    write '
            'where: "p. 44, due"',
            id="rest that is a field's name",
        ),
        pytest.param(
            "differ_in: [older, and sicker people]",
            '11:24: "and sicker people" begins like the rest of a sentence: was it cut off at a comma? '
            "[comma-cut-text]\n"
            '    where it was: "older, and sicker people"\n'
            '    else write one sentence per line, each after "- ", or put each in quotes',
            id="sentence in a list",
        ),
        pytest.param(
            "note: #3",
            '11:10: "#3" is read as a comment, so the field is empty: put the text in quotes [text-needs-quotes]'
            '\n    note: "#3"',
            id="number sign",
        ),
        pytest.param(
            "note: see Table #3",
            '11:21: "#3" is cut off as a comment: put the whole text in quotes [text-needs-quotes]'
            '\n        note: "see Table #3"',
            id="number sign behind words",
        ),
        pytest.param(
            "differ_in:\n  - Stop. Call: 112",
            '12:9: the colon after "Stop. Call" cuts this text short: put the whole text in quotes [text-needs-quotes]'
            '\n    "Stop. Call: 112"',
            id="colon in a list item",
        ),
        pytest.param(
            "note: &x ok",
            '11:11: YAML reads "&x ok" as an anchor, which this form does not know: put a text in quotes, '
            "and write repeated values out [yaml-alias-or-tag]"
            '\n        note: "&x ok"',
            id="anchor",
        ),
        pytest.param(
            "note: !important",
            '11:11: YAML reads "!important" as a tag, which this form does not know: put a text in quotes, '
            "and write repeated values out [yaml-alias-or-tag]"
            '\n        note: "!important"',
            id="tag",
        ),
        pytest.param(
            "total: 3",
            '13:5: "total" is given twice in a claim [duplicate-field]\n    delete one of the two',
            id="duplicate key",
        ),
    ],
)
def test_text_that_yaml_reads_otherwise_is_reported_where_it_stands(
    of_claim: ProblemsOfText, typed: str, expected: str
) -> None:
    lines = COUNTS + typed if typed == "total: 3" else typed + "\n" + COUNTS
    assert of_claim(lines) == [expected]


def test_alias_and_its_anchor_are_both_reported(of_claim: ProblemsOfText) -> None:
    found = of_claim("events: &n 39\ntotal: *n")
    assert [line.split(": ")[0] for line in found] == ["11:13", "12:12"]


def test_item_that_begins_with_and_may_stand_in_quotes(of_claim: ProblemsOfText) -> None:
    assert of_claim(COUNTS + 'differ_in: [older, "and sicker"]') == []


@pytest.mark.parametrize("typed", ["no", "1:30", "2026-02-03", "012", "1e3", "~", "null", "0x1F"])
def test_text_stays_as_it_was_typed(read: Read, typed: str) -> None:
    file = f"format: 1\ntitle: {typed}\n"
    assert read({"compendium.yaml": file}).compendium.title.text == typed


def test_line_separator_that_no_editor_shows_moves_no_place(of_claim: ProblemsOfText) -> None:
    found = of_claim("note: a\u2028b\nevnts: 1\ntotal: 2")
    assert [line.split(": ")[0] for line in found] == ["11:12", "12:5"]


def test_place_counts_characters_not_bytes(of_claim: ProblemsOfText) -> None:
    assert of_claim("flow: {where: Größe ½, due: x}\n" + COUNTS)[0].startswith('11:33: "x" is not a whole number')


def test_file_of_nothing_is_said_to_be_empty(problems_of: ProblemsOfFiles) -> None:
    assert problems_of({"vocabulary.yaml": "# nothing yet\n"}) == [
        "evidence/vocabulary.yaml:1:1: this file is empty [empty-file]\n    delete it, or fill it in"
    ]


def test_second_document_is_refused(problems_of: ProblemsOfFiles) -> None:
    found = problems_of({"local.yaml": "call: {name: a}\n---\ncall: {name: b}\n"})
    assert found == [
        'evidence/local.yaml:2:1: a second document begins here with "---": each file may hold only one [yaml-syntax]'
        "\n    move what follows into a file of its own, and delete this line"
    ]


def test_list_where_fields_are_expected_is_said(problems_of: ProblemsOfFiles) -> None:
    assert problems_of({"local.yaml": "- a\n"}) == [
        "evidence/local.yaml:1:1: a list is given where local.yaml with its fields is expected [wrong-shape]"
        "\n    type a block: {call: …, kit: …, protocols: …}"
    ]


def test_brackets_nested_without_end_are_a_problem_and_no_crash(problems_of: ProblemsOfFiles) -> None:
    found = problems_of({"local.yaml": "[" * 100_000})
    assert found == [
        "evidence/local.yaml:1:1001: brackets or lists are nested too deep [yaml-syntax]"
        "\n    close those that are not needed"
    ]


@pytest.mark.parametrize(
    "text", ["{a: how wide?}", "a: [x?, y]", "a: b?", "{a: 'x?', b: \"?\"}", "a:\n  - {b: c? d, e: f}"]
)
def test_both_parsers_read_a_question_mark_as_part_of_a_text(text: str) -> None:
    in_c, in_python = (loader(text).get_single_node() for loader in (yaml.CBaseLoader, yaml_text._InPython))
    assert yaml.serialize(in_c) == yaml.serialize(in_python)


FILES = sorted(Path(__file__).parents[2].glob("**/evidence/**/*.yaml"))


def places(node: Any) -> Iterator[Any]:
    """Every node with its place and text."""
    yield type(node), node.start_mark.line, node.start_mark.column, node.start_mark.index, node.end_mark.index
    if isinstance(node, yaml.ScalarNode):
        yield node.value, bool(node.style)
    else:
        yield bool(node.flow_style)
        for item in node.value:
            for inner in item if isinstance(item, tuple) else [item]:
                yield from places(inner)


def test_both_parsers_give_the_same_nodes_at_the_same_places() -> None:
    files = [path for path in FILES if not {"node_modules", "build"} & set(path.parts)]
    assert len(files) > 60
    for path in files:
        text = path.read_text("utf-8")
        in_c, in_python = (loader(text).get_single_node() for loader in (yaml.CBaseLoader, yaml_text._InPython))
        assert list(places(in_c)) == list(places(in_python)), path.name
