"""Numbers of an answer, marked for the script of the page with the ways to go on in which they were counted."""

from __future__ import annotations

from collections.abc import Sequence

from ...reading.model import Question
from ...results.findings.findings import Catalogue, Finding
from ...results.findings.ways_counted import ways_counted
from ...results.values.document import walk
from ...results.values.figures import Figure
from ...results.values.line import Line, Span, line


def of_ways(catalogue: Catalogue, question: Question, findings: Sequence[Finding], numbers: Line) -> Line:
    """The numbers of these findings; a way in which they were not counted alone has a "+" behind its id.

    A ratio alone is no number of a way, and stays as it is.
    """
    is_counted = any(isinstance(part, Figure) and part.id.endswith("/events") for part in walk(numbers))
    ways = ways_counted(catalogue, question, findings) if is_counted else ()
    of = " ".join(way.id if way.is_alone else f"{way.id}+" for way in ways)
    return line(Span("of-ways", numbers, of)) if of else numbers
