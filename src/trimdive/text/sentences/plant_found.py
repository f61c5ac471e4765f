"""The words for a plant that is not in order, and for what mends it."""

from trimdive.boatfile.plant import Kind
from trimdive.text.fills import fills_to
from trimdive.text.plant_figures import bars, seconds
from trimdive.text.said import says
from trimdive.text.say import Say
from trimdive.units import write

FASTER: dict[Kind, str] = {  # other plants have a pump
    "gas": "Give it a larger vent, more area below, or a larger jet.",
    "snorkel": "Give it a stronger air pump, or a larger vent.",
    "piston": "Use a faster motor or a screw with more lead.",
}


@says("stays-down-unpowered")
def _stays_down_unpowered(say: Say, reserve: float, depth: float, from_depth: float) -> str:
    rises = f"she comes up by herself from {say.deep(from_depth)} at most"
    return (
        f"without power she is {say.mass(abs(reserve))} {'heavy' if reserve <= 0 else 'light'} at "
        f"{say.deep(depth)}: {rises if from_depth > 0 else 'she stays down from any depth'}"
    )


@says("trim-lighter")
def _trim_lighter(say: Say, by: float) -> str:
    return (
        f"Trim her {say.mass(by)} lighter dived, give her a weight to drop, or a valve that opens "
        "by a spring."
    )


@says("drop-by-own-battery")
def _drop_by_own_battery(say: Say, name: str, weight: float) -> str:
    return (
        f"{name} can be dropped, {say.mass(weight)} under water, but not without power: give the "
        "failsafe a battery of its own."
    )


@says("dropped-too-little")
def _dropped_too_little(say: Say, name: str, weight: float) -> str:
    return f"Give her more to drop: {name} weighs {say.mass(weight)} under water."


@says("slow-to-fill")
def _slow_to_fill(_: Say, name: str, time: float) -> str:
    return f"{name} takes {seconds(time)} to fill at the surface"


@says("slow-to-empty")
def _slow_to_empty(say: Say, name: str, time: float, depth: float) -> str:
    return f"{name} takes {seconds(time)} to empty at {say.deep(depth)}"


@says("make-it-faster")
def _make_it_faster(_: Say, kind: Kind, times: float) -> str:
    pump = f"Use a pump with {times:.1f} times the flow, or a wider hose."
    return FASTER.get(kind, pump)


@says("tank-not-full")
def _tank_not_full(
    say: Say, name: str, filling: float, pressure: float, wanted: float | None
) -> str:
    neutral = "even full it would not take her under"
    if wanted is not None:
        neutral = f"she is neutral at {say.share(wanted)}"
    return f"{fills_to(name, filling)}, against {bars(pressure)} of pressed air; {neutral}"


@says("holds-enough")
def _holds_enough(_: Say) -> str:
    return "Never wait for a full tank: it holds enough."


@says("pump-ends-later")
def _pump_ends_later(_: Say, pressure: float) -> str:
    return (
        f"Use a pump that ends at {bars(pressure)} or more, a larger tank, or vent it to the dry "
        "space."
    )


@says("press-harder")
def _press_harder(_: Say, is_piston: bool, pressure: float, air: float | None) -> str:
    drive = "piston drive" if is_piston else "pump"
    leave = "" if air is None else f"leave {air * 1e3:.1f} L of free air, "
    return (
        f"Use a {drive} that presses against {bars(pressure)} and more, {leave}or use a smaller "
        "tank."
    )


@says("few-blows")
def _few_blows(say: Say, name: str, blows: float, depth: float) -> str:
    count = f"{blows:.0f} blow{'' if blows == 1 else 's'}"
    return f"the bottle of {name} is good for {count} at {say.deep(depth)}"


@says("fill-bottle")
def _fill_bottle(_: Say, blows: float, gas: float | None) -> str:
    each = "more" if gas is None else write(gas, "mass", "g", 1)
    return f"Fill it for {blows:.0f}: {each} a blow; count them, and go home before the last."


@says("gas-burns")
def _gas_burns(_: Say, gas: str) -> str:
    return f"{gas} burns: leaked into a hull with motors and batteries it explodes"


@says("take-another-gas")
def _take_another_gas(_: Say) -> str:
    return "Use a gas that does not; see what local rules and your club allow."


@says("drifts-unpowered")
def _drifts_unpowered(
    say: Say, name: str, depth: float, minute: float, end: float, grows_heavier: bool
) -> str:
    grows = f"{say.mass(minute)} {'heavier' if grows_heavier else 'lighter'} a minute"
    return (
        f"{name} has no valve: standing at {say.deep(depth)} she grows {grows}, "
        f"{say.mass(end)} in the end"
    )


@says("put-in-valve")
def _put_in_valve(_: Say) -> str:
    return "Put a valve in its hose, or use a hose pump."
