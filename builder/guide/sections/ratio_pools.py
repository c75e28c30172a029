"""The two pools of ratios that one comparison may have: crude ones from counts, reported adjusted ones."""

from __future__ import annotations

from ...reading.model import Question
from ...records import NamedTuple
from ...results.findings.direction import Compared
from ...results.findings.findings import Catalogue
from ...results.numbers.ratio_pooling import RatioPool, crude_rows, ratio_pool, reported_rows
from .compared_levels import compared_title


class RatioPools(NamedTuple):
    """The two pools of one comparison."""

    item: Compared
    crude: RatioPool
    crude_suffix: str
    adjusted: RatioPool
    adjusted_suffix: str


def ratio_pools(catalogue: Catalogue, question: Question, item: Compared, is_leading: bool) -> RatioPools:
    """Crude ratios from counts, and reported adjusted ones apart.

    is_leading: this comparison's results are the ones that prose names.
    """
    return catalogue.once(
        ("ratio pools", question.id, item.factor, item.name, str(is_leading)),
        lambda: _ratio_pools(catalogue, question, item, is_leading),
    )


def _ratio_pools(catalogue: Catalogue, question: Question, item: Compared, is_leading: bool) -> RatioPools:
    place = f"{question.id}/{item.factor}"
    name = item.name
    crude_suffix = "" if is_leading else f"crude-{name}"
    adjusted_suffix = f"adjusted-{name}"
    says = compared_title(catalogue, item)
    crude = ratio_pool(catalogue, place, crude_suffix, f"Crude ratios: {says}", crude_rows(catalogue, item.crude))
    reported = reported_rows(catalogue, item.adjusted)
    adjusted = ratio_pool(catalogue, place, adjusted_suffix, f"Adjusted ratios: {says}", reported)
    return RatioPools(item, crude, crude_suffix, adjusted, adjusted_suffix)
