"""What is taken along: one row a claim and level with its figures, outcomes, studies, and every BibTeX entry."""

from __future__ import annotations

import re
from collections.abc import Iterator

from ..reading.model import Claim, Contrast, FollowUp, Level, Report
from ..reading.slugs import slug
from ..reading.values import Missing, Words
from ..results.findings.findings import Catalogue
from ..results.saying.reference_parts import reference_of
from ..results.values.figures import Figure
from ..results.values.guide import ClaimRow, Rows, SourceEntry

_DIGIT = re.compile(r"\d")
Texts = list[tuple[str, str]]


def claim_rows(catalogue: Catalogue) -> Iterator[ClaimRow]:
    """One row a claim, and below it one a level, by key and in the order of the form.

    A retracted report keeps its rows with its standing; they hold no figure, and no words with a number in them.
    """
    for key, report in sorted(catalogue.evidence.reports.items()):
        if key not in catalogue.evidence.sources:
            continue
        state = catalogue.standing(key)
        for claim in report.claims:
            yield from _rows(catalogue, report, claim, state)


def source_entries(catalogue: Catalogue) -> tuple[SourceEntry, ...]:
    """Every entry as typed, in the order of file and entry."""
    return tuple(
        SourceEntry(
            key,
            source.raw,
            catalogue.standing(key) == "retracted",
            source.strings,
            reference_of(catalogue, source),
        )
        for key, source in catalogue.evidence.sources.items()
    )


def outcome_rows(catalogue: Catalogue) -> Rows:
    """What each outcome of the vocabulary counts, by id."""
    header = ("outcome", "title", "construct", "strictness", "basis", "threshold", "good")
    words = (
        (name, item.title.text, item.construct.text, item.strictness.text, item.basis.text, item.threshold.text,
         "yes" if item.good else "no")
        for name, item in sorted(catalogue.evidence.vocabulary.outcomes.items())
    )  # fmt: skip
    return (header, *words)


def study_rows(catalogue: Catalogue) -> Rows:
    """Each study that a report which is not retracted speaks of, by id, as the report that describes it tells it."""
    evidence = catalogue.evidence
    names = {
        name
        for key, report in evidence.reports.items()
        if key in evidence.sources and catalogue.standing(key) != "retracted"
        for claim in report.claims
        for name in report.studies_of(claim)
    }
    return (("study", "species", "design", "unit counted"), *(_study_row(catalogue, name) for name in sorted(names)))


def _study_row(catalogue: Catalogue, name: str) -> tuple[str, ...]:
    facts = catalogue.study(name)
    study = facts.study
    if study is None:
        return (name, "", "", "")
    design = study.design.text if study.design else ""
    return (name, facts.species, design, study.unit.unit.text if study.unit is not None else "")


def _ids_by_claim(catalogue: Catalogue) -> dict[str, list[str]]:
    """Ids of proved figures by "key/claim", in the order of the form."""

    def sorted_out() -> dict[str, list[str]]:
        found: dict[str, list[str]] = {}
        for figure_id in catalogue.audit.proofs:
            key, claim, _ = figure_id.split("/", 2)
            found.setdefault(f"{key}/{claim}", []).append(figure_id)
        return found

    return catalogue.once(("ids by claim",), sorted_out)


def _rows(catalogue: Catalogue, report: Report, claim: Claim, state: str) -> list[ClaimRow]:
    base = f"{report.key}/{claim.id.text}"
    questions = tuple(word.text for word in claim.question)
    is_withdrawn = state == "retracted"
    ids = [] if is_withdrawn else _ids_by_claim(catalogue).get(base, [])
    names = {slug(level.level.text): level for level in claim.levels}
    whole: list[tuple[str, Figure]] = []
    by_level: dict[str, list[tuple[str, Figure]]] = {name: [] for name in names}
    for figure_id in ids:
        figure = catalogue.book.quoted(figure_id)
        if figure is None:
            continue
        field = figure_id[len(base) + 1 :]
        step, _, rest = field.partition("/")
        if step in names and rest:
            by_level[step].append((rest, figure))
        else:
            whole.append((field, figure))
    words = _kept(_words(report, claim), is_withdrawn)
    out = [ClaimRow(report.key, claim.id.text, "", questions, state, words, tuple(whole))]
    for name, level in names.items():
        # The level is named by its slug, as in the ids of figures: no spreadsheet takes it for a formula.
        shown = "" if is_withdrawn and _DIGIT.search(name) else name
        level_words = _kept(_level_words(level, is_withdrawn), is_withdrawn)
        out.append(ClaimRow(report.key, claim.id.text, shown, questions, state, level_words, tuple(by_level[name])))
    return out


def _kept(words: Texts, is_withdrawn: bool) -> tuple[tuple[str, str], ...]:
    """What is not empty; of a withdrawn report no words of its passages, and none with a number."""
    if not is_withdrawn:
        return tuple((name, text) for name, text in words if text)
    return tuple((name, text) for name, text in words if text and name != "in words" and not _DIGIT.search(text))


def _words(report: Report, claim: Claim) -> Texts:
    """Names and typed texts of a claim that are no figures."""
    studies = ", ".join(report.studies_of(claim))
    out: Texts = [("study", studies), ("where", claim.where.text), ("outcome", claim.outcome.text)]
    for name, value in (("factor", claim.factor), ("known at", claim.known_at), ("reference", claim.reference)):
        out.append((name, value.text if value is not None else ""))
    out.append(("planned", claim.planned.text if claim.planned is not None else ""))
    out.append(("within", "; ".join(f"{item.factor.text}: {item.level.text}" for item in claim.within)))
    out.append(("given", claim.given.text if claim.given is not None else ""))
    out.append(("differ in", "; ".join(word.text for word in claim.differ_in)))
    out.append(("cut", claim.cut.text if claim.cut is not None else ""))
    out.append(("quotes", claim.quotes.text if claim.quotes is not None else ""))
    out += _follow_up_words(report, claim)
    if claim.estimate is not None:
        out.append(("estimate", claim.estimate.kind.text))
    if claim.contrast is not None:
        out += _contrast_words(claim.contrast)
    out += _own_words(claim)
    out.append(("note", claim.note.text if claim.note is not None else ""))
    return out


def _own_words(holder: Claim | Level) -> Texts:
    """What was quoted from the passage for this block itself; pieces in printed order."""
    counted, quoted = holder.counted_as, holder.in_words
    return [
        ("counted as", "; ".join(words.text for words in counted)),
        ("in words", " ... ".join(" ".join(words.text.split()) for words in quoted)),
    ]


def _follow_up_words(report: Report, claim: Claim) -> Texts:
    value = claim.follow_up
    if isinstance(value, Words) and report.claim(value.text) is not None:
        return [("follow-up of", value.text)]
    if isinstance(value, Missing):
        return [("follow-up", value.text)]
    if not isinstance(value, FollowUp):
        return []
    start = value.start.text if value.start is not None else ""
    return [("timing", value.timing.text if value.timing is not None else ""), ("from", start)]


def _contrast_words(contrast: Contrast) -> Texts:
    adjusted = contrast.adjusted_for
    names = adjusted.text if isinstance(adjusted, (Words, Missing)) else ", ".join(word.text for word in adjusted)
    out: Texts = [("measure", contrast.measure.text), ("adjusted for", names)]
    for name, value in (
        ("contrast level", contrast.level),
        ("contrast reference", contrast.reference),
        ("per", contrast.per),
        ("event", contrast.event),
        ("event is", contrast.event_is),
        ("model", contrast.model),
        ("proportional", contrast.proportional),
        ("margin by", contrast.margin.by if contrast.margin is not None else None),
        ("margin sides", contrast.margin.sides if contrast.margin is not None else None),
    ):
        out.append((name, value.text if value is not None else ""))
    return out


def _level_words(level: Level, is_withdrawn: bool) -> Texts:
    out: Texts = [("level", level.level.text)]
    if is_withdrawn:  # which way a withdrawn report pointed is a finding too
        return out
    for name, value in (("direction", level.direction), ("stated", level.stated), ("level where", level.where)):
        out.append((name, value.text if value is not None else ""))
    return out + _own_words(level)
