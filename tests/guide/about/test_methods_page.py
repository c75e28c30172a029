"""The page about methods: its limits are those of the code, and it says what is left alone."""

from __future__ import annotations

import re

from guide.compendium import catalogue_of, figures, nothing_named, said
from passageproof.guide.about.methods_page import methods_page
from passageproof.guide.about.methods_table import COMPUTED, NOT_COMPUTED
from passageproof.results.findings.comparable import SHOWN_FROM_FAILURES, SHOWN_FROM_STUDIES, WORKED_FROM_STUDIES
from passageproof.results.saying.marking import marked_words, with_basis
from passageproof.results.values.document import Details, Section, walk
from passageproof.results.values.line import Link

PAGE = methods_page(catalogue_of({}), nothing_named)


def section(anchor: str) -> str:
    return said(next(block for block in PAGE.blocks if isinstance(block, Details) and block.anchor == anchor))


def test_pooling_limits_are_those_that_the_code_uses() -> None:
    text = section("pooling")
    assert f"From {SHOWN_FROM_STUDIES} studies and {SHOWN_FROM_FAILURES} failures" in text
    assert f"down to {WORKED_FROM_STUDIES}" in text


def test_each_line_of_the_answer_leads_to_its_part() -> None:
    short = next(block for block in PAGE.blocks if isinstance(block, Section))
    targets = [part.target for part in walk(short.blocks) if isinstance(part, Link)]
    assert len(targets) == 6
    assert {target[1:] for target in targets} <= {block.anchor for block in PAGE.blocks if isinstance(block, Details)}


def test_table_of_methods_states_the_same_limits() -> None:
    rate = next(method for method in COMPUTED if method.what == "Pooled rate")
    assert re.findall(r"\d+", rate.when) == [
        str(SHOWN_FROM_STUDIES), str(SHOWN_FROM_FAILURES), str(WORKED_FROM_STUDIES),
    ]  # fmt: skip


def test_every_method_names_its_publication() -> None:
    for method in COMPUTED:
        assert re.search(r"(19|20)\d\d|Cochrane Handbook", method.published), method.what


def test_what_is_refused_on_principle_is_named_with_its_reason() -> None:
    text = " ".join(what for what, why, _ in NOT_COMPUTED if why)
    for refused in ("product", "personal percentage", "number needed to treat", "P values", "double arcsine"):
        assert refused in text


def test_page_states_no_figure_of_the_evidence() -> None:
    assert not figures(PAGE.blocks)


def test_number_in_our_own_words_is_marked_without_its_stop() -> None:
    assert [part if isinstance(part, str) else (part.kind, part.text) for part in marked_words("from 5 (or 10).")] == [
        "from ", ("convention", "5"), " (or ", ("convention", "10"), ").",
    ]  # fmt: skip


def test_basis_of_a_rule_is_marked_as_a_reference() -> None:
    parts = with_basis("Above 100 it is silent. Basis: Wilson 1927, J Am Stat Assoc 22:209-212.")
    assert [part.kind for part in parts if not isinstance(part, str)] == ["convention", "reference"]
