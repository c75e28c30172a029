"""Whatever stands in the files, reading ends and tells."""

from __future__ import annotations

import ast
from pathlib import Path

from hypothesis import HealthCheck, given, settings, strategies as st
from passageproof.problems import as_text
from passageproof.reading import rules
from passageproof.reading.evidence import read_evidence
from passageproof.reading.rules import READING_RULES

EXAMPLE = Path(__file__).parents[1] / "example" / "evidence"
FILES = sorted(path.relative_to(EXAMPLE).as_posix() for path in EXAMPLE.rglob("*") if path.is_file())
SIGNS = st.text("{}[]:,-#&*!|>'\"%@`\\ \n\t0aé=\u2028\x00", min_size=1, max_size=4)


def _written(folder: Path, changed: str, data: bytes) -> Path:
    for name in FILES:
        path = folder / "evidence" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(data if name == changed else (EXAMPLE / name).read_bytes())
    return folder


def _check(folder: Path) -> None:
    for problem in read_evidence(folder).problems:
        assert problem.rule in READING_RULES
        assert problem.position.line >= 1
        assert problem.position.column >= 1
        assert "\n" not in problem.message
        as_text(problem)


@settings(max_examples=50, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.sampled_from(FILES), st.integers(0, 3000), st.integers(0, 3), SIGNS)
def test_example_with_a_slip_anywhere_is_read(tmp_path: Path, name: str, at: int, length: int, signs: str) -> None:
    text = (EXAMPLE / name).read_text()
    at %= len(text)
    _check(_written(tmp_path, name, (text[:at] + signs + text[at + length :]).encode()))


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.sampled_from(FILES), st.one_of(st.binary(max_size=60), st.text().map(str.encode)))
def test_any_bytes_are_read(tmp_path: Path, name: str, data: bytes) -> None:
    _check(_written(tmp_path, name, data))


@settings(max_examples=50, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    st.sampled_from(FILES),
    st.integers(0, 200),
    st.sampled_from(["{}", "[]", "''", "x", "[{}]", "{a: b}", "- x", "[[x]]", "? [a]"]),
)
def test_any_value_may_be_of_another_kind(tmp_path: Path, name: str, line: int, value: str) -> None:
    lines = (EXAMPLE / name).read_text().split("\n")
    line %= len(lines)
    head, colon, _ = lines[line].partition(":")
    lines[line] = f"{head}{colon} {value}"
    _check(_written(tmp_path, name, "\n".join(lines).encode()))


def test_every_rule_that_is_used_has_its_paragraph_and_every_paragraph_its_rule() -> None:
    used = set()
    for path in Path(rules.__file__).parent.glob("*.py"):
        if path.name == "rules.py":
            continue
        for node in ast.walk(ast.parse(path.read_text())):
            if isinstance(node, ast.Constant) and node.value in READING_RULES:
                used.add(node.value)
    assert used == set(READING_RULES)
