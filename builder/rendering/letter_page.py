"""Letters of contribution to print: for each report who read it, what was added, and on which pages that stands."""

from __future__ import annotations

from collections.abc import Iterator
from html import escape

from ..results.values.guide import Guide, Letter

INVENTED = '<p class="invented">An invented example: nobody of these names read anything.</p>\n'


def letters_markdown(guide: Guide) -> str:
    """The page as Markdown, in one block of HTML: every letter closed, known by the key of its report."""
    head = (
        '---\ntitle: "Letters of contribution"\nkind: "written"\ntemplate: "reading.html"\nsearch:\n  exclude: true\n'
        "---\n\n"
    )
    intro = (
        "<p>Whoever reads a paper for this guide can show what became of it: below each title who read it, what was "
        "added, and on which pages that stands today. Names are those that the evidence gives. A letter prints "
        "alone.</p>\n"
    )
    stands = _stands(guide)
    parts = "".join(_letter(guide, letter, stands.get(letter.key, {})) for letter in guide.letters)
    mark = INVENTED if guide.is_demonstration else ""
    body = parts or "<p>No claim was drawn from any report yet.</p>\n"
    return (
        f'{head}<div class="guide" data-search-exclude>\n<h1>Letters of contribution</h1>\n{mark}{intro}{body}</div>\n'
    )


def _stands(guide: Guide) -> dict[str, dict[str, str]]:
    """Pages that show a number quoted from a report, with their titles, by its key; its own page left out."""
    out: dict[str, dict[str, str]] = {}
    for address, head in guide.pages.heads.items():
        if head.kind == "source":
            continue
        for figure in guide.pages.figures(address):
            if figure.proof is not None:
                out.setdefault(figure.id.partition("/")[0], {})[address] = head.title
    return out


def _letter(guide: Guide, letter: Letter, stands: dict[str, str]) -> str:
    return (
        f'<details id="{letter.key}"><summary><data class="reference">{escape(letter.title, quote=False)}</data>'
        f'</summary>\n<section class="sheet">\n{"".join(_parts(guide, letter, stands))}</section>\n</details>\n'
    )


def _parts(guide: Guide, letter: Letter, stands: dict[str, str]) -> Iterator[str]:
    if guide.is_demonstration:
        yield INVENTED
    yield (
        f"<p>The guide <b>{_words(guide.title)}</b> of {_words(guide.programme)} rests, among other reports, on this "
        f"one:</p>\n"
    )
    yield f'<p><data class="reference">{escape(letter.reference, quote=False)}</data></p>\n'
    checked = "re-read by nobody yet"
    if letter.checked_by:
        checked = f"re-read by <b>{_words(letter.checked_by)}</b> on {_date(letter.checked_on)}"
    yield (
        f"<p>It was read for the guide by <b>{_words(letter.read_by)}</b> on {_date(letter.read_on)} "
        f"({_words(letter.depth)}), {checked}.</p>\n"
    )
    yield "<p>What was added, every number with the passage that proves it:</p>\n"
    yield _list(_words(claim) for claim in letter.claims)
    yield "<p>Where its numbers stand in the guide:</p>\n"
    own = f'<a href="../../../sources/{letter.key}/">the page of the report</a>'
    others = (f'<a href="../../../{address}">{_words(title)}</a>' for address, title in stands.items())
    yield _list([own, *others])
    yield (
        f'<p>Evidence of {_date(guide.evidence_date.isoformat())}, release <data class="identifier">'
        f"{escape(guide.release)}</data>.</p>\n<p>For the programme, with date and signature:</p>\n<br><br><hr>\n"
    )


def _list(items: Iterator[str] | list[str]) -> str:
    return f"<ul>{''.join(f'<li>{item}</li>' for item in items)}</ul>\n"


def _words(text: str) -> str:
    shown = escape(text, quote=False)
    return f'<data class="words">{shown}</data>' if any(map(str.isdigit, text)) else shown


def _date(day: str) -> str:
    return f'<time class="date" datetime="{day}">{day}</time>'
