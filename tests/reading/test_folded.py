"""Wordings that are one."""

from passageproof.reading.folded import folded


def test_capitals_and_blanks_tell_no_wordings_apart() -> None:
    assert folded("Over\n 3  mm ") == folded("over 3 mm") == "over 3 mm"


def test_letters_of_one_sound_are_one() -> None:
    assert folded("Gro\u00dfe L\u00e4sion") == folded("GROSSE L\u00c4SION")
