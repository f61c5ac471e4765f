"""``weigh``: every mass aboard, where it is and how sure, as text."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from trimdive.cli.layout import Block, Cells, line, table
from trimdive.hydrostatics.equilibrium.named import mass_off
from trimdive.text import words

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.hydrostatics.weights import Entry

KINDS = {
    "region": "hull",
    "coat": "paint and filler",
    "cylinder": "cylinders",
    "tank": "tanks",
    "part": "parts",
    "lead": "lead",
    "foam": "foam",
    "tub": "from the tub",
}
KNOWN = ("guess", "worked out", "catalogue", "weighed")
TO_MIDDLE = 5e-5  # closer to the middle line than this is on it [m]


def weigh_text(her: "Assessment") -> Iterator[Block]:
    """Yield what ``weigh`` prints."""
    boat, masses, write = her.boat, her.masses, her.boat.units.write
    yield line(f"{words.title(her)}; tanks empty")
    yield line()
    head = ["", "mass", "±", f"from {boat.entered_from}", "height", "known"]
    yield table(head, _rows(her), right=(1, 2, 3, 4), gap=1)
    yield line()
    for known in KNOWN:
        mass = masses.known_as(known)
        if mass:
            part = words.share(mass / masses.mass, 1)
            yield line(f"{known}: {write(mass, 'mass')}, {part} of her")
    yield from _changes(her)
    y = float(masses.gravity[1])
    if abs(y) > TO_MIDDLE:
        side = "port" if y > 0 else "starboard"
        yield line(f"Her centre of gravity is {write(abs(y), 'length')} to {side}.")
    yield line()
    yield line(
        "± is how far off a mass may be, either way (95 cases in 100). Heights are above "
        "the keel line."
    )


def _changes(her: "Assessment") -> Iterator[Block]:
    """Yield what is still to come, what soaks in, and what the scale said before."""
    masses, write = her.masses, her.boat.units.write
    today = masses.today
    if len(today.entries) < len(masses.entries):
        yield line(
            f"Aboard today: {write(today.mass, 'mass')} ± {write(today.spread, 'mass')}; still to "
            f"come: {write(masses.mass - today.mass, 'mass')}."
        )
    if masses.dry != masses.mass:
        soaks = write(masses.mass - masses.dry, "mass")
        yield line(f"Dry she weighs {write(masses.dry, 'mass')}; {soaks} soaks in within a day.")
    before = None
    for one in sorted(her.boat.weigh_ins, key=lambda weighed: weighed.date):
        more = "" if before is None else f", {words.gained(her.boat, one.mass - before)}"
        note = f" ({one.note})" if one.note else ""
        yield line(f"On the scale {one.date:%Y-%m-%d}: {write(one.mass, 'mass')}{more}{note}.")
        before = one.mass


def _rows(her: "Assessment") -> Iterator[Cells]:
    boat, masses, write = her.boat, her.masses, her.boat.units.write
    for kind, name in KINDS.items():
        entries = [entry for entry in masses.entries if entry.kind == kind]
        if not entries:
            continue
        yield [name, write(masses.of_kind(kind), "mass"), "", "", "", ""]
        yield from (_row(her, entry) for entry in entries)
    g = masses.gravity
    spread = write(masses.spread, "mass")
    x, z = words.place(boat, float(g[0])), write(float(g[2]), "length")
    yield ["all", write(masses.mass, "mass"), spread, x, z, ""]


def _row(her: "Assessment", entry: "Entry") -> Cells:
    boat, write = her.boat, her.boat.units.write
    y = float(entry.place[1])
    side = f", {write(abs(y), 'length')} to {'port' if y > 0 else 'starboard'}"
    return [
        f"  {entry.name}{side if abs(y) > TO_MIDDLE else ''}",
        words.mass(boat, entry.mass),
        mass_off(boat, entry.spread),
        words.place(boat, float(entry.place[0])),
        write(float(entry.place[2]), "length"),
        entry.known,
    ]
