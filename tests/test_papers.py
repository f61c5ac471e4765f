"""The papers say what is true: commands, folders, libraries, links and pinned versions."""

import json
import os
import re
import subprocess
import tomllib
from pathlib import Path

import pytest

from trimdive import errors

ROOT = Path(__file__).parents[1]
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
PAPERS = sorted([*ROOT.glob("*.md"), *(ROOT / "docs").rglob("*.md"), *ROOT.glob("changes.d/*.md")])
LOCKS = ["requirements.lock", "requirements-dev.lock"]


def read(name: str) -> str:
    return (ROOT / name).read_text("utf-8")


def distribution(requirement: str) -> str:
    """Return the name in a requirement such as ``numpy>=2.0``."""
    return re.split(r"[<>=!~ ;\[]", requirement)[0].lower()


@pytest.mark.parametrize("paper", PAPERS, ids=lambda paper: str(paper.relative_to(ROOT)))
def test_links_lead_somewhere(paper: Path) -> None:
    links = re.findall(r"\]\(([^)#]+)[^)]*\)", paper.read_text("utf-8"))
    inside = [link for link in links if "://" not in link]
    assert [link for link in inside if not (paper.parent / link).exists()] == []


def test_make_targets_named_in_the_papers_exist() -> None:
    targets = set(re.findall(r"^([a-z]+):", read("Makefile"), flags=re.MULTILINE))
    assert {"setup", "run", "test", "check", "bench"} <= targets
    for paper in ("README.md", "CONTRIBUTING.md", "ARCHITECTURE.md"):
        named = re.findall(r"^make (\w+)|`make (\w+)`", read(paper), flags=re.MULTILINE)
        assert {first or second for first, second in named} <= targets


def test_help_names_every_target() -> None:
    helped = set(re.findall(r'@echo "make (\w+)', read("Makefile")))
    phony = re.search(r"^\.PHONY: (.*)$", read("Makefile"), flags=re.MULTILINE)
    assert phony
    assert set(phony[1].split()) - {"help"} == helped


@pytest.mark.parametrize("requirement", PROJECT["dependencies"], ids=distribution)
def test_every_library_has_its_reason(requirement: str) -> None:
    table = read("ARCHITECTURE.md").split("## Libraries, and why")[1].split("\n## ")[0]
    reasons = [line.split("|")[1] for line in table.splitlines() if line.startswith("|")]
    assert any(distribution(requirement) in re.split(r"[ ,]+", names) for names in reasons)


def test_every_folder_is_in_the_architecture() -> None:
    package = ROOT / "src" / "trimdive"
    names = {path.stem for path in package.iterdir() if not path.name.startswith("_")}
    text = read("ARCHITECTURE.md")
    assert [name for name in sorted(names) if not re.search(rf"\b{name}\b", text)] == []


def test_every_error_is_in_the_conventions() -> None:
    family = [
        name
        for name, thing in vars(errors).items()
        if isinstance(thing, type) and issubclass(thing, errors.TrimdiveError)
    ]
    assert len(family) > 4
    assert [name for name in family if f"`{name}`" not in read("docs/conventions.md")] == []


@pytest.mark.parametrize("name", LOCKS)
def test_lock_holds_names_versions_and_hashes_only(name: str) -> None:
    pin = r"[a-z0-9._-]+==[a-z0-9.+!]+( ; [^\\]+?)? \\"
    for line in read(name).splitlines():
        assert re.fullmatch(rf"{pin}|    --hash=sha256:[0-9a-f]{{64}}( \\)?", line), line


@pytest.mark.parametrize(
    ("name", "wanted"),
    [
        ("requirements.lock", PROJECT["dependencies"]),
        ("requirements-dev.lock", PROJECT["dependencies"]),
        ("requirements-dev.lock", PROJECT["optional-dependencies"]["dev"]),
        ("requirements.lock", PROJECT["optional-dependencies"]["build"]),
    ],
)
def test_lock_pins_what_the_project_asks_for(name: str, wanted: list[str]) -> None:
    pinned = set(re.findall(r"^([a-z0-9._-]+)==", read(name), flags=re.MULTILINE))
    assert {distribution(requirement) for requirement in wanted} <= pinned


def test_both_locks_pin_the_same_versions() -> None:
    run, dev = (
        set(re.findall(r"^([a-z0-9._-]+==[^\\]+)", read(name), flags=re.MULTILINE))
        for name in LOCKS
    )
    assert run <= dev


def test_lock_for_the_scripts_holds_versions_and_hashes_only() -> None:
    lock = json.loads(read("package-lock.json"))
    asked = json.loads(read("package.json"))["devDependencies"]
    pinned = {name.removeprefix("node_modules/"): one for name, one in lock["packages"].items()}
    del pinned[""]
    whole = {name: one["version"] for name, one in pinned.items() if not one.get("optional")}
    assert whole == asked
    assert {name.split("/")[0] for name in pinned.keys() - whole} == {"@esbuild"}  # for one machine
    assert all(one["integrity"].startswith("sha512-") for one in pinned.values())
    assert "://" not in read("package-lock.json") + read("package.json") + read(".npmrc")


def test_build_machine_runs_the_command_of_the_readme() -> None:
    script = ROOT / ".ci" / "run"
    assert os.access(script, os.X_OK)
    assert subprocess.run(["bash", "-n", str(script)], check=False).returncode == 0
    last = script.read_text("utf-8").splitlines()[-1]
    recipe = read("Makefile").partition("\ncheck:")[2].partition("\n\n")[0]
    assert last.endswith(" make check")
    assert recipe.endswith("\t@$(MAKE) --no-print-directory test")
    assert "make test" in read("README.md")


def test_every_page_is_found_from_where_one_begins() -> None:
    """A page that no path leads to is not read."""
    index = (ROOT / "docs" / "index.md").read_text("utf-8")
    pages = {page.name for page in (ROOT / "docs").glob("*.md")} - {"index.md"}
    assert {page for page in pages if f"]({page})" not in index} == set()
