"""A measured outcome by level: what stands beside a mean or a median, and in what it is measured."""

from __future__ import annotations

from typing import Any

from .report_model import Claim, Level
from .values import Words
from .yaml_text import Sheet

MEASURED = ("mean", "sd", "median", "iqr")
"""Fields of a level that say how a measured outcome was spread in it."""

_BESIDE = {"mean": "sd", "median": "iqr"}
_NAMES = {"sd": "standard deviation", "iqr": "interquartile range"}
_OF_A_RATE = ("events", "rate", "success_rate", "interval", "confidence", "estimate", "grades")

_UNITS = {
    "mm": "mm", "millimetre": "mm", "millimetres": "mm", "millimeter": "mm", "millimeters": "mm",
    "minute": "minute", "minutes": "minute", "min": "minute", "day": "day", "days": "day", "week": "week",
    "weeks": "week", "month": "month", "months": "month", "year": "year", "years": "year", "%": "%", "per cent": "%",
    "percent": "%",
}  # fmt: skip


def measured_unit(typed: object) -> str:
    """The unit of the public interface that a claim's `unit` stands for: "mm"; "none" for words such as "points"."""
    return _UNITS.get(typed.text.strip().casefold(), "none") if isinstance(typed, Words) else "none"


def is_measured(claim: Claim) -> bool:
    """Whether a claim has means or medians by level."""
    return any(level.mean is not None or level.median is not None for level in claim.levels)


def check_measured(level: Level, typed: dict[str, Any], what: str, node: Any, sheet: Sheet) -> None:
    """A mean stands with its deviation, a median with its quartiles, each with its total, and none with a rate.

    typed: the fields of one level by name. what: as messages call it.
    """
    for middle, spread in _BESIDE.items():
        is_unread = middle in typed and getattr(level, middle) is None  # "21.4 (9.8)", told there
        if is_unread:
            continue
        if middle in typed and spread not in typed:
            sheet.error(
                node,
                "missing-field",
                f"{what} has a `{middle}` without its {_NAMES[spread]} (`{spread}`): type it, or not reported",
                f"{spread}: not reported",
            )
        elif spread in typed and middle not in typed:
            sheet.error(
                node,
                "missing-field",
                f"{what} has `{spread}` without the `{middle}` it belongs to: type it, or not reported",
                f"{middle}: not reported",
            )
    if "total" not in typed:
        sheet.error(
            node,
            "missing-field",
            f"{what} is measured without the number that were measured (`total`): type it, or not reported",
            "total: not reported",
        )
    mixed = next((name for name in _OF_A_RATE if name in typed), None)
    if mixed is not None:
        middle = next(name for name in MEASURED if name in typed)
        sheet.error(
            typed[mixed],
            "field-not-here",
            f"{what} has both `{middle}` and `{mixed}`: what was measured and what was counted are two claims",
            f"move `{mixed}` into a claim of its own",
        )


def check_unit(*, has_unit: bool, needs_unit: bool, node: Any, sheet: Sheet) -> None:
    """What is measured has a unit, and nothing else has. has_unit: a unit was typed in the claim itself."""
    if needs_unit and not has_unit:
        sheet.error(
            node,
            "missing-field",
            "a claim with means or medians needs what they are measured in (`unit`): mm, minute or words, or not "
            "reported",
            "unit: mm",
        )
    elif has_unit and not needs_unit:
        sheet.error(
            node,
            "field-not-here",
            "a claim has `unit` without a mean or median of a level; what was counted is the `unit` of the study, and "
            "the unit of a difference stands in its `contrast`",
            "delete it, or move it into the contrast",
        )
