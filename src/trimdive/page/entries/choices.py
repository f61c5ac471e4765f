"""What may stand in a field of a form: names of pieces that are there, words of tables, files."""

from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING

from trimdive.boatfile.refers import FROM, REFERS, names_for
from trimdive.data import table
from trimdive.units import usual_names

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.page.entries.view import Shown

CAPS = ("caps", "aft_cap", "fore_cap")
FILES = ("file", "mesh")
GASES, RINGS, MATERIALS, STRENGTHS = "gases", "o_rings", "materials", "strengths"
KEYS = {STRENGTHS: "material"}  # column that names the rows, where it is not "key"


class Choices:
    """What may stand in the fields of a piece."""

    def __init__(self, her: "Assessment", table: str, files: Mapping[str, bytes]) -> None:
        """Keep the boat, the table of the piece, and the files beside it."""
        self.boat, self.table, self.files = her.boat, table, files

    def unit_of(self, quantity: str) -> str:
        """Return in which unit a figure is entered; "" for one that has none.

        A number alone counts in the boat file's unit; of what the file names none for, the unit
        is typed with the number.
        """
        usual = usual_names(quantity) if quantity else ()
        if not usual:
            return ""
        return self.boat.units.own.get(quantity) or f"with unit: {usual[0]}"

    def is_strict(self, path: str) -> bool:
        """Return whether nothing else may stand in a field."""
        plain = bare(path)
        is_ref = (self.table, plain) in REFERS or plain.rpartition(".")[2] == FROM
        return is_ref or self.list_of(path) == GASES

    def names(self, path: str) -> tuple[str, ...]:
        """Return what may stand in a field, or is suggested; nothing where it is free."""
        plain = bare(path)
        if (self.table, plain) in REFERS:
            return names_for(self.boat, self.table, plain)
        if plain.rpartition(".")[2] == FROM:
            return ("stern", "bow", *(mark.name for mark in self.boat.marks))
        return self.words(self.list_of(path))

    def list_of(self, path: str) -> str:
        """Return the name of the list of words that are suggested in a field; "" for none."""
        plain = bare(path)
        head, _, last = plain.rpartition(".")
        if last == "material" or (self.table, plain) == ("reading", "of"):
            return STRENGTHS if head in CAPS else MATERIALS
        if (last, head.rpartition(".")[2]) == ("number", "rings"):
            return RINGS
        if (self.table, plain) == ("brief", "waters"):
            return "waters"
        if plain == "store.gas":
            return GASES
        if last in FILES:
            return "files"
        return f"units-{plain}" if self.table == "units" else ""

    def words(self, named: str) -> tuple[str, ...]:
        """Return the words of a list."""
        if not named:
            return ()
        if named == "files":
            return tuple(sorted(self.files))
        if named.startswith("units-"):
            return tuple(usual_names(named.removeprefix("units-")))
        return tuple(row[KEYS.get(named, "key")] for row in table(named))

    def lists(self, groups: "Iterable[Shown]") -> dict[str, tuple[str, ...]]:
        """Return the lists of words that the fields of a form suggest."""
        named = {one.suggests for group in groups for one in group.all() if one.suggests}
        return {name: self.words(name) for name in sorted(named)}


def bare(path: str) -> str:
    """Return the path of a field without the numbers of rows.

    >>> bare("aft_cap.rings[2].number"), bare("tanks[1]")
    ('aft_cap.rings.number', 'tanks')
    """
    return "".join(part.partition("]")[2] if k else part for k, part in enumerate(path.split("[")))
