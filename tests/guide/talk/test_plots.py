"""Plots to take along say what the page they are from says, and nothing else."""

from __future__ import annotations

import json
import re

from demo import demo_built
from passageproof.results.values.document import StudyRows, figures_of, walk
from passageproof.results.values.drawings import TimePlot
from passageproof.results.values.figures import Figure
from passageproof.results.values.line import plain_text
from passageproof.results.values.plots import PlotToTake


def demo_plots() -> dict[str, PlotToTake]:
    guide = demo_built().guide
    assert guide is not None
    return dict(guide.plots)


def test_every_question_has_its_rates_over_time_and_its_factors() -> None:
    names = list(demo_plots())
    for question in ("broken-instrument", "exposed-pulp", "root-perforation"):
        assert f"{question}.over-time" in names
    assert "root-perforation.hole-size" in names


def test_every_number_of_a_plot_stands_on_its_page() -> None:
    guide = demo_built().guide
    assert guide is not None
    for plot in demo_plots().values():
        on_page = {figure.id for figure in figures_of(guide.pages[plot.page])}
        mine = {item.id for item in walk(plot) if isinstance(item, Figure)}
        assert mine, plot.name
        assert mine <= on_page, plot.name


def test_rows_are_those_of_the_page() -> None:
    guide = demo_built().guide
    assert guide is not None
    for plot in demo_plots().values():
        found = list(walk(guide.pages[plot.page].blocks))
        if isinstance(plot.drawn, TimePlot):
            assert plot.drawn in found
            continue
        shown = [block for block in found if isinstance(block, StudyRows)]
        names = [[(row.name, row.first, row.said) for row in block.rows] for block in shown]
        assert [(row.name, row.first, row.said) for row in plot.drawn.rows] in names, plot.name


def test_a_caption_says_how_sure_what_was_counted_and_no_cause() -> None:
    for plot in demo_plots().values():
        said = " ".join(plain_text(part) for part in plot.caption)
        assert re.search(r"Certainty: (high|moderate|low|very low|not judged yet)|How sure: not judged yet", said), said
        assert "Counted: " in said
        if isinstance(plot.drawn, StudyRows):
            assert "does not prove" in said
        else:
            assert "An early rate promises no late one" in said


def test_a_citation_names_release_day_and_page() -> None:
    for plot in demo_plots().values():
        cited = plain_text(plot.citation)
        assert "Release 1.0.0" in cited
        assert re.search(r"evidence to 2026-\d\d-\d\d", cited)
        assert plot.page in cited


def test_the_ledger_lists_each_drawing_for_its_numbers() -> None:
    built = demo_built()
    listed: dict[str, set[str]] = {}
    for row in map(json.loads, built.files["data/figures.jsonl"].splitlines()):
        for path in row["shown_on"]:
            if path.startswith("data/plots/"):
                listed.setdefault(path, set()).add(row["id"])
    for name in demo_plots():
        path = f"data/plots/{name}.svg"
        assert listed.pop(path) == set(re.findall(r'data-figure="([^"]+)"', built.files[path])), path
    assert not listed


def test_files_come_in_both_kinds_and_the_mark_is_in_each_drawing() -> None:
    files = demo_built().files
    for name in demo_plots():
        assert "invented for demonstration" in files[f"data/plots/{name}.svg"]
        assert f"data/plots/{name}.png" in files
    picture = b"".join(files.pieces("data/plots/root-perforation.hole-size.png"))
    assert picture.startswith(b"\x89PNG")
    assert picture == files["data/plots/root-perforation.hole-size.png"].encode("utf-8", "surrogateescape")
