"""How far the volume of an outlined hull may be off, by what was not measured.

Each thing that was not measured is moved as far as it may well be off, one at a time, and the hull
is drawn again; what that does to the figures adds up as independent errors do.

- **Between two places** the batten may be off. How far, the figures themselves tell: each is left
  out in turn, and what the others make of it shows how well battens do on this hull. Part of the
  bow of the batten over its chord is doubted in any case, most of all at the ends.
- **The character of a section** leaves room: an oval may be somewhat fuller or finer.
- **Between the sections given** the character may differ from what lies on either side; towards
  an end beyond the last of them it may grow finer.
- **The height of the widest point** may be off where it was not measured.

How far each may be off is common practice, no source: the shares below were set so that the band
holds the truth for 95 of 100 hulls or more, drawn at random and measured at 5 to 11 places.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise
from math import hypot
from typing import Literal

import numpy as np

from trimdive.fact import Fact, fact
from trimdive.geometry.lines.mesh import Floats
from trimdive.geometry.lines.outline import Outline, Pins, boxes, net, through
from trimdive.geometry.lines.outline_figures import Figures, Waterline, figures
from trimdive.geometry.lines.outline_sections import Section

What = Literal["keel", "deck", "half-breadth", "section", "widest point"]
LINES: dict[What, str] = {"keel": "keel", "deck": "deck", "half-breadth": "half"}

ALONG = 48  # steps along the hull while it is drawn over and over [-]
LEFT_OUT = 0.6  # of what leaving a figure out does to it, in a gap half as wide [-]
BOW = 0.3  # of the bow of the batten over its chord, between two places [-]
BOW_AT_END = 0.9  # the same at the ends of the hull [-]
RISE_AT_END = 0.15  # of the rise of a line from the end to the next place [-]
FULLER = {"round": 0.0, "oval": 0.36, "box": 0.1, "knuckled": 0.07, "points": 0.09}  # of power
FINER_END = 0.8  # power of the arcs at an end, as a share of the last section's [-]
NEAR_END = 0.02  # a section as near to an end as this share of the length tells it [-]
WIDEST = 0.12  # of keel to deck, where the widest point of an oval was not measured [-]
WIDEST_BETWEEN = 0.05  # the same where it was measured somewhere [-]
WIDEST_OF_POINTS = 0.05  # the same where the points of a section tell it [-]
BREADTHS = 0.4  # least share of BM that is in doubt, of that of the waterplane: both go by breadth
HANDY = 0.005  # places are named to the nearest of these [m]
NOTHING = 1e-6  # less than this is no length [m]
DRAWING = 0.005  # share by which any other fair drawing through the same figures differs [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Guess:
    """Something that was not measured, taken as far off as it may well be."""

    what: What
    x: float  # where measuring it would help [m]
    outline: Outline  # the hull as it would be then
    kin: str = ""  # guesses of one kin err the same way; the others each for itself
    helps: bool = True  # whether measuring there would mend it


@dataclass(frozen=True, slots=True, kw_only=True)
class Unknown:
    """What a guess does to the figures."""

    guess: Guess
    effect: Floats  # on envelope, volume, waterplane and BM, shape (4,) [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """A figure and how far it may be off: the truth lies within in 95 of 100 cases."""

    value: float  # the figure [-]
    spread: float  # half the width of the band [-]

    @property
    def share(self) -> float:
        """Return the spread as a share of the figure [-]."""
        return self.spread / self.value if self.value else 0.0

    def with_share(self, share: float) -> "Band":
        """Return it wider by an error that has nothing to do with the others.

        Args:
            share: Of the figure [-].
        """
        return Band(value=self.value, spread=hypot(self.spread, share * self.value))


@dataclass(frozen=True, slots=True, kw_only=True)
class Further:
    """The one further measurement that would narrow the volume most."""

    what: What
    x: float  # place along the hull, from the stern [m]
    share: float  # what would be left of the spread of the volume [-]

    @property
    def advice(self) -> Fact:
        """Return what to measure."""
        return fact("measure-outline", what=self.what, x=self.x)


@dataclass(frozen=True, slots=True, kw_only=True)
class OutlineSpread:
    """What an outlined hull encloses and displaces, and how sure that is."""

    envelope: Band  # volume of the whole outside shape [m³]
    nabla: Band  # volume below the waterline [m³]
    waterplane: Band  # area of the waterplane [m²]
    bm_t: Band  # transverse metacentric radius [m]
    further: Further


def outline_spread(outline: Outline, waterline: Waterline) -> OutlineSpread:
    """Return the volume and waterplane of a hull from its outlines, each with a 95 % band.

    Args:
        outline: What was measured.
        waterline: Where the water stands.
    """
    base = _figures(outline, waterline).row
    every = list(unknowns(outline, waterline))
    effects = _by_kin(every)
    spreads = np.sqrt((effects**2).sum(axis=0) + (DRAWING * base) ** 2)
    if base[2] > 0.0:
        spreads[3] = max(spreads[3], BREADTHS * base[3] * spreads[2] / base[2])
    bands = [Band(value=v, spread=s) for v, s in zip(base.tolist(), spreads.tolist(), strict=True)]
    return OutlineSpread(
        envelope=bands[0],
        nabla=bands[1],
        waterplane=bands[2],
        bm_t=bands[3],
        further=_further(every, spreads),
    )


def _by_kin(every: list[Unknown]) -> Floats:
    """Return the effects of all guesses, those of one kin added up, shape (k, 4) [-]."""
    kin: dict[str, Floats] = {}
    for number, unknown in enumerate(every):
        name = unknown.guess.kin or str(number)
        kin[name] = kin.get(name, np.zeros(4)) + np.abs(unknown.effect)
    return np.array(list(kin.values()))


def _further(every: list[Unknown], spreads: Floats) -> Further:
    """Return the measurement that takes most out of the spreads of both volumes."""
    spread = np.maximum(spreads[:2], NOTHING**3)
    taken: dict[tuple[What, float], float] = {}
    for unknown in every:
        guess = unknown.guess
        share = float(((unknown.effect[:2] / spread) ** 2).mean())
        taken[guess.what, guess.x] = taken.get((guess.what, guess.x), 0.0) + guess.helps * share
    what, x = max(taken, key=lambda key: taken[key])
    left = float(np.sqrt(max(1.0 - taken[what, x], 0.0)))
    return Further(what=what, x=round(x / HANDY) * HANDY, share=left)


def _figures(outline: Outline, waterline: Waterline) -> Figures:
    """Return the figures of a hull that is drawn a little coarser."""
    return figures(net(outline, along=ALONG), waterline)


def unknowns(outline: Outline, waterline: Waterline) -> Iterator[Unknown]:
    """Yield everything that was not measured, with what it does to the figures.

    Args:
        outline: What was measured.
        waterline: Where the water stands.
    """
    base = _figures(outline, waterline).row
    for kind in (_gaps, _finishes, _characters, _heights):
        for guess in kind(outline):
            effect = _figures(guess.outline, waterline).row - base
            yield Unknown(guess=guess, effect=effect)


def _gaps(outline: Outline) -> Iterator[Guess]:
    """Yield the outline with one line moved in one gap between two places."""
    if _is_round(outline):
        yield from _round_gaps(outline)
        return
    for what, field in LINES.items():
        pins: Pins = getattr(outline, field)
        for x, v, off, kin in _in_gaps(outline, field):
            moved = tuple(sorted([*pins, (x, v + off if what == "keel" else v - off)]))
            yield Guess(what=what, x=x, outline=replace(outline, **{field: moved}), kin=kin)


def _is_round(outline: Outline) -> bool:
    """Return whether the hull is round all along, its breadth read from its height."""
    places = [[x for x, _ in pins] for pins in (outline.keel, outline.deck, outline.half)]
    is_round = all(section.shape == "round" for section in outline.sections)
    return is_round and places[0] == places[1] == places[2]


def _round_gaps(outline: Outline) -> Iterator[Guess]:
    """Yield a round hull, thinner in one gap between two places."""
    keel, deck, half = outline.keel, outline.deck, outline.half
    for x, r, off, kin in _in_gaps(outline, "half"):
        at = np.array([x])
        low, high = (float(_line(outline, field, at)[0]) for field in ("keel", "deck"))
        thinner = replace(
            outline,
            keel=tuple(sorted([*keel, (x, low + off)])),
            deck=tuple(sorted([*deck, (x, high - off)])),
            half=tuple(sorted([*half, (x, r - off)])),
        )
        yield Guess(what="half-breadth", x=x, outline=thinner, kin=kin)


def _in_gaps(outline: Outline, field: str) -> Iterator[tuple[float, float, float, str]]:
    """Yield middle, line there, how far it may be off [m] and kin of each gap of a line."""
    pins: Pins = getattr(outline, field)
    middles = np.array([(a[0] + b[0]) / 2.0 for a, b in pairwise(pins)])
    drawn = _line(outline, field, middles)
    kins = [f"ends of {field}", *[""] * (len(middles) - 2), f"ends of {field}"]
    rows = zip(middles.tolist(), drawn.tolist(), _doubts(pins, drawn), kins, strict=False)
    yield from (row for row in rows if row[2] > 0.0)


def _line(outline: Outline, field: str, x: Floats) -> Floats:
    """Return one line of the hull as it is drawn, shape of ``x`` [m]."""
    drawn: Floats = getattr(boxes(outline, x), field)
    return drawn[:, 0]


def _doubts(pins: Pins, drawn: Floats) -> list[float]:
    """Return how far a line may be off in the middle of each gap between two places [m]."""
    x, v = np.array(pins).T
    gaps = np.diff(x)
    off = np.zeros(len(x))
    for k in range(1, len(x) - 1):
        rest = (*pins[:k], *pins[k + 1 :])
        off[k] = abs(float(through(rest, x[k : k + 1])[0]) - v[k])
    bow = np.abs(drawn - (v[1:] + v[:-1]) / 2.0)
    wide = np.concatenate([[np.inf], gaps[1:] + gaps[:-1], [np.inf]])
    narrower = [gaps / wide[:-1], gaps / wide[1:]]
    omitted = LEFT_OUT * np.maximum(off[:-1] * narrower[0], off[1:] * narrower[1])
    doubt = np.maximum(omitted, BOW * bow)
    for end in (0, -1):
        rise = abs(float(v[1:][end] - v[:-1][end]))
        doubt[end] = max(doubt[end], BOW_AT_END * bow[end], RISE_AT_END * rise)
    return doubt.tolist()


def _finishes(outline: Outline) -> Iterator[Guess]:
    """Yield the outline with a round stem or stern where nobody said how it finishes."""
    half = outline.half
    for field, end, beside in (("stern", 0, 1), ("bow", -1, -2)):
        is_stem = abs(outline.keel[end][1] - outline.deck[end][1]) > NOTHING
        if is_stem and half[end][1] < NOTHING and getattr(outline, field) == "not entered":
            x = (half[end][0] + half[beside][0]) / 2.0
            rounded = replace(outline, **{field: "round"})
            yield Guess(what="half-breadth", x=x, outline=rounded, kin="ends of half")


def _characters(outline: Outline) -> Iterator[Guess]:
    """Yield the outline with other characters of section."""
    sections = outline.sections
    low, high = outline.keel[0][0], outline.keel[-1][0]
    for shape in dict.fromkeys(section.shape for section in sections if FULLER[section.shape]):
        own = [section.x for section in sections if section.shape == shape]
        place = min(own, key=lambda x: abs(x - (low + high) / 2.0))
        for side in ("fuller_below", "fuller_above"):
            power = {side: 1.0 + FULLER[shape]}
            fuller = tuple(replace(s, **power) if s.shape == shape else s for s in sections)
            moved = replace(outline, sections=fuller)
            yield Guess(what="section", x=place, outline=moved, helps=shape == "oval")
    for a, b in pairwise(sections):
        early = _early(outline, a, b)
        yield Guess(what="section", x=(a.x + b.x) / 2.0, outline=early)
    for end, last in ((low, sections[0]), (high, sections[-1])):
        if abs(last.x - end) > NEAR_END * (high - low):
            finer = replace(last, x=end, fuller_below=FINER_END, fuller_above=FINER_END)
            ordered = tuple(sorted([*sections, finer], key=lambda section: section.x))
            moved = replace(outline, sections=ordered)
            yield Guess(what="section", x=(last.x + end) / 2.0, outline=moved)


def _early(outline: Outline, a: Section, b: Section) -> Outline:
    """Return the outline with the character of one section reached half way from another."""
    middle = (a.x + b.x) / 2.0
    sections = sorted([*outline.sections, replace(b, x=middle)], key=lambda section: section.x)
    places, shares = zip(*outline.widest, strict=True)
    widest = [*outline.widest, (middle, float(np.interp(b.x, places, shares)))]
    return replace(outline, sections=tuple(sections), widest=tuple(sorted(widest)))


def _heights(outline: Outline) -> Iterator[Guess]:
    """Yield the outline with its widest points higher."""
    shapes = {section.shape for section in outline.sections}
    if not shapes & {"oval", "points"}:
        return
    pins = outline.widest
    room = WIDEST if len(pins) == 1 else WIDEST_BETWEEN
    what: What = "widest point" if "oval" in shapes else "section"
    if "oval" not in shapes:
        room = WIDEST_OF_POINTS
    moved = tuple((x, min(share + room, 1.0)) for x, share in pins)
    middle = (outline.keel[0][0] + outline.keel[-1][0]) / 2.0
    guessed = replace(outline, widest=moved)
    yield Guess(what=what, x=middle, outline=guessed, helps="oval" in shapes)
