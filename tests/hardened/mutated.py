"""Files of the evidence changed by what its grammar knows: values, items, fields, entries, passages, not bytes."""

from __future__ import annotations

import random
import re
from collections.abc import Callable, Mapping

_VALUES = (
    "0", "1", "-1", "999999999999", "1000000000000", "0.00000000000000000001", "1e309", "NaN", "٣", "42,300", "00012",
    "0%", "100%", "100.0000001%", "0.1 to 0.2", "0 to 0", "5% to 5%", "99.9% to 100%", "<.05", ">.9", ".0", "1",
    "0 months", "1 day", "1200 months", "100 years", "1201 months", "99 years 11 months", "36525 days", "1 hour",
    "0.5 months", "1980-01-01", "2099-12-31", "2100-01-01", "2026-10-30", "not reported", "not applicable",
    "could not access", "yes", "no", "none", "[]", "{}", "''", "[a]", "{a: b}", "[[a]]", "up to 0 mm", "over 0 mm",
    "0 mm to 1 mm", "from 999999999999 mm", "size", "healed-strict", "root-perforation", "marlow2019furcal", "overall",
    "IM", "p. 46, Table 2", "$marlow2019furcal/overall", "$a/b", "$$", "human", "bench", "tooth", "patient", "mm",
    "<script>alert(1)</script>", "[x](javascript:alert(1))", "{{ x }}", "{% x %}", "&#x202e;", "%s", "\\n", "a" * 100,
    "a" * 101, "word " * 700, "word " * 900, "'\U0001f9b7'", "'e\u0301'", "'\u00a0'", "https://example.org/",
    "https://a@example.org/", "1.2.0", "9.9.9", "0.0.0",
)  # fmt: skip
_TEXTS = (
    "39 of 47", "of", "0 of 0", "100%", "83% (95% CI 70 to 91)", "P = .02", "not", "no", "respectively", "|", "\n", "–",
    "(", ")", "[p. 99] ", "[Table 2] ", "\\%", "\\textless ", "$10^{-3}$", "{", "}", "@", '"', ",", "²", "½", "one",
    "months", "at 5 years", "over 3 mm", "healed", "OR 2.9", "n = 47", "9" * 30,
)  # fmt: skip

Mutation = tuple[str, str, str]
"""The file, its text and what was done, in words."""


def mutated(files: Mapping[str, str], chance: random.Random) -> Mutation:
    """One file of several with one to three changes. files: the texts by their names."""
    file = chance.choice(sorted(files))
    text = files[file]
    done = []
    for _ in range(chance.choice((1, 1, 1, 2, 3))):
        change = chance.choice(_OF_BIBTEX if file.endswith(".bib") else _OF_YAML)
        text, what = change(text, chance)
        done.append(what)
    return file, text, "; ".join(done)


def _at_match(pattern: str, text: str, chance: random.Random) -> re.Match[str] | None:
    found = list(re.finditer(pattern, text, re.MULTILINE))
    return chance.choice(found) if found else None


def _value(text: str, chance: random.Random) -> tuple[str, str]:
    found = _at_match(r"(?<=: )[^\s,{}\[\]][^,{}\[\]\n]*", text, chance)
    new = chance.choice(_VALUES)
    if found is None:
        return text, "nothing"
    return text[: found.start()] + new + text[found.end() :], f"{found[0][:40]!r} becomes {new[:40]!r}"


def _digits(text: str, chance: random.Random) -> tuple[str, str]:
    found = _at_match(r"[0-9]+", text, chance)
    if found is None:
        return text, "nothing"
    new = chance.choice(("0", "1", found[0][::-1], found[0] + "0", found[0] * 4, str(int(found[0]) + 1), "9" * 12))
    return text[: found.start()] + new + text[found.end() :], f"{found[0]} becomes {new}"


def _line_gone(text: str, chance: random.Random) -> tuple[str, str]:
    lines = text.split("\n")
    at = chance.randrange(len(lines))
    return "\n".join(lines[:at] + lines[at + 1 :]), f"line {at + 1} is left out"


def _line_again(text: str, chance: random.Random) -> tuple[str, str]:
    lines = text.split("\n")
    at, times = chance.randrange(len(lines)), chance.choice((1, 1, 2, 50))
    return "\n".join([*lines[:at], *lines[at : at + 1] * times, *lines[at:]]), f"line {at + 1} stands {times + 1} times"


def _field_gone(text: str, chance: random.Random) -> tuple[str, str]:
    found = _at_match(r"[a-z_]+: [^,{}\[\]\n]+, ", text, chance)
    return (text, "nothing") if found is None else (text[: found.start()] + text[found.end() :], f"without {found[0]}")


def _field_moved(text: str, chance: random.Random) -> tuple[str, str]:
    one = _at_match(r"(?<=: )[^\s,{}\[\]][^,{}\[\]\n]*", text, chance)
    other = _at_match(r"(?<=: )[^\s,{}\[\]][^,{}\[\]\n]*", text, chance)
    if one is None or other is None or one.start() >= other.start():
        return text, "nothing"
    swapped = text[: one.start()] + other[0] + text[one.end() : other.start()] + one[0] + text[other.end() :]
    return swapped, f"{one[0][:40]!r} and {other[0][:40]!r} change places"


def _items(text: str, chance: random.Random) -> tuple[str, str]:
    found = _at_match(r"\[([^\[\]{}\n]+)\]", text, chance)
    if found is None:
        return text, "nothing"
    times = chance.choice((0, 2, 60, 1999))
    new = "[" + ", ".join([found[1].split(", ")[0]] * times) + "]"
    return text[: found.start()] + new + text[found.end() :], f"{found[0][:40]} has {times} items"


def _in_passage(text: str, chance: random.Random) -> tuple[str, str]:
    found = _at_match(r"\] [^\n]+", text, chance)
    if found is None:
        return text, "nothing"
    at = chance.randrange(found.start() + 2, found.end() + 1)
    new = chance.choice(_TEXTS) * chance.choice((1, 1, 1, 5, 40))
    return text[:at] + new + text[at:], f"{new[:40]!r} in a passage"


def _words_twice(text: str, chance: random.Random) -> tuple[str, str]:
    found = _at_match(r"\S+ \S+ \S+", text, chance)
    if found is None:
        return text, "nothing"
    return text[: found.end()] + " " + found[0] + text[found.end() :], f"{found[0]!r} twice"


def _bibtex_field(text: str, chance: random.Random) -> tuple[str, str]:
    found = _at_match(r"[a-z]+ = (?:\{[^{}]*\}|[0-9]+),?", text, chance)
    if found is None:
        return text, "nothing"
    name = found[0].split(" = ")[0]
    values = ("", f"{name} = {{{chance.choice(_VALUES)}}},", f"{name} = jan # {{x}},", f"{found[0]} crossref = {{a}},")
    new = chance.choice(values)
    return text[: found.start()] + new + text[found.end() :], f"{found[0][:40]!r} becomes {new[:40]!r}"


_Change = Callable[[str, random.Random], tuple[str, str]]
_OF_YAML: tuple[_Change, ...] = (
    _value, _value, _value, _digits, _line_gone, _line_again, _field_gone, _field_moved, _items, _words_twice,
)  # fmt: skip
_OF_BIBTEX: tuple[_Change, ...] = (
    _in_passage, _in_passage, _digits, _line_gone, _line_again, _bibtex_field, _words_twice,
)  # fmt: skip
