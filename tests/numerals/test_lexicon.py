"""What is counted is handed in: a trade's own units are read like those of format 1."""

from __future__ import annotations

from passageproof.numerals import FORMAT_1, Lexicon, Unit, read_numerals

EYES = FORMAT_1.with_units(
    [
        Unit("eye", "eye", "eyes", ("globes",), of="patient", is_numbered=True),
        Unit("graft", "corneal graft", "corneal grafts", of="eye"),
    ]
)


def test_declared_unit_is_read_by_each_of_its_words() -> None:
    texts = ("47 eyes", "39 of 47 eyes", "47 consecutive globes", "47 corneal grafts", "one corneal graft")
    tokens = [read_numerals(text, EYES)[-1] for text in texts]
    assert [(token.unit, token.kind) for token in tokens] == [
        ("eye", "count"), ("eye", "count"), ("eye", "count"), ("graft", "count"), ("graft", "count"),
    ]  # fmt: skip


def test_undeclared_unit_is_none() -> None:
    (token,) = read_numerals("47 eyes")
    assert (token.unit, token.kind) == ("none", "number")


def test_number_behind_a_numbered_unit_is_a_name() -> None:
    assert read_numerals("eye 2 was lost", EYES)[0].roles[0] == "label"
    assert read_numerals("patient 2 was lost", EYES)[0].roles == ("lost",)


def test_units_of_format_1_stay_readable_beside_declared_ones() -> None:
    assert [token.unit for token in read_numerals("47 eyes of 40 patients", EYES)] == ["eye", "patient"]
    assert EYES.held == {"tooth", "root", "canal", "lesion", "eye", "graft"}


def test_a_unit_is_named_in_one_and_many() -> None:
    assert [EYES.name("graft", count) for count in (1, 2)] == ["corneal graft", "corneal grafts"]
    assert [FORMAT_1.name("tooth"), FORMAT_1.name("month")] == ["teeth", "month"]


def test_a_lexicon_without_units_reads_no_trade() -> None:
    nothing = Lexicon(units={})
    assert [token.unit for token in read_numerals("47 teeth, 31 months", nothing)] == ["none", "month"]
    assert read_numerals("8 extracted", nothing)[0].role == ""
