"""What changed: notices by day, what took the place of what, what was read."""

from __future__ import annotations

import re
from html import unescape

from guide.compendium import catalogue_of, html_of, nothing_named, report
from passageproof.guide.about.changes_page import changes_page

QUESTION = {"questions/hole.yaml": "id: hole\ntitle: There is a hole\n"}
CLAIM = "- {id: all, question: hole, outcome: healed, events: 39, total: 47, where: 'p. 3', follow_up: not reported}"
MARLOW = report("marlow2019", CLAIM, "[p. 3] healed: 39 of 47 teeth")
TOVE = report("tove2021", CLAIM.replace("39", "30"), "[p. 3] healed: 30 of 47 teeth", study="other")


def text_of(files: dict[str, str]) -> str:
    html = html_of(changes_page(catalogue_of(files | QUESTION), nothing_named))
    return " ".join(unescape(re.sub(r"<[^>]+>", "", re.sub(r"</(td|th|p|li|h\d)>", " ", html))).split())


def test_release_and_evidence_date_come_first() -> None:
    assert text_of({}).startswith("Release 1.2.0, evidence to 2026-10-30.")


def test_notices_stand_newest_first_by_the_day_of_the_notice() -> None:
    status = (
        "marlow2019: {state: corrected, on: 2026-10-20, by: hand, notice: {on: 2020-01-02}}\n"
        "tove2021: {state: retracted, on: 2026-09-01, by: hand, notice: {on: 2024-05-06}}\n"
    )
    text = text_of(MARLOW | TOVE | {"status.yaml": status})
    assert text.index("2024-05-06 Tove 2021 retracted") < text.index("2020-01-02 Marlow 2019 corrected")


def test_report_without_a_notice_is_in_no_row_of_notices() -> None:
    status = {"status.yaml": "marlow2019: {state: none found, on: 2026-10-20, by: hand}\n"}
    assert "None of the reports here is known to be corrected or retracted." in text_of(MARLOW | status)


def test_later_report_of_the_same_people_is_said_to_count() -> None:
    later = report("okafor2023", CLAIM, "[p. 3] healed: 39 of 47 teeth", described=False)
    assert "healed of Okafor 2023 counts in place of healed of Marlow 2019" in text_of(MARLOW | later)


def test_joint_report_of_two_studies_does_not_both_win_and_lose() -> None:
    other = report("tove2021", CLAIM.replace("39", "30"), "[p. 3] healed: 30 of 47 teeth", study="other")
    joint = report("okafor2023", CLAIM.replace("39", "60").replace("47", "80"), "[p. 3] healed: 60 of 80 teeth",
                   described=False)  # fmt: skip
    joint["claims/okafor2023.yaml"] = joint["claims/okafor2023.yaml"].replace(
        "  - id: fenwick", "  - id: fenwick\n  - id: other"
    )
    text = text_of(MARLOW | other | joint)
    assert "of Okafor 2023 counts in place of healed of Marlow 2019" in text
    assert "of Okafor 2023 counts in place of healed of Tove 2021" in text
    assert "counts in place of healed of Okafor 2023" not in text


def test_reports_stand_by_the_day_they_were_read() -> None:
    files = TOVE | {"claims/tove2021.yaml": TOVE["claims/tove2021.yaml"].replace("2026-02-03", "2026-05-06")}
    text = text_of(MARLOW | files)
    assert text.index("2026-05-06 Tove 2021") < text.index("2026-02-03 Marlow 2019")
