"""Slips that advice used to mislead about: each is told once, on its line, with what to type."""

from __future__ import annotations

import pytest
from passageproof.problems import as_text

from .conftest import STUDY

BIB = """\
@article{x,
  author = {Marlow, Ines}, title = {T}, journal = {J}, year = 2019, volume = 7, pages = {1--12},
  annotation = {
    [p. 1] 58 teeth treated, 42,300 records read, seen at 30 months
    [p. 2] healed: 39 of 47 teeth (83%), P < .05
  }
}
"""
CLAIM = """\
- id: a
  question: hole
  outcome: healed
  events: 39
  total: 47
  success_rate: 83%
  where: p. 2
  follow_up: not reported
"""
AT = "follow_up: {from: repair, timing: at, at: 30 years, where: p. 1}"
CLAIMS = "evidence/claims/x.yaml"


@pytest.fixture
def told(audited, report_text):
    """What the check says where some text of the report or its entry is another."""

    def find(*changes: tuple[str, str]) -> list[str]:
        bib, report = BIB, report_text("x", CLAIM, STUDY)
        for old, new in changes:
            assert old in bib or old in report, old
            bib = bib.replace(old, new)
            report = report.replace(old, new)
        found = audited({"sources/x.bib": bib, "claims/x.yaml": report}).problems
        return [as_text(problem) for problem in found if problem.is_open]

    return find


def test_the_report_as_it_should_be_is_clean(told) -> None:
    assert told() == []


FROM = "the passage typed from p. {} (evidence/sources/x.bib:{})"
SLIPS = {
    "decimal comma": (
        [("success_rate: 83%", "success_rate: 83,0%")],
        f'{CLAIMS}:18:19: "83,0%" is not a percentage from 0% to 100% such as 83% or 5.40% [not-a-percentage]',
        "did you mean 83.0%?",
    ),
    "years for months": (
        [("follow_up: not reported", AT)],
        f'{CLAIMS}:20:47: "30 years" is typed for the time of the follow-up (`at` under `follow_up`), but '
        f"{FROM.format(1, 4)} has 30 months [figure-means-something-else]",
        "type it with the unit that is printed: 30 months",
    ),
    "P without its sign": (
        [("follow_up: not reported", "follow_up: not reported\n    test: {between: [a, b], p: .05}")],
        f'{CLAIMS}:21:32: ".05" is typed for the P value of the test (`p` under `test`), but {FROM.format(2, 5)} has '
        "P < .05 [figure-means-something-else]",
        'type it with the sign that is printed: p: "<.05"',
    ),
    "events and total exchanged": (
        [("events: 39", "events: 47"), ("total: 47", "total: 39")],
        f'{CLAIMS}:17:12: "39" is typed for the number that the rate is out of (`total`), but {FROM.format(2, 5)} has '
        "39 of 47: are `events` and `total` swapped? [figure-means-something-else]",
        "events: 39, total: 47",
    ),
    "no-break space behind a colon": (
        [("events: 39", "events:\u00a039")],
        f"{CLAIMS}:16:12: there is a no-break space (U+00A0) here, which YAML takes for a letter: type a plain blank "
        "[yaml-syntax]",
        "delete it, then press the space bar: no editor shows the difference",
    ),
    "no-break space as indent": (
        [("    total: 47", "  \u00a0 total: 47")],
        f"{CLAIMS}:17:3: there is a no-break space (U+00A0) here, which YAML takes for a letter: type a plain blank "
        "[yaml-syntax]",
        "delete it, then press the space bar: no editor shows the difference",
    ),
    "no-break space behind a number": (
        [("events: 39", "events: 39\u00a0")],
        f'{CLAIMS}:16:13: "39" is not a whole number such as 39 or 42,300 [not-a-count]',
        "there is a no-break space (U+00A0) in it: type a plain blank in its place, or delete it",
    ),
    "no-break space in a word of a list": (
        [("selection: consecutive", "selection: not\u00a0applicable")],
        f'{CLAIMS}:7:16: "not applicable" is not one of: consecutive, selected, unclear, not applicable [not-in-list]',
        "there is a no-break space (U+00A0) in it: type a plain blank in its place, or delete it",
    ),
    "thousands comma in braces": (
        [("    where: p. 1", "    flow: {examined: 42,300}\n    where: p. 1")],
        f'{CLAIMS}:11:25: this number was cut off at the comma before "300": put it in quotes [comma-cut-text]',
        'write examined: "42,300"',
    ),
    "passage in round brackets": (
        [("[p. 2]", "(p. 2)")],
        f'{CLAIMS}:19:12: x has no passage "p. 2" (evidence/sources/x.bib:1); it stands in round brackets at '
        "evidence/sources/x.bib:5:5 [where-unknown]",
        "a passage begins with square ones: [p. 2]",
    ),
    "pages reversed": (
        [("{1--12}", "{12--1}")],
        "evidence/sources/x.bib:2:90: x has the pages 12--1, of which the last comes before the first [pages-reversed]",
        "pages = {1--12}",
    ),
    "a page that has no passage": (
        [("where: p. 2", "where: p. 12")],
        f'{CLAIMS}:19:12: x has no passage "p. 12" (evidence/sources/x.bib:1) [where-unknown]',
        "its passages: p. 1; p. 2",
    ),
    "an outcome that nobody declared": (
        [("outcome: healed", "outcome: mended")],
        f'{CLAIMS}:15:14: vocabulary.yaml has no outcome "mended" [outcome-unknown]',
        "there are: diseased, healed, kept, reversed; or define it under `outcomes` of evidence/vocabulary.yaml",
    ),
    "dash left out before the first item": (
        [("- id: a", "id: a")],
        f'{CLAIMS}:13:3: a dash is missing before "id: a": each item of a list begins with "- " [yaml-syntax]',
        "- id: a",
    ),
    "dash left out before the first study": (
        [("  - id: fenwick", "    id: fenwick")],
        f"{CLAIMS}:4:5: a block of fields is given where a list of studies, each after a dash is expected "
        "[wrong-shape]",
        "begin each with a dash: - id: fenwick",
    ),
    "dash left out before a later item": (
        [("    follow_up: not reported", "    follow_up: not reported\n" + "".join(
            f"    {line.strip().removeprefix('- ')}\n" for line in CLAIM.replace("id: a", "id: b").splitlines()
        ))],
        f'{CLAIMS}:21:5: a dash is missing before "id: b": a claim begins here again [duplicate-field]',
        "- id: b",
    ),
}  # fmt: skip


@pytest.mark.parametrize("slip", SLIPS)
def test_a_slip_is_told_once_with_its_mend(told, slip: str) -> None:
    changes, line, mend = SLIPS[slip]
    (text,) = told(*changes)
    first, _, rest = text.partition("\n")
    assert first == line
    assert (rest.splitlines() or [""])[0].strip() == mend
