"""What is done when something fails, or not, and where she ends up."""

from trimdive.fact import Fact
from trimdive.hydrostatics.equilibrium import named
from trimdive.text.said import said, says
from trimdive.text.say import Say


@says("empty-already")
def _empty_already(say: Say) -> str:
    return "the tanks are empty already"


@says("all-emptied")
def _all_emptied(say: Say) -> str:
    return "tanks emptied"


@says("none-emptied")
def _none_emptied(say: Say) -> str:
    return "no tank can be emptied completely"


@says("some-emptied")
def _some_emptied(say: Say, failed: tuple[str, ...]) -> str:
    return f"tanks emptied except that of {' and '.join(failed)}"


@says("weight-dropped")
def _weight_dropped(say: Say, mass: float) -> str:
    return f"{_mass(say, mass)} dropped"


@says("nothing-done")
def _nothing_done(say: Say) -> str:
    return "no action"


@says("not-too-deep")
def _not_too_deep(say: Say) -> str:
    return "–"


@says("begun-after")
def _begun_after(say: Say, does: Fact, waits: float) -> str:
    return f"{said(say, does)}, begun after {waits:g} s"


@says("without-power")
def _without_power(say: Say) -> str:
    return "only spring-loaded parts work"


@says("failsafe-drops")
def _failsafe_drops(say: Say, mass: float) -> str:
    return f"the failsafe drops {_mass(say, mass)}"


@says("valve-stuck")
def _valve_stuck(say: Say, name: str, does: Fact) -> str:
    return f"valve of {name} stuck: {said(say, does)}"


@says("planes-stuck")
def _planes_stuck(say: Say, does: Fact) -> str:
    return f"planes stuck, motor off: {said(say, does)}"


@says("no-action-set")
def _no_action_set(say: Say) -> str:
    return "no action set"


@says("she-ends")
def _she_ends(
    say: Say, ends: str, grams: float, deep: float, depth: float, trim: float, heel: float
) -> str:
    if ends == "not entered":
        return "not known"
    lies, mass = _lies(say, trim, heel), _mass(say, grams)
    if ends == "hovering":
        return f"hovering at {say.deep(depth)}, {named.weight(say.boat, -deep)}, {lies}"
    if ends == "under":
        return f"on the bottom, {mass} heavy, {lies}"
    before = f" ({_mass(say, deep)} at {say.deep(depth)})"
    return f"on top, {mass} light{before if depth > 0 else ''}, {lies}"


@says("fails-and-ends")
def _fails_and_ends(
    say: Say, failure: str, starts: tuple[str, ...], does: Fact, ending: Fact
) -> str:  # fmt: skip
    return (
        f"{failure} while {' or '.join(starts)}: {said(say, does)}, and she ends "
        f"{said(say, ending)}"
    )


@says("let-her-come-up")
def _let_her_come_up(say: Say) -> str:
    return "Set a failsafe that brings her up, give her a drop weight, or trim her lighter dived."


def _lies(say: Say, trim: float, heel: float) -> str:
    """Return her attitude by her trim, bow down, and her heel to starboard [rad]."""
    end, side = say.trim(trim), named.heel(say.boat, heel)
    parts = [] if end == "level" else [f"trim {end}"]
    parts += [] if side == "upright" else [f"heel {side}"]
    return ", ".join(parts) or "level"


def _mass(say: Say, value: float) -> str:
    return say.write(abs(value), "mass")
