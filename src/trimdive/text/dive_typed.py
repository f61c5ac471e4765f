"""Reads what is typed after --order, --fill and --steps."""

import difflib
import re
from collections.abc import Sequence
from typing import TYPE_CHECKING

from trimdive.boatfile import Boat
from trimdive.boatfile.boat import FillStep
from trimdive.errors import AskError, UnitError
from trimdive.units import read

if TYPE_CHECKING:
    from trimdive.assessment import Assessment

FEWEST, MOST = 2, 500  # steps of the table [-]
ORDERS = 'Write "together", "NAME first", "NAME last", "NAME ahead by 8 %" or "NAME, NAME".'
FILLS = 'Write steps as "after tank = 8 %; after tank = 100 %, forward tank = 92 %".'
BETWEEN = re.compile(r",(?=[^,=]*=)")  # a comma before the next "name =", not a decimal one
AHEAD = re.compile(r"(?P<name>.+?)\s+(?:ahead|first|leads|leading)\s+by\s+(?P<by>.+)", re.I)


def _tank(boat: Boat, typed: str, where: str) -> str:
    """Return the name of a tank as the boat file has it."""
    wanted = " ".join(typed.split()).casefold()
    names = [tank.name for tank in boat.tanks]
    found = next((name for name in names if name.casefold() == wanted), None)
    if found is None:
        near = difflib.get_close_matches(wanted, names, n=1)
        mend = f"Did you mean '{near[0]}'?" if near else f"Her tanks: {', '.join(names)}."
        raise AskError(f"there is no tank '{' '.join(typed.split())}'", where, mend)
    return found


def _share(text: str, where: str, mend: str) -> float:
    """Return a share from 0 to 1."""
    try:
        share = read(text.strip(), "percent", "%")
    except UnitError:
        raise AskError(f"'{text.strip()}' is not a filling", where, mend) from None
    if not 0 <= share <= 1:
        what = f"a tank cannot be {share * 100:.4g} % full"
        raise AskError(what, where, "Write a share from 0 to 100 %.")
    return share


def _turns(boat: Boat, turns: Sequence[Sequence[str]], where: str) -> dict[str, int]:
    """Return the turn of each tank; those not named fill last, together."""
    found: dict[str, int] = {}
    for k, names in enumerate(turns, 1):
        for typed in names:
            name = _tank(boat, typed, where)
            if name in found:
                raise AskError(f"'{name}' is there twice", where, "Keep one of them.")
            found[name] = k
    return {tank.name: found.get(tank.name, len(turns) + 1) for tank in boat.tanks}


def _with_turns(boat: Boat, turns: dict[str, int]) -> Boat:
    tanks = tuple(tank.model_copy(update={"order": turns[tank.name]}) for tank in boat.tanks)
    return boat.model_copy(update={"tanks": tanks, "fills": ()})


def ahead(boat: Boat, name: str, lead: float, neutral: float) -> Boat:
    """Return her with one tank filling ahead of the others until it is full enough for neutral.

    There it waits until the others are as full; what is left then comes in together.

    Args:
        boat: The boat.
        name: Of that tank.
        lead: How much fuller it is meanwhile [-].
        neutral: How full all tanks are when she is neutral; full, where she cannot be [-].
    """
    others = [tank.name for tank in boat.tanks if tank.name != name]
    top = neutral if lead < neutral <= 1 else 1.0
    rows = (
        {name: lead},
        {name: top, **dict.fromkeys(others, top - lead)},
        dict.fromkeys(others, top),
    )
    alike = _with_turns(boat, {tank.name: 1 for tank in boat.tanks})
    return alike.model_copy(update={"fills": tuple(FillStep(levels=row) for row in rows)})


def ordered(boat: Boat, text: str, neutral: float) -> Boat:
    """Return her with the order of filling as typed after --order; it goes before the file's.

    Args:
        boat: The boat.
        text: As typed.
        neutral: How full all tanks are when she is neutral [-].

    Raises:
        AskError: It cannot be read, or names no tank of hers.
    """
    where, typed = "--order", " ".join(text.split())
    if typed.casefold() in ("together", "all together"):
        return _with_turns(boat, {tank.name: 1 for tank in boat.tanks})
    lead = AHEAD.fullmatch(typed)
    if lead:
        name = _tank(boat, lead["name"], where)
        if len(boat.tanks) < 2:
            raise AskError("she has but one tank", where, "Leave it out.")
        return ahead(boat, name, _share(lead["by"], where, ORDERS), neutral)
    for word in ("first", "last"):
        if typed.casefold().endswith(f" {word}"):
            name = _tank(boat, typed[: -len(word)], where)
            others = [tank.name for tank in boat.tanks if tank.name != name]
            return _with_turns(boat, _turns(boat, [[name]] if word == "first" else [others], where))
    turns = [part.split("+") for part in re.split(r"\s*,\s*(?:then\s+)?|\s+then\s+", typed)]
    if len(turns) == 1 and len(turns[0]) == 1 and len(boat.tanks) > 1:
        _known_or_order(boat, typed)
    return _with_turns(boat, _turns(boat, turns, where))


def _known_or_order(boat: Boat, typed: str) -> None:
    """Refuse a lone word that is no tank with all that can be written."""
    if typed.casefold() not in {tank.name.casefold() for tank in boat.tanks}:
        raise AskError(f"'{typed}' is no order of filling", "--order", ORDERS)


def filled(boat: Boat, text: str) -> Boat:
    """Return her with a table of fillings as typed after --fill; it goes before the file's.

    Raises:
        AskError: It cannot be read, names no tank of hers, or asks for too much.
    """
    steps: list[FillStep] = []
    for part in text.split(";"):
        if not part.strip():
            continue
        levels: dict[str, float] = {}
        for one in BETWEEN.split(part):
            name, sign, filling = one.rpartition("=")
            if not sign:
                raise AskError(f"'{one.strip()}' is not a filling", "--fill", FILLS)
            found = _tank(boat, name, "--fill")
            if found in levels:
                raise AskError(f"'{found}' is there twice", "--fill", "Keep one of them.")
            levels[found] = _share(filling, "--fill", FILLS)
        steps.append(FillStep(levels=levels))
    if not steps:
        raise AskError("it says nothing", "--fill", FILLS)
    _growing(steps)
    return boat.model_copy(update={"fills": tuple(steps)})


def _growing(steps: Sequence[FillStep]) -> None:
    """Refuse a table in which a tank becomes emptier."""
    last: dict[str, float] = {}
    for k, step in enumerate(steps, 1):
        for name, share in step.levels.items():
            if share < last.get(name, 0.0):
                what = f"{name} would be emptier in step {k} than before"
                raise AskError(what, "--fill", "Write fillings that only grow.")
            last[name] = share


def as_typed(her: "Assessment", order: str | None, fill: str | None) -> "Assessment":
    """Return her with filling as typed, or as she is.

    Raises:
        AskError: She has no tank, or it cannot be read.
    """
    from trimdive.assessment import Assessment

    boat = her.boat
    for where, typed in (("--order", order), ("--fill", fill)):
        if typed is not None and not boat.tanks:
            raise AskError("she has no tank", where, "Leave it out.")
    if order is not None:
        boat = ordered(boat, order, her.neutral)
    if fill is not None:
        boat = filled(boat, fill)
    return her if boat is her.boat else Assessment(boat=boat, files=her.files)


def steps_of(steps: int) -> int:
    """Return the steps of the table as typed after --steps.

    Raises:
        AskError: So many cannot be.
    """
    if not FEWEST <= steps <= MOST:
        what = f"{steps} is not a number of steps that it can show"
        raise AskError(what, "--steps", f"Write a number from {FEWEST} to {MOST}.")
    return steps


def in_words(boat: Boat) -> str:
    """Return the planned way of filling, in a sentence."""
    if len(boat.tanks) == 1:
        return f"{boat.tanks[0].name.capitalize()} from blown to full."
    then = ""
    if boat.fills:
        rows = [
            ", ".join(f"{name} to {share * 100:.3g} %" for name, share in step.levels.items())
            for step in boat.fills
        ]
        then = f"{'; then '.join(rows).capitalize()}; then what is left: "
    turns = sorted({tank.order for tank in boat.tanks})
    names = [[tank.name for tank in boat.tanks if tank.order == turn] for turn in turns]
    said = ", then ".join(" and ".join(turn) for turn in names)
    how = "together" if len(turns) == 1 else "one after another"
    return f"{then}{said if then else said.capitalize()}, {how}."
