"""A boat and everything told of her: how sure it is, what is not in order, what mends it."""

from contextlib import suppress
from dataclasses import dataclass, replace

from trimdive.assessment.afloat import Afloat
from trimdive.assessment.worked import worked
from trimdive.ballast.depth import Change, Depths, changes, depths
from trimdive.ballast.dive import Moment
from trimdive.ballast.dive.changed import towers
from trimdive.ballast.dive.held import LARGE_HEEL, coming_up_full
from trimdive.ballast.dive.sinking import BLOW_TIME, Stop, stop
from trimdive.ballast.reach import Wanted, wanted
from trimdive.bench import NotEntered
from trimdive.boatfile.changing import added, changed, without
from trimdive.boatfile.piece import Piece
from trimdive.boatfile.resolve import SEA_SALT
from trimdive.errors import BalanceError, TrimdiveError
from trimdive.findings import (
    Bench,
    Edit,
    Finding,
    Works,
    apply,
    bench_findings,
    benched,
    clearing,
    findings,
    fit_findings,
    gaps,
    limit_of,
    with_rest,
    works,
)
from trimdive.findings.slips import attempted, slipped
from trimdive.fit.fitted import Fit, fitted
from trimdive.fit.inside import Room, room
from trimdive.geometry.lines.outline_spread import OutlineSpread
from trimdive.geometry.solids.surfaces import outline_spreads
from trimdive.geometry.solids.walls import walls
from trimdive.tables import Table, dive_table, findings_table, parts_table
from trimdive.uncertainty import Uncertainty, marks_of, uncertainty
from trimdive.water import waters


@dataclass(frozen=True, kw_only=True, eq=False, repr=False)
class Assessment(Afloat):
    """A boat and everything that is worked out of her, each answer when first asked for."""

    @worked
    def held(self) -> dict[str, tuple[Moment, ...]]:
        """The way up with each tower still full of water, by the tower's name."""
        names = towers(self.boat, self.hull, self.surfaced.rest)
        return {name: coming_up_full(self, self.path, name) for name in names}

    @worked
    def heels_coming_up(self) -> bool:
        """Whether she heels over on the way up with a tower still full, or no way up is found.

        One that will not go under has no way up.
        """
        if not (self.boat.tanks and self.full.rest.under):
            return False
        try:
            ways = self.held.values()
        except BalanceError:
            return True
        return any(abs(one.state.heel) > LARGE_HEEL for way in ways for one in way)

    @worked
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
        soft = self.depths.compressibility.per_metre()
        return stop(self.heave, excess=excess, rate=rate, room=room, compressibility=soft)

    @worked
    def wanted(self) -> tuple[Wanted, ...]:
        """The states that water alone should cover: other waters, and her masses' ±."""
        brief = self.boat.brief
        known = waters()
        names = brief.waters if brief and brief.waters else tuple(known)
        others = [(name, known[name]) for name in names if name in known]
        return wanted(self, others, self.midships)

    @worked
    def uncertainty(self) -> Uncertainty:
        """How sure each figure is, by the spreads of her masses, places and volumes."""
        return uncertainty(self)

    @worked
    def changes(self) -> tuple[Change, ...]:
        """What every named water asks for, thinnest first."""
        return changes(self, (self.blown_water, self.full_water))

    @worked
    def depths(self) -> Depths:
        """How deep she may go."""
        return depths(self, self.blown_water, self.full_water)

    @worked
    def outlines(self) -> dict[str, OutlineSpread]:
        """How sure the volume and waterplane of each outlined region are, by its name."""
        return outline_spreads(self.boat)

    @worked
    def _clearing(self) -> "tuple[Assessment | None, tuple[tuple[str, str], ...]]":
        as_she_is = Assessment(boat=self.boat, files=self.files, own=self, is_plain=True)
        if not (faults := clearing(as_she_is)):
            return None, ()
        edits = tuple(edit for one in faults for edit in one.edits)
        return replace(self.edited(edits), is_plain=True), tuple(one.about for one in faults)

    @property
    def cleared(self) -> "Assessment | None":
        """Her with what hides other faults put right; None where nothing does."""
        return None if self.is_plain else self._clearing[0]

    @property
    def clears(self) -> tuple[tuple[str, str], ...]:
        """Check and subject of each thing put right in that."""
        return () if self.is_plain else self._clearing[1]

    @property
    def plain(self) -> "Assessment":
        """Her by whom to mend what other faults hide."""
        return self.cleared or self

    @worked
    def fit(self) -> Fit:
        """How things fit into her: gaps, room that is left, and whether they come out."""
        least = limit_of("gap-cylinder", self.boat).value
        return fitted(self.boat, self.hull, self.scene, self.fit_room, least)

    @worked
    def fit_findings(self) -> tuple[Finding, ...]:
        """What does not come out, and gaps that are too narrow, worst first."""
        return fit_findings(self.boat, self.fit)

    @worked
    def fit_room(self) -> Room:
        """How wide a cylinder on her middle line may be, place by place."""
        return room([walls(mesh) for _, _, mesh in self.scene.skins], self.hull.envelope)

    @worked
    def works(self) -> Works:
        """Her plant, what feeds it, where she ends up when it fails, and her servos' rods."""
        return works(self)

    @worked
    def bench(self) -> Bench:
        """Her cylinders, what seals them, and how they were tried."""
        return benched(self, self.water)

    @worked
    def bench_findings(self) -> tuple[Finding, ...]:
        """What is not in order on the bench, of cylinders and of plant, worst first."""
        return bench_findings(self.bench, self.works)

    @worked
    def not_entered(self) -> tuple[NotEntered, ...]:
        """What stands on the bench, is not entered, and no finding complains of already."""
        return gaps(self.boat, lambda: self.bench_findings)

    @property
    def bench_in_order(self) -> bool:
        """Whether nothing on the bench must be put right, and all of it has been entered."""
        return not (self.not_entered or any(f.weight == "put right" for f in self.bench_findings))

    @worked
    def checked(self) -> tuple[Finding, ...]:
        """What the checks find, without a slip of one figure that may explain it."""
        return findings(self)

    @worked
    def first_findings(self) -> tuple[Finding, ...]:
        """What is not in order, without what remains when one alone is mended."""
        return self.checked if self.in_order else (*slipped(self), *self.checked)

    @worked
    def findings(self) -> tuple[Finding, ...]:
        """What is not in order, worst first, each with what remains when it alone is mended."""
        return with_rest(self.first_findings, {f: attempted(b) for f, b in self.mended.items()})

    @worked
    def mended(self) -> "dict[Finding, Assessment]":
        """Her with each thing alone mended that the program can mend."""
        return {found: self.edited(found.edits) for found in self.first_findings if found.edits}

    @worked
    def urgent(self) -> int:
        """How many things must be put right of how she floats and dives."""
        return sum(found.weight == "put right" for found in self.first_findings)

    @worked
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

    def edited(self, edits: tuple[Edit, ...]) -> "Assessment":
        """Return her with these changes made."""
        boat, files = apply(self.boat, self.files, edits)
        return Assessment(boat=boat, files=files)

    def in_water(self, kind: str, celsius: float = 15.0, salt: float | None = None) -> "Assessment":
        """Return her in another water.

        Args:
            kind: "fresh", "sea" or "pool".
            celsius: Its temperature [°C].
            salt: Salt in it [g/kg]; left out, 35 at sea and none elsewhere.
        """
        salt = (SEA_SALT if kind == "sea" else 0.0) if salt is None else salt
        asked = {"kind": kind, "temperature": celsius, "salt": salt}
        boat = self.boat.model_copy(update={"water": self.boat.water.model_copy(update=asked)})
        return Assessment(boat=boat, files=self.files)

    def with_piece(self, name: str, /, **fields: object) -> "Assessment":
        """Return her with one piece changed: a part, lead, foam, tank, cylinder, coat or region.

        Args:
            name: What it is called, or its place in the boat file, as "tank[2]".
            fields: Its new fields, SI or text with a unit: ``x=0.61, mass="180 g"``; None: left
                out. Every x is forward from the stern, to the middle.

        Raises:
            BoatError: There is no such piece or field, or she cannot be so.
        """
        return Assessment(boat=changed(self.boat, name, dict(fields)), files=self.files)

    def with_added(self, *pieces: Piece) -> "Assessment":
        """Return her with more pieces, such as ``Lead(name="bar", mass=0.2, x=0.3, z=0.02)``.

        Raises:
            BoatError: She cannot be so.
        """
        return Assessment(boat=added(self.boat, pieces), files=self.files)

    def without(self, name: str) -> "Assessment":
        """Return her without one piece, by its name or its place in the boat file.

        Raises:
            BoatError: There is no such piece, or others need it.
        """
        return Assessment(boat=without(self.boat, name), files=self.files)

    def parts_table(self) -> Table:
        """Return everything that weighs as columns, by the keys of ``weigh --json``."""
        return parts_table(self.masses)

    def dive_table(self, *, up: bool = False) -> Table:
        """Return every moment of the way down, or up, as columns, by the keys of ``dive --json``.

        ``share`` is how much of all the water has come in, ``filling`` how full the tanks are;
        then draughts at her marks, and every figure of a state.
        """
        marks = marks_of(self.boat, self.bodies)
        return dive_table(self.floater, (self.up if up else self.down).moments, marks)

    def findings_table(self) -> Table:
        """Return what is not in order as columns, worst first."""
        return findings_table(self.findings)
