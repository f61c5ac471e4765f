"""Where a piece stands in the boat file: its table and its number, such as tank[2]."""

import re
from functools import lru_cache
from typing import NamedTuple

from trimdive.errors import BoatFileError

WRITTEN = re.compile(r"([a-z_]+)(?:\[([0-9]+)\])?(?:\.(.+))?")


class Ref(NamedTuple):
    """A piece of the boat file, or one field of it.

    >>> str(Ref("tank", 2)), Ref("tank", 2).order, str(Ref("waterline", 0, "height"))
    ('tank[2]', 1, 'waterline.height')
    """

    table: str
    number: int = 0  # from 1; 0 where the table stands once
    field: str = ""  # of the piece; "" for all of it

    @property
    def order(self) -> int:
        """Return its place in the list, from 0."""
        return self.number - 1

    @property
    def piece(self) -> "Ref":
        """Return the piece that a field is of."""
        return Ref(self.table, self.number)

    def __str__(self) -> str:
        """Return it as it is written."""
        number = f"[{self.number}]" if self.number else ""
        return f"{self.table}{number}{f'.{self.field}' if self.field else ''}"


@lru_cache(maxsize=4096)
def ref(written: str) -> Ref:
    """Return what stands at a place as it is written.

    >>> ref("part[3].mass")
    Ref(table='part', number=3, field='mass')

    Raises:
        BoatFileError: It is no such place.
    """
    found = WRITTEN.fullmatch(written)
    if found is None:
        raise BoatFileError(f"there is no '{written}'", "place", 'Write it as "tank[2].x".')
    table, number, field = found.groups()
    return Ref(table, int(number or 0), field or "")
