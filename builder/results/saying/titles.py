"""What a reader knows things by: the titles of a factor, of its levels, and of a claim."""

from __future__ import annotations

from collections.abc import Sequence

from ...reading.fdi_chart import chart_factor_levels, chart_factor_title
from ...reading.model import Claim
from ...reading.values import Words
from ..findings.authors import first_author
from ..findings.findings import Catalogue


def with_synonyms(title: Words, synonyms: Sequence[Words]) -> str:
    """A title and what else the thing is called: "hydraulic silicate cement (calcium silicate cement)"."""
    return f"{title.text} ({', '.join(word.text for word in synonyms)})" if synonyms else title.text


def levels_of(catalogue: Catalogue, factor: str) -> list[tuple[str, str]]:
    """Ids and titles of a factor's levels, in the vocabulary's order; those of the chart in its own."""
    known = catalogue.evidence.vocabulary.factors.get(factor)
    if known is not None:
        return [(level.id.text, level.title.text) for level in known.levels]
    return [(name, name) for name in chart_factor_levels(factor)]


def factor_title(catalogue: Catalogue, factor: str) -> str:
    """A factor's title; those of the chart have none in the vocabulary, and an unknown id is read as words."""
    known = catalogue.evidence.vocabulary.factors.get(factor)
    return known.title.text if known is not None else chart_factor_title(factor)


def claim_title(catalogue: Catalogue, claim: Claim) -> str:
    """The outcome and the factor, as the vocabulary words them."""
    outcome = catalogue.evidence.vocabulary.outcomes.get(claim.outcome.text)
    title = outcome.title.text if outcome is not None else claim.outcome.text
    return f"{title}, by {factor_title(catalogue, claim.factor.text)}" if claim.factor is not None else title


def study_name(catalogue: Catalogue, study: str) -> str:
    """What readers call a study: where it was done, else who describes it; its id where nobody does."""
    known = catalogue.study(study)
    setting = known.study.setting if known.study is not None else None
    centre = setting.get("centre") if isinstance(setting, dict) else None
    if centre is not None and centre.text != "not reported":
        return centre.text
    source = catalogue.evidence.sources.get(known.key)
    return first_author(source) if source is not None else study
