"""The worst texts that each reader can meet, as long as wanted: what a check of them takes must grow with their length.

    python tests/bench/worst_cases.py [NAME ...]

doubles each from 10 to 640 kB and prints the seconds with the growth fitted to them: time ~ length ** growth. Where a
limit of the form refuses a text its time still counts.
"""

from __future__ import annotations

import math
import os
import shutil
import signal
import statistics
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

EXAMPLE = Path(__file__).parent.parent / "example"
SIZES = (10_000, 20_000, 40_000, 80_000, 160_000, 320_000, 640_000)
AIM = 1.2
"""What the fitted growth should stay below."""
LONGEST = 60
"""Seconds that one text may take."""

BIB, CLAIMS, QUESTION = "sources/furcal.bib", "claims/marlow2019furcal.yaml", "questions/root-perforation.yaml"
_MARKS = {
    "in the passage": (BIB, "[p. 46, Table 2] healed: 39 of 47 teeth (83%)", "[p. 46, Table 2] healed: 39 of 47 teeth (83%) {}"),
    "before the numbers": (BIB, "[p. 46, Table 2] healed:", "[p. 46, Table 2] {} healed:"),
    "behind the entry": (BIB, "\n@article{arden", "\n{}\n@article{{arden"),
    "in pages": (BIB, "pages = {41--52}", "pages = {{{}}}"),
    "in an author": (BIB, "Okafor, Tam}", "Okafor, Tam {}}}"),
    "in a title": (BIB, "Furcal repairs in a teaching clinic", "Furcal repairs {}"),
    "in a value": (BIB, "volume = 7", "volume = {}"),
    "in a key": (BIB, "@article{arden2023recall", "@article{{{}"),
    "in an entry": (BIB, "volume = 7,", "volume = 7, {}"),
    "in a doi": (BIB, "10.5555/aie.2019.41", "10.5555/{}"),
    "in a claim's where": (CLAIMS, "where: p. 46, Table 2", "where: {}"),
    "in a claim's note": (CLAIMS, "    total: 47\n", "    total: 47\n    note: {}\n"),
    "in a level": (CLAIMS, "{level: over 3 mm, events: 7", "{{level: {}, events: 7"),
    "in a count": (CLAIMS, "events: 39", "events: {}"),
    "in a length": (CLAIMS, "median: 31 months", "median: {}"),
    "in a claim": (CLAIMS, "    total: 47\n", "    total: 47\n{}"),
    "in words quoted": (CLAIMS, "    total: 47\n", "    total: 47\n    in_words: {}\n"),
    "in an answer": (QUESTION, "answer: Most", "answer: {} Most"),
    "in a question": (QUESTION, "seen_not_read: []\n", "seen_not_read: []\n{}"),
    "in visits": (QUESTION, "24 months, 48 months]", "24 months, 48 months{}]"),
    "in a synonym": ("vocabulary.yaml", "[diameter, width]", "[diameter, {}]"),
    "in the vocabulary": ("vocabulary.yaml", "outcomes:\n", "outcomes:\n{}"),
    "in the compendium": ("compendium.yaml", "review:", "{}\nreview:"),
}  # fmt: skip
"""By where a text is put: the file, what stands there, and that with the text in it."""
_NEW = {
    "a page": "site_src/more.md",
    "a drawing": "pictures/eye.svg",
    "a settings file": "mkdocs.yml",
}
"""Files that the example lacks."""


def _times(piece: str) -> Callable[[int], str]:
    return lambda size: piece * (size // len(piece))


def _numbered(piece: str) -> Callable[[int], str]:
    """Pieces with a number of their own each, where the same twice would be refused."""
    return lambda size: "".join(piece.format(each) for each in range(size // len(piece.format(12345))))


_SENTENCES = {
    "a word": "a",
    "digits": "1",
    "digits, thousands": "1,234,",
    "digits, points": "1.",
    "digits, blanks": "1 ",
    "digits, hyphens": "1-",
    "digits, dashes": "1–",
    "digits, slashes": "1/",
    "percents": "8% ",
    "n of n": "3 of ",
    "n of n, whole": "3 of 4 ",
    "n of n (p)": "3 of 4 (75%) ",
    "n/n (p)": "3/4 (75%), ",
    "brackets open": "(",
    "brackets": "()",
    "brackets closed": ")",
    "square": "[",
    "square, words": "[a ",
    "square, digit": "[a1] ",
    "braces in pairs": "{}",
    "commas": ",",
    "commas, blanks": ", ",
    "semicolons": "a; ",
    "blanks": " ",
    "line ends": "\n ",
    "tabs": "\t",
    "full stops": ".",
    "sentences": "It is. ",
    "colons": "a: ",
    "hyphens": "-",
    "hyphened words": "a-",
    "words": "teeth ",
    "words, capitals": "A b. ",
    "to": "3 to ",
    "and": "3 and ",
    "and words": "and ",
    "intervals": "1.2 to 3.4; ",
    "intervals, levels": "95% CI ",
    "intervals whole": "(95% CI 1.2 to 3.4) ",
    "P": "P = .02, ",
    "P open": "P ",
    "signs": "± ",
    "signs, numbers": "3 ± ",
    "equals": "= ",
    "less": "< ",
    "n =": "n = 3 ",
    "n = open": "(n = ",
    "months": "3 months ",
    "years and months": "3 years 5 months ",
    "months, commas": "3, 6, ",
    "at months": "at 3 months, ",
    "spelt": "twenty-",
    "spelt, and": "one hundred and ",
    "levels": "over 3 mm ",
    "levels, colons": "over 3 mm: 7 of 12; ",
    "or": "up to 3 mm or ",
    "versus": "3 vs ",
    "respectively": "3 and 4, respectively, ",
    "not": "not ",
    "no": "no ",
    "not healed": "not healed, ",
    "healed": "healed ",
    "without": "without ",
    "were": "were healed and ",
    "bars": "|",
    "rows": "a | 3 | 4\n ",
    "rows of one": "3 | ",
    "tabs and numbers": "3\t4\t",
    "ratios": "OR 2.9 (1.2 to 7.1); ",
    "ratio words": "odds ratio ",
    "adjusted": "adjusted for ",
    "adjusted, ages": "adjusted for age, ",
    "model": "in the model ",
    "than": "more than ",
    "compared": "compared with ",
    "of whom": "of whom 3 ",
    "quotes": "“",
    "quotes straight": "' ",
    "dollars": "$",
    "backslashes": "\\ ",
    "commands": "\\x ",
    "commands known": "\\% ",
    "stars": "* ",
    "daggers": "3† ",
    "superscripts": "¹",
    "accents": "e\u0301",
    "separators": "\u2028",
    "narrow blanks": "1\u202f",
    "authors": "Marlow et al. ",
    "et al. years": "(Marlow 2019) ",
    "references": "[12] ",
    "in our study": "in our study ",
    "studies": "in another study, ",
    "dates": "2012 to 2016, ",
    "hashes": " #1",
    "ampersands": "& ",
    "a locator": "[p. 46 ",
    "upper": "AB",
    "Unicode digits": "٣",
    "ellipses": "... ",
    "mixed": "3 of 4 (75%), over 3 mm, at 5 years; ",
}


def cases() -> dict[str, tuple[str, str, str, Callable[[int], str]]]:
    """By name: the file, what stands in it, that with a place for the text, and the text of a length."""
    made = {}

    def put(where: str, name: str, text: Callable[[int], str]) -> None:
        made[f"{name} {where}"] = (*_MARKS[where], text)

    for name, piece in _SENTENCES.items():
        put("in the passage", name, _times(piece))
        put("before the numbers", name, _times(piece))
    for where in (
        "behind the entry",
        "in pages",
        "in an author",
        "in a title",
        "in a value",
        "in a key",
        "in an entry",
        "in a doi",
    ):
        for name, piece in _STRUCTURE.items():
            put(where, name, _times(piece))
    for where in (
        "in a claim's where",
        "in a claim's note",
        "in a level",
        "in a count",
        "in a length",
        "in words quoted",
        "in an answer",
        "in a synonym",
    ):
        for name, piece in _PLAIN.items():
            put(where, name, _times(piece))
    for where, name, piece in _BLOCKS:
        put(where, name, _numbered(piece))
    return made


_STRUCTURE = {
    "a word": "a",
    "digits": "1",
    "digits, hyphens": "1-",
    "digits, commas": "1, ",
    "blanks": " ",
    "words": "teeth ",
    "hashes": " # ",
    "joins": '# "a" ',
    "at": "@",
    "at, blanks": "@ ",
    "at words": "@a ",
    "at entries": "\n@misc{",
    "at whole": "\n@misc{a, title = {T}}",
    "at broken": "\n@misc{a title = {T}",
    "at comments": "@comment{",
    "braces": "{",
    "braces closed": "}",
    "braces in pairs": "{}",
    "quotes": '"',
    "commas": ",",
    "equals": "=",
    "fields": "a = 1, ",
    "fields open": "\na = {",
    "fields quoted open": '\na = "',
    "hyphens": "-",
    "and": " and ",
    "names": "A, B and ",
    "names, commas": "A B, ",
    "et al.": "et al. ",
    "backslashes": "\\ ",
    "commands": "\\x",
    "percents": "%",
    "line ends": "\n",
    "separators": "\u2028",
    "turned": "\u202e",
    "turned lines": "\u202e\n",
    "controls": "\x01",
    "slashes": "/",
    "letters of a DOI": "<b>",
}
_PLAIN = {
    "a word": "a",
    "digits": "1",
    "digits, commas": "1,",
    "digits, thousands": ",123",
    "blanks": "a ",
    "dollars": "$a",
    "references": "$a/",
    "references whole": "$a/b ",
    "brackets": "(",
    "square": "[",
    "braces": "{",
    "pairs": "{}, ",
    "lists": "[a",
    "lists, comma": "[a,",
    "colons": "a: ",
    "hashes": "a #1",
    "quotes": '"',
    "quotes single": "'a",
    "separators": "a\u2028",
    "turned": "a\u202e",
    "widthless": "a\u200b",
    "stars": "a* ",
    "anchors": "&a ",
    "aliases": "*a, ",
    "tags": "!a ",
    "bars": "a | ",
    "hyphens": "a-",
    "words, to": "3 to ",
    "months": "3 months ",
    "n of n": "3 of 4 ",
    "line ends": "\n",
    "line ends, words": "a\n      ",
    "comments": "a\n# b",
}
_BLOCKS = (
    ("in the passage", "locators", "\n[p. 46, Table {}] 3 of 4 "),
    ("in the passage", "locators outside", "\n[p. {}] healed "),
    ("in the passage", "same locators", "\n[p. 46] {} "),
    ("in the passage", "numbers", "{} "),
    ("in the passage", "numbers, of", "{} of 99999 (3%), "),
    ("behind the entry", "entries", "@misc{{a{0}, title = {{T}}}}\n"),
    ("behind the entry", "strings", "@string{{a{0} = {{T}}}}\n"),
    ("behind the entry", "same entries", "@misc{{a, title = {{T{0}}}}}\n"),
    ("behind the entry", "entries broken", "@misc{{a{0}, title = {{T}}\n"),
    ("behind the entry", "entries without comma", "@misc{{a{0} title = {{T}}}}\n"),
    ("behind the entry", "entries in one line", "@misc{{a{0}, title = {{T}}}} "),
    ("behind the entry", "chained", "@misc{{a{0}, title = {{T}}, crossref = {{a{0}1}}}}\n"),
    ("in an entry", "fields", "f{}x = {{a}}, "),
    ("in an entry", "fields without braces", "f{}x = aaa, "),
    ("in an entry", "fields without sign", "f{}x {{a}}, "),
    ("in an entry", "fields twice", "year = {}, "),
    ("in a claim", "fields unknown", "    a{}: b\n"),
    ("in a claim", "fields twice", "    note: a{}\n"),
    ("in a claim", "claims", "  - {{id: a{}, question: root-perforation, outcome: healed-strict, events: 39, total: 47, where: 'p. 46, Table 2', follow_up: overall}}\n"),
    ("in a claim", "claims unproved", "  - {{id: a{0}, question: root-perforation, outcome: healed-strict, events: {0}, total: 47, where: 'p. 46, Table 2', follow_up: overall}}\n"),
    ("in a claim", "claims of nothing", "  - id: a{}\n"),
    ("in a claim", "hash lines", "    note: a #{}\n"),
    ("in a claim", "tab lines", "\ta{}\n"),
    ("in a claim", "acknowledged", "acknowledged: [{{rule: percent-impossible, printed: a{}, by: IM, reason: b}}]\n"),
    ("in a question", "fields unknown", "a{}: b\n"),
    ("in a question", "fields unknown, near", "stop{}: b\n"),
    ("in visits", "visits", ", {} months"),
    ("in the vocabulary", "outcomes", "  o{0}: {{title: 'o {0}', construct: success, strictness: strict, basis: b, threshold: t, good: yes}}\n"),
    ("in the vocabulary", "outcomes alike", "  o{0}: {{title: healed, construct: success, strictness: strict, basis: b, threshold: t, good: yes}}\n"),
    ("in a synonym", "synonyms", "s{}, "),
    ("in the compendium", "fields unknown", "\na{}: b"),
    ("in the compendium", "fields unknown, near", "\nrevie{}: b"),
)  # fmt: skip


def seconds(case: tuple[str, str, str, Callable[[int], str]], size: int) -> float:
    """What a check takes with a text of so many characters; infinity where it takes longer than it may.

    In a process of its own, which can be ended.
    """
    with tempfile.TemporaryDirectory() as folder:
        write(Path(folder), case, size)
        ends = os.pipe()
        child = os.fork()
        if not child:
            status = 1
            try:
                signal.signal(signal.SIGALRM, signal.SIG_DFL)
                signal.alarm(LONGEST)
                os.write(ends[1], repr(_checked(Path(folder))).encode())
                status = 0
            finally:
                os._exit(status)
        os.close(ends[1])
        with os.fdopen(ends[0], "rb") as told:
            said = told.read()
        _, status = os.waitpid(child, 0)
        if said:
            return float(said)
        if os.WIFSIGNALED(status):
            return math.inf
        raise RuntimeError(f"the check ended with a fault at {size} characters")


def write(root: Path, case: tuple[str, str, str, Callable[[int], str]], size: int) -> None:
    """The example with the text of a case in it."""
    file, before, after, text = case
    shutil.copytree(EXAMPLE, root, dirs_exist_ok=True)
    path = root / "evidence" / file
    whole = path.read_text("utf-8")
    if before not in whole:
        raise ValueError(f"{file} does not hold {before!r}")
    path.write_text(whole.replace(before, after.format(text(size)), 1), "utf-8")


def _checked(root: Path) -> float:
    from passageproof.audit.whole import audit
    from passageproof.problems import as_text
    from passageproof.reading.evidence import read_evidence

    begin = time.perf_counter()
    for problem in audit(read_evidence(root)).problems:
        as_text(problem)
    return time.perf_counter() - begin


def growth(taken: list[tuple[int, float]]) -> float:
    """The slope of the logarithm of the time over that of the length, by least squares."""
    known = [(math.log(size), math.log(each)) for size, each in taken if math.isfinite(each)]
    if len(known) < 2:
        return math.inf
    return statistics.linear_regression(*zip(*known, strict=True)).slope


def main(wanted: list[str]) -> None:
    import passageproof.audit.whole  # noqa: F401  so that no child imports it

    sizes = tuple(map(int, os.environ.get("SIZES", "").split())) or SIZES
    with tempfile.TemporaryDirectory() as folder:
        write(Path(folder), ("compendium.yaml", "format", "format", str), 0)
        _checked(Path(folder))
        rest = min(_checked(Path(folder)) for _ in range(3))
    print(f"the example alone takes {rest:.3f} s, which is taken off")
    above = []
    for name, case in cases().items():
        if wanted and not any(each in name for each in wanted):
            continue
        taken = []
        for size in sizes:
            taken.append((size, max(seconds(case, size) - rest, 0.001)))
            if taken[-1][1] > LONGEST / 4:
                break
        slope = growth([each for each in taken if each[1] >= 0.01] or taken[:1])
        is_above = not slope < AIM and taken[-1][1] >= 0.1
        print(
            f"{name:45} {' '.join(f'{each:8.3f}' for _, each in taken)}  {slope:5.2f} {'ABOVE' * is_above}", flush=True
        )
        if is_above:
            above.append(name)
    print(
        f"{len(above)} grow faster than length ** {AIM}: {', '.join(above)}" if above else "all grow with their length"
    )


if __name__ == "__main__":
    main(sys.argv[1:])
