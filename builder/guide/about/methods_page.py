"""How numbers are made: for faculty who want to stand behind them, or to disagree."""

from __future__ import annotations

from ...numerals import Unit as CountedUnit
from ...numerals.lexicon import ANY_UNIT
from ...results.findings.comparable import SHOWN_FROM_FAILURES, SHOWN_FROM_STUDIES, WORKED_FROM_STUDIES
from ...results.findings.findings import Catalogue
from ...results.saying.marking import marked_words
from ...results.values.document import Block, Items, Page, Paragraph, Section, Table
from ...results.values.line import Line, Link, Marked, line
from ..sections.closed import closed
from ..sentences.prose import NamedResult
from .measured import MEASURED
from .methods_table import COMPUTED, MEMORY, NOT_COMPUTED, worded


def methods_page(catalogue: Catalogue, named: NamedResult) -> Page:
    """What is computed when, after which publication, and what is left alone on purpose."""
    counted = catalogue.main_unit()
    # Several patients are in no patient: where people themselves are counted, the tables say units.
    unit = counted if counted.of else ANY_UNIT
    behind = (
        Section("What a proof is", "proof", _proof()),
        Section("What is computed", "computed", (_computed(unit),)),
        Section("What is not computed, and why", "not-computed", (_not_computed(unit),)),
        Section("Which rates belong to a time", "windows", _windows()),
        Section("One patient counted once", "once", _once()),
        Section("When results are pooled", "pooling", _pooling()),
        Section("How sure", "certainty", _certainty()),
        Section("How rates are said", "wording", _wording()),
        Section("What the references rest on", "memory", (_memory(),)),
    )
    blocks: tuple[Block, ...] = (
        Paragraph(
            line(
                "This guide shows two kinds of number. A quoted one comes from a passage that people typed from a "
                "report, and leads to it. A computed one leads to its workings on the same page. There is no third "
                "kind."
            )
        ),
        Section("In short", "in-short", (_in_short(),)),
        *closed(behind),
    )
    return Page(
        address="methods/",
        kind="methods",
        title="How numbers are made",
        blocks=blocks,
        description="What this guide computes, by which published methods, and what it leaves alone on purpose.",
        search=("methods", "statistics", "confidence interval", "pooling", "certainty"),
    )


def _in_short() -> Items:
    def item(anchor: str, said: str) -> Line:
        return line(Link(f"#{anchor}", (said,)))

    return Items(
        (
            item("proof", "A number that is not in its passage is not published."),
            item("once", "Several reports of the same patients count once."),
            item("windows", "Early is not lasting: every rate says its time, and from what it counts."),
            item("pooling", "Studies that differ are not put together; the page says why."),
            item("certainty", "How sure is a judgement of people, with their reasons."),
            item("not-computed", "No percentage is made for one patient, and no ratios are multiplied."),
        )
    )


def _paragraphs(*texts: str) -> tuple[Block, ...]:
    return tuple(Paragraph(marked_words(text)) for text in texts)


def _list(*texts: str) -> Items:
    return Items(tuple(marked_words(text) for text in texts))


def _proof() -> tuple[Block, ...]:
    return (
        *_paragraphs(
            "Faculty type the passage and, in another file, the claim. The check looks for each number of the claim in "
            "the passage it names, with the same digits, precision, kind and unit. Such a number is located. It is "
            "tied where the passage's own words also say what it counts: which level, at which time, of which event "
            "and group, adjusted or not, which way a ratio goes; in its clause, its row or column, or by its place in "
            "a list. Where those words say otherwise, the check asks with both readings, and nothing is published "
            "until somebody has corrected the claim or signed an answer. Where they say nothing, the page of the "
            "source says so: what the number counts is then known from whoever read the report."
        ),
        _list(
            "Within one claim one printed number proves one field; a second field needs a number of its own.",
            "Only totals, times, bounds of a level and equal steps of one flow may share a printed number with a "
            "field of the same kind.",
            "n of N is matched as a pair, and so are the two ends of an interval.",
            "A level such as the 95 % of an interval proves nothing but itself.",
            "Where two equal numbers could be meant, the check asks which.",
            "A reader can quote the very words that hold a number. That answers silence, never a contradiction.",
            "A number that is not in its passage is not published: the site is built whole or not at all.",
        ),
        *_paragraphs(
            "What it cannot see: whether the passage agrees with the paper, what a passage leaves out, and whether "
            "words mean what a reader took them for. That is why each page says who read a report and who re-read it, "
            "or that nobody has yet. How often it errs was measured on invented reports, written as journals print "
            "them by people who had not seen the code:"
        ),
        _measured(),
        *_paragraphs(
            "Who wrote the last set knew which kinds of error there are, and not the check itself. Sets that were "
            "chosen to be hard let more pass at first sight."
        ),
    )


def _measured() -> Table:
    def of(part: int, whole: int) -> Line:
        return line(Marked("convention", str(part)), " of ", Marked("convention", str(whole)))

    rows = tuple(
        (
            line(measured.kept),
            of(measured.wrong - measured.asked, measured.wrong),
            of(measured.right - measured.silent, measured.right),
            of(measured.refused, measured.right),
        )
        for measured in MEASURED
    )
    header = (
        line("Set of reports"), line("Wrong claims that pass"), line("Right ones asked about or refused"),
        line("Right ones refused"),
    )  # fmt: skip
    return Table(
        line("How often the check errs about what a number means"), header, rows, "How often it errs", "measured"
    )


def _computed(unit: CountedUnit) -> Table:
    rows = tuple(
        (
            marked_words(worded(method.what, unit)),
            marked_words(worded(method.when, unit)),
            marked_words(worded(method.how, unit)),
            line(Marked("reference", method.published)),
        )
        for method in COMPUTED
    )
    header = (line("What"), line("When"), line("How"), line("Published in"))
    return Table(line("Everything that is computed"), header, rows, "Everything that is computed", "methods")


def _not_computed(unit: CountedUnit) -> Table:
    rows = tuple(
        (marked_words(worded(what, unit)), marked_words(worded(why, unit)), _published(source))
        for what, why, source in NOT_COMPUTED
    )
    header = (line("What"), line("Why not"), line("Published in"))
    return Table(line("Left alone on purpose"), header, rows, "What is left alone on purpose", "methods")


def _published(source: str) -> Line:
    return line(Marked("reference", source)) if source else line("house rule of this guide")


def _windows() -> tuple[Block, ...]:
    return _paragraphs(
        "A rate belongs to a time only where the report counted at that time and says how exactly, within a quarter "
        "of it; an estimate at a time belongs to that time. A rate at the last visit, or after at least some time, "
        "mixes early and late: it is drawn as a span from the shortest to the longest follow-up with a tick at the "
        "median, and is in no column for a time. House rule.",
        "What a rate counts from is always said: from treatment, or from healing. Early is not durable: where a later "
        "estimate in the same people reverses a rate, both are on one page.",
    )


def _once() -> tuple[Block, ...]:
    return (
        *_paragraphs(
            "A report is what was printed; a study is the people behind it. Where several reports are about one "
            "study, only one of them counts for each outcome, definition, time and level; the others stay for what "
            "only they report. The one that counts is, in this order:"
        ),
        Items(
            (
                line("the report with an estimate at that time"),
                line("the one that saw the higher share of those due"),
                line("the one with more units"),
                line("the later one"),
            ),
            ordered=True,
        ),
        *_paragraphs(
            "Two studies that look like one, by centre, recruitment, authors or numbers, are asked about before "
            "anything is published. Basis: Cochrane Handbook, on several reports of one study."
        ),
    )


def _pooling() -> tuple[Block, ...]:
    shown, failures, worked = (str(n) for n in (SHOWN_FROM_STUDIES, SHOWN_FROM_FAILURES, WORKED_FROM_STUDIES))
    return (
        *_paragraphs(
            "Pooling is earned. The studies must agree on what they count, how strictly, by what means, at which "
            "time, in which unit, in whom, treated by whom, and in their design; each must have taken every patient "
            "in turn; what is not reported equals nothing, not even itself. They must be in people, in different "
            "people, not retracted, and cover all who were examined. For ratios the level, the reference, the "
            "measure, the event, its coding and the adjustment must agree too."
        ),
        Items(
            (
                line(
                    "From ", Marked("convention", shown), " studies and ", Marked("convention", failures),
                    " failures a pooled rate is shown, as that of the typical study, with tau and the prediction "
                    "interval.",
                ),
                line(
                    "With fewer, down to ", Marked("convention", worked), ", the rows are shown with their range, and "
                    "the pooled number stays in the workings.",
                ),
                line("Below that nothing is pooled."),
                line("Wherever it is not, the page says “not pooled” and the reason."),
            )
        ),
        *_paragraphs(
            "The limits are house rules. What a review pooled is quoted as the review's, never computed again, and "
            "never pooled a second time."
        ),
    )  # fmt: skip


def _certainty() -> tuple[Block, ...]:
    return (
        *_paragraphs(
            "Certainty is a ledger for one outcome, one time and one level: where it starts, each step with its "
            "reason and the person who took it, and where it ends. The judgements are people's; the check does the "
            "sum. Computed hints stand beside it and decide nothing: how wide the interval is, how far the studies "
            "lie apart."
        ),
        _list(
            "Evidence about prognosis starts high, since cohorts are the right design for it.",
            "A factor that studies found by looking at many needs the step for exploratory study, or its written "
            "refusal.",
            "What rests on abstracts alone is never above low. House rule.",
            "Where nobody has judged, the page says “not judged yet”.",
            "The wording follows: it goes with, it probably goes with, it may go with, we are very uncertain. It is "
            "always an association, never a cause.",
        ),
        Paragraph(
            line(
                "Published in ",
                Marked(
                    "reference",
                    "Iorio et al. 2015, BMJ 350:h870; Foroutan et al. 2020, J Clin Epidemiol 121:62-70 "
                    "(GRADE 28); Huguet et al. 2013, Syst Rev 2:71; Santesso et al. 2020, J Clin Epidemiol "
                    "119:126-135" + MEMORY,
                ),
                ".",
            )
        ),
    )


def _wording() -> tuple[Block, ...]:
    return (
        _list(
            "A percentage never stands alone: n of N, the time, the definition and the unit stand with it. Where all "
            "or none had the outcome only the counts are printed.",
            "A success is defined on four axes: what is counted, how strictly, by what means, and where the line is "
            "drawn. Success and survival never share a column.",
            "Crude and adjusted ratios are kept apart. The event is named and said to be good or bad.",
            "Printed figures that do not fit are asked about: “these do not agree, ask”. Who answered, and how, is on "
            "the page of the report.",
            "Nothing known is an answer of its own, with the day of the search.",
        ),
        Paragraph(
            line(
                "Every rule of the check has a paragraph on the page ", Link("contribute/#rules", ("Add a claim",)),
                "; the numbers behind each page can be taken along from ", Link("data/", ("Take the data along",)), ".",
            )
        ),
    )  # fmt: skip


def _memory() -> Paragraph:
    return Paragraph(
        line(
            "A reference that says so was typed from memory and not opened again: look it up before you rely on it. "
            "Rules that name no publication are rules of this house, and faculty may change them."
        )
    )
