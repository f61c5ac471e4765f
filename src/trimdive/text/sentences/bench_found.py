"""What is not in order with cylinders, seals and the air inside, and what mends it."""

from trimdive.fact import Fact
from trimdive.text.cylinder_words import leak_words, way_name
from trimdive.text.gaps import failsafe_gap
from trimdive.text.plant_figures import bars
from trimdive.text.said import said, says
from trimdive.text.say import Say

BAR = 1e5  # [Pa]


@says("bears-too-little")
def _bears_too_little(
    say: Say, name: str, bears: float, factor: float, depth: float, way: str, cap: str,
    vacuum: Fact | None,
) -> str:  # fmt: skip
    drawn = "" if vacuum is None else f" ({said(say, vacuum)})"
    return (
        f"{name} is safe to {say.bound(bears)} with its factor of {factor:g}, her depth is "
        f"{say.deep(depth)}; weakest: {way_name(way, cap)}{drawn}"
    )


@says("vacuum-takes")
def _vacuum_takes(say: Say, state: Fact, vacuum: float, takes: float) -> str:
    return (
        f"{said(say, state)}, {vacuum / BAR:.2f} bar of vacuum inside take {say.deep(takes)} of it"
    )


@says("enter-cap")
def _enter_cap(say: Say) -> str:
    return "That cap is assumed: enter its thickness and material."


@says("make-stronger")
def _make_stronger(say: Say, is_drawn: bool, bears: float) -> str:
    make = "Close it with its tanks empty, make" if is_drawn else "Make"
    return f"{make} it thicker or shorter, or stay above {say.bound(bears)}."


@says("pushes-caps")
def _pushes_caps(
    say: Say, state: Fact, name: str, load: float, pressure: float, why: Fact, closing: Fact,
    holds: float,
) -> str:  # fmt: skip
    held = f"{said(say, closing)} hold {holds:.0f} N" if holds else "only its ring holds it"
    return (
        f"{name}: {said(say, state)}, {pressure / BAR:.2f} bar inside pushes each cap off with "
        f"{load:.0f} N, and {held} ({said(say, why)})"
    )


@says("hold-caps")
def _hold_caps(say: Say, force: float) -> str:
    rounded = float(f"{force:.2g}")
    return f"Fit tie rods or screws that hold {rounded:.0f} N; or vent the tank outside."


@says("ring-leaks")
def _ring_leaks(
    say: Say, name: str, cap: str, faults: tuple[Fact, ...], groove: float, squeeze: float
) -> str:  # fmt: skip
    all_of = ", and ".join(said(say, fault) for fault in faults)
    return (
        f"{name}, {cap}: its ring is {all_of} (groove {say.write(groove, 'length', 2)} deep, "
        f"{say.share(squeeze)} squeeze)"
    )


@says("take-another-ring")
def _take_another_ring(say: Say) -> str:
    return "Use another ring."


@says("cut-groove")
def _cut_groove(say: Say, depth: float, width: float, ring: str, is_too_deep: bool) -> str:
    groove = f"{say.write(depth, 'length', 2)} deep and {say.length(width)} wide for ring {ring}"
    return f"Make that cap again with a groove {groove}." if is_too_deep else f"Cut it {groove}."


@says("shaft-leaks")
def _shaft_leaks(
    say: Say, name: str, cap: str, seal: str, across: float, bears: float, depth: float
) -> str:  # fmt: skip
    return (
        f"{name}, {cap}: the {seal} on {say.length(across)} is safe to {say.bound(bears)}, her "
        f"depth is {say.deep(depth)}"
    )


@says("seal-shaft")
def _seal_shaft(say: Say) -> str:
    return "Use two with grease between, or a ring in a groove."


@says("leak-test-failed")
def _leak_test_failed(say: Say, name: str, water: float, most: float, limit: float) -> str:
    return f"{name} let in {leak_words(water, most, limit)}"


@says("dry-and-test-again")
def _dry_and_test_again(say: Say) -> str:
    return "Dry it, check its rings and holes, and test it again before she dives."


@says("never-tried")
def _never_tried(say: Say, name: str) -> str:
    return f"{name} was never leak-tested"


@says("draw-a-vacuum")
def _draw_a_vacuum(say: Say) -> str:
    return "Draw a vacuum in it and watch the gauge for half an hour."


@says("tested-with-air")
def _tested_with_air(say: Say, name: str, pressure: float, limit: str) -> str:
    return (
        f"{name} was tested with air at {pressure / BAR:.2g} bar above the air outside, more than "
        f"{limit}"
    )


@says("test-with-water")
def _test_with_water(say: Say) -> str:
    return (
        "Air bursts what breaks. For more pressure fill it with water, or sink it empty; stand "
        "behind a wall and start low."
    )


@says("dry-air-pressed")
def _dry_air_pressed(say: Say, state: Fact, name: str, pressure: float) -> str:
    return (
        f"{said(say, state)}, the air in {name} is {bars(pressure)} over pressure and pushes on "
        "every cap"
    )


@says("leave-air")
def _leave_air(say: Say, air: float) -> str:
    return f"Leave {air * 1e3:.1f} L of free air, or use a smaller tank."


@says("dry-air-drawn")
def _dry_air_drawn(say: Say, state: Fact, name: str, vacuum: float) -> str:
    return (
        f"{said(say, state)}, the air in {name} is {bars(vacuum)} below that outside: every seal "
        "is drawn in"
    )


@says("close-otherwise")
def _close_otherwise(say: Say, has_bag: bool) -> str:
    if has_bag:
        return "Leave more free air, or close her with the bag half full."
    return "Close it with its tanks empty, or leave more free air."


@says("failsafe-unset")
def _failsafe_unset(say: Say, lacks: tuple[str, ...]) -> str:
    return failsafe_gap(lacks).what


@says("set-failsafe")
def _set_failsafe(_: Say) -> str:
    return "Set it on her failsafe and test it, transmitter off; then enter it."
