"""Lines of text become HTML: figures with their link, marked numbers, links relative to their page."""

from __future__ import annotations

import re
from collections.abc import Mapping
from html import escape

from ..numerals import Unit as CountedUnit
from ..results.values.figures import Figure
from ..results.values.line import Line, Link, Marked, Part, Span, plain_text

_DIGIT = re.compile(r"\d")
# What may stand between two numbers that one passage prints together: "39 of 47", "62% to 80%", "47 arms (83%)",
# "(83%), 95% CI 70% to 91%".
_is_joining = re.compile(
    r" ?(?:of|to|and|or|/|–|-) ?|, | points? fewer to | [^\W\d]+(?: [^\W\d]+)? \((?:mean |median |within )?"
    r"|\)?,? \(?\d+% CI "
).fullmatch


# Kinds that a link of nothing else carries itself.
_ON_LINKS = frozenset({"reference", "locator", "words", "definition"})


class Place(str):
    """Where a line is printed: the address of its page, "" for the front page, "some-question/size/" for others.

    A text of its own kind so that it cannot be mistaken for a line.
    """

    @property
    def to_root(self) -> str:
        """The way from the page to the root of the site: "../../", "" on the front page."""
        return "../" * self.count("/")


def href(target: str, place: Place) -> str:
    """A link relative to its page, so that the site works below any address."""
    if target.startswith(("#", "https://", "http://", "tel:")):
        return target
    if target.startswith(place + "#") and place:
        return target[len(place) :]
    path, hash_sign, anchor = target.partition("#")
    return (place.to_root + path or "./") + hash_sign + anchor


def typed_html(text: str, kind: str = "words") -> str:
    """Text as typed, escaped, and marked where it holds a digit."""
    if _DIGIT.search(text):
        return marked_html(kind, text)
    return escape(text, quote=False)


def marked_html(kind: str, text: str) -> str:
    """A number that is no evidence, with its kind."""
    if kind == "date":
        if re.fullmatch(r"\d{4}-\d\d-\d\d", text):
            # HTML Standard, section 4.5.14: without the attribute `datetime` the text itself is the date.
            return f'<time class="date">{text}</time>'
        return f'<data class="date" value="{escape(text)}">{escape(text, quote=False)}</data>'
    return f'<span class="{kind}">{escape(text, quote=False)}</span>'


def figure_html(figure: Figure) -> str:
    """The number alone, without its link."""
    # The value stands last, beside the same text: so a page weighs less compressed.
    return (
        f'<data class="figure" data-figure="{escape(figure.id)}" value="{figure.value}">'
        f"{escape(figure.text, quote=False)}</data>"
    )


def unit_after(figure: Figure, units: Mapping[str, CountedUnit]) -> str:
    """The figure's unit as words behind it, with a blank before; "" where the number says it itself or has none.

    units: what is counted, by id.
    """
    unit = figure.unit
    if unit in ("none", "P", "mm") or unit.endswith(("ratio", "difference", "fraction")):
        return " mm" if unit == "mm" else ""
    if unit == "%":
        return "" if figure.text.endswith(("%", "cent")) or figure.is_proportion else "%"
    if unit in units:
        return f" {units[unit].word(figure.value)}"
    return f" {unit}" if figure.value == "1" else f" {unit}s"


def figure_target(figure: Figure) -> str:
    """Where a tap on the figure leads: the passage it was quoted from, or the workings on the same page."""
    if figure.proof is not None:
        return f"sources/{figure.proof.passage.key}/#{figure.proof.passage.slug}"
    return f"#workings-{figure.workings}"


def line_html(line: Line, place: Place, *, is_linked: bool = True) -> str:
    """A line as HTML. Neighbouring figures of one passage share one link, with the few words between them.

    is_linked: False inside something that is a link or a label already.
    """
    out: list[str] = []
    index = 0
    line = _in_one_text(line)
    count = len(line)
    while index < count:
        part = line[index]
        if isinstance(part, Figure):
            if not is_linked:
                out.append(figure_html(part))
                index += 1
                continue
            target = figure_target(part)
            inner, open_brackets = figure_html(part), 0
            index += 1
            while between := _between(line, index, target):
                words = plain_text(between[:-1])
                open_brackets += words.count("(") - words.count(")")
                inner += line_html(between, place, is_linked=False)
                index += len(between)
            rest = line[index] if open_brackets > 0 and index < count else ""
            if isinstance(rest, str) and rest.startswith(")"):
                # A bracket that opened inside the link closes inside it.
                inner += ")"
                index += 1
            else:
                rest = ""
            out.append(f'<a href="{escape(href(target, place))}">{inner}</a>{escape(rest[1:], quote=False)}')
            continue
        out.append(_part_html(part, place, is_linked))
        index += 1
    return "".join(out)


def _between(line: Line, index: int, target: str) -> Line:
    """The few words that lead on to a further figure of the same passage, and that figure; empty where none follows."""
    for end in (index + 1, index + 3):
        if end < len(line) and isinstance(following := line[end], Figure):
            words = line[index:end]
            is_text = all(
                isinstance(part, str) or (isinstance(part, Marked) and part.kind == "convention") for part in words
            )
            is_one = is_text and _is_joining(plain_text(words)) and figure_target(following) == target
            return line[index : end + 1] if is_one else ()
    return ()


def _in_one_text(line: Line) -> Line:
    """The line with texts that follow one another as one."""
    out: list[Part] = []
    for part in line:
        if isinstance(part, str) and out and isinstance(out[-1], str):
            out[-1] += part
        else:
            out.append(part)
    return tuple(out)


def holds_for(answers: str) -> str:
    """The attribute that tells the script of a page for which answers something holds; "" for all of them."""
    return f' data-needs="{escape(answers)}"' if answers else ""


def _part_html(part: object, place: Place, is_linked: bool) -> str:
    if isinstance(part, str):
        return escape(part, quote=False)
    if isinstance(part, Marked):
        return marked_html(part.kind, part.text)
    if isinstance(part, Link):
        inner = line_html(part.line, place, is_linked=False)
        if not is_linked:
            return inner
        kind = f' class="{part.kind}"' if part.kind else ""
        if not kind and len(part.line) == 1 and isinstance(only := part.line[0], Marked) and only.kind in _ON_LINKS:
            kind, inner = f' class="{only.kind}"', escape(only.text, quote=False)
        rel = ' rel="noopener noreferrer"' if part.target.startswith("http") else ""
        return f'<a{kind} href="{escape(href(part.target, place))}"{rel}>{inner}</a>'
    if isinstance(part, Span):
        return _span_html(part, place, is_linked)
    raise TypeError(f"no way to print {part!r}")


def _span_html(part: Span, place: Place, is_linked: bool) -> str:
    if part.kind == "code":
        if len(part.line) == 1 and isinstance(only := part.line[0], Marked) and only.kind != "date":
            return f'<code class="{only.kind}">{escape(only.text, quote=False)}</code>'
        return f"<code>{line_html(part.line, place, is_linked=False)}</code>"
    inner = line_html(part.line, place, is_linked=is_linked)
    if part.kind == "below":
        # Within the paragraph of its sentence: it is copied with it, and never printed on another page.
        return f" <small>{inner}</small>"
    if part.kind == "each":
        return f"<div{holds_for(part.of)}>{inner}</div>"
    if part.kind == "in-doubt":
        return f"<span{holds_for(part.of)}>{inner}</span>"
    if part.kind == "of-ways":
        return f'<span data-ways="{escape(part.of)}">{inner}</span>'
    return f'<span class="{part.kind}">{inner}</span>'
