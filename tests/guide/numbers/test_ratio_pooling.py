"""Pooled ratios: crude ones from counts, adjusted ones as reported, never mixed."""

from __future__ import annotations

import math

import pytest
from guide.cohorts import at, by_size, catalogue, ratio
from guide.compendium import said
from passageproof.guide.factor.ratios import drawn_ratio
from passageproof.results.findings.direction import compared
from passageproof.results.findings.findings import Catalogue
from passageproof.results.numbers.ratio_pool_lines import ratio_pool_line
from passageproof.results.numbers.ratio_pooling import RatioPool, crude_rows, ratio_pool, reported_rows
from passageproof.results.saying.wording import contrast

# BCG against tuberculosis, thirteen trials: Colditz et al. 1994, JAMA 271:698-702 (metadat dat.bcg); log odds ratio by
# REML -0.7452, tau squared 0.3378 (metafor 3.8-1, as stored in tests/synthesis/reference/two_arm_pooling.json).
BCG = (
    ((4, 123), (11, 139)), ((6, 306), (29, 303)), ((3, 231), (11, 220)), ((62, 13598), (248, 12867)),
    ((33, 5069), (47, 5808)), ((180, 1541), (372, 1451)), ((8, 2545), (10, 629)), ((505, 88391), (499, 88391)),
    ((29, 7499), (45, 7277)), ((17, 1716), (65, 1665)), ((186, 50634), (141, 27338)), ((5, 2498), (3, 2341)),
    ((27, 16913), (29, 17854)),
)  # fmt: skip


def sides(made: Catalogue):
    (found,) = compared(made, "hole", "size", "large")
    return found


def crude(made: Catalogue) -> RatioPool:
    return ratio_pool(made, "hole/size", "", "Crude", crude_rows(made, sides(made).crude))


def adjusted(made: Catalogue) -> RatioPool:
    return ratio_pool(made, "hole/size", "adjusted", "Adjusted", reported_rows(made, sides(made).adjusted))


def tables(*pairs: tuple[tuple[int, int], tuple[int, int]]) -> Catalogue:
    return catalogue(*(by_size(f"arden{2001 + index}", *pair) for index, pair in enumerate(pairs)))


def test_thirteen_trials_pool_as_published():
    pool = crude(tables(*BCG))
    assert pool.is_shown
    assert math.log(float(pool.figures["pooled"].value)) == pytest.approx(-0.7452, abs=0.011)
    full = float(pool.figures["tau"].value)
    assert full**2 == pytest.approx(0.3378, abs=0.006)


def test_the_unrounded_ratio_is_that_of_the_reference():
    made = tables(*BCG)
    crude(made)
    full = made.book.get("hole/size/pooled")
    assert full is not None
    assert math.log(float(full.unrounded)) == pytest.approx(-0.745177770843696, abs=1e-7)


def test_an_empty_cell_is_pooled_by_mantel_haenszel_without_correction():
    # Mantel-Haenszel: sum(ad / n) over sum(bc / n), worked by hand.
    pairs = (((0, 10), (2, 20)), ((5, 20), (10, 20)), ((6, 20), (9, 20)), ((4, 20), (9, 20)), ((5, 20), (8, 20)))
    above = sum(a * (m - c) / (n + m) for (a, n), (c, m) in pairs)
    below = sum((n - a) * c / (n + m) for (a, n), (c, m) in pairs)
    pool = crude(tables(*pairs))
    assert pool.figures["pooled"].text == f"{above / below:.2f}"


def test_four_studies_stand_side_by_side():
    pool = crude(tables(*(((10, 20), (15, 20)),) * 4))
    assert not pool.is_shown
    assert said(ratio_pool_line(pool)).startswith("not pooled: fewer than five studies agree on what they compare")


def test_weights_stand_only_where_something_is_pooled():
    assert crude(tables(*(((10, 20), (15, 20)),) * 4)).weights == ()
    assert sum(crude(tables(*(((10, 20), (15, 20)),) * 5)).weights) == pytest.approx(1)


def test_fewer_than_ten_failures_show_no_pool():
    pool = crude(tables(*(((19, 20), (19, 20)),) * 3, *(((20, 20), (19, 20)),) * 2))
    assert pool.reasons == ("fewer than ten failures",)


def test_another_cut_is_another_level():
    other = {name: text.replace("3 mm", "2 mm") for name, text in by_size("elgin2015", (10, 20), (15, 20)).items()}
    files = [by_size(f"arden{2001 + index}", (10, 20), (15, 20)) for index in range(4)]
    pool = crude(catalogue(*files, other))
    assert len(pool.rows) == 4


ADJUSTED = (
    ("0.4", "0.2 to 0.8"), ("0.5", "0.25 to 1.0"), ("0.6", "0.3 to 1.2"), ("0.7", "0.35 to 1.4"), ("0.8", "0.4 to 1.6"),
)  # fmt: skip


def reported(count: int) -> list[dict[str, str]]:
    return [
        ratio(
            f"arden{2001 + index}", "odds ratio", "healed, good", value, adjusted="[age]", time=at(),
            more=f", interval: {interval}", printed=f" ({interval})",
        )
        for index, (value, interval) in enumerate(ADJUSTED[:count])
    ]  # fmt: skip


def test_five_adjusted_ratios_with_one_adjustment_pool():
    assert adjusted(catalogue(*reported(5))).is_shown


def test_another_adjustment_bars_the_pool():
    last = ratio(
        "elgin2015", "odds ratio", "healed, good", "0.8", adjusted="[age, crown]", time=at(),
        more=", interval: 0.4 to 1.6", printed=" (0.4 to 1.6)",
    )  # fmt: skip
    pool = adjusted(catalogue(*reported(4), last))
    assert not pool.is_shown
    assert len(pool.rows) == 4


def test_printed_with_one_decimal_is_shown_with_one():
    printed = (
        ("2.8", "1.4 to 5.6"),
        ("2.9", "1.4 to 5.8"),
        ("3.1", "1.6 to 6.2"),
        ("3.0", "1.5 to 6.0"),
        ("3.2", "1.6 to 6.4"),
    )
    files = [
        ratio(
            f"arden{2001 + index}", "hazard ratio", "failed, bad", value, adjusted="[age]", time=at(),
            more=f", interval: {interval}", printed=f" ({interval})",
        )
        for index, (value, interval) in enumerate(printed)
    ]  # fmt: skip
    assert adjusted(catalogue(*files)).figures["pooled"].text == "3.0"


def test_a_selected_series_gives_no_ratio():
    files = {
        name: text.replace("consecutive", "selected") for name, text in by_size("arden2001", (10, 20), (15, 20)).items()
    }
    assert crude(catalogue(files)).rows == ()


@pytest.mark.parametrize("level", ["99%", "90%", "not reported"])
def test_an_interval_of_another_level_is_shown_with_it_and_never_pooled_or_drawn(level: str):
    printed = "(0.4 to 1.6)" if level == "not reported" else f"({level} CI 0.4 to 1.6)"
    last = ratio(
        "elgin2015", "odds ratio", "healed, good", "0.8", adjusted="[age]", time=at(),
        more=f", interval: 0.4 to 1.6, confidence: {level}", printed=f" {printed}",
    )  # fmt: skip
    made = catalogue(*reported(4), last)
    pool = adjusted(made)
    assert not pool.is_shown
    assert len(pool.rows) == 4
    (found,) = (finding for finding in made.findings if finding.key == "elgin2015")
    assert found.limits("contrast/interval") is None
    assert drawn_ratio(found) is None
    wanted = "CI at a level not reported, 0.4 to 1.6" if level == "not reported" else f"{level} CI 0.4 to 1.6"
    assert f"({wanted})" in said(contrast(found))
