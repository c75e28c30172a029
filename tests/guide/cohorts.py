"""Invented cohorts for tests of what may stand together: claim files as their authors would write them."""

from __future__ import annotations

from guide.compendium import catalogue_of, report
from passageproof.results.findings.findings import Catalogue

QUESTION = {"questions/hole.yaml": "id: hole\ntitle: There is a hole\nsearched: {on: 2026-09-12, where: [x], by: IM}\n"}


def at(months: int = 24, tolerance: int = 6) -> tuple[str, str]:
    """A follow-up at one time, and the passage that proves it."""
    block = f"{{from: repair, timing: at, at: {months} months, tolerance: {tolerance} months, where: 'p. 2'}}"
    return block, f"[p. 2] seen at {months} months, give or take {tolerance} months"


def last_seen(low: int = 12, high: int = 60) -> tuple[str, str]:
    """A follow-up when last seen, and the passage that proves it."""
    block = f"{{from: repair, timing: last recall, minimum: {low} months, maximum: {high} months, where: 'p. 2'}}"
    return block, f"[p. 2] last recall {low} to {high} months"


def cohort(
    key: str,
    events: int,
    total: int,
    *,
    study: str = "",
    time: tuple[str, str] | None = None,
    outcome: str = "healed",
    flow: tuple[int, int] | None = None,
    more: str = "",
    treatment: str = "initial",
    described: bool = True,
    species: str = "human",
) -> dict[str, str]:
    """One report with one rate of all who were examined. flow: due and examined. more: further fields of the claim."""
    follow_up, passage = time or at()
    passages = [passage, f"[p. 3] {events} of {total} teeth"]
    if flow is not None:
        more += f", flow: {{due: {flow[0]}, examined: {flow[1]}, where: 'p. 4'}}"
        passages.append(f"[p. 4] {flow[0]} due, {flow[1]} examined")
    claim = (
        f"- {{id: all, question: hole, outcome: {outcome}, events: {events}, total: {total}, where: 'p. 3', "
        f"follow_up: {follow_up}{more}}}"
    )
    return report(
        key, claim, *passages, study=study or key, treatment=treatment, described=described, species=species
    )  # fmt: skip


def joint() -> dict[str, str]:
    """A report of the patients of arden2011 and bexley2012 together, of whom it examined the smaller share."""
    found = cohort("fowey2019", 130, 160, study="arden2011", described=False, flow=(200, 160))
    both = found["claims/fowey2019.yaml"].replace("  - id: arden2011\n", "  - id: arden2011\n  - id: bexley2012\n")
    return found | {"claims/fowey2019.yaml": both}


def by_size(
    key: str, large: tuple[int, int], small: tuple[int, int], *, study: str = "", time: tuple[str, str] | None = None,
    more: str = "", outcome: str = "healed", species: str = "human", passages: tuple[str, ...] = (),
) -> dict[str, str]:  # fmt: skip
    """One report with a table by size: events and total over 3 mm, and up to 3 mm."""
    follow_up, passage = time or at()
    claim = (
        f"""
    - id: by-size
      question: hole
      factor: size
      known_at: before
      outcome: {outcome}
      reference: up to 3 mm
      levels:
        - {{level: up to 3 mm, events: {small[0]}, total: {small[1]}}}
        - {{level: over 3 mm, events: {large[0]}, total: {large[1]}}}
      where: p. 3
      follow_up: {follow_up}
    """
        + more
    )
    table = f"[p. 3] up to 3 mm: {small[0]} of {small[1]} teeth; over 3 mm: {large[0]} of {large[1]} teeth"
    return report(key, claim, passage, table, *passages, study=study or key, species=species)


def catalogue(*files: dict[str, str], question: str = "") -> Catalogue:
    """All these reports in one compendium. question: the question file, in place of a short one."""
    merged = dict(QUESTION)
    if question:
        merged["questions/hole.yaml"] = question
    for each in files:
        merged |= each
    return catalogue_of(merged)


FIVE = ((60, 72), (50, 58), (94, 110), (74, 94), (55, 66))


def five(**fields: object) -> list[dict[str, str]]:
    """Five cohorts that agree on everything, with more than ten failures."""
    names = ("arden2011", "bexley2012", "corwen2013", "dunmore2014", "elgin2015")
    return [cohort(name, *counts, **fields) for name, counts in zip(names, FIVE, strict=True)]  # type: ignore[arg-type]


def ratio(
    key: str, measure: str, event: str, value: str, *, adjusted: str = "none", more: str = "", printed: str = "",
    time: tuple[str, str] | None = None, outcome: str = "healed", study: str = "", described: bool = True,
) -> dict[str, str]:  # fmt: skip
    """One report with one ratio or difference of over 3 mm against up to 3 mm. event: "healed, good"."""
    name, _, event_is = event.partition(", ")
    follow_up, passage = time or ("not reported", "")
    claim = (
        f"- {{id: ratio, question: hole, factor: size, known_at: before, outcome: {outcome}, reference: up to 3 mm, "
        f"where: 'p. 5', follow_up: {follow_up}, contrast: {{measure: {measure}, event: {name}, event_is: {event_is}, "
        f"level: over 3 mm, reference: up to 3 mm, value: {value}, adjusted_for: {adjusted}{more}}}}}"
    )
    told = f"[p. 5] {measure} for {name}, over 3 mm against up to 3 mm: {value}{printed}"
    return report(
        key, claim, *([passage] if passage else []), told, study=study or key, described=described
    )  # fmt: skip
