"""``reach``: what water alone can cover, other waters, depth and bays, as text and JSON."""

from collections.abc import Iterator, Sequence
from math import atan2
from typing import TYPE_CHECKING

from trimdive.ballast.depth import as_lead
from trimdive.ballast.reach import apart, remedy
from trimdive.findings import limit_of
from trimdive.hydrostatics.equilibrium.named import bound
from trimdive.text import words
from trimdive.text.deep import UNTESTED, may_go_json, may_go_words
from trimdive.text.documents import common
from trimdive.text.found import limit_text
from trimdive.text.layout import Block, Cells, Document, heading, line, table

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.ballast.depth import Change
    from trimdive.ballast.reach import Wanted, Weight

DEPTHS = (1.0, 3.0, 10.0)  # at which it is told how much heavier she is [m]
TIP = "trim-dived"  # limit of what she may tip
AT_ENDS = 0.05  # of her length: so near to bow or stern no lead goes [-]
LEAST_BG = 1e-4  # that she is taken to have, so that nothing turns her right over [m]
SMALL_MASS = 5e-4  # a lack smaller than this is none [kg]


def reach_text(her: "Assessment", states: Sequence["Wanted"]) -> Iterator[Block]:
    """Yield what ``reach`` prints of her and the states that are to be covered."""
    boat = her.boat
    yield line(words.title(her))
    if not boat.tanks:
        yield line("She has no tank: ballast water cannot cover anything.")
    else:
        yield heading("What ballast water alone covers")
        head = ["dived and level", "water", "its centre at", "covered", "lead that helps"]
        yield table(head, (_state(her, one) for one in states), right=(1, 2))
        tip = limit_text(boat, limit_of(TIP, boat))
        yield line(
            "Covered means that the tanks can hold that water with its centre there, so that her "
            f"trim dived is at most {tip}. Otherwise the "
            "least lead that helps, and where; with 'out' remove that lead, or add foam."
        )
    yield heading("In other waters")
    head = ["water", "kg/m³", "lead to add", "with tanks full"]
    yield table(head, (_water(her, one) for one in her.changes), right=(1, 2, 3))
    place = boat.place(float(her.changes[0].place[0]))
    yield line(
        f"Lead goes {place}, at her centre of gravity along the boat, and low: then she floats "
        "and dives there as before. Minus: take lead out, and add foam where that is more than is "
        "aboard."
    )
    yield from _depth(her)
    yield from _bays(her)


def mended(her: "Assessment", one: "Wanted") -> "Weight | None":
    """Return the least weight that brings a state within reach, not right out at her ends."""
    aft, fore = (float(x) for x in her.hull.envelope.bounds[:, 0])
    inset = AT_ENDS * (fore - aft)
    return remedy(her.reach, one, her.midships, (aft + inset, fore - inset))


def covered(her: "Assessment", one: "Wanted") -> bool:
    """Return whether water alone covers a state, to what she may tip dived."""
    mass, moment = apart(her.reach, one)
    stiff = her.dived.displacement_mass * max(her.bg, LEAST_BG)
    return abs(mass) < SMALL_MASS and abs(moment) < limit_of(TIP, her.boat).value * stiff


def _state(her: "Assessment", one: "Wanted") -> Cells:
    boat = her.boat
    mass, moment = apart(her.reach, one)
    middle = her.midships + one.moment / one.mass if one.mass > 0 else None
    aft, fore = (float(x) for x in her.hull.envelope.bounds[:, 0])
    answer, helps = "yes", ""
    if not covered(her, one):
        helps = _helps(her, one)
        answer = f"trim {_tip(her, -moment)}"
    if abs(mass) >= SMALL_MASS:
        answer = f"{words.mass(boat, abs(mass))} {'too much' if mass > 0 else 'too little'}"
    at = "–" if middle is None or not aft < middle < fore else words.place(boat, middle)
    return [one.name, words.mass(boat, one.mass), at, answer, helps]


def _tip(her: "Assessment", moment: float) -> str:
    """Return how far a moment turns her dived, in short words.

    Args:
        her: The boat.
        moment: That pulls her bow down [kg m].
    """
    stiff = her.dived.displacement_mass * max(her.bg, LEAST_BG)
    return words.trim(her.boat, atan2(moment, stiff), short=True)


def _helps(her: "Assessment", one: "Wanted") -> str:
    """Return the least lead that brings a state within reach, and where, in words."""
    found = mended(her, one)
    if found is None:
        return "no one weight"
    boat = her.boat
    lead = as_lead(found.pull, her.water.density * one.denser)
    out = "" if lead > 0 else "out "
    return f"{words.mass(boat, abs(lead))} {out}at {words.place(boat, found.x)}"


def _water(her: "Assessment", one: "Change") -> Cells:
    boat = her.boat
    lead = words.mass(boat, abs(one.lead))
    sign = "-" if one.lead < 0 and not words.is_zero(lead) else ""
    foam = f", {words.volume(boat, one.foam)} of foam" if one.foam > 0 else ""
    return [
        one.name,
        f"{one.water.density:.1f}",
        f"{sign}{lead}{foam}",
        words.weight(boat, -one.short),
    ]


def _depth(her: "Assessment") -> Iterator[Block]:
    """Yield how much heavier depth makes her, and how deep she may go."""
    boat, found = her.boat, her.depths
    soft = found.compressibility
    yield heading("With depth")
    more = ", ".join(
        f"{words.mass(boat, abs(soft.heavier(depth)))} "
        f"{'heavier' if soft.heavier(depth) > 0 else 'lighter'} at {depth:g} m"
        for depth in DEPTHS
    )
    is_heavier = soft.heavier(DEPTHS[-1]) > 0
    why = "her volume shrinks" if is_heavier else "the water grows denser faster than she shrinks"
    yield line(f"She grows {more}: {why}.")
    if soft.unknown:
        yield line(f"Not counted, stiffness not entered: {', '.join(soft.unknown)}.")
    if found.trimmed <= 0:
        yield line(
            f"With tanks full she is {words.weight(boat, -found.trimmed)} and sinks by "
            "herself from the surface on; stop the fill sooner."
        )
    elif found.hovers is not None:
        deep = bound(boat, found.hovers)
        yield line(f"With tanks full she sinks by herself deeper than {deep}.")
    if found.returns is not None:
        deep = bound(boat, found.returns)
        yield line(f"Deeper than {deep} she does not come up even with tanks blown.")
    elif her.surfaced.rest.under:
        yield line("With her tanks blown she sinks: nothing brings her up.")
    else:
        yield line("With her tanks blown her lift lasts as deep as she may go.")
    yield line(f"{may_go_words(her)} {UNTESTED}")


def _bays(her: "Assessment") -> Iterator[Block]:
    """Yield what parting the tanks would do, where slack water takes anything."""
    if not her.bays or her.bays[0].lost_l < 1e-4:
        return
    write = her.boat.units.write
    yield heading("Tanks parted lengthways")
    head = ["bays in each", "least GM lengthways at", "GM lengthways there", "loss to free surface"]
    rows = (
        [
            f"{one.count}",
            f"{words.share(one.filling)} full",
            write(one.gm_l, "length"),
            write(one.lost_l, "length"),
        ]
        for one in her.bays
    )
    yield table(head, rows, right=(1, 2, 3))


def reach_json(her: "Assessment", states: Sequence["Wanted"]) -> Document:
    """Return what ``reach --json`` prints."""
    found = her.depths
    return {
        **common(her),
        "midships_m": her.midships,
        "covered": [{"mass_kg": float(m), "moment_kg_m": float(q)} for m, q in her.reach.corners],
        "wanted": [_wanted(her, one) for one in states],
        "waters": [_change(one) for one in her.changes],
        "heavier": [{"depth_m": d, "mass_kg": found.compressibility.heavier(d)} for d in DEPTHS],
        "not_counted": list(found.compressibility.unknown),
        **may_go_json(her),
        "hovers_m": found.hovers,
        "returns_m": found.returns,
        "bays": [
            {
                "count": one.count,
                "filling": one.filling,
                "gm_l_m": one.gm_l,
                "free_surface_l_m": one.lost_l,
            }
            for one in her.bays
        ],
    }


def _wanted(her: "Assessment", one: "Wanted") -> Document:
    mass, moment = apart(her.reach, one)
    is_covered = covered(her, one)
    weight = None if is_covered else mended(her, one)
    return {
        "name": one.name,
        "mass_kg": one.mass,
        "moment_kg_m": one.moment,
        "lacking_kg": mass,
        "lacking_kg_m": moment,
        "covered": is_covered,
        "weight_kg": weight and weight.pull,
        "weight_x_m": weight and weight.x,
    }


def _change(one: "Change") -> Document:
    return {
        "name": one.name,
        "density_kg_m3": one.water.density,
        "pull_kg": one.pull,
        "lead_kg": one.lead,
        "foam_m3": one.foam,
        "x_m": float(one.place[0]),
        "lift_left_kg": one.short,
    }
