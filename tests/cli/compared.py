"""A JSON document beside what docs/json.md tells of it."""

import re
from pathlib import Path

DOCS = Path(__file__).parents[2] / "docs" / "json.md"
STATES = ("surfaced", "full", "dived", "asked")


def value_of(text: str, label: str) -> str:
    """Return what stands beside a label in the table of ``float``, in its first column."""
    line = next(line for line in text.splitlines() if line.startswith(label))
    return re.split(r"  +", line)[1]


def keys_in(value: object, path: str = "") -> set[str]:
    """Return the paths of all keys in a JSON value, each state as one."""
    if path in STATES:
        return {path}
    if isinstance(value, dict):
        return {
            key for name, one in value.items() for key in keys_in(one, f"{path}.{name}"[not path :])
        }
    if isinstance(value, list):
        return {key for one in value for key in keys_in(one, f"{path}[]")} or {path}
    return {path}


def documented_keys(section: str) -> set[str]:
    """Return the keys in the table of one section of the page."""
    text = re.split(r"^## ", DOCS.read_text("utf-8"), flags=re.MULTILINE)
    table = next(part for part in text if part.startswith(section))
    return set(re.findall(r"^\| `([^`]+)`", table, flags=re.MULTILINE))


def compare(found: set[str], answer: set[str]) -> None:
    """Hold what was found against what is told; an empty or absent object is told by its keys."""
    bare = {key for key in found if key not in answer}
    assert {
        key for key in bare if not any(t.startswith((f"{key}.", f"{key}[")) for t in answer)
    } == set()
    assert answer - found == set(), "told and never found"
