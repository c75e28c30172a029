"""LaTeX for display: accents come out, and no figure is lost."""

from __future__ import annotations

import re

import pytest
from hypothesis import given, strategies as st
from passageproof.reading.latex import readable_text, unknown_commands


@pytest.mark.parametrize(
    ("typed", "shown"),
    [
        ("12.3% (95% CI 8.1\\% to 17)", "12.3% (95% CI 8.1% to 17)"),
        ("P \\textless 0.05", "P <0.05"),
        ("50\\textpercent{} of 8", "50% of 8"),
        ("10\\textsuperscript{3} and 10\\textsuperscript{-3}", "10³ and 10⁻³"),
        ("$10^{-3}$", "10⁻³"),
        ("$10^{3x}$", "10^3x"),
        ("\\textminus 5", "−5"),
        ("10\\,000 & 5", "10\u2009000 & 5"),
        ("5~mm", "5\u00a0mm"),
        ("41--52", "41–52"),
        ("4\\textperiodcentered 3", "4·3"),
        ("$\\frac{1}{2}$", "1/2"),
        ("\\href{https://example.org}{see 5}", "see 5"),
        ("\\foo{5}", "\\foo5"),
        ("CO\\textsubscript{2}", "CO₂"),
    ],
)
def test_figures_survive(typed: str, shown: str) -> None:
    assert readable_text(typed) == shown


@pytest.mark.parametrize(
    ("typed", "shown"),
    [
        ('M{\\"u}ller', "Müller"),
        ('M\\"uller', "Müller"),
        ('{\\"{o}}', "ö"),
        ("\\v{c}\\c c", "čç"),
        ("\\~n and \\'{\\i}", "ñ and í"),
        ("{\\O}stby", "Østby"),
        ("Stra{\\ss}e", "Straße"),
        ('\\aa ngstr\\"om', "ångström"),
        ("{\\it Ex} \\emph{vivo}", "Ex vivo"),
        ("The {MTA} ``question''", "The MTA “question”"),
        ("a\n   b", "a b"),
        ("{{World Health Organization}}", "World Health Organization"),
    ],
)
def test_words_come_out_as_printed(typed: str, shown: str) -> None:
    assert readable_text(typed) == shown


@pytest.mark.parametrize("piece", [" of ", "healed - ", " \\% ", " "])
def test_piece_of_a_passage_keeps_the_blanks_at_its_ends(piece: str) -> None:
    assert readable_text(piece).startswith(" ") == piece.startswith(" ")
    assert readable_text(piece).endswith(" ") == piece.endswith(" ")


def test_unknown_command_is_reported_with_its_place() -> None:
    assert unknown_commands("a \\emph{b} \\foo{5} \\%") == [(11, "\\foo")]


@given(st.text("\\{}$^_%&~`'\"-[] \nab1frc", max_size=60))
def test_no_text_makes_it_fail(typed: str) -> None:
    readable_text(typed)
    unknown_commands(typed)


# href shows its second argument alone, so the text here has none.
@given(st.text("0123456789.,%<>&()=+*/:; abc", max_size=60))
def test_digits_are_all_still_there(typed: str) -> None:
    assert re.findall(r"[0-9]", readable_text(typed)) == re.findall(r"[0-9]", typed)


@pytest.mark.parametrize("sign", ["{", "\\emph", "$^", "\\sqrt[", "\\frac", "\\'"])
def test_endless_nesting_is_no_crash(sign: str) -> None:
    assert readable_text(sign * 20_000 + "5")
