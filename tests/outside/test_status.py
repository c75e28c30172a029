"""What the look at all reports makes of status.yaml: people's words stay, and on any doubt so does everything."""

from __future__ import annotations

import datetime
import json
from collections.abc import Iterator
from pathlib import Path

import pytest
from outside import crossref_server
from outside.crossref_server import CrossrefServer, says, status, update, work
from passageproof.commands.verbs import main
from passageproof.writing.layout import laid_out
from passageproof.writing.starting import write_compendium

HEAD = "# yaml-language-server: $schema=schema/status.json\n"
FILE = "evidence/status.yaml"


@pytest.fixture
def server() -> Iterator[CrossrefServer]:
    with crossref_server.running() as started:
        yield started


@pytest.fixture
def root(tmp_path: Path) -> Path:
    """A compendium of reports that are not invented, as far as the program knows."""
    write_compendium(tmp_path / "ours")
    file = tmp_path / "ours/evidence/compendium.yaml"
    text = file.read_text("utf-8")
    assert "demonstration: yes" in text
    file.write_text(text.replace("demonstration: yes", "demonstration: no"), "utf-8")
    for old in (tmp_path / "ours/evidence/claims").iterdir():
        old.unlink()
    for old in (tmp_path / "ours/evidence/sources").iterdir():
        old.unlink()
    return tmp_path / "ours"


def reports(root: Path, *entries: str) -> None:
    typed = "".join(f"@article{{{key}, title = {{Invented}}, {field}}}\n" for key, _, field in
                    (entry.partition(" ") for entry in entries))  # fmt: skip
    (root / "evidence/sources/ours.bib").write_text(typed, "utf-8")


def stands(root: Path, text: str) -> None:
    (root / FILE).write_text(text, "utf-8")


def read(root: Path) -> str:
    return (root / FILE).read_text("utf-8")


def look(root: Path, server: CrossrefServer, *more: str) -> int:
    return main("x", ["status", "--root", str(root), "--contact", "a@example.org", "--service", server.url,
                      "--keep", str(root.parent / "kept"), *more])  # fmt: skip


def today(server: CrossrefServer) -> str:
    return datetime.datetime.now(datetime.UTC).date().isoformat()


def answer(server: CrossrefServer, doi: str, **fields: object) -> None:
    server.plays[doi.casefold()] = [says(work(doi, **fields))]


def test_each_state_in_the_form_of_the_file_sorted_by_key(root: Path, server: CrossrefServer, capsys) -> None:
    reports(root, "d doi = {10.5555/D}", "a url = {https://doi.org/10.5555/a}", "c doi = {https://doi.org/10.5555/c}",
            "b doi = {10.5555/b}", "e year = 2020")  # fmt: skip
    answer(server, "10.5555/a")
    answer(server, "10.5555/b", updated_by=[update("10.5555/b.c", "erratum", 2021, 2, 3)])
    answer(server, "10.5555/c", updated_by=[update("10.5555/c.e", "expression_of_concern", 2021)])
    answer(
        server,
        "10.5555/d",
        updated_by=[
            update("10.5555/d.1", "retraction", 2020, 1, 1),
            update("10.5555/d.2", "retraction", 2022, 1, 1),
            update("10.5555/d.3", "correction", 2023, 1, 1),
        ],
    )
    stands(root, f"{HEAD}d: {{state: unknown, on: 2025-01-02, by: hand}}\n")
    day = today(server)
    assert look(root, server) == 0
    by = f"on: {day}, by: Crossref"
    assert read(root) == (
        f"{HEAD}a: {{state: none found, {by}}}\n"
        f"b: {{state: corrected, {by}, notice: {{doi: 10.5555/b.c, on: 2021-02-03, words: erratum}}}}\n"
        f"c: {{state: concern, {by}, notice: {{doi: 10.5555/c.e, words: expression of concern}}}}\n"
        f"d: {{state: retracted, {by}, notice: {{doi: 10.5555/d.2, on: 2022-01-01, words: retraction}}}}\n"
    )
    assert laid_out(read(root)) == read(root)
    told = capsys.readouterr().out
    assert "4 of 4 reports with a DOI were checked" in told
    assert "**d** (10.5555/D): was unknown, is now **retracted**, by retraction 10.5555/d.2 of 2022-01-01" in told
    assert "## Without a DOI: to be looked up by hand\n\n- **e**" in told
    assert main("x", ["check", "--root", str(root)]) in (0, 1)
    assert "status.yaml" not in capsys.readouterr().out


PEOPLE = f"""{HEAD}# all looked up by hand so far

# this one twice
b: {{state: retracted, on: 2025-01-02, by: IM, notice: {{doi: 10.5555/b.r, on: 2024-01-01, words: "as IM, put"}}}} # so
c:
  state: corrected   # a small one
  on: 2025-01-02
  by: hand
  notice: {{doi: 10.5555/c.c, words: the legend}}
zz: {{state: unknown, on: 2025-01-02, by: hand}}
# the end
"""


def test_what_people_wrote_stays_and_its_day_is_new(root: Path, server: CrossrefServer, capsys) -> None:
    reports(root, "b doi = {10.5555/b}", "c doi = {10.5555/c}", "zz doi = {10.5555/z}")
    answer(server, "10.5555/b", updated_by=[update("10.5555/B.R", "retraction", 2024, 1, 1)])
    answer(server, "10.5555/c", updated_by=[update("10.5555/c.d", "correction", 2026, 1, 1)])
    answer(server, "10.5555/z")
    stands(root, PEOPLE)
    day = today(server)
    assert look(root, server) == 0
    text = read(root)
    assert text.startswith(f"{HEAD}# all looked up by hand so far\n\n# this one twice\n# so\nb:")
    assert "as IM, put" in text
    assert text.endswith("# the end\n")
    assert f"zz: {{state: none found, on: {day}, by: Crossref}}" in text
    assert "words: the legend" in text
    assert "# a small one" in text
    assert text.count(day) == 3
    assert laid_out(text) == text
    told = capsys.readouterr().out
    assert "**c** (10.5555/c): there is another notice: correction, 10.5555/c.d" in told


def test_a_second_run_changes_nothing(root: Path, server: CrossrefServer) -> None:
    reports(root, "b doi = {10.5555/b}", "c doi = {10.5555/c}", "zz doi = {10.5555/z}")
    answer(server, "10.5555/b", updated_by=[update("10.5555/b.r", "retraction", 2024, 1, 1)])
    answer(server, "10.5555/c", updated_by=[update("10.5555/c.c", "correction", 2026, 1, 1)])
    answer(server, "10.5555/z")
    stands(root, PEOPLE)
    look(root, server)
    first = read(root)
    asked = len(server.asked)
    assert look(root, server) == 0
    assert read(root) == first
    assert len(server.asked) == asked


GRAVER = {
    "b: {state: none found, on: 2025-01-02, by: hand}": ("retracted", "by: Crossref"),
    "b: {state: corrected, on: 2025-01-02, by: hand, notice: {doi: 10.5555/b.c, words: x}}": (
        "retracted",
        "10.5555/b.r",
    ),
    "b: {state: concern, on: 2025-01-02, by: Crossref, notice: {doi: 10.5555/b.r}}": ("retracted", "10.5555/b.r"),
}


@pytest.mark.parametrize("line", GRAVER)
def test_a_retraction_wins_over_what_was_known(root: Path, server: CrossrefServer, line: str) -> None:
    reports(root, "b doi = {10.5555/b}")
    answer(server, "10.5555/b", updated_by=[update("10.5555/b.r", "retraction", 2024, 1, 1)])
    stands(root, f"{line}\n")
    assert look(root, server) == 0
    state, held = GRAVER[line]
    assert f"state: {state}" in read(root)
    assert held in read(root)


STAYS = {
    "b: {state: retracted, on: 2025-01-02, by: hand, notice: {words: in a letter}}": "people wrote so",
    "b: {state: retracted, on: 2025-01-02, by: Crossref, notice: {doi: 10.5555/b.r}}": "the service named it before",
    "b: {state: concern, on: 2025-01-02, by: hand}": "people wrote so",
    # Whoever read a notice may judge it otherwise than its kind says.
    "b: {state: none found, on: 2025-01-02, by: IM, notice: {doi: 10.5555/b.c, words: one comma}}": "judged the notice",
}


@pytest.mark.parametrize("line", STAYS)
def test_nothing_is_made_milder_and_nobodys_judgement_is_undone(
    root: Path, server: CrossrefServer, line: str, capsys
) -> None:
    reports(root, "b doi = {10.5555/b}")
    answer(server, "10.5555/b", updated_by=[update("10.5555/b.c", "correction", 2024, 1, 1)])
    stands(root, f"{line}\n")
    assert look(root, server) == 0
    assert read(root) == f"{line}\n"
    assert STAYS[line] in capsys.readouterr().out


def test_on_a_doubt_state_and_day_stay_and_the_others_are_written(root: Path, server: CrossrefServer, capsys) -> None:
    reports(root, "a doi = {10.5555/a}", "b doi = {10.5555/b}", "n doi = {10.5555/n}")
    server.plays["10.5555/a"] = [status(404)]
    answer(server, "10.5555/b")
    old = "a: {state: none found, on: 2025-01-02, by: hand}\n"
    stands(root, old)
    assert look(root, server, "--format", "json") == 1
    assert read(root) == old + f"b: {{state: none found, on: {today(server)}, by: Crossref}}\n"
    told = json.loads(capsys.readouterr().out)
    assert told["counts"] == {"checked": 0, "changed": 1, "kept": 0, "not checked": 2, "no doi": 0}
    rows = {row["key"]: row for row in told["reports"]}
    assert rows["a"]["outcome"] == "not checked"
    assert (rows["a"]["state"], rows["n"]["state"]) == ("none found", None)
    assert rows["a"]["remarks"] == ["the service does not know this DOI"]


def test_a_file_that_is_not_there_is_begun(root: Path, server: CrossrefServer) -> None:
    reports(root, "a doi = {10.5555/a}")
    answer(server, "10.5555/a")
    (root / FILE).unlink()
    assert look(root, server) == 0
    assert read(root) == f"a: {{state: none found, on: {today(server)}, by: Crossref}}\n"


@pytest.mark.parametrize(
    "text", ["a: {state: good, on: 2025-01-02, by: hand}\n", "a: [\n", "{a: {state: unknown, on: 2025-01-02, by: x}}\n"]
)
def test_a_file_that_must_be_mended_first_is_left(root: Path, server: CrossrefServer, text: str, capsys) -> None:
    reports(root, "a doi = {10.5555/a}")
    answer(server, "10.5555/a")
    stands(root, text)
    assert look(root, server) == 1
    assert read(root) == text
    assert "status.yaml" in capsys.readouterr().err


def test_what_the_service_says_is_no_markup(root: Path, server: CrossrefServer, capsys) -> None:
    reports(root, "a doi = {10.5555/a}")
    answer(server, "10.5555/a", updated_by=[update("10.5555/<b>@all", "retraction", 2024, 1, 1)])
    assert look(root, server) == 0
    told = capsys.readouterr().out
    assert "<b>" not in told.replace("\\<b\\>", "")
    assert "@all" not in told.replace("\\@all", "")


def test_nobody_is_asked_about_what_is_invented(tmp_path: Path, server: CrossrefServer, capsys) -> None:
    write_compendium(tmp_path / "ours")
    assert look(tmp_path / "ours", server) == 0
    assert server.asked == []
    assert "invented" in capsys.readouterr().err


@pytest.mark.parametrize(
    "words", [["--contact", "nobody"], ["--contact", "a@b.org", "--service", "http://example.org"]]
)
def test_a_wrong_option_asks_nobody(root: Path, words: list[str]) -> None:
    assert main("x", ["status", "--root", str(root), *words]) == 2
