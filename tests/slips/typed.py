"""Slips of one figure as they are typed: every figure of a boat file, and how it goes wrong."""

import random
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from trimdive.boatfile import set_value
from trimdive.units import read

TABLES = ("region", "coat", "cylinder", "tank", "part", "lead", "foam")
FIELDS = {
    "mass": "mass", "hung": "mass", "volume": "volume", "density": "density", "lost": "percent",
    **dict.fromkeys(
        ("x", "x_aft", "x_fore", "y", "z", "z_bottom", "z_top", "length", "breadth", "height",
         "diameter", "outside", "wall", "thickness", "bore", "stroke", "water_end", "above",
         "below", "inset", "nose", "middle", "tail"),
        "length",
    ),
}  # fmt: skip
HALVED = ("breadth", "diameter", "outside", "bore")
PLACES = ("x", "x_aft", "x_fore", "water_end")


@dataclass(frozen=True, slots=True, kw_only=True)
class Slip:
    """One figure typed wrong."""

    path: str  # of the thing, as "part[3]"
    field: str
    why: str
    was: float  # as it should be [SI]
    typed: tuple[tuple[str, str], ...]  # fields and what is typed in them

    @property
    def family(self) -> tuple[str, str, str]:
        """Return the kind of thing, of figure and of slip."""
        return self.path.partition("[")[0], self.field, self.why

    def made(self, text: str) -> str:
        """Return the text of a boat file with the slip typed."""
        for field, value in self.typed:
            text = set_value(text, f"{self.path}.{field}", value)
        return text

    def __str__(self) -> str:
        """Return it in one line."""
        return f"{self.path}.{self.field} {self.why}: {', '.join(v for _, v in self.typed)}"


def figures(text: str) -> Iterator[tuple[str, str, str, dict[str, Any]]]:
    """Yield every figure of things aboard: path, field, as typed, and the whole thing."""
    answer = tomllib.loads(text)
    for table in TABLES:
        for number, thing in enumerate(answer.get(table, []), 1):
            for field, value in thing.items():
                if field in FIELDS and isinstance(value, str):
                    yield f"{table}[{number}]", field, value, thing
    if "height" in answer.get("waterline", {}):
        yield "waterline", "height", answer["waterline"]["height"], answer["waterline"]


def slips(text: str) -> Iterator[Slip]:
    """Yield every slip of every figure."""
    answer = tomllib.loads(text)
    scale = float(str(answer.get("scale", "1:1")).partition(":")[2] or 1)
    length = read(answer["length"], "length", None) if "length" in answer else 0.0
    for path, field, typed, thing in figures(text):
        kind = FIELDS[field]
        value = read(typed, kind, None)
        number, _, unit = typed.partition(" ")
        for why, times in _ways(kind, field, scale):
            wrong = f"{float(number) * times:.9g} {unit}"
            yield Slip(path=path, field=field, why=why, was=value, typed=((field, wrong),))
        if field in PLACES and length and abs(length - 2 * value) > 0.02 * length:
            wrong = f"{(length - value) * 1e3:.6g} mm"
            yield Slip(path=path, field=field, why="other end", was=value, typed=((field, wrong),))
        for other in {"x": ("z",), "y": ("z",)}.get(field, ()):
            if other in thing and path[:6] != "region":
                both = ((field, thing[other]), (other, typed))
                yield Slip(path=path, field=field, why=f"for {other}", was=value, typed=both)


def _ways(kind: str, field: str, scale: float) -> Iterator[tuple[str, float]]:
    yield "× 10", 10.0
    yield "÷ 10", 0.1
    if kind == "percent":
        return
    yield (
        {"mass": "kg for g", "volume": "L for cm³", "density": "kg for g"}.get(kind, "m for mm"),
        1e3,
    )
    if kind == "density":
        return
    yield "÷ 1000", 1e-3
    yield "× 100", 100.0
    if kind == "length":
        yield "inches for mm", 25.4
        yield "mm for inches", 1 / 25.4
        if field in HALVED:
            yield "half", 0.5
            yield "double", 2.0
    if kind == "mass":
        yield "ounces for g", 28.349523125
        yield "g for ounces", 1 / 28.349523125
    if scale > 1:
        yield "full size", scale if kind == "length" else scale**3


def drawn(text: str, seed: int) -> Iterator[Slip]:
    """Yield all slips in an order by chance in which kinds of things, figures and slips take turns.

    So that no kind is drawn more often because there are more parts than tanks.
    """
    by_chance = random.Random(seed)
    families: dict[tuple[str, str, str], list[Slip]] = {}
    for slip in slips(text):
        families.setdefault(slip.family, []).append(slip)
    kinds = sorted(families)
    by_chance.shuffle(kinds)
    for family in kinds:
        by_chance.shuffle(families[family])
    while kinds:
        for family in list(kinds):
            yield families[family].pop()
            if not families[family]:
                kinds.remove(family)
