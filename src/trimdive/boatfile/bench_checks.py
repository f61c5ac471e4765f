"""What cannot be right in how a cylinder is made, closed and tested."""

from collections.abc import Iterator

from trimdive.boatfile.bench import CapFitted, Closing, RingFitted
from trimdive.boatfile.boat import Boat
from trimdive.boatfile.checks import unknown
from trimdive.boatfile.messages import Mistake
from trimdive.boatfile.pieces import Cylinder
from trimdive.boatfile.places import Path
from trimdive.data import constant, table

Mistakes = Iterator[Mistake]
CAPS = ("caps", "aft_cap", "fore_cap")


def bench_mistakes(boat: Boat) -> Mistakes:
    """Yield what is wrong with cylinders' caps, rings and closings, and with leak tests."""
    for number, vessel in enumerate(boat.cylinders):
        path: Path = ("cylinder", number)
        yield from _sizes(path, vessel)
        for name in CAPS:
            if (cap := getattr(vessel, name)) is not None:
                yield from _cap((*path, name), cap, vessel)
        if vessel.closing is not None:
            yield from _closing((*path, "closing"), vessel.closing)
    names = [vessel.name for vessel in boat.cylinders]
    for number, test in enumerate(boat.leak_tests):
        where: Path = ("leak_test", number)
        if test.cylinder not in names:
            yield unknown((*where, "cylinder"), "cylinder", test.cylinder, names)
        if test.gauge_start == 0:
            what = "a gauge that starts at zero shows nothing"
            yield Mistake((*where, "gauge_start"), what, "Pump it up or draw a vacuum first.")
        for field in ("gauge_start", "gauge_end"):
            if getattr(test, field) <= -(test.barometer_start or constant("atmosphere")):
                what = "a vacuum deeper than none of the air left cannot be"
                yield Mistake((*where, field), what, "Read it again; check the gauge's unit.")


def _sizes(path: Path, vessel: Cylinder) -> Mistakes:
    if vessel.between is not None and vessel.between > vessel.length:
        what = "the length between what holds it round is more than its whole length"
        yield Mistake((*path, "between"), what, "Measure it between the caps or rings.")
    if vessel.out_of_round is not None and vessel.out_of_round > vessel.outside / 5:
        what = "largest less smallest diameter is more than a fifth of it"
        yield Mistake((*path, "out_of_round"), what, "Measure both diameters again.")


def _cap(path: Path, cap: CapFitted, vessel: Cylinder) -> Mistakes:
    strong = [row["material"] for row in table("strengths")]
    if cap.material is not None and cap.material not in strong:
        yield unknown((*path, "material"), "material of known strength", cap.material, strong)
    for number, hole in enumerate(cap.holes):
        if hole.out + hole.bore / 2 >= vessel.outside / 2:
            what = "the hole reaches over the edge of the cap"
            yield Mistake((*path, "holes", number), what, "Measure from the cap's middle.")
    for number, ring in enumerate(cap.rings):
        yield from _ring((*path, "rings", number), ring)


def _ring(path: Path, ring: RingFitted) -> Mistakes:
    known = [row["key"] for row in table("o_rings")]
    if ring.number is not None and ring.number not in known:
        yield unknown((*path, "number"), "ring", ring.number, known)
    if ring.number is None and (ring.inside is None or ring.section is None):
        what = "the ring has no number, and not both of inside and section"
        mend = "Write its number, or measure both."
        beside = "Enter its number, or its inside diameter and section as measured."
        yield Mistake(path, what, mend, fields=("number",), beside=beside)


def _closing(path: Path, closing: Closing) -> Mistakes:
    if closing.holds is not None or closing.by == "nothing":
        return
    wanted = ("overlap",) if closing.by == "glue" else ("count", "diameter")
    for name in wanted:
        if not getattr(closing, name):
            what = f"{closing.by} hold it, and their {name} is not entered"
            mend, beside = f"Add {name}, or holds as tried.", "Enter it, or what it held as tried."
            yield Mistake((*path, name), what, mend, beside=beside)
