"""`make bench`: speeds as ratios to a floor of the same run; cold processes, imports included, nothing of the evidence
kept on either side, but where a line says "again".

The check's floor is bare parsing: one process, `bibtexparser.parse_string` of each .bib and `yaml.load` with the C base
loader of each .yaml. The build's floor is MkDocs with the same mkdocs.yml, theme, overrides and search over the same
pages as Markdown files, the plugin left out. Nothing is asserted: numbers depend on the machine, ratios less so.
"""

from __future__ import annotations

import compileall
import os
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from typing import NamedTuple

sys.path.insert(0, str(Path(__file__).parent))

from generated import write_compendium
from phone import bench_phone, bench_search_index
from preview_after_save import bench_preview
from share_of_synthesis import bench_share_of_synthesis

ROOT = Path(__file__).parent.parent.parent
RUNS = 3
SIZES = (300, 3000)

PARSING_FLOOR = """
import glob, sys
import bibtexparser, yaml
for path in sorted(glob.glob(sys.argv[1] + "/evidence/sources/*.bib")):
    bibtexparser.parse_string(open(path, encoding="utf-8").read())
for path in sorted(glob.glob(sys.argv[1] + "/evidence/**/*.yaml", recursive=True)):
    yaml.load(open(path, encoding="utf-8").read(), Loader=yaml.CBaseLoader)
"""


class Cost(NamedTuple):
    """What one command cost: the median of its runs."""

    seconds: float
    cpu: float
    peak_mb: float


def cost_of(command: list[str], runs: int = RUNS, **environment: str) -> Cost:
    """Wall and CPU seconds and peak memory of a command as a whole process. environment: of it, beside this one's."""
    costs = []
    environment = {**os.environ, "NO_MKDOCS_2_WARNING": "1", **environment}
    for _ in range(runs):
        start = time.perf_counter()
        process = subprocess.Popen(
            command, cwd=ROOT, env=environment, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE
        )
        assert process.stderr is not None
        errors = process.stderr.read()
        _, status, usage = os.wait4(process.pid, 0)
        process.returncode = os.waitstatus_to_exitcode(status)
        if process.returncode:
            raise SystemExit(f"{' '.join(command)} failed:\n{errors.decode()}")
        seconds = time.perf_counter() - start
        costs.append(Cost(seconds, usage.ru_utime + usage.ru_stime, usage.ru_maxrss / 1024))
    return Cost(*(statistics.median(column) for column in zip(*costs, strict=True)))


def builder(*words: str) -> list[str]:
    """A command of ours."""
    return [sys.executable, "-m", "builder", *words]


def print_row(name: str, ours: Cost, floor: Cost, bound: float) -> None:
    """One line of the table."""
    print(
        f"{name:28}{ours.seconds:8.2f} s {floor.seconds:8.2f} s   {ours.seconds / floor.seconds:5.2f} x"
        f"   (aim {bound} x)   peak {ours.peak_mb:5.0f} MB"
    )


def bench_check(name: str, root: Path, cache: Path) -> None:
    """The check beside bare parsing; then once more, where each report says what it said the last time."""
    ours = cost_of(builder("check", "--fresh", "--root", str(root)))
    floor = cost_of([sys.executable, "-c", PARSING_FLOOR, str(root)])
    print_row(f"check, {name}", ours, floor, 2.5)
    again = [
        cost_of(builder("check", "--root", str(root)), runs, CI="", XDG_CACHE_HOME=str(cache)) for runs in (1, RUNS)
    ]
    print_row(f"again, {name}", again[1], floor, 1.5)


def bench_impact(name: str, root: Path, work: Path) -> None:
    """What moves where one report has lost its second reader, beside one check of the same evidence."""
    shutil.copytree(root / "evidence", work / "evidence")
    report = sorted((work / "evidence" / "claims").iterdir())[0]
    lines = report.read_text("utf-8").splitlines(keepends=True)
    report.write_text("".join(line for line in lines if not line.startswith("checked:")), "utf-8")
    ours = cost_of(builder("impact", str(root), "--root", str(work)))
    floor = cost_of(builder("check", "--fresh", "--root", str(root)))
    print_row(f"impact, {name}, a report", ours, floor, 2.5)


SITE_AIMS = {"3000 reports": " (aim 200 MB)"}

# What the plugin settles where mkdocs.yml has its four lines.
FLOOR = """\
site_name: Floor
docs_dir: docs
theme: {name: material, custom_dir: look, font: false, features: [content.action.edit]}
markdown_extensions: [{tables: {use_align_attribute: true}}, attr_list]
plugins: [search]
"""


def bench_build(name: str, root: Path, work: Path) -> float:
    """The build beside MkDocs over the same Markdown; gives our seconds a page."""
    runs = 1 if name.startswith("3000") else RUNS
    site = work / "site"
    ours = cost_of(builder("build", "--root", str(root), "--site", str(site)), runs)
    pages = write_markdown(root, work / "docs")
    config = work / "mkdocs.yml"
    config.write_text(FLOOR, "utf-8")
    theme = ROOT / "builder" / "theme"
    shutil.copytree(theme, work / "look", dirs_exist_ok=True)
    # The plugin offers these under the name of the package.
    shutil.copytree(theme / "partials", work / "look" / "passageproof" / "partials", dirs_exist_ok=True)
    floor = cost_of([sys.executable, "-m", "mkdocs", "build", "-q", "-f", str(config), "-d", str(work / "floor")], runs)
    print_row(f"build, {name}, {pages} pages", ours, floor, 1.3)
    files = [path for path in site.rglob("*") if path.is_file()]
    written = sum(path.stat().st_size for path in files) / 1e6
    print(f"{'':28}its site: {len(files)} files, {written:.0f} MB{SITE_AIMS.get(name, '')}")
    return ours.seconds / pages


def write_markdown(root: Path, docs: Path) -> int:
    """The files that our build hands to MkDocs, on disk; gives the number of pages."""
    from passageproof.build import build_files

    built = build_files(root)
    for path, text in built.files.items():
        target = docs / path
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_text(text, "utf-8") if isinstance(text, str) else target.write_bytes(text)
    return sum(path.endswith(".md") for path in built.files)


def bench_synthesis() -> None:
    """The pooled proportion beside statsmodels' iterated random effects on the same data."""
    import json

    import numpy as np
    from passageproof.synthesis import pooled_proportion
    from statsmodels.stats.meta_analysis import combine_effects

    path = ROOT / "tests/synthesis/reference/proportions_pooling.json"
    data = json.loads(path.read_text("utf-8"))
    ours = floor = 0.0
    count = 0
    for item in data["datasets"]:
        events, totals = item["studies"]["x"], item["studies"]["n"]
        if len(events) < 3 or sum(events) in (0, sum(totals)):
            continue
        start = time.perf_counter()
        pooled_proportion(events, totals)
        ours += time.perf_counter() - start
        good = np.array(events) + 0.5
        bad = np.array(totals) - np.array(events) + 0.5
        start = time.perf_counter()
        combine_effects(np.log(good / bad), 1 / good + 1 / bad, method_re="iterated")
        floor += time.perf_counter() - start
        count += 1
    if count:
        print(
            f"pooled proportion: {1000 * ours / count:.1f} ms a data set, {ours / floor:.1f} x the floor, {count} sets"
        )


def bench_demo(work: Path) -> None:
    """What a phone pays for the demo."""
    site = work / "demo-site"
    subprocess.run(builder("build", "--site", str(site)), cwd=ROOT, check=True, stdout=subprocess.DEVNULL)
    bench_phone(site)


def _compile() -> None:
    """As the floor's packages are: installed ones come compiled, a checkout is compiled at first use where that may be.

    So are its regular expressions (`builder/compiled_patterns.py`), which depend on no evidence.
    """
    compileall.compile_dir(ROOT / "builder", quiet=1)
    environment = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    subprocess.run(builder("check", "--fresh"), cwd=ROOT, env=environment, check=True, stdout=subprocess.DEVNULL)


def main() -> int:
    """Print every ratio."""
    _compile()
    print(f"{'':28}{'ours':>10} {'floor':>10}   ratio")
    work = Path(tempfile.mkdtemp())
    only = sys.argv[1:]
    try:
        roots = {"demo": ROOT}
        for size in SIZES:
            roots[f"{size} reports"] = work / f"generated-{size}"
            write_compendium(work / f"generated-{size}", size)
        roots = {name: root for name, root in roots.items() if not only or name.split()[0] in only}
        for name, root in roots.items():
            bench_check(name, root, work / "cache")
        for name, root in roots.items():
            bench_impact(name, root, work / f"impact-{name.split()[0]}")
        page_seconds = {
            name: bench_build(name, root, work / f"build-{name.split()[0]}") for name, root in roots.items()
        }
        if only:
            return 0
        small, large = (page_seconds[f"{size} reports"] for size in SIZES)
        costs = f"{1000 * small:.1f} ms at 300 reports, {1000 * large:.1f} ms at 3000"
        print(f"cost a page: {costs}: {large / small:.2f} x (aim 1.5 x)")
        bench_preview(f"{SIZES[0]} reports", roots[f"{SIZES[0]} reports"])
        bench_synthesis()
        write_compendium(work / "pooled", SIZES[0], is_pooled=True)
        bench_share_of_synthesis(f"{SIZES[0]} reports, every rate pooled", work / "pooled")
        bench_search_index("3000 reports", work / "build-3000" / "site")
        bench_demo(work)
    finally:
        shutil.rmtree(work, ignore_errors=True)
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
