"""The order of work: from a boat file to everything that is told of her.

This is the only file that knows it. An assessment is frozen and works out each answer when asked.
"""

from contextlib import suppress
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path as File

import numpy as np

from trimdive.bench import NotEntered
from trimdive.boatfile import Boat, Loaded, load
from trimdive.bodies.beside import read_beside
from trimdive.bodies.build import Body, bodies
from trimdive.bodies.hull import Hull, hull
from trimdive.bodies.surfaces import Files, outline_spreads
from trimdive.clashes.scene import Scene, scene
from trimdive.depth import Change, Depths, changes, depths
from trimdive.dive import Bays, Dive, Moment, Path, bays, dive, planned
from trimdive.dive.changed import towers
from trimdive.dive.held import coming_up_full
from trimdive.dive.sinking import BLOW_TIME, Heave, Stop, heave, stop
from trimdive.dive.table import even_moments
from trimdive.errors import BoatFileError, TrimdiveError
from trimdive.findings import (
    Bench,
    Edit,
    Facts,
    Finding,
    Works,
    apply,
    bench_findings,
    benched,
    clearing,
    findings,
    gaps,
    with_rest,
    works,
)
from trimdive.lines.mesh import Floats
from trimdive.lines.outline_spread import OutlineSpread
from trimdive.litres import Need, need
from trimdive.reach import Reach, Wanted, covered, wanted
from trimdive.rest import Floater, State, floater, other_rests, rest, state, tank_waters
from trimdive.rest.heeled import GzCurve, gz_curve
from trimdive.rest.hydrostatics import film_pull, upright_bg
from trimdive.rest.named import Low, lowest_of
from trimdive.slips import attempted, explained_in, slipped
from trimdive.sure import Sure, sure
from trimdive.water import Water, water, waters
from trimdive.weights import Ledger, ledger

STEPS = 50  # moments of the dive between blown and full [-]


@dataclass(frozen=True, kw_only=True)
class Assessment:
    """A boat and everything that is worked out of her, each answer when first asked for."""

    boat: Boat
    files: Files

    @cached_property
    def water(self) -> Water:
        """The water that she floats in."""
        return water(self.boat.water.kind, self.boat.water.temperature, self.boat.water.salt)

    @cached_property
    def hull(self) -> Hull:
        """Her hull: each region as a body, and the outside shape."""
        return hull(self.boat, self.files)

    @cached_property
    def bodies(self) -> tuple[Body, ...]:
        """Everything that displaces."""
        return bodies(self.boat, self.hull, self.files)

    @cached_property
    def scene(self) -> Scene:
        """Everything that takes up room, and what of it shares room."""
        return scene(self.boat, self.hull, self.files)

    @cached_property
    def masses(self) -> Ledger:
        """Everything that weighs, without the water in the tanks."""
        return ledger(self.boat, self.bodies)

    @cached_property
    def floater(self) -> Floater:
        """The boat ready to be let go."""
        return floater(self.boat, self.files, self.bodies, self.masses, self.water.density)

    @cached_property
    def waterline(self) -> tuple[Floats, float]:
        """The plane at which she is meant to float: n, and its height along n [m]."""
        line = self.boat.waterline
        if line is None:
            raise BoatFileError("it names none", "waterline", 'Add [waterline] with height = "…".')
        n = np.array([-line.slope, 0.0, 1.0]) / np.hypot(line.slope, 1.0)
        return n, float(n[2]) * line.height_at(0.0)

    @cached_property
    def need(self) -> Need:
        """Litres of ballast water needed, their centre, and what the tanks give."""
        return need(self.floater, self.bodies, self.masses, self.waterline, self.path.at)

    @cached_property
    def blown_water(self) -> Floats:
        """Water in each tank when blown, shape (t,) [m³]."""
        return tank_waters(self.boat, self.floater.tanks, "blown")

    @cached_property
    def full_water(self) -> Floats:
        """Water in each tank when full, shape (t,) [m³]."""
        return tank_waters(self.boat, self.floater.tanks, "full")

    @cached_property
    def surfaced(self) -> State:
        """At rest with her tanks blown."""
        return self.at(self.blown_water)

    @cached_property
    def full(self) -> State:
        """At rest with her tanks full."""
        return self.dive[-1].state if self.boat.tanks else self.surfaced

    @cached_property
    def neutral(self) -> float:
        """Share of the tanks' room at which she is neutral; may lie below 0 or above 1 [-]."""
        lift = self.floater.volume - self.floater.mass / self.water.density
        return lift / room if (room := float(self.floater.tanks.capacities.sum())) else np.inf

    @cached_property
    def dived(self) -> State:
        """Wholly under, at the filling at which she is neutral, or the nearest to it."""
        low, high = (float(water.sum()) for water in (self.blown_water, self.full_water))
        wanted = self.floater.volume - self.floater.mass / self.water.density
        share = min(max((wanted - low) / (high - low), 0.0), 1.0) if high > low else 0.0
        return state(self.floater, rest(self.floater, self.path.at(share), hanging=True))

    @property
    def lowest(self) -> State:
        """How she lies low: the state whose figures stand first everywhere; see ``rest.named``."""
        return lowest_of(self.boat, self.surfaced, self.full, self.dived)[1]

    @property
    def lowest_name(self) -> Low:
        """The name of that state."""
        return lowest_of(self.boat, self.surfaced, self.full, self.dived)[0]

    @cached_property
    def path(self) -> Path:
        """The planned way of filling her tanks."""
        return planned(self.boat, self.floater.tanks)

    @cached_property
    def dive(self) -> tuple[Moment, ...]:
        """Even moments from blown to full, each rest followed from the one before."""
        return even_moments(self.floater, self.path, STEPS)

    @cached_property
    def down(self) -> Dive:
        """The way down, with more moments where much happens, and its jumps."""
        return self.way(up=False)

    @cached_property
    def up(self) -> Dive:
        """The way up from full tanks; it need not be the way down."""
        return self.way(up=True)

    @cached_property
    def held(self) -> dict[str, tuple[Moment, ...]]:
        """The way up with each tower still full of water, by the tower's name."""
        names = towers(self.boat, self.hull, self.surfaced.rest)
        return {name: coming_up_full(self.facts, self.path, name) for name in names}

    @cached_property
    def heave(self) -> Heave:
        """What moves when she sinks or rises, with full tanks."""
        return heave(self.floater, self.hull, float(self.full_water.sum()))

    @cached_property
    def stop(self) -> Stop | None:
        """How she is stopped when, sinking quite full, her tanks are blown; None: she does not.

        Raises:
            BalanceError: Blown to the last she sinks on.
        """
        excess, room = self.full.rest.excess, float((self.full_water - self.blown_water).sum())
        if excess <= 0:
            return None
        rates = [tank.rate or 0.0 for tank in self.boat.tanks]
        rate = sum(rates) if all(rates) else room / BLOW_TIME
        soft = self.depths.softness.per_metre()
        return stop(self.heave, excess=excess, rate=rate, room=room, softness=soft)

    def way(self, *, up: bool, steps: int = STEPS) -> Dive:
        """Return the way down or up with so many even steps before any is halved."""
        tops = {skin.name: skin.outline for skin in self.hull.skins}
        names = tuple(tank.name for tank in self.boat.tanks)
        known = self.down.moments if up else self.dive
        return dive(self.floater, self.path, tops, up=up, steps=steps, names=names, known=known)

    def gz(self, at: State, heels: Floats) -> GzCurve:
        """Return her righting levers from a state on, at heels to starboard, shape (n,) [rad]."""
        return gz_curve(self.floater, at.rest, heels)

    @cached_property
    def film(self) -> float:
        """How hard surface tension pulls her down on the surface, at most [kg]."""
        return film_pull(self.floater, self.surfaced.rest)

    @cached_property
    def others(self) -> tuple[State, ...]:
        """Every other way in which she could rest with her tanks blown."""
        boat = self.floater
        return tuple(state(boat, one) for one in other_rests(boat, self.surfaced.rest))

    @cached_property
    def bg(self) -> float:
        """B above G dived and upright, at the filling of ``dived`` [m]."""
        return upright_bg(self.floater, self.dived.rest.waters)

    @cached_property
    def midships(self) -> float:
        """Middle of the hull's length, from the stern [m]."""
        return float(self.hull.envelope.bounds[:, 0].mean())

    @cached_property
    def reach(self) -> Reach:
        """What water alone covers: mass and moment that the tanks can make."""
        return covered(self.floater, (self.blown_water, self.full_water), self.midships)

    @cached_property
    def wanted(self) -> tuple[Wanted, ...]:
        """The states that water alone should cover: other waters, and her masses' ±."""
        brief = self.boat.brief
        known = waters()
        names = brief.waters if brief and brief.waters else tuple(known)
        others = [(name, known[name]) for name in names if name in known]
        return wanted(self.facts, others, self.midships)

    @cached_property
    def sure(self) -> Sure:
        """How sure each figure is, by the spreads of her masses, places and volumes."""
        return sure(self)  # pyright: ignore[reportArgumentType] - worked out when asked for

    @cached_property
    def changes(self) -> tuple[Change, ...]:
        """What every named water asks for, thinnest first."""
        return changes(self.facts, (self.blown_water, self.full_water))

    @cached_property
    def depths(self) -> Depths:
        """How deep she may go."""
        return depths(self.facts, self.blown_water, self.full_water)

    @cached_property
    def bays(self) -> tuple[Bays, ...]:
        """What parting her tanks into bays makes of her softest moment lengthways."""
        return bays(self.dive)

    @cached_property
    def outlines(self) -> dict[str, OutlineSpread]:
        """How sure the volume and waterplane of each outlined region are, by its name."""
        return outline_spreads(self.boat)

    @cached_property
    def facts(self) -> Facts:
        """All that a check may look at."""
        if not (faults := clearing(plain := self._facts(None))):
            return plain
        her = self.edited(tuple(edit for one in faults for edit in one.edits))
        return self._facts(her._facts(None), tuple(dict.fromkeys(one.subject for one in faults)))

    def _facts(self, cleared: Facts | None, clears: tuple[str, ...] = ()) -> Facts:
        return Facts(
            boat=self.boat,
            files=self.files,
            hull=self.hull,
            bodies=self.bodies,
            scene=self.scene,
            masses=self.masses,
            floater=self.floater,
            waterline=self.waterline,
            need=self.need,
            surfaced=self.surfaced,
            full=self.full,
            dived=self.dived,
            neutral=self.neutral,
            bg=self.bg,
            dive=self.dive,
            down=self.down,
            cleared=cleared,
            clears=clears,
        )

    @cached_property
    def works(self) -> Works:
        """Her plant, what feeds it, where she ends up when it fails, and her servos' rods."""
        return works(self.facts)

    @cached_property
    def bench(self) -> Bench:
        """Her cylinders, what seals them, and how they were tried."""
        return benched(self.facts, self.water)

    @cached_property
    def bench_findings(self) -> tuple[Finding, ...]:
        """What is not in order on the bench, of cylinders and of plant, worst first."""
        return bench_findings(self.bench, self.works)

    @cached_property
    def not_entered(self) -> tuple[NotEntered, ...]:
        """What stands on the bench, is not entered, and no finding complains of already."""
        return gaps(self.boat, lambda: self.bench_findings)

    @property
    def bench_in_order(self) -> bool:
        """Whether nothing on the bench must be put right, and all of it has been entered."""
        return not (self.not_entered or any(f.weight == "put right" for f in self.bench_findings))

    @cached_property
    def checked(self) -> tuple[Finding, ...]:
        """What the checks find, without a slip of one figure that may explain it."""
        return findings(self.facts)

    @cached_property
    def first_findings(self) -> tuple[Finding, ...]:
        """What is not in order, without what remains when one alone is mended."""
        return self.checked if self.in_order else (*slipped(self), *self.checked)  # pyright: ignore[reportArgumentType] - worked out when asked for

    @cached_property
    def findings(self) -> tuple[Finding, ...]:
        """What is not in order, worst first, each with what remains when it alone is mended."""
        return with_rest(self.first_findings, {f: attempted(b) for f, b in self.mended.items()})  # pyright: ignore[reportArgumentType]

    @cached_property
    def mended(self) -> "dict[Finding, Assessment]":
        """Her with each thing alone mended that the program can mend."""
        return {found: self.edited(found.edits) for found in self.first_findings if found.edits}

    @cached_property
    def urgent(self) -> int:
        """How many things must be put right of how she floats and dives."""
        return sum(found.weight == "put right" for found in self.first_findings)

    @cached_property
    def urgent_on_bench(self) -> int:
        """How many things must be put right on the bench; one that cannot be at all is one."""
        with suppress(TrimdiveError):
            return sum(found.weight == "put right" for found in self.bench_findings)
        return 1

    @property
    def in_order(self) -> bool:
        """Whether nothing must be put right of how she floats and dives."""
        return all(found.weight != "put right" for found in self.checked)

    @property
    def wholly_in_order(self) -> bool:
        """Whether nothing must be put right, in the water or on the bench, nor be entered."""
        return not (self.urgent or self.urgent_on_bench or self.not_entered)

    def at(self, waters: Floats) -> State:
        """Return her at rest with this water in her tanks, shape (t,) [m³]."""
        return state(self.floater, rest(self.floater, waters))

    def moment(self, filling: float, *, up: bool = False) -> Moment:
        """Return the moment at a filling [-] of the way down or up, followed from one nearby."""
        moments = (self.up if up else self.down).moments
        near = min(moments, key=lambda moment: abs(moment.filling - filling))
        found = rest(self.floater, self.path.at(filling), start=near.state.rest)
        return Moment(filling=filling, state=state(self.floater, found))

    def edited(self, edits: tuple[Edit, ...]) -> "Assessment":
        """Return her with these changes made."""
        boat, files = apply(self.boat, self.files, edits)
        return Assessment(boat=boat, files=files)

    def in_water(self, kind: str, celsius: float, salt: float) -> "Assessment":
        """Return her in another water."""
        told = {"kind": kind, "temperature": celsius, "salt": salt}
        boat = self.boat.model_copy(update={"water": self.boat.water.model_copy(update=told)})
        return Assessment(boat=boat, files=self.files)


def assess(loaded: Loaded | File | str) -> Assessment:
    """Return the assessment of a boat file.

    Raises:
        TrimdiveError: Something in it, or in a file beside it, must be mended.
    """
    try:
        found = loaded if isinstance(loaded, Loaded) else load(loaded)
    except TrimdiveError as error:
        raise explained_in(error, File(str(loaded)), Assessment) from None  # pyright: ignore[reportArgumentType]
    return Assessment(boat=found.boat, files=read_beside(found))
