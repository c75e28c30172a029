"""A number is proved only where the page of its passage shows that number."""

from __future__ import annotations

import re
import unicodedata
from html import unescape
from pathlib import Path

import pytest
from hypothesis import given, settings, strategies as st
from passageproof.numerals import Token
from passageproof.problems import Position
from passageproof.proof.proving.printed_passage import Reading
from passageproof.reading.evidence import read_evidence
from passageproof.reading.latex import readable_text
from passageproof.reading.report_model import Passage
from passageproof.rendering.passages import passage_html
from passageproof.results.values.document import Marks, PassageText

ROOT = Path(__file__).parents[3]
EVIDENCE = read_evidence(ROOT / "tests" / "published")
LEXICON = EVIDENCE.vocabulary.lexicon
PASSAGES = [passage.text for source in EVIDENCE.sources.values() for passage in source.passages]

VANISHING = ["{}", "$$", "}{", r"\!", r"\/", r"\-", r"\relax{}", r"\textbf{", "}", "$", "~", r"\,", "{,}", r"\("]
# Unicode 15, DerivedCoreProperties.txt and UnicodeData.txt (from memory): format, ignorable and number characters.
INVISIBLE = list("\u200b\u2060\u00ad\u200e\u061c\u034f\u115f\u3164\ufe0f\ufeff\U000e0031")
NUMBER_LIKE = list("٩９½①Ⅳ𝟑〇三\u20e3\u0338ОＯ")


def reading(text: str) -> Reading:
    return Reading(Passage("key", "p. 1", "p-1", text, Position("a.bib", 1, 1)), LEXICON)


def readable(text: str) -> list[str]:
    return [token.text for token in reading(text).tokens if token.kind != "unreadable"]


@pytest.mark.parametrize(
    "text",
    ["1{}3 of 80", "1$$3 of 80", r"1\!3 of 80", r"1\/3 of 80", r"1\relax{}3 of 80", r"\textbf{1}3 of 80",
     "{1}{3} of 80", *(f"1{sign}3 of 80" for sign in INVISIBLE)],
)  # fmt: skip
def test_number_whose_digits_run_into_others_on_the_page_is_unreadable(text: str) -> None:
    assert readable(text) == ["80"]


@pytest.mark.parametrize("sign", [sign for sign in NUMBER_LIKE if sign != "①"])
def test_number_touched_by_what_is_like_a_number_is_unreadable(sign: str) -> None:
    assert readable(f"3{sign} of 80") == ["80"]


@pytest.mark.parametrize("sign", list("٩９½①Ⅳ𝟑〇三ОＯ¹²"))
def test_number_behind_what_is_like_a_number_is_unreadable(sign: str) -> None:
    assert readable(f"healed {sign}3 of 100") == ["100"]


@pytest.mark.parametrize("text", ["8{}.5 teeth", "8.{}5 teeth", "8{},{}125 teeth", "six\\-ty teeth"])
def test_part_of_a_number_that_the_page_shows_whole_is_unreadable(text: str) -> None:
    assert readable(text) == []


def test_number_that_the_page_does_not_show_is_unreadable() -> None:
    assert readable(r"\href{39 of 47}{healed}") == []


@pytest.mark.parametrize(
    "text",
    ["39 of 47", "{39} of {47}", r"\textbf{39} of 47", "$39$ of $47$", "39² of 47", r"39\textsuperscript{a} of 47",
     "39$^{a}$ of 47$^{th}$", "39~of~47", "39\u00a0of\u00a047", "39\u2009of 47", r"39\,of\,47", r"\emph{39 of 47}",
     "39 of 47 te\u00adeth", "39\u200b of 47", "39 of 47① teeth", "39ª of 47", r"39 of 47 (\textit{P})"],
)  # fmt: skip
def test_honest_ways_to_print_a_number_stay_readable(text: str) -> None:
    assert readable(text) == ["39", "47"]


@pytest.mark.parametrize("text", [r"1\,125", "1{,}125", "1\u2009125", "1,125", "1\u202f125", "1~125", "1 125"])
def test_thousands_stay_one_number(text: str) -> None:
    assert [token.value for token in reading(f"{text} teeth").tokens if token.kind != "unreadable"] == [1125]


class _Figure:
    """As much of a figure as a mark asks for."""

    def __init__(self, token: Token) -> None:
        self.text, self.value, self.id = token.shown, token.value, "a"


def page_around(text: str, token: Token) -> tuple[str, str, str]:
    """What a reader sees before, in and behind the mark of a number."""
    mark = Marks(token.outer_start, token.outer_end, (_Figure(token),))  # type: ignore[arg-type]
    html = passage_html(PassageText("p-1", "", text, (mark,)), readable_text)
    quote = html.split('<blockquote class="passage">')[1].split("</blockquote>")[0]
    before, inside, behind = re.split("<data [^>]*>|</data>", quote)
    plain = (unescape(re.sub("<[^>]*>", "", piece)) for piece in (before, inside, behind))
    return tuple(  # type: ignore[return-value]
        "".join(sign for sign in piece if unicodedata.category(sign) != "Cf" and sign not in "\u034f\u115f\u3164\ufe0f")
        for piece in plain
    )


HOLDING_A_DIGIT = [text for text in PASSAGES if re.search("[0-9]", text)]


@settings(max_examples=300, deadline=None)
@given(st.data())
def test_number_on_the_page_is_the_number_proved_whatever_is_put_beside_its_digits(data: st.DataObject) -> None:
    text = data.draw(st.sampled_from(HOLDING_A_DIGIT))
    at = data.draw(st.sampled_from([found.start() for found in re.finditer("[0-9]", text)]))
    at += data.draw(st.integers(0, 1))
    sign = data.draw(st.sampled_from([*VANISHING, *INVISIBLE, *NUMBER_LIKE]))
    more = data.draw(st.sampled_from(["", "1", ".5"]))
    typed = f"{text[:at]}{sign}{more}{text[at:]}"
    for token in reading(typed).tokens:
        # "4 years 2 months" is one number of months, and a level of "0.9" one of 90%.
        if token.kind in ("unreadable", "confidence") or not re.fullmatch("[^a-z]*[0-9][^a-z]*", token.text):
            continue
        before, inside, behind = page_around(typed, token)
        inside = re.sub(r"(?<=\d)[,\u2009\u202f\u00a0'’](?=\d{3})", "", inside.replace("½", ".5"))
        digits = re.sub(r"[^0-9.·]", "", inside)
        assert re.sub("[^0-9]", "", f"{token.value:f}").lstrip("0") in re.sub("[^0-9]", "", digits), typed
        assert not re.search(r"\d[.·]?$", before), (typed, before)
        assert not re.match(r"[.·]?\d", behind), (typed, behind)
