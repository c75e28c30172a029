"""The numbers behind every computed one, to recompute it."""

from __future__ import annotations

import csv
import io
from functools import cache
from pathlib import Path

import pytest
from demo import demo_built
from passageproof.build import Built
from passageproof.results.values.document import WorkingsSection, figures_of, walk
from passageproof.synthesis import loss_bounds, sign_test, wilson_interval

ROOT = Path(__file__).parent.parent.parent


@pytest.fixture(scope="module")
def demo() -> Built:
    built = demo_built()
    assert built.guide is not None
    return built


def rows_of(demo: Built, path: str) -> list[dict[str, str]]:
    """Rows of a table; of one that tells of itself in rows each result with the workings above it."""
    return _rows_of(demo.files[path])


@cache
def _rows_of(text: str) -> list[dict[str, str]]:
    rows = list(csv.DictReader(io.StringIO(text)))
    above = ""
    for row in rows:
        if row.get("part") == "result":
            assert row["workings"] == ""
            row["workings"] = above
        above = row.get("workings") or above
    return rows


def results(demo: Built, path: str) -> dict[str, dict[str, str]]:
    return {row["figure"]: row for row in rows_of(demo, path) if row["part"] == "result"}


def values_of(demo: Built, path: str) -> dict[str, str]:
    """Value of each row, by the number that other rows name it by."""
    return {row["row"]: row["value"] for row in rows_of(demo, path) if row["row"]}


def workings(demo: Built):
    assert demo.guide is not None
    for page in demo.guide.pages:
        for item in walk(page.blocks):
            if isinstance(item, WorkingsSection):
                yield from ((page, working) for working in item.workings)


def test_every_workings_has_a_csv_and_each_of_them_is_published(demo):
    missing = {working.name for _, working in workings(demo) if working.download not in demo.files}
    assert missing == set()


def test_every_computed_figure_of_a_page_stands_in_its_workings_or_in_their_file(demo):
    assert demo.guide is not None
    explained: dict[str, dict[str, str]] = {}
    listed: dict[str, set[str]] = {}

    @cache
    def held(download: str) -> set[str]:
        return {row["figure"] for row in rows_of(demo, download)}

    for page, working in workings(demo):
        explained.setdefault(page.address, {})[working.name] = working.download
        listed.setdefault(page.address, set()).update(figure.id for _, figure in working.results)
    for page in demo.guide.pages:
        shown = [figure for figure in figures_of(page) if not figure.is_quoted]
        for figure in shown:
            download = explained[page.address][figure.workings]
            if download.endswith("numbers.csv"):
                assert figure.id in listed[page.address] or figure.id in held(download), page.address
            else:
                # A pool has a table of its own, from which whoever wants to recomputes it.
                assert len(rows_of(demo, download)) > 1, page.address


def test_numbers_that_stand_on_a_page_are_not_sent_again_with_its_workings(demo):
    many = [working for _, working in workings(demo) if working.name == "root-perforation-differences"]
    assert many
    for working in many:
        assert working.results == ()
        assert working.are_results_above


def test_every_input_and_result_of_a_page_stands_unrounded_in_the_csv(demo):
    @cache
    def values(download: str) -> dict[str, str]:
        return {row["figure"]: row["value"] for row in rows_of(demo, download)}

    for page, working in workings(demo):
        if working.download.endswith("numbers.csv"):
            rows = values(working.download)
            for figure in (*working.inputs, *(item for _, item in working.results)):
                assert rows[figure.id] == (figure.unrounded or figure.value), page.address


def test_the_mark_of_the_demonstration_stands_in_every_table(demo):
    """In the first row, and once: the file is what is passed on."""
    mark = "invented for demonstration"
    for path in demo.files:
        if path.startswith("data/workings/"):
            rows = rows_of(demo, path)
            if path.endswith("/numbers.csv"):
                told = {name: text for name, text in rows[0].items() if text}
                assert told == {"part": "note", "what": mark}, path
            else:
                assert [row["note"] for row in rows] == [mark, *[""] * (len(rows) - 1)], path


def test_each_number_of_a_question_stands_in_one_row_and_is_named_by_it(demo):
    for path in (path for path in demo.files if path.endswith("/numbers.csv")):
        rows = rows_of(demo, path)
        held = [row["figure"] for row in rows if row["figure"]]
        assert len(held) == len(set(held)), path
        numbers = [row["row"] for row in rows if row["row"]]
        assert numbers == [str(number) for number in range(1, len(held) + 1)], path
        assert {name for row in rows for name in row["computed_from"].split()} <= set(numbers), path


def test_a_long_formula_stands_in_its_table_behind_the_name_that_the_ledger_has_for_it(demo):
    named = {working.name: working for _, working in workings(demo) if working.called}
    assert {working.called for working in named.values()} >= {"score limits", "limits of the difference"}
    for name, working in named.items():
        rows = [row for row in rows_of(demo, working.download) if row["workings"] == name]
        assert [row["what"] for row in rows if row["part"] == "formula"] == [f"{working.called}: {working.formula}"]
        results = [row["figure"] for row in rows if row["part"] == "result"]
        assert {demo.guide.figures[figure].formula for figure in results} == {working.called}, name


def test_no_column_of_a_table_stands_twice(demo):
    for path in demo.files:
        if path.startswith("data/workings/"):
            names = demo.files[path].split("\n", 1)[0].split(",")
            assert len(names) == len(set(names)), path


def test_score_limits_follow_from_their_own_csv(demo):
    # Wilson 1927; the two counts that a limit names are all that it needs.
    path = "data/workings/root-perforation/numbers.csv"
    found = results(demo, path)
    values = values_of(demo, path)
    lows = {name: row for name, row in found.items() if name.endswith("-wilson-low")}
    assert lows
    for name, row in lows.items():
        events, total = (int(values[number]) for number in row["computed_from"].split())
        limits = wilson_interval(events, total)
        assert float(row["value"]) == pytest.approx(100 * limits.low, rel=1e-9), name


def test_loss_bounds_follow_from_their_own_csv(demo):
    path = "data/workings/root-perforation/numbers.csv"
    values = values_of(demo, path)
    # A result that names no row comes from all that its formula names.
    formulas = {row["workings"]: row["computed_from"] for row in rows_of(demo, path) if row["part"] == "formula"}
    highs = {name: row for name, row in results(demo, path).items() if name.endswith("-bounds-high")}
    assert highs
    for name, row in highs.items():
        named = row["computed_from"] or formulas[row["workings"]]
        events, examined, due, *failed = (int(values[number]) for number in named.split())
        known = examined + sum(failed)
        assert float(row["value"]) == pytest.approx(100 * loss_bounds(events, known, due).high, rel=1e-9), name


def test_the_count_of_directions_follows_from_its_csv(demo):
    found = results(demo, "data/workings/root-perforation/numbers.csv")
    worse = found["root-perforation/hole-size/worse-large-site-healed-strict"]
    tested = found["root-perforation/hole-size/sign-test-large-site-healed-strict"]
    # Exact two-sided binomial at one half: 6 of 6 gives 2 / 64.
    assert float(tested["value"]) == pytest.approx(sign_test(0, int(worse["value"])))
    assert float(tested["value"]) == pytest.approx(2 / 64)


def test_a_pool_has_a_table_that_other_programs_read_as_it_is(demo):
    rows = rows_of(demo, "data/workings/root-perforation-hole-size-main-ratios.csv")
    assert list(rows[0])[2:6] == ["events", "total", "reference_events", "reference_total"]
    assert len(rows) >= 5


def test_the_pages_of_a_question_show_the_same_difference_and_share_its_row(demo):
    assert demo.guide is not None
    shown: dict[str, set[str]] = {}
    for address in demo.guide.pages.heads:
        for figure in demo.guide.pages.figures(address):
            if figure.workings == "root-perforation-differences":
                shown.setdefault(figure.id, set()).add(address)
    assert any({"root-perforation/", "root-perforation/hole-size/"} <= pages for pages in shown.values())
    for _, working in workings(demo):
        if working.name.endswith("-differences"):
            assert working.download == f"data/workings/{working.name.removesuffix('-differences')}/numbers.csv"


def test_a_page_lists_of_shared_workings_the_inputs_of_its_own_results_alone(demo):
    for page, working in workings(demo):
        if working.is_each_told:
            own = [figure for figure in figures_of(page) if figure.workings == working.name]
            needed = {name for figure in own for name in figure.derived_from}
            assert {figure.id for figure in working.inputs} <= needed, (page.address, working.name)


def test_a_count_of_studies_comes_from_those_it_counts_and_their_sum_from_the_counts(demo):
    assert demo.guide is not None
    figures = demo.guide.figures
    stem, item = "root-perforation/hole-size/", "large-site-healed-strict"
    stated = figures[f"{stem}stated-{item}"]
    assert stated.derived_from == (f"{stem}worse-{item}",)
    assert figures[f"{stem}sign-test-{item}"].derived_from == (f"{stem}worse-{item}",)
    assert set(figures[f"{stem}clear-{item}"].derived_from) < set(figures[f"{stem}worse-{item}"].derived_from)
    assert figures["root-perforation/hole-size/comparisons-clear"].derived_from


def test_how_many_would_look_clear_by_chance_comes_from_how_many_there_are(demo):
    assert demo.guide is not None
    expected = demo.guide.figures["root-perforation/overall/clear-by-chance"]
    assert expected.derived_from == ("root-perforation/overall/comparisons",)
