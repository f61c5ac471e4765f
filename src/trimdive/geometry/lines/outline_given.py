"""From the figures of a boat file to an outline: what was not given is filled in by plain rules.

1. Heights: keel and deck stand where they were measured; amidships, where nobody measured them,
   the keel lies on the keel line and the deck at the height given. Sections by points add theirs.
2. Breadths: the greatest stands amidships where no row reaches it; a round section without a
   breadth is as broad as it is high, or as much broader or finer as the breadths beside it are; an
   end without one closes to an edge.
3. The widest point lies half way from keel to deck, or where the points of a section have it.
4. A deck has a flat only where it was measured.

Source:
    common practice, no source.
"""

from collections.abc import Iterable
from dataclasses import replace
from itertools import pairwise

import numpy as np

from trimdive.boatfile import OutlineRegion
from trimdive.boatfile import Waterline as Marked
from trimdive.geometry.lines.outline import Outline, Pins, through
from trimdive.geometry.lines.outline_figures import Waterline
from trimdive.geometry.lines.outline_sections import Section
from trimdive.geometry.lines.outline_spread import OutlineSpread, outline_spread

Run = dict[float, float]
SAME = 1e-6  # closer than this, two places along the hull are one [m]
AMIDSHIPS = 0.1  # as near to the middle as this share of the length is amidships [-]
REACHES = 0.995  # a row that has this share of the greatest breadth has it [-]
TRUE = 0.03  # breadth and height of a round differ by less, by the tape alone [-]
POINT = 0.02  # of the greatest height: an end no higher is a point [-]
HALFWAY = 0.5  # height of the widest point where nothing tells it, from keel to deck [-]


def outline_of(region: OutlineRegion) -> Outline:
    """Return the outline of a region that was resolved: places from the stern.

    Args:
        region: The region as the boat file gives it.
    """
    sections = tuple(sorted(_sections(region), key=lambda section: section.x))
    measured = [section for section in sections if section.points]
    keel = {row.x: row.keel for row in region.profile if row.keel is not None}
    deck = {row.x: row.deck for row in region.profile if row.deck is not None}
    for section in measured:
        _add(keel, section.x, section.points[0][1])
        _add(deck, section.x, section.points[-1][1])
    middle = (min(keel) + max(keel)) / 2.0
    for run, height in ((keel, 0.0), (deck, region.height)):
        if not _near(run, middle, AMIDSHIPS * region.length):
            run[middle] = height
    half = _breadths(region, sections, middle, (_pins(keel), _pins(deck)))
    return Outline(
        keel=_pins(keel),
        deck=_pins(deck),
        half=_pins(half),
        widest=_widest(region, sections, _pins(keel), _pins(deck)),
        deck_half=_flats(region),
        sections=sections,
        stern=region.stern or "not entered",
        bow=region.bow or "not entered",
    )


def spread_of(region: OutlineRegion, marked: Marked | None) -> OutlineSpread:
    """Return how sure the volume and waterplane of a region are.

    Args:
        region: The region, resolved; of one that was traced what the plan is off comes to it.
        marked: The waterline at which she is meant to float; without one, the top of her deck.
    """
    outline = outline_of(region)
    if marked is None:
        line = Waterline(height=max(z for _, z in outline.deck))
    else:
        line = Waterline(height=marked.height_at(0.0), slope=marked.slope)
    found, traced = outline_spread(outline, line), region.traced
    if traced is None:
        return found
    return replace(
        found,
        envelope=found.envelope.with_share(traced.whole),
        nabla=found.nabla.with_share(traced.volume),
        waterplane=found.waterplane.with_share(traced.waterplane),
        bm_t=found.bm_t.with_share(traced.bm),
    )


def _sections(region: OutlineRegion) -> Iterable[Section]:
    """Yield the characters of section."""
    for row in region.section:
        radius = row.radius or 0.0
        yield Section(
            x=row.x,
            shape=row.shape,
            radius=radius,
            deck_radius=radius if row.deck_radius is None else row.deck_radius,
            points=row.points,
            knuckles=row.knuckles,
        )


def _add(run: Run, x: float, figure: float) -> None:
    """Add a figure to a line where there is none yet."""
    if not _near(run, x, SAME):
        run[x] = figure


def _near(run: Run, x: float, reach: float) -> bool:
    """Return whether a line was measured near a place."""
    return any(abs(place - x) <= reach for place in run)


def _pins(run: Run) -> Pins:
    """Return a line from stern to bow."""
    return tuple(sorted(run.items()))


def _at(pins: Pins, x: float) -> float:
    """Return a line at a place, straight from pin to pin."""
    places, figures = zip(*pins, strict=True)
    return float(np.interp(x, places, figures))


def _breadths(
    region: OutlineRegion, sections: tuple[Section, ...], middle: float, profile: tuple[Pins, Pins]
) -> Run:
    """Return the half-breadths, with what was not given filled in."""
    keel, deck = profile
    half: Run = {
        row.x: row.breadth / 2.0 if row.breadth is not None else row.half or 0.0
        for row in region.breadths
    }
    for section in sections:
        if section.points:
            _add(half, section.x, max(y for y, _ in section.points))
    places, shares = _out_of_round(_pins(half), profile)
    for x in _round_places(sections, keel):
        broad = float(np.interp(x, places, shares)) * (_at(deck, x) - _at(keel, x))
        _add(half, x, min(broad, region.breadth) / 2.0)
    short = max(half.values(), default=0.0) < REACHES * region.breadth / 2.0
    if short and not _near(half, middle, AMIDSHIPS * region.length):
        half[middle] = region.breadth / 2.0
    for end in (keel[0][0], keel[-1][0]):
        _add(half, end, 0.0)
    return half


def _out_of_round(half: Pins, profile: tuple[Pins, Pins]) -> tuple[list[float], list[float]]:
    """Return places and the breadths measured there as shares of the height [m], [-].

    A round is a circle where nothing was measured, or nothing that says otherwise.
    """
    if not half:
        return [0.0], [1.0]
    keel, deck = profile
    x, breadth = np.array(half).T * np.array([[1.0], [2.0]])
    high = through(deck, x) - through(keel, x)
    shares = np.divide(breadth, high, out=np.ones_like(high), where=high > POINT * high.max())
    shares[np.abs(shares - 1.0) < TRUE] = 1.0
    return x.tolist(), shares.tolist()


def _round_places(sections: tuple[Section, ...], keel: Pins) -> list[float]:
    """Return the places of the profile that lie where the hull is round."""
    first, last = sections[0], sections[-1]
    ends = ((keel[0][0], first.x, first, first), (last.x, keel[-1][0], last, last))
    spans = [*ends, *((a.x, b.x, a, b) for a, b in pairwise(sections))]
    stretches = [(low, high) for low, high, a, b in spans if {a.shape, b.shape} == {"round"}]
    wanted = [x for x, _ in keel]
    wanted += [section.x for section in sections if section.shape == "round"]
    return [x for x in wanted if any(low - SAME <= x <= high + SAME for low, high in stretches)]


def _widest(region: OutlineRegion, sections: tuple[Section, ...], keel: Pins, deck: Pins) -> Pins:
    """Return how high over the keel the widest point lies, as a share of keel to deck."""
    share: Run = {}
    for row in region.breadths:
        if row.widest is not None:
            low, high = _at(keel, row.x), _at(deck, row.x)
            share[row.x] = (row.widest - low) / max(high - low, SAME)
    for section in sections:
        if section.points:
            _, z = max(section.points)
            low, high = section.points[0][1], section.points[-1][1]
            _add(share, section.x, (z - low) / max(high - low, SAME))
    if not share:
        return ((keel[0][0], HALFWAY),)
    return tuple((x, min(max(s, 0.0), 1.0)) for x, s in _pins(share))


def _flats(region: OutlineRegion) -> Pins:
    """Return the flat of the deck as a share of the breadth."""
    share: Run = {}
    for row in region.breadths:
        broad = row.breadth if row.breadth is not None else 2.0 * (row.half or 0.0)
        if row.deck_breadth is not None and broad > 0.0:
            share[row.x] = min(row.deck_breadth / broad, 1.0)
    return _pins(share) or ((0.0, 0.0),)
