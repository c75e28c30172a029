"""BibTeX as people and exports leave it: what is carried, what is told, and where."""

from __future__ import annotations

from collections.abc import Callable

import bibtexparser
import pytest
from hypothesis import given, strategies as st
from passageproof.problems import Problem
from passageproof.reading.bibtex import read_bibtex
from passageproof.reading.model import Evidence

ProblemsOfText = Callable[[str], list[str]]
Read = Callable[[dict[str, str]], Evidence]


@pytest.mark.parametrize(
    ("typed", "expected"),
    [
        pytest.param(
            "@article{a, title={x} year=2000}",
            [
                '1:23: a comma is missing before "year=2000" [forgotten-comma]'
                "\n    end what stands before it with a comma: {x},"
            ],
            id="forgotten comma",
        ),
        pytest.param(
            "@article{a, title={x},\n year = 2000\n journal = {y}}",
            [
                '3:2: a comma is missing before "journal = {y}" [forgotten-comma]'
                "\n    end what stands before it with a comma: 2000,"
            ],
            id="forgotten comma behind a number",
        ),
        pytest.param(
            "@article{a title={x}}",
            [
                "1:1: the entry a cannot be read: a comma is missing after its key [forgotten-comma]"
                "\n    @article{a title={x}},"
            ],
            id="no comma behind the key",
        ),
        pytest.param(
            "@article{a, title={x},, year=2000}",
            [
                '1:23: the entry a cannot be read: a field here has no "=" or no '
                "value, or a comma is missing, or there is one too many [bibtex-syntax]"
                "\n    each field is written name = {text}, with a comma after it"
            ],
            id="two commas",
        ),
        pytest.param(
            "@article{a, title {x}}",
            [
                '1:19: the entry a cannot be read: a field here has no "=" or no value, or a '
                "comma is missing, or there is one too many [bibtex-syntax]"
                "\n    each field is written name = {text}, with a comma after it"
            ],
            id="no equals sign",
        ),
        pytest.param(
            "@article{a, title={x}, journal = nejm}",
            [
                '1:34: "nejm" is neither a number nor an abbreviation of this '
                "file [undefined-string]\n    put the text in braces: {nejm}"
            ],
            id="undefined string",
        ),
        pytest.param(
            "@article{a, title={x}, pages = 41--52}",
            [
                '1:32: "41--52" is neither a number nor an abbreviation of this '
                "file [undefined-string]\n    put the text in braces: {41--52}"
            ],
            id="pages without braces",
        ),
        pytest.param(
            "@article{a,\n title={x,\n year={2000},\n}\n\n@article{b, title={y}}",
            [
                "2:8: the entry a cannot be read: "
                'the { that opens here is not closed before the "@" that begins line 6 [unbalanced-brace]'
                '\n    type "}" where its text ends'
            ],
            id="open brace",
        ),
        pytest.param(
            '@article{a, title="x}\n@article{b, title={y}}',
            [
                '1:19: the entry a cannot be read: the " that opens here '
                'is not closed before the "@" that begins line 2 [unbalanced-brace]'
                '\n    type """ where its text ends'
            ],
            id="open quote",
        ),
        pytest.param(
            "@article{a, title={x}",
            [
                "1:19: the entry a cannot be read: the { that opens here is not closed [unbalanced-brace]"
                '\n    type "}" where its text ends'
            ],
            id="end of file",
        ),
        pytest.param(
            "@article{a,\n title={x}},\n year={2000},\n}",
            [
                '2:12: ", year={2000}, }" is outside any entry and is not '
                'read: is there one "}" too many above it? [unbalanced-brace]'
                '\n    delete the "}" before it, or close the entry after its last field alone'
            ],
            id="brace too many",
        ),
        pytest.param(
            "@article a, title={x}}",
            [
                '1:1: "@article a, title={x}}" is not read: is the brace after the entry type missing? '
                "[unbalanced-brace]"
                "\n    an entry begins @article{key,"
            ],
            id="no opening brace",
        ),
        pytest.param(
            "@artcle{a, title={x}}",
            [
                '1:1: "@artcle" is not an entry type of BibTeX or biblatex [unknown-entry-type]\n    did you mean '
                "@article?"
            ],
            id="unknown type",
        ),
        pytest.param(
            "@article{a b, title={x}}",
            ['1:1: the key "a b" contains a blank [not-a-key]\n    call it ab'],
            id="key with a blank",
        ),
        pytest.param(
            "@article{, title={x}}",
            [
                "1:1: this entry has no key [not-a-key]"
                "\n    give it a key of letters, digits, - and _, in its claim file too"
            ],
            id="no key",
        ),
        pytest.param(
            "@article{../x, title={x}}",
            ['1:1: "../x" cannot be a key: use letters, digits, "_" and "-" only [not-a-key]\n    call it x'],
            id="key that leads out",
        ),
        pytest.param(
            "@article{urgent, title={x}}",
            [
                '1:1: "urgent" is reserved: choose another key [reserved-name]'
                "\n    give it a key of letters, digits, - and _, in its claim file too"
            ],
            id="reserved key",
        ),
        pytest.param(
            "@article{a, title={x}, Title={y}}",
            ['1:24: the field "title" is given twice in the entry a [duplicate-field]\n    delete one of the two'],
            id="field twice",
        ),
        pytest.param(
            "@article{a, year=2000}",
            ["1:1: the entry a needs a `title` [missing-title]\n    title = {…},"],
            id="no title",
        ),
        pytest.param(
            "@article{a, title={}}",
            ["1:1: the entry a needs a `title` [missing-title]\n    title = {…},"],
            id="empty title",
        ),
        pytest.param(
            "@article{a, title={x}, crossref={zz}}",
            [
                '1:34: no entry has the key "zz" [unknown-crossref]'
                "\n    correct the key, or delete the field and type what it would give"
            ],
            id="unknown crossref",
        ),
        pytest.param(
            "@article{a, title={\\foo{x} 5\\%}}",
            [
                "1:20: the LaTeX command \\foo is not known here, so `title` cannot be shown: "
                "write the character itself [unknown-latex-command]"
                "\n    type what \\foo stands for, as it is printed"
            ],
            id="unknown command",
        ),
    ],
)
def test_fault_of_an_entry_is_reported_where_it_stands(
    of_entry: ProblemsOfText, typed: str, expected: list[str]
) -> None:
    assert of_entry(typed) == expected


@pytest.mark.parametrize(
    "typed",
    [
        pytest.param("", id="nothing"),
        pytest.param('Notes of mine.\n\n@comment{jabref @article{x}}\n@preamble{"\\foo"}\n', id="remarks"),
        pytest.param("@article(a, title={x}, year = 2000)", id="parentheses"),
        pytest.param('@ARTICLE{a, TITLE={x}, MONTH = jan # "~5"}', id="capitals and a join"),
        pytest.param("@dataset{a, title={x}, file={C:\\\\x.pdf}, x-note={\\weird}}", id="unknown fields"),
        pytest.param('@article{a, title={The {MTA} of M{\\"u}ller}, note={}, }', id="inner braces"),
        pytest.param('@article{a, title = "a {"}quoted{"} word"}', id="quotes in quotes"),
        pytest.param("@article{a, title={x}, note={me@example.org and @ {x}}}", id="at signs"),
    ],
)
def test_sound_bibtex_has_no_problem(of_entry: ProblemsOfText, typed: str) -> None:
    assert of_entry(typed) == []


def test_keys_that_differ_in_capitals_clash_across_files(problems_of: Callable[[dict[str, str]], list[str]]) -> None:
    found = problems_of({"sources/1.bib": "@article{A, title={x}}", "sources/2.bib": "\n@article{a, title={x}}"})
    assert found == [
        'evidence/sources/2.bib:2:1: the key "a" is used twice: the key "A", which differs only in capital letters, '
        "is at evidence/sources/1.bib:1 [duplicate-key]"
        "\n    give one of them another key, in its claim file too, or delete one"
    ]


def test_strings_and_joins_are_resolved(read: Read) -> None:
    text = '@string{nejm = "New J"}\n@article{a, title={x}, journal = NEJM # { of } # "M", month = feb}'
    fields = read({"sources/a.bib": text}).sources["a"].fields
    assert (fields["journal"].text, fields["journal"].literal) == ("New J of M", False)
    assert fields["month"].text == "February"


def test_fields_are_carried_with_the_place_of_their_text(read: Read) -> None:
    text = "\ufeff@article{a,\r\n  Title = {\r\n    x y},\r\n  Odd-Field = {1 \\\\\r\n},\r\n  year=2000\r\n}\r\n"
    fields = read({"sources/a.bib": text}).sources["a"].fields
    assert {name: (field.text, field.position.line, field.position.column) for name, field in fields.items()} == {
        "title": ("x y", 3, 5),
        "odd-field": ("1 \\\\", 4, 16),
        "year": ("2000", 6, 8),
    }


def test_raw_entry_is_never_changed(read: Read) -> None:
    text = "@Article {a ,\n\ttitle = {x} , note = {a   b}\n}"
    assert read({"sources/a.bib": f"remark\n{text}\n"}).sources["a"].raw == text


def test_part_takes_fields_and_the_title_of_its_whole(read: Read) -> None:
    text = "@inbook{a, title={Part}, crossref={b}}\n@book{b, title={Whole}, year=2001, annotation={[p. 1] x}}"
    source = read({"sources/a.bib": text}).sources["a"]
    assert {name: field.text for name, field in source.fields.items()} == {
        "title": "Part",
        "crossref": "b",
        "booktitle": "Whole",
        "year": "2001",
    }
    assert source.passages == ()


def test_xdata_gives_its_fields_and_is_no_source(read: Read) -> None:
    sources = read({"sources/a.bib": "@xdata{x, journal={J}}\n@article{a, title={t}, xdata={x}}"}).sources
    assert list(sources) == ["a"]
    assert sources["a"].fields["journal"].text == "J"


def test_crossref_that_leads_back_is_reported_and_ends(of_entry: ProblemsOfText) -> None:
    found = of_entry("@article{a, crossref={b}, title={x}}\n@article{b, crossref={a}, title={y}}")
    assert found == [
        "2:23: `crossref` leads back to a, which takes its fields from here [unknown-crossref]"
        "\n    correct the key, or delete the field and type what it would give"
    ]


def test_entry_with_hidden_fields_is_known_by_its_name_alone(read: Read) -> None:
    evidence = read({"sources/a.bib": "@article{a, title={x} annotation={[p. 1] 5}}\n@article{b, title={y}}"})
    assert (list(evidence.sources), evidence.unreadable) == (["b"], frozenset({"source:a"}))


def test_no_entry_disappears_in_silence(read: Read) -> None:
    text = "@article{a, title={x}}\n@article{b, title={{y}\n@article{c, title={z}}\n"
    evidence = read({"sources/a.bib": text})
    assert list(evidence.sources) == ["a", "c"]
    assert evidence.unreadable == {"source:b"}
    assert len(evidence.problems) == 1


_NAMES = st.from_regex(r"[a-z]{1,8}", fullmatch=True)
_TEXTS = st.text(
    st.characters(codec="utf-8", exclude_characters='{}"@\\#', exclude_categories=["Cc", "Cn", "Cs", "Zl", "Zp"])
)
"""No characters that reading refuses: controls, and those that are no characters (Unicode 15, section 23.7)."""


@given(st.dictionaries(_NAMES, _TEXTS, min_size=1, max_size=6))
def test_fields_are_those_of_the_reference_library(fields: dict[str, str]) -> None:
    text = "@misc{key,\n" + "".join(f"  {name} = {{{value}}},\n" for name, value in fields.items()) + "}\n"
    problems: list[Problem] = []
    (entry,) = read_bibtex("x.bib", text, problems).entries
    # bibtexparser 2.1, with its own middleware for braces, on the same text.
    (expected,) = bibtexparser.parse_string(text).entries
    assert {name: field.text for name, field in entry.fields.items()} == {
        field.key: field.value.strip() for field in expected.fields
    }
    lines = text.split("\n")
    for field in entry.fields.values():
        if field.text:
            assert lines[field.position.line - 1][field.position.column - 1 :].startswith(field.text)
    assert problems == []


@given(st.text('@article{}a,="# \n(){}[]\\%string', max_size=120))
def test_no_text_makes_it_fail(text: str) -> None:
    read_bibtex("x.bib", text, [])
