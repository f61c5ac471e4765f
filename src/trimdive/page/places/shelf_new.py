"""The new boat as it is typed: what is asked, and how she grows."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from trimdive.assessment import Assessment
from trimdive.errors import BoatError, TrimdiveError
from trimdive.estimates.starter.figures import number
from trimdive.page import newtanks
from trimdive.page.form import Typed, field_of
from trimdive.page.newboat import (
    FIGURES,
    GIRTHS,
    SECTIONS,
    SHAPES,
    UNITS,
    WALL_SPOTS,
    Begun,
    Way,
    begun,
    hulls,
    made,
)
from trimdive.page.small import Mark, growing_picture
from trimdive.text.sentence import beside_field

if TYPE_CHECKING:
    from trimdive.estimates.starter import Starter


MISSING = "Not entered yet."
TWICE = "This name is on the shelf already. Enter another."


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """One field of a new boat."""

    name: str
    label: str
    value: str  # as typed
    hint: str
    wrong: str  # one sentence; "" where it is right
    at: str = ""  # name of the field for its place; "" where it has none
    at_value: str = ""
    at_hint: str = ""
    at_wrong: str = ""
    shape: str = ""  # name of the field for its character
    shape_value: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class New:
    """A new boat as the page shows her."""

    way: Way
    wrong: dict[str, str]
    doubts: dict[str, str]
    picture: str  # SVG; "" before her length is entered
    progress: str
    answer: str  # what is known of her already
    trouble: str  # why she cannot be; "" where she can
    guesses: dict[str, str]  # of cylinders, tanks and plant, by field
    is_complete: bool


def way_of(typed: Typed) -> Way:
    """Return which way the new boat is told."""
    return "figures" if field_of(typed, "new-way") == "figures" else "tape"


def growing(typed: Typed) -> New:
    """Return the new boat as far as she is told."""
    way = way_of(typed)
    found = begun(way, typed)
    wrong, doubts = dict(found.wrong), dict(found.doubts)
    picture, answer, trouble = "", "", ""
    starter: Starter | None = None
    if found.wish is not None:
        try:
            starter = made(found) if not found.wrong else _as_far(found)
            picture, answer = _drawn(way, found, starter), _answer(found, starter)
            doubts |= newtanks.doubts(starter)
        except BoatError as error:
            starter = _without_answers(found)
            if starter is not None:
                field, why = newtanks.field_and_why(error, found.wish)
                wrong[field] = why
            elif error.where in FIGURES:
                wrong[f"{way}-{error.where}"] = beside_field(error)
            else:
                trouble = beside_field(error)
    return New(
        way=way,
        wrong=wrong,
        doubts=doubts,
        picture=picture,
        progress=_progress(found),
        answer=answer,
        trouble=trouble,
        guesses=newtanks.guesses(found.wish, starter, typed),
        is_complete=found.is_complete and not wrong and not trouble,
    )


def _without_answers(found: Begun) -> "Starter | None":
    """Return her with guessed cylinders and tanks; None where she cannot be either way."""
    from trimdive.estimates.starter import starter

    plain = newtanks.plainly(found.wish) if found.wish else None
    if plain is None or plain == found.wish:
        return None
    try:
        return starter(plain)
    except BoatError:
        return None


def _as_far(found: Begun) -> "Starter":
    """Return her by what could be read, while something else is wrong."""
    from trimdive.estimates.starter import starter

    if found.wish is None:
        raise AssertionError("her length is entered")
    return starter(found.wish)


def _progress(found: Begun) -> str:
    if found.read >= found.of:
        return f"All {found.of} entered."
    return f"{found.read} of {found.of}"


def _drawn(way: Way, found: Begun, starter: "Starter") -> str:
    her = Assessment(boat=starter.boat, files={})
    length = starter.plan.wish.length
    over = [Mark(x=share * length, label=str(k)) for k, (share, _) in enumerate(GIRTHS, 2)]
    under = [
        Mark(x=share * length, label=str(k))
        for k, (share, _) in enumerate(SECTIONS, len(FIGURES) + 1)
    ]
    says = f"{starter.boat.name} as far as she is described, from the side and from above"
    is_tape = way == "tape"
    return growing_picture(her, says, over if is_tape else [], [] if is_tape else under)


def _answer(found: Begun, starter: "Starter") -> str:
    """Return what is known of her already."""
    units = starter.boat.units
    if found.litres is not None:
        volume, spread = (
            units.write(one, "volume") for one in (found.litres.volume, found.litres.spread)
        )
        whole = units.write(starter.litres, "volume")
        return (
            f"By the tape her hull alone needs {volume} ± {spread} of ballast water. With tower, "
            f"paint and fittings, which are guessed, she needs {whole}: build the tanks for that."
        )
    mass = number(starter.mass, "mass", units.own)
    litres = number(starter.litres, "volume", units.own)
    return (
        f"Such a boat weighs about {mass} and needs about {litres} of ballast water; her full "
        f"tanks hold {newtanks.held_water(starter)}."
    )


def new_view(typed: Typed, *, is_asked: bool = False, is_twice: bool = False) -> dict[str, object]:
    """Return the fields of a new boat, and how she is so far.

    Args:
        typed: What the fields held.
        is_asked: She was to be added as she is: what is missing is said beside each field.
        is_twice: A boat of her name lies on the shelf already.
    """
    try:
        new = growing(typed)
    except TrimdiveError as error:
        guesses = newtanks.guesses(None, None, typed)
        new = New(
            way=way_of(typed), wrong={}, doubts={}, picture="", progress="", answer="",
            trouble=beside_field(error), guesses=guesses, is_complete=False,
        )  # fmt: skip
    wrong = {**new.doubts, **new.wrong}
    if is_asked:
        empty = (one for one in _needed(new.way) if not field_of(typed, one))
        wrong = dict.fromkeys(empty, MISSING) | wrong
    return {
        "grown": new,
        "tape": _tape(typed, wrong),
        "figures": _figures(typed, wrong),
        "sections": _sections(typed, wrong),
        "name": field_of(typed, "new-name"),
        "name_wrong": TWICE if is_twice else "",
        "scale": field_of(typed, "new-scale"),
        "scale_wrong": wrong.get("new-scale", ""),
        "unit": field_of(typed, "new-unit") or UNITS[0],
        "units": UNITS,
        "material": field_of(typed, "new-material") or hulls()[0],
        "materials": hulls(),
        "kind": field_of(typed, "new-kind") or "wet",
        "tanks": newtanks.questions(typed, wrong, new.guesses),
        "shapes": SHAPES,
    }


def _needed(way: Way) -> tuple[str, ...]:
    """Return the fields without which she cannot be added."""
    if way == "tape":
        girths = (f"tape-girth-{k}" for k in range(1, len(GIRTHS) + 1))
        walls = (f"tape-wall-{k}" for k in range(1, len(WALL_SPOTS) + 1))
        return ("tape-length", *girths, "tape-breadth", *walls)
    sections = (f"section-breadth-{k}" for k in range(1, len(SECTIONS) + 1))
    return (*(f"figures-{key}" for key in FIGURES), *sections)


def _asked(typed: Typed, wrong: dict[str, str], name: str, label: str, hint: str) -> Asked:
    return Asked(
        name=name, label=label, value=field_of(typed, name), hint=hint, wrong=wrong.get(name, "")
    )


def _tape(typed: Typed, wrong: dict[str, str]) -> list[Asked]:
    """Return the ten readings in their order."""
    found = [_asked(typed, wrong, "tape-length", "Length over all", "1410 mm")]
    for k, (share, where) in enumerate(GIRTHS, 1):
        name, at = f"tape-girth-{k}", f"tape-at-{k}"
        found.append(
            Asked(
                name=name,
                label=f"Girth {where}",
                value=field_of(typed, name),
                hint="180 mm",
                wrong=wrong.get(name, ""),
                at=at,
                at_value=field_of(typed, at),
                at_hint=f"{share * 100:.0f} %",
                at_wrong=wrong.get(at, ""),
            )
        )
    found.append(
        _asked(typed, wrong, "tape-breadth", "Breadth straight across, in the middle", "150 mm")
    )
    for k, where in enumerate(WALL_SPOTS, 1):
        found.append(_asked(typed, wrong, f"tape-wall-{k}", f"Wall of the hull, {where}", "2.4 mm"))
    return found


def _figures(typed: Typed, wrong: dict[str, str]) -> list[Asked]:
    figures = (
        ("Length over all", "1400 mm"),
        ("Greatest breadth", "150 mm"),
        ("Height, keel to deck amidships", "150 mm"),
        ("Waterline above the keel", "118 mm"),
    )
    return [
        _asked(typed, wrong, f"figures-{key}", label, hint)
        for key, (label, hint) in zip(FIGURES, figures, strict=True)
    ]


def _sections(typed: Typed, wrong: dict[str, str]) -> list[Asked]:
    found: list[Asked] = []
    for k, ((share, where), hint) in enumerate(zip(SECTIONS, ("90", "150", "110"), strict=True), 1):
        name, shape = f"section-breadth-{k}", f"section-shape-{k}"
        found.append(
            Asked(
                name=name,
                label=f"Breadth of the {where} section, {share * 100:.0f} % along",
                value=field_of(typed, name),
                hint=f"{hint} mm",
                wrong=wrong.get(name, ""),
                shape=shape,
                shape_value=field_of(typed, shape) or SHAPES[0],
            )
        )
    return found
