"""How sure the volume of a traced hull is: its outline, its views, its pixels and its scale.

To what an outline leaves open (``geometry.lines.outline_spread``) comes, as errors that have
nothing to do with each other:

- **the views**: at each station the truth may lie as far beyond either view as half of what they
  are apart. Stations err each for itself or all alike, whichever does more.
- **the ends**: where plan and profile end apart, the length is off by as much.
- **the ink**: each line may lie half a pixel off, all of it the same way.
- **the scale**: by as much as a check length was off, along, up and across alike.

Source:
    common practice, no source.
"""

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from trimdive.boatfile import Waterline as Marked
from trimdive.geometry.lines import Floats
from trimdive.geometry.lines.outline import Outline, Pins, net, through
from trimdive.geometry.lines.outline_figures import Waterline, figures
from trimdive.geometry.lines.outline_given import outline_of
from trimdive.geometry.lines.outline_spread import Band, outline_spread
from trimdive.plans.agree import Apart, between, ends_apart, hats
from trimdive.plans.outline import outline_region
from trimdive.plans.views import Traced, What
from trimdive.records import record

FIELDS: dict[What, str] = {"keel": "keel", "deck": "deck", "half-breadth": "half"}
POWERS = np.array([3.0, 3.0, 2.0, 1.0])  # of a length, in volume, volume, area and BM [-]
INK = 0.5  # by which a line may lie off, in pixels [-]
AS_VOLUME = np.array([1.0, 1.0, 1.0, 2.0])  # of the volume's share, by what breadth does [-]
NOTHING = 1e-12  # a figure that is less is none [-]
ALONG = 48  # steps along the hull while it is drawn over and over [-]


@record
class TracedSpread:
    """What a traced hull encloses and displaces, each with a 95 % band, and what makes it wide."""

    envelope: Band  # volume of the whole outside shape [m³]
    nabla: Band  # volume below the waterline [m³]
    waterplane: Band  # area of the waterplane [m²]
    bm_t: Band  # transverse metacentric radius [m]
    apart: tuple[Apart, ...]  # every figure that two views have
    of_outline: Floats  # spread of the four by what was not traced, shape (4,) [-]
    of_views: Floats  # by what the views, and their ends, are apart, shape (4,) [-]
    of_ink: Floats  # by half a pixel, shape (4,) [-]
    of_scale: Floats  # by the check length, shape (4,) [-]

    @property
    def of_plan(self) -> Floats:
        """Return by what share the plan itself makes the four figures wide, shape (4,) [-].

        A figure that is nothing yet, such as the waterplane where no waterline was traced, goes by
        the whole volume.
        """
        values = [one.value for one in (self.envelope, self.nabla, self.waterplane, self.bm_t)]
        wide = np.sqrt(self.of_views**2 + self.of_ink**2 + self.of_scale**2)
        shares = wide / np.maximum(np.array(values), NOTHING)
        return np.where(shares < 1.0, shares, np.minimum(shares[0] * AS_VOLUME, 1.0))


def spread_figures(found: TracedSpread) -> dict[str, str]:
    """Return what the plan makes unsure, by the names in a boat file, as shares in per cent.

    Args:
        found: How sure the hull is.
    """
    shares = zip(("whole", "volume", "waterplane", "bm"), found.of_plan.tolist(), strict=True)
    return {name: f"{100.0 * share:.2f} %" for name, share in shares}


def traced_spread(hull: Traced, marked: Marked | None, *, scale: float = 0.0) -> TracedSpread:
    """Return how sure the volume of a traced hull is.

    Args:
        hull: What was traced.
        marked: The waterline at which she is meant to float; without one, the top of her deck.
        scale: By what share of it a check length was off [-].
    """
    taken, found = between(hull)
    outline = outline_of(outline_region(taken, "traced"))
    if marked is None:
        line = Waterline(height=max(z for _, z in outline.deck))
    else:
        line = Waterline(height=marked.height_at(0.0), slope=marked.slope)
    own = outline_spread(outline, line)
    bands = (own.envelope, own.nabla, own.waterplane, own.bm_t)
    values = np.array([band.value for band in bands])
    length = hull.ends[1] - hull.ends[0]
    ends = values * ends_apart(hull) / length
    parts = {
        "of_outline": np.array([band.spread for band in bands]),
        "of_views": np.hypot(_of_views(outline, line, found, hull.ends), ends),
        "of_ink": _of_ink(outline, line, INK * hull.worth),
        "of_scale": values * POWERS * abs(scale),
    }
    whole = np.sqrt(sum(part**2 for part in parts.values()))
    envelope, nabla, waterplane, bm_t = (
        Band(value=v, spread=s) for v, s in zip(values.tolist(), whole.tolist(), strict=True)
    )
    return TracedSpread(
        envelope=envelope, nabla=nabla, waterplane=waterplane, bm_t=bm_t, apart=found, **parts
    )


def _of_views(
    outline: Outline, line: Waterline, found: tuple[Apart, ...], ends: tuple[float, float]
) -> Floats:
    """Return what the views being apart does to the four figures, shape (4,) [-]."""
    square = np.zeros(4)
    for what, field in FIELDS.items():
        own = [one for one in found if one.what == what]
        stations = np.array([one.x for one in own])
        effects = list(_moved(outline, line, field, own, stations, ends))
        if effects:
            each = np.array(effects)
            square += np.maximum((each**2).sum(axis=0), each.sum(axis=0) ** 2)
    return np.sqrt(square)


def _moved(
    outline: Outline,
    line: Waterline,
    field: str,
    own: list[Apart],
    stations: Floats,
    ends: tuple[float, float],
) -> Iterator[Floats]:
    """Yield what moving one line at each station by what the views are apart does, shape (4,)."""
    if not own:
        return
    pins: Pins = getattr(outline, field)
    x = np.union1d([place for place, _ in pins], stations)
    v = through(pins, x)
    base = _row(outline, line, field, x, v)
    for one, hat in zip(own, hats(x, stations, ends), strict=True):
        yield _row(outline, line, field, x, v + one.off * hat) - base


def _of_ink(outline: Outline, line: Waterline, off: float) -> Floats:
    """Return what moving each line as a whole does to the four figures, shape (4,) [-]."""
    square = np.zeros(4)
    base = figures(net(outline, along=ALONG), line).row
    for field, way in (("keel", -1.0), ("deck", 1.0), ("half", 1.0)):
        x, v = np.array(getattr(outline, field)).T
        square += (_row(outline, line, field, x, v + way * off) - base) ** 2
    return np.sqrt(square)


def _row(outline: Outline, line: Waterline, field: str, x: Floats, v: Floats) -> Floats:
    """Return the four figures with one line drawn otherwise, shape (4,) [-]."""
    least = 0.0 if field == "half" else -np.inf
    pins = tuple(zip(x.tolist(), np.maximum(v, least).tolist(), strict=True))
    return figures(net(replace(outline, **{field: pins}), along=ALONG), line).row
