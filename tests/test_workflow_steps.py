"""The steps of each workflow run here as they stand, from a clean tree, with the event and the host played."""

from __future__ import annotations

import json
import re
import subprocess
import sys
from pathlib import Path

import pytest
import yaml
from workflow_steps import FETCHES, OURS, STARTED, Host, Step, clean_tree, git, started_tree, steps


def run_all(path: Path, host: Host, tree: Path, *, job: str = "") -> None:
    """Every step of the workflow, or of one job."""
    done = [step for step in steps(path) if not job or step.job == job]
    assert done
    for step in done:
        if not step.typed.startswith(FETCHES):
            # Without what `make desk` fetches a site is built all the same.
            has_desk = (tree / "node_modules").exists()
            run(step if has_desk else step._replace(typed=step.typed.replace("make desk ", "make ")), host, tree)


def run(step: Step, host: Host, tree: Path) -> str:
    result = host.run(step, tree)
    assert result.returncode == 0, (step.typed, result.stdout[-2000:], result.stderr[-2000:])
    return result.stdout


@pytest.fixture(scope="module")
def tree(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return clean_tree(tmp_path_factory.mktemp("clean") / "clone")


@pytest.fixture
def started(tmp_path: Path) -> Path:
    return started_tree(tmp_path / "ours")


@pytest.mark.slow
def test_a_check_here(tree: Path, tmp_path: Path) -> None:
    host = Host(tmp_path / "host", BASE="HEAD")
    run_all(OURS / "check.yml", host, tree)
    assert (tree / "site" / "index.html").is_file()
    assert "What moves since" in host.summary.read_text("utf-8")
    assert git(tree, "status", "--porcelain") == ""


def test_a_check_of_whoever_starts(started: Path, tmp_path: Path) -> None:
    host = Host(tmp_path / "host", BASE="HEAD")
    run_all(STARTED / "check.yml", host, started)
    assert (started / "site" / "index.html").is_file()
    assert "What moves since" in host.summary.read_text("utf-8")


NEW = "zz: {state: unknown, on: 2026-01-02, by: hand}\n"


@pytest.mark.parametrize("where", [OURS, STARTED], ids=["here", "whoever starts"])
@pytest.mark.parametrize("is_new", [False, True])
def test_a_look_at_all_reports(tree: Path, started: Path, tmp_path: Path, where: Path, is_new: bool) -> None:
    host = Host(tmp_path / "host", CONTACT="a@example.org")
    place = tree if where == OURS else started
    for step in (step for step in steps(where / "status.yml") if step.job == "look"):
        if step.name == "whether anything is new" and is_new:
            file = place / "evidence/status.yaml"
            before = file.read_text("utf-8")
            file.write_text(before + NEW, "utf-8")
        if not step.typed.startswith(FETCHES):
            run(step, host, place)
    assert host.output.read_text("utf-8") == f"changed={'yes' if is_new else 'no'}\n"
    git(place, "checkout", "-q", "--", "evidence")


OPENED = {
    "git/ref/heads/status": "fails",
    "git/blobs": "b1",
    "git/commits/": "t0",
    "git/trees": "t1",
    "git/commits": "c1",
}


@pytest.mark.parametrize("where", [OURS, STARTED], ids=["here", "whoever starts"])
@pytest.mark.parametrize("is_open", [False, True])
def test_what_is_new_is_proposed_once(tmp_path: Path, where: Path, is_open: bool) -> None:
    """One commit on what was read, on a branch of its own, and one pull request however often it is looked up."""
    place = tmp_path / "artifact"
    (place / "evidence").mkdir(parents=True)
    (place / "evidence/status.yaml").write_text(NEW, "utf-8")
    (place / "summary.md").write_text("# What was found\n", "utf-8")
    answers = dict(OPENED)
    if is_open:
        answers |= {"git/ref/heads/status": "there", "pr list": "7"}
    host = Host(tmp_path / "host", answers, GH_REPO="ours/guide", BASE="a1", MAIN="main")
    (step,) = [step for step in steps(where / "status.yml") if step.job == "propose"]
    run(step, host, place)
    asked = host.asked.read_text("utf-8")
    blob, end = json.JSONDecoder().raw_decode(asked[asked.index("{") :])
    assert blob == {"content": NEW, "encoding": "utf-8"}
    tree, _ = json.JSONDecoder().raw_decode(asked[asked.index("{", asked.index("{") + end) :])
    assert tree["base_tree"] == "t0"
    assert [(each["path"], each["sha"]) for each in tree["tree"]] == [("evidence/status.yaml", "b1")]
    lines = [line for line in asked.splitlines() if line.startswith("gh ")]
    assert any("-f tree=t1 -f parents[]=a1" in line for line in lines)
    if is_open:
        assert any(
            line.startswith("gh api -X PATCH repos/ours/guide/git/refs/heads/status -f sha=c1") for line in lines
        )
        assert lines[-1] == "gh pr edit 7 --body-file body.md"
    else:
        assert any("-f ref=refs/heads/status -f sha=c1" in line for line in lines)
        assert lines[-1].startswith("gh pr create --head status --base main --title What became of the reports")
    assert (place / "body.md").read_text("utf-8") == "# What was found\n"


@pytest.mark.slow
@pytest.mark.parametrize("where", [OURS, STARTED], ids=["here", "whoever starts"])
def test_a_release_is_put_up_and_its_copy_stands_in_the_site(tmp_path: Path, where: Path) -> None:
    place = clean_tree(tmp_path / "clone") if where == OURS else started_tree(tmp_path / "ours")
    number = released(place)
    tag = f"v{number}"
    host = Host(tmp_path / "host", {"repos/ours/guide/releases": tag}, TAG=tag, GH_REPO="ours/guide", MAIN="main",
                GH_KEPT=str(place / "build"))  # fmt: skip
    run_all(where / "release.yml", host, place, job="build")
    assert (place / f"build/{tag}.tar.gz").is_file()
    run_all(where / "release.yml", host, place, job="publish")
    lines = host.asked.read_text("utf-8").splitlines()
    assert lines == [
        f"gh release create {tag} --verify-tag --title {tag} --notes-file releases/{tag}.md build/{tag}.tar.gz "
        f"releases/{tag}.datacite.json",
        "gh workflow run publish.yml --ref main",
    ]
    run_all(where / "publish.yml", host, place)
    assert f'lasting copy of release <span class="identifier">{number}</span>' in (
        (place / f"site/{tag}/index.html").read_text("utf-8")
    )
    assert (place / "site/latest/index.html").is_file()
    assert "lasting copy" not in (place / "site/index.html").read_text("utf-8")


def released(place: Path) -> str:
    """The files of a release, as somebody merged them; its number."""
    found = re.search(r"release: ([\d.]+)", (place / "evidence/compendium.yaml").read_text("utf-8"))
    assert found is not None
    words = ["-m", "passageproof", "release", found[1], "--write"]
    subprocess.run([sys.executable, *words], cwd=place, check=True, capture_output=True)
    return found[1]


def test_a_tag_that_its_files_do_not_know_is_not_put_up(tree: Path, tmp_path: Path) -> None:
    host = Host(tmp_path / "host", TAG="v99.0.0")
    (step,) = [step for step in steps(OURS / "release.yml") if step.name == "tag and files agree"]
    assert host.run(step, tree).returncode == 1


def test_a_copy_that_cannot_be_fetched_stops_the_site(tree: Path, tmp_path: Path) -> None:
    host = Host(tmp_path / "host", {"repos/ours/guide/releases": "v1.0.0", "release download": "fails"},
                GH_REPO="ours/guide", GH_KEPT=str(tmp_path))  # fmt: skip
    (step,) = [step for step in steps(OURS / "publish.yml") if step.name == "lasting copies"]
    assert host.run(step, tree).returncode != 0


@pytest.mark.parametrize(
    ("file", "answer"),
    [("evidence/claims/new.yaml", "no"), ("evidence/sources/new.bib", "no"), ("evidence/status.yaml", "no"),
     ("evidence/vocabulary.yaml", "yes"), ("builder/new.py", "yes"), ("site_src/new.md", "yes"), ("", "yes")],
)  # fmt: skip
def test_the_program_is_tested_where_more_than_evidence_changed(
    started: Path, tmp_path: Path, file: str, answer: str
) -> None:
    """As tests.yml leaves out of pull requests: reports, passages and statuses, and nothing else."""
    before = git(started, "rev-parse", "HEAD").strip() if file else ""
    if file:
        (started / file).parent.mkdir(exist_ok=True)
        (started / file).write_text("# new\n", "utf-8")
        git(started, "add", ".")
        git(started, "commit", "-q", "-m", "new")
    host = Host(tmp_path / "host", BEFORE=before)
    (step,) = [step for step in steps(OURS / "publish.yml") if step.job == "changed"]
    run(step, host, started)
    assert host.output.read_text("utf-8") == f"program={answer}\n"


OTHER_HOST = STARTED.parent.parent / "dot-gitlab-ci.yml"
OTHER_JOBS = yaml.safe_load(OTHER_HOST.read_text("utf-8"))


def typed_there(job: str) -> list[str]:
    """What a job of the second host types, but for the packages of its image."""
    return [line for part in ("script", "after_script") for line in OTHER_JOBS[job].get(part, [])]


def test_a_second_host_has_the_same_jobs() -> None:
    jobs = {name: job for name, job in OTHER_JOBS.items() if isinstance(job, dict) and "script" in job}
    assert set(jobs) == {"check", "pages", "release", "status"}
    assert OTHER_JOBS["default"]["timeout"] == "20 minutes"
    assert all(job["rules"] and job["artifacts"]["paths"] for job in jobs.values())
    texts = [OTHER_HOST.read_text("utf-8"), *(path.read_text("utf-8") for path in STARTED.glob("*.yml"))]
    verbs = [set(re.findall(r"python -m passageproof (\w+)", text)) for text in texts]
    assert verbs[0] == set().union(*verbs[1:])


@pytest.mark.slow
def test_every_job_of_a_second_host_runs(started: Path, tmp_path: Path) -> None:
    git(started, "remote", "add", "origin", str(tmp_path / "origin"))
    git(tmp_path, "clone", "-q", "--bare", str(started), str(tmp_path / "origin"))
    number = released(started)
    base = git(started, "rev-parse", "HEAD").strip()
    host = Host(tmp_path / "host", CI_MERGE_REQUEST_DIFF_BASE_SHA=base, CI_COMMIT_TAG=f"v{number}",
                STATUS_CONTACT="a@example.org")  # fmt: skip

    def run_job(job: str) -> None:
        for line in typed_there(job):
            run(Step(job, line, line, {}, True), host, started)

    run_job("check")
    review = (started / "review.md").read_text("utf-8")
    assert review.index("# What the check says") < review.index("# What moves since")
    run_job("release")
    put_on_branch_copies(started, f"v{number}.tar.gz")
    run_job("pages")
    assert (started / f"public/v{number}/index.html").is_file()
    assert (started / "public/latest/index.html").is_file()
    run_job("status")
    assert "# Retractions and corrections" in (started / "summary.md").read_text("utf-8")


def put_on_branch_copies(place: Path, archive: str) -> None:
    """As a person would: one commit with that file alone, on a branch of its own."""
    blob = git(place, "hash-object", "-w", archive).strip()
    made = subprocess.run(["git", "mktree"], cwd=place, input=f"100644 blob {blob}\t{archive}\n", check=True,
                          capture_output=True, text=True).stdout.strip()  # fmt: skip
    commit = git(place, "commit-tree", made, "-m", "a copy").strip()
    git(place, "push", "-q", "origin", f"{commit}:refs/heads/copies")
