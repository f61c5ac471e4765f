"""What cannot be right in readings of the tub, once places are worked out."""

from collections.abc import Iterator

from trimdive.boatfile.boat import Boat
from trimdive.boatfile.checks import unknown
from trimdive.boatfile.messages import Mistake
from trimdive.boatfile.places import Path
from trimdive.boatfile.tub import FIGURE, NEEDED, SPREAD_KINDS, Reading
from trimdive.data import table
from trimdive.errors import UnitError
from trimdive.units import read

Mistakes = Iterator[Mistake]
AT_A_PLACE = ("draught", "freeboard")


def tub_mistakes(boat: Boat) -> Mistakes:
    """Yield what is wrong with the readings of a boat."""
    tanks = [tank.name for tank in boat.tanks]
    for number, piece in enumerate(boat.from_tub):
        if piece.tank is not None and piece.tank not in tanks:
            yield unknown(("from_tub", number, "tank"), "tank", piece.tank, tanks)
    for number, one in enumerate(boat.readings):
        path: Path = ("reading", number)
        if len(one.kinds) != 1:
            what = f"it has {' and '.join(one.kinds) or 'nothing'}"
            fields = ", ".join(FIGURE.values())
            mend, beside = (
                f"Write one of {fields} in each [[reading]].",
                "Choose one, and enter it.",
            )
            yield Mistake(path, what, mend, fields=("read",), beside=beside)
            continue
        yield from _companions(path, one)
        yield from _names(path, one, boat)
        yield from _texts(path, one)


def _companions(path: Path, one: Reading) -> Mistakes:
    """Yield figures that lack what belongs beside them."""
    for field in NEEDED.get(one.kind, ()):
        if getattr(one, field) is None:
            what = f"'{FIGURE[one.kind]}' needs '{field}' beside it"
            mend, beside = f"Add a line: {field} = …", "This kind of reading needs it."
            yield Mistake(path, what, mend, fields=(field,), beside=beside)
    if one.kind in AT_A_PLACE and (one.at is None) == (one.x is None):
        what = "it needs either a mark or a place along the boat"
        mend = 'Add at = "…", the name of a mark, or x = "…".'
        beside = "Choose a mark, or enter the place along the boat; not both."
        yield Mistake(path, what, mend, fields=("at",), beside=beside)
    if one.x_aft is not None and one.x_aft == one.x_fore:
        what, mend = "aft and fore are the same place", "Measure where they were."
        yield Mistake(path, what, mend, fields=("x_fore",))
    if one.side is not None and one.kind in AT_A_PLACE and one.y is None:
        what = "read on one side, it needs y, how far that side is from the centreline"
        mend = "Add y, or read both sides, write the mean and take side out."
        beside = "Read on one side it is needed; else enter the mean of both sides, and no side."
        yield Mistake(path, what, mend, fields=("y",), beside=beside)
    if one.kind == "shift" and not one.moved:
        yield Mistake((*path, "moved"), "nothing was moved", "Write the weight that was moved.")
    if one.kind == "mass" and not one.mass:
        yield Mistake((*path, "mass"), "the scale read nothing", "Write what it read.")


def _names(path: Path, one: Reading, boat: Boat) -> Mistakes:
    """Yield marks, tanks and materials that there are not."""
    marks = [mark.name for mark in boat.marks]
    if one.at is not None and one.at not in marks:
        yield unknown((*path, "at"), "mark", one.at, marks)
    tanks = [tank.name for tank in boat.tanks]
    if one.tank is not None and one.tank not in tanks:
        yield unknown((*path, "tank"), "tank", one.tank, tanks)
    materials = [row["key"] for row in table("materials")]
    if one.of not in materials:
        yield unknown((*path, "of"), "material", one.of, materials)


def _texts(path: Path, one: Reading) -> Mistakes:
    """Yield spreads and fillings that cannot be read."""
    for field, text, kind in (
        ("spread", one.spread.lstrip("± "), SPREAD_KINDS[one.kind]),
        ("tanks", "" if one.tanks in ("blown", "full") else one.tanks, "percent"),
    ):
        if not text:
            continue
        try:
            size = read(text, kind, None)
        except UnitError as error:
            yield Mistake((*path, field), error.what, error.mend, is_unit=True)
            continue
        if field == "spread" and size <= 0:
            yield Mistake((*path, field), "it may be off by nothing", "Write more than nothing.")
        if field == "tanks" and not 0 <= size <= 1:
            yield Mistake((*path, field), f"'{text}' is no filling", "Write 0 to 100 %.")
