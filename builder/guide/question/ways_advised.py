"""What an answer has against a way to go on, in words that a patient can be told; it stands once that was answered."""

from __future__ import annotations

from itertools import product
from typing import Literal

from ...reading.model import Advice, Option, Question
from ...results.findings.findings import Catalogue
from ...results.saying.titles import levels_of
from ...results.values.document import Paragraph
from ...results.values.line import Line, Span, line, typed
from ..sentences.advice import entry, is_withdrawn
from ..sentences.prose import NamedResult
from .arguments import weighed
from .patient_answers import IF_ANSWERED

Reason = Literal["needs", "against"]
# Whole sentences for whoever is treated. What was made of the entries stands behind them, and stays with the clinician.
_RATHER_NOT = "with what we see here, we may advise against it. Ask me why."
_WHY: dict[Reason, str] = {
    "needs": " It needs this: ",
    "against": " This speaks against it: ",
}


def ways_advised(catalogue: Catalogue, question: Question, named: NamedResult) -> tuple[Paragraph, ...]:
    """One paragraph a way and answer that it does not go with: what the way asks, or what speaks against it.

    What decides neither, what leaned on a withdrawn report, and what would speak for it elsewhere is no reason. Other
    ways stand as they are.
    """
    out: list[Paragraph] = []
    for option in question.options:
        reasons: dict[str, list[tuple[Reason, Line]]] = {}
        for reason, item in _entries(catalogue, question, option):
            words = entry(item, catalogue, named, option.ratified or question.ratified).words
            for answers in _speaking_against(catalogue, item, is_met=reason == "against"):
                reasons.setdefault("&".join(answers), []).append((reason, words))
        out.extend(Paragraph(_said(option, said), IF_ANSWERED, answers) for answers, said in reasons.items())
    return tuple(out)


def _entries(catalogue: Catalogue, question: Question, option: Option) -> list[tuple[Reason, Advice]]:
    """What a way asks, then what speaks against it as far as that is clear; each with what is said of it."""
    level = option.is_level.text if option.is_level is not None else ""
    every: list[tuple[Reason, Advice]] = [("needs", item) for item in option.asks]
    argued = (item for item in option.against if weighed(item, catalogue, question.id, level).weight == "argues")
    every.extend(("against", item) for item in argued)
    return [(reason, item) for reason, item in every if item.answers and not is_withdrawn(item, catalogue)]


def _speaking_against(catalogue: Catalogue, item: Advice, *, is_met: bool) -> list[tuple[str, ...]]:
    """Sets of answers, each "factor=level", that together speak against a way by this entry.

    is_met: where the entry holds; else each answer alone for which it does not.
    """
    needed: dict[str, list[str]] = {}
    for answer in item.answers or ():
        needed.setdefault(answer.factor.text, []).append(answer.level.text)
    if is_met:
        return list(product(*([f"{factor}={level}" for level in levels] for factor, levels in needed.items())))
    return [
        (f"{factor}={level}",)
        for factor, levels in needed.items()
        for level, _ in levels_of(catalogue, factor)
        if level not in levels
    ]


def _said(option: Option, reasons: list[tuple[Reason, Line]]) -> Line:
    """ "Wait: with what we see here, we may advise against it. Ask me why. It needs this: ..." """
    title = Span("strong", line(typed(option.title.text), ": "))
    why = line(*(line(_WHY[reason], words) for reason, words in reasons))
    return line(title, _RATHER_NOT, Span("ours", why))
