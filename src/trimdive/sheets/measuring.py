"""The measuring sheet: rows to fill in by pencil, named as the fields that they become."""

from typing import Literal

from trimdive.estimates.tape.typed import GIRTH, MOULDING
from trimdive.sheets.setting import compiled
from trimdive.text.care import LAST_WORD

Paper = Literal["a4", "letter"]
Units = Literal["metric", "inches", ""]
PAPERS: dict[Paper, tuple[str, float]] = {  # as the typesetter calls it; height of a row [mm]
    "a4": ("a4", 7.0),
    "letter": ("us-letter", 5.8),
}
SMALL = {"metric": "mm", "inches": "in", "": ""}
MASS = {"metric": "g", "inches": "oz", "": ""}
GIRTHS, WALLS, STANDING, WEIGHED, PROFILE, SECTIONS = 12, 8, 4, 7, 6, 3  # rows
Row = list[str]
Data = dict[str, object]

FIELD = ["field", "what", "figure", "unit"]
ABOUT = {
    "name": "what you call her",
    "length": "over all",
    "kind": "wet or dry",
    "material": "of the hull: GRP, PETG …",
    "measured_from": "stern or bow",
}
UPPER = {
    f"moulding: {MOULDING[0]}": "upper moulding on the scale",
    f"moulding: {MOULDING[1]}": "its lower edge above the waterline; below: minus",
}
HULL = {
    "breadth": "greatest",
    "height": "keel to deck",
    "waterline": "above the keel line",
    "thickness": "of the skin",
}
TUBE = {
    "outside": "of the tube",
    "wall": "of the tube",
    "length": "over the caps",
    "x": "its middle",
    "z": "its axis, up",
}
GIRTH_NOTE = "Over the deck, waterline to waterline; 0 where the deck is under water."
MORE_NOTE = "At least five, two of them near the ends; breadth if you can."
WALL_NOTE = "With calipers above the waterline, at spots far apart."
STANDING_NOTE = (
    "Mass, and hung under water; or girth, height and wall; or the volume of foam and sealed space."
)
BREADTHS_NOTE = "widest: height at which she is widest there."
SECTION_NOTE = "round, oval, or box with its radius; at three places."
PART_NOTE = (
    "Weigh the heaviest first. hung: the scale's reading with it under water, minus where it pulls "
    "up. inside: which cylinder it is in."
)
SIDE: Data = {
    "file": "girth.svg",
    "width": 2.1,
    "alt": "The hull from the side: girths are laid over the deck at places x from the stern; what "
    "is on the deck is measured separately.",
}
ACROSS: Data = {
    "file": "section.svg",
    "width": 1.0,
    "alt": "The hull cut across: the girth goes from waterline over the deck to waterline, the "
    "breadth straight across; the wall is measured with calipers.",
}
PLAN: Data = {
    "file": "outline.svg",
    "width": 2.1,
    "alt": "The hull from the side and from above: heights of keel and deck and the breadth are "
    "measured at some places x.",
}


def measuring_sheet(paper: Paper = "a4", units: Units = "") -> bytes:
    """Return the sheet as a tagged PDF.

    Args:
        paper: A4 or US letter.
        units: To print in the columns of units; left out, they are empty.
    """
    name, high = PAPERS[paper]
    data = {
        "title": "Measuring sheet",
        "paper": name,
        "high": high,
        "footer": f"trimdive: enter the readings in tape.toml, then: trimdive tape tape.toml. "
        f"{LAST_WORD}",
        "pages": [_tape_page(units), _boat_page(units)],
    }
    return compiled("measuring.typ", data)


def _table(title: str, note: str, heads: Row, rows: list[Row], widths: list[float]) -> Data:
    return {
        "title": title,
        "note": note,
        "heads": heads,
        "rows": rows,
        "widths": widths,
    }


def _rows(fields: dict[str, str], unit: dict[str, str]) -> list[Row]:
    """Return a row a field: its name, what it is, room for the figure, its unit."""
    return [[name, what, "", unit.get(name, "")] for name, what in fields.items()]


def _tape_page(units: Units) -> Data:
    """Return the page for litres with a tape."""
    mm, g = SMALL[units], MASS[units]
    about = _table("the boat", "", FIELD, _rows(ABOUT, {"length": mm}), [0.9, 1.5, 1.6, 0.5])
    heads = [*(str(i) for i in range(1, WALLS + 1)), "unit"]
    walls = _table("wall", WALL_NOTE, heads, [[*[""] * WALLS, mm]], [1.0] * (WALLS + 1))
    rows = _rows(UPPER, {"moulding: mass": g, "moulding: edge": mm})
    moulding = _table("moulding", "", FIELD, rows, [0.9, 2.2, 1.0, 0.5])
    heads = ["name", "x", "mass", "hung", "girth", "height", "wall", "material, volume"]
    rows = [[""] * len(heads) for _ in range(STANDING)]
    standing = _table("standing", STANDING_NOTE, heads, rows, [1.5, *[0.8] * 6, 1.4])
    return {
        "title": "Litres with a tape, in ten minutes",
        "note": "Hull level on a flat board, waterline pencilled all round. The rows are the "
        "fields of the file; write the unit beside the figure.",
        "pictures": [SIDE, ACROSS],
        "parts": [[about], _girths(mm), [walls], [moulding], [standing]],
    }


def _girths(mm: str) -> list[Data]:
    """Return the two halves of the table of girths."""
    rows = [[str(i), "", "", "", mm] for i in range(1, GIRTHS + 1)]
    heads, widths = ["", *GIRTH, "unit"], [0, 1.0, 1.0, 1.0, 0.7]
    return [
        _table("girth", GIRTH_NOTE, heads, rows[: GIRTHS // 2], widths),
        _table("girth, more of them", MORE_NOTE, heads, rows[GIRTHS // 2 :], widths),
    ]


def _boat_page(units: Units) -> Data:
    """Return the page for weighings and for the outline."""
    mm = SMALL[units]
    wide = [0.8, 1.5, 0.9, 0.5]
    hull = _table("hull", "", FIELD, _rows(HULL, dict.fromkeys(HULL, mm)), wide)
    tube = _table("cylinder", "", FIELD, _rows(TUBE, dict.fromkeys(TUBE, mm)), wide)
    blank = [["", "", "", mm] for _ in range(PROFILE)]
    runs = [1.0, 1.0, 1.0, 0.6]
    profile = _table("profile", "Both ends at least.", ["x", "keel", "deck", "unit"], blank, runs)
    heads = ["x", "breadth", "widest", "unit"]
    breadths = _table("breadths", BREADTHS_NOTE, heads, blank, runs)
    rows = [[""] * 3 for _ in range(SECTIONS)]
    section = _table("section", SECTION_NOTE, ["x", "shape", "radius"], rows, [1.0, 1.6, 1.0])
    heads = ["name", "mass", "hung", "x", "y", "z", "inside"]
    rows = [[""] * len(heads) for _ in range(WEIGHED)]
    parts = _table("part", PART_NOTE, heads, rows, [2.2, 0.9, 0.9, 0.9, 0.7, 0.9, 1.2])
    return {
        "title": "Weighings, and the hull's outline",
        "note": "For the boat file, when there is a quarter of an hour more. x along her, z up "
        "from the keel line, y to port.",
        "pictures": [PLAN, ACROSS],
        "parts": [[hull, tube], [profile, breadths], [section], [parts]],
    }
