"""Tables and short lines of one claim: levels, ordered grades, pairs, tests, and risks as a review prints them."""

from __future__ import annotations

from ...reading.model import Absolute, Claim, Level, Pooled, SignificanceTest
from ...reading.slugs import slug
from ...reading.values import Missing
from ...results.findings.findings import Catalogue, Finding
from ...results.saying.wording import percent, pooled, unit_word, with_withdrawn
from ...results.values.document import Table
from ...results.values.figures import Figure
from ...results.values.line import Line, Marked, line, typed


def grades_table(catalogue: Catalogue, claim: Claim, level: Level | None, base: str, label: str) -> Table:
    """The ordered grades of one outcome, with the number they are of."""
    step = f"{base}/{slug(level.level.text)}" if level is not None else base
    total = catalogue.book.quoted(f"{step}/total")
    outcomes = catalogue.evidence.vocabulary.outcomes
    rows = []
    for grade in level.grades if level is not None else claim.grades:
        named = grade.outcome or grade.words
        if named is None:
            continue
        name = f"{step}/{slug(named.text)}"
        known = outcomes.get(grade.outcome.text) if grade.outcome is not None else None
        share = catalogue.book.quoted(f"{name}/rate")
        events = catalogue.book.quoted(f"{name}/events")
        rows.append(
            (
                line(typed(known.title.text if known is not None else named.text, "definition")),
                line(events, " of ", total) if events and total else line(events or "not reported"),
                percent(share) if share is not None else line("not reported" if grade.rate is not None else ""),
            )
        )
    of = line(" of ", typed(level.level.text, "definition")) if level is not None else line()
    suffix = f", {''.join(c for c in slug(level.level.text) if not c.isdigit())}" if level is not None else ""
    header = (line("Grade"), line("Count"), line("Share as printed"))
    return Table(line("Grades", of), header, tuple(rows), f"Grades of the claim {label}{suffix}", "grades")


def p_line(finding: Finding) -> Line:
    """The P value of a ratio as printed; it decides nothing here."""
    figure = finding.figure("contrast/p")
    if figure is not None:
        return line("; ", _p(figure))
    item = finding.contrast
    return line("; P not reported") if item is not None and isinstance(item.p, Missing) else line()


def _p(figure: Figure) -> Line:
    """ "P = .02", "P < .001": a bare number behind its letter could be read as a name."""
    return line("P " if figure.text[:1] in "<>≤≥" else "P = ", figure)


def test_line(test: SignificanceTest, p: Figure | None) -> Line:
    """A test reported alone, with what it compared."""
    between: Line = line("what was compared, not reported")
    if not isinstance(test.between, Missing):
        parts: list[Line] = []
        for word in test.between:
            parts.append(line(" against " if parts else "", typed(word.text, "definition")))
        between = line(*parts)
    method = line(" (", typed(test.method.text), ")") if test.method is not None else line()
    value = _p(p) if p is not None else line("P not reported")
    return line("A test alone, ", between, ": ", value, method, "; it says nothing about how much or which way.")


def absolute_line(catalogue: Catalogue, absolute: Absolute, base: str) -> Line:
    """Risks beside a ratio as the review prints them, never computed here."""

    def figure(name: str) -> Figure | None:
        return catalogue.book.quoted(f"{base}/contrast/absolute/{name}")

    per, reference, level = figure("per"), figure("reference"), figure("level")
    low, high = figure("interval/low"), figure("interval/high")
    return line(
        "As the review prints it, per ", per or "a number not reported",
        ": ", reference or "not reported", " with the reference, ", level or "not reported", " with the level",
        line(" (", low, " to ", high, ")") if low and high else None,
        ".",
    )  # fmt: skip


def pooled_line(catalogue: Catalogue, finding: Finding) -> Line:
    """A review's own pooled result with its model and how much its studies differ."""
    block: Pooled | None = finding.claim.pooled
    model = line("; model: ", typed(block.model.text)) if block is not None and block.model is not None else line()
    i2, sd = finding.figure("pooled/i2"), finding.figure("pooled/sd")
    # Beside a contrast the ratio has a line of its own, and this one tells what it was pooled from.
    said = pooled(finding) if finding.claim.contrast is None else _pooled_from(finding)
    return line(
        said,
        model,
        line("; I", Marked("convention", "²"), " ", percent(i2)) if i2 is not None else None,
        line("; standard deviation of the studies' percentages ", percent(sd)) if sd is not None else None,
    )


def _pooled_from(finding: Finding) -> Line:
    studies, units = finding.figure("pooled/studies"), finding.figure("pooled/of")
    return line(
        "Pooled by the review",
        line(" over ", studies, " studies") if studies is not None else ", over how many studies not reported",
        line(" and ", units, " ", unit_word(finding.units.get(units.unit, finding.counted), units))
        if units is not None
        else None,
        with_withdrawn(finding),
    )
