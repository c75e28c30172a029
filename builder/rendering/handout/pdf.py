"""The sheet that is handed out as PDF, tagged so that it can be heard (PDF/UA-1, ISO 14289-1)."""

from __future__ import annotations

import datetime
import json
import re
from collections.abc import Callable, Iterator
from functools import lru_cache, partial
from importlib.resources import files

from ...results.values.guide import Guide
from ...results.values.handout import Handout, figures_on, handout_path
from ...results.values.line import Line, plain_text
from ..citations.numbered import cited_by_number
from ..drawings.png import compiler
from ..drawings.set_lines import runs_of
from ..drawings.standalone import MARK, SHEET, drawing
from ..faces import PRINT

# Font sizes in points that are tried one after the other, each with the most sides that it may fill.
_TRIED = ((9.5, 1), (8.6, 1), (9.5, 2), (8.6, 2), (7.6, 2), (6.8, 2))


def sheets(guide: Guide) -> dict[str, Callable[[], Iterator[bytes]]]:
    """What writes the sheet of each question, by its path."""
    return {handout_path(name): partial(_pieces, guide, name) for name in guide.handouts}


def _pieces(guide: Guide, question: str) -> Iterator[bytes]:
    yield handout_pdf(guide, guide.handouts[question])


def handout_pdf(guide: Guide, handout: Handout) -> bytes:
    """The sheet, on one side of A4 or two: the same bytes for the same evidence.

    The numbers on it are attached by their ids, one JSON line each, in the order of reading.
    """
    data = json.dumps(_sheet(guide, handout), ensure_ascii=False)
    day = datetime.datetime.combine(guide.evidence_date, datetime.time(), datetime.UTC)
    made = b""
    for size, sides in _TRIED:
        made = _compiled(data, size, day)
        if pages_of(made) <= sides:
            break
    return made


def _compiled(data: str, size: float, day: datetime.datetime) -> bytes:
    made = compiler().compile(
        _template(), format="pdf", pdf_standards=["ua-1"], timestamp=day,
        sys_inputs={"sheet": data, "size": f"{size:g}"},
    )  # fmt: skip
    assert isinstance(made, bytes), "a PDF is one file"
    return made


def pages_of(pdf: bytes) -> int:
    """How many pages a PDF of ours has."""
    return len(re.findall(rb"/Type ?/Page\b", pdf))


@lru_cache(maxsize=1)
def _template() -> bytes:
    return files(__package__).joinpath("sheet.typ").read_bytes()


def _sheet(guide: Guide, handout: Handout) -> dict[str, object]:
    mark = MARK if guide.is_demonstration else ""
    return {
        "title": plain_text(handout.title),
        "programme": guide.programme,
        "description": f"{guide.title}, release {guide.release}" + (f", {mark}" if mark else ""),
        "short": f"{guide.programme}, release {guide.release}, evidence to {guide.evidence_date.isoformat()}",
        "mark": mark,
        "case": _runs(handout.case),
        "answer": [_runs(said) for said in handout.answer],
        "tables": [
            {
                "title": _runs(found.title),
                "header": list(found.header),
                "rows": [[{"runs": _runs(cell)} for cell in row] for row in found.rows],
                "below": [_runs(said) for said in found.below],
            }
            for found in handout.tables
        ],
        "plot": _plot(handout, mark),
        "say": [_runs(said) for said in handout.say],
        "not_say": [_runs(said) for said in handout.not_say],
        "references": list(cited_by_number(guide, handout.references)),
        "citation": _runs(handout.citation),
        "foot": [_runs(said) for said in handout.foot],
        "figures": "".join(
            json.dumps({"id": figure.id, "text": figure.text}, ensure_ascii=False) + "\n"
            for figure in figures_on(handout)
        ),
    }


def _plot(handout: Handout, mark: str) -> dict[str, object] | None:
    if handout.plot is None:
        return None
    made = drawing(handout.plot, mark, SHEET, PRINT)
    return {"title": _runs(handout.plot.title), "svg": made.svg, "alt": made.says, "read": _runs(handout.plot.read)}


def _runs(said: Line) -> list[dict[str, object]]:
    return [{"text": run.text, "bold": run.is_bold} for run in runs_of(said)]
