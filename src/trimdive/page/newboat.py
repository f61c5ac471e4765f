"""A new boat from what is typed: ten readings with a tape, or a few figures and three sections.

What can be read already makes a first boat, so that she grows while it is typed; what cannot be
read is told in one sentence beside its field.
"""

from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, Literal, cast

from trimdive.data import table
from trimdive.errors import BoatFileError, UnitError
from trimdive.estimates.starter import Section, Starter, Wish, starter
from trimdive.estimates.starter.wish import WALLS, Taped
from trimdive.estimates.tape import Girth, Readings, TapeResult, tape_litres
from trimdive.estimates.tape.doubts import impossible
from trimdive.estimates.tape.typed import material_named
from trimdive.page.form import Typed, field_of
from trimdive.page.newtanks import answered
from trimdive.text.said import said
from trimdive.text.sentence import beside_field, sentence
from trimdive.text.taped_text import say_by
from trimdive.units import read

if TYPE_CHECKING:
    from collections.abc import Collection, Mapping

Way = Literal["tape", "figures"]
GIRTHS = ((0.05, "near the stern"), (0.25, "a quarter along"), (0.5, "in the middle"),
          (0.75, "three quarters along"), (0.95, "near the bow"))  # fmt: skip
WALL_SPOTS = ("aft", "amidships", "forward")
MIDDLE = 3  # the girth beside which the breadth is measured
READINGS = 2 + len(GIRTHS) + len(WALL_SPOTS)  # ten, with length and breadth
SECTIONS = ((0.15, "after"), (0.5, "middle"), (0.85, "fore"))
SHAPES = ("oval", "round", "box")
FIGURES = ("length", "breadth", "height", "waterline")
UNITS = ("mm", "cm", "in")
CORNER = 0.15  # of the breadth: radius of a box's corners where none is typed [-]
METRIC = {"length": "mm", "mass": "g", "volume": "cm3"}
INCHES = {"length": "in", "mass": "oz", "volume": "in3"}


@dataclass(slots=True, kw_only=True)
class Sheet:
    """What was typed, being read."""

    typed: Typed
    wrong: dict[str, str] = field(default_factory=dict[str, str])  # sentence by field
    read: int = 0  # figures that could be read

    @property
    def unit(self) -> str:
        """Return the unit of numbers that stand without one."""
        found = field_of(self.typed, "new-unit")
        return found if found in UNITS else UNITS[0]

    def length(self, name: str) -> float | None:
        """Return a length [m]; None where nothing is typed or it cannot be read."""
        text = field_of(self.typed, name)
        if not text:
            return None
        try:
            found = read(text, "length", self.unit)
        except UnitError as error:
            self.wrong[name] = beside_field(error)
            return None
        if found <= 0:
            self.wrong[name] = f"'{text}' is no length. Enter a figure above zero."
            return None
        self.read += 1
        return found

    def volume(self, name: str) -> float | None:
        """Return a volume [m³]; None where nothing is typed or it cannot be read."""
        text = field_of(self.typed, name)
        try:
            found = read(text, "volume", self.units()["volume"]) if text else None
        except UnitError as error:
            self.wrong[name] = beside_field(error)
            return None
        if found is not None and found <= 0:
            self.wrong[name] = f"'{text}' is no volume. Enter a figure above zero."
            return None
        return found

    def chosen(self, name: str, known: "Collection[str]") -> str:
        """Return what was chosen; "" where nothing was."""
        found = field_of(self.typed, name)
        return found if found in known else ""

    def scale(self) -> float | None:
        """Return the scale [-]."""
        text = field_of(self.typed, "new-scale")
        try:
            return read(text, "ratio") if text else None
        except UnitError as error:
            self.wrong["new-scale"] = beside_field(error)
            return None

    def units(self) -> dict[str, str]:
        """Return the units in which the boat file is written, by kind."""
        return dict(INCHES if self.unit == "in" else METRIC | {"length": self.unit})

    def one_of(self, name: str, known: tuple[str, ...]) -> str:
        """Return what was chosen, else the first."""
        found = field_of(self.typed, name)
        return found if found in known else known[0]


@dataclass(frozen=True, slots=True, kw_only=True)
class Begun:
    """A new boat as far as she is told."""

    wish: Wish | None  # None: her length is not known yet
    wrong: "Mapping[str, str]"  # sentence by field
    doubts: "Mapping[str, str]"  # what looks odd and may stand
    read: int  # figures that could be read
    of: int  # figures that are asked for
    readings: Readings | None  # with a tape, when complete
    litres: TapeResult | None  # by the tape, when complete

    @property
    def is_complete(self) -> bool:
        """Return whether she can be put on the shelf."""
        return self.wish is not None and not self.wrong and self.read >= self.of


def hulls() -> tuple[str, ...]:
    """Return the materials of which a hull may be made, the usual one first."""
    found = [one["key"] for one in table("materials") if one["kind"] in WALLS]
    return tuple(sorted(found, key=lambda one: one != "GRP"))


def begun(way: Way, typed: Typed) -> Begun:
    """Return the new boat as far as she is told.

    Args:
        way: Ten readings with a tape, or a few figures.
        typed: What the fields held.
    """
    sheet = Sheet(typed=typed)
    return _by_tape(sheet) if way == "tape" else _by_figures(sheet)


def _named(sheet: Sheet) -> str:
    """Return her name, without what would end it in the file."""
    plain = field_of(sheet.typed, "new-name").replace("\\", "").replace('"', "'")
    return "".join(c for c in plain if c.isprintable()) or "Unnamed"


def _by_tape(sheet: Sheet) -> Begun:
    length, breadth = sheet.length("tape-length"), sheet.length("tape-breadth")
    girths, fields = _girths(sheet, length, breadth)
    walls = [sheet.length(f"tape-wall-{k}") for k in range(1, len(WALL_SPOTS) + 1)]
    found = tuple(one for one in walls if one)
    wish = None
    readings: Readings | None = None
    litres: TapeResult | None = None
    doubts: dict[str, str] = {}
    if length:
        wish = answered(
            sheet,
            Wish(
                name=_named(sheet),
                length=length,
                material=sheet.one_of("new-material", hulls()),
                scale=sheet.scale(),
                breadth=breadth,
                wall=sum(found) / len(found) if found else None,
                units=sheet.units(),
            ),
        )
        if sheet.read >= READINGS and not sheet.wrong:
            readings = _readings(wish, girths, found)
            _look(readings, fields, sheet.wrong)
    if wish and readings and not sheet.wrong:
        litres, say = tape_litres(readings), say_by(readings)
        doubts = {
            fields.get(one.path, "tape-girth-1"): sentence(said(say, one.what))
            for one in litres.doubts
        }
        wish = replace(wish, taped=Taped(result=litres))
    return Begun(
        wish=wish, wrong=sheet.wrong, doubts=doubts, read=min(sheet.read, READINGS), of=READINGS,
        readings=readings, litres=litres,
    )  # fmt: skip


def _girths(
    sheet: Sheet, length: float | None, breadth: float | None
) -> tuple[list[Girth], dict[str, str]]:
    """Return the girths that are typed, and the field of each path that a check may name."""
    girths: list[Girth] = []
    fields = {"girth": "tape-girth-1", "wall": "tape-wall-1"}
    fields |= {f"wall[{k}]": f"tape-wall-{k}" for k in range(1, len(WALL_SPOTS) + 1)}
    for k, (share, _) in enumerate(GIRTHS, 1):
        round_it = sheet.length(f"tape-girth-{k}")
        counted = sheet.read
        at = sheet.length(f"tape-at-{k}")
        sheet.read = counted  # places are not counted among the ten
        at = at if at is not None else (length or 0.0) * share
        fields |= {
            f"girth[{k}]": f"tape-girth-{k}",
            f"girth[{k}].girth": f"tape-girth-{k}",
            f"girth[{k}].x": f"tape-at-{k}",
        }
        if round_it is not None:
            across = breadth if k == MIDDLE else None
            girths.append(Girth(x=at, girth=round_it, breadth=across, number=k))
    return girths, fields


def _readings(wish: Wish, girths: list[Girth], walls: tuple[float, ...]) -> Readings:
    return Readings(
        name=wish.name,
        length=wish.length,
        kind="wet",
        material=material_named(wish.material),
        girths=tuple(sorted(girths, key=lambda one: one.x)),
        walls=walls,
        units=wish.units,
    )


def _look(readings: Readings, fields: dict[str, str], wrong: dict[str, str]) -> None:
    """Tell what cannot stand together, beside the field it is about."""
    for found in impossible(readings):
        name = fields.get(found.where, "tape-girth-1")
        wrong.setdefault(name, f"{sentence(found.what)} {found.mend}")


def _by_figures(sheet: Sheet) -> Begun:
    length, breadth, height, line = (sheet.length(f"figures-{key}") for key in FIGURES)
    sections: list[Section] = []
    for k, (share, _) in enumerate(SECTIONS, 1):
        broad = sheet.length(f"section-breadth-{k}")
        shape = cast("Literal['oval', 'round', 'box']", sheet.one_of(f"section-shape-{k}", SHAPES))
        if broad and breadth and broad > breadth:
            text = "She is broader here than her greatest breadth. Check both figures."
            sheet.wrong[f"section-breadth-{k}"] = text
        elif broad and length:
            radius = CORNER * broad if shape == "box" else 0.0
            sections.append(Section(x=share * length, breadth=broad, shape=shape, radius=radius))
    whole = len(FIGURES) + len(SECTIONS)
    wish = (
        None
        if length is None
        else answered(
            sheet,
            Wish(
                name=_named(sheet),
                length=length,
                kind="dry" if field_of(sheet.typed, "new-kind") == "dry" else "wet",
                material=sheet.one_of("new-material", hulls()),
                scale=sheet.scale(),
                breadth=breadth,
                height=height,
                waterline=line,
                sections=tuple(sections) if len(sections) == len(SECTIONS) else (),
                units=sheet.units(),
            ),
        )
    )
    return Begun(
        wish=wish, wrong=sheet.wrong, doubts={}, read=sheet.read, of=whole,
        readings=None, litres=None,
    )  # fmt: skip


def made(found: Begun) -> Starter:
    """Return the first boat of what is told.

    Raises:
        BoatFileError: Something is missing or wrong, or no such boat floats upright.
    """
    if found.wish is None:
        raise BoatFileError("her length is not known yet", "length", "Enter it, with its unit.")
    for wrong in found.wrong.values():
        raise BoatFileError(wrong.rstrip("."), "a field", "Correct it, then go on.")
    return starter(found.wish)


def tape_text(found: Begun) -> bytes:
    """Return tape readings as the file that ``trimdive tape`` reads, in millimetres.

    Raises:
        BoatFileError: They are not complete.
    """
    her = found.readings
    if her is None:
        raise BoatFileError("the readings are not complete", "tape", "Enter the others.")

    def mm(value: float) -> str:
        return f'"{value * 1e3:.1f} mm"'

    rows = [
        f"  {{ x = {mm(one.x)}, girth = {mm(one.girth)}"
        + (f", breadth = {mm(one.breadth)}" if one.breadth else "")
        + " },"
        for one in her.girths
    ]
    lines = [
        f'name = "{her.name}"',
        f"length = {mm(her.length)}",
        f'kind = "{her.kind}"',
        f'material = "{her.material.name}"',
        "girth = [",
        *rows,
        "]",
        f"wall = [{', '.join(mm(one) for one in her.walls)}]",
    ]
    return ("\n".join(lines) + "\n").encode()
