"""Cylinders, tanks and plant of a new boat: what is answered, and what is guessed of the rest."""

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from trimdive.estimates.starter.figures import number
from trimdive.estimates.starter.tanks import NEUTRAL, PLANTS, USUAL
from trimdive.estimates.starter.wish import usual_cylinders
from trimdive.page.form import Typed, field_of
from trimdive.text.plant_figures import SHORT
from trimdive.text.sentence import beside_field, sentence

if TYPE_CHECKING:
    from collections.abc import Mapping

    from trimdive.boatfile.plant import Kind
    from trimdive.errors import BoatError
    from trimdive.estimates.starter import Starter, Wish
    from trimdive.page.newboat import Sheet

CYLINDERS, TANK, HELD, PLANT = "new-cylinders", "new-tank", "new-held", "new-plant"
FIELDS = {"the tanks": HELD}  # by what an error is about
COUNTS = {"1": "one", "2": "two"}
TANKS: "dict[str, tuple[Kind, ...]]" = {  # kinds of tank, each with the plants that go with it
    "pump tank": ("pump vented", "pump closed"),
    "piston tank": ("piston",),
    "bag": ("pump bag",),
    "open below": ("gas", "snorkel"),
}
USED: "tuple[Kind, ...]" = tuple(PLANTS)


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """One question about cylinders, tanks and plant."""

    name: str
    label: str
    value: str  # as typed or chosen; "" where it is guessed
    guess: str  # what is guessed where nothing is said, and that it is a guess
    options: tuple[tuple[str, str], ...]  # what may be chosen; none where it is typed
    wrong: str  # one sentence; "" where it is right


def answered(sheet: "Sheet", wish: "Wish") -> "Wish":
    """Return a wish with what is answered about cylinders, tanks and plant, and guessed of it."""
    count = "" if wish.kind == "dry" else sheet.chosen(CYLINDERS, COUNTS)
    tank, plant = sheet.chosen(TANK, TANKS), sheet.chosen(PLANT, USED)
    if tank and plant and plant not in TANKS[tank]:
        fits = " or ".join(f"'{SHORT[one]}'" for one in TANKS[tank])
        sheet.wrong[PLANT] = f"It does not go with that tank. Choose {fits}, or another tank."
    kind = next((one for one in USED if one == plant), _plant_of(tank))
    return replace(
        wish,
        cylinders=int(count) if count else None,
        held=sheet.volume(HELD),
        plant=kind,
        is_plant_guessed=not plant and len(TANKS.get(tank, USED)) > 1,
    )


def _plant_of(tank: str) -> "Kind":
    """Return the plant that is guessed for a tank."""
    return TANKS[tank][0] if tank else USUAL


def _tank_of(plant: str) -> str:
    """Return the tank that is guessed for a plant."""
    return next((tank for tank, plants in TANKS.items() if plant in plants), next(iter(TANKS)))


def plainly(wish: "Wish") -> "Wish":
    """Return a wish without what was answered about cylinders and tanks."""
    return replace(wish, cylinders=None, held=None)


def field_and_why(error: "BoatError", wish: "Wish") -> tuple[str, str]:
    """Return the field that an error is about and what is said beside it, where guesses would do.

    Args:
        error: Why she cannot be as it was answered.
        wish: What is told of her.
    """
    if error.where in FIELDS:
        return FIELDS[error.where], beside_field(error)
    usual = COUNTS[str(usual_cylinders(wish.length))]
    return CYLINDERS, f"{sentence(error.what)} Choose {usual}."


def guesses(wish: "Wish | None", starter: "Starter | None", typed: Typed) -> dict[str, str]:
    """Return what is guessed of each question, by its field, and that it is a guess.

    Args:
        wish: What is told of her; None before her length is.
        starter: Her, as far as she can be made of that.
        typed: What the fields held.
    """
    tank = field_of(typed, TANK)
    count = COUNTS[str(usual_cylinders(wish.length))] if wish else ""
    held = starter and guessed_water(starter)
    found = {
        CYLINDERS: count,
        TANK: _tank_of(field_of(typed, PLANT)),
        HELD: held,
        PLANT: SHORT[_plant_of(tank if tank in TANKS else "")],
    }
    return {name: f"guess: {guess}" if guess else "guess" for name, guess in found.items()}


def held_water(starter: "Starter") -> str:
    """Return the water in her full tanks as it was answered, or as it is guessed."""
    held = starter.plan.wish.held
    if held is None:
        return guessed_water(starter)
    return number(held, "volume", starter.boat.units.own)


def guessed_water(starter: "Starter") -> str:
    """Return the water that is guessed for her full tanks: what she needs, and some to spare."""
    return number(starter.litres / NEUTRAL, "volume", starter.boat.units.own)


def is_short(starter: "Starter") -> bool:
    """Return whether the tanks that were asked for hold less than she needs to dive."""
    held = starter.plan.wish.held
    return held is not None and held < starter.litres


def doubts(starter: "Starter") -> dict[str, str]:
    """Return what looks odd about what is answered, and may stand, by its field."""
    if not is_short(starter):
        return {}
    needs = number(starter.litres, "volume", starter.boat.units.own)
    return {HELD: f"She needs about {needs} to dive. With less she stays up, her tanks full."}


def questions(
    typed: Typed, wrong: "Mapping[str, str]", guessed: "Mapping[str, str]"
) -> list[Question]:
    """Return what is asked of cylinders, tanks and plant."""
    asked: tuple[tuple[str, str, tuple[tuple[str, str], ...]], ...] = (
        (CYLINDERS, "Cylinders", tuple(COUNTS.items())),
        (TANK, "Ballast tank", tuple((one, one) for one in TANKS)),
        (HELD, "Water in full tanks", ()),
        (PLANT, "Ballast plant", tuple((one, SHORT[one]) for one in USED)),
    )
    return [
        Question(
            name=name, label=label, value=field_of(typed, name), guess=guessed[name],
            options=options, wrong=wrong.get(name, ""),
        )
        for name, label, options in asked
    ]  # fmt: skip
