"""What may be told to a patient of one finding: so many of a hundred, or so many of those counted, both ways round."""

from __future__ import annotations

from decimal import Decimal
from typing import Literal

from ...reading.pictures import Picture
from ...reading.slugs import slug
from ...reading.values import Length, Missing, Words
from ...records import NamedTuple
from ...results.findings.authors import first_author
from ...results.findings.comparable import reason_not_compared
from ...results.findings.findings import Catalogue, Finding
from ...results.saying.whose_cause import of_cause
from ...results.saying.wording import few_followed, unit_word
from ...results.values.drawings import Icons
from ...results.values.figures import Figure
from ...results.values.line import Line, Marked, line, typed
from ...synthesis.intervals import wilson_interval
from ...synthesis.rounding import round_half_up

Format = Literal["hundred", "counts", "words"]

# House rules, after the design of the guide: below fifty the real counts, below ten no drawing.
HUNDRED_FROM = 50
DRAWN_FROM = 10
HUNDRED = Marked("convention", "100")
TEN = Marked("convention", "10")


class PatientNumbers(NamedTuple):
    """A finding in the words for a patient."""

    finding: Finding
    format: Format
    counted: Figure | None
    """How many had the ending that the report counts, of a hundred or of those examined; None in words alone."""
    others: Figure | None
    low: Figure | None
    """Ends of what is probable for the ending counted, of a hundred."""
    high: Figure | None
    whole: int
    """What the two add up to: 100, or the units examined."""
    drawn: int
    """How many of the marks stand for those who did well."""
    of_ten: Figure | None = None
    """Of small groups side by side, how many of ten had the ending: what both then share is the number they are of."""
    cause: Line = ()
    """What had brought all of them to it, as typed, where the question asks that."""


def refusal(finding: Finding) -> str:
    """Why a finding is not told to a patient, or "" where it may be."""
    reason = reason_not_compared(finding)
    if reason:
        return reason
    if finding.kind == "estimate":
        return _estimate_refusal(finding)
    if finding.kind != "rate":
        return {
            "contrast": "a ratio alone tells a patient nothing",
            "words": "it is stated in words only",
            "pairs": "it compares two ways of looking, not two endings",
            "grade": "its parts do not make one number",
        }.get(finding.kind, "it holds no count")
    if finding.events is None or finding.total is None or finding.total == 0:
        return "its counts are not reported"
    follow_up = finding.follow_up
    if follow_up is None or not isinstance(follow_up.timing, Words):
        return "when it was counted is not reported"
    return ""


def _estimate_refusal(finding: Finding) -> str:
    said = finding.estimate
    if said is None or finding.figure("estimate/value") is None:
        return "its value is not reported"
    if not isinstance(said.at, Length):
        return "a yearly rate is no number at a time"
    if finding.outcome.good and not is_well(finding):
        return "whether what it counts is good or bad is not clear"
    if finding.figure("estimate/starting") is None and finding.figure("estimate/at_risk") is None:
        return "neither the number at the start nor the number at risk is reported"
    return ""


def units(finding: Finding) -> int:
    """How many units stand behind it: those counted, or for an estimate those at the start; 0 where not reported."""
    if finding.kind != "estimate":
        return finding.total or 0
    figure = finding.figure("estimate/starting") or finding.figure("estimate/at_risk")
    return int(figure.number) if figure else 0


def format_of(findings: list[Finding]) -> Format:
    """The one format of findings that are laid beside each other: a hundred only where every one has fifty."""
    if all(units(finding) >= HUNDRED_FROM for finding in findings):
        return "hundred"
    return "words" if all(finding.kind == "estimate" for finding in findings) else "counts"


def patient_numbers(catalogue: Catalogue, question: str, finding: Finding, form: Format) -> PatientNumbers:
    """The finding in this format, its figures computed where the report does not print them so.

    finding: one that is not refused. An estimate has no counts: in the format "counts" it stays in words.
    """
    if form == "words" or (form == "counts" and finding.kind == "estimate"):
        told = PatientNumbers(finding, "words", None, None, None, None, 0, 0)
    elif form == "counts":
        told = _in_counts(catalogue, question, finding)
    elif finding.kind == "estimate":
        told = _of_estimate(catalogue, question, finding)
    else:
        told = _of_hundred(catalogue, question, finding)
    return told._replace(cause=of_cause(catalogue, question, finding))


def _name(question: str, finding: Finding) -> tuple[str, str]:
    """What the ids and the workings of its computed figures begin with."""
    name = slug(finding.base)
    return f"{question}/{finding.factor or 'overall'}/patient-{name}", f"{question}-patient-{name}"


def _title(catalogue: Catalogue, finding: Finding) -> str:
    level = f", {finding.level.level.text}" if finding.level else ""
    author = first_author(finding.source)
    return f"For the talk: {finding.outcome.title.text}{level} ({author})"


def _whole(share: Decimal) -> tuple[str, int]:
    """A share of a hundred as printed, and as drawn: never all or none where one of them was otherwise."""
    whole = int(round_half_up(share, 0))
    if whole == 0 and share > 0:
        return "under 1", 1
    if whole == 100 and share < 100:
        return "over 99", 99
    return str(whole), whole


def _others(text: str, value: int) -> tuple[str, int]:
    """What is left of the hundred, so that the two always add up."""
    return {"under 1": ("over 99", 99), "over 99": ("under 1", 1)}.get(text, (str(100 - value), 100 - value))


def _of_hundred(catalogue: Catalogue, question: str, finding: Finding) -> PatientNumbers:
    book = catalogue.book
    events, total = finding.figure("events"), finding.figure("total")
    if events is None or total is None or finding.events is None or not finding.total:
        raise ValueError(f"{finding.base}: no counts to tell")
    stem, name = _name(question, finding)
    printed = printed_limits(finding)
    limits = "the printed 95% interval" if printed else "the score limits of events out of total at 95%, per 100"
    wilson = "Wilson 1927, J Am Stat Assoc 22:209-212; written as in Newcombe 1998, Stat Med 17:857-872, method 3"
    workings = book.explain(
        name,
        _title(catalogue, finding),
        f"per 100: 100 × events / total, and 100 less that; probably between: {limits}",
        called="per 100 from counts",
        published="" if printed else wilson,
        convention="each rounded once, half up, to a whole; never to 0 or 100 unless none or all had it",
        inputs=(events, total, *(printed or ())),
    )
    share = Decimal(100 * finding.events) / Decimal(finding.total)
    unit = finding.unit or "none"

    def figure(what: str, shown: str, value: int, says: str, inputs: tuple[Figure, ...] = (events, total)) -> Figure:
        return book.computed(f"{stem}-{what}", shown, value, unit, workings, inputs=inputs, says=says)

    text, value = _whole(share)
    if printed:
        ends: list[tuple[str, int, tuple[Figure, ...]]] = [(*_whole(end.number), (end,)) for end in printed]
    else:
        found = wilson_interval(finding.events, finding.total)
        whole = (int(round_half_up(Decimal(repr(end)) * 100, 0)) for end in (found.low, found.high))
        ends = [(str(end), end, (events, total)) for end in whole]
    (low_text, low, of_low), (high_text, high, of_high) = ends
    return PatientNumbers(
        finding,
        "hundred",
        figure("per-100", text, value, "counted, of 100"),
        figure("others-per-100", *_others(text, value), "the others, of 100"),
        figure("low-per-100", low_text, low, "probably at least, of 100", of_low),
        figure("high-per-100", high_text, high, "probably at most, of 100", of_high),
        100,
        value if is_well(finding) else 100 - value,
    )


def _of_estimate(catalogue: Catalogue, question: str, finding: Finding) -> PatientNumbers:
    book = catalogue.book
    value = finding.figure("estimate/value")
    if value is None:
        raise ValueError(f"{finding.base}: no estimate to tell")
    low, high = finding.limits("estimate/interval") or (None, None)
    stem, name = _name(question, finding)
    workings = book.explain(
        name,
        _title(catalogue, finding),
        "per 100: the printed percentage, and 100 less that; probably between: the printed 95% interval",
        convention="each rounded once, half up, to a whole; never to 0 or 100 unless printed so",
        inputs=[figure for figure in (value, low, high) if figure is not None],
    )
    unit = finding.unit or "none"

    def figure(what: str, shown: tuple[str, int], says: str, source: Figure) -> Figure:
        return book.computed(f"{stem}-{what}", *shown, unit, workings, inputs=(source,), says=says)

    text, drawn = _whole(value.number)
    return PatientNumbers(
        finding,
        "hundred",
        figure("per-100", (text, drawn), "counted, of 100", value),
        figure("others-per-100", _others(text, drawn), "the others, of 100", value),
        figure("low-per-100", _whole(low.number), "probably at least, of 100", low) if low else None,
        figure("high-per-100", _whole(high.number), "probably at most, of 100", high) if high else None,
        100,
        drawn if is_well(finding) else 100 - drawn,
    )


def _in_counts(catalogue: Catalogue, question: str, finding: Finding) -> PatientNumbers:
    book = catalogue.book
    events, total = finding.figure("events"), finding.figure("total")
    if events is None or total is None or finding.events is None or finding.total is None:
        raise ValueError(f"{finding.base}: no counts to tell")
    stem, name = _name(question, finding)
    workings = book.explain(
        f"{name}-others", _title(catalogue, finding), "the others = total − events", inputs=(events, total)
    )
    rest = finding.total - finding.events
    others = book.computed(f"{stem}-others", str(rest), rest, finding.unit or "none", workings, says="the others")
    told = PatientNumbers(finding, "counts", events, others, None, None, finding.total, finding.good_events or 0)
    if finding.level is None or not finding.total:
        return told
    workings = book.explain(
        f"{name}-of-ten", _title(catalogue, finding), "of ten: 10 × events / total", inputs=(events, total),
        convention="rounded once, half up, to a whole; never to none or all unless none or all had it",
    )  # fmt: skip
    shown, of_ten = _of_ten(finding.events, finding.total)
    figure = book.computed(f"{stem}-of-ten", shown, of_ten, finding.unit or "none", workings, says="counted, of ten")
    return told._replace(of_ten=figure)


def _of_ten(events: int, total: int) -> tuple[str, int]:
    """A count out of ten as printed, and its value: never none or all where one of them was otherwise."""
    whole = int(round_half_up(Decimal(10 * events) / Decimal(total), 0))
    if whole == 0 and events > 0:
        return "under 1", 1
    if whole == 10 and events < total:
        return "over 9", 9
    return str(whole), whole


def printed_limits(finding: Finding) -> tuple[Figure, Figure] | None:
    """The report's own 95% interval of a rate, in per cent: one number has one interval wherever it stands."""
    limits = finding.limits()
    if limits is None or any(end.unit != "%" for end in limits):
        return None
    return limits


def is_well(finding: Finding) -> bool:
    """True where the number counts those who did well: for an estimate its kind says so, else the outcome."""
    if finding.kind == "estimate" and finding.estimate is not None:
        return finding.estimate.kind.text == "survival"
    return finding.outcome.good


def competing(finding: Finding) -> str:
    """Other endings that the study counted apart: "death, removal"; "" where it names none."""
    said = finding.estimate
    if said is None or said.competing is None or isinstance(said.competing, Missing):
        return ""
    # "death" alone would leave open whose.
    owner = f" of the {finding.counted.of}" if finding.counted.of else ""
    return " or ".join(f"{word.text}{owner if word.text == 'death' else ''}" for word in said.competing)


def ending(finding: Finding) -> Line:
    """What was counted, in the outcome's own words; of units that were kept "still there"."""
    outcome = finding.outcome
    if outcome.good and outcome.construct.text == "survival":
        return line("still there")
    return line(typed(outcome.title.text, "definition"))


def probable(item: PatientNumbers) -> Line:
    """How far the number may be off, in the same hundred, and whose interval it is; said where it cannot be said."""
    if item.format == "words":
        return ()
    if item.format == "counts":
        return line("This is the count of one study; elsewhere it may be different.")
    if item.low is None or item.high is None:
        return line("How far off this may be is not reported.")
    finding = item.finding
    did = line("Without " if is_well(finding) and not finding.outcome.good else None, ending(finding))
    is_printed = finding.kind == "estimate" or printed_limits(finding) is not None
    whose = "the report's own interval" if is_printed else "reckoned from the counts"
    return line(did, ": probably between ", item.low, " and ", item.high, " of ", HUNDRED, f" ({whose}).")


def drawing(item: PatientNumbers, mark: Picture | None = None) -> Icons | None:
    """One mark a unit, those who did well filled. mark: the evidence's own drawing of one unit.

    None below ten units, and where other endings came first: those are neither well nor badly.
    """
    finding = item.finding
    if item.counted is None or item.others is None or item.whole < DRAWN_FROM:
        return None
    well = is_well(finding)
    if competing(finding) and not well:
        return None
    filled, empty = (item.counted, item.others) if well else (item.others, item.counted)
    return Icons(
        anchor=f"marks-{slug(finding.base)}",
        title="One mark for each of a hundred" if item.format == "hundred" else "One mark for each one counted",
        finding=line(
            "Filled: ",
            None if finding.outcome.good else "without ",
            ending(finding),
            ", ",
            filled,
            ". Empty: ",
            "not so, " if finding.outcome.good else "with it, ",
            empty,
            ".",
        ),
        filled=round(item.drawn),
        total=item.whole,
        mark=mark,
    )


def start_line(finding: Finding) -> Line:
    """What an estimate rests on: how many at the start, how many still under watch at the end."""
    starting, at_risk = finding.figure("estimate/starting"), finding.figure("estimate/at_risk")
    return line(
        line(starting, f" {unit_word(finding.counted, starting)} at the start")
        if starting else line("number at the start not reported"),
        line(", ", at_risk, " still at risk at that time", few_followed(finding))
        if at_risk else line(", number at risk not reported"),
    )  # fmt: skip


def seen_again(finding: Finding) -> Line:
    """ "110 of 124 eyes whose time had come were seen again"; empty where the report's flow is not this rate's."""
    if finding.kind != "rate" or finding.level is not None or len(finding.studies) != 1:
        return ()
    stems = (f"{finding.key}/{finding.claim.id.text}/flow", f"{finding.key}/studies/{finding.studies[0].id}/flow")
    for stem in stems:
        examined = finding.book.quoted(f"{stem}/examined")
        if examined is None or finding.total is None or examined.number != finding.total:
            continue
        for field, words in (("due", "whose time had come"), ("treated", "of those treated")):
            of = finding.book.quoted(f"{stem}/{field}")
            if of is not None:
                unit = unit_word(finding.counted, of)
                of_whom = f" {unit} {words} were seen again" if field == "due" else f" treated {unit} were seen again"
                return line(examined, " of ", of, of_whom)
    return ()
