"""Which fields of a block need each other, or may not stand together, as JSON Schema; by the name of the block.

The rules themselves are those that stand beside each form in reading/; a test compares the two.
"""

from __future__ import annotations

from typing import Any

from ..reading.contrasts import RATIOS
from ..reading.fdi_chart import FIELD
from ..reading.questions import AT_MOST_NOW

Schema = dict[str, Any]


def _has(*names: str) -> Schema:
    return {"required": list(names)}


def _any_of(*names: str) -> Schema:
    return {"anyOf": [_has(name) for name in names]}


def _if(condition: Schema, then: Schema) -> Schema:
    return {"if": condition, "then": then}


def _without(*names: str) -> Schema:
    return {"not": _any_of(*names)}


def _is(name: str, *values: str) -> Schema:
    return {"properties": {name: {"enum": list(values)}}, "required": [name]}


def _one_of(one: str, other: str) -> Schema:
    return {"oneOf": [_has(one), _has(other)]}


_RATE = ("rate", "success_rate")
_FIGURES = ("events", *_RATE, "estimate", "grades", "mean", "median")
_OF_A_RATE = ("events", *_RATE, "interval", "confidence", "estimate", "grades")
_IS_MEASURED = _any_of("mean", "sd", "median", "iqr")

_BESIDE_A_RATE = (
    {"not": _has(*_RATE)},
    _if(_has("grades"), _has("total")),
    _if(_has("interval"), _any_of("events", *_RATE)),
    _if(_has("confidence"), _has("interval")),
)
_WITH_ITS_COUNTS = _if(_any_of("events", *_RATE), _has("events", "total"))
_IS_EXCUSED = {
    "anyOf": [_has("pooled"), _has("quotes"), {"properties": {"contrast": _has("pooled")}, "required": ["contrast"]}]
}
_COUNTS_OF_LEVELS = {"properties": {"levels": {"items": {"anyOf": [_IS_MEASURED, _WITH_ITS_COUNTS]}}}}
_WORDS_ONLY = {"properties": {"levels": {"items": {"anyOf": [_any_of(*_FIGURES), _has("stated")]}}}}
_HAS_MEASURED = {
    "properties": {"levels": {"type": "array", "contains": _any_of("mean", "median")}},
    "required": ["levels"],
}
_NO_PERCENTAGE = {"properties": {"value": {"not": {"type": "string", "pattern": "%$"}}}}
_ABOVE_ZERO = {"properties": {"value": {"not": {"anyOf": [
    {"type": "number", "exclusiveMaximum": 0}, {"type": "string", "pattern": "^[-−]"}
]}}}}  # fmt: skip
_EMPTY = {"type": "array", "maxItems": 0}

_TIMED = _is("timing", "at", "by")

CONDITIONS: dict[str, tuple[Schema, ...]] = {
    "report": (
        _if({"properties": {"studies": _EMPTY}, "required": ["studies"]}, _has("nothing_claimed")),
        _if({"properties": {"claims": _EMPTY}, "required": ["claims"]}, _has("nothing_claimed")),
        _if(_has("nothing_claimed"), {"properties": {"claims": {"maxItems": 0}}}),
    ),
    "read": (
        _if(_is("depth", "part"), _has("what")),
        _if(_has("via"), _is("depth", "secondary")),
    ),
    "recall-rate": (_has("rate"),),
    "claim": (
        _any_of("events", *_RATE, "levels", "estimate", "contrast", "test", "pairs", "grades"),
        _if(_any_of("levels", "contrast"), _has("factor", "known_at", "reference")),
        *_BESIDE_A_RATE,
        {"anyOf": [_IS_EXCUSED, _WITH_ITS_COUNTS]},
        {"anyOf": [_any_of("pooled", "quotes"), _COUNTS_OF_LEVELS]},
        _if(_has("pooled"), _any_of(*_RATE, "levels", "estimate", "contrast")),
        _if(_has("unit"), _HAS_MEASURED),
        _if(_HAS_MEASURED, _has("unit")),
        {"anyOf": [_has("contrast"), _WORDS_ONLY]},
    ),
    "level": (
        _any_of(*_FIGURES, "direction"),
        *_BESIDE_A_RATE,
        _if(_has("mean"), _has("sd")),
        _if(_has("sd"), _has("mean")),
        _if(_has("median"), _has("iqr")),
        _if(_has("iqr"), _has("median")),
        _if(_IS_MEASURED, {"allOf": [_has("total"), _without(*_OF_A_RATE)]}),
    ),
    "candidates": ({"properties": {"candidates": {"minItems": 2}}},),
    "grade": (_one_of("outcome", "words"),),
    "follow-up": (
        _if(_TIMED, _has("at")),
        _if({"required": ["timing"], "not": _TIMED}, _without("at", "tolerance")),
        _if(_is("timing", "by"), _without("tolerance")),
    ),
    "estimate": (_if({"required": ["kind"], "not": _is("kind", "yearly rate")}, _has("at")),),
    "contrast": (
        _if(_is("measure", *RATIOS), {"allOf": [_has("event_is"), _NO_PERCENTAGE, _ABOVE_ZERO]}),
        _if(_is("measure", "mean difference"), _NO_PERCENTAGE),
        _if(_has("confidence"), _has("interval")),
    ),
    "test": ({"properties": {"between": {"anyOf": [{"type": "string"}, {"minItems": 2}]}}},),
    "basis": (
        _if(_has("source"), _is("kind", "guideline")),
        _if(_has("where"), _is("kind", "guideline")),
        _if(_has("claim"), _is("kind", "study")),
        _if(_has("state"), _is("kind", "local protocol")),
        _if(_is("kind", "guideline"), _has("source")),
        _if(_is("kind", "study"), _has("claim")),
    ),
    "question": (
        {"properties": {"steps": {"contains": _is("when", "now"), "minContains": 0, "maxContains": AT_MOST_NOW}}},
    ),
    "situation": (_one_of("factor", FIELD), {"not": _has("picture", FIELD)}),
    "certainty": (_if(_has("level"), _has("factor")),),
    "certainty-step": (_one_of("down", "up"),),
    "factor": ({"properties": {"levels": {"minItems": 1}}},),
}  # fmt: skip
