"""Fields of an entry as exports write them are shown as people print them, and nothing raw."""

from __future__ import annotations

import pytest
from passageproof.reading.exported import doi_in, names_in, readable_field, readable_name, web_address

TEXTS = {
    "Title of <i>Enterococcus</i> in CO<sub>2</sub> at 10<sup>-3</sup>": "Title of Enterococcus in CO₂ at 10⁻³",
    "A &amp; B &lt; C &#8211; D": "A & B < C – D",
    "A &amp;lt; B": "A < B",
    "pH < 7 and > 3": "pH < 7 and > 3",
    "$<$i$>$in vitro$<$/i$>$ study": "in vitro study",
    "<jats:title>A study</jats:title>": "A study",
    "<p>A study</p>": "A study",
    "x<sup>a,b</sup>": "xa,b",
    r"M{\"u}ller \& Söhne": "Müller & Söhne",
    "AT&T": "AT&T",
}


@pytest.mark.parametrize("typed", TEXTS)
def test_tags_and_entities_of_web_pages_are_shown_as_print(typed: str) -> None:
    assert readable_field(typed) == TEXTS[typed]


NAMES = {
    "Marlow, Ines and Okafor, Tam": ["Marlow, Ines", "Okafor, Tam"],
    "Marlow I & Okafor T": ["Marlow I", "Okafor T"],
    r"Marlow, I. \& Okafor, T.": ["Marlow, I.", "Okafor, T."],
    "Marlow, I., Okafor, T. & Arden, P.": ["Marlow, I.", "Okafor, T.", "Arden, P."],
    "Marlow, Ines & Okafor, Tam": ["Marlow, Ines", "Okafor, Tam"],
    "Marlow, I.; Okafor, T.": ["Marlow, I.", "Okafor, T."],
    "Marlow I, Okafor T, Arden P": ["Marlow I", "Okafor T", "Arden P"],
    "van der Berg J, O'Neil K": ["van der Berg J", "O'Neil K"],
    "Marlow, Ines and others": ["Marlow, Ines", "and others"],
    "Smith & Nephew": ["Smith & Nephew"],
    "Institute for A, B & C": ["Institute for A, B & C"],
    "{World Health and Safety Body}": ["World Health and Safety Body"],
    "Smith, J. R.": ["Smith, J. R."],
    "Marlow, Jr, Ines": ["Marlow, Jr, Ines"],
    "family=Beethoven, given=Ludwig, prefix=van, useprefix=true": ["van Beethoven, Ludwig"],
    "family=Beethoven, given=Ludwig, prefix=van": ["Beethoven, Ludwig van"],
    "family={Marlow}, given=Ines, suffix=Jr and Okafor, Tam": ["Marlow, Ines, Jr", "Okafor, Tam"],
}


@pytest.mark.parametrize("typed", NAMES)
def test_names_are_told_apart_however_they_are_divided(typed: str) -> None:
    assert [readable_name(name) for name in names_in(typed)] == NAMES[typed]


@pytest.mark.parametrize(
    ("typed", "shown"),
    [
        ("https://example.org/~marlow/a_b%20c", "https://example.org/~marlow/a_b%20c"),
        (r"https://example.org/\~{}marlow/a\_b\%20c", "https://example.org/~marlow/a_b%20c"),
        (r"\url{https://example.org/{\textasciitilde}marlow}", "https://example.org/~marlow"),
        ("https://example.org/?a=1&amp;b=2", "https://example.org/?a=1&b=2"),
    ],
)
def test_an_address_keeps_its_signs(typed: str, shown: str) -> None:
    assert web_address(typed) == shown


@pytest.mark.parametrize(
    ("address", "doi"),
    [
        ("https://doi.org/10.5555/aie.2019.41", "10.5555/aie.2019.41"),
        ("http://dx.doi.org/10.5555/aie.2019.41", "10.5555/aie.2019.41"),
        ("doi:10.5555/aie.2019.41", "10.5555/aie.2019.41"),
        ("https://example.org/10.5555/aie.2019.41", ""),
        ("https://example.org", ""),
    ],
)
def test_a_doi_is_found_in_the_address_of_its_resolver(address: str, doi: str) -> None:
    assert doi_in(address) == doi
