"""The recall planner: the plan as a table that stands without a script, and the form that a script fills with dates."""

from __future__ import annotations

import json
from html import escape

from ..results.values.document import RecallForm
from .inline import marked_html, typed_html

_DAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
# Nothing is pressed beforehand: on which days a clinic is closed is known where it stands.
_BUTTONS = "".join(
    f'<button type="button" data-closed="{day}" aria-label="{day}" aria-pressed="false">{day[:3]}</button>'
    for day in _DAYS
)
_CLOSED = (
    '<p id="closed-days">No visit on:</p>\n'
    f'<div class="filter" role="group" aria-labelledby="closed-days">{_BUTTONS}</div>'
)


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
    rows = "\n".join(
        f'<li data-months="{months}">{marked_html("visit", typed)} <span class="day"></span></li>'
        for months, typed in block.visits
    )
    record = "".join(f"<li>{typed_html(item)}</li>" for item in block.record)
    failing = "".join(f"<li>{typed_html(item)}</li>" for item in block.failing)
    return (
        f'<div class="recall" data-plan="{escape(json.dumps(data, ensure_ascii=False))}">\n'
        '<form class="planner" hidden><label for="treated">Day of treatment</label> '
        '<input id="treated" type="date" autocomplete="off"></form>\n'
        f'<ol class="visits">\n{rows}\n</ol>\n'
        f'<div class="planner" hidden>{_CLOSED}\n'
        '<button class="target" type="button" data-calendar>Calendar file</button>\n'
        '<p class="says" role="status"></p></div>\n'
        f'<h{level} id="record">Record at each visit</h{level}>\n<ul>{record}</ul>\n'
        f'<h{level} id="failing">It may be failing</h{level}>\n<ul>{failing}</ul>\n</div>'
    )
