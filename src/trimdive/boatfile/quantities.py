"""Kinds of field: text with a unit in the file, an SI number in Python.

A number without a unit is SI where the boat is made in Python, and takes the boat's own unit where
it stands in a file; the file's units travel in the validation context.
"""

import math
from functools import partial
from numbers import Real
from typing import Annotated, Any

from pydantic import (
    BeforeValidator,
    Field,
    PlainSerializer,
    SerializationInfo,
    StrictBool,
    StringConstraints,
    ValidationInfo,
    WithJsonSchema,
)

from trimdive.errors import UnitError
from trimdive.units import Spread, exact, read, read_spread, within, write_spread
from trimdive.units.bounds import REACH

UNBOUNDED = "unbounded"  # in the context: figures may be as large as they are typed
NOT_GIVEN: Any = None  # a figure that is left out, or filled in when the boat is resolved


def is_given(value: object) -> bool:
    """Return whether a figure stands there."""
    return value is not None


def quantity(value: object, info: ValidationInfo, *, kind: str, reach: str = "") -> object:
    """Return the SI value of a field; None stays None.

    Args:
        value: As it stands in the file, or an SI number in Python.
        info: Holds the units of the file.
        kind: What it must be: "length", "mass", ...
        reach: The row of bounds that it must keep to, if not that of its kind.

    Raises:
        UnitError: It is no quantity of that kind, or none that a model boat can have.
    """
    if value is None:
        return None
    found = _si(value, info, kind)
    if info.context and UNBOUNDED in info.context:
        return found
    return within(found, reach or kind, str(value))


def _si(value: object, info: ValidationInfo, kind: str) -> float:
    """Return the SI value of a field.

    Raises:
        UnitError: It is no quantity of that kind.
    """
    if isinstance(value, Real) and not isinstance(value, int | float):
        value = float(value)  # a single figure of an array
    if isinstance(value, bool) or not isinstance(value, int | float | str):
        raise UnitError(f"{value!r} is not a {kind}", kind, 'Write it in quotes, as "12.5 mm".')
    if isinstance(value, str):
        text, share = elsewhere(value, info, kind)
        return share * read(text, kind, _own_unit(info, kind))
    if not math.isfinite(value):
        raise UnitError(f"'{value}' is not a number to build by", kind, "Write a real figure.")
    if info.context is None:
        return float(value)
    return read(f"{value!r}", kind, _own_unit(info, kind))


# How a figure ends that was not read of the model, and the scale that it needs.
ELSEWHERE = (("full size", "scale", "scale"), ("on the plan", "plan", "plan_scale"))


def coefficient(value: object) -> object:
    """Return a coefficient such that it is read as a share: "0.2" is 20 %; all else as it stands.

    >>> coefficient("0.2"), coefficient("20 %"), coefficient("20")
    ('20 %', '20 %', '20')
    """
    if isinstance(value, bool) or not isinstance(value, str | int | float):
        return value
    try:
        number = float(str(value).replace(",", "."))
    except ValueError:
        return value
    return f"{100 * number:.12g} %" if 0 <= number < 1 else value


def elsewhere(value: str, info: ValidationInfo, kind: str) -> tuple[str, float]:
    """Return the text of a figure, and how much smaller the model is than where it was read.

    "23.4 m full size" was read of the full-size boat, "340 mm on the plan" of a paper plan.

    Raises:
        UnitError: The scale is not told, or it is no length.
    """
    for ending, key, field in ELSEWHERE:
        text = value.strip().removesuffix(ending)
        if text == value.strip():
            continue
        context = info.context or {}
        if kind != "length":
            what = f"'{value}' is a {kind}, which does not follow from a length"
            raise UnitError(what, kind, "Write the model's own figure.")
        if "scale" not in context or key not in context:
            mend = f'Add a line at the top of the file: {field} = "1:20".'
            error = UnitError(f"'{value}' needs a scale, and the file has none", kind, mend)
            error.beside = f"'{value}' needs the boat's scale: enter that first."
            raise error
        scale = read(context["scale"], "ratio", None)
        return text, (1 if key == "scale" else read(context[key], "ratio", None)) / scale
    return value, 1.0


def spread(value: object, info: ValidationInfo) -> object:
    """Return a spread from text, or from a number of kilograms.

    Raises:
        UnitError: It is no spread.
    """
    if isinstance(value, str):
        found = read_spread(value, _own_unit(info, "mass"))
        within(found.size, "percent" if found.is_share else "mass", value)
        return found
    if isinstance(value, int | float) and not isinstance(value, bool):
        mass = quantity(value, info, kind="mass")
        return Spread(float(str(mass)), is_share=False)
    return value


def _own_unit(info: ValidationInfo, kind: str) -> str | None:
    """Return the unit that the file names for bare numbers of a kind."""
    return info.context.get(kind) if info.context else None


def _typed(value: float | None, info: SerializationInfo, *, kind: str) -> str | None:
    """Return the text for a field, exact to the last digit."""
    own = info.context.get(kind) if info.context else None
    return None if value is None else exact(value, kind, own)


def _typed_spread(value: Spread | None, info: SerializationInfo) -> str | None:
    """Return the text for a spread."""
    own = info.context.get("mass") if info.context else None
    return None if value is None else write_spread(value, own)


def _field(reach: str) -> tuple[BeforeValidator, PlainSerializer, WithJsonSchema]:
    """Return how a kind of quantity is read, bounded, written and described."""
    kind = REACH.get(reach, reach)
    return (
        BeforeValidator(partial(quantity, kind=kind, reach=reach)),
        PlainSerializer(partial(_typed, kind=kind), when_used="json"),
        WithJsonSchema({"type": ["string", "number"], "quantity": kind}),
    )


Length = Annotated[float, *_field("length")]
Mass = Annotated[float, *_field("mass")]
Volume = Annotated[float, *_field("volume")]
Angle = Annotated[float, *_field("angle")]
Celsius = Annotated[float, *_field("temperature")]
Density = Annotated[float, Field(gt=0), *_field("density")]
Speed = Annotated[float, Field(ge=0), *_field("speed")]
Areal = Annotated[float, Field(ge=0), *_field("areal mass")]
Flow = Annotated[float, Field(gt=0), *_field("flow")]
Time = Annotated[float, Field(gt=0), *_field("time")]
Salt = Annotated[float, Field(ge=0), *_field("salt")]
Scale = Annotated[float, Field(gt=0), *_field("ratio")]
Share = Annotated[float, Field(ge=0, le=1), *_field("percent")]

Friction = Annotated[Share, BeforeValidator(coefficient)]  # 0.2 or 20 %

Area = Annotated[float, Field(gt=0), *_field("area")]
Pressure = Annotated[float, Field(ge=0), *_field("pressure")]
Gauge = Annotated[float, *_field("pressure")]  # above the air's; a vacuum below zero
Force = Annotated[float, Field(ge=0), *_field("force")]
Torque = Annotated[float, Field(gt=0), *_field("torque")]
Current = Annotated[float, Field(ge=0), *_field("current")]
Voltage = Annotated[float, Field(gt=0), *_field("voltage")]
Charge = Annotated[float, Field(gt=0), *_field("charge")]
Turning = Annotated[float, Field(gt=0), *_field("speed of turning")]

Size = Annotated[Length, Field(gt=0)]  # a length that something has
Depth = Annotated[Length, Field(ge=0)]  # a length that may be nothing
Weight = Annotated[Mass, Field(ge=0)]  # a mass that something has
FullLength = Annotated[float, Field(gt=0), *_field("full-size length")]  # of no model
FullWeight = Annotated[float, Field(ge=0), *_field("full-size mass")]
WaterDepth = Annotated[float, Field(gt=0), *_field("depth of water")]
Room = Annotated[Volume, Field(ge=0)]  # a volume that something has

PlusMinus = Annotated[
    Spread,
    BeforeValidator(spread),
    PlainSerializer(_typed_spread, when_used="json"),
    WithJsonSchema({"type": "string", "quantity": "mass or percent"}),
]
Name = Annotated[str, StringConstraints(strip_whitespace=True, min_length=1, max_length=80)]
Yes = StrictBool
