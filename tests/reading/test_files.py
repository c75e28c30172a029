"""Files that are no readable text of this folder: each has a defined outcome."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path

import pytest
from passageproof.problems import Problem, as_text
from passageproof.reading.evidence import read_evidence
from passageproof.reading.files import find_files
from passageproof.reading.model import Evidence

ProblemsOfFiles = Callable[[dict[str, str | bytes]], list[str]]
Read = Callable[[dict[str, str | bytes]], Evidence]


def test_byte_that_is_not_utf8_is_reported_at_its_place(problems_of: ProblemsOfFiles) -> None:
    assert problems_of({"sources/a.bib": b"@article{a,\r\n title={\xe9t\xe9}}"}) == [
        "evidence/sources/a.bib:2:9: byte 0xe9 is not UTF-8: save this file as UTF-8 [not-utf-8]"
        "\n    where your editor saves the file, choose UTF-8 as its encoding"
    ]


def test_keys_of_a_file_that_is_not_utf8_stay_known(read: Read) -> None:
    assert read({"sources/a.bib": b"@article{a2001word,\n title={\xe9}}"}).unreadable == {"source:a2001word"}


@pytest.mark.parametrize("ends", ["\n", "\r\n", "\r"])
@pytest.mark.parametrize("mark", ["", "\ufeff"])
def test_line_ends_and_byte_order_mark_move_no_place(problems_of: ProblemsOfFiles, ends: str, mark: str) -> None:
    text = mark + ends.join(["# a remark", "call: {nam: x}", ""])
    assert problems_of({"local.yaml": text})[0].startswith('evidence/local.yaml:2:8: "nam" is not a field of `call`')


@pytest.mark.parametrize("length", [65_534, 65_535, 65_536, 200_000])
def test_file_is_read_to_its_end_however_long_it_is(problems_of: ProblemsOfFiles, length: int) -> None:
    text = "#" * length + "\ncall: {nam: x}"
    assert problems_of({"local.yaml": text})[0].startswith('evidence/local.yaml:2:8: "nam" is not a field of `call`')


def test_file_that_is_too_large_is_not_read(problems_of: ProblemsOfFiles) -> None:
    assert problems_of({"claims/a.yaml": "#" * 1_000_001}) == [
        "evidence/claims/a.yaml:1:1: evidence/claims/a.yaml is larger than 1 MB: split it [file-too-large]"
        "\n    make two files of it"
    ]


def test_file_that_nobody_can_split_may_be_larger(problems_of: ProblemsOfFiles) -> None:
    assert problems_of({"local.yaml": "#" * 2_000_000 + "\ncall: {name: a, number: b}"}) == []
    assert problems_of({"local.yaml": "#" * 4_000_001}) == [
        "evidence/local.yaml:1:1: evidence/local.yaml is larger than 4 MB [file-too-large]"
        "\n    leave out what is not needed"
    ]


@pytest.mark.parametrize("name", ["claims/a.yml", "claim/a.yaml", "sources/a.BIB", "vocab.yaml", "claims/sub/a.yaml"])
def test_file_where_none_is_read_is_reported(problems_of: ProblemsOfFiles, name: str) -> None:
    (line,) = problems_of({name: "a: b"})
    assert line.startswith(f"evidence/{name}:1:1: evidence/{name} is not read: the files of the evidence are ")


@pytest.mark.parametrize("name", ["README.md", "claims/.a.yaml.swp", "sources/notes.txt", ".git/config.yaml"])
def test_file_that_is_not_ours_is_left_alone(problems_of: ProblemsOfFiles, name: str) -> None:
    assert problems_of({name: "a: b"}) == []


UNREAD = {
    "claims/a2001.yaml.txt": "take the last ending away, so that it is called a2001.yaml",
    "sources/furcal.bib.txt": "take the last ending away, so that it is called furcal.bib",
    "vocabulary.yaml.docx": "take the last ending away, so that it is called vocabulary.yaml",
    "claims/a2001.docx": "type what it says into a .yaml file, with an editor for plain text",
    "claims/table 2.xlsx": "type what it says into a .yaml file, with an editor for plain text",
    "new report.odt": "type what it says into a .yaml file, with an editor for plain text",
    "sources/found.ris": "export the entry as BibTeX, into a .bib file of evidence/sources/",
    "claims/a2001.txt": "if it is one of the evidence, call it a2001.yaml",
    "questions/hole": "if it is one of the evidence, call it hole.yaml",
    "pictures/tooth.png": "draw it as an .svg file; a photograph has no place here",
}


@pytest.mark.parametrize("name", UNREAD)
def test_a_file_by_whose_ending_nobody_reads_it_is_named_with_its_mend(problems_of: ProblemsOfFiles, name: str) -> None:
    (problem,) = problems_of({name: "a: b"})
    line, hint = problem.splitlines()
    assert line == (
        f"evidence/{name}:1:1: evidence/{name} is not read: a file of the evidence ends in .yaml or .bib, a drawing in "
        ".svg [misplaced-file]"
    )
    assert hint.strip() == UNREAD[name]


LEFT_ALONE = ("claims/README.txt", "sources/a2001.pdf", "claims/a.yaml~", "claims/a.yaml.bak", "claims/a.yaml.orig")


@pytest.mark.parametrize("name", LEFT_ALONE)
def test_readers_notes_papers_and_copies_of_editors_are_left_alone(problems_of: ProblemsOfFiles, name: str) -> None:
    assert problems_of({name: "a: b"}) == []


BESIDE = {
    "a2001.yaml": ("source: a2001\nread: {by: IM}\nclaims: []\n", "evidence/claims/"),
    "a2001.yml": ("source: a2001\nstudies: []\n", "evidence/claims/"),
    "hole.yaml": ("id: hole\ntitle: A hole\nstop: []\n", "evidence/questions/"),
    "words.yaml": ("factors: {}\noutcomes: {}\n", "evidence/"),
    "a2001.bib": ("@article{a2001,\n  title = {T},\n  annotation = {[p. 1] x}\n}\n", "evidence/sources/"),
}


@pytest.mark.parametrize("name", BESIDE)
def test_a_report_beside_the_evidence_is_named(problems_of: ProblemsOfFiles, tmp_path: Path, name: str) -> None:
    text, place = BESIDE[name]
    (tmp_path / name).write_text(text, "utf-8")
    (problem,) = problems_of({})
    line, hint = problem.splitlines()
    assert line == f"{name}:1:1: {name} is not read: it looks like one of {place} [misplaced-file]"
    assert hint.strip() == f"move it to {place}"


@pytest.mark.parametrize(
    ("name", "mend"),
    [
        ("a2001.yaml", "move it to evidence/claims/"),
        ("sources/a2001.yaml", "move it to evidence/claims/"),
        ("claims/a2001.yml", "call it a2001.yaml"),
    ],
)
def test_a_report_in_the_wrong_place_is_sent_to_the_right_one(
    problems_of: ProblemsOfFiles, name: str, mend: str
) -> None:
    (problem,) = problems_of({name: "source: a2001\nread: {by: IM}\nclaims: []\n"})
    assert problem.splitlines()[1].strip() == mend


def test_files_of_other_tools_beside_the_evidence_are_left_alone(problems_of: ProblemsOfFiles, tmp_path: Path) -> None:
    (tmp_path / "action.yml").write_text("id: x\nname: y\ntitle: z\n", "utf-8")
    (tmp_path / "CITATION.bib").write_text("@software{x,\n  title = {T}\n}\n", "utf-8")
    (tmp_path / "folder.yaml").mkdir()
    assert problems_of({}) == []


def test_link_that_leads_out_is_not_followed(
    problems_of: ProblemsOfFiles, tmp_path: Path, tmp_path_factory: pytest.TempPathFactory
) -> None:
    outside = tmp_path_factory.mktemp("outside") / "secret.yaml"
    outside.write_text("call: {name: x}")
    (tmp_path / "evidence").mkdir()
    (tmp_path / "evidence" / "local.yaml").symlink_to(outside)
    assert problems_of({}) == [
        "evidence/local.yaml:1:1: evidence/local.yaml is a link that leads out of this folder [file-outside]"
        "\n    put the file itself there"
    ]


def test_folder_that_leads_out_is_not_followed(
    problems_of: ProblemsOfFiles, tmp_path: Path, tmp_path_factory: pytest.TempPathFactory
) -> None:
    (tmp_path / "evidence").mkdir()
    (tmp_path / "evidence" / "claims").symlink_to(tmp_path_factory.mktemp("outside"))
    assert problems_of({}) == [
        "evidence/claims:1:1: evidence/claims is a link that leads out of this folder [file-outside]"
        "\n    put the folder itself there"
    ]


def test_link_inside_the_folder_is_read(read: Read, tmp_path: Path) -> None:
    (tmp_path / "evidence").mkdir()
    (tmp_path / "evidence" / "local.yaml").symlink_to(tmp_path / "here.yaml")
    (tmp_path / "here.yaml").write_text("call: {name: The desk}")
    name = read({}).local.call_name
    assert name is not None
    assert name.text == "The desk"


def test_link_to_nothing_is_reported(problems_of: ProblemsOfFiles, tmp_path: Path) -> None:
    (tmp_path / "evidence").mkdir()
    (tmp_path / "evidence" / "local.yaml").symlink_to(tmp_path / "nothing.yaml")
    assert problems_of({}) == [
        "evidence/local.yaml:1:1: evidence/local.yaml is not an ordinary file [unreadable-file]"
        "\n    put a text file in its place"
    ]


def test_pipe_is_not_waited_for(problems_of: ProblemsOfFiles, tmp_path: Path) -> None:
    (tmp_path / "evidence").mkdir()
    os.mkfifo(tmp_path / "evidence" / "local.yaml")
    assert problems_of({}) == [
        "evidence/local.yaml:1:1: evidence/local.yaml is not an ordinary file [unreadable-file]"
        "\n    put a text file in its place"
    ]


def test_pipe_with_an_ending_that_is_not_read_is_not_waited_for(problems_of: ProblemsOfFiles, tmp_path: Path) -> None:
    (tmp_path / "evidence").mkdir()
    os.mkfifo(tmp_path / "evidence" / "local.yml")
    assert [problem.rpartition("[")[2] for problem in problems_of({})] == [
        "misplaced-file]\n    give it the name of one of them, or move it out of evidence/"
    ]


def test_pages_are_read_with_their_path(read: Read, tmp_path: Path) -> None:
    (tmp_path / "site_src" / "more").mkdir(parents=True)
    (tmp_path / "site_src" / "about.md").write_bytes(b"\xef\xbb\xbf# About\r\n")
    (tmp_path / "site_src" / "more" / "words.md").write_text("words")
    assert read({}).pages == (("site_src/about.md", "# About\n"), ("site_src/more/words.md", "words"))


def test_link_round_in_a_circle_ends(read: Read, tmp_path: Path) -> None:
    (tmp_path / "site_src").mkdir()
    (tmp_path / "site_src" / "again").symlink_to(tmp_path / "site_src")
    assert read({}).pages == ()


def test_compendium_that_cannot_be_read_is_a_problem_and_no_value(tmp_path: Path) -> None:
    (tmp_path / "evidence").mkdir()
    (tmp_path / "evidence" / "compendium.yaml").write_text("people: {IM: {name: x}\n")
    evidence = read_evidence(tmp_path)
    assert evidence.compendium is None
    assert "person:IM" in evidence.unreadable
    assert [as_text(problem) for problem in evidence.problems] == [
        'evidence/compendium.yaml:1:9: the bracket "{" that opens here is not closed [yaml-syntax]'
        '\n    type "}" where it ends: {IM: {name: x}}'
    ]


def test_links_among_the_pages_that_lead_round_are_told_and_not_followed(tmp_path: Path):
    (tmp_path / "evidence").mkdir()
    (tmp_path / "evidence" / "compendium.yaml").write_text("format: 1\n")
    pages = tmp_path / "site_src"
    (pages / "inner").mkdir(parents=True)
    (pages / "inner" / "page.md").write_text("# A page\n")
    for name in ("a", "b", "inner/c"):
        (pages / name).symlink_to(pages)
    (pages / "once").symlink_to(pages / "inner")
    problems: list[Problem] = []
    found = [file.file for file in find_files(tmp_path, problems)]
    assert found == ["evidence/compendium.yaml", "site_src/inner/page.md", "site_src/once/page.md"]
    told = {problem.position.file: problem.rule for problem in problems}
    loops = ("site_src/a", "site_src/b", "site_src/inner/c", "site_src/once/c")
    assert told == dict.fromkeys(loops, "link-leads-round")


@pytest.mark.parametrize(
    ("name", "told"),
    [
        (
            b"claims/\xff.yaml",
            "evidence/claims/\\udcff.yaml:1:1: this file is not read: its name is not written",
        ),
        (b"claims/a\nb.yaml", "evidence/claims/a\\nb.yaml:1:1: this file is not read: its name holds a character"),
        (
            "claims/a\u202eb.yaml".encode(),
            "evidence/claims/a\\u202eb.yaml:1:1: this file is not read: its name",
        ),
        (b"questions/" + b"a" * 230 + b".yaml", f"evidence/questions/{'a' * 230}.yaml:1:1: this file is not read: its"),
        (
            b"sources/\xff.bib",
            "evidence/sources/\\udcff.bib:1:1: this file is not read: its name is not written",
        ),
    ],
    ids=["bytes", "line end", "turned", "long", "source"],
)
def test_file_of_an_unfit_name_is_told_on_one_line(
    problems_of: ProblemsOfFiles, tmp_path: Path, name: bytes, told: str
) -> None:
    problems_of({"claims/x.yaml": "", "questions/x.yaml": "", "sources/x.bib": ""})
    path = os.path.join(os.fsencode(tmp_path), b"evidence", name)
    with open(path, "wb") as stream:
        stream.write(b"a: b")
    found = [line for line in problems_of({}) if "unfit-name" in line]
    assert len(found) == 1
    assert found[0].startswith(told)
    assert found[0].count("\n") == 1
