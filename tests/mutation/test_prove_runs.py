"""Both tables of `make prove` start by themselves, as make calls them."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]


@pytest.mark.parametrize("script", ["prove.py", "meaning_table.py"])
def test_a_table_finds_all_that_it_imports(script: str, tmp_path: Path) -> None:
    code = f"import runpy; runpy.run_path('tests/mutation/{script}', run_name='looked_at')"
    ran = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=False)
    assert ran.returncode == 0, ran.stderr
