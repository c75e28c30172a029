"""What the demonstration must hold of honest synthesis, and that its answers do not hang on how it was typed."""

from __future__ import annotations

import re
import shutil
from html import unescape
from pathlib import Path

import pytest
from demo import before_demo, demo_built, demo_evidence
from passageproof.audit.whole import audit
from passageproof.build import Built
from passageproof.guide.question.over_time import rates_by_outcome
from passageproof.guide.sections.compared_levels import comparisons, leading
from passageproof.guide.sections.level_rates import level_rates
from passageproof.guide.sections.ratio_pools import ratio_pools
from passageproof.results.findings.findings import Catalogue

ROOT = Path(__file__).parent.parent.parent


@pytest.fixture(scope="module")
def demo() -> Built:
    return demo_built()


def told(demo: Built, address: str) -> str:
    """A page as it is read aloud: its text without marks."""
    text = demo.files[f"{address}/index.md"]
    return re.sub(r"\s+", " ", unescape(re.sub(r"<[^>]+>", "", text)))


def test_one_factor_is_pooled(demo):
    text = told(demo, "root-perforation/hole-size")
    assert re.search(r"the typical study: odds ratio 0\.\d+ \(95% CI 0\.\d+ to 0\.\d+\), 5 studies; tau \d", text)
    assert "over 3 mm: the typical study: 67.0%" in text


def test_one_factor_is_refused_for_definitions(demo):
    text = told(demo, "root-perforation/site-probing")
    assert "the typical study" not in text
    assert (
        "Between these tables: not pooled: they count different things; one definition is stricter than the other"
        in text
    )


def test_one_factor_is_refused_for_overlap(demo):
    text = told(demo, "root-perforation/hole-place")
    assert "the typical study" not in text
    assert re.search(r"not pooled: [^.]*some reports are about the same patients", text)


def test_one_factor_is_refused_for_too_few_studies(demo):
    text = told(demo, "root-perforation/bleeding-control")
    assert "the typical study" not in text
    assert "not pooled: fewer than five studies agree on what they count; 2 studies at 24 months: " in text


def test_a_further_study_may_point_either_way_though_the_studies_pool(demo):
    text = told(demo, "root-perforation/site-lesion")
    found = re.search(
        r"a further study would lie between (\d\.\d+) and (\d+\.\d+) \(95% prediction interval\), on both sides", text
    )
    assert found is not None
    assert float(found[1]) < 1 < float(found[2])


@pytest.mark.parametrize(
    ("page", "words"),
    [
        (
            "hole-size",
            "stays healed once healed: 71% still so (95% CI 57% to 81%), 85 teeth at the start, 29 still at risk",
        ),
        ("over-time", "71% still so (95% CI 57% to 81%), 85 teeth at the start, 29 still at risk"),
        (
            "patient",
            "In one study of 85 teeth, about 71 of every 100: stays healed once healed; 29 of every 100 not so.",
        ),
    ],
)
def test_healing_that_longer_follow_up_took_back_stands_wherever_it_was_shown(demo, page, words):
    assert words in told(demo, f"root-perforation/{page}")


def test_a_pooled_rate_is_called_that_of_the_typical_study_with_tau_and_no_limits_of_it(demo):
    text = told(demo, "root-perforation/over-time")
    assert "at 24 months, the typical study: " in text
    assert "tau 0.00 (on the logit scale; this model gives no limits for it)" in text
    assert "(deceptively narrow: no variation between the studies was seen)" in text


def test_the_ledgers_of_rates_factors_and_comparisons_are_apart(demo):
    assert "Ledger of a rate: healed at the site, at 24 months" in told(demo, "root-perforation/over-time")
    assert "Ledger of a prognostic factor: over 3 mm" in told(demo, "root-perforation/hole-size")
    assert "Ledger of a comparison of treatments: partial pulp" in told(demo, "exposed-pulp/pulp-treatment")
    assert "Ledger of a rate" not in told(demo, "root-perforation/hole-size")


def test_computed_hints_stand_beside_the_ledgers(demo):
    text = told(demo, "root-perforation/over-time")
    assert "Counted beside it, and deciding nothing: 95% CI 77.4% to 87.8%" in text
    assert "the interval crosses the threshold of 80%" in text
    text = told(demo, "root-perforation/hole-size")
    assert (
        "Counted beside it, and deciding nothing: fewer healed at the site in 6 of 6 studies that state a side; 4 of them"
        in text
    )


def test_a_hole_that_came_while_a_fragment_was_treated_is_no_ending_of_teeth_that_had_one(demo):
    # Prognosis is of people who have the condition: Iorio et al. 2015, BMJ 350:h870 (population, from memory).
    for page in ("over-time", "conference"):
        assert "root perforated" not in told(demo, f"root-perforation/{page}")
    assert "root perforated" in told(demo, "broken-instrument/over-time")


def test_a_pool_stands_with_what_its_reader_noted_of_it(demo):
    # A pool that still holds a withdrawn trial: Avenell et al. 2019, BMJ Open 9:e031909 (from memory).
    text = told(demo, "exposed-pulp/pulp-treatment")
    assert "; note: the pool still holds a trial that had been withdrawn before the review was written" in text


def test_the_numbers_needed_stand_with_treatments_and_nowhere_else(demo):
    assert demo.guide is not None
    roles = {name: factor.role.text for name, factor in demo_evidence().vocabulary.factors.items() if factor.role}
    having = {
        page.address.split("/")[1]
        for page in demo.guide.pages
        if page.kind == "factor" and "needed to treat" in told(demo, page.address.rstrip("/"))
    }
    assert {"pulp-treatment", "fragment-plan"} <= having
    assert {roles[factor] for factor in having} == {"treatment"}


def test_teeth_that_outnumber_patients_are_told_with_their_design_effect(demo):
    # 1 + (m - 1) × 0.1 with m = 118 / 109: 1.0083 (Kish 1965; recomputed by hand).
    text = told(demo, "root-perforation/over-time")
    assert (
        "Aalbek 2011: 118 teeth in 109 patients; if the teeth of a patient were alike by 0.1, which is assumed" in text
    )
    assert "the design effect is 1.01" in text
    assert "there a design effect is not computable" in text


def numbers(root: Path) -> dict[str, str]:
    """Every pooled number and count of directions of an evidence, by what it is of and never by a report's name."""
    evidence = demo_evidence(root)
    catalogue = Catalogue(evidence, audit(evidence, before_demo(root).proved))
    out: dict[str, str] = {}

    def add(figures: dict) -> None:
        out.update({figure.id: figure.value for figure in figures.values()})

    for question in evidence.questions.values():
        for row in rates_by_outcome(catalogue, question):
            for pool in row.pools:
                add(pool.figures)
        for factor in evidence.vocabulary.factors:
            for row in level_rates(catalogue, question, factor):
                add(row.pool.figures)
            items = comparisons(catalogue, question, factor)
            lead = leading(question, items)
            for item in items:
                pools = ratio_pools(catalogue, question, item, item is lead)
                add(pools.crude.figures)
                add(pools.adjusted.figures)
                ways = [side.direction for side in item.sides]
                out[f"{question.id} {item.factor} {item.name}"] = " ".join(sorted(ways))
    return out


@pytest.fixture(scope="module")
def as_typed() -> dict[str, str]:
    return numbers(ROOT)


@pytest.fixture
def copy(tmp_path) -> Path:
    shutil.copytree(ROOT / "evidence", tmp_path / "evidence")
    return tmp_path


def test_the_demo_has_numbers_to_compare(as_typed):
    assert len(as_typed) > 200


def test_claims_in_another_order_give_the_same_answers(as_typed, copy):
    moved = 0
    for file in sorted((copy / "evidence/claims").glob("*.yaml")):
        head, name, claims = file.read_text("utf-8").partition("\nclaims:\n")
        if name:
            items = [item for item in re.split(r"(?m)^(?=  - id: )", claims) if item.strip()]
            items = [item if item.endswith("\n") else f"{item}\n" for item in items]
            if all(item.startswith("  - id: ") for item in items):
                moved += len(items) > 1
                file.write_text(head + name + "".join(reversed(items)), "utf-8")
    assert moved > 20
    assert numbers(copy) == as_typed


def test_sources_in_another_order_give_the_same_answers(as_typed, copy):
    for file in (copy / "evidence/sources").glob("*.bib"):
        entries = re.split(r"(?m)^(?=@)", file.read_text("utf-8"))
        file.write_text(entries[0] + "".join(f"{entry.rstrip()}\n\n" for entry in reversed(entries[1:])), "utf-8")
    assert numbers(copy) == as_typed


REPORTS = ("bramwick2014size", "cavendell2016repair", "ehlvik2019teaching", "vontrelde2017kept")


@pytest.mark.parametrize("key", REPORTS)
def test_a_report_under_another_name_gives_the_same_answers(as_typed, copy, key):
    for file in (copy / "evidence").rglob("*.*"):
        text = file.read_text("utf-8")
        if key in text:
            file.write_text(text.replace(key, f"zz{key}"), "utf-8")
    old = copy / f"evidence/claims/{key}.yaml"
    old.rename(old.with_name(f"zz{key}.yaml"))
    assert numbers(copy) == as_typed


@pytest.mark.parametrize("key", REPORTS)
def test_a_report_typed_twice_counts_once(as_typed, copy, key):
    claims = (copy / f"evidence/claims/{key}.yaml").read_text("utf-8")
    (copy / f"evidence/claims/zz{key}.yaml").write_text(claims.replace(f"source: {key}", f"source: zz{key}"), "utf-8")
    for file in (copy / "evidence/sources").glob("*.bib"):
        for entry in re.split(r"(?m)^(?=@)", file.read_text("utf-8")):
            if re.match(rf"@\w+\{{{key},", entry):
                again = entry.replace(f"{{{key},", f"{{zz{key},", 1)
                file.write_text(f"{file.read_text('utf-8').rstrip()}\n\n{again}", "utf-8")
    assert numbers(copy) == as_typed
