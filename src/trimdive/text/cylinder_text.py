"""One cylinder on the bench, as blocks: what its parts bear, what presses inside, what seals it."""

from collections.abc import Iterator
from math import isfinite
from typing import TYPE_CHECKING

from trimdive.data import constant
from trimdive.hydrostatics.equilibrium.named import bound, share
from trimdive.text.cylinder_words import part_name
from trimdive.text.layout import Block, Cells, heading, line, table
from trimdive.text.said import said
from trimdive.text.say import Say
from trimdive.text.sentence import capital

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.bench import CapBench, CylinderBench, RingBench, Through

BAR = 1e5  # [Pa]


def cylinder_text(
    her: "Assessment", one: "CylinderBench", *, whole: bool = True
) -> Iterator[Block]:
    """Yield one cylinder part by part, or only what presses inside it and what seals it."""
    write = her.boat.units.write
    yield heading(capital(one.name))
    outside, wall, between = (
        write(value, "length") for value in (one.outside, one.wall, one.between)
    )
    measures = f"{one.material}, {outside} outside, wall {wall}, {between} between its caps"
    yield line(f"{capital(measures)}; {_held(her, one)}.")
    if whole:
        rows = [
            [
                part_name(part),
                bound(her.boat, part.gives_way),
                f"{part.factor:g}",
                bound(her.boat, part.depth),
            ]
            for part in one.strength.parts
        ]
        yield heading("Part by part")
        yield table(["part", "failure depth", "factor", "safe depth"], rows, right=(1, 2, 3))
        yield line(_buckles(her, one))
    yield from _pressed(her, one)
    yield from _sealed(her, one)
    if whole:
        yield from _noted(her, one)


def within_text(her: "Assessment", one: "CylinderBench") -> Iterator[Block]:
    """Yield what is to be known of a cylinder beside its measures and what its parts bear."""
    yield line(f"{capital(_held(her, one))}.")
    yield from _pressed(her, one)
    yield from _sealed(her, one, bears=False)
    yield heading("How it is calculated")
    yield line(_buckles(her, one))
    yield from _noted(her, one)


def _held(her: "Assessment", one: "CylinderBench") -> str:
    return f"caps held by {said(Say(her.boat), one.closing)}"


def _pressed(her: "Assessment", one: "CylinderBench") -> Iterator[Block]:
    """Yield the pressures inside, and how hard each pushes on the caps."""
    say = Say(her.boat)
    for inside in one.inside:
        load = max(inside.pressure, 0.0) / max(one.push.pressure, 1e-9) * one.push.load
        does = f"pushes on each cap with {load:.0f} N" if inside.pressure > 0 else "pulls them on"
        state, reason = said(say, inside.state), said(say, inside.why)
        yield line(f"{capital(state)}: {_bar(inside.pressure)}, {does}; {reason}.")


def _noted(her: "Assessment", one: "CylinderBench") -> Iterator[Block]:
    """Yield what is uncertain, and what was taken where nothing is entered."""
    say = Say(her.boat)
    if texts := [*one.strength.doubts, *one.assumed]:
        yield line(f"Note: {'; '.join(said(say, one) for one in texts)}.")


def _sealed(
    her: "Assessment", one: "CylinderBench", *, bears: bool = True
) -> Iterator[Block]:  # fmt: skip
    """Yield the rings of its caps, and what goes through them.

    Args:
        her: The boat.
        one: The cylinder.
        bears: Say too how deep each seal bears.
    """
    rings = [(end, ring) for end in one.caps for ring in end.rings]
    if rings:
        yield heading("Rings")
        head = ["ring", "number", "groove", "squeeze", "stretch", "fill", ""]
        yield table(head, [_ring(her, end, ring) for end, ring in rings], right=(1, 4, 5))
        if any(ring.ring.status == "from memory" for _, ring in rings):
            yield line("These ring sizes are from memory: measure the ring you buy.")
    through = [(end, one_through) for end in one.caps for one_through in end.through]
    if through:
        yield heading("Through the caps")
        head = ["cap", "", "sealed by", "safe depth", "friction", "in a vacuum"]
        rows = [_through(her, end, hole) for end, hole in through]
        deep_at = head.index("safe depth")
        kept = [k for k in range(len(head)) if bears or k != deep_at]
        yield table(
            [head[k] for k in kept],
            [[row[k] for k in kept] for row in rows],
            right=[at for at, k in enumerate(kept) if head[k] in ("", "safe depth", "friction")],
        )


def _through(her: "Assessment", end: "CapBench", hole: "Through") -> Cells:
    across = her.boat.units.write(hole.across, "length")
    if hole.seal is None:
        return [end.name, across, "not entered", "", "", ""]
    rubs = hole.seal.rubs(hole.across)
    return [
        end.name, across, hole.seal.name, bound(her.boat, hole.depth),
        f"{rubs:.1f} N" if rubs else "does not move", hole.seal.vacuum,
    ]  # fmt: skip


def _buckles(her: "Assessment", one: "CylinderBench") -> str:
    """Return what the formulas say of its collapse, side by side."""
    weight = her.floater.density * constant("gravity")
    bears = one.strength
    single = f"{bears.single / weight:.0f} m" if isfinite(bears.single) else "nothing"
    return (
        f"If it were round it would buckle into {bears.round.lobes} lobes at "
        f"{bears.round.pressure / weight:.1f} m; without support from its ends at "
        f"{bears.long / weight:.1f} m; the single formula of 1934 says {single}."
    )


def _bar(pressure: float) -> str:
    return f"{abs(pressure) / BAR:.2f} bar {'above' if pressure >= 0 else 'below'} the air outside"


def _ring(her: "Assessment", end: "CapBench", ring: "RingBench") -> Cells:
    fitted, write = ring.fitted, her.boat.units.write
    say = Say(her.boat)
    says = ", ".join(said(say, fault) for fault in ring.faults) or "seals"
    return [
        end.name,
        ring.ring.number,
        f"{write(fitted.cut, 'length', 2)} deep, {write(fitted.width, 'length')} wide",
        f"{share(fitted.squeeze.usual)} ({share(fitted.squeeze.least)} to "
        f"{share(fitted.squeeze.most)})",
        share(fitted.stretch.usual, 1),
        share(fitted.fill.most),
        says,
    ]
