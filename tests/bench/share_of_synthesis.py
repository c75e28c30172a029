"""How much of a build goes to the statistics: reading, checking, composing and rendering under the profiler.

MkDocs is left out, so that the share of a whole build is smaller still. The imports of numpy and scipy count.
"""

from __future__ import annotations

import cProfile
import pstats
from pathlib import Path

FOLDER = str(Path(__file__).parent.parent.parent / "builder/synthesis")


def share_of_synthesis(root: Path) -> float:
    """Time spent below the calls that enter builder/synthesis, of all; 0 to 1. root: the folder that holds evidence/."""
    from builder.build import build_files

    profile = cProfile.Profile()
    profile.runcall(build_files, root)
    stats = pstats.Stats(profile)
    inside = 0.0
    for (file, _, _), (_, _, _, _, callers) in stats.stats.items():  # type: ignore[attr-defined]
        if file.startswith(FOLDER):
            inside += sum(cost[3] for caller, cost in callers.items() if not caller[0].startswith(FOLDER))
    return inside / float(stats.total_tt)  # type: ignore[attr-defined]


def bench_share_of_synthesis(name: str, root: Path) -> None:
    """One line of the table."""
    share = share_of_synthesis(root)
    print(f"synthesis, {name}: {100 * share:.1f} % of the time before MkDocs (aim under 20 %)")
