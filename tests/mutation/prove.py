"""`make prove`: the table of digit mutations, report by report, with the numbers that no claim uses."""

from __future__ import annotations

import sys
from collections import Counter
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
sys.path.insert(0, str(Path(__file__).parents[1]))

from digits import Bench, Mutation


def main(roots: list[str]) -> int:
    """Print one row a report and every mutation that slipped through; 1 where one did."""
    missed: list[Mutation] = []
    for root in roots:
        bench = Bench(Path(root))
        print(f"{root}\n{'report':32}{'in claims':>14}{'in passages':>14}{'unclaimed':>11}")
        total: Counter[str] = Counter()
        for key in bench.evidence.reports:
            if key not in bench.evidence.sources:
                continue
            made: Counter[str] = Counter()
            caught: Counter[str] = Counter()
            for mutation in bench.of_report(key):
                made[mutation.where] += 1
                caught[mutation.where] += mutation.is_caught
                if not mutation.is_caught:
                    missed.append(mutation)
            cells = [f"{caught[where]} of {made[where]}" for where in ("claim", "passage")]
            print(f"{key:32}{cells[0]:>14}{cells[1]:>14}{len(bench.unclaimed(key)):>11}")
            total.update({f"{where} made": made[where] for where in made})
            total.update({f"{where} caught": caught[where] for where in made})
        prose = list(bench.of_prose())
        missed += [mutation for mutation in prose if not mutation.is_caught]
        print(f"{'all claims and passages':32}", end="")
        print(
            "".join(
                f"{total[f'{where} caught']} of {total[f'{where} made']}".rjust(14) for where in ("claim", "passage")
            )
        )
        print(f"references in question files: {sum(item.is_caught for item in prose)} of {len(prose)}\n")
    for mutation in missed:
        print(f"slipped through: {mutation.where} {mutation.place}: {mutation.text}")
    return 1 if missed else 0


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:] or [".", "tests/published", "tests/example"]))
