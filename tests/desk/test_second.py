"""A second reading at the desk shows nothing of the first one until it is whole."""

from __future__ import annotations

import copy
import json
from pathlib import Path
from typing import Any

import yaml
from passageproof.desk.asked import Asked

EXAMPLE = Path(__file__).parents[1] / "example"
KEY = "marlow2019furcal"


def asked(name: str, said: Any, session: Asked = Asked(str(EXAMPLE))) -> Any:  # noqa: B008 (one for all tests)
    return json.loads(session.answer(name, json.dumps(said)))


def first() -> dict[str, Any]:
    said: dict[str, Any] = yaml.load(
        (EXAMPLE / f"evidence/claims/{KEY}.yaml").read_text("utf-8"), Loader=yaml.CBaseLoader
    )
    said.pop("source")
    return said


def texts(said: Any) -> list[str]:
    if isinstance(said, str):
        return [said]
    return [text for each in (said.values() if isinstance(said, dict) else said) for text in texts(each)]


def test_no_value_of_the_first_reader_is_on_the_desk() -> None:
    blank = asked("second", {"key": KEY})
    kept = {each["id"] for each in (*first()["studies"], *first()["claims"])}
    typed = {text for text in texts(blank["claims"]) if text}
    assert kept <= typed
    assert typed - kept <= {each["where"] for each in blank["passages"]}


def test_while_a_field_is_empty_nothing_is_compared() -> None:
    blank = asked("second", {"key": KEY})
    found = asked("compare", blank)
    assert found["empty"]
    assert "differing" not in found


def test_readings_are_laid_side_by_side() -> None:
    said = copy.deepcopy(first())
    draft = {"second": KEY, "entry": "", "passages": [], "claims": said}
    assert asked("compare", draft)["same"] == said["read"]["by"]
    said["read"]["by"] = "ZZ"
    found = asked("compare", draft)
    assert (found["differing"], found["alike"]) == ([], found["both"])
    claim = next(each for each in said["claims"] if "total" in each)
    claim["total"] = "7"
    found = asked("compare", draft)
    assert [each["second"] for each in found["differing"]] == ["7"]
    assert found["alike"] == found["both"] - 1
    assert found["file"]["path"] == f"second-readings/{KEY}.yaml"


def test_a_second_reading_is_checked_in_the_place_of_the_first() -> None:
    draft = {"second": KEY, "entry": "", "passages": [], "claims": first()}
    assert [each for each in asked("whole", draft)["problems"] if each["severity"] == "error"] == []
    claim = next(each for each in draft["claims"]["claims"] if "total" in each)
    claim["total"] = "7"
    assert "figure-not-in-passage" in {each["rule"] for each in asked("near", draft)["problems"]}
