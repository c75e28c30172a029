"""What a change moves, in words for whoever reviews it, and as JSON for tools."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Sequence

from ..review_words import as_words
from .moves import FigureMove, Impact, Move, PageMove, PartMove

MOST = 12
"""So many entries of one kind are printed; the rest is counted, and stands in the JSON."""

_NOTHING = "Nothing moved: no reader meets another word or number than before."
_NOTHING_THEN = "Nothing would move: no reader would meet another word or number than now."


def as_markdown(impact: Impact, base: str, retracted: Sequence[str] = ()) -> str:
    """A summary for a pull request, what is turned round first.

    base: the revision or folder that it was compared with. retracted: keys of the reports whose retraction was asked
    about instead.
    """
    return "\n".join(_markdown(impact, base, retracted)) + "\n"


def _markdown(impact: Impact, base: str, retracted: Sequence[str]) -> Iterator[str]:
    yield (
        f"# What moves if {as_words(', '.join(retracted))} were retracted"
        if retracted
        else (f"# What moves since {as_words(base)}")
    )
    yield ""
    if impact.is_nothing:
        yield _NOTHING_THEN if retracted else _NOTHING
        return
    yield _counted(impact)
    if not impact.turned_round:
        yield ""
        yield "No comparison and no study points the other way."
    yield from _section("Now the other way round", impact.turned_round)
    yield from _section("Which way the studies lie, and how clearly", impact.directions)
    yield from _section("What is put together", impact.pooled)
    yield from _section("How sure", impact.certainty)
    yield from _section("The same patients", impact.overlaps)
    for title, kind in (("What a question says", "question"), ("What a patient is told", "patient")):
        yield from _section(
            title, [_at(page, move) for page in impact.pages if page.kind == kind for move in page.lines]
        )
    yield from _section("Where nothing is known", impact.gaps)
    yield from _parts(impact.parts)
    yield from _pages(impact.pages)
    yield from _figures(impact.figures)


def _counted(impact: Impact) -> str:
    states = [page.state for page in impact.pages]
    pages = ", ".join(f"{states.count(state)} {state}" for state in ("changed", "new", "gone") if state in states)
    gone = sum(move.after is None for move in impact.figures)
    new = sum(move.before is None for move in impact.figures)
    return (
        f"Pages: {pages or 'none'}. Numbers: {len(impact.figures) - gone - new} changed, {new} new, {gone} gone. "
        "What goes together with a result need not be its cause."
    )


def _at(page: PageMove, move: Move) -> Move:
    return move._replace(of=page.title)


def _section(title: str, moves: Iterable[Move]) -> Iterator[str]:
    moves = list(moves)
    if not moves:
        return
    yield ""
    yield f"## {title}"
    yield ""
    for move in moves[:MOST]:
        yield f"- {_told(move)}"
    yield from _rest(len(moves))


def _rest(number: int) -> Iterator[str]:
    if number > MOST:
        yield f"- and {number - MOST} more: `--format json` has them all"


def _told(move: Move) -> str:
    named = f"**{as_words(move.of)}** " if move.of and move.of not in (move.before, move.after) else ""
    if not move.before:
        return f"{named}new: {as_words(move.after)}"
    if not move.after:
        return f"{named}gone: {as_words(move.before)}"
    return f"{named}was: {as_words(move.before)}<br>now: {as_words(move.after)}"


def _pages(pages: Iterable[PageMove]) -> Iterator[str]:
    moves = [Move(page.path, "", f"{page.state}: {page.title}") for page in pages]
    if moves:
        yield ""
        yield "## Pages"
        yield ""
        yield from (f"- {as_words(move.of)}, {as_words(move.after)}" for move in moves[:MOST])
        yield from _rest(len(moves))


def _parts(parts: tuple[PartMove, ...]) -> Iterator[str]:
    for title, kind in (("Plots", "plot"), ("Sheets", "sheet")):
        told = [f"- {as_words(part.title)}: {part.state}, on {part.path}" for part in parts if part.kind == kind]
        if told:
            yield from ("", f"## {title}", "", *told[:MOST], *_rest(len(told)))


def _figures(moves: tuple[FigureMove, ...]) -> Iterator[str]:
    """Numbers whose text is another; of all others only how many there are."""
    said = [
        Move(move.id, str(move.before["text"]) if move.before else "", str(move.after["text"]) if move.after else "")
        for move in moves
        if (move.before and move.before["text"]) != (move.after and move.after["text"])
    ]
    yield from _section("Numbers", said)


def as_json(impact: Impact, base: str, retracted: Sequence[str] = ()) -> str:
    """Everything that moved, whole. base and retracted: as above."""

    def moves(items: Iterable[Move]) -> list[dict[str, str]]:
        return [{"of": item.of, "before": item.before, "after": item.after} for item in items]

    told = {
        **({"retracted": list(retracted)} if retracted else {"base": base}),
        "moved": not impact.is_nothing,
        "turned_round": moves(impact.turned_round),
        "directions": moves(impact.directions),
        "pooled": moves(impact.pooled),
        "certainty": moves(impact.certainty),
        "overlaps": moves(impact.overlaps),
        "gaps": moves(impact.gaps),
        "pages": [
            {
                "path": page.path, "title": page.title, "kind": page.kind, "state": page.state,
                "lines": [{"before": line.before, "after": line.after} for line in page.lines],
            }
            for page in impact.pages
        ],
        "parts": [part._asdict() for part in impact.parts],
        "figures": [{"id": move.id, "before": move.before, "after": move.after} for move in impact.figures],
    }  # fmt: skip
    return json.dumps(told, ensure_ascii=False, indent=1) + "\n"
