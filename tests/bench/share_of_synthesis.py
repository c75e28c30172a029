"""How much of a build goes to the statistics, the imports of numpy and scipy included, under the profiler."""

from __future__ import annotations

import cProfile
import pstats
import tempfile
from pathlib import Path

FOLDER = str(Path(__file__).parent.parent.parent / "builder/synthesis")


def share_of_synthesis(root: Path) -> float:
    """Time spent below the calls that enter builder/synthesis, of a whole build; 0 to 1.

    root: the folder that holds evidence/.
    """
    from passageproof.build import build_files
    from passageproof.publishing import publish

    profile = cProfile.Profile()
    with tempfile.TemporaryDirectory() as folder:
        profile.runcall(lambda: publish(root, Path(folder) / "site", build_files(root)))
    stats = pstats.Stats(profile)
    inside = 0.0
    for (file, _, _), (_, _, _, _, callers) in stats.stats.items():  # type: ignore[attr-defined]
        if file.startswith(FOLDER):
            inside += sum(cost[3] for caller, cost in callers.items() if not caller[0].startswith(FOLDER))
    return inside / float(stats.total_tt)  # type: ignore[attr-defined]


def bench_share_of_synthesis(name: str, root: Path) -> None:
    """One line of the table."""
    print(f"synthesis, {name}: {100 * share_of_synthesis(root):.1f} % of a build (aim under 20 %)")
