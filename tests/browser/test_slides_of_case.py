"""From the front page to the slides of one case with a thumb; the file equals what the command makes of the answers."""

from __future__ import annotations

import io
import itertools
import json
import re
import zipfile
from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import Any

import pptx
import pytest
from demo import demo_built
from passageproof.rendering.slides.deck import deck
from playwright.sync_api import Page
from site_server import SiteServer
from slides import Deck, read_deck

pytestmark = pytest.mark.browser

CASES = [
    ("root-perforation", ""),
    ("root-perforation", "hole-size=large&hole-place=crest"),
    ("exposed-pulp", "every"),
    ("broken-instrument", "every-last"),
]


@cache
def answers_of(question: str, said: str) -> frozenset[str]:
    """What is answered: as said, or of each field the first or the last answer."""
    guide = demo_built().guide
    assert guide is not None
    known = guide.talks[question].answers
    if said not in ("every", "every-last"):
        chosen = frozenset(filter(None, said.split("&")))
        assert chosen <= set(known)
        return chosen
    by_field: dict[str, list[str]] = {}
    for answer in known:
        by_field.setdefault(answer.partition("=")[0], []).append(answer)
    return frozenset(found[0 if said == "every" else -1] for found in by_field.values())


def taken(page: Page) -> bytes:
    with page.expect_download() as download:
        page.get_by_role("button", name="Slides for this case").click()
    path = download.value.path()
    assert download.value.suggested_filename.endswith("-this-case.pptx")
    return Path(path).read_bytes()


def of_case(page: Page, url: str, question: str, answers: frozenset[str]) -> bytes:
    page.goto(f"{url}{question}/#{'&'.join(sorted(answers))}", wait_until="load")
    page.locator("main a[href$='/conference/']").last.evaluate("(link) => link.click()")
    page.wait_for_url("**/conference/")
    return taken(page)


def texts(found: Deck) -> list[tuple[Any, ...]]:
    """Of each slide its name, the answer it is of, its shapes with all their paragraphs, and its notes."""
    return [
        (
            slide.name, slide.of, slide.is_spare,
            [(shape.name, [paragraph.text for paragraph in shape.paragraphs]) for shape in slide.shapes],
            [paragraph.text for paragraph in slide.notes],
        )
        for slide in found.slides
    ]  # fmt: skip


@pytest.mark.parametrize(("question", "said"), CASES, ids=["nothing answered", "two answers", "first", "last"])
def test_the_slides_of_a_case_are_those_that_the_program_makes(
    demo_server: SiteServer, opened: Callable[..., Page], question: str, said: str
) -> None:
    answers = answers_of(question, said)
    content = of_case(opened(), demo_server.url, question, answers)
    guide = demo_built().guide
    assert guide is not None
    made, wanted = read_deck(content), read_deck(deck(guide, question, answers))
    for one, other in itertools.zip_longest(texts(made), texts(wanted)):
        assert one == other
    of = {slide.of for slide in made.slides} - {""}
    assert of <= answers
    runs = [run for slide in made.slides for run in (*slide.runs, *slide.note_runs)]
    assert {run.blank.removeprefix("answer:") for run in runs if run.blank.startswith("answer:")}.isdisjoint(
        answer.partition("=")[0] for answer in answers
    )
    assert_numbers_are_figures(made)
    assert_is_whole(content, len(wanted.slides))


@cache
def ledger() -> dict[str, str]:
    rows = map(json.loads, demo_built().files["data/figures.jsonl"].splitlines())
    return {row["id"]: row["text"] for row in rows}


def assert_numbers_are_figures(made: Deck) -> None:
    on_slides = set()
    for slide in made.slides:
        for run in (*slide.runs, *slide.note_runs):
            if run.figure:
                assert ledger()[run.figure] == run.text
                on_slides.add(run.figure)
            else:
                assert run.mark or not re.search(r"\d", run.text), (slide.name, run)
    assert on_slides <= set(made.listed)
    assert made.listed.items() <= ledger().items()


def assert_is_whole(content: bytes, count: int) -> None:
    """What ECMA-376 Part 2 asks of a package: each part has a type, is led to, and leads to parts that are there."""
    with zipfile.ZipFile(io.BytesIO(content)) as packed:
        assert packed.testzip() is None
        names = packed.namelist()
        assert names[0] == "[Content_Types].xml"
        types = packed.read(names[0]).decode()
    assert len(set(names)) == len(names)
    overrides = re.findall(r'PartName="/([^"]+)"', types)
    assert len(set(overrides)) == len(overrides)
    assert set(overrides) <= set(names)
    parts = {name for name in names[1:] if not name.endswith(".rels")}
    assert {name for name in parts - set(overrides) if not name.endswith(".xml")} == set()
    presentation = pptx.Presentation(io.BytesIO(content))
    assert len(presentation.slides) == count
    reached = {part.partname.lstrip("/") for part in presentation.part.package.iter_parts()}
    assert sorted(parts ^ reached) == []
    for slide in presentation.slides:
        ids = [shape.shape_id for shape in slide.shapes]
        assert len(set(ids)) == len(ids)
        used = set(re.findall(r'r:(?:id|embed)="([^"]+)"', slide.part.blob.decode()))
        assert used <= set(slide.part.rels)


def test_from_the_front_page_the_slides_are_under_five_taps_beside_the_answers(
    demo_server: SiteServer, opened: Callable[..., Page]
) -> None:
    page = opened(has_touch=True)
    page.goto(demo_server.url, wait_until="load")
    taps = answers = 0
    page.locator("main a[href$='root-perforation/']").first.tap()
    taps += 1
    page.wait_for_url("**/root-perforation/")
    for field in ("hole-size", "hole-place"):
        page.locator(f".ask[data-field='{field}'] > ul button[data-value]:not([data-value=''])").first.tap()
        answers += 1
    chosen = frozenset(page.url.partition("#")[2].split("&"))
    assert len(chosen) == answers
    page.get_by_role("button", name="My case").tap()
    page.get_by_role("link", name="Slides and a brief for this case").tap()
    taps += 2
    page.wait_for_url("**/conference/#take-along")
    with page.expect_download() as download:
        page.get_by_role("button", name="Slides for this case").tap()
    taps += 1
    assert taps < 5
    made = read_deck(Path(download.value.path()).read_bytes())
    assert {slide.of for slide in made.slides} - {""} == chosen
    said = page.get_by_role("status").filter(has_text="among your downloads")
    assert "made on this device" in said.inner_text()


@pytest.mark.parametrize(
    ("answered", "pages"),
    [("hole-size=large&hole-place=crest", 1), ("every", 2)],
    ids=["two answers", "every field"],
)
def test_the_brief_is_a_page_or_two_of_what_stands_for_the_answers(
    demo_server: SiteServer, opened: Callable[..., Page], answered: str, pages: int
) -> None:
    answers = answers_of("root-perforation", answered)
    page = opened()
    page.add_init_script("window.print = () => { window.printed = document.body.className }")
    page.goto(f"{demo_server.url}root-perforation/#{'&'.join(sorted(answers))}", wait_until="load")
    page.locator("main a[href$='/conference/']").last.evaluate("(link) => link.click()")
    page.wait_for_url("**/conference/")
    page.get_by_role("button", name="Brief for this case").click()
    sheet = page.locator("#brief")
    sheet.wait_for()
    assert page.evaluate("window.printed") == "alone"
    guide = demo_built().guide
    assert guide is not None
    wanted = read_deck(deck(guide, "root-perforation", answers))
    said = [re.sub(r"\W?\[\d+\]", "", text) for text in sheet.locator("p").all_inner_texts()]
    factors = next(slide for slide in wanted.slides if slide.name == "factors").shape("Text")
    assert factors is not None
    assert any(paragraph.text.startswith("Size of the hole: ") for paragraph in factors.paragraphs)
    for paragraph in factors.paragraphs[:-1]:
        assert any(re.sub(r"\W?\[\d+\]", "", paragraph.text) == text for text in said), paragraph.text
    assert sheet.get_by_text("invented for demonstration").count() == 1
    for link in sheet.locator("a").all():
        assert "/sources/" in str(link.get_attribute("href"))
    sheet.evaluate("(sheet) => { sheet.classList.add('only'); document.body.classList.add('alone') }")
    paper = page.pdf(format="A4")
    assert len(re.findall(rb"/Type\s*/Page\b", paper)) <= pages


def test_without_the_network_the_page_says_what_is_missing_and_what_was_taken_once_is_kept(
    demo_server: SiteServer, opened: Callable[..., Page]
) -> None:
    page = opened(service_workers="allow")
    page.goto(f"{demo_server.url}root-perforation/conference/", wait_until="load")
    page.evaluate("async () => { await navigator.serviceWorker.ready }")
    page.reload(wait_until="load")
    context = page.context
    context.set_offline(True)
    page.get_by_role("button", name="Slides for this case").click()
    page.get_by_role("status").filter(has_text="needs the network once").wait_for()
    context.set_offline(False)
    first = taken(page)
    page.reload(wait_until="load")
    context.set_offline(True)
    assert texts(read_deck(taken(page))) == texts(read_deck(first))


def cut_short(content: bytes) -> bytes:
    return content[: len(content) // 2]


def changed_on_the_way(content: bytes) -> bytes:
    """One bit of a picture, which is stored as it is, so that the sum of its part alone can tell."""
    at = content.index(b"IDAT") + 40
    return content[:at] + bytes((content[at] ^ 1,)) + content[at + 1 :]


def packed_otherwise(content: bytes) -> bytes:
    """All parts by a way that ISO/IEC 21320-1 does not have."""
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(content)) as old, zipfile.ZipFile(out, "w", zipfile.ZIP_LZMA) as new:
        for name in old.namelist():
            new.writestr(name, old.read(name))
    return out.getvalue()


@pytest.mark.parametrize("damage", [cut_short, changed_on_the_way, packed_otherwise])
def test_slides_that_came_damaged_are_told_and_none_are_handed_over(
    demo_server: SiteServer, opened: Callable[..., Page], damage: Callable[[bytes], bytes]
) -> None:
    shipped = b"".join(demo_built().files.pieces("root-perforation/talk/slides.pptx"))
    page = opened(service_workers="block")
    page.route("**/slides.pptx", lambda route: route.fulfill(body=damage(shipped)))
    downloads: list[object] = []
    page.on("download", lambda download: downloads.append(download))
    page.goto(f"{demo_server.url}root-perforation/conference/", wait_until="load")
    page.get_by_role("button", name="Slides for this case").click()
    page.get_by_role("status").filter(has_text="No slides for this case could be made").wait_for()
    assert downloads == []
    page.unroute("**/slides.pptx")
    page.reload(wait_until="load")
    assert len(read_deck(taken(page)).slides) > 9


def test_without_a_script_the_whole_presentation_is_a_link(
    demo_server: SiteServer, opened: Callable[..., Page]
) -> None:
    page = opened(java_script_enabled=False)
    page.goto(f"{demo_server.url}root-perforation/conference/", wait_until="load")
    link = page.locator("main a[href$='/talk/slides.pptx']")
    assert "all answers" in link.inner_text()
    assert page.get_by_role("button", name="for this case").count() == 0
