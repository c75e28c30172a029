"""A report is withdrawn by status.yaml alone: the check passes, every number leaves, the reference stays."""

from __future__ import annotations

import csv
import json
import re
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Any, NamedTuple

import bibtexparser
import pytest
from handouts import sheets_in
from site_html import Site
from slides import slides_in

ROOT = Path(__file__).parent.parent
NOTICE = "the ward book could not be shown"
STATUS = (
    f"{{state: retracted, on: 2026-11-05, by: hand, notice: {{doi: 10.5555/n.9, on: 2026-11-02, words: {NOTICE}}}}}"
)

# Reports of the demo that answers, options, absolute risks and patient sheets lean on, with the question that does.
REPORTS = {
    "aalbek2019again": "root-perforation",
    "dovrell2017crest": "root-perforation",
    "ilvermark2022later": "exposed-pulp",
    "ingelvik2023adults": "exposed-pulp",
    "quarrenby2010fragment": "broken-instrument",
    "ravnholt2018again": "broken-instrument",
}


class Withdrawn(NamedTuple):
    """The demo's site after one of its reports was withdrawn."""

    key: str
    question: str
    check: subprocess.CompletedProcess[str]
    site: Site
    rows: list[dict[str, Any]]
    passages: str
    """What was typed from the report."""


def builder(*arguments: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run([sys.executable, "-m", "builder", *arguments], cwd=ROOT, capture_output=True, text=True)


def withdraw(status: Path, key: str) -> None:
    """Writes the state of one report as a notice would have it; its old entry goes."""
    old = status.read_text("utf-8")
    status.write_text(re.sub(rf"^{key}:.*\n([ \t]+.*\n)*", f"{key}: {STATUS}\n", old, flags=re.MULTILINE), "utf-8")


def annotation(folder: Path, key: str) -> str:
    for file in folder.glob("*.bib"):
        for entry in bibtexparser.parse_string(file.read_text("utf-8")).entries:
            if entry.key == key:
                return str(entry.fields_dict["annotation"].value)
    raise AssertionError(key)


@pytest.fixture(scope="module", params=REPORTS)
def withdrawn(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Withdrawn:
    root = tmp_path_factory.mktemp("withdrawn")
    for name in ("evidence", "site_src"):
        shutil.copytree(ROOT / name, root / name)
    withdraw(root / "evidence" / "status.yaml", request.param)
    made = builder("build", "--root", str(root), "--site", str(root / "site"))
    assert made.returncode == 0, made.stderr
    return Withdrawn(
        request.param,
        REPORTS[request.param],
        builder("check", "--root", str(root)),
        Site(root / "site"),
        [json.loads(line) for line in (root / "site/data/figures.jsonl").read_text("utf-8").splitlines()],
        annotation(root / "evidence" / "sources", request.param),
    )


def retracted_page(withdrawn: Withdrawn) -> str:
    """The text of the report's own page, blanks collapsed."""
    return " ".join(withdrawn.site.pages[f"sources/{withdrawn.key}/index.html"].text.split())


def test_the_demo_shows_figures_of_each_of_these_reports(demo_site: Path) -> None:
    rows = map(json.loads, (demo_site / "data" / "figures.jsonl").read_text("utf-8").splitlines())
    assert {row["proof"]["source"] for row in rows if row["proof"]} >= set(REPORTS)


def test_the_check_passes(withdrawn: Withdrawn) -> None:
    assert withdrawn.check.returncode == 0, withdrawn.check.stdout


def test_no_row_of_the_ledger_is_the_reports_or_made_from_it(withdrawn: Withdrawn) -> None:
    own = f"{withdrawn.key}/"
    assert [
        row["id"]
        for row in withdrawn.rows
        if row["id"].startswith(own)
        or (row["proof"] and row["proof"]["source"] == withdrawn.key)
        or any(name.startswith(own) for name in row["derived_from"])
    ] == []


def test_no_page_shows_a_figure_of_the_report(withdrawn: Withdrawn) -> None:
    assert [
        (path, shown.id)
        for path, page in withdrawn.site.pages.items()
        for shown in page.figures
        if shown.id.startswith(f"{withdrawn.key}/")
    ] == []


def test_figures_and_ledger_still_agree(withdrawn: Withdrawn) -> None:
    shown: dict[str, set[str]] = {}
    for path, page in withdrawn.site.pages.items():
        for figure in page.figures:
            shown.setdefault(figure.id, set()).add(path)
    for drawn in (withdrawn.site.folder / "data" / "plots").glob("*.svg"):
        for name in re.findall(r'data-figure="([^"]+)"', drawn.read_text("utf-8")):
            shown.setdefault(name, set()).add(f"data/plots/{drawn.name}")
    for path, names in sheets_in(withdrawn.site.folder).items():
        for name in names:
            shown.setdefault(name, set()).add(path)
    for path, made in slides_in(withdrawn.site.folder).items():
        for name in made.listed:
            shown.setdefault(name, set()).add(path)
    assert {row["id"]: set(row["shown_on"]) for row in withdrawn.rows} == shown


def test_no_link_or_anchor_breaks(withdrawn: Withdrawn) -> None:
    assert withdrawn.site.broken_links() == []


def test_the_retracted_page_has_reference_notice_and_dates(withdrawn: Withdrawn) -> None:
    text = retracted_page(withdrawn)
    for part in (
        "retracted",
        "withdrawn",
        NOTICE,
        "2026-11-02",
        "2026-11-05",
        "Annals" if "Annals" in text else "Journal",
    ):
        assert part in text, part


def test_the_retracted_page_has_neither_a_figure_nor_a_passage(withdrawn: Withdrawn) -> None:
    assert withdrawn.site.pages[f"sources/{withdrawn.key}/index.html"].figures == []
    pieces = [piece.strip() for piece in re.split(r"\[[^\]]*\]|[;\n]", withdrawn.passages)]
    assert [piece for piece in pieces if len(piece) > 12 and " ".join(piece.split()) in retracted_page(withdrawn)] == []


def test_claims_json_keeps_its_rows_with_the_state_and_no_figure(withdrawn: Withdrawn) -> None:
    claims = json.loads((withdrawn.site.folder / "data" / "claims.json").read_text("utf-8"))["claims"]
    own = [claim for claim in claims if claim["report"] == withdrawn.key]
    assert own
    assert {(claim["state"], len(claim["figures"])) for claim in own} == {("retracted", 0)}
    assert {claim["state"] for claim in claims if claim["figures"]} <= {
        "none found", "corrected", "concern", "unknown", "not checked",
    }  # fmt: skip


def test_claims_csv_keeps_its_rows_with_the_state_and_no_value(withdrawn: Withdrawn) -> None:
    with (withdrawn.site.folder / "data" / "claims.csv").open(encoding="utf-8", newline="") as file:
        own = [row for row in csv.DictReader(file) if row["report"] == withdrawn.key]
    assert own
    assert {(row["state"], row["value"], row["unit"], row["name"]) for row in own} == {("retracted", "", "", "")}


def test_sources_bib_keeps_the_entry_without_its_passages(withdrawn: Withdrawn) -> None:
    library = bibtexparser.parse_string((withdrawn.site.folder / "data" / "sources.bib").read_text("utf-8"))
    assert library.failed_blocks == []
    fields = {entry.key: set(entry.fields_dict) for entry in library.entries}
    assert {"author", "title", "journal", "year"} <= fields[withdrawn.key]
    assert not {"annotation", "annote"} & fields[withdrawn.key]
    assert "annotation" in fields["bramwick2014size"]


def test_prose_that_leaned_on_it_says_withdrawn_with_the_day_of_the_notice(withdrawn: Withdrawn) -> None:
    for path in (f"{withdrawn.question}/index.html", "upkeep/index.html"):
        text = " ".join(withdrawn.site.pages[path].text.split())
        # Inside a bracket of the writer's own the day takes none.
        assert re.search(r"withdrawn(?: \(|, )2026-11-02\)", text), path
