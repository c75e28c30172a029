"""The house keeps its order: a folder imports only from those above it in the list that DEVELOPERS.md draws."""

from __future__ import annotations

import ast
import re
import tomllib
from functools import cache
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
BUILDER = ROOT / "builder"


@cache
def drawn_order() -> list[str]:
    """Names of folders and files in the order that DEVELOPERS.md draws them, "audit", "ledger", ..."""
    drawn = re.findall(r"^    builder/(\w+)(?:/|\.py)", (ROOT / "DEVELOPERS.md").read_text("utf-8"), re.MULTILINE)
    assert drawn[0] == "records"
    return drawn


def room(path: Path) -> str:
    """The folder or file of builder/ that a module belongs to."""
    return path.relative_to(BUILDER).parts[0].removesuffix(".py")


@cache
def text_of(path: Path) -> str:
    """A module as it is written."""
    return path.read_text("utf-8")


@cache
def tree_of(path: Path) -> ast.Module:
    """A module as Python reads it."""
    return ast.parse(text_of(path))


@cache
def imported_modules(path: Path) -> set[str]:
    """Every name that a module imports from builder/, at its top or later: "builder.results.values.figures.Figure".

    A relative import counts from the module's own folder.
    """
    package = ["builder", *path.relative_to(BUILDER).parent.parts]
    found = set()
    for node in ast.walk(tree_of(path)):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            base = package[: len(package) - node.level + 1] if node.level else []
            found |= {".".join([*base, *filter(None, [node.module]), alias.name]) for alias in node.names}
    return {name for name in found if name.startswith("builder.")}


def imports(path: Path) -> set[str]:
    """Rooms of builder/ that a module imports."""
    return {name.split(".")[1] for name in imported_modules(path)}


MODULES = sorted(path for path in BUILDER.rglob("*.py") if path.name != "__init__.py" or path.parent != BUILDER)


@pytest.mark.parametrize("path", MODULES, ids=lambda path: str(path.relative_to(BUILDER)))
def test_a_folder_imports_only_from_those_above_it(path: Path) -> None:
    order = drawn_order()
    own = room(path)
    if own == "__main__":
        own = "commands"
    assert own in order, f"DEVELOPERS.md does not draw builder/{own}"
    below = {name for name in imports(path) if name != own and order.index(name) > order.index(own)}
    assert not below, f"{path.relative_to(ROOT)} looks down to {sorted(below)}"


def drawn_rooms(folder: str) -> list[str]:
    """Rooms and files of one folder in the order that DEVELOPERS.md draws them: "values", "findings", ..."""
    lines = re.findall(rf"^    {folder}/((?:\w+(?:/|\.py)(?:, )?)+)", DRAWN, re.MULTILINE)
    return [name for line in lines for name in re.findall(r"\w+(?=/|\.py)", line)]


DRAWN = (ROOT / "DEVELOPERS.md").read_text("utf-8")
ORDERED_FOLDERS = ("numerals", "proof", "audit", "results", "guide")
INNER = [path for path in MODULES if room(path) in ORDERED_FOLDERS and path.name != "__init__.py"]


@pytest.mark.parametrize("path", INNER, ids=lambda path: str(path.relative_to(BUILDER)))
def test_inside_a_folder_too_a_room_imports_only_from_those_above_it(path: Path) -> None:
    folder = room(path)
    order = drawn_rooms(folder)
    own = path.relative_to(BUILDER / folder).parts[0].removesuffix(".py")
    assert own in order, f"DEVELOPERS.md does not draw {folder}/{own}"
    names = {name.split(".")[2] for name in imported_modules(path) if name.startswith(f"builder.{folder}.")}
    below = {name for name in names if name != own and order.index(name) > order.index(own)}
    assert not below, f"{path.relative_to(ROOT)} looks down to {sorted(below)}"


@pytest.mark.parametrize("folder", ORDERED_FOLDERS)
def test_every_room_is_drawn_once_and_is_there(folder: str) -> None:
    drawn = drawn_rooms(folder)
    there = [path for path in (BUILDER / folder).iterdir() if path.suffix == ".py" or (path / "__init__.py").is_file()]
    assert sorted(drawn) == sorted(path.stem for path in there if path.name != "__init__.py")


ORDERED = [path for path in MODULES if path.parent.name in ("printed", "ties") and path.name != "__init__.py"]


@pytest.mark.parametrize("path", ORDERED, ids=lambda path: f"{path.parent.name}/{path.name}")
def test_a_file_of_an_ordered_room_imports_only_from_those_drawn_above_it(path: Path) -> None:
    order = drawn_rooms(path.parent.name)
    assert order.count(path.stem) == 1, f"DEVELOPERS.md does not draw {path.parent.name}/{path.name} once"
    inside = ".".join(["builder", *path.relative_to(BUILDER).parent.parts, ""])
    names = {name.removeprefix(inside).split(".")[0] for name in imported_modules(path) if name.startswith(inside)}
    below = {name for name in names - {path.stem} if order.index(name) > order.index(path.stem)}
    assert not below, f"{path.relative_to(ROOT)} looks down to {sorted(below)}"


def test_no_room_holds_over_a_fifth_of_the_code() -> None:
    sizes: dict[str, int] = {}
    for path in MODULES:
        sizes[room(path)] = sizes.get(room(path), 0) + len(text_of(path).splitlines())
    largest = max(sizes, key=lambda own: sizes[own])
    assert 5 * sizes[largest] <= sum(sizes.values()), f"builder/{largest} holds {sizes[largest]} lines"


def test_no_files_import_each_other_in_a_circle() -> None:
    """Imports for types alone count too: they say as well what cannot be understood without what."""
    names = {".".join(["builder", *path.relative_to(BUILDER).with_suffix("").parts]): path for path in MODULES}
    asked = {
        own: {known for name in imported_modules(path) for known in (name, name.rpartition(".")[0]) if known in names}
        for own, path in names.items()
    }
    left = {own: others - {own} for own, others in asked.items()}
    while free := {own for own, others in left.items() if not others & left.keys()}:
        left = {own: others for own, others in left.items() if own not in free}
    assert not left, f"in a circle, or above one: {sorted(left)}"


OF_THE_CHECK = ("numerals", "reading", "printed", "proof", "audit")
KEPT_PATTERNS = [path for path in MODULES if path.relative_to(BUILDER).parts[0] in OF_THE_CHECK]


@pytest.mark.parametrize("path", KEPT_PATTERNS, ids=lambda path: str(path.relative_to(BUILDER)))
def test_a_pattern_of_the_check_is_one_that_is_kept(path: Path) -> None:
    """Whatever `re.compile` makes at the start of a file is made anew by every check (compiled_patterns.py)."""
    made = [
        call.lineno
        for statement in tree_of(path).body
        if not isinstance(statement, (ast.FunctionDef, ast.ClassDef))
        for call in ast.walk(statement)
        if isinstance(call, ast.Call) and ast.unparse(call.func) == "re.compile"
    ]
    assert not made, f"{path.relative_to(ROOT)}: lines {made}"


@pytest.mark.parametrize("path", MODULES, ids=lambda path: str(path.relative_to(BUILDER)))
def test_no_file_holds_two_subjects(path: Path) -> None:
    assert len(text_of(path).splitlines()) <= 400, "more than four hundred lines: two subjects?"
    assert path.stem not in {"utils", "helpers", "misc", "common"}, "the subject of this file was not found yet"


@pytest.mark.parametrize("path", MODULES, ids=lambda path: str(path.relative_to(BUILDER)))
def test_named_tuples_are_those_of_records(path: Path) -> None:
    # Those of `typing` take five times as long to make, and each check makes them all.
    if path.name != "records.py":
        imported = re.findall(r"^from typing import (\([^)]*\)|.*)", text_of(path), re.MULTILINE)
        assert "NamedTuple" not in " ".join(imported), "import NamedTuple from records, two or three dots above"


def test_mkdocs_is_known_to_its_plugin_and_to_what_runs_it() -> None:
    knowing = {
        str(path.relative_to(BUILDER))
        for path in MODULES
        if re.search(r"^\s*(?:from|import) mkdocs", text_of(path), re.MULTILINE)
    }
    assert knowing == {"plugin.py", "publishing.py"}


def test_only_reading_opens_evidence() -> None:
    parsers = re.compile(r"^\s*(?:from|import) (?:yaml|bibtexparser)", re.MULTILINE)
    opening = {room(path) for path in MODULES if parsers.search(text_of(path))}
    assert opening == {"reading"}


def test_only_one_room_asks_the_network() -> None:
    """The preview answers a browser of this machine, and git a process of its own; nobody else opens a connection."""
    asks = re.compile(
        r"^\s*(?:from|import) (?:urllib\.request|http\.client|socket|ssl|ftplib|smtplib|requests)\b", re.M
    )
    assert {room(path) for path in MODULES if asks.search(text_of(path))} == {"outside"}


def test_every_room_is_installed() -> None:
    folders = {path.parent.relative_to(BUILDER) for path in BUILDER.rglob("*.py")}
    named = {".".join(["passageproof", *folder.parts]) for folder in folders}
    assert set(tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["tool"]["setuptools"]["packages"]) == named


@pytest.mark.parametrize("path", MODULES, ids=lambda path: str(path.relative_to(BUILDER)))
def test_the_package_never_names_itself(path: Path) -> None:
    # Installed, it has another name than its folder here.
    if path != BUILDER / "__main__.py":
        named = re.search(r"^\s*(?:from|import) (?:builder|passageproof)\b", text_of(path), re.MULTILINE)
        assert named is None


def branches(function: ast.AST) -> int:
    """How often the way through a function may part; a function inside it counts for itself."""
    found = 0
    for node in ast.iter_child_nodes(function):
        if isinstance(node, ast.FunctionDef | ast.Lambda):
            continue
        if isinstance(node, ast.If | ast.IfExp | ast.For | ast.While | ast.ExceptHandler | ast.match_case):
            found += 1
        elif isinstance(node, ast.BoolOp):
            found += len(node.values) - 1
        elif isinstance(node, ast.comprehension):
            found += len(node.ifs)
        found += branches(node)
    return found


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("x = 1", 0),
        ("if a:\n  b\nelif c:\n  d\nelse:\n  e", 2),
        ("for a in b:\n  while c:\n    d", 2),
        ("x = a and b or c if d else e", 3),
        ("x = [a for a in b if a if not c]", 2),
        ("try:\n  a\nexcept B:\n  c", 1),
        ("match a:\n  case 1:\n    b\n  case _:\n    c", 2),
        ("def inner():\n  if a:\n    b", 0),
    ],
)
def test_branches_are_counted(text: str, expected: int) -> None:
    assert branches(ast.parse(text)) == expected


@pytest.mark.parametrize("path", MODULES, ids=lambda path: str(path.relative_to(BUILDER)))
def test_no_function_is_a_wall_of_conditions(path: Path) -> None:
    # The rules are many: one that cannot be read at a glance hides what it does to the others.
    functions = [node for node in ast.walk(tree_of(path)) if isinstance(node, ast.FunctionDef)]
    walls = {node.name: branches(node) for node in functions if branches(node) > 15}
    assert walls == {}


READS_EVIDENCE = re.compile(
    r"read_evidence\(\s*(?:ROOT\s*[,)]|Path\(__file__\)\.(?:parents\[\d\]|parent(?:\.parent)*)\s*[,)])"
    r'|ROOT / "(?:evidence|site_src)"[^,)\n]*\.(?:read_text|read_bytes|glob|rglob|iterdir)\('
)


def test_evidence_of_the_site_is_read_by_check_and_build_alone() -> None:
    """What faculty change is judged by the check, in its words; a test that read it otherwise would know more."""
    tests = (ROOT / "tests").rglob("*.py")
    assert [path.name for path in tests if READS_EVIDENCE.search(text_of(path))] == []
