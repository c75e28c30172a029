"""What one takes along to a case discussion: every study with its numbers, what overlaps, how to cite this version."""

from __future__ import annotations

import re
from collections.abc import Iterator

from ...reading.model import Pairs, Question
from ...reading.slugs import slug
from ...results.findings.comparable import (
    Superseded,
    comparability_of,
    count_patients_once,
    reason_not_compared,
    why_not_pooled,
)
from ...results.findings.findings import Catalogue, Finding, StudyFacts
from ...results.findings.outcomes import is_occurrence
from ...results.findings.report_relations import relations
from ...results.numbers.pooling import not_pooled_line
from ...results.saying.labels import digits_as_letters, without_digits
from ...results.saying.reasons_once import told_once
from ...results.saying.reversals import replaced_by_estimate, reversal_line, reversals
from ...results.saying.review_date import review_due
from ...results.saying.search_record import missing_of_living, missing_of_search, search_rows
from ...results.saying.source_reference import reference_text, source_link, source_links, standing_of, unchecked
from ...results.values.document import Block, Blocks, Details, Facts, Items, Page, Paragraph, Raw, Section
from ...results.values.handout import handout_path
from ...results.values.line import Line, Link, Marked, date, joined, line, typed
from ...results.values.talk import slides_path
from ..sections.by_chance import by_chance
from ..sections.closed import closed
from ..sections.compared_levels import comparisons
from ..sections.pairs_table import pairs_table
from ..sentences.advice import question_ratified
from ..sentences.prose import NamedResult
from .conference_studies import definitions, findings_rows, group_title, studies_rows

_NUMBERS = ("rate", "measured", "estimate", "words", "contrast", "pooled", "test")


def conference_page(catalogue: Catalogue, question: Question, named: NamedResult) -> Page:
    """Everything this guide holds about a question, study by study; withdrawn reports as a reference alone."""
    findings = catalogue.of_question(question.id)
    standing = [item for item in findings if not item.is_withdrawn]
    blocks: list[Block] = [_about(catalogue, question), _take_along(catalogue, question)]
    blocks.extend(_people(catalogue, question, standing))
    behind: list[Block] = [*_not_people(catalogue, question, standing), *_pairs(catalogue, standing)]
    behind.append(_same_people(catalogue, standing))
    behind.append(_pooled_or_not(catalogue, question, standing))
    behind.append(_references(catalogue, findings))
    behind.append(_how_searched(question))
    blocks.extend(closed(behind))
    return Page(
        address=f"{question.id}/conference/",
        kind="conference",
        title="All studies, to take along",
        blocks=told_once(tuple(blocks)),
        description="Every study of the question with its numbers, what overlaps, and how to cite this version.",
        edit=question.position.file,
        trail=((f"{question.id}/", question.title.text),),
        review_due=review_due(catalogue, question),
        touched_by=tuple(sorted({item.key for item in findings})),
    )


def _about(catalogue: Catalogue, question: Question) -> Paragraph:
    searched = line("search not recorded")
    if question.searched is not None:
        searched = line("searched ", date(question.searched.on.value))
    return Paragraph(
        line(
            typed(question.title.text), ": ", searched, "; ", question_ratified(question, catalogue),
            ". Numbers are as the reports print them; what goes with a result need not be its cause.",
        )
    )  # fmt: skip


def _how_searched(question: Question) -> Section:
    """The search item by item, and how it is kept alive; what nobody recorded is named."""
    rows = search_rows(question)
    missing = (*missing_of_search(question), *missing_of_living(question))
    blocks: list[Block] = [Facts(rows)] if rows else []
    if missing:
        blocks.append(Paragraph(line("Not recorded: ", "; ".join(missing), "."), "quiet"))
    blocks.append(
        Paragraph(
            line("Items of a search: PRISMA-S, ", typed("Rethlefsen et al. 2021, Syst Rev 10:39", "reference"),
                 "; of a review that is kept alive: PRISMA-LSR, ",
                 typed("Akl et al. 2024, BMJ 387:e079183", "reference"),
                 "; in our words."),
            "quiet",
        )
    )  # fmt: skip
    return Section("How it was searched", "how-searched", tuple(blocks))


def _take_along(catalogue: Catalogue, question: Question) -> Section:
    """The files first: whoever prepares an evening takes them and reads on later."""
    files = Items(
        (
            line(Link(slides_path(question.id), ("Slides to present a case, with those of all answers",))),
            line(Link(handout_path(question.id), ("One sheet to hand out, as PDF",))),
            line(Link("data/sources.bib", ("All sources, as BibTeX",))),
            line(Link("data/claims.csv", ("All claims with their figures, as a table",))),
            line(Link("data/", ("Everything else to take away",))),
        ),
        kind="ways-on",
    )
    return Section("Take along", "take-along", (files, *closed([_how_to_cite(catalogue, question)])))


def _is_people(finding: Finding) -> bool:
    return all(facts.species in ("human", "") for facts in finding.studies)


def _people(catalogue: Catalogue, question: Question, standing: list[Finding]) -> Blocks:
    members = [item for item in standing if _is_people(item)]
    if not members:
        return (Paragraph(line("This guide has no report about people for this question."), "warning"),)
    # A crude share when last seen gives way to the study's own estimate; over-time and source pages keep it.
    given_way = [item for item in members if replaced_by_estimate(catalogue, question.id, item) is not None]
    gone = {item.base for item in given_way}
    shown = [
        item for item in members if item.kind in _NUMBERS and item.base not in gone and not _is_shown_elsewhere(item)
    ]
    out: list[Block] = [
        Section("Studies in people", "studies", (_studies(catalogue, members, "Studies in people"),)),
    ]
    many = catalogue.main_unit(question.id).many
    inner: list[Block] = list(_by_factor(catalogue, question, shown))
    if shown:
        inner.append(definitions(shown))
    held = {item.base for item in shown}
    back = [item for item in reversals(catalogue, question.id, shown) if item.base not in held]
    if back:
        rows = Items(tuple(reversal_line(catalogue, item) for item in back), kind="reversals")
        inner.append(Details("Early is not lasting: what these studies found later", (rows,), "part"))
    if given_way:
        names = source_links(catalogue, dict.fromkeys(item.key for item in given_way), "; ")
        inner.append(
            Paragraph(
                line(
                    "A share when last seen gives way to an estimate at a time of the same study (", names,
                    "); it is shown under ", Link(f"{question.id}/over-time/", (f"how such {many} do over time",)), ".",
                ),
                "quiet",
            )
        )  # fmt: skip
    # Each study once a comparison, as on the pages of factors: of its crude and adjusted number that which counts.
    compared = [
        side
        for factor in sorted({item.factor for item in shown} - {""})
        for item in comparisons(catalogue, question, factor)
        for side in (*item.sides, *item.reaching)
        if side.finding.base in held
    ]
    inner.extend(by_chance(catalogue, question.id, "overall", compared, "all-studies"))
    out.append(Section("What they found", "findings", tuple(inner)))
    return tuple(out)


def _by_factor(catalogue: Catalogue, question: Question, shown: list[Finding]) -> Iterator[Block]:
    """One closed list a factor, those of all units first, then as the question has them."""
    many = catalogue.main_unit(question.id).many
    order = {word.text: index for index, word in enumerate(question.factors, start=1)}
    told_when: set[tuple[str, Line]] = set()
    factors = dict.fromkeys(item.factor for item in shown)
    for factor in sorted(factors, key=lambda name: order.get(name, len(order) + 1) if name else 0):
        title = group_title(catalogue, factor)
        mine = [item for item in shown if item.factor == factor]
        # Success and survival never share a column.
        kept = [item for item in mine if item.outcome.construct.text == "survival"]
        often = [item for item in mine if is_occurrence(item.outcome)]
        others = [item for item in mine if item not in kept and item not in often]
        lists: list[Block] = [
            findings_rows(catalogue, question, found, without_digits(f"{name}: {title}"), told_when)
            for found, name in ((others, "Findings"), (kept, f"{many.capitalize()} kept"))
            if found
        ]  # fmt: skip
        if often:
            lists.append(Paragraph(line("How often it happens: among all, and no ending"), "lead"))
            lists.append(findings_rows(catalogue, question, often, without_digits(f"How often: {title}"), told_when))
        way = (
            [Paragraph(line(Link(f"{question.id}/{factor}/", ("Compared, with how sure",))), "more")] if factor else []
        )
        yield Details(title, (*lists, *way), "part", anchor=f"found-{factor or 'all'}")


def _is_shown_elsewhere(finding: Finding) -> bool:
    """A total that only grades share, which the page of the report holds; a review's ratio, told as a ratio already."""
    if finding.kind == "pooled":
        return finding.claim.contrast is not None
    return finding.kind == "rate" and bool(finding.claim.grades) and finding.claim.events is None


def _not_people(catalogue: Catalogue, question: Question, standing: list[Finding]) -> Blocks:
    members = [item for item in standing if not _is_people(item)]
    if not members:
        return ()
    shown = [item for item in members if item.kind in _NUMBERS and not _is_shown_elsewhere(item)]
    lead = Paragraph(line("Animals and the bench: they may explain, they do not count."), "lane")
    inner: list[Block] = [lead, _studies(catalogue, members, "Studies not in people")]
    if shown:
        inner.append(findings_rows(catalogue, question, shown, "Findings not in people", set()))
        inner.append(definitions(shown))
    return (Section("Not people", "not-people", tuple(inner), "lane"),)


def _studies(catalogue: Catalogue, members: list[Finding], label: str) -> Block:
    studies: dict[str, StudyFacts] = {}
    by_study: dict[str, list[str]] = {}
    for item in members:
        for facts in item.studies:
            studies.setdefault(facts.id, facts)
            keys = by_study.setdefault(facts.id, [])
            if item.key not in keys:
                keys.append(item.key)
    return studies_rows(catalogue, [studies[name] for name in sorted(studies)], by_study, label)


def _pairs(catalogue: Catalogue, standing: list[Finding]) -> Blocks:
    tables: list[Block] = []
    for item in standing:
        if item.kind == "pairs" and isinstance(item.claim.pairs, Pairs):
            letters = digits_as_letters(item.base).replace("/", ", ")
            tables.append(Paragraph(line(source_link(item.key, catalogue), ", ", typed(item.outcome.title.text))))
            tables.append(pairs_table(catalogue, item.claim.pairs, item.base, f"Judged twice: {letters}"))
    return (Section("The same units judged twice", "pairs", tuple(tables)),) if tables else ()


def _same_people(catalogue: Catalogue, standing: list[Finding]) -> Section:
    """Which reports share patients, and whose number counts where they do."""
    ties = relations(catalogue)
    rows: list[Line] = []
    for study in sorted({facts.id for item in standing for facts in item.studies}):
        holding = [key for key in ties.held_by.get(study, ()) if catalogue.standing(key) != "retracted"]
        sharing = [
            key for key in ties.by_study.get(study, ()) if catalogue.standing(key) != "retracted" and key not in holding
        ]
        if len(sharing) > 1:
            rows.append(line(source_links(catalogue, sharing), ": the same patients", _centre(catalogue, study)))
        if holding:
            # Of a study that no report here is about its id is the only name.
            named = source_links(catalogue, sharing)
            own = named or line(typed(study, "identifier"), ", outside this guide")
            rows.append(line(source_links(catalogue, holding), ": includes the patients of ", own))
    numbers = [
        item for item in standing if item.kind in ("rate", "estimate", "grade") and not reason_not_compared(item)
    ]
    instead = [
        _superseded_line(catalogue, pair) for pair in count_patients_once(numbers)[1] if pair.by.key != pair.finding.key
    ]
    blocks: list[Block] = []
    if rows:
        blocks.append(Items(tuple(dict.fromkeys(rows)), kind="overlap"))
    else:
        blocks.append(Paragraph(line("No two reports of this question are known to share patients.")))
    if instead:
        blocks.append(Paragraph(line("One patient is counted once"), "lead"))
        blocks.append(Items(tuple(dict.fromkeys(instead)), kind="instead"))
    return Section("The same patients", "same-patients", tuple(blocks))


def _centre(catalogue: Catalogue, study: str) -> Line:
    """ " (Brackwater, 2005 to 2009)": where and when, as typed; empty where neither is told."""
    found = catalogue.study(study).study
    setting = found.setting if found is not None and isinstance(found.setting, dict) else {}
    told = [setting[name].text for name in ("centre", "recruited") if name in setting]
    said = [line(typed(text)) for text in told if text != "not reported"]
    return line(" (", joined(said, ", "), ")") if said else ()


def _superseded_line(catalogue: Catalogue, pair: Superseded) -> Line:
    finding = pair.finding
    return line(
        source_links(catalogue, [held.key for held in pair.counting], " and "),
        " count in place of " if pair.also else " counts in place of ",
        source_link(finding.key, catalogue), ": ",
        typed(finding.outcome.title.text, "definition"), ", ", typed(group_title(catalogue, finding.factor)),
        line(", ", typed(finding.level.level.text, "definition")) if finding.level else None,
    )  # fmt: skip


def _pooled_or_not(catalogue: Catalogue, question: Question, standing: list[Finding]) -> Section:
    """One line a factor: where a pooled rate stands, or why there is none."""
    by_factor: dict[str, dict[tuple[object, ...], list[Finding]]] = {}
    for item in standing:
        if item.kind in ("rate", "estimate") and not item.claim.within:
            outcome = item.outcome
            axis = (outcome.construct.text, outcome.strictness.text, outcome.good, item.level_ids)
            by_factor.setdefault(item.factor, {}).setdefault(axis, []).append(item)
    rows = []
    for factor in sorted(by_factor, key=lambda name: (name != "", group_title(catalogue, name).casefold())):
        reasons: dict[str, None] = {}
        pooled = False
        for members in by_factor[factor].values():
            comparability = comparability_of(members)
            if len(comparability.counted) < 2:
                continue
            why = why_not_pooled(comparability)
            pooled = pooled or not why
            reasons.update(dict.fromkeys(why))
        page = f"{question.id}/{factor}/" if factor else f"{question.id}/over-time/"
        said: Line = line("some of it may be pooled: see there") if pooled else (
            not_pooled_line(tuple(reasons)) if reasons else line("not pooled: no two studies can be compared")
        )  # fmt: skip
        rows.append(line(Link(page, (typed(group_title(catalogue, factor)),)), ": ", said))
    if not rows:
        return Section("Pooled or not", "pooled", (Paragraph(line("not pooled: there is no rate to pool")),))
    return Section("Pooled or not", "pooled", (Items(tuple(rows), kind="refusals"),))


def _references(catalogue: Catalogue, findings: list[Finding]) -> Section:
    """Every report in full; a withdrawn one with its notice and nothing else."""
    keys = sorted({item.key for item in findings})
    kept = [key for key in keys if catalogue.standing(key) != "retracted"]
    gone = [key for key in keys if catalogue.standing(key) == "retracted"]
    blocks: list[Block] = []
    if kept:
        blocks.append(Items(tuple(_reference(catalogue, key) for key in kept), kind="references"))
    if gone:
        rows = tuple(line(_reference(catalogue, key), " — ", standing_of(catalogue, key).line) for key in gone)
        blocks.append(Section("Withdrawn", "withdrawn", (Items(rows, kind="withdrawn"),), "withdrawn"))
    return Section("References", "references", tuple(blocks))


def _reference(catalogue: Catalogue, key: str) -> Line:
    source = catalogue.evidence.sources[key]
    unread = unchecked(catalogue, key)
    told = line(Marked("reference", reference_text(catalogue, source)), f" ({unread[2:]})" if unread else None)
    return line(Link(f"sources/{key}/", told))


def _how_to_cite(catalogue: Catalogue, question: Question) -> Section:
    """This version by title, programme, release, date and address, as a sentence and as BibTeX."""
    compendium = catalogue.evidence.compendium
    if compendium is None:
        return Section("How to cite this version", "cite", (Paragraph(line("release not recorded"), "quiet"),))
    day, release = compendium.evidence_date.value, compendium.release.text
    address = compendium.repository.text if compendium.repository else ""
    mark = "invented for demonstration" if compendium.demonstration else ""
    sentence = (
        f"{compendium.programme.text}. {compendium.title.text}: {question.title.text}. Release {release}, evidence to "
        f"{day.isoformat()}. Page {question.id}/conference/" + (f" of {address}" if address else "")
        + "." + (f" [{mark}]" if mark else "")
    )  # fmt: skip
    fields = [
        ("title", f"{compendium.title.text}: {question.title.text}"),
        ("author", f"{{{compendium.programme.text}}}"),
        ("year", str(day.year)),
        ("version", release),
        ("howpublished", f"Page {question.id}/conference/, release {release}"),
        ("url", address),
        ("note", f"Evidence to {day.isoformat()}" + (f"; {mark}" if mark else "")),
    ]
    lines = [f"  {name} = {{{value if name == 'url' else _tex(value)}}}," for name, value in fields if value]
    bibtex = "\n".join([f"@misc{{{slug(compendium.programme.text)}-{question.id},", *lines, "}"])
    return Section(
        "How to cite this version",
        "cite",
        (
            Raw(sentence, "This version, as a sentence"),
            Raw(bibtex, "This version, as BibTeX"),
            Paragraph(
                line("Cite the reports themselves for their numbers; cite this page for what was put together."),
                "quiet",
            ),
        ),
    )


def _tex(text: str) -> str:
    """Text in which TeX reads no sign of its own."""
    return re.sub(r"([&%$#_])", r"\\\1", text)
