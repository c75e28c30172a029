"""What a look at all reports came to: in words for whoever reviews the change, and as JSON for tools."""

from __future__ import annotations

import datetime
import json
from collections.abc import Iterable, Iterator, Sequence

from ..review_words import as_words
from .standings import Looked


def is_whole(looked: Iterable[Looked]) -> bool:
    """True where nothing was left unchecked that has a DOI."""
    return all(each.outcome != "not checked" for each in looked)


def as_markdown(looked: Sequence[Looked], day: datetime.date) -> str:
    """A summary for a pull request, what is new first."""
    return "\n".join(_markdown(looked, day)) + "\n"


def _markdown(looked: Sequence[Looked], day: datetime.date) -> Iterator[str]:
    yield f"# Retractions and corrections, looked up on {day.isoformat()}"
    yield ""
    with_doi = [each for each in looked if each.doi]
    checked = sum(each.outcome != "not checked" for each in with_doi)
    yield (
        f"{checked} of {len(with_doi)} reports with a DOI were checked by Crossref's record of them. "
        "That no notice is named there does not show that there is none."
    )
    changed = [each for each in looked if each.outcome == "changed"]
    known = [each for each in changed if each.status is not None and (each.before or each.status.state != "none found")]
    yield from _section("Now otherwise", (_change(each) for each in known))
    new = [each for each in changed if each not in known]
    yield from _section("Looked up for the first time, and no notice named", (_name(each) for each in new))
    yield from _section("To look at", _remarks(each for each in looked if each.outcome != "not checked"))
    yield from _section(
        "Not checked: what stood there still stands, and its day",
        _remarks(each for each in looked if each.outcome == "not checked"),
    )
    without = [f"**{as_words(each.key)}**" for each in looked if each.outcome == "no doi"]
    yield from _section("Without a DOI: to be looked up by hand", without)


def _section(title: str, lines: Iterable[str]) -> Iterator[str]:
    lines = list(lines)
    if lines:
        yield ""
        yield f"## {title}"
        yield ""
        yield from (f"- {line}" for line in lines)


def _remarks(looked: Iterable[Looked]) -> Iterator[str]:
    for each in looked:
        yield from (f"{_name(each)}: {as_words(said)}" for said in each.remarks)


def _name(each: Looked) -> str:
    return f"**{as_words(each.key)}** ({as_words(each.doi)})"


def _change(each: Looked) -> str:
    assert each.status is not None
    notice = each.status.notice
    by = f", by {as_words(notice.words)} {as_words(notice.doi)}" if notice is not None else ""
    when = f" of {notice.on.isoformat()}" if notice is not None and notice.on is not None else ""
    return f"{_name(each)}: was {each.before or 'not checked'}, is now **{each.status.state}**{by}{when}"


def as_json(looked: Sequence[Looked], day: datetime.date) -> str:
    """The same for tools, one entry a report."""
    reports = [
        {
            "key": each.key,
            "doi": each.doi,
            "outcome": each.outcome,
            "before": each.before or None,
            "state": each.status.state if each.status is not None else each.before or None,
            "notice": _notice(each),
            "remarks": list(each.remarks),
        }
        for each in looked
    ]
    counts = {
        outcome: sum(each.outcome == outcome for each in looked)
        for outcome in ("checked", "changed", "kept", "not checked", "no doi")
    }
    return (
        json.dumps({"on": day.isoformat(), "counts": counts, "reports": reports}, ensure_ascii=False, indent=1) + "\n"
    )


def _notice(each: Looked) -> dict[str, str | None] | None:
    notice = each.status.notice if each.status is not None else None
    if notice is None:
        return None
    return {"doi": notice.doi, "on": notice.on.isoformat() if notice.on else None, "words": notice.words}
