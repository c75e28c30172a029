"""Lists of advice: what to do stands large; what most entries rest on, and who stands behind it, is said once below."""

from __future__ import annotations

from collections.abc import Sequence
from html import escape

from ..results.saying.people import NOT_RATIFIED, NOT_SET, OTHERWISE, who_ratified
from ..results.saying.small_numbers import in_words
from ..results.values.document import AdviceList, Entry
from ..results.values.line import Line, Marked, line, plain_text
from .inline import Place, holds_for, line_html

# Lists of which the words alone are read in a hurry: a basis of more than two lines on a phone is one tap away.
_FOLDED = frozenset({"now", "steps", "medical", "call"})
_LONG_BASIS = 84

# Of these the basis is an argument, and stands beside every entry.
_ARGUED = frozenset({"for", "against", "neither"})

_NO_LINE: Line = ()

# A line that begins with an exception reads as if what stands above it were a matter of choice.
_BASIS = "Basis: "


def advice_html(block: AdviceList, place: Place, mark: str) -> str:
    """The list, what is behind a line and the rest of them one tap away, and one line for what most entries share.

    mark: that of a demonstration, as HTML, or "" where what stands around has it already.
    """
    basis, ratified = _shared(block)
    entries = tuple(_exceptions(entry, basis, ratified) for entry in block.entries)
    cut = block.shown or len(entries)
    out = [_list(entries[:cut], block, place, opens=bool(block.shown))]
    if entries[cut:]:
        title = escape(f"{in_words(len(entries) - cut).capitalize()} {block.rest}")
        rest = _list(entries[cut:], block, place)
        out.append(f'<details class="rest"><summary>{title}</summary>\n{rest}\n</details>')
    said = _below(entries, basis, ratified)
    if said:
        out.append(f'<p class="basis">{line_html(said, place)}{mark}</p>')
    elif mark:
        out.append(f'<p class="mark">{mark.strip()}</p>')
    return "".join(out)


def _below(entries: Sequence[Entry], basis: Line, ratified: Line) -> Line:
    """What most entries rest on, and who stands behind which of them. entries: with their exceptions alone."""
    if basis == (NOT_SET,):
        return _below_unset(entries, ratified)
    others = [entry.ratified for entry in entries if entry.ratified]
    if ratified != (NOT_RATIFIED,):
        others += [entry.basis for entry in entries if entry.basis == (NOT_SET,)]
    is_whole = all(entry.basis == () for entry in entries)
    if basis and ratified and is_whole == (not others):
        return line(_BASIS, *basis, "; ", *ratified, "." if is_whole else f"; {OTHERWISE}.")
    rests = line(_BASIS, *basis, "." if is_whole else f", {OTHERWISE}.") if basis else ()
    stands = who_ratified(ratified, others) if ratified else ()
    return line(*rests, " " if rests and stands else None, *stands)


def _below_unset(entries: Sequence[Entry], ratified: Line) -> Line:
    """The same where most entries rest on a protocol that nobody set, which nobody can have ratified."""
    is_whole = all(entry.basis == () for entry in entries)
    rests = line(_BASIS, NOT_SET, "; the lines hold until it is")
    if not ratified:
        return line(*rests, "." if is_whole else f", {OTHERWISE}.")
    but = " or says otherwise." if any(entry.ratified for entry in entries) else "."
    return line(*rests, ". A line with another basis is ", *ratified, but)


def _list(entries: tuple[Entry, ...], block: AdviceList, place: Place, *, opens: bool = False) -> str:
    """opens: a line opens what is behind it, since it stands on the first screens."""
    tag = "ol" if block.ordered else "ul"
    start = f' start="{block.start}"' if block.ordered and block.start > 1 else ""
    rows = "\n".join(_entry(entry, place, block.kind, opens=opens) for entry in entries)
    return f'<{tag} class="advice {block.kind}"{start}>\n{rows}\n</{tag}>'


def _shared(block: AdviceList) -> tuple[Line, Line]:
    """The basis and the people that most entries have; () where no two entries have the same."""
    if block.kind in _ARGUED:
        return _NO_LINE, _NO_LINE
    bases = [entry.basis for entry in block.entries if len(entry.basis) == 1 and isinstance(entry.basis[0], str)]
    return _most(bases), _most([entry.ratified for entry in block.entries if entry.ratified])


def _most(lines: Sequence[Line]) -> Line:
    often = max(dict.fromkeys(lines), key=lines.count, default=_NO_LINE)
    return often if lines.count(often) > 1 else _NO_LINE


def _exceptions(entry: Entry, basis: Line, ratified: Line) -> Entry:
    """The entry with that alone in which it differs from the others."""
    return entry._replace(
        basis=_NO_LINE if entry.basis == basis else entry.basis,
        ratified=_NO_LINE if entry.ratified == ratified else entry.ratified,
    )


def _entry(entry: Entry, place: Place, kind: str, *, opens: bool) -> str:
    caution = f'<p class="caution">{line_html(entry.caution, place)}</p>' if entry.caution else ""
    parts = [line_html(part, place) for part in (entry.basis, entry.ratified) if part]
    basis = f'<p class="basis">{" · ".join(parts)}</p>' if parts else ""
    if opens and (caution or _has_link(entry.basis)) and not _has_link(entry.words) and not _is_gone(entry):
        # Of the basis its kind alone stands open.
        short = _short_basis(entry)
        own = f' <span class="basis">{short}</span>' if short else ""
        behind = caution + (basis if [short] != parts else "")
        words = f'<span class="do">{line_html(entry.words, place)}</span>{own}'
        return f"<li><details><summary>{words}</summary>{behind}</details></li>"
    out = [f'<p class="do">{line_html(entry.words, place)}</p>', caution]
    length = len(plain_text((*entry.basis, *entry.ratified)))
    short = _short_basis(entry) if kind in _FOLDED and length > _LONG_BASIS else ""
    if short:
        out.append(f'<details class="basis"><summary>{short}</summary><p>{" · ".join(parts)}</p></details>')
    else:
        out.append(basis)
    return f"<li{holds_for(entry.of) if kind in _ARGUED else ''}>{''.join(out)}</li>"


def _has_link(said: Line) -> bool:
    """True of a line that leads somewhere or holds a figure: it cannot stand in what is tapped to open something."""
    return any(not isinstance(part, str) and not isinstance(part, Marked) for part in said)


def _is_gone(entry: Entry) -> bool:
    """What rested on a withdrawn report says so aloud."""
    first = entry.basis[0] if entry.basis else ""
    return isinstance(first, str) and first.endswith(" was ")


def _short_basis(entry: Entry) -> str:
    """The kind of basis, as the line that says it whole begins, without its figures; "" where it has to stand open."""
    kind = _kind_of_basis(entry)
    unratified = f" · {NOT_RATIFIED}" if entry.ratified == (NOT_RATIFIED,) else ""
    return escape(kind + unratified, quote=False) if kind else ""


def _kind_of_basis(entry: Entry) -> str:
    first = entry.basis[0] if entry.basis else ""
    if not isinstance(first, str) or _is_gone(entry):
        return ""
    return first.partition(":")[0]
