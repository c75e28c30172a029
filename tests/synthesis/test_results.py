"""What comes back, and how the package is loaded."""

import ast
import subprocess
import sys
from pathlib import Path

import passageproof.synthesis
from passageproof.synthesis import Interval, Refusal


def test_refusal_is_false_and_keeps_its_sentence() -> None:
    refused = Refusal("Two are never pooled.")
    assert not refused
    assert refused.reason == "Two are never pooled."
    assert refused == Refusal("Two are never pooled.")
    assert refused != Refusal("Another.")


def test_interval_unpacks_low_first() -> None:
    low, high = Interval(0.2, 0.4)
    assert (low, high) == (0.2, 0.4)


def test_every_listed_name_is_there() -> None:
    for name in passageproof.synthesis.__all__:
        assert getattr(passageproof.synthesis, name) is not None


def test_function_is_not_hidden_by_the_module_of_its_name() -> None:
    code = (
        "import passageproof.synthesis.contrast; from passageproof.synthesis import contrast; print(callable(contrast))"
    )
    assert subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout == "True\n"


def test_unknown_name_is_an_attribute_error() -> None:
    assert not hasattr(passageproof.synthesis, "freeman_tukey")


def loaded(code: str) -> set[str]:
    script = f"{code}\nimport sys\nprint(*sys.modules)"
    run = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    return set(run.stdout.split())


def test_import_needs_neither_numpy_nor_scipy_and_loads_no_pooling() -> None:
    modules = loaded("import passageproof.synthesis")
    assert not {"numpy", "scipy", "statsmodels", "decimal", "fractions", "statistics"} & modules
    assert {name for name in modules if name.startswith("passageproof.synthesis.")} == {
        f"passageproof.synthesis.{part}" for part in ("contrast", "distributions", "intervals", "ranges", "results")
    }


def test_all_that_the_audit_asks_needs_neither_numpy_nor_scipy() -> None:
    modules = loaded(
        "from passageproof.synthesis import *\n"
        "exact_interval(3, 4), jeffreys_interval(3, 4), wilson_interval(3, 4), loss_bounds(3, 4, 5)\n"
        "interval_fits_counts(3, 4, '30', '95'), off_centre('2', '1', '4', 'ratio')\n"
        "p_agrees_with_interval('.02', '2', '1', '4'), percent_near_misses('75', 4), sign_test(5, 6)\n"
        "contrast(TwoByTwo(1, 4, 2, 4), 'odds ratio'), absolute_from_ratio('odds ratio', 2, 0.1)\n"
    )
    assert not {"numpy", "scipy"} & modules


def test_pooling_loads_the_special_functions_of_scipy_and_no_more() -> None:
    modules = loaded(
        "from passageproof.synthesis import pooled_effect, pooled_proportion\n"
        "pooled_proportion([3, 4, 9], [5, 6, 10]), pooled_effect([0.1, 0.4, 0.9], [0.2, 0.2, 0.3])"
    )
    assert "scipy.special" in modules
    # Each takes longer to be imported than a guide of some dozen reports to be pooled.
    assert not {"scipy.stats", "scipy.optimize"} & modules


def test_the_three_lists_of_names_say_the_same() -> None:
    source = Path(passageproof.synthesis.__file__ or "")
    blocks = [node for node in ast.parse(source.read_text("utf-8")).body if isinstance(node, ast.ImportFrom | ast.If)]
    eager, typed = (
        {
            node.module or "": tuple(name.name for name in node.names)
            for node in nodes
            if isinstance(node, ast.ImportFrom) and node.level
        }
        for nodes in (blocks, next(node.body for node in blocks if isinstance(node, ast.If)))
    )
    assert typed == passageproof.synthesis._MODULES, "under TYPE_CHECKING and in _MODULES of synthesis/__init__.py"
    names = sorted([*passageproof.synthesis._HOME, *eager["contrast"], *eager["results"]])
    assert sorted(passageproof.synthesis.__all__) == names, "in __all__ and _MODULES of synthesis/__init__.py"


def test_no_name_that_is_loaded_late_is_that_of_a_module() -> None:
    # Whoever imports the module first would be given it in place of the function: such a name is imported at once.
    modules = {path.stem for path in Path(passageproof.synthesis.__file__ or "").parent.glob("*.py")}
    assert modules & set(passageproof.synthesis._HOME) == set()
