"""The name of a report carries what must be known before one leans on it: how far it was read, and that nobody checked."""

from __future__ import annotations

from pathlib import Path

import pytest
from demo import demo_built, demo_evidence
from guide.compendium import catalogue_of, report, said
from passageproof.results.saying.source_reference import source_link
from passageproof.results.values.document import walk
from passageproof.results.values.line import Link

ROOT = Path(__file__).parents[3]
CLAIM = "- {id: all, question: hole, outcome: healed, events: 17, total: 20, where: 'p. 3', follow_up: not reported}"
FILES = {"questions/hole.yaml": "id: hole\ntitle: There is a hole\n"}
for _key, _study in (("marlow2019", "northquay"), ("arden2021", "southquay")):
    FILES |= report(_key, CLAIM, "[p. 3] 17 of 20 teeth", study=_study)
CHECKED = "arden2021: {state: none found, on: 2026-10-20, by: hand}\n"


@pytest.mark.parametrize(
    ("status", "wanted"),
    [
        (CHECKED, "Marlow 2019, not checked for retraction"),
        (
            f"{CHECKED}marlow2019: {{state: unknown, on: 2026-10-20, by: hand}}\n",
            "Marlow 2019, not checked for retraction",
        ),
        (f"{CHECKED}marlow2019: {{state: none found, on: 2026-10-20, by: hand}}\n", "Marlow 2019"),
        # Where nobody checks at all every name would say the same: the foot of each page does.
        ("", "Marlow 2019"),
    ],
    ids=["nobody looked", "looked and not found out", "looked", "nobody looks"],
)
def test_report_that_nobody_checked_among_others_says_so_with_its_name(status: str, wanted: str) -> None:
    catalogue = catalogue_of(FILES | ({"status.yaml": status} if status else {}))
    assert said(source_link("marlow2019", catalogue)) == wanted
    assert said(source_link("arden2021", catalogue)) == "Arden 2021"


def test_names_on_every_page_of_the_demo_say_it_of_the_unchecked_alone() -> None:
    built = demo_built()
    assert built.guide is not None
    statuses = demo_evidence().statuses
    found: dict[bool, set[str]] = {True: set(), False: set()}
    for page in built.guide.pages:
        if page.kind not in ("question", "factor", "over-time", "patient", "conference"):
            continue
        for part in walk(page.blocks):
            key = part.target.removeprefix("sources/").rstrip("/") if isinstance(part, Link) else ""
            if key in demo_evidence().reports and part.target.startswith("sources/"):
                status = statuses.get(key)
                is_open = status is None or status.state.text == "unknown"
                found[is_open].add(key)
                assert ("not checked for retraction" in said(part.line)) is is_open
    assert "xanthidou2026bypass" in found[True]
    assert "dovrell2017crest" in found[False]
