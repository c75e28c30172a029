"""References of managers, databases and publishers come in whole: nothing is lost, invented or overwritten."""

from __future__ import annotations

import json
import re
import unicodedata
from contextlib import suppress
from pathlib import Path

import pytest
import rispy
from hypothesis import given, settings, strategies as st
from passageproof.commands.verbs import main
from passageproof.problems import Problem
from passageproof.reading.bibtex import read_bibtex
from passageproof.reading.exported import readable_field
from passageproof.reading.latex import readable_text
from passageproof.reading.sources import Sources
from passageproof.writing.exports.reference import CannotRead, Reference, as_tex, letters_of
from passageproof.writing.importing import read_export, references_in
from passageproof.writing.starting import write_compendium
from writing.export_shapes import EXPORTS, PAPERS, SHAPES


@pytest.fixture
def root(tmp_path: Path) -> Path:
    write_compendium(tmp_path / "ours")
    return tmp_path / "ours"


def take_in(root: Path, name: str, text: str | bytes, *options: str) -> int:
    file = root.parent / name
    file.write_bytes(text.encode() if isinstance(text, str) else text)
    return main("python -m builder", ["import", str(file), "--root", str(root), *options])


def entries(root: Path) -> dict[str, str]:
    """What came in, by key."""
    return {
        path.stem: path.read_text("utf-8")
        for path in (root / "evidence/sources").glob("*.bib")
        if path.stem not in ("example", "sources") and "example2024call" not in path.read_text("utf-8")
    }


def words_of(text: str) -> set[str]:
    """Each word and number, without what a form of print does to it: "05" is "5", "Müller" is "muller"."""
    return {letters_of(word).lstrip("0") or "0" for word in re.findall(r"[^\W_]+", text)} - {""}


def values_of(name: str, text: str) -> str:
    """All that an export says of its paper, without its tags, its names of fields and what tells of the database."""
    if name.endswith(".json"):
        return re.sub(r"</?jats:p>", " ", " ".join(_leaves(json.loads(text))))
    if name.endswith(".bib"):
        return re.sub(r"@\w+\{j = |@Article\{[^,]*,|^  \w+ = (?:j(?:an)?,)?", " ", text, flags=re.MULTILINE)
    lines = [line for line in text.splitlines() if not re.match(r"\ufeff?(TY|ER|OWN|STAT|LR|JID|SO) *-", line)]
    return "\n".join(re.sub(r"^(?:[A-Z][A-Z0-9]{1,3} *- ?)", "", line) for line in lines)


def _leaves(value: object) -> list[str]:
    if isinstance(value, dict):
        return [leaf for key, each in value.items() if key != "type" for leaf in _leaves(each)]
    if isinstance(value, list):
        return [leaf for each in value for leaf in _leaves(each)]
    return [str(value)]


def shown(entry: str) -> str:
    """All values of an entry as a page shows them."""
    problems: list[Problem] = []
    [read] = read_bibtex("x.bib", entry, problems).entries
    assert not problems
    return "\n".join(readable_field(field.text) for field in read.fields.values())


BETWEEN = {"and", "sequence", "affiliation", "name", "read", "true"}


@pytest.mark.parametrize("name", EXPORTS)
def test_nothing_is_lost_and_nothing_invented(root: Path, name: str) -> None:
    assert len(EXPORTS) >= 50
    assert take_in(root, name, EXPORTS[name]) == 0
    [entry] = entries(root).values()
    said, typed = words_of(shown(entry)), words_of(values_of(name, EXPORTS[name]))
    # A DOI that an address repeats is said once; "12-19" is typed "12--19"; months of a name are numbers.
    resolver = {"https", "doi", "org"}
    months = words_of("Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec") if name.endswith(".nbib") else set()
    initials = {word for word in typed if len(word) == 1}
    assert typed - said - resolver - months - initials - {"pdf"} == set()
    invented = said - typed - ({str(month) for month in range(1, 13)} if months else set()) - BETWEEN
    assert invented - {"january", "jan"} <= ({"journal", "article"} if name.endswith("register.json") else set())


@pytest.mark.parametrize("name", EXPORTS)
def test_an_entry_that_came_in_is_read_without_a_word_and_comes_in_again_as_it_is(
    root: Path, name: str, capsys: pytest.CaptureFixture[str]
) -> None:
    take_in(root, name, EXPORTS[name])
    [(key, entry)] = entries(root).items()
    capsys.readouterr()
    main("python -m builder", ["check", "--root", str(root)])
    assert "\n0 errors, 0 questions" in "\n" + capsys.readouterr().out
    write_compendium(root.parent / "other")
    assert take_in(root.parent / "other", "again.bib", entry) == 0
    assert entries(root.parent / "other") == {key: entry}
    # Where it is, it comes in no second time: by its DOI, or by its title, about which somebody is asked.
    is_told_apart = "doi = {10" in entry or "pmid = " in entry
    assert take_in(root, "again.bib", entry) == (0 if is_told_apart else 1)
    assert entries(root) == {key: entry}


@pytest.mark.parametrize("number", [1, 3, 5, 6, 8])
def test_one_paper_out_of_seven_programs_is_one_entry(root: Path, number: int) -> None:
    for name in SHAPES:
        assert take_in(root, name, EXPORTS[f"{number}-{name}"]) == 0
    assert len(entries(root)) == 1


def test_title_that_is_here_under_another_doi_is_asked_about_and_taken_in_when_told_so(
    root: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    export = EXPORTS["1-manager.ris"]
    take_in(root, "a.ris", export)
    other = export.replace("10.5555/jsr.2019.410", "10.5555/preprint.1")
    assert take_in(root, "b.ris", other) == 1
    said = capsys.readouterr().err
    assert "b.ris:1:1:" in said
    assert "has the title of sampler2019repair: is it the same paper?" in said
    assert list(entries(root)) == ["sampler2019repair"]
    assert take_in(root, "b.ris", other, "--alike-too") == 0
    assert sorted(entries(root)) == ["sampler2019repair", "sampler2019repairb"]


def test_short_titles_tell_nothing_by_themselves(root: Path) -> None:
    take_in(root, "a.ris", EXPORTS["7-manager.ris"])
    other = EXPORTS["7-manager.ris"].replace("Norwell", "Sudwell").replace("10.5555/st.2021.901", "10.5555/st.2021.905")
    assert take_in(root, "b.ris", other) == 0
    assert len(entries(root)) == 2


def test_many_come_in_at_once_and_what_cannot_is_told_with_its_line(
    root: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    whole = "".join(EXPORTS[f"{number}-manager.ris"] for number in range(1, 9))
    broken = whole + "stray words\nTY  - JOUR\nAU  - Nobody, Ann\nER  - \n"
    assert take_in(root, "all.ris", broken) == 1
    said = capsys.readouterr()
    assert len(said.out.split()) == 8 == len(entries(root))
    line = whole.count("\n") + 1
    assert f'all.ris:{line}:1: "stray words" stands outside of every reference' in said.err
    assert f"all.ris:{line + 1}:1: this reference cannot become an entry" in said.err
    assert "`title`" in said.err
    assert "8 written, 2 not read" in said.err


FAULTS = {
    "<html><body>Sign in</body></html>": "1:1: this is a page of the web or XML: export again as RIS",
    "%0 Journal Article\n%T A title\n": "1:1: this is an export with one % and letter a line: export again as RIS",
    "": "1:1: this file is empty",
    "A title that I typed": "1:1: no reference is found here: export again",
    '[{"title": "One",\n "author": [}]': "2:13: a quote, comma or bracket of JSON is missing here",
    '[{"title": "A first paper"}, ["title"]]': "1:30: a reference is expected here",
    '[{"title": "A first paper"}': "1:28: the list of references has no end",
    b"@misc{a,\n title = {caf\xe9}}": "2:14: this file is not in UTF-8",
    "@article{cut2020off, title = {Cut": "1:30: the entry cut2020off cannot be read",
    "[" * 100_000: "1:2: brackets stand in brackets",
}


@pytest.mark.parametrize("text", FAULTS)
def test_what_is_no_export_is_told_in_a_sentence(
    root: Path, text: str | bytes, capsys: pytest.CaptureFixture[str]
) -> None:
    before = sorted(path.read_bytes() for path in (root / "evidence/sources").iterdir())
    code = take_in(root, "x.txt", text)
    said = capsys.readouterr()
    assert code == 1
    assert f"x.txt:{FAULTS[text]}" in said.err
    assert "Traceback" not in said.err
    if not said.out:
        assert sorted(path.read_bytes() for path in (root / "evidence/sources").iterdir()) == before


def test_file_that_is_not_there_is_told_and_no_compendium_is_2(
    root: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main("p", ["import", str(tmp_path / "none.ris"), "--root", str(root)]) == 1
    assert "none.ris:1:1: this file cannot be read: No such file" in capsys.readouterr().err
    assert main("p", ["import", str(tmp_path / "none.ris"), "--root", str(tmp_path / "nowhere")]) == 2


def test_utf_16_with_its_mark_is_read(root: Path) -> None:
    assert take_in(root, "a.ris", EXPORTS["8-manager.ris"].encode("utf-16")) == 0
    assert "Çelik" in "".join(entries(root).values())


def test_retraction_correction_and_private_notes_are_told(root: Path, capsys: pytest.CaptureFixture[str]) -> None:
    export = EXPORTS["1-pubmed.nbib"] + "PT  - Retracted Publication\nEIN - J Suppos Results. 2020;8:1\n"
    assert take_in(root, "a.nbib", export) == 0
    said = capsys.readouterr().err
    assert "PubMed names a retraction of it: enter that in evidence/status.yaml" in said
    assert "PubMed names a correction of it" in said
    assert "left out what tells of the database alone: OWN, STAT, LR" in said
    take_in(root, "b.ris", EXPORTS["2-database.ris"])
    assert "a note of N1 came along as `ris-n1`, and is published" in capsys.readouterr().err


def test_entry_of_somebody_else_keeps_its_words_and_its_key_where_it_can(root: Path) -> None:
    typed = "@string{j = {Journal}}\n\n@Article(kept_key,\n  Title = {A title that stays {A}s it is}, journal = j)\n"
    assert take_in(root, "a.bib", typed) == 0
    assert entries(root) == {"kept_key": typed.replace("\n\n@", "\n@")}
    other = typed.replace("kept_key", "Doe:2020/1").replace("stays", "goes")
    assert take_in(root, "b.bib", other) == 0
    assert entries(root)["titlegoes" if "titlegoes" in entries(root) else "title"].startswith("@string")


def test_keys_are_name_year_and_telling_word_and_never_taken_twice(root: Path) -> None:
    for number in range(3):
        export = f"TY  - JOUR\nAU  - Müller-Łoś, Ann\nTI  - The use of {number} seals\nPY  - 2020\nER  - \n"
        take_in(root, f"{number}.ris", export)
    assert sorted(entries(root)) == ["mullerlos2020use", "mullerlos2020useb", "mullerlos2020usec"]


def test_nothing_is_written_over(root: Path) -> None:
    (root / "evidence/sources/sampler2019repair.bib").write_text("% mine\n")
    assert take_in(root, "a.ris", EXPORTS["1-manager.ris"]) == 0
    assert (root / "evidence/sources/sampler2019repair.bib").read_text() == "% mine\n"
    assert "sampler2019repairb" in entries(root)


@settings(max_examples=300, deadline=None)
@given(st.text(st.characters(blacklist_categories=("Cs", "Cc", "Cf", "Co", "Cn")), max_size=60))
def test_any_text_comes_back_from_its_field(text: str) -> None:
    expected = unicodedata.normalize("NFC", "".join(sign for sign in text if sign not in "{}"))
    expected = " ".join(expected.split()).replace("`", "‘").replace("'", "’")
    shown = unicodedata.normalize("NFC", readable_text(as_tex(text)))
    assert " ".join(shown.replace("{", "").replace("}", "").split()) == expected
    problems: list[Problem] = []
    sources = Sources(problems)
    sources.add(read_bibtex("x.bib", f"@misc{{x, title = {{Title}}, abstract = {{{as_tex(text)}}}}}", problems))
    assert list(sources.finish()) == ["x"]


@settings(max_examples=200, deadline=None)
@given(st.text(max_size=300), st.sampled_from(["TY  - JOUR\n", "PMID- 1\n", "[", "@article{a, title = {", ""]))
def test_no_text_makes_it_stumble(text: str, start: str) -> None:
    with suppress(CannotRead):
        for found in references_in(start + text):
            assert isinstance(found, Reference | CannotRead)
            json.dumps(found.fields if isinstance(found, Reference) else str(found), ensure_ascii=False).encode()


def test_rispy_itself_reads_the_same_tags(tmp_path: Path) -> None:
    """A second reader of RIS, with its own mapping: title, authors and DOI are the same."""
    for number, paper in enumerate(PAPERS, 1):
        export = EXPORTS[f"{number}-manager.ris"]
        [theirs] = rispy.loads(export)
        (tmp_path / "a.ris").write_text(export, "utf-8")
        [ours] = references_in(read_export(tmp_path / "a.ris").text)
        assert isinstance(ours, Reference)
        assert letters_of(readable_text(ours.fields["title"])) == letters_of(theirs["title"])
        assert ours.fields.get("doi", "") == paper.doi == theirs.get("doi", "")
        assert ours.fields["author"].count(" and ") + 1 == len(theirs["authors"])
