"""The check for whoever reviews a change: what is open, and of each report of the change who read it and which words
prove which figure."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence

from ..problems import Problem, counted
from ..proof.proof import Audit, Proof
from ..reading.latex import readable_text
from ..reading.model import Evidence
from ..reading.report_model import Report
from ..review_words import as_words
from .changed_files import code_among

MOST = 200
"""So many problems, and so many lines of a report, are printed; a hosting site cuts what is longer than a megabyte."""
_WORDINGS = frozenset({"level", "reference", "range"})
"""Fields whose numbers are part of a name."""
_AROUND = 60
"""Characters of a passage before its first proved number and behind its last."""


def as_markdown(evidence: Evidence, outcome: Audit, changed: Collection[str] | None) -> str:
    """The whole summary. changed: files of the change from the root; None where that is not known: then every report is
    told of by its readers alone."""
    return "\n".join(_lines(evidence, outcome, changed)) + "\n"


def _lines(evidence: Evidence, outcome: Audit, changed: Collection[str] | None) -> Iterator[str]:
    yield "# What the check says"
    yield ""
    proved = len(outcome.proofs)
    yield (
        f"**{counted(outcome.problems)}**; {proved + outcome.unproved} figures quoted, "
        f"{outcome.unproved} without proof."
    )
    yield from _code(changed or ())
    yield from _open(outcome.problems)
    if changed is None:
        yield from _readers(evidence, list(evidence.reports.values()))
        return
    touched = [report for report in evidence.reports.values() if _is_touched(report, evidence, changed)]
    if not touched:
        yield ""
        yield "No report is touched."
    for report in touched:
        yield from _report(evidence, report, outcome)


def _code(changed: Collection[str]) -> Iterator[str]:
    code = code_among(changed)
    if code:
        named = ", ".join(f"`{path.replace('`', '')}`" for path in code[:12])
        further = f" and {len(code) - 12} more" if len(code) > 12 else ""
        yield ""
        yield (
            f"**Code, not evidence:** {named}{further}. No rule of the check speaks of these: somebody who keeps the "
            "program reads them."
        )


def _open(problems: Sequence[Problem]) -> Iterator[str]:
    still_open = [problem for problem in problems if problem.is_open]
    if not still_open:
        return
    yield ""
    yield "## To mend or to answer"
    yield ""
    for problem in still_open[:MOST]:
        hint = "".join(f"<br>{as_words(line)}" for line in problem.hint.splitlines())
        yield f"- `{problem.position}` {as_words(problem.message)} ({problem.rule}){hint}"
    if len(still_open) > MOST:
        yield f"- and {len(still_open) - MOST} more: `check` has them all"


def _readers(evidence: Evidence, reports: Sequence[Report]) -> Iterator[str]:
    once = [report.key for report in reports if report.checked is None]
    yield ""
    yield f"{len(reports)} reports; {len(reports) - len(once)} of them read by a second person."
    if once:
        named = ", ".join(as_words(key) for key in once[:MOST])
        yield ""
        yield f"Re-read by nobody yet: {named}" + (f" and {len(once) - MOST} more" if len(once) > MOST else "")


def _is_touched(report: Report, evidence: Evidence, changed: Collection[str]) -> bool:
    source = evidence.sources.get(report.key)
    return report.file in changed or (source is not None and source.position.file in changed)


def _report(evidence: Evidence, report: Report, outcome: Audit) -> Iterator[str]:
    source = evidence.sources.get(report.key)
    title = source.fields["title"].text if source is not None and "title" in source.fields else "no entry of this key"
    yield ""
    yield f"## {as_words(report.key)}: {as_words(readable_text(title))}"
    yield ""
    yield _who(evidence, report)
    if report.nothing_claimed is not None:
        yield ""
        yield f"No claim is drawn from it: {as_words(report.nothing_claimed.text)}"
    yield from _figures(report, outcome)
    yield from _questions(report, outcome.problems)


def _who(evidence: Evidence, report: Report) -> str:
    read = report.read
    depth = f"{read.depth.text}, {read.what.text}" if read.what is not None else read.depth.text
    first = f"Read by {_name(evidence, read.by.text)} on {read.on.text} ({as_words(depth)})."
    if report.checked is None:
        return f"{first} **Re-read by nobody yet**: a second person has still to."
    return f"{first} Re-read by {_name(evidence, report.checked.by.text)} on {report.checked.on.text}."


def _name(evidence: Evidence, sign: str) -> str:
    known = evidence.compendium.people.get(sign) if evidence.compendium is not None else None
    return as_words(readable_text(known.name.text) if known is not None else sign)


def _figures(report: Report, outcome: Audit) -> Iterator[str]:
    """By claim and passage: the words with the numbers in them that are proved, what ties each, what is located."""
    groups: dict[tuple[str, str], list[Proof]] = {}
    for proof in outcome.proofs.values():
        steps = proof.id.split("/")
        if steps[0] == report.key and _WORDINGS.isdisjoint(steps[2:]):
            groups.setdefault((steps[1], proof.passage.bracket), []).append(proof)
    if not groups:
        return
    yield ""
    yield "What is proved, in the words that prove it:"
    yield ""
    for number, ((claim, bracket), proofs) in enumerate(groups.items()):
        if number == MOST:
            yield f"- and {len(groups) - MOST} more: the page of the report has them all"
            return
        yield f"- **{as_words(claim)}**, {as_words(bracket)}: “{_shown(proofs)}”"
        tied = [f"{_field(proof)} ({_ties(proof)})" for proof in proofs if proof.ties]
        located = [_field(proof) for proof in proofs if not proof.ties]
        if tied:
            yield f"  - tied by these words: {'; '.join(tied)}"
        if located:
            yield f"  - only located, what they count is known from who read it: {', '.join(located)}"


def _ties(proof: Proof) -> str:
    return ", ".join(dict.fromkeys(tie.of for tie in proof.ties))


def _field(proof: Proof) -> str:
    return as_words("/".join(proof.id.split("/")[2:]))


def _shown(proofs: Sequence[Proof]) -> str:
    """The part of a passage that holds these numbers, each in bold."""
    text = proofs[0].passage.text
    marks = sorted({(proof.outer_start, proof.outer_end) for proof in proofs})
    place = max(0, marks[0][0] - _AROUND)
    last = min(len(text), max(end for _, end in marks) + _AROUND)
    out = ["… " if place else ""]
    for start, end in marks:
        if start < place:
            continue
        out += [_plain(text[place:start]), "**", as_words(text[start:end]), "**"]
        place = end
    out += [_plain(text[place:last]), " …" if last < len(text) else ""]
    return "".join(out).strip()


def _plain(text: str) -> str:
    """Words between two numbers; a blank at their ends stays."""
    inner = as_words(text)
    if not inner:
        return " " if text else ""
    return (" " if text[0].isspace() else "") + inner + (" " if text[-1].isspace() else "")


def _questions(report: Report, problems: Sequence[Problem]) -> Iterator[str]:
    about = [problem for problem in problems if problem.position.file == report.file and problem.severity == "ask"]
    if not about:
        return
    yield ""
    yield "Asked about:"
    yield ""
    for problem in about[:MOST]:
        reason = problem.acknowledged
        answer = "**not answered yet**" if reason is None else f"answered: {as_words(reason)}"
        yield f"- {as_words(problem.message)}: {answer}"
