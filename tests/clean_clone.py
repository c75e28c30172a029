"""Run by `make prove`: the workflows of a change and of a publication in a clean clone, which makes its own environment
from the registry; minutes, where the tests borrow the environment that is there."""

from __future__ import annotations

import subprocess
import sys
import tempfile
from pathlib import Path

from workflow_steps import OURS, ROOT, Host, steps


def main() -> int:
    """0: every step ended well; 1: one did not, and what it said is printed."""
    with tempfile.TemporaryDirectory(prefix="clean-") as folder:
        clone = Path(folder) / "clone"
        subprocess.run(["git", "clone", "-q", str(ROOT), str(clone)], check=True)
        host = Host(Path(folder) / "host", BASE="HEAD", GH_REPO="ours/guide", https_proxy="")
        for name in ("check.yml", "publish.yml"):
            for step in steps(OURS / name):
                done = host.run(step, clone)
                print(
                    f"{name}: {step.name}: {'done' if done.returncode == 0 else done.stdout + done.stderr}", flush=True
                )
                if done.returncode:
                    return 1
        return 0 if (clone / "site" / "latest" / "index.html").is_file() else 1


if __name__ == "__main__":
    sys.exit(main())
