"""A trim kit for a boat: combinations of water and gear, pieces, pockets, verified one by one.

Each combination is to float and hang as she does now in her own water: on the same line, and
neutral and level at the same filling. With mass M, volume V of all that displaces, in water ρ, and
M', V', ρ' in the combination, the pull to add is

    (ρ'/ρ)(M - ρ V) - (M' - ρ' V'),

and so for the moments. Every combination with its pieces in their pockets is then let go by the
full solver, surfaced and dived.

Source: Archimedes, four times.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from time import monotonic

import numpy as np

from trimdive.assessment import Assessment
from trimdive.errors import BoatError
from trimdive.findings import limit_of
from trimdive.geometry.lines.mesh import Floats
from trimdive.geometry.solids.hull import density_of
from trimdive.hydrostatics.equilibrium import State, rest, state
from trimdive.placing.kit.cover import MOST, cover
from trimdive.placing.kit.laying import Piece, put_in, shaped
from trimdive.placing.kit.pockets import Pocket
from trimdive.placing.kit.task import Cover, Task
from trimdive.water import Water

LEAD, FOAM = "lead", "XPS foam"
HALF = 0.5  # of each limit is for the kit, the rest for all else [-]
LEAST_BG = 1e-3  # that she is taken to have at least [m]
ANY = (0.0, 0.0, 0.0)  # a size that is still to be found [m]
STEPS = (0.010, 0.005, 0.002, 0.001)  # sizes are whole steps of one of these [kg, or L of foam]
MARGIN = 0.9  # of the bands is used at first, since pieces are not points [-]
TOO_MUCH = 0.15  # of her mass: what wants more is no matter of trim [-]
AGAIN = 3  # times that the bands are drawn closer where the solver finds more left [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Combination:
    """A water and a set of gear."""

    water_name: str
    water: Water
    gear: str  # "" for as she is
    her: Assessment  # with that gear, in that water

    @property
    def name(self) -> str:
        """Return both in words."""
        return f"{self.water_name}, {self.gear}" if self.gear else self.water_name


@dataclass(frozen=True, slots=True, kw_only=True)
class Left:
    """What is left wrong in a combination with its pieces in, by the full solver."""

    excess: float  # heavy dived at the filling of her own water; below 0 light [kg]
    tips: float  # bow down dived, beside how she hangs now [rad]
    trim: float  # bow down surfaced, beside how she lies now [rad]
    sinks: float  # lower amidships surfaced than now [m]
    bg: float  # B over G dived [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One combination with its pieces."""

    combination: Combination
    pull: float  # weight less buoyancy that it wants [kg]
    x: float | None  # where; None where it wants no pull [m]
    lies: dict[str, tuple[str, ...]]  # labels of pieces by pocket
    bare: Left  # with no piece in
    left: Left  # with them in


@dataclass(frozen=True, slots=True, kw_only=True)
class Kit:
    """Pieces, pockets, and what goes where."""

    pieces: tuple[Piece, ...]
    pockets: tuple[Pocket, ...]
    rows: tuple[Row, ...]
    proven: bool
    crowded: tuple[str, ...]  # labels with the pocket in which no clear room was found for them
    mass_band: float  # how heavy or light is near enough dived [kg]
    angle_band: float  # how far she may tip by it dived [rad]


def _known(material: str) -> float:
    return density_of(material, None) or 0.0


def _pieces(found: Cover) -> tuple[Piece, ...]:
    """Return the pieces of a kit, L1, L2 and F1, F2 from the largest on."""
    lead = (
        Piece(
            label=f"L{k}", kind="lead", mass=float(m), volume=float(m) / _known(LEAD),
            size=ANY,
        )
        for k, m in enumerate(found.lead, 1)
    )  # fmt: skip
    foam = (
        Piece(
            label=f"F{k}", kind="foam", mass=float(v) * _known(FOAM), volume=float(v),
            size=ANY,
        )
        for k, v in enumerate(found.foam, 1)
    )  # fmt: skip
    return (*lead, *foam)


def needs(her: Assessment, planned: Sequence[Combination], about: float) -> tuple[Floats, Floats]:
    """Return pull [kg] and moment [kg m] wanted in each combination, each shape (c,).

    Args:
        her: As she is trimmed now.
        planned: The combinations.
        about: Place about which moments are taken [m].
    """
    pulls, moments = np.empty(len(planned)), np.empty(len(planned))
    was = _balance(her, about)
    for k, one in enumerate(planned):
        denser = one.water.density / her.water.density
        now = _balance(one.her, about)
        pulls[k], moments[k] = denser * was - now
    return pulls, moments


def _balance(her: Assessment, about: float) -> Floats:
    """Return weight less buoyancy of all of her under water without tank water, and its moment."""
    boat = her.floater
    x = boat.tree.centre[0] - about
    lift = boat.density * boat.volume
    moment = boat.mass * (boat.gravity[0] + x) - lift * (boat.buoyancy[0] + x)
    return np.array([boat.mass - lift, moment])


def _task(
    her: Assessment, planned: Sequence[Combination], places: Sequence[Pocket], about: float,
    share: float,
) -> Task:  # fmt: skip
    """Return what the kit must cover, with a share of the bands [-]."""
    pulls, moments = needs(her, planned, about)
    _refuse_too_much(her, planned, pulls)
    density = np.array([one.water.density for one in planned])
    mass_band, angle_band = bands(her)
    step = next((one for one in STEPS if one <= mass_band / 2), STEPS[-1])
    stiff = her.dived.displacement_mass * max(her.bg, LEAST_BG)
    return Task(
        pulls=pulls, moments=moments, arms=np.array([p.x - about for p in places]),
        lead=1 - density / _known(LEAD), foam=density - _known(FOAM),
        pull_band=share * mass_band, moment_band=share * stiff * float(np.tan(angle_band)),
        lead_step=step, foam_step=step * 1e-3, foam_mass=_known(FOAM),
    )  # fmt: skip


def _refuse_too_much(her: Assessment, planned: Sequence[Combination], pulls: Floats) -> None:
    """Raise which combination is so far off that loose pieces are no cure.

    Raises:
        BoatError: One is.
    """
    k = int(np.argmax(np.abs(pulls)))
    if abs(pulls[k]) > TOO_MUCH * her.floater.mass:
        way = "more lead" if pulls[k] > 0 else "more lift"
        what = f"it wants {abs(pulls[k]):.3g} kg {way}, too much for loose pieces"
        mend = "Look at the figures; or place her anew."
        raise BoatError(what, planned[k].name, mend)


def bands(her: Assessment) -> tuple[float, float]:
    """Return how heavy or light dived [kg], and how far tipped [rad], is near enough.

    Half of each limit, and no more than sinks her by half its limit on the surface.
    """
    heavy = limit_of("neutral-band", her.boat).value * her.floater.mass
    sink = limit_of("waterline-band", her.boat).value * her.surfaced.mass_to_sink_1_mm * 1e3
    return HALF * min(heavy, sink), HALF * limit_of("trim-dived", her.boat).value


def _both(her: Assessment, blown: Floats, neutral: Floats) -> tuple[State, State]:
    """Return her surfaced, and hanging with this water in her tanks, each shape (t,) [m³]."""
    boat = her.floater
    up = state(boat, rest(boat, blown))
    return up, state(boat, rest(boat, neutral, hanging=True))


def _left(her: Assessment, one: Assessment) -> Left:
    """Return how a combination floats and hangs beside how she does now."""
    blown, neutral = her.blown_water, her.dived.rest.waters
    up, under = _both(one, blown, neutral)
    boat, own = one.floater, her.floater
    water, was = float(neutral.sum()) * boat.density, float(neutral.sum()) * own.density
    excess = boat.mass + water - boat.density * boat.volume
    excess -= (own.mass + was - own.density * own.volume) * boat.density / own.density
    deeper = up.draught(her.midships) - her.surfaced.draught(her.midships)
    return Left(
        excess=excess,
        tips=under.trim_angle - her.dived.trim_angle,
        trim=up.trim_angle - her.surfaced.trim_angle,
        sinks=float("nan") if up.rest.under else deeper,
        bg=under.bg,
    )


def _lies(
    pieces: Sequence[Piece], found: Cover, places: Sequence[Pocket], c: int
) -> dict[str, tuple[str, ...]]:
    """Return the labels of pieces by pocket, in a combination counted from 0."""
    lies: dict[str, tuple[str, ...]] = {}
    for piece, k in zip(pieces, found.lies[c], strict=True):
        if k >= 0:
            name = places[k].name
            lies[name] = (*lies.get(name, ()), piece.label)
    return lies


def _cut(
    her: Assessment, found: Cover, places: Sequence[Pocket]
) -> tuple[tuple[Piece, ...], tuple[str, ...]]:
    """Return the pieces of a kit cut to lie clear, and what of them does not."""
    pieces, by_name = _pieces(found), {pocket.name: pocket for pocket in places}
    lies = [
        [(by_name[name], labels) for name, labels in _lies(pieces, found, places, c).items()]
        for c in range(len(found.lies))
    ]
    return shaped(her.scene, pieces, lies)


def _rows(
    her: Assessment, planned: Sequence[Combination], places: Sequence[Pocket],
    found: Cover, pieces: Sequence[Piece], needed: tuple[Floats, Floats], about: float,
) -> tuple[Row, ...]:  # fmt: skip
    """Return every combination with its pieces in, let go by the full solver."""
    rows: list[Row] = []
    for c, one in enumerate(planned):
        boat, lies = one.her.boat, _lies(pieces, found, places, c)
        for pocket in places:
            there = [piece for piece in pieces if piece.label in lies.get(pocket.name, ())]
            boat = put_in(boat, pocket, *there)
        trimmed = replace(one.her, boat=boat)
        pull, moment = float(needed[0][c]), float(needed[1][c])
        rows.append(
            Row(
                combination=one, pull=pull, lies=lies,
                x=about + moment / pull if abs(pull) > 1e-6 else None,
                bare=_left(her, one.her), left=_left(her, trimmed),
            )
        )  # fmt: skip
    return tuple(rows)


def kit(
    her: Assessment, planned: Sequence[Combination], places: Sequence[Pocket],
    seconds: float = 30.0,
) -> Kit:  # fmt: skip
    """Return the smallest kit that covers every combination planned.

    Args:
        her: As she is trimmed now.
        planned: The combinations.
        places: The pockets.
        seconds: Time that proving may take [s].

    Raises:
        BoatError: No kit of a few pieces covers them.
    """
    has_water = float(her.need.water_place[0]) if her.boat.tanks else her.midships
    mass_band, angle_band = bands(her)
    share, made, end = MARGIN, None, monotonic() + seconds
    for _ in range(AGAIN):
        task = _task(her, planned, places, has_water, share)
        found = cover(task, end - monotonic())
        if found is None:
            what = f"no kit of {MOST} pieces or fewer was found that covers all of these"
            raise BoatError(what, "--waters, --with", "Plan fewer, or make a kit for each.")
        pieces, crowded = _cut(her, found, places)
        rows = _rows(her, planned, places, found, pieces, (task.pulls, task.moments), has_water)
        made = Kit(
            pieces=pieces, pockets=tuple(places), rows=rows, proven=found.proven,
            crowded=crowded, mass_band=mass_band, angle_band=angle_band,
        )  # fmt: skip
        if all(is_near(made, row.left) for row in rows):
            return made
        share *= 0.8
    assert made is not None
    return made


def is_near(made: Kit, left: Left) -> bool:
    """Return whether what is left is near enough."""
    return abs(left.excess) <= made.mass_band and abs(left.tips) <= made.angle_band
