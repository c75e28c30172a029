"""The recall planner: the plan as a table that stands without a script, and the form that a script fills with dates."""

from __future__ import annotations

import json
from html import escape

from ..reading.standing import WEEK
from ..results.values.document import RecallForm
from .inline import marked_html, typed_html


def _days(closed: tuple[str, ...]) -> str:
    """The days of the week as buttons; pressed are those that local.yaml names, and no other."""
    buttons = "".join(
        f'<button type="button" data-closed="{day}" aria-label="{day}" aria-pressed="{str(day in closed).lower()}">'
        f"{day[:3]}</button>"
        for day in WEEK
    )
    return f'<div class="filter" role="group" aria-label="Days without visits">{buttons}</div>'


def recall_html(block: RecallForm, mark: str, level: int) -> str:
    """Visits as they stand in the plan, and what a script needs to turn a treatment date into days and a calendar file.

    mark: the mark of a demonstration, which travels into the calendar file; "" where there is none.
    level: of the headings.
    """
    data = {
        "question": block.question,
        "visits": [[months, typed] for months, typed in block.visits],
        "record": list(block.record),
        "failing": list(block.failing),
        "mark": mark,
    }
    # Said with and without a script, and on paper: whoever books has to know it.
    closed, tap = "Closed days not set here; ask the desk.", "Tap the days without visits:"
    if block.closed:
        closed, tap = f"Closed here: {', '.join(block.closed)}.", "Tap to change:"
    rows = "\n".join(
        f'<li data-months="{months}">{marked_html("visit", typed)} <span class="day"></span></li>'
        for months, typed in block.visits
    )
    record = "".join(f"<li>{typed_html(item)}</li>" for item in block.record)
    failing = "".join(f"<li>{typed_html(item)}</li>" for item in block.failing)
    return (
        f'<div class="recall" data-plan="{escape(json.dumps(data, ensure_ascii=False))}">\n'
        '<div class="planner" role="group" aria-label="Finished today?" hidden><b>Finished today?</b> '
        '<button type="button" data-finished="yes" aria-pressed="false">Yes</button> '
        '<button type="button" data-finished="no" aria-pressed="false">No, not yet</button></div>\n'
        '<form class="planner" hidden><label for="treated">Day of treatment</label> '
        '<input id="treated" type="date" autocomplete="off"> <button type="button" data-today>Today</button></form>\n'
        '<p class="warning" data-nearest hidden>Next visit, not finished yet: <span class="day"></span></p>\n'
        f'<ol class="visits">\n{rows}\n</ol>\n'
        f'<p>{closed} <span class="planner" hidden>{tap}</span></p>\n'
        f'<div class="planner" hidden>{_days(block.closed)}\n'
        '<button class="target" type="button" data-calendar>Calendar file</button>\n'
        '<p class="says" role="status"></p></div>\n'
        f'<h{level} id="record">Record at each visit</h{level}>\n<ul>{record}</ul>\n'
        f'<h{level} id="failing">It may be failing</h{level}>\n<ul>{failing}</ul>\n</div>'
    )
