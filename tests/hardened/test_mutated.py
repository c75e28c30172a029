"""Whatever a check accepts is built, and nothing that is typed makes either of them break or fill the memory."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

HERE = Path(__file__).parent
SEED, ROUNDS, BUILDS = 1, 150, 8
"""`make soak` tries many more."""
SECONDS = 300


def test_whatever_is_accepted_is_built() -> None:
    ran = subprocess.run(
        [sys.executable, str(HERE / "told.py"), "mutated", str(SEED), str(ROUNDS), str(BUILDS)],
        capture_output=True,
        text=True,
        timeout=SECONDS,
        check=False,
    )
    assert ran.returncode == 0, ran.stderr[-3000:]
    said = json.loads(ran.stdout)
    assert said["rounds"] == ROUNDS
    assert said["built"] == BUILDS
    # Most changes are told; else the changes would test nothing.
    assert 0 < said["accepted"] < ROUNDS / 2
