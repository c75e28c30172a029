"""The ways side by side of a guide made to break the table: eight ways, long titles, blanks, six digits, no counts."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from guide.compendium import report, written
from passageproof.build import build_files
from passageproof.publishing import publish
from playwright.sync_api import Page
from site_server import SiteServer, serving

pytestmark = pytest.mark.browser

LONG = (
    "Intraligamentary pseudohypoparathyroidectomy with autotransplantation of the contralateral premolar, step by step"
)
WAYS = ["Cap", LONG, "A", "Leave", "Wait and see again", "Refer to somebody", f"{LONG} and again", "Extract"]
LEVELS = [f"way {name}" for name in "abcdefgh"]
VOCABULARY = f"""\
factors:
  way:
    title: What was done
    role: treatment
    levels: [{", ".join(f"{{id: w{at}, title: {title}}}" for at, title in enumerate(LEVELS))}]
outcomes:
  healed: {{title: healed beyond any doubt of the examiners, construct: success, strictness: strict, basis: film,
    threshold: normal space, good: yes}}
  kept: {{title: tooth there, construct: survival, strictness: not applicable, basis: seen, threshold: in place,
    good: yes}}
"""
AT = "{from: repair, timing: at, at: 24 months, where: p. 2}"
REGISTER = report(
    "register2019",
    f"""
    - id: by-way
      question: hole
      factor: way
      known_at: during
      reference: {LEVELS[0]}
      outcome: healed
      where: p. 3, Table 2
      follow_up: {AT}
      levels:
        - {{level: {LEVELS[0]}, events: 123456, total: 234567, success_rate: 52.6%}}
        - {{level: {LEVELS[1]}, events: 654321, total: 876543, success_rate: 74.6%}}
    """,
    "[p. 2] all were examined at 24 months",
    f"[p. 3, Table 2] healed: {LEVELS[0]} 123456 of 234567 teeth (52.6%); {LEVELS[1]} 654321 of 876543 teeth (74.6%)",
)
IN_WORDS = report(
    "wordsonly2020",
    f"""
    - id: by-way
      question: hole
      factor: way
      known_at: during
      reference: {LEVELS[0]}
      outcome: kept
      where: p. 3
      follow_up: {AT}
      levels:
        - {{level: {LEVELS[2]}, direction: worse, stated: words only}}
    """,
    "[p. 2] all were examined at 24 months",
    f"[p. 3] fewer teeth were there after {LEVELS[2]} than after {LEVELS[0]}",
    study="brackwater",
)
ASKS = "- {words: Aninstrumentwhosenamenobodyeverdividedbecauseitisonewordaltogether., basis: {kind: common practice}}"
OPTIONS = "\n".join(
    f"  - id: o{at}\n    title: {title!r}\n    is: {{factor: way, level: w{at}}}\n"
    + (f"    asks:\n      {ASKS}\n" if at % 2 else "")
    + f"    for: [{{words: It is {at}., basis: {{kind: common practice}}}}]\n    against: []\n    ready: []"
    for at, title in enumerate(WAYS)
)
QUESTION = f"id: hole\ntitle: There is a hole\nfactors: [way]\noptions:\n{OPTIONS}\n"


@pytest.fixture(scope="module")
def server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[SiteServer]:
    folder: Path = tmp_path_factory.mktemp("broken")
    written(REGISTER | IN_WORDS | {"questions/hole.yaml": QUESTION, "vocabulary.yaml": VOCABULARY}, folder)
    built = build_files(folder)
    assert built.guide is not None, [problem.message for problem in built.problems if problem.is_open]
    publish(folder, folder / "site", built)
    with serving(folder / "site") as server:
        yield server


@pytest.fixture
def table(server: SiteServer, opened: Callable[..., Page]) -> Callable[[int], Page]:
    """The question page at a width, its table open."""

    def make(width: int) -> Page:
        page = opened(viewport={"width": width, "height": 740})
        page.goto(f"{server.url}hole/", wait_until="load")
        page.evaluate("document.querySelector('details.beside').open = true")
        return page

    return make


@pytest.mark.parametrize("width", [320, 360, 768, 1280])
def test_nothing_is_cut_and_nothing_lies_over_another(table: Callable[[int], Page], width: int) -> None:
    page = table(width)
    assert page.locator("table.ways tbody tr").count() == len(WAYS)
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    boxes = page.evaluate(
        """() => [...document.querySelectorAll("table.ways tbody :is(th, td)")].filter((cell) => cell.checkVisibility())
            .map((cell) => {
                const box = cell.getBoundingClientRect();
                const range = document.createRange();
                range.selectNodeContents(cell);
                const text = range.getBoundingClientRect();
                return {left: box.left, right: box.right, top: box.top, bottom: box.bottom,
                        over: Math.max(text.right - box.right, text.bottom - box.bottom, box.left - text.left)};
            })"""
    )
    assert len(boxes) > 2 * len(WAYS)
    assert max(box["over"] for box in boxes) <= 1
    for at, one in enumerate(boxes):
        for other in boxes[at + 1 :]:
            apart = (
                one["right"] <= other["left"] + 1 or other["right"] <= one["left"] + 1
                or one["bottom"] <= other["top"] + 1 or other["bottom"] <= one["top"] + 1
            )  # fmt: skip
            assert apart, (one, other)
    box = page.locator(".table-box:has(table.ways)")
    assert box.evaluate("(part) => part.scrollWidth - part.clientWidth") <= 1


@pytest.mark.parametrize("width", [320, 360, 1280])
def test_long_numbers_stand_whole_and_blanks_are_said(table: Callable[[int], Page], width: int) -> None:
    page = table(width)
    rows = page.locator("table.ways tbody tr")
    assert "123456 of 234567" in rows.nth(0).inner_text().replace("\n", " ")
    heights = (
        rows.nth(0)
        .locator(".figure")
        .evaluate_all("(numbers) => numbers.map((number) => number.getClientRects().length)")
    )
    assert heights
    assert set(heights) == {1}
    for row in rows.all()[3:]:
        assert "not known" in row.inner_text()
    for row, title in zip(rows.all(), WAYS, strict=True):
        assert row.locator("th").inner_text() == title
