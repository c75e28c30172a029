"""What has no room on a slide goes to a further one: nothing is lost, nothing is smaller, nothing overflows."""

from __future__ import annotations

import pytest
from passageproof.rendering.slides.fitting import BEFORE, SIZES, SMALLEST, Fitted, fitted
from passageproof.rendering.slides.own_template import HEIGHT, ROOMS, WIDTH
from passageproof.rendering.slides.pieces import text_of
from passageproof.rendering.slides.widths import lines_of, text_width
from passageproof.results.values.line import Line, Marked, line
from passageproof.results.values.talk import Group, Said, Slide, Talk

WORDS = "of those seen again most had healed and some had not been looked at since the day of treatment "


def pages(*slides: Slide, is_for_case: bool = False) -> list[Fitted]:
    numbers: dict[str, int] = {}
    talk = Talk("hole", "A hole", slides, {})
    return fitted(
        talk, ROOMS, lambda key: numbers.setdefault(key, len(numbers) + 1), lambda blank: "", is_for_case=is_for_case
    )


def slide(*lines: Line, title: str = "Title", kind: str = "", is_spare: bool = True) -> Slide:
    body = tuple(Group((Said(said, kind),)) for said in lines)  # type: ignore[arg-type]
    return Slide("one", "Text", line(title), body, is_spare=is_spare)


def text(found: list[Fitted]) -> str:
    return "".join(text_of(paragraph.runs) for page in found for paragraph in page.paragraphs)


def height(page: Fitted) -> float:
    """Of the text of a slide, in points, with lines broken as the table of widths has them."""
    width = ROOMS[page.layout].body.width
    return sum(each.height(width) for each in page.paragraphs) + BEFORE * (len(page.paragraphs) - 1)


LONG = {
    "a long sentence": (line(WORDS * 40),),
    "many sentences": tuple(line(WORDS) for _ in range(60)),
    "one word without a blank": (line("w" * 3000),),
    "typed text with numbers": (line(Marked("words", "seen in 12 of 40 visits " * 80)),),
    "nothing": (line(""),),
}


@pytest.mark.parametrize("kind", ["", "lead", "quiet", "item"])
@pytest.mark.parametrize("name", LONG)
def test_a_slide_never_overflows_and_loses_nothing(name: str, kind: str) -> None:
    found = pages(slide(*LONG[name], kind=kind))
    assert text(found).replace(" ", "") == "".join(text_of_line(said) for said in LONG[name]).replace(" ", "")
    assert max(height(page) for page in found) <= ROOMS["Text"].body.height


def text_of_line(said: Line) -> str:
    return "".join(part if isinstance(part, str) else part.text for part in said)  # type: ignore[union-attr]


def test_what_belongs_together_stays_on_one_slide() -> None:
    groups = tuple(Group((Said(line(WORDS * 2)), Said(line(WORDS), "quiet"))) for _ in range(9))
    found = pages(Slide("one", "Text", line("Title"), groups, is_spare=True))
    assert len(found) > 1
    assert all(len(page.paragraphs) % 2 == 0 for page in found)


def test_a_heading_never_ends_a_slide() -> None:
    body = tuple(Group((Said(line(WORDS), "lead" if index % 2 else ""),)) for index in range(40))
    found = pages(Slide("one", "Text", line("Title"), body, is_spare=True))
    assert all(page.paragraphs[-1].kind != "lead" for page in found[:-1])


def test_a_long_title_is_shortened_and_stands_whole_below() -> None:
    (first, *_) = pages(slide(line("said"), title=WORDS * 4))
    assert text_of(first.title).endswith("…")
    room = ROOMS["Text"]
    assert len(lines_of(text_of(first.title), 28, room.title.width, is_bold=True)) <= 2
    assert text_of(first.paragraphs[0].runs) == WORDS * 4


def test_what_a_slide_of_the_talk_has_no_room_for_comes_first_behind_the_end() -> None:
    talk = slide(*(line(WORDS) for _ in range(40)), is_spare=False)
    spare = slide(line("spare"))._replace(name="two")
    found = pages(talk, spare)
    assert [page.is_spare for page in found] == [False, *[True] * (len(found) - 1)]
    assert text_of(found[1].title) == "Title (continued)"
    assert found[-1].name == "two"


def test_an_answer_of_another_case_waits_and_is_not_shown() -> None:
    body = (Group((Said(line("always")),)), Group((Said(line("large")),), "size=large"))
    (found,) = pages(Slide("one", "Text", line("Title"), body))
    assert [text_of(each.runs) for each in found.paragraphs] == ["always"]
    assert ("size=large", ["large"]) in [(of, [text_of(each.runs) for each in said]) for of, said in found.groups]


def test_no_size_is_below_eighteen_points_and_every_place_lies_on_the_slide() -> None:
    assert min(size for size, _ in SIZES.values()) == SMALLEST == 18
    for room in ROOMS.values():
        for box in (room.title, room.body, room.references, *([room.picture] if room.picture else [])):
            assert box.left >= 0
            assert box.left + box.width <= WIDTH
            assert box.top + box.height <= HEIGHT


@pytest.mark.parametrize(
    ("sign", "regular", "bold"), [(" ", 278, 278), ("A", 667, 722), ("W", 944, 944), ("a", 556, 556), ("m", 833, 889),
                                  ("i", 222, 278), ("%", 889, 889), ("8", 556, 556)],
)  # fmt: skip
def test_widths_are_no_less_than_those_that_were_published(sign: str, regular: int, bold: int) -> None:
    # Adobe Font Metrics of Helvetica and Helvetica-Bold (Core 14 AFM files, WX of each sign; from memory).
    assert text_width(sign, 1000) >= regular
    assert text_width(sign, 1000, is_bold=True) >= bold
    assert text_width(sign, 1000) == pytest.approx(regular, rel=0.04)


def test_signs_of_other_scripts_are_taken_as_wide_as_they_are_high() -> None:
    assert text_width("歯", 10) >= 10
    assert text_width("é", 10) == text_width("e", 10)
