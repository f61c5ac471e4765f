"""Which ring for a bore, a tube or the face of a cap, the groove to cut, and whether it seals.

Three kinds: ``plug``, a groove around a plug that goes into a bore; ``sleeve``, a groove inside a
cap that goes over a tube; ``face``, a groove in a flat face that is drawn against another.

Sources: [as568], [rubber-rings-1967]; grooves in data/glands.csv, rules in data/seal_rules.csv.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from math import isfinite, pi, tan
from typing import Literal

from trimdive.errors import GeometryError
from trimdive.fact import Fact, fact
from trimdive.records import record
from trimdive.vessels.seals.rings import (
    Gland,
    Ring,
    fill,
    gland,
    glands,
    rings,
    rule,
    squeeze,
    thinned,
)

Place = Literal["plug", "sleeve", "face"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Between:
    """A figure with its least and most at the worst of tolerances."""

    least: float  # [-]
    usual: float  # [-]
    most: float  # [-]


@record
class Seal:
    """A ring in its groove."""

    ring: Ring
    place: Place
    gland: Gland
    faced: float  # diameter of the bore or tube it seals on; of a face the groove's middle [m]
    bottom: float  # diameter of the groove's bottom; of a face its inner wall [m]
    cut: float  # how deep to cut, from the plug's, the cap's or the face's own surface [m]
    chamfer: float  # length of the lead-in at 15 to 20° from the axis; 0 for a face [m]
    squeeze: Between
    stretch: Between
    fill: Between
    faults: tuple[Fact, ...]  # what breaks a rule; none is a good seal

    @property
    def width(self) -> float:
        """Return the width of the groove [m]."""
        return self.gland.width

    @property
    def outer(self) -> float:
        """Return the diameter of the outer wall of a groove in a face [m]."""
        return self.bottom + 2 * self.gland.width

    @property
    def is_good(self) -> bool:
        """Return whether it keeps every rule at the worst of tolerances."""
        return not self.faults


def _positive(name: str, value: float, where: str) -> None:
    if not (isfinite(value) and value > 0):
        raise GeometryError(f"its {name} is {value * 1e3:g} mm", where, "Give a number above 0.")


def _stretched(one: Ring, around: float, spread: float) -> Between:
    """Return the stretch of a ring on something round."""
    small, large = one.inside - one.inside_spread, one.inside + one.inside_spread
    return Between(
        least=(around - spread - large) / large,
        usual=(around - one.inside) / one.inside,
        most=(around + spread - small) / small,
    )


def _squeezed(one: Ring, room: Gland, spread: float, stretch: Between) -> Between:
    """Return the squeeze; the thinnest ring, most stretched, in the deepest groove is the least."""
    thin = (one.section - one.section_spread) * (1 - thinned(stretch.most))
    usual = one.section * (1 - thinned(stretch.usual))
    thick = one.section + one.section_spread
    return Between(
        least=squeeze(thin, room.depth_most + spread),
        usual=squeeze(usual, room.depth),
        most=squeeze(thick, room.depth_least - spread),
    )


def _filled(one: Ring, room: Gland, spread: float) -> Between:
    """Return the fill; the thickest ring, not stretched, in the shallowest groove is the most."""
    thin, thick = one.section - one.section_spread, one.section + one.section_spread
    return Between(
        least=fill(thin, room.depth_most + spread, room.width + room.width_spread),
        usual=fill(one.section, room.depth, room.width),
        most=fill(thick, room.depth_least - spread, room.width - room.width_spread),
    )


def _faults(place: Place, pressed: Between, stretch: Between, filled: Between) -> tuple[Fact, ...]:
    """Return the rules that are broken."""
    least = 0.0 if place == "face" else rule("stretch-least")
    tried = [
        (stretch.usual < least - 1e-9, fact("ring-loose", stretch=stretch.usual)),
        (stretch.usual > rule("stretch-most"), fact("ring-too-small", stretch=stretch.usual)),
        (pressed.least < rule("squeeze-least"), fact("squeeze-too-small", least=pressed.least)),
        (pressed.usual > rule("squeeze-most"), fact("squeeze-too-large", squeeze=pressed.usual)),
        (filled.most > rule("fill-most"), fact("groove-too-full", fill=filled.most)),
    ]
    return tuple(fault for is_broken, fault in tried if is_broken)


def _lead_in(one: Ring, room: Gland) -> float:
    """Return the length of the chamfer that the ring needs to slide in without being cut."""
    pressed = one.section - room.depth_least
    return rule("chamfer-length") * pressed / tan(rule("chamfer-angle"))


def radial_seal(
    one: Ring, place: Literal["plug", "sleeve"], faced: float, spread: float, clearance: float
) -> Seal:
    """Return a ring around a plug in a bore, or inside a cap over a tube.

    Args:
        one: The ring.
        place: ``plug`` or ``sleeve``.
        faced: Diameter of the bore, or outside diameter of the tube [m].
        spread: ± of that diameter [m].
        clearance: Gap between plug and bore, or cap and tube, on each side [m].

    Raises:
        GeometryError: A measure makes no sense, or there is no groove for such a ring.
    """
    room = gland(one.section, "radial")
    _positive("diameter", faced, place)
    if not (0 <= clearance < room.depth_least and 0 <= spread < room.depth_least):
        said = f"gap {clearance * 1e3:g} mm, ± {spread * 1e3:g} mm"
        raise GeometryError(said, place, f"Give 0 to {room.depth_least * 1e3:.2f} mm.")
    sign = -1 if place == "plug" else 1
    bottom = faced + sign * 2 * room.depth
    _positive("groove's bottom", bottom, place)
    around, loose = (bottom, 0.0) if place == "plug" else (faced, spread)
    stretch = _stretched(one, around, loose)
    pressed = _squeezed(one, room, spread / 2, stretch)
    filled = _filled(one, room, spread / 2)
    return Seal(
        ring=one,
        place=place,
        gland=room,
        faced=faced,
        bottom=bottom,
        cut=room.depth - clearance,
        chamfer=_lead_in(one, room),
        squeeze=pressed,
        stretch=stretch,
        fill=filled,
        faults=_faults(place, pressed, stretch, filled),
    )


def face_seal(one: Ring) -> Seal:
    """Return a ring in a groove of a flat face, against pressure from outside.

    Its groove's inner wall is as large as the ring, which water from outside presses against it.

    Args:
        one: The ring.

    Raises:
        GeometryError: There is no groove for such a ring.
    """
    room = gland(one.section, "face")
    stretch = _stretched(one, one.inside, 0.0)
    pressed = _squeezed(one, room, 0.0, stretch)
    filled = _filled(one, room, 0.0)
    return Seal(
        ring=one,
        place="face",
        gland=room,
        faced=one.inside + room.width,
        bottom=one.inside,
        cut=room.depth,
        chamfer=0.0,
        squeeze=pressed,
        stretch=stretch,
        fill=filled,
        faults=_faults("face", pressed, stretch, filled),
    )


def _best(found: Iterable[Seal]) -> tuple[Seal, ...]:
    """Return of every thickness the good seal nearest to the stretch aimed at, thickest first."""
    best: dict[float, Seal] = {}
    good = (seal for seal in found if seal.is_good)
    for seal in sorted(good, key=lambda seal: abs(seal.stretch.usual - rule("stretch-good"))):
        best.setdefault(seal.ring.section, seal)
    return tuple(best[section] for section in sorted(best, reverse=True))


def _for(place: Literal["plug", "sleeve"], faced: float, spread: float, gap: float) -> list[Seal]:
    sections = {one.section for one in glands() if one.kind == "radial"}
    narrow = min(sections) * 4
    if faced <= narrow:
        said = f"no ring seals on {faced * 1e3:g} mm"
        raise GeometryError(said, place, f"Make it more than {narrow * 1e3:.1f} mm.")
    found: list[Seal] = []
    for one in rings():
        if any(abs(one.section - section) < 1e-9 for section in sections):
            deep = gland(one.section, "radial").depth
            if place == "sleeve" or faced > 2 * deep:
                found.append(radial_seal(one, place, faced, spread, gap))
    return found


def _no_ring(
    place: Literal["plug", "sleeve"], faced: float, spread: float, gap: float
) -> GeometryError:
    """Return that no ring does, and what would: measure closer, or the diameter of one."""
    said = f"no ring seals on {faced * 1e3:.2f} ± {spread * 1e3:.2f} mm"
    what = "bore" if place == "plug" else "tube"
    for tenths in range(9, -1, -1):
        closer = spread * tenths / 10
        best = _best(_for(place, faced, closer, gap))
        if spread and best:
            within = f"± {closer * 1e3:.2f} mm" if closer else "the groove's own tolerance"
            number = best[0].ring.number
            mend = f"Measure or turn the {what} to within {within}: then ring {number} does."
            return GeometryError(said, place, mend)
    aim = rule("stretch-good")
    tried = _for(place, faced, 0.0, gap)
    near = min(tried, key=lambda seal: abs(seal.stretch.usual - aim))
    around = near.ring.inside * (1 + aim)
    wanted = around + 2 * near.gland.depth if place == "plug" else around
    mend = (
        f"The nearest is {near.ring.number}, which is {100 * near.stretch.usual:.1f} % stretched "
    )
    mend += (
        f"and pressed {100 * near.squeeze.usual:.0f} %; it suits a {what} of {wanted * 1e3:.2f} mm."
    )
    return GeometryError(said, place, mend)


def seals_for(
    place: Literal["plug", "sleeve"],
    faced: float,
    spread: float = 0.0,
    clearance: float | None = None,
) -> tuple[Seal, ...]:
    """Return the rings that seal a plug in a bore or a cap over a tube, the thickest first.

    Of every thickness the one whose stretch is nearest to what is aimed at; thick rings forgive
    more, thin ones leave more wall.

    Args:
        place: ``plug`` or ``sleeve``.
        faced: Diameter of the bore, or outside diameter of the tube [m].
        spread: ± of that diameter as measured [m].
        clearance: Gap on each side [m]; None takes ``seal_rules.csv``.

    Raises:
        GeometryError: No ring does; the nearest is told.
    """
    _positive("diameter", faced, place)
    gap = rule("clearance") if clearance is None else clearance
    best = _best(_for(place, faced, spread, gap))
    if not best:
        raise _no_ring(place, faced, spread, gap)
    return best


def face_seals_around(least: float) -> tuple[Seal, ...]:
    """Return the smallest ring of every thickness that lies in a face around something.

    Args:
        least: Least diameter of the groove's inner wall: the opening and what must stand between
            it and the groove [m].

    Raises:
        GeometryError: It is larger than every ring.
    """
    _positive("opening", least, "face")
    known = {one.section for one in glands() if one.kind == "face"}
    smallest: dict[float, Ring] = {}
    for one in sorted(rings(), key=lambda one: one.inside):
        if one.inside >= least and any(abs(one.section - section) < 1e-9 for section in known):
            smallest.setdefault(one.section, one)
    if not smallest:
        most = max(one.inside for one in rings()) * 1e3
        said = f"no ring goes around {least * 1e3:g} mm"
        raise GeometryError(said, "face", f"Stay within {most:.0f} mm.")
    return tuple(face_seal(smallest[section]) for section in sorted(smallest, reverse=True))


def closing_force(seal: Seal) -> float:
    """Return the force that closes a ring in a face: π D d E (1.25 C^1.5 + 50 C⁶) [N].

    At the most of its squeeze. A ring in a bore or over a tube needs none.

    Args:
        seal: The seal.

    Source:
        [rubber-rings-1967], from memory; give or take 30 % with the rubber.
    """
    if seal.place != "face":
        return 0.0
    return closing_line(seal.ring.section, seal.squeeze.most) * pi * seal.faced


def closing_line(section: float, pressed: float) -> float:
    """Return the force that closes a metre of ring: d E (1.25 C^1.5 + 50 C⁶) [N/m].

    Args:
        section: Of the ring [m].
        pressed: Squeeze C [-].

    Source:
        [rubber-rings-1967], from memory.
    """
    share = max(pressed, 0.0)
    return section * rule("rubber-modulus") * (1.25 * share**1.5 + 50 * share**6)


def cut_seal(
    one: Ring, place: Place, faced: float, depth: float, width: float, gap: float, spread: float
) -> Seal:
    """Return a ring in a groove as it was cut.

    Args:
        one: The ring.
        place: ``plug``, ``sleeve`` or ``face``.
        faced: Diameter of the bore or tube it seals on; of a face the groove's middle [m].
        depth: Of the groove, from the cap's own surface [m].
        width: Of the groove [m].
        gap: Between plug and bore, or cap and tube, on each side; 0 for a face [m].
        spread: ± of the groove's depth as measured [m].

    Raises:
        GeometryError: A measure makes no sense.
    """
    for name, value in (("diameter", faced), ("groove's depth", depth), ("width", width)):
        _positive(name, value, place)
    room = Gland(
        kind="face" if place == "face" else "radial",
        section=one.section,
        depth_least=max(depth + gap - spread, 1e-6),
        depth_most=depth + gap + spread,
        width=width,
        width_spread=spread,
    )
    sign = {"plug": -1.0, "sleeve": 1.0, "face": 0.0}[place]
    bottom = faced + sign * 2 * (depth + gap) if place != "face" else faced - width
    _positive("groove's bottom", bottom, place)
    around = one.inside if place == "face" else bottom if place == "plug" else faced
    stretch = _stretched(one, around, 0.0)
    pressed = _squeezed(one, room, 0.0, stretch)
    filled = _filled(one, room, 0.0)
    return Seal(
        ring=one,
        place=place,
        gland=room,
        faced=faced,
        bottom=bottom,
        cut=depth,
        chamfer=0.0 if place == "face" else _lead_in(one, room),
        squeeze=pressed,
        stretch=stretch,
        fill=filled,
        faults=_faults(place, pressed, stretch, filled),
    )
