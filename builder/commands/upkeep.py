"""upkeep: what waits for somebody, as the page of that name has it; with a day, what is overdue on it."""

from __future__ import annotations

import argparse
import datetime
import json
import sys
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from .refused import lacks_compendium, say_problems

if TYPE_CHECKING:
    from ..guide.about.waiting_entry import Waits


def add_options(parser: argparse.ArgumentParser) -> None:
    """What `upkeep` takes beside the folder."""
    parser.add_argument("--format", choices=("text", "json"), default="text", help="to read, or for tools")
    parser.add_argument(
        "--on", metavar="DATE", type=_day,
        help="a day, 2026-12-01: what was set for an earlier one is overdue. Without it nothing is called so",
    )  # fmt: skip


def _day(text: str) -> datetime.date:
    try:
        return datetime.date.fromisoformat(text)
    except ValueError:
        raise argparse.ArgumentTypeError(f'type a day as year, month and day, 2026-12-01 say; found "{text}"') from None


def run(options: argparse.Namespace) -> int:
    """0: nothing is overdue, and what waits was told; 1: something is overdue on the day that was named; 2: the options
    are wrong, or there is no compendium there that passes its check.
    """
    root = Path(options.root)
    if lacks_compendium(root):
        return 2
    from ..audit.whole import audit
    from ..guide.about.waiting import is_overdue, waiting
    from ..guide.named_results import named_result
    from ..reading.evidence import read_evidence
    from ..results.findings.findings import Catalogue

    evidence = read_evidence(root)
    outcome = audit(evidence)
    if not outcome.passes:
        say_problems([problem for problem in outcome.problems if problem.is_open])
        print("what waits is told of evidence that passes its check", file=sys.stderr)
        return 2
    catalogue = Catalogue(evidence, outcome)
    found = waiting(catalogue, lambda text: named_result(catalogue, text))
    if options.format == "json":
        print(as_json(found, options.on), end="")
    else:
        print("\n".join(as_text(found, options.on)))
    return int(any(is_overdue(item, options.on) for item in found))


def as_text(found: Sequence[Waits], on: datetime.date | None) -> Iterator[str]:
    """The most urgent first. on: the day that was named."""
    from ..guide.about.waiting import KINDS, is_overdue

    late = [item for item in found if is_overdue(item, on)]
    if on is not None:
        yield f"Overdue on {on}: {len(late) or 'nothing'}"
        yield from map(_told, late)
    for kind in KINDS:
        items = [item for item in found if item.kind == kind.name and not is_overdue(item, on)]
        if items:
            yield f"{kind.title}: {len(items)}"
            yield from map(_told, items)
    if not found:
        yield "Nothing waits."


def _told(item: Waits) -> str:
    from ..results.values.line import above_and_below, plain_text

    what, place = map(plain_text, above_and_below(item.what))
    parts = (plain_text(item.where), what, place, f"since {item.since}" if item.since else "", item.who)
    return "  " + "; ".join(filter(None, parts))


def as_json(found: Sequence[Waits], on: datetime.date | None) -> str:
    """Every row of the page, with the anchor of its kind there."""
    from ..guide.about.waiting import is_overdue
    from ..results.values.line import above_and_below, plain_text

    rows = []
    for item in found:
        what, place = map(plain_text, above_and_below(item.what))
        rows.append(
            {
                "kind": item.kind,
                "where": plain_text(item.where),
                "what": what,
                "place": place or None,
                "since": item.since.isoformat() if item.since else None,
                "who": item.who or None,
                "due": item.due.isoformat() if item.due else None,
                "overdue": is_overdue(item, on) if on is not None else None,
            }
        )
    told = {
        "on": on.isoformat() if on is not None else None,
        "overdue": sum(is_overdue(item, on) for item in found),
        "waits": rows,
    }
    return json.dumps(told, ensure_ascii=False, indent=1) + "\n"
