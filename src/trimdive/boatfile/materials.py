"""The names of materials as builders write them, and which of the table they may mean."""

import difflib
from collections.abc import Mapping
from functools import cache
from typing import Annotated

from pydantic import BeforeValidator

from trimdive.boatfile.quantities import Name
from trimdive.data import table
from trimdive.errors import BoatFileError

MOST = 5  # names in one sentence
USUAL = ("GRP", "ABS", "acrylic", "brass", "lead")  # shown where nothing is near


@cache
def _folded() -> Mapping[str, str]:
    """Return the names of the table, by the same without regard to case."""
    return {row["key"].casefold(): row["key"] for row in table("materials")}


def as_named(value: object) -> object:
    """Return a material as the table writes it, where only the case differs.

    >>> as_named("grp"), as_named("unobtainium")
    ('GRP', 'unobtainium')
    """
    return _folded().get(value.strip().casefold(), value) if isinstance(value, str) else value


Material = Annotated[Name, BeforeValidator(as_named)]


def unknown_material(name: str) -> BoatFileError:
    """Return the error, without its place, for a material that the table does not hold.

    >>> unknown_material("Messing").mend
    "Did you mean 'brass'?"
    """
    found = _meant(name.strip().casefold())
    mend = f"Write one such as {', '.join(USUAL)}, or give its density beside it."
    if found:
        mend = f"Write one of: {', '.join(found)}; or give its density beside it."
    if len(found) == 1:
        mend = f"Did you mean '{found[0]}'?"
    return BoatFileError(f"there is no material '{name}'", "", mend)


def _meant(plain: str) -> list[str]:
    """Return the materials that a name in small letters may mean, at most a handful."""
    words = {row["word"]: row["value"] for row in table("list_words") if row["kind"] == "material"}
    if plain in words:
        return [words[plain]]
    rows = table("materials")
    for fields in (("key", "kind"), ("note",)):
        if found := [
            row["key"] for row in rows if any(plain in row[field].casefold() for field in fields)
        ]:
            return found[:MOST]
    near = difflib.get_close_matches(plain, [*_folded(), *words], n=1, cutoff=0.65)
    return [{**_folded(), **words}[one] for one in near]
