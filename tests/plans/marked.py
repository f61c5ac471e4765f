"""Marks on a plan that lies straight, a pixel to the millimetre: a hull with parabolic lines."""

import numpy as np

from trimdive.plans.marks import Marks, Point
from trimdive.plans.tracing import Tracing, tracing_of

SIZE = (1200, 800)
L, B, T = 1.0, 0.1, 0.06  # a hull with parabolic waterlines and sections [m]
MM = 1.0  # pixels to a millimetre


def marked(marks: Marks, key: str, *places: tuple[float, float]) -> Marks:
    for x, y in places:
        marks = marks.with_point(key, Point(at=(x, y), on_ink=True))
    return marks


def flat() -> Marks:
    """Return marks of a plan that lies straight, a pixel to the millimetre."""
    marks = marked(Marks(), "level", (100.0, 300.0), (1100.0, 300.0))
    marks = marked(marks, "along-1", (100.0, 300.0), (1100.0, 300.0))
    marks = marked(marks, "up-1", (100.0, 300.0), (100.0, 200.0))
    return marks.with_typed("along-1", "1000").with_typed("up-1", "100 mm")


def whole(marks: Marks | None = None) -> Marks:
    """Return marks of a whole hull: profile, plan below it, two sections twice as large."""
    marks = marks or flat()
    marks = marked(marks, "profile", (100.0, 300.0), (1100.0, 300.0), (500.0, 300.0))
    marks = marked(marks, "plan", (100.0, 500.0), (1100.0, 500.0))
    marks = marked(marks, "body", (600.0, 700.0)).with_typed("larger", "2")
    x = np.linspace(0.0, 1e3, 11)
    marks = marked(marks, "keel", *((100.0 + at, 300.0) for at in x.tolist()))
    marks = marked(marks, "deck", *((100.0 + at, 300.0 - 1e3 * T) for at in x.tolist()))
    half = 1e3 * B / 2 * (1 - (2 * x / 1e3 - 1) ** 2)
    marks = marked(marks, "half", *((100.0 + at, 500.0 - y) for at, y in zip(x, half, strict=True)))
    for number, station in enumerate((250.0, 500.0, 750.0), 1):
        z = np.linspace(0.0, 1.0, 9)
        y = 1e3 * B / 2 * (1 - (2 * station / 1e3 - 1) ** 2) * (1 - (1 - z) ** 2)
        places = zip(600.0 + 2 * y, 700.0 - 2e3 * T * z, strict=True)
        marks = marked(marks, f"section-{number}", *places)
        marks = marks.with_typed(f"section-{number}", f"{station:g}")
    return marks


def found(marks: Marks, scale: float | None = None) -> Tracing:
    return tracing_of(marks, SIZE, scale, "mm")


def said(tracing: Tracing) -> dict[str, str]:
    return {key: str(error) for key, error in tracing.troubles.items()}
