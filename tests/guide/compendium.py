"""A small compendium, written as its authors would write it and read through the front door."""

from __future__ import annotations

import tempfile
import textwrap
from pathlib import Path

from passageproof.audit.whole import audit
from passageproof.problems import as_text
from passageproof.reading.evidence import read_evidence
from passageproof.rendering.blocks import Setting, blocks_html
from passageproof.rendering.inline import Place
from passageproof.results.findings.findings import Catalogue
from passageproof.results.values.document import Page, walk
from passageproof.results.values.figures import Figure
from passageproof.results.values.line import Line

COMPENDIUM = """\
format: 1
title: Hard questions
programme: Fenwick Graduate Endodontics
demonstration: yes
evidence: {date: 2026-10-30, release: 1.2.0}
licences: {text: CC-BY-4.0, data: CC0-1.0}
repository: https://example.org/fenwick/guide
people: {IM: {name: Ines Marlow, interests: none declared}, TO: {name: Tam Okafor, interests: none declared}}
"""

VOCABULARY = """\
factors:
  size:
    title: Size of the hole
    role: prognostic
    unit: mm
    levels: [{id: small, title: up to 3 mm, range: up to 3 mm}, {id: large, title: over 3 mm, range: over 3 mm}]
  way:
    title: What was done
    role: treatment
    levels: [{id: cap, title: direct cap}, {id: full, title: full pulpotomy}]
outcomes:
  healed: {title: healed, construct: success, strictness: strict, basis: film, threshold: normal space, good: yes}
  lost: {title: healing lost, construct: reversal, strictness: strict, basis: film, threshold: new shadow, good: no,
    reverses: healed}
  kept: {title: tooth there, construct: survival, strictness: not applicable, basis: seen, threshold: in place,
    good: yes}
"""

STUDY = """\
  - id: {study}
    species: {species}
    design: cohort
    selection: consecutive
    population: {{dentition: permanent, treatment: {treatment}}}
    setting: {{operators: residents, centre: {centre}}}
    unit: tooth
    where: p. 1, Methods
"""


def written(files: dict[str, str], folder: Path) -> None:
    """The files below evidence/, a compendium and a vocabulary added where they are missing."""
    for name, text in ({"compendium.yaml": COMPENDIUM, "vocabulary.yaml": VOCABULARY} | files).items():
        path = folder / "evidence" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(textwrap.dedent(text), "utf-8")


def catalogue_of(files: dict[str, str]) -> Catalogue:
    """The findings of a compendium that passes its check. files: texts by path below evidence/."""
    with tempfile.TemporaryDirectory() as folder:
        written(files, Path(folder))
        evidence = read_evidence(Path(folder))
    outcome = audit(evidence)
    assert outcome.passes, "\n".join(as_text(problem) for problem in outcome.problems if problem.is_open)
    return Catalogue(evidence, outcome)


def report(
    key: str,
    claims: str,
    *passages: str,
    study: str = "fenwick",
    species: str = "human",
    treatment: str = "initial",
    described: bool = True,
) -> dict[str, str]:
    """A source and its claim file.

    claims: items as they stand below `claims:`. passages: each with its locator. described: False where another report
    tells whom the study is about.
    """
    text = "\n".join(["[p. 1, Methods] residents, one centre", *passages])
    facts = STUDY.format(study=study, species=species, treatment=treatment, centre=study.title())
    if species != "human":
        lines = [f"  - id: {study}", f"species: {species}", "design: experiment", "unit: tooth", "where: p. 1, Methods"]
        facts = "\n    ".join(lines) + "\n"
    return {
        f"sources/{key}.bib": (
            f"@article{{{key},\n author = {{{key.title().rstrip('0123456789')}, Ada}}, title = {{Report of {study}}},\n"
            f" journal = {{Annals}}, year = {key[-4:]}, annotation = {{\n{text}\n}}}}\n"
        ),
        f"claims/{key}.yaml": (
            f"source: {key}\nread: {{by: IM, on: 2026-02-03, depth: full text}}\n"
            f"studies:\n{facts if described else f'  - id: {study}'}\nclaims:\n"
            + textwrap.indent(textwrap.dedent(claims).strip("\n"), "  ") + "\n"
        ),
    }  # fmt: skip


def nothing_named(text: str) -> Line | None:
    """No computed result is named in these texts."""
    return None


def html_of(page: Page) -> str:
    """The page as rendering prints it, with the mark of a demonstration."""
    return blocks_html(page.blocks, Setting(Place(page.address), True, lambda text: text))


def said(value: object) -> str:
    """All text below a page, block or line in the order of reading, figures as they are printed."""
    out: list[str] = []
    _say(value, out)
    return " ".join("".join(out).split())


_BLOCKS = tuple(f"passageproof.results.values.{name}" for name in ("document", "drawings", "line"))


def _say(value: object, out: list[str]) -> None:
    if isinstance(value, str):
        out.append(value)
    elif isinstance(value, Figure):
        out.append(value.text)
    elif isinstance(value, tuple):
        if hasattr(value, "_fields"):
            names = value._fields  # type: ignore[attr-defined]
            hidden = (
                "kind",
                "anchor",
                "target",
                "label",
                "address",
                "edit",
                "description",
                "touched_by",
                "search",
                "trail",
                "of",
            )
            is_block = type(value).__module__ in _BLOCKS
            for name in names:
                if not (is_block and name in hidden):
                    _say(getattr(value, name), out)
            out.append("\n" if is_block and type(value).__name__ not in ("Marked", "Link", "Span") else "")
        else:
            for item in value:
                _say(item, out)
                # A line or row among others; the parts of one line follow each other without a blank.
                if isinstance(item, tuple) and not hasattr(item, "_fields"):
                    out.append(" ")


def figures(value: object) -> dict[str, Figure]:
    """Every figure below a page or block, by id."""
    return {item.id: item for item in walk(value) if isinstance(item, Figure)}
