"""What once broke a check or a build never does again: it is told on its line, or a site is made of it."""

from __future__ import annotations

import json
import subprocess
import sys
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pytest
from hardened.told import rows

HERE = Path(__file__).parent
# A process of its own, so that its memory can be bounded and a hang be ended; no answer is looked at for its time.
SECONDS = 300


@pytest.fixture(scope="module")
def answers() -> Mapping[str, Any]:
    """What came of each row, by its name."""
    ran = subprocess.run(
        [sys.executable, str(HERE / "told.py"), "broke"], capture_output=True, text=True, timeout=SECONDS, check=False
    )
    assert ran.returncode == 0, ran.stdout[-500:] + ran.stderr[-3000:]
    return {said["name"]: said for said in map(json.loads, ran.stdout.splitlines())}


@pytest.mark.parametrize("row", rows(), ids=lambda row: row["name"])
def test_what_once_broke_is_told_or_built(answers: Mapping[str, Any], row: dict[str, Any]) -> None:
    answer = answers[row["name"]]
    if "told" in row:
        assert any(said.startswith(row["told"]) for said in answer["said"]), answer["said"]
    else:
        assert answer["said"] == []
        assert answer["made"] > 0
