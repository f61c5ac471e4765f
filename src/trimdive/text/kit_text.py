"""What ``kit`` prints: pieces, pockets, and what goes where, as text and as JSON."""

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from trimdive.placing.kit import Kit, Left, Piece, Pocket, Row, is_near
from trimdive.text import words
from trimdive.text.documents import common
from trimdive.text.layout import Block, Cells, Document, heading, line, table
from trimdive.units import unit_named, write

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.boatfile import Boat

NONE = "–"
NO_ROOM = "*"  # beside a piece for which no clear room was found where it is to lie


def kit_text(her: "Assessment", made: Kit) -> Iterator[Block]:
    """Yield what ``kit`` prints."""
    boat = her.boat
    yield line(words.title(her))
    if not made.pieces:
        yield line()
        yield line("No kit needed: her tanks cover all of these.")
    else:
        yield heading("Pieces")
        head = ["piece", "of", "mass", "volume", "cut"]
        yield table(head, (_piece(boat, one) for one in made.pieces), right=(2, 3))
        yield line(_proof(made))
        yield heading("Pockets")
        yield table(["pocket", f"from {_end(boat)}", "lead", "foam"],
                    (_pocket(boat, one) for one in made.pockets), right=(1,))  # fmt: skip
        yield line(
            "Heights are above the keel line: of the underside of lead, and of the upper side of "
            "foam. Halved foam goes one half to each side."
        )
    yield heading("What goes where")
    head = ["planned", "lacks", "fore", "amidships", "aft", "left dived", "afloat"]
    rows = (_row(her, one, made.crowded) for one in made.rows)
    yield table(head, rows, right=(1,), gap=1)
    if made.crowded:
        yield line(
            f"{NO_ROOM} No clear room was found for {', '.join(made.crowded)}: find room "
            "there and shape the piece to fit, or it cannot go there."
        )
    yield line(
        "Lacks: weight less buoyancy to make up; minus: lift. Left dived, with the tanks as full "
        "as now, and afloat are compared with her now in her own water; each was calculated with "
        "its pieces in."
    )
    yield line(_near(boat, made))


def _end(boat: "Boat") -> str:
    return "bow" if boat.measured_from == "bow" else "stern"


def _piece(boat: "Boat", one: Piece) -> Cells:
    unit = boat.units.shown("length")
    digits = 0 if unit == "mm" else None
    sides = " × ".join(write(side, "length", unit, digits).split()[0] for side in one.size)
    return [
        one.label,
        one.kind,
        words.mass(boat, one.mass) if one.kind == "lead" else NONE,
        boat.units.write(one.volume, "volume") if one.kind == "foam" else NONE,
        f"{sides} {unit_named(unit, 'length').name}",
    ]


def _proof(made: Kit) -> str:
    if made.proven:
        return "Proven: no fewer pieces do it, and no lighter set of as many."
    return "Time ran out: it may be that fewer or lighter pieces would do; allow more time."


def _pocket(boat: "Boat", one: Pocket) -> Cells:
    lead = boat.units.write(one.lead_z, "length")
    foam = boat.units.write(one.foam_z, "length")
    halves = f", halved, {boat.units.write(one.foam_y, 'length')} off the centreline"
    return [
        one.name,
        words.place(boat, one.x),
        f"low, {lead}" if one.lead_is_free else f"{lead}, where room is",
        f"{foam}{halves if one.foam_y else ''}" if one.foam_is_free else f"{foam}, where room is",
    ]


def _lying(one: Row, pocket: str, crowded: Sequence[str]) -> str:
    """Return what lies in a pocket, marked where no clear room was found for it there."""
    labels = one.lies.get(pocket, ())
    tight: set[str] = set()
    for kind in ("L", "F"):  # lead and foam of a pocket are each looked for by themselves
        own = [label for label in labels if label.startswith(kind)]
        if f"{' and '.join(own)} {pocket}" in crowded:
            tight.update(own)
    return " ".join(f"{label}{NO_ROOM if label in tight else ''}" for label in labels) or NONE


def _row(her: "Assessment", one: Row, crowded: Sequence[str]) -> Cells:
    boat = her.boat
    sign = "-" if one.pull < 0 else ""
    lacks = words.mass(boat, abs(one.pull))
    has_none = not any(figure in lacks for figure in "123456789")
    places = [_lying(one, name, crowded) for name in ("fore", "amidships", "aft")]
    return [
        one.combination.name,
        f"{'' if has_none else sign}{lacks}",
        *places,
        f"{words.weight(boat, one.left.excess)}, {_tips(boat, one.left.tips)}",
        _rides(boat, one.left),
    ]


def _tips(boat: "Boat", angle: float) -> str:
    return words.trim(boat, angle, short=True)


def _rides(boat: "Boat", left: Left) -> str:
    if left.sinks != left.sinks:
        return "under"
    text = boat.units.write(abs(left.sinks), "length")
    if not any(figure in text for figure in "123456789"):
        return "as now"
    return f"{text} {'low' if left.sinks > 0 else 'high'}"


def _near(boat: "Boat", made: Kit) -> str:
    near = (
        f"Near enough is {words.mass(boat, made.mass_band)} heavy or light and "
        f"{write(made.angle_band, 'angle', '°')} dived: half of what the limits allow."
    )
    far = [row.combination.name for row in made.rows if not is_near(made, row.left)]
    return f"{near} Not near enough: {'; '.join(far)}." if far else near


def kit_json(her: "Assessment", made: Kit) -> Document:
    """Return what ``kit --json`` prints."""
    return {
        **common(her),
        "proven": made.proven,
        "mass_band_kg": made.mass_band,
        "angle_band_rad": made.angle_band,
        "pieces": [
            {
                "label": one.label,
                "kind": one.kind,
                "mass_kg": one.mass,
                "volume_m3": one.volume,
                "size_m": list(one.size),
            }
            for one in made.pieces
        ],
        "pockets": [
            {
                "name": one.name,
                "x_m": one.x,
                "lead_z_m": one.lead_z,
                "foam_z_m": one.foam_z,
                "foam_y_m": one.foam_y,
                "lead_is_free": one.lead_is_free,
                "foam_is_free": one.foam_is_free,
            }
            for one in made.pockets
        ],
        "crowded": list(made.crowded),
        "planned": [_planned(made, one) for one in made.rows],
    }


def _planned(made: Kit, one: Row) -> Document:
    return {
        "water": one.combination.water_name,
        "density_kg_m3": one.combination.water.density,
        "gear": one.combination.gear,
        "pull_kg": one.pull,
        "x_m": one.x,
        "lies": {name: list(labels) for name, labels in one.lies.items()},
        "bare": _left(one.bare),
        "left": _left(one.left),
        "near_enough": is_near(made, one.left),
    }


def _left(one: Left) -> Document:
    return {
        "excess_kg": one.excess,
        "tips_bow_down_rad": one.tips,
        "trim_bow_down_rad": one.trim,
        "sinks_m": one.sinks,
        "bg_m": one.bg,
    }
