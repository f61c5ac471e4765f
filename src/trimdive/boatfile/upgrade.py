"""Brings the contents of an older boat file up to the present format, one step a format."""

from collections.abc import Callable
from typing import Any

from trimdive.boatfile.boat import FORMAT
from trimdive.boatfile.messages import Mistake

Contents = dict[str, Any]
STEPS: dict[int, Callable[[Contents], Contents]] = {}  # format it takes → what brings it one on


def upgraded(contents: Contents) -> Contents:
    """Return the contents in the present format."""
    found = contents["format"]
    while found in STEPS:
        contents = {**STEPS[found](contents), "format": found + 1}
        found += 1
    return contents


def format_mistakes(contents: Contents) -> list[Mistake]:
    """Return what is wrong with the format that a file names."""
    if "format" not in contents:
        return [Mistake((), "it does not say its format", f"Add a first line: format = {FORMAT}")]
    found = contents["format"]
    if isinstance(found, bool) or not isinstance(found, int) or found < 1:
        return [Mistake(("format",), f"{found!r} is no format", f"Write format = {FORMAT}.")]
    if found > FORMAT:
        what = f"format {found} is newer than this trimdive, which knows up to {FORMAT}"
        return [Mistake(("format",), what, "Get a newer trimdive.")]
    return []
