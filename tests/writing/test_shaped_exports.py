"""Exports as many programs shape them come in with what each says and nothing else, by the command and at the desk."""

from __future__ import annotations

import base64
import json
import re
from html import unescape
from pathlib import Path
from typing import Any, NamedTuple

import bibtexparser
import pytest
import rispy
import yaml
from passageproof.commands.verbs import main
from passageproof.desk.asked import Asked
from passageproof.desk.typed_files import without_passages
from passageproof.problems import Problem
from passageproof.reading.bibtex import read_bibtex
from passageproof.reading.exported import names_in, readable_name, shown_field
from passageproof.reading.source_model import Source
from passageproof.reading.sources import Sources
from passageproof.writing.exports.reference import letters_of
from passageproof.writing.starting import write_compendium
from pylatexenc.latex2text import LatexNodes2Text

FOLDER = Path(__file__).parent / "exports"
PEOPLE = ("author", "editor")


class Shaped(NamedTuple):
    """An export, and what its entries must say, typed by hand from it."""

    file: str
    text: str
    data: bytes
    entries: list[dict[str, Any]]
    besides: frozenset[str]
    """Words of the notation that an entry keeps, since what stands beside them has no field."""


def _shaped(kind: str, case: dict[str, Any]) -> Shaped:
    text, ways = case["text"], case.get("with", [])
    typed = text.replace("\n", "\r\n") if "crlf" in ways else text
    encoding = "windows-1252" if "windows-1252" in ways else "utf-8-sig" if "bom" in ways else "utf-8"
    endings = {"csl": "json"}
    return Shaped(
        f"x.{endings.get(kind, kind)}",
        text,
        typed.encode(encoding),
        case["entries"],
        frozenset(case.get("besides", ())),
    )


SHAPED = {
    f"{kind}: {case['name']}": _shaped(kind, case)
    for kind in ("ris", "nbib", "csl", "bib")
    for case in yaml.load((FOLDER / f"{kind}.yaml").read_text("utf-8"), Loader=yaml.BaseLoader)
}


def by_command(folder: Path, shaped: Shaped) -> dict[str, str]:
    """Entries that the command writes, by key."""
    write_compendium(folder / "ours")
    before = set((folder / "ours/evidence/sources").iterdir())
    (folder / shaped.file).write_bytes(shaped.data)
    code = main("p", ["import", str(folder / shaped.file), "--root", str(folder / "ours")])
    assert code == 0
    new = set((folder / "ours/evidence/sources").iterdir()) - before
    return {path.stem: path.read_text("utf-8") for path in new}


def read(entry: str) -> Source:
    problems: list[Problem] = []
    sources = Sources(problems)
    sources.add(read_bibtex("x.bib", entry, problems))
    [found] = sources.finish().values()
    assert [each for each in problems if each.severity == "error"] == []
    return found


def said_of(source: Source) -> dict[str, Any]:
    """Each field as a page has it."""
    out: dict[str, Any] = {name: shown_field(source.fields, name) for name in source.fields}
    for name in PEOPLE:
        typed = source.fields.get(name)
        out[name] = [readable_name(each) for each in names_in(typed.text)] if typed else []
    return out


def test_there_are_fifty_and_more() -> None:
    assert len(SHAPED) >= 50


@pytest.mark.parametrize("name", SHAPED)
def test_each_says_what_stands_in_its_export(tmp_path: Path, name: str) -> None:
    found = by_command(tmp_path, SHAPED[name])
    said = {key: said_of(read(entry)) for key, entry in found.items()}
    assert len(said) == len(SHAPED[name].entries)
    for expected in SHAPED[name].entries:
        wanted = {field: value for field, value in expected.items() if field != "key"}
        mine = next(each for key, each in said.items() if each["title"].startswith(wanted["title"]))
        assert {field: mine.get(field, "") for field in wanted} | {"title": wanted["title"]} == wanted
        if "key" in expected:
            assert expected["key"] in said


_AS_TEXT = LatexNodes2Text(math_mode="text", keep_comments=True)
_OF_THE_FORMAT = {"ris": {"jour", "chap", "rprt", "elec"}, "nbib": {"nlm", "medline"}}
"""What tells of the record and nothing of the paper."""
_RESOLVER = {"https", "http", "dx", "doi", "org"}
_MONTHS = {"jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"}


def words_in(texts: list[str]) -> set[str]:
    """Words and numbers without tags and entities of web pages, "05" as "5"."""
    plain = unescape(unescape(re.sub(r"</?[a-z:]+[^<>]*>", " ", " ".join(texts))))
    return {letters_of(word).lstrip("0") or "0" for word in re.findall(r"[^\W_]+", plain)} - {""}


def leaves(value: Any) -> list[str]:
    if isinstance(value, dict):
        return [leaf for name, each in value.items() if name != "type" for leaf in leaves(each)]
    return [leaf for each in value for leaf in leaves(each)] if isinstance(value, list) else [str(value)]


def of_bibtex(text: str) -> list[str]:
    """All that the fields of a file of BibTeX say, as bibtexparser and pylatexenc read them."""
    found = bibtexparser.parse_string(text, append_middleware=[])
    assert not found.failed_blocks
    said = [field.value for entry in found.entries for field in entry.fields]
    return [_AS_TEXT.latex_to_text(re.sub(r"(?<!\\)([%&#_])", r"\\\1", str(each))).replace("ˆ", "^") for each in said]


def told_by_another(file: str, text: str) -> list[str]:
    """All that an export says, by a reader that is not ours: rispy with its own mapping, json, bibtexparser."""
    if file.endswith(".ris"):
        return leaves(rispy.loads(text if text.rstrip().endswith("ER  -") else f"{text}ER  - \n"))
    if file.endswith(".json"):
        return leaves(json.loads(text))
    if file.endswith(".bib"):
        return of_bibtex(text)
    # No well-kept reader of this one: four places for the tag, a hyphen, a blank; six blanks where a line goes on. AU
    # says again in short what FAU says.
    lines = [line[6:] for line in text.splitlines() if not re.match(r"(OWN|STAT|SO  |AU  )-", line)]
    return [re.sub(r"\[(doi|pii)\]$", "", line) for line in lines]


@pytest.mark.parametrize("name", SHAPED)
def test_nothing_is_lost_and_nothing_invented(tmp_path: Path, name: str) -> None:
    shaped = SHAPED[name]
    said = words_in([each for entry in by_command(tmp_path, shaped).values() for each in of_bibtex(entry)])
    typed = words_in(told_by_another(shaped.file, shaped.text))
    kind = shaped.file.rpartition(".")[2]
    numbers_of_months = {str(number) for number in range(1, 13)}
    notation = _OF_THE_FORMAT.get(kind, set()) | _RESOLVER | shaped.besides
    assert typed - said - notation - _MONTHS == set()
    # BibTeX has its own word between names.
    assert said - typed - notation - numbers_of_months - {"and"} == set()


@pytest.mark.parametrize("name", SHAPED)
def test_the_desk_reads_what_the_command_reads(tmp_path: Path, name: str) -> None:
    shaped = SHAPED[name]
    write_compendium(tmp_path / "desk")
    session = Asked(str(tmp_path / "desk"))
    found = json.loads(session.answer("take", json.dumps({"data": base64.b64encode(shaped.data).decode()})))
    assert found["faults"] == []
    written = by_command(tmp_path, shaped)
    # Each is offered by itself there: two of one name, year and word have the same key.
    offered = {each["key"]: each for each in reversed(found["references"])}
    assert len(found["references"]) == len(written)
    assert set(offered) <= set(written)
    for key, each in offered.items():
        entry = without_passages(written[key]) if each["passages"] else written[key]
        assert each["entry"] == entry


@pytest.mark.parametrize("name", SHAPED)
def test_what_came_in_comes_in_again_as_it_is_and_prints_nothing_raw(
    tmp_path: Path, name: str, capsys: pytest.CaptureFixture[str]
) -> None:
    written = by_command(tmp_path, SHAPED[name])
    capsys.readouterr()
    main("p", ["check", "--root", str(tmp_path / "ours")])
    assert "0 errors" in capsys.readouterr().out
    for key, entry in written.items():
        again = by_command(tmp_path / key, Shaped("x.bib", entry, entry.encode(), [], frozenset()))
        assert again == {key: entry}
        for field, said in said_of(read(entry)).items():
            for shown in [said] if isinstance(said, str) else said:
                raw = r"[{}]|\\(?!frac)|&\w+;|</?(sub|sup|i|span|jats)\b"
                assert field in ("annotation", "month") or not re.search(raw, shown), (field, shown)
