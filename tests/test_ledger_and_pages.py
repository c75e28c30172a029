"""What a stranger can audit of a built site: every number on a page, its row and its passage."""

from __future__ import annotations

import csv
import json
import re
import shutil
import subprocess
import sys
from collections.abc import Callable
from decimal import Decimal
from html.parser import HTMLParser
from pathlib import Path
from typing import Any, NamedTuple

import pytest
from handouts import sheets_in
from site_html import VOID, Site
from slides import slides_in

ROOT = Path(__file__).parent.parent
Row = dict[str, Any]

# Keys, units and link targets: the public interface (design, section 5); ids: the format, "Ids of figures".
KEYS = (
    "id", "text", "value", "unit", "kind", "written_in", "proof", "derived_from", "formula", "shown_on",
)  # fmt: skip
UNITS = frozenset(
    (
        "%", "tooth", "root", "canal", "lesion", "patient", "arm", "specimen", "study", "day", "week", "month", "year",
        "mm", "minute", "odds ratio", "risk ratio", "hazard ratio", "risk difference", "mean difference",
        "prevented fraction", "P", "none",
    )
)  # fmt: skip
QUIET_PLACES = frozenset(("h1", "h2", "h3", "h4", "h5", "h6", "summary", "label", "button", "option"))
COUNTED = {"one": "1", "two": "2", "three": "3"}


class Mark(NamedTuple):
    """One figure as it stands on a page."""

    id: str
    tag: str
    value: str
    text: str
    href: str | None
    tags: frozenset[str]
    classes: frozenset[str]
    ids: frozenset[str]
    """Of the elements around it."""


class Marks(HTMLParser):
    """The figures of one page, with what stands around them."""

    def __init__(self, text: str) -> None:
        super().__init__(convert_charrefs=True)
        self.found: list[Mark] = []
        self._open: list[tuple[str, dict[str, str]]] = []
        self._inside: list[tuple[int, int]] = []
        """Depth and place in `found` of each open figure: one number may be two figures, one mark in the other."""
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = {name: value or "" for name, value in attrs}
        if "data-figure" in given:
            hrefs = [around["href"] for name, around in self._open if name == "a" and "href" in around]
            self.found.append(
                Mark(
                    given["data-figure"], tag, given.get("value", ""), "", hrefs[-1] if hrefs else None,
                    frozenset(name for name, _ in self._open),
                    frozenset(word for _, around in self._open for word in around.get("class", "").split()),
                    frozenset(around["id"] for _, around in self._open if "id" in around),
                )
            )  # fmt: skip
            self._inside.append((len(self._open), len(self.found) - 1))
        if tag not in VOID:
            self._open.append((tag, given))

    def handle_endtag(self, tag: str) -> None:
        while self._open and self._open.pop()[0] != tag:
            pass
        self._inside = [(depth, place) for depth, place in self._inside if depth < len(self._open)]

    def handle_data(self, data: str) -> None:
        for _, place in self._inside:
            self.found[place] = self.found[place]._replace(text=self.found[place].text + data)


class Audited(NamedTuple):
    """A built site with the evidence it was built from."""

    root: Path
    site: Site
    rows: dict[str, Row]
    lines: list[Row]
    marks: dict[str, list[Mark]]

    def line(self, place: Row) -> str:
        """What stands from a row's place on, in the file that it names."""
        text = (self.root / place["file"]).read_text("utf-8").splitlines()[place["line"] - 1]
        return text[place["column"] - 1 :]


def builder(*arguments: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run([sys.executable, "-m", "builder", *arguments], cwd=ROOT, capture_output=True, text=True)


def audited(root: Path, site: Path) -> Audited:
    lines = [json.loads(text) for text in (site / "data" / "figures.jsonl").read_text("utf-8").splitlines()]
    pages = {file.relative_to(site).as_posix(): file.read_text("utf-8") for file in site.rglob("*.html")}
    marks = {path: Marks(text).found for path, text in pages.items()}
    return Audited(root, Site(site), {row["id"]: row for row in lines}, lines, marks)


def built(root: Path) -> Audited:
    """The site of one folder of evidence, made as somebody at a terminal makes it."""
    done = builder("build", "--root", str(root), "--site", str(root / "site"))
    assert done.returncode == 0, done.stderr
    return audited(root, root / "site")


@pytest.fixture(scope="session")
def example(tmp_path_factory: pytest.TempPathFactory) -> Audited:
    root = tmp_path_factory.mktemp("example")
    shutil.copytree(ROOT / "tests" / "example" / "evidence", root / "evidence")
    return built(root)


@pytest.fixture(scope="session")
def demo(demo_site: Path) -> Audited:
    return audited(demo_site.parent / "root", demo_site)


@pytest.fixture(scope="session", params=["demo", "example"])
def guide(request: pytest.FixtureRequest) -> Audited:
    found: Audited = request.getfixturevalue(request.param)
    return found


def faults(guide: Audited, of_mark: Callable[[str, Mark, Row], bool]) -> list[tuple[str, str]]:
    """Marks of any page of which something is true, as page and id."""
    return [
        (path, mark.id)
        for path, marks in guide.marks.items()
        for mark in marks
        if of_mark(path, mark, guide.rows.get(mark.id, {}))
    ]


def leading_number(text: str) -> Decimal | None:
    """The number at the very start of a printed text, lengths of years and months in months."""
    length = re.match(r"(\d+) years (\d+) months", text)
    if length:
        return Decimal(length[1]) * 12 + Decimal(length[2])
    word = re.match(r"[a-z]+", text)
    if word:
        return Decimal(COUNTED[word[0]]) if word[0] in COUNTED else None
    number = re.match(r"[-−]?\d*(?:(?:,|\{,\})\d{3})*(?:\.\d+)?", text)
    typed = number[0].replace("{,}", "").replace(",", "").replace("−", "-") if number else ""
    return Decimal(typed) if re.search(r"\d", typed) else None


def test_a_row_has_the_keys_of_the_interface(guide: Audited) -> None:
    assert {tuple(row) for row in guide.lines} == {KEYS}
    place = ("source", "locator", "file", "line", "column", "passage")
    assert {tuple(row["proof"]) for row in guide.lines if row["proof"]} == {place, (*place, "ties")}
    # What would say nothing is left out: no ties, the passage's own words as what ties, and words that are the claim's.
    ties = [row["proof"]["ties"] for row in guide.lines if row["proof"] and "ties" in row["proof"]]
    assert all(ties)
    assert {"level", "event", "time", "direction", "adjustment"} <= {of for found in ties for of in found}
    longer = [tie for found in ties for tie in found.values() if not isinstance(tie, str)]
    assert {tuple(tie) for tie in longer} <= {("says", "by"), ("says", "words"), ("says", "by", "words")}
    assert [tie for tie in longer if tie.get("words") == [tie["says"]] or tie.get("by") == "words"] == []
    assert {tuple(row["written_in"]) for row in guide.lines if row["written_in"]} == {("file", "line", "column")}


def test_a_figure_has_one_row(guide: Audited) -> None:
    assert len(guide.rows) == len(guide.lines)


def test_report_claim_level_and_name_are_the_steps_of_a_figures_id(guide: Audited) -> None:
    """The files of claims do not say an id once more: their other columns are it."""
    data = guide.site.folder / "data"
    with (data / "claims.csv").open(encoding="utf-8", newline="") as file:
        told = [
            ("/".join(filter(None, (row["report"], row["claim"], row["level"], row["name"]))), row["value"])
            for row in csv.DictReader(file)
            if row["name"]
        ]
    assert told
    assert [name for name, value in told if guide.rows[name]["value"] != value] == []
    nested = json.loads((data / "claims.json").read_text("utf-8"))["claims"]
    assert told == [
        ("/".join(filter(None, (claim["report"], claim["claim"], claim["level"], name))), figure[0])
        for claim in nested
        for name, figure in claim["figures"].items()
    ]


def test_a_unit_is_of_the_closed_list(guide: Audited) -> None:
    assert {row["unit"] for row in guide.lines} <= UNITS


def test_a_value_is_a_plain_decimal_with_its_leading_zero(guide: Audited) -> None:
    assert [row["id"] for row in guide.lines if not re.fullmatch(r"-?\d+(\.\d+)?", row["value"])] == []


def test_quoted_figures_alone_have_a_proof_and_a_place_where_they_are_written(guide: Audited) -> None:
    for row in guide.lines:
        assert row["kind"] == ("quoted" if row["proof"] else "computed"), row["id"]
        assert (row["proof"] is None) == (row["written_in"] is None), row["id"]


def test_a_proof_points_at_the_first_character_of_its_number(guide: Audited) -> None:
    quoted = [row for row in guide.lines if row["proof"]]
    assert [row["id"] for row in quoted if leading_number(guide.line(row["proof"])) != Decimal(row["value"])] == []
    for row in quoted:
        column = row["proof"]["column"]
        before = guide.line({**row["proof"], "column": 1})[: column - 1]
        assert not re.search(r"[\d.]$", before), row["id"]


def test_the_passage_of_a_proof_holds_its_number(guide: Audited) -> None:
    def number(text: str) -> str:
        return re.match(r"[-−]?[\w.,{}]*\w", text)[0]  # type: ignore[index]

    quoted = [row for row in guide.lines if row["proof"]]
    assert [row["id"] for row in quoted if number(guide.line(row["proof"])) not in row["proof"]["passage"]] == []


def test_written_in_points_at_the_value_in_the_claim_file(guide: Audited) -> None:
    opening = re.compile(r"[\"']?\s*(?:under |up to |over |from |at least |[<>]=?|[≤≥])?\s*")
    wrong = []
    for row in guide.lines:
        if row["written_in"]:
            text = guide.line(row["written_in"])
            if leading_number(text[opening.match(text).end() :]) != Decimal(row["value"]):  # type: ignore[union-attr]
                wrong.append((row["id"], text[:20]))
    assert wrong == []


def test_what_a_figure_was_derived_from_has_rows_too(guide: Audited) -> None:
    assert [row["id"] for row in guide.lines if set(row["derived_from"]) - set(guide.rows)] == []


def test_a_computed_figure_is_named_by_question_and_factor_and_says_its_formula(guide: Audited) -> None:
    for row in guide.lines:
        if row["kind"] == "computed":
            question, factor, *name = row["id"].split("/")
            page = f"{question}/index.html" if factor == "overall" else f"{question}/{factor}/index.html"
            assert name, row["id"]
            assert page in guide.site.pages, row["id"]
            assert row["formula"], row["id"]


def test_a_mark_on_a_page_is_its_row(guide: Audited) -> None:
    def differs(path: str, mark: Mark, row: Row) -> bool:
        is_value = mark.tag != "data" or mark.value == row.get("value")
        return row.get("text") != mark.text or not is_value or path not in row["shown_on"]

    assert faults(guide, differs) == []


def test_a_row_names_exactly_the_pages_that_show_it(guide: Audited) -> None:
    shown: dict[str, set[str]] = {}
    drawn = {
        file.relative_to(guide.site.folder).as_posix(): Marks(file.read_text("utf-8")).found
        for file in (guide.site.folder / "data" / "plots").glob("*.svg")
    }
    for path, marks in {**guide.marks, **drawn}.items():
        for mark in marks:
            shown.setdefault(mark.id, set()).add(path)
    for path, names in sheets_in(guide.site.folder).items():
        for name in names:
            shown.setdefault(name, set()).add(path)
    for path, made in slides_in(guide.site.folder).items():
        for name in made.listed:
            shown.setdefault(name, set()).add(path)
    assert {row["id"]: set(row["shown_on"]) for row in guide.lines} == shown


def test_a_quoted_figure_links_to_its_own_passage(guide: Audited) -> None:
    def astray(path: str, mark: Mark, row: Row) -> bool:
        if row["kind"] != "quoted":
            return False
        if mark.href is None:
            return not (guide.site.pages[path].body["data-page"] == "source" and "passage" in mark.classes)
        target, _, anchor = mark.href.partition("#")
        page = guide.site.resolved(path, target) if target else path
        return page != f"sources/{row['proof']['source']}/index.html" or anchor not in guide.site.pages[page].ids

    assert faults(guide, astray) == []


def test_a_computed_figure_links_to_workings_on_its_page_or_stands_in_them(guide: Audited) -> None:
    def astray(path: str, mark: Mark, row: Row) -> bool:
        if row["kind"] != "computed":
            return False
        if mark.href is None:
            return not any(name.startswith("workings-") for name in mark.ids)
        return not mark.href.startswith("#workings-") or mark.href[1:] not in guide.site.pages[path].ids

    assert faults(guide, astray) == []


def test_no_figure_stands_where_a_reader_cannot_tap_it(guide: Audited) -> None:
    assert faults(guide, lambda path, mark, row: bool(mark.tags & QUIET_PLACES)) == []
