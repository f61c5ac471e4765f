"""Weight lists thrown by dice: what a list holds comes first, then how a builder may write it.

Each trait that lists have is drawn by itself: letters between cells and decimals, units and where
they stand, heads of many words, pieces and what a mass is of, groups as headings, as a column, on
their first row only, sums of groups with and without a word for it, margins, empty rows, numbers of
rows, columns of no use, tables beside.
"""

import random
from dataclasses import dataclass

from tests.lists.books import Value, book_of
from tests.lists.thirty import IN, LB, OZ, Case

from trimdive.weightlists import Answers

GRAMS = {"g": 1.0, "kg": 1000.0, "oz": OZ, "lb": LB}
MILLIMETRES = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": IN}
NAMES = (
    *("shell", "deck", "keel bar", "pump", "valve", "servo", "battery", "mast", "rudder", "hatch"),
    *("ram", "aerial", "receiver", "frame", "hinge", "motor", "shaft", "gland", "ring"),
)
GROUPS = ("Hull", "Drive", "Electrics", "Ballast")
ALONG = {
    "bow": ("from bow", "From front", "Distance from bow", "aft of bow", "x from nose"),
    "stern": ("from stern", "Distance from stern", "forward of stern", "from rear"),
    "": ("Arm fore-aft", "LCG", "Longitudinal arm", "Lever arm", "Position fore and aft"),
}
ACROSS = ("Arm lateral", "TCG", "Off centre", "Lateral", "Distance from centreline", "Athwartships")
UP = ("Height", "VCG", "Above keel", "Vertical arm", "Height above baseline")


@dataclass(frozen=True, kw_only=True)
class Part:
    """What one row holds, in the list's own units."""

    name: str
    group: str
    pieces: int
    each: float
    place: tuple[float, float, float]


@dataclass(frozen=True, kw_only=True)
class Way:
    """How the list is written."""

    mass: str  # unit of masses
    length: str  # unit of places
    columns: tuple[str, ...]
    heads: dict[str, str]
    groups: str  # "none", "heading", "column", "first row"
    sums: str  # "none", "worded", "named", "nameless"
    end: str


def thrown(seed: int) -> Case:
    """Return one list, with what it holds."""
    dice = random.Random(seed)
    way = _way(dice)
    parts = _parts(dice, way)
    rows = _rows(dice, way, parts)
    if dice.random() < 0.4:
        data, suffix = book_of(_beside(dice, rows)), ".xlsx"
    else:
        data, suffix = _text(dice, rows).encode(), ".csv"
    gram, millimetre = GRAMS[way.mass], MILLIMETRES[way.length]
    shown = [k for k, column in enumerate(("along", "across", "up")) if column in way.columns]
    holds = [
        (
            part.each * part.pieces * gram,
            *(part.place[k] * millimetre if k in shown else 0.0 for k in range(3)),
        )
        for part in parts
    ]
    said = Answers(measured_from="" if way.end else "stern")
    return Case(
        name=f"dice {seed}",
        holds=holds,
        end=way.end or "stern",
        data=data,
        suffix=suffix,
        said=said,
    )  # type: ignore[arg-type]


def _way(dice: random.Random) -> Way:
    """Return how the list is written."""
    mass, length = dice.choice(list(GRAMS)), dice.choice(list(MILLIMETRES))
    end = dice.choice(list(ALONG))
    pieces = dice.choice(([], ["pieces", "each"], ["pieces", "each", "all"], ["pieces", "all"]))
    places = [name for name in ("along", "across", "up") if dice.random() < 0.7]
    columns = [*(["serial"] if dice.random() < 0.25 else []), "name"]
    columns += [*pieces, *(["all"] if not pieces else [])]
    columns += [*places, *(["price"] if dice.random() < 0.2 else [])]
    at = dice.choice(("{} [{}]", "{} ({})", "{}, {}", "{} in {}", "{}/{}"))
    counted = dice.choice(("Qty", "Pcs", "Number", "No.", "Quantity", "Anzahl"))
    if counted == "No." and "serial" in columns:
        counted = "Qty"
    whole = ("Total mass", "Weight total") if pieces else ("Mass", "Weight")
    heads = {
        "serial": "#", "name": dice.choice(("Part", "Item", "Component", "Description")),
        "pieces": counted, "price": "Price",
        "each": at.format(dice.choice(("Mass each", "Weight each", "Unit weight")), mass),
        "all": at.format(dice.choice(whole), mass),
        "along": at.format(dice.choice(ALONG[end]), length),
        "across": at.format(dice.choice(ACROSS), length),
        "up": at.format(dice.choice(UP), length),
        "group": dice.choice(("Group", "Category", "System")),
    }  # fmt: skip
    groups = dice.choice(("none", "heading", "column", "first row"))
    if groups in ("column", "first row"):
        columns.insert(columns.index("name"), "group")
    sums = dice.choice(("none", "worded", "named", "nameless")) if groups != "none" else "none"
    return Way(
        mass=mass, length=length, columns=tuple(columns), heads=heads, groups=groups, sums=sums,
        end=end,
    )  # fmt: skip


def _parts(dice: random.Random, way: Way) -> list[Part]:
    """Return what the list holds."""
    digits = {"g": 1, "kg": 4, "oz": 2, "lb": 3}[way.mass]
    names = dice.sample(NAMES, dice.randint(4, 12))
    groups = [GROUPS[k * len(GROUPS) // len(names)] for k in range(len(names))]
    has_pieces = "pieces" in way.columns
    reach = 900.0 / MILLIMETRES[way.length]
    decimals = {"mm": 0, "cm": 1, "m": 3, "in": 2}[way.length]
    return [
        Part(
            name=name,
            group=group,
            pieces=dice.choice((1, 1, 2, 3, 4)) if has_pieces else 1,
            each=round(dice.uniform(8, 700) / GRAMS[way.mass], digits),
            place=(
                round(dice.uniform(0.05, 1) * reach, decimals),
                round(dice.uniform(-0.1, 0.1) * reach, decimals),
                round(dice.uniform(0.02, 0.2) * reach, decimals),
            ),
        )
        for name, group in zip(names, groups, strict=True)
    ]


def _rows(dice: random.Random, way: Way, parts: list[Part]) -> list[list[Value]]:
    """Return the rows of the list, with its sums."""
    rows: list[list[Value]] = []
    if dice.random() < 0.4:
        rows += [["Weights, spring"], []]
    rows.append([way.heads[column] for column in way.columns])
    seen = ""
    for k, part in enumerate(parts):
        if part.group != seen and way.groups == "heading":
            rows += (
                [[], _row(way, {"name": part.group})]
                if dice.random() < 0.5
                else [_row(way, {"name": part.group})]
            )
        shown = part.group if way.groups == "column" or part.group != seen else None
        seen = part.group
        rows.append(_row(way, _cells(part, k, shown)))
        same = [one for one in parts if one.group == seen]
        if way.sums != "none" and part is same[-1]:
            name = {"worded": f"Subtotal {seen}", "named": seen, "nameless": None}[way.sums]
            rows.append(_row(way, {"name": name, "all": _sum(same), "each": None}))
    if dice.random() < 0.7 and "all" in way.columns:
        rows.append(_row(way, {"name": dice.choice(("Total", "NET", "Sum")), "all": _sum(parts)}))
        if dice.random() < 0.3:
            rows.append(_row(way, {"name": "Margin 5 %", "all": round(0.05 * _sum(parts), 6)}))
            rows.append(_row(way, {"name": "GROSS", "all": round(1.05 * _sum(parts), 6)}))
    return rows


def _cells(part: Part, k: int, group: str | None) -> dict[str, Value]:
    """Return the cells of one part by their columns."""
    x, y, z = part.place
    return {
        "serial": k + 1, "name": part.name, "group": group, "pieces": part.pieces,
        "each": part.each, "all": round(part.each * part.pieces, 6), "along": x, "across": y,
        "up": z, "price": round(part.each * 0.3 + 4, 2),
    }  # fmt: skip


def _row(way: Way, cells: dict[str, Value]) -> list[Value]:
    """Return one row; a sum that the list has no column for is left out."""
    if "all" not in way.columns and cells.get("all") is not None and "pieces" not in cells:
        cells = {**cells, "each": cells["all"]}
    return [cells.get(column) for column in way.columns]


def _sum(parts: list[Part]) -> float:
    """Return the mass of some parts in the list's unit."""
    return round(sum(part.each * part.pieces for part in parts), 6)


def _beside(dice: random.Random, rows: list[list[Value]]) -> list[list[Value]]:
    """Return the rows of a workbook, now and then with a table beside them."""
    if dice.random() < 0.6:
        return rows
    width = max(len(row) for row in rows)
    top = max(range(len(rows)), key=lambda k: (len(rows[k]) == width, -k))
    side: list[list[Value]] = [["Summary", "Mass [g]"], ["target", 5200], ["so far", 4100.5]]
    found = [[*row, *[None] * (width - len(row))] for row in rows]
    for k, cells in enumerate(side):
        if top + k < len(found):
            found[top + k] += [None, *cells]
    return found


def _text(dice: random.Random, rows: list[list[Value]]) -> str:
    """Return the rows as text: commas, tabs, or semicolons with decimal commas."""
    separator, mark = dice.choice(((",", "."), ("\t", "."), (";", ","), ("\t", ","), (";", ".")))
    lines: list[str] = []
    for row in rows:
        cells = ["" if cell is None else _typed(cell, mark) for cell in row]
        quoted = [f'"{cell}"' if separator in cell else cell for cell in cells]
        lines.append(separator.join(quoted))
    return "\n".join(lines) + "\n"


def _typed(cell: Value, mark: str) -> str:
    """Return a cell as text; a number in three decimals gets a fourth, so that it is clear."""
    if isinstance(cell, str) or cell is None:
        return cell or ""
    text = f"{cell:.6f}".rstrip("0").rstrip(".")
    text += "0" if "." in text and len(text.partition(".")[2]) == 3 else ""
    return text.replace(".", mark)
