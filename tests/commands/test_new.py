"""A programme that starts: an empty folder becomes a compendium that checks, builds and says how to go on."""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
from fnmatch import fnmatch
from importlib.metadata import version
from pathlib import Path

import pytest
from passageproof.commands.verbs import VERBS, main
from passageproof.describing.files import FILES as SCHEMAS
from passageproof.writing import starting
from passageproof.writing.starting import compendium_files
from site_html import Site

FILES = {
    ".github/workflows/check.yml", ".github/workflows/publish.yml", ".github/workflows/release.yml",
    ".github/workflows/status.yml",
    ".github/CODEOWNERS",
    ".github/pull_request_template.md", ".github/ISSUE_TEMPLATE/paper-to-read.yml",
    ".github/ISSUE_TEMPLATE/wrong-number.yml", ".gitignore", ".gitlab-ci.yml", "README.md", "mkdocs.yml",
    "package.json", "package-lock.json",
    "requirements.txt", "evidence/compendium.yaml", "evidence/vocabulary.yaml", "evidence/urgent.yaml",
    "evidence/local.yaml", "evidence/status.yaml", "evidence/sources/visits.bib",
    "evidence/claims/example2024call.yaml", "evidence/questions/call-before-visit.yaml",
    *(f"evidence/schema/{file.name}.json" for file in SCHEMAS),
}  # fmt: skip


def new(folder: Path) -> int:
    return main("python -m builder", ["new", str(folder)])


def contents(folder: Path) -> dict[str, bytes]:
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def mkdocs(folder: Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "mkdocs", "build", "--strict"], cwd=folder, capture_output=True, text=True,
        env=os.environ | {"NO_MKDOCS_2_WARNING": "1"}, check=False,
    )  # fmt: skip


@pytest.fixture
def started(tmp_path: Path) -> Path:
    assert new(tmp_path / "ours") == 0
    return tmp_path / "ours"


def test_all_its_files_are_written_and_nothing_beside_them(started: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert set(contents(started)) == FILES
    assert [path.name for path in started.parent.iterdir()] == ["ours"]


def named_schemas(root: Path) -> dict[str, Path]:
    """The schema that the first line of each file of the evidence leads to, by the path of the file."""
    found = {}
    for file in sorted((root / "evidence").rglob("*.yaml")):
        (named,) = re.findall(r"\A# yaml-language-server: \$schema=(\S+)\n", file.read_text("utf-8"))
        found[file.relative_to(root).as_posix()] = file.parent / named
    return found


def test_every_file_names_the_schema_of_its_kind_before_any_site_is_built(started: Path) -> None:
    found = named_schemas(started)
    assert len(found) == 7
    for name, schema in found.items():
        described = json.loads(schema.read_text("utf-8"))["description"]
        assert fnmatch(name, re.sub("<[^>]*>|KEY|ID", "*", described)), (name, described)


def test_a_schema_of_an_older_release_is_written_anew(started: Path, capsys: pytest.CaptureFixture[str]) -> None:
    before = contents(started)
    old = started / "evidence/schema/claims.json"
    old.write_text("{}", "utf-8")
    capsys.readouterr()
    assert main("python -m builder", ["format", "--root", str(started)]) == 0
    assert capsys.readouterr().out == "evidence/schema/claims.json\n"
    assert contents(started) == before


def test_it_checks_at_once_without_a_question(started: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main("python -m builder", ["check", "--root", str(started)]) == 0
    assert re.search(
        r"^0 errors, 0 questions; [1-9]\d* figures quoted, 0 without proof\n$", capsys.readouterr().out, re.M
    )


def test_it_builds_at_once_and_every_link_leads_somewhere(started: Path, capsys: pytest.CaptureFixture[str]) -> None:
    capsys.readouterr()
    assert main("python -m builder", ["build", "--root", str(started)]) == 0
    site = Site(started / "site")
    # On stdout stands only what was asked for.
    assert capsys.readouterr() == ("", f"{started / 'site'}: {len(site.pages) - ('404.html' in site.pages)} pages\n")
    assert site.broken_links() == []
    assert {"index.html", "call-before-visit/index.html", "call-before-visit/reminder/index.html"} <= set(site.pages)
    assert "52" in {shown.text for shown in site.pages["call-before-visit/index.html"].figures}
    unmarked = [
        path for path, page in site.pages.items() if page.body and "invented for demonstration" not in page.text
    ]
    assert unmarked == ["404.html"] or unmarked == []


@pytest.mark.slow
def test_mkdocs_alone_builds_the_same_strictly(started: Path) -> None:
    assert main("python -m builder", ["build", "--root", str(started), "--site", str(started.parent / "other")]) == 0
    ran = mkdocs(started)
    assert (ran.returncode, "WARNING" in ran.stderr) == (0, False), ran.stderr
    assert contents(started / "site") == contents(started.parent / "other")


def test_twice_gives_the_same_bytes(started: Path) -> None:
    assert new(started.parent / "again") == 0
    assert contents(started.parent / "again") == contents(started)


def test_an_empty_folder_is_filled_in_place(tmp_path: Path, started: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "empty").mkdir()
    monkeypatch.chdir(tmp_path / "empty")
    assert new(Path(".")) == 0
    assert contents(Path(".")) == contents(started)


@pytest.mark.parametrize("name", ["thesis.odt", ".git/config", "evidence/compendium.yaml"])
def test_a_folder_that_holds_anything_is_refused(tmp_path: Path, name: str, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
    (tmp_path / name).write_text("years of work", "utf-8")
    before = contents(tmp_path)
    assert new(tmp_path) == 1
    out, err = capsys.readouterr()
    assert (out, err) == (
        "",
        f"{tmp_path} holds files, and nothing is ever overwritten: name a new or an empty folder\n",
    )
    assert contents(tmp_path) == before


def test_a_file_is_refused(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "ours").write_text("mine", "utf-8")
    assert new(tmp_path / "ours") == 1
    assert "is a file: name a new folder" in capsys.readouterr().err
    assert new(tmp_path / "ours" / "below") == 1
    assert "could not be written" in capsys.readouterr().err
    assert (tmp_path / "ours").read_text("utf-8") == "mine"


@pytest.mark.parametrize("is_there", [False, True], ids=["new", "empty"])
def test_all_or_nothing_is_written(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, is_there: bool) -> None:
    if is_there:
        (tmp_path / "ours").mkdir()
    files = compendium_files()
    # A name that no file can have stands last.
    monkeypatch.setattr(starting, "compendium_files", lambda: files | {"zz/" + "a" * 300: ""})
    assert new(tmp_path / "ours") == 1
    assert list(tmp_path.rglob("*")) == ([tmp_path / "ours"] if is_there else [])


def test_what_somebody_writes_meanwhile_is_kept(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "ours").mkdir()
    write = starting._write

    def slow(fresh: Path) -> None:
        write(fresh)
        (tmp_path / "ours" / "evidence").write_text("mine", "utf-8")

    monkeypatch.setattr(starting, "_write", slow)
    assert new(tmp_path / "ours") == 1
    assert contents(tmp_path / "ours") == {"evidence": b"mine"}


@pytest.mark.parametrize("arguments", [[], ["a", "b"], ["--root", "."]], ids=["no folder", "two", "an option"])
def test_wrong_call_ends_with_2(arguments: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as ended:
        main("python -m builder", ["new", *arguments])
    assert ended.value.code == 2
    assert capsys.readouterr().out == ""


def test_the_verb_is_listed() -> None:
    assert "new" in VERBS


# What the README of the new folder promises


def test_every_path_that_the_readme_names_is_there_or_to_be_made(started: Path) -> None:
    text = (started / "README.md").read_text("utf-8")
    named = set(re.findall(r"`((?:evidence|\.github)/[\w./-]+|mkdocs\.yml|requirements\.txt)`", text))
    assert named >= {"evidence/compendium.yaml", "evidence/sources/visits.bib", "evidence/claims/example2024call.yaml"}
    assert [path for path in named if "KEY" not in path and "ID" not in path and not (started / path).exists()] == []


def test_without_the_example_it_still_checks_and_builds(started: Path) -> None:
    readme = (started / "README.md").read_text("utf-8")
    step = readme.partition("5. Remove the example: ")[2].partition("6. ")[0]
    for path in re.findall(r"`(evidence/(?:sources|claims|questions)/.*?)`", step):
        (started / path).unlink()
    assert "the whole file where it was the\n   last line" in step
    (started / "evidence" / "status.yaml").unlink()
    compendium = started / "evidence" / "compendium.yaml"
    compendium.write_text(compendium.read_text("utf-8").replace("demonstration: yes", "demonstration: no"), "utf-8")
    assert not [path for path in (started / "evidence").rglob("*.*") if "example2024call" in path.read_text("utf-8")]
    assert main("python -m builder", ["check", "--root", str(started)]) == 0
    assert main("python -m builder", ["build", "--root", str(started)]) == 0
    assert Site(started / "site").broken_links() == []


def test_the_example_never_stands_without_its_mark(started: Path, capsys: pytest.CaptureFixture[str]) -> None:
    compendium = started / "evidence" / "compendium.yaml"
    compendium.write_text(compendium.read_text("utf-8").replace("demonstration: yes", "demonstration: no"), "utf-8")
    capsys.readouterr()
    assert main("python -m builder", ["check", "--root", str(started)]) == 1
    line = compendium.read_text("utf-8").splitlines().index("demonstration: no") + 1
    assert capsys.readouterr().out == (
        f"evidence/compendium.yaml:{line}:16: example2024call is invented, and with demonstration: no its pages would "
        "not say so [example-left]\n"
        "    remove its entry, claims and question (evidence/sources/visits.bib, evidence/claims/example2024call.yaml, "
        "evidence/questions/call-before-visit.yaml) and its line of evidence/status.yaml, or write yes\n"
        "1 error, 0 questions; 9 figures quoted, 0 without proof\n"
    )
    # Under another key it is the same report.
    for path in (started / "evidence").rglob("*.*"):
        path.write_text(path.read_text("utf-8").replace("example2024call", "ours2024call"), "utf-8")
        path.rename(path.with_name(path.name.replace("example2024call", "ours2024call")))
    assert main("python -m builder", ["build", "--root", str(started)]) == 1
    assert "ours2024call is invented" in capsys.readouterr().err


def test_a_changed_figure_of_the_example_is_refused(started: Path, capsys: pytest.CaptureFixture[str]) -> None:
    claim = started / "evidence" / "claims" / "example2024call.yaml"
    claim.write_text(claim.read_text("utf-8").replace("events: 52", "events: 51"), "utf-8")
    assert main("python -m builder", ["check", "--root", str(started)]) == 1
    assert "evidence/claims/example2024call.yaml:" in capsys.readouterr().out


def test_workflows_run_verbs_that_exist_and_a_pull_request_may_write_nothing(started: Path) -> None:
    texts = {path.name: path.read_text("utf-8") for path in (started / ".github/workflows").iterdir()}
    check, publish = texts["check.yml"], texts["publish.yml"]
    verbs = set(re.findall(r"python -m passageproof (\w+)", "".join(texts.values())))
    assert verbs == {"check", "build", "impact", "status", "release"}
    assert "write" not in check.partition("permissions:")[2].partition("jobs:")[0]
    assert "pull_request_target" not in check
    building = publish.partition("  build:")[2].partition("  publish:")[0]
    assert "write" not in building


def test_requirements_name_the_file_of_the_release_and_never_the_name_alone(started: Path) -> None:
    # A registry's name belongs to whoever takes it first (Python Packaging User Guide, "Package index").
    lines = (started / "requirements.txt").read_text("utf-8").splitlines()
    wheel = f"passageproof-{version('passageproof')}-py3-none-any.whl"
    assert [line for line in lines if not line.startswith("#")] == [f"./{wheel}"]
    assert f"`{wheel}`" in (started / "README.md").read_text("utf-8")
    # It is to be committed.
    assert (started / ".gitignore").read_text("utf-8").split() == ["/.venv/", "/site/", "/node_modules/", "/build/"]


def test_what_the_readme_says_to_freeze_names_no_place_on_this_machine(started: Path) -> None:
    (words,) = re.findall(r"`.venv/bin/pip (freeze.*?)`", (started / "README.md").read_text("utf-8"))
    ran = subprocess.run([sys.executable, "-m", "pip", *words.split()], capture_output=True, text=True, check=True)
    assert "mkdocs-material==" in ran.stdout
    assert [line for line in ran.stdout.splitlines() if "passageproof" in line or "file:" in line] == []


def test_the_release_is_told(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as ended:
        main("python -m builder", ["--version"])
    assert (ended.value.code, capsys.readouterr().out) == (0, f"passageproof {version('passageproof')}\n")


def test_the_desk_of_a_new_compendium_fetches_what_the_tool_was_tried_with(started: Path) -> None:
    here = Path(__file__).parents[2]
    own, ours = (
        json.loads((folder / "package-lock.json").read_text("utf-8"))["packages"] for folder in (started, here)
    )
    assert own.pop("")["dependencies"] == ours.pop("")["dependencies"]
    assert own == ours
