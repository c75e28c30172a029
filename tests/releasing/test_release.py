"""A release prepared: the right numbers in the right places, honest notes, and nothing done that was not asked."""

from __future__ import annotations

import json
import re
import shutil
import subprocess
import tomllib
from pathlib import Path

import pytest
import yaml
from passageproof.commands.verbs import main

ROOT = Path(__file__).parent.parent.parent
EXAMPLE = ROOT / "tests" / "example" / "evidence"


def git(folder: Path, *words: str) -> str:
    named = ("git", "-c", "user.name=A", "-c", "user.email=a@example.org", *words)
    return subprocess.run(named, cwd=folder, check=True, capture_output=True, text=True).stdout


@pytest.fixture
def root(tmp_path: Path) -> Path:
    """A compendium of release 1.2.0 that git keeps, not yet tagged."""
    shutil.copytree(EXAMPLE, tmp_path / "guide/evidence")
    git(tmp_path / "guide", "init", "-q", "-b", "main")
    git(tmp_path / "guide", "add", ".")
    git(tmp_path / "guide", "commit", "-q", "-m", "first")
    return tmp_path / "guide"


@pytest.fixture
def released(root: Path) -> Path:
    git(root, "tag", "v1.2.0")
    return root


def release(root: Path, *words: str) -> int:
    return main("x", ["release", "--root", str(root), *words])


def contents(root: Path) -> dict[str, bytes]:
    return {
        path.relative_to(root).as_posix(): path.read_bytes()
        for path in root.rglob("*")
        if path.is_file() and ".git" not in path.parts
    }


def retype(root: Path, file: str, old: str, new: str) -> None:
    path = root / file
    text = path.read_text("utf-8")
    assert old in text
    path.write_text(text.replace(old, new), "utf-8")


def test_without_a_word_more_nothing_is_changed(released: Path, capsys: pytest.CaptureFixture[str]) -> None:
    before, state = contents(released), git(released, "status", "--porcelain")
    assert release(released, "1.3.0") == 0
    assert contents(released) == before
    assert git(released, "status", "--porcelain") == state == ""
    told = capsys.readouterr()
    assert "-evidence: {date: 2026-10-30, release: 1.2.0}\n+evidence: {date: 2026-10-30, release: 1.3.0}" in told.out
    assert "new: releases/v1.3.0.md\n" in told.out
    assert "nothing was written: 4 files would be" in told.err


def test_what_is_written_is_what_was_shown_and_nothing_else(released: Path) -> None:
    before = contents(released)
    tags, head = git(released, "tag"), git(released, "rev-parse", "HEAD")
    assert release(released, "1.3.0", "--write") == 0
    after = contents(released)
    assert {path for path in after if after[path] != before.get(path)} == {
        "evidence/compendium.yaml", "CITATION.cff", "releases/v1.3.0.md", "releases/v1.3.0.datacite.json",
    }  # fmt: skip
    assert (git(released, "tag"), git(released, "rev-parse", "HEAD")) == (tags, head)
    changed = (after["evidence/compendium.yaml"], before["evidence/compendium.yaml"])
    assert changed[0].replace(b"release: 1.3.0", b"release: 1.2.0") == changed[1]
    assert release(released, "1.3.0", "--check") == 0
    assert main("x", ["check", "--root", str(released)]) == 0


def test_the_same_again_writes_the_same(released: Path) -> None:
    release(released, "1.3.0", "--write")
    before = contents(released)
    assert release(released, "1.3.0", "--write") == 0
    assert contents(released) == before


def notes(root: Path, number: str) -> str:
    return (root / f"releases/v{number}.md").read_text("utf-8")


def test_a_first_release_says_so(root: Path) -> None:
    assert release(root, "1.2.0", "--write") == 0
    assert "This is the first release: there is nothing to compare it with." in notes(root, "1.2.0")


def test_nothing_moved_is_said(released: Path) -> None:
    assert release(released, "1.2.1", "--write") == 0
    text = notes(released, "1.2.1")
    assert "## What moves since v1.2.0\n\nNothing moved: no reader meets another word or number than before." in text


def test_an_answer_that_was_turned_round_stands_first(released: Path) -> None:
    turn(released)
    assert release(released, "2.0.0", "--write") == 0
    heads = re.findall(r"^##+ (.*)", notes(released, "2.0.0"), re.MULTILINE)
    assert heads[:2] == ["What moves since v1.2.0", "Now the other way round"]


@pytest.mark.parametrize(
    ("number", "edit", "says"),
    [
        ("1.2.1", "wording", ""), ("1.3.0", "number", ""), ("1.2.1", "number", "then the second number moves"),
        ("2.0.0", "turned", ""), ("1.3.0", "turned", "the first number moves"),
    ],
)  # fmt: skip
def test_a_number_that_says_too_little_is_asked_about(
    released: Path, number: str, edit: str, says: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """As the page "What changed" tells readers: reversed advice, a number on a page, wording alone."""
    if edit == "wording":
        retype(released, "evidence/questions/root-perforation.yaml", "title: There is", "title: There may be")
    elif edit == "number":
        retype(released, "evidence/sources/furcal.bib", "21 at risk", "22 at risk")
        retype(released, "evidence/claims/arden2023recall.yaml", "at_risk: 21", "at_risk: 22")
    else:
        turn(released)
    assert release(released, number) == 0
    told = capsys.readouterr().err
    assert says in told
    assert ("?" in told) == bool(says)


def turn(root: Path) -> None:
    """Of holes over 3 mm more reversed; now fewer do."""
    retype(root, "evidence/sources/furcal.bib", "adjusted HR 2.9 (95% CI 1.2 to 7.1; P = .02)",
           "adjusted HR 0.35 (95% CI 0.14 to 0.83; P = .02)")  # fmt: skip
    retype(root, "evidence/claims/arden2023recall.yaml", "value: 2.9", "value: 0.35")
    retype(root, "evidence/claims/arden2023recall.yaml", "interval: 1.2 to 7.1", "interval: 0.14 to 0.83")


@pytest.mark.parametrize(
    ("number", "says"),
    [
        ("1.2.0", "is not later than 1.2.0, which is released"),
        ("1.1.9", "is not later than 1.2.0"),
        ("1.3", "is not three numbers"),
        ("v1.3.0", "is not three numbers"),
        ("1.03.0", "is not three numbers"),
    ],
)
def test_a_release_is_later_than_the_last_and_never_changed(
    released: Path, number: str, says: str, capsys: pytest.CaptureFixture[str]
) -> None:
    before = contents(released)
    assert release(released, number, "--write") == 1
    assert says in capsys.readouterr().err
    assert contents(released) == before


def test_numbers_are_counted_and_not_spelt(released: Path) -> None:
    git(released, "tag", "v1.10.0")
    assert release(released, "1.9.0") == 1
    assert release(released, "1.11.0") == 0


def test_what_does_not_pass_its_check_is_not_released(released: Path, capsys: pytest.CaptureFixture[str]) -> None:
    retype(released, "evidence/claims/marlow2019furcal.yaml", "events: 39", "events: 93")
    before = contents(released)
    assert release(released, "1.3.0", "--write") == 1
    assert "does not pass its check; nothing was written" in capsys.readouterr().err
    assert contents(released) == before


def test_what_to_compare_with_may_be_named(released: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert release(released, "1.3.0", "--since", "HEAD") == 0
    assert "What moves since HEAD" in capsys.readouterr().out
    assert release(released, "1.3.0", "--since", "nowhere") == 2


REQUIRED_BY_CFF = {"cff-version", "message", "title", "authors"}
# Keys of the Citation File Format 1.2.0 at the top level (schema-guide.md of its repository).
KNOWN_TO_CFF = REQUIRED_BY_CFF | {
    "abstract", "commit", "contact", "date-released", "doi", "identifiers", "keywords", "license", "license-url",
    "preferred-citation", "references", "repository", "repository-artifact", "repository-code", "type", "url",
    "version",
}  # fmt: skip


def cff(text: str) -> dict[str, object]:
    said = yaml.load(text, yaml.BaseLoader)
    assert set(said) >= REQUIRED_BY_CFF
    assert set(said) <= KNOWN_TO_CFF
    assert said["cff-version"] == "1.2.0"
    assert said["type"] in ("software", "dataset")
    assert all(set(author) == {"name"} for author in said["authors"])
    assert re.fullmatch(r"\d{4}-\d\d-\d\d", said["date-released"])
    return said


def test_how_it_is_cited(released: Path) -> None:
    assert release(released, "1.3.0", "--write", "--on", "2026-11-30") == 0
    said = cff((released / "CITATION.cff").read_text("utf-8"))
    assert (said["version"], said["date-released"]) == ("1.3.0", "2026-11-30")
    assert said["license"] == ["CC-BY-4.0", "CC0-1.0"]
    assert said["title"].endswith("invented for demonstration")


def test_our_own_citation_keeps_every_other_line(released: Path) -> None:
    ours = (ROOT / "CITATION.cff").read_text("utf-8")
    cff(ours)
    (released / "CITATION.cff").write_text(ours, "utf-8")
    release(released, "1.3.0", "--write")
    text = (released / "CITATION.cff").read_text("utf-8")
    assert text == re.sub(r"version: [\d.]+\ndate-released: .*", "version: 1.3.0\ndate-released: 2026-10-30", ours)
    assert text.startswith("cff-version: 1.2.0\n")


def test_our_own_numbers_agree() -> None:
    compendium = (ROOT / "evidence" / "compendium.yaml").read_text("utf-8")
    found = re.search(r"^evidence: \{date: (\S+), release: (\S+)\}$", compendium, re.MULTILINE)
    assert found is not None
    said = cff((ROOT / "CITATION.cff").read_text("utf-8"))
    assert (said["date-released"], said["version"]) == (found[1], found[2])


def test_what_a_registry_of_dois_asks_for(released: Path) -> None:
    """DataCite Metadata Schema 4.6, "Mandatory properties": Identifier (added by whoever registers), Creator, Title,
    Publisher, PublicationYear, ResourceType; lists of values from its appendix 1."""
    assert release(released, "1.3.0", "--write", "--address", "https://example.org/guide") == 0
    said = json.loads((released / "releases/v1.3.0.datacite.json").read_text("utf-8"))
    assert said["creators"] == [{"name": "Fenwick Graduate Endodontics", "nameType": "Organizational"}]
    assert said["titles"] == [{"title": "Hard questions in root canal treatment, invented for demonstration"}]
    assert said["publisher"] == {"name": "Fenwick Graduate Endodontics"}
    assert re.fullmatch(r"\d{4}", said["publicationYear"])
    assert said["types"]["resourceTypeGeneral"] == "Dataset"
    assert said["schemaVersion"] == "http://datacite.org/schema/kernel-4"
    assert (said["version"], said["url"]) == ("1.3.0", "https://example.org/guide/v1.3.0/")
    assert {each["contributorType"] for each in said["contributors"]} == {"DataCurator"}
    assert [each["rightsIdentifier"] for each in said["rightsList"]] == ["CC-BY-4.0", "CC0-1.0"]
    assert said["dates"] == [{"date": "2026-10-30", "dateType": "Issued"}]
    # What is invented refers to nothing that is registered.
    assert "relatedIdentifiers" not in said
    assert "doi" not in said


def test_reports_that_are_not_invented_are_referred_to(released: Path) -> None:
    retype(released, "evidence/compendium.yaml", "demonstration: yes", "demonstration: no")
    assert release(released, "1.3.0", "--write") == 0
    said = json.loads((released / "releases/v1.3.0.datacite.json").read_text("utf-8"))
    related = {each["relatedIdentifier"]: each["relationType"] for each in said["relatedIdentifiers"]}
    assert related["10.5555/aie.2019.41"] == "References"
    assert "invented" not in json.dumps(said)


def test_the_program_has_a_release_of_its_own(released: Path) -> None:
    shutil.copy(ROOT / "pyproject.toml", released)
    before = (released / "pyproject.toml").read_text("utf-8")
    release(released, "1.3.0", "--write")
    assert (released / "pyproject.toml").read_text("utf-8") == before
    assert release(released, "1.3.0", "--write", "--program", "7.8.9") == 0
    after = (released / "pyproject.toml").read_text("utf-8")
    assert tomllib.loads(after)["project"]["version"] == "7.8.9"
    assert len([line for line, old in zip(after.split("\n"), before.split("\n"), strict=True) if line != old]) == 1


@pytest.mark.parametrize("file", ["CITATION.cff", "releases/v1.3.0.md", "evidence/compendium.yaml"])
def test_a_tag_that_does_not_fit_its_files_is_found(released: Path, file: str) -> None:
    release(released, "1.3.0", "--write")
    assert release(released, "1.3.0", "--check") == 0
    assert release(released, "1.3.1", "--check") == 1
    if file.endswith("yaml"):
        retype(released, file, "release: 1.3.0", "release: 1.2.0")
    else:
        (released / file).unlink()
    assert release(released, "1.3.0", "--check") == 1


def test_what_evidence_says_is_no_markup_in_the_notes(released: Path) -> None:
    retype(released, "evidence/compendium.yaml", "programme: Fenwick", "programme: <b>@all</b> Fenwick")
    release(released, "1.3.0", "--write")
    assert "<b>" not in notes(released, "1.3.0")
    assert " @all" not in notes(released, "1.3.0")


@pytest.mark.parametrize("words", [["1.3.0", "--address", "http://example.org"], ["1.3.0", "--on", "soon"]])
def test_a_wrong_option(released: Path, words: list[str]) -> None:
    try:
        code = release(released, *words)
    except SystemExit as ended:
        code = ended.code
    assert code == 2
