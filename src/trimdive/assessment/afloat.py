"""How she floats, fills and dives: what is worked out of a boat before anything is judged."""

from dataclasses import dataclass, replace
from typing import Self

import numpy as np

from trimdive.assessment.worked import worked
from trimdive.ballast.dive import Bays, Dive, Moment, Path, bays, dive, planned
from trimdive.ballast.dive.sinking import Heave, heave
from trimdive.ballast.dive.table import even_moments
from trimdive.ballast.need import Need, need
from trimdive.ballast.reach import Reach, covered
from trimdive.boatfile import Boat
from trimdive.boatfile.boat import Units
from trimdive.errors import BoatError
from trimdive.geometry.clashes.scene import Scene, scene
from trimdive.geometry.lines.mesh import Floats
from trimdive.geometry.solids.build import Body, bodies
from trimdive.geometry.solids.hull import Hull, hull
from trimdive.geometry.solids.surfaces import Files
from trimdive.hydrostatics.equilibrium import (
    Floater,
    State,
    floater,
    other_rests,
    rest,
    state,
    tank_waters,
)
from trimdive.hydrostatics.equilibrium.heeled import GzCurve, gz_curve
from trimdive.hydrostatics.equilibrium.hydrostatics import film_pull, upright_bg
from trimdive.hydrostatics.equilibrium.named import Low, how_full, lowest_of
from trimdive.hydrostatics.weights import Ledger, ledger
from trimdive.marking.marked import Marks, marks_on
from trimdive.water import Water, water

STEPS = 50  # moments of the dive between blown and full [-]


@dataclass(frozen=True, kw_only=True, eq=False, repr=False)
class Afloat:
    """A boat and how she floats, fills and dives, each answer when first asked for.

    Two are equal where boat and files are, whatever has been asked of them. There is no hash:
    it would cost as much as reading her files again, each time.
    """

    boat: Boat
    files: Files
    own: "Self | None" = None  # her in her own units, where these are others
    is_plain: bool = False  # she is looked at as she is: nothing is put right first

    __hash__ = None  # pyright: ignore[reportAssignmentType] - refused, as said above

    def __eq__(self, other: object) -> bool:
        """Return whether it is of the same boat with the same files."""
        if not isinstance(other, Afloat) or type(other) is not type(self):
            return NotImplemented
        return self.boat == other.boat and self.files == other.files

    def __repr__(self) -> str:
        """Return whose it is; nothing is worked out for that."""
        return f"{type(self).__name__}({self.boat!r})"

    def in_units(self, units: Units) -> Self:
        """Return the same boat with figures written in other units: nothing is worked out anew."""
        boat = self.boat.model_copy(update={"units": units})
        return replace(self, boat=boat, own=self.own or self)

    def is_known(self, answer: str) -> bool:
        """Return whether an answer has been worked out already, by its name."""
        return answer in vars(self.own or self)

    @worked
    def kept(self) -> dict[object, object]:
        """What others worked out of her, by what they ask for: it goes when she does."""
        return {}

    @worked
    def water(self) -> Water:
        """The water that she floats in."""
        return water(self.boat.water.kind, self.boat.water.temperature, self.boat.water.salt)

    @worked
    def hull(self) -> Hull:
        """Her hull: each region as a body, and the outside shape."""
        built = hull(self.boat, self.files)
        if self.boat.holes or self.boat.plate_lines or self.boat.draught_marks:
            marks_on(self.boat, built)  # what lies off the skin is refused
        return built

    @worked
    def marked(self) -> Marks:
        """What is marked and cut on her skin, each in its place."""
        return marks_on(self.boat, self.hull)

    @worked
    def bodies(self) -> tuple[Body, ...]:
        """Everything that displaces."""
        return bodies(self.boat, self.hull, self.files)

    @worked
    def scene(self) -> Scene:
        """Everything that takes up room, and what of it shares room."""
        return scene(self.boat, self.hull, self.files)

    @worked
    def masses(self) -> Ledger:
        """Everything that weighs, without the water in the tanks."""
        return ledger(self.boat, self.bodies)

    @worked
    def floater(self) -> Floater:
        """The boat ready to be let go."""
        return floater(self.boat, self.files, self.bodies, self.masses, self.water.density)

    @worked
    def waterline(self) -> tuple[Floats, float]:
        """The plane at which she is meant to float: n, and its height along n [m]."""
        line = self.boat.waterline
        if line is None:
            raise BoatError("it names none", "waterline", 'Add [waterline] with height = "…".')
        n = np.array([-line.slope, 0.0, 1.0]) / np.hypot(line.slope, 1.0)
        return n, float(n[2]) * line.height_at(0.0)

    @worked
    def need(self) -> Need:
        """Litres of ballast water needed, their centre, and what the tanks give."""
        return need(self.floater, self.bodies, self.masses, self.waterline, self.path.at)

    @worked
    def blown_water(self) -> Floats:
        """Water in each tank when blown, shape (t,) [m³]."""
        return tank_waters(self.boat, self.floater.tanks, "blown")

    @worked
    def full_water(self) -> Floats:
        """Water in each tank when full, shape (t,) [m³]."""
        return tank_waters(self.boat, self.floater.tanks, "full")

    @worked
    def surfaced(self) -> State:
        """At rest with her tanks blown."""
        return self.at(self.blown_water)

    @worked
    def full(self) -> State:
        """At rest with her tanks full."""
        return self.dive[-1].state if self.boat.tanks else self.surfaced

    @worked
    def neutral(self) -> float:
        """Share of the tanks' room at which she is neutral; may lie below 0 or above 1 [-]."""
        lift = self.floater.volume - self.floater.mass / self.water.density
        return lift / room if (room := float(self.floater.tanks.capacities.sum())) else np.inf

    @worked
    def dived(self) -> State:
        """Wholly under, at the filling at which she is neutral, or the nearest to it."""
        low, high = (float(water.sum()) for water in (self.blown_water, self.full_water))
        wanted = self.floater.volume - self.floater.mass / self.water.density
        share = min(max((wanted - low) / (high - low), 0.0), 1.0) if high > low else 0.0
        return state(self.floater, rest(self.floater, self.path.at(share), hanging=True))

    @property
    def lowest(self) -> State:
        """How she lies low: the state whose figures stand first everywhere; see ``rest.named``."""
        return self.low[1]

    @property
    def lowest_name(self) -> Low:
        """The name of that state."""
        return self.low[0]

    @property
    def low(self) -> tuple[Low, State]:
        """The name of that state, and the state."""
        return lowest_of(self.boat, self.surfaced, self.full, self.dived)

    @property
    def goes_under(self) -> bool:
        """Whether she can be neutral wholly under."""
        return self.full.rest.under

    @property
    def light_by(self) -> float:
        """The lift left with tanks full; negative when she sinks [kg]."""
        return -self.full.rest.excess

    @property
    def short(self) -> float:
        """What she weighs too little for her waterline; negative: too heavy [kg]."""
        below = self.floater.volume - self.need.volume
        blown = self.floater.density * float(self.surfaced.rest.waters.sum())
        return self.floater.density * below - self.floater.mass - blown

    def filled(self, moment: Moment) -> float:
        """Return how full her tanks are at a moment, of their whole room [-]."""
        return how_full(self.floater, moment.state.rest.waters)

    @worked
    def path(self) -> Path:
        """The planned way of filling her tanks."""
        return planned(self.boat, self.floater.tanks)

    @worked
    def dive(self) -> tuple[Moment, ...]:
        """Even moments from blown to full, each rest followed from the one before."""
        return even_moments(self.floater, self.path, STEPS)

    @worked
    def down(self) -> Dive:
        """The way down, with more moments where much happens, and its jumps."""
        return self.way(up=False)

    @worked
    def up(self) -> Dive:
        """The way up from full tanks; it need not be the way down."""
        return self.way(up=True)

    @worked
    def heave(self) -> Heave:
        """What moves when she sinks or rises, with full tanks."""
        return heave(self.floater, self.hull, float(self.full_water.sum()))

    def way(self, *, up: bool, steps: int = STEPS) -> Dive:
        """Return the way down or up with so many even steps before any is halved."""
        tops = {skin.name: skin.outline for skin in self.hull.skins}
        names = tuple(tank.name for tank in self.boat.tanks)
        known = self.down.moments if up else self.dive
        return dive(self.floater, self.path, tops, up=up, steps=steps, names=names, known=known)

    def gz(self, at: State, heels: Floats) -> GzCurve:
        """Return her righting levers from a state on, at heels to starboard, shape (n,) [rad]."""
        return gz_curve(self.floater, at.rest, heels)

    @worked
    def film(self) -> float:
        """How hard surface tension pulls her down on the surface, at most [kg]."""
        return film_pull(self.floater, self.surfaced.rest)

    @worked
    def others(self) -> tuple[State, ...]:
        """Every other way in which she could rest with her tanks blown."""
        boat = self.floater
        return tuple(state(boat, one) for one in other_rests(boat, self.surfaced.rest))

    @worked
    def bg(self) -> float:
        """B above G dived and upright, at the filling of ``dived`` [m]."""
        return upright_bg(self.floater, self.dived.rest.waters)

    @worked
    def midships(self) -> float:
        """Middle of the hull's length, from the stern [m]."""
        return float(self.hull.envelope.bounds[:, 0].mean())

    @worked
    def reach(self) -> Reach:
        """What water alone covers: mass and moment that the tanks can make."""
        return covered(self.floater, (self.blown_water, self.full_water), self.midships)

    @worked
    def bays(self) -> tuple[Bays, ...]:
        """What parting her tanks into bays makes of her softest moment lengthways."""
        return bays(self.dive)

    def at(self, waters: Floats) -> State:
        """Return her at rest with this water in her tanks, shape (t,) [m³]."""
        return state(self.floater, rest(self.floater, waters))

    def moment(self, filling: float, *, up: bool = False) -> Moment:
        """Return the moment at a filling [-] of the way down or up, followed from one nearby."""
        moments = (self.up if up else self.down).moments
        near = min(moments, key=lambda moment: abs(moment.filling - filling))
        found = rest(self.floater, self.path.at(filling), start=near.state.rest)
        return Moment(filling=filling, state=state(self.floater, found))
