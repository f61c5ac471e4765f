"""What placing must keep, as rows that are linear in a boat's sums.

Source: trim and stiffness of a body afloat and hanging, multiplied through by her weight, so that
bands of angles and of heights become linear in masses, volumes and their first moments.
"""

from dataclasses import dataclass
from math import tan

import numpy as np

from trimdive.geometry.lines.mesh import Floats
from trimdive.placing.solve.sums import ABOVE, BLOWN, DIVED, MASS, SIZE, VOLUME, Sums

X, Y, Z = 1, 2, 3  # where the first moments stand in each four


@dataclass(frozen=True, slots=True, kw_only=True)
class Wishes:
    """How near is near enough, and what she must keep."""

    waterline: float  # how far off she may float [m]
    trim_surfaced: float  # [rad]
    trim_dived: float  # [rad]
    heel: float  # [rad]
    bg: float  # least, dived [m]
    gm: float  # least, tanks blown [m]
    margin: float  # of the tanks' room beyond what she needs [-]
    filling: tuple[float, float]  # of their whole room when neutral, least and most [-]
    stuck: float | None  # volume that stays out with one tank stuck full [m³]; None: not asked


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One condition: a·sums + constant lies at least at zero."""

    key: str  # of the condition; two rows make a band
    a: Floats  # over the sums, shape (20,) [its own SI unit over theirs]
    constant: float  # [its own SI unit]
    unit: float  # what falling short by one m, rad or m³ comes to [its own SI unit]
    kind: str  # of that unit: length, angle, volume or percent

    def slack(self, total: Floats) -> float:
        """Return how far within (negative: beyond) it lies [its SI unit]."""
        return float(self.a @ total + self.constant) / self.unit


def _a(**parts: Floats) -> Floats:
    row = np.zeros(SIZE)
    for name, values in parts.items():
        row[{"m": MASS, "v": VOLUME, "a": ABOVE, "b": BLOWN, "t": DIVED}[name]] += values
    return row


def _band(
    key: str, off: Floats, most: Floats, k: tuple[float, float], unit: float, kind: str
) -> list[Row]:
    """Return the two rows of |off·s + k0| <= most·s + k1."""
    return [
        Row(key=key, a=most - off, constant=k[1] - k[0], unit=unit, kind=kind),
        Row(key=key, a=most + off, constant=k[1] + k[0], unit=unit, kind=kind),
    ]


def _afloat(her: Sums, wishes: Wishes) -> list[Row]:
    """Return the rows of the boat held at her waterline with her tanks blown."""
    rho, plane = her.density, her.plane
    one = np.array([1.0, 0.0, 0.0, 0.0])
    forward = np.concatenate([[-plane.f], plane.forward])  # moment about the centre of the plane
    up = np.concatenate([[0.0], plane.n])
    port = np.array([0.0, 0.0, 1.0, 0.0])

    def excess(arm: Floats) -> Floats:
        return _a(m=arm, b=rho * arm, v=-rho * arm, a=rho * arm)

    nothing = np.zeros(SIZE)
    stiff_along = (-excess(up), rho * (plane.along - her.slack.blown[0]))
    stiff_across = (-excess(up), rho * (plane.across - her.slack.blown[1]))
    weight = her.total[MASS][0] + rho * her.total[BLOWN][0]
    sink = rho * plane.area
    rows = _band(
        "waterline-band", excess(one), nothing, (0.0, sink * wishes.waterline), sink, "length"
    )
    for key, arm, (row, constant), most in (
        ("trim-surfaced", forward, stiff_along, tan(wishes.trim_surfaced)),
        ("heel", port, stiff_across, tan(wishes.heel)),
    ):
        unit = max(float(row @ her.total) + constant, 1e-3 * weight * her.length)
        rows += _band(key, excess(arm), most * row, (0.0, most * constant), unit, "angle")
    row, constant = stiff_across
    least = wishes.gm * _a(m=one, b=rho * one)
    rows.append(Row(key="gm-least", a=row - least, constant=constant, unit=weight, kind="length"))
    return rows


def _dived(her: Sums, wishes: Wishes) -> list[Row]:
    """Return the rows of the boat hanging dived at the filling at which she is neutral."""
    rho = her.density
    one, along, port, up = np.eye(4)

    def excess(arm: Floats) -> Floats:
        return _a(m=arm, t=rho * arm, v=-rho * arm)

    stiff = -excess(up)
    weight = rho * her.total[VOLUME][0]
    slack = rho * her.slack.dived
    rows: list[Row] = []
    for key, arm, lost, most in (
        ("trim-dived", along, slack[0], tan(wishes.trim_dived)),
        ("heel-dived", port, slack[1], tan(wishes.heel)),
    ):
        unit = max(float(stiff @ her.total) - lost, weight * wishes.bg)
        rows += _band(key, excess(arm), most * stiff, (0.0, -most * lost), unit, "angle")
    least = wishes.bg * rho * _a(v=one)
    rows.append(Row(key="bg-least", a=stiff - least, constant=0.0, unit=weight, kind="length"))
    return rows


def _tanks(her: Sums, wishes: Wishes) -> list[Row]:
    """Return the rows of what the tanks hold and of one that sticks."""
    one = np.array([1.0, 0.0, 0.0, 0.0])
    rows = [
        Row(
            key="tank-margin", a=_a(a=-(1 + wishes.margin) * one), constant=her.fitted,
            unit=1.0, kind="volume",
        )
    ]  # fmt: skip
    if wishes.stuck is not None:
        rows += [
            Row(
                key="stuck-tank", a=_a(v=one, m=-one / her.density),
                constant=-float(water) - wishes.stuck, unit=1.0, kind="volume",
            )
            for water in her.stuck
        ]  # fmt: skip
    return rows


def neutral(her: Sums) -> Row:
    """Return the row that must be zero for her to be neutral."""
    one = np.array([1.0, 0.0, 0.0, 0.0])
    a = _a(m=one, t=her.density * one, v=-her.density * one)
    return Row(key="neutral-band", a=a, constant=0.0, unit=1.0, kind="mass")


def conditions(her: Sums, wishes: Wishes) -> list[Row]:
    """Return every condition as a row."""
    return [*_afloat(her, wishes), *_dived(her, wishes), *_tanks(her, wishes)]
