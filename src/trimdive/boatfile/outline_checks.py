"""What cannot be right in a region given by its outline."""

from collections.abc import Iterator
from itertools import pairwise

from trimdive.boatfile.boat import Boat
from trimdive.boatfile.messages import Mistake
from trimdive.boatfile.outline import BreadthRow, Point, ProfileRow, SectionRow
from trimdive.boatfile.places import Path
from trimdive.boatfile.regions import OutlineRegion

Mistakes = Iterator[Mistake]
NEAR = 0.005  # two readings of one length agree within this share of the hull's own size [-]
AMIDSHIPS = 0.1  # as near to the middle as this share of the length is amidships [-]
AGREE = 0.03  # two readings of one height or breadth agree within this share of it [-]


def outline_mistakes(boat: Boat) -> Mistakes:
    """Yield what cannot be right in the regions given by outlines."""
    known = [
        skin.name for skin in boat.regions if isinstance(skin, OutlineRegion) and not skin.like
    ]
    for number, skin in enumerate(boat.regions):
        if not isinstance(skin, OutlineRegion):
            continue
        path: Path = ("region", number)
        if skin.like is not None:
            yield from _shared(path, skin, known)
            continue
        missing = list(_missing(path, skin))
        yield from missing
        if not missing:
            yield from _run(path, skin)
            yield from _profile(path, skin, boat)
            yield from _breadths(path, skin, boat)
            yield from _sections(path, skin, boat)


def _shared(path: Path, skin: OutlineRegion, known: list[str]) -> Mistakes:
    """Yield an outline shared with what has none, or given twice."""
    if skin.like not in known:
        what = f"there is no region '{skin.like}' with an outline of its own"
        yield Mistake((*path, "like"), what, f"Known: {', '.join(known) or 'none'}.")
    for field, listed in skin.rows.items():
        if listed:
            what = f"the outline is that of '{skin.like}'"
            beside = f"The outline is that of {skin.like}. Leave this empty."
            yield Mistake((*path, field), what, f"Take {field} out, or like.", beside=beside)


def _missing(path: Path, skin: OutlineRegion) -> Mistakes:
    """Yield what an outline needs and has not."""
    for field in ("length", "breadth", "height"):
        if getattr(skin, field) is None:
            what, mend = f"an outline needs its {field}", f'Add a line: {field} = "…"'
            yield Mistake(path, what, mend, fields=(field,), beside="An outline needs it.")
    rows = {
        "profile": 'profile = [{ x = "0 mm", keel = "60 mm", deck = "95 mm" }, …]',
        "section": 'section = [{ x = "450 mm", shape = "oval" }, …]',
    }
    for field in rows:
        if not skin.rows[field]:
            what, mend = f"an outline needs its {field}", f"Add {rows[field]}."
            beside = "An outline needs it: add a row for each place."
            yield Mistake(path, what, mend, fields=(field,), beside=beside)


def _run(path: Path, skin: OutlineRegion) -> Mistakes:
    """Yield places that stand twice in one list, or outside the hull."""
    places = [row.x for row in skin.profile]
    low, high = min(places), max(places)
    slack = NEAR * skin.length
    for field, rows in skin.rows.items():
        seen: dict[float, int] = {}
        for number, row in enumerate(rows):
            first = seen.setdefault(round(row.x, 9), number)
            if first != number:
                what = f"this place stands in {field}[{first + 1}] already"
                place, beside = (
                    (*path, field, number, "x"),
                    f"It stands in row {first + 1} already.",
                )
                yield Mistake(place, what, "Keep one of them.", beside=beside)
            if not low - slack <= row.x <= high + slack:
                mend = "Measure it again, or add this end to profile."
                yield Mistake((*path, field, number, "x"), "it lies beyond the profile", mend)


def _profile(path: Path, skin: OutlineRegion, boat: Boat) -> Mistakes:
    """Yield a profile that ends short, or whose keel is not below its deck."""
    says = boat.units.write
    rows = sorted(enumerate(skin.profile), key=lambda pair: pair[1].x)
    place = (*path, "profile")
    reach = rows[-1][1].x - rows[0][1].x
    if abs(reach - skin.length) > 2.0 * NEAR * skin.length:
        what = f"it reaches {says(reach, 'length')}, the length is {says(skin.length, 'length')}"
        yield Mistake(place, what, "Give both ends, and measure the length again.")
        return
    for number, row in (rows[0], rows[-1]):
        for field in ("keel", "deck"):
            if getattr(row, field) is None:
                what = f"the {field} is missing at the end of the hull"
                beside = f"The {field} is needed at both ends of the hull."
                mend, fields = f'Add {field} = "…".', (field,)
                yield Mistake((*place, number), what, mend, fields=fields, beside=beside)
    for number, row in rows:
        yield from _row_of_profile((*place, number), row, skin)
        middle = (rows[0][1].x + rows[-1][1].x) / 2.0
        if abs(row.x - middle) > AMIDSHIPS * skin.length or row.keel is None or row.deck is None:
            continue
        high = row.deck - row.keel
        if abs(high - skin.height) > AGREE * skin.height:
            what = f"keel to deck is {says(high, 'length')} here, height says "
            what += says(skin.height, "length")
            yield Mistake((*place, number), what, "Measure the height amidships again.")


def _ends(skin: OutlineRegion) -> tuple[float, float]:
    """Return the ends of the profile as typed [m]."""
    places = [row.x for row in skin.profile]
    return min(places), max(places)


def _row_of_profile(path: Path, row: ProfileRow, skin: OutlineRegion) -> Mistakes:
    """Yield a row that says nothing, or whose keel is not below the deck."""
    if row.keel is None and row.deck is None:
        what, mend = "the row says nothing of keel or deck", 'Add keel = "…" or deck = "…".'
        yield Mistake(path, what, mend, fields=("keel",), beside="Enter keel or deck.")
        return
    high = _height(skin, row.x)
    if high is not None and (high < 0.0 or (high == 0.0 and row.x not in _ends(skin))):
        what = "the keel is not below the deck"
        field = "deck" if row.keel is None else "keel"
        yield Mistake((*path, field), what, "Look whether they stand in each other's place.")


def _height(skin: OutlineRegion, x: float) -> float | None:
    """Return keel to deck at a place, straight between the rows that have them [m]."""
    low, high = (_between(run, x) for run in _lines(skin))
    return None if low is None or high is None else high - low


def _lines(skin: OutlineRegion) -> tuple[list[Point], list[Point]]:
    """Return places and heights of keel and deck, in order."""
    keel = [(row.x, row.keel) for row in skin.profile if row.keel is not None]
    deck = [(row.x, row.deck) for row in skin.profile if row.deck is not None]
    middle = sum(_ends(skin)) / 2.0
    for run, height in ((keel, 0.0), (deck, skin.height)):
        if all(abs(x - middle) > AMIDSHIPS * skin.length for x, _ in run):
            run.append((middle, height))  # as the outline is filled in
    return sorted(keel), sorted(deck)


def _between(run: list[Point], x: float) -> float | None:
    """Return a figure at a place, straight from one to the next, or None outside of them."""
    for (a, v), (b, w) in pairwise(run):
        if a <= x <= b and b > a:
            return v + (x - a) / (b - a) * (w - v)
    return None


def _breadths(path: Path, skin: OutlineRegion, boat: Boat) -> Mistakes:
    """Yield breadths that are not told, told twice, or greater than the greatest."""
    says = boat.units.write
    for number, row in enumerate(skin.breadths):
        place = (*path, "breadths", number)
        given = [name for name in ("breadth", "half") if getattr(row, name) is not None]
        if len(given) != 1:
            what = "it gives both breadth and half" if given else "its breadth is missing"
            yield Mistake(place, what, "Give either breadth or half.")
            continue
        broad = breadth_of(row)
        if broad > skin.breadth * (1.0 + NEAR):
            what = f"{says(broad, 'length')} across is more than the greatest breadth, "
            what += says(skin.breadth, "length")
            yield Mistake(
                (*place, given[0]), what, "Is it a whole or a half breadth? Measure again."
            )
        at_end, high = row.x in _ends(skin), _height(skin, row.x)
        if broad == 0.0 and not at_end:
            what = "the hull has no breadth here, between its ends"
            yield Mistake((*place, given[0]), what, "Measure again, or take the row out.")
        if broad > 0.0 and at_end and high == 0.0:
            what = "keel and deck meet in a point here, yet it has a breadth"
            yield Mistake((*place, given[0]), what, "Mend the profile, or take the row out.")
        if (row.deck_breadth or 0.0) > broad * (1.0 + NEAR):
            what = "the flat of the deck is broader than the hull"
            yield Mistake((*place, "deck_breadth"), what, "Measure both again, over both sides.")
        keel, deck = ([height for _, height in run] for run in _lines(skin))
        if row.widest is not None and not min(keel) <= row.widest <= max(deck):
            what = "it is widest below the keel or above the deck"
            yield Mistake((*place, "widest"), what, "Measure up from the keel line.")
    yield from _greatest(path, skin, boat)


def breadth_of(row: BreadthRow) -> float:
    """Return the breadth over both sides [m]."""
    return row.breadth if row.breadth is not None else 2.0 * (row.half or 0.0)


def _greatest(path: Path, skin: OutlineRegion, boat: Boat) -> Mistakes:
    """Yield a greatest breadth that stands nowhere though the middle was measured."""
    low, high = _ends(skin)
    near = [
        row for row in skin.breadths if abs(row.x - (low + high) / 2.0) <= AMIDSHIPS * skin.length
    ]
    most = max((breadth_of(row) for row in skin.breadths), default=0.0)
    if near and 0.0 < most < skin.breadth * (1.0 - AGREE):
        says = boat.units.write
        what = f"the broadest of breadths is {says(most, 'length')}, breadth says "
        what += says(skin.breadth, "length")
        yield Mistake((*path, "breadth"), what, "Add the place where she is broadest.")


def _sections(path: Path, skin: OutlineRegion, boat: Boat) -> Mistakes:
    """Yield characters of section that lack a figure, or have too many."""
    says = boat.units.write
    for number, row in enumerate(skin.section):
        place = (*path, "section", number)
        if row.shape == "box" and row.radius is None:
            mend = 'Add radius = "…"; sharp corners have radius = "0 mm".'
            what, beside = (
                "a box needs the radius of its corners",
                "Enter it; sharp corners have 0 mm.",
            )
            yield Mistake(place, what, mend, fields=("radius",), beside=beside)
        for field in ("radius", "deck_radius"):
            if row.shape != "box" and getattr(row, field) is not None:
                what = f"only a box has a {field}"
                mend, beside = 'Take it out, or write shape = "box".', "Only a box has it."
                yield Mistake((*place, field), what, mend, beside=beside)
        by_points = row.shape in ("points", "knuckled")
        if by_points and len(row.points) < 3:
            mend = "Give three or more, from keel to deck."
            what, fields = f"shape {row.shape} needs its points", ("points",)
            yield Mistake(place, what, mend, fields=fields)
        elif not by_points and row.points:
            what = f"shape {row.shape} has no points"
            mend, beside = 'Write shape = "points" or "knuckled".', "This shape has no points."
            yield Mistake((*place, "points"), what, mend, beside=beside)
        elif by_points:
            yield from _points(place, row)
            measured = {row.x for row in skin.profile if None not in (row.keel, row.deck)}
            high = _height(skin, row.x) if row.x in measured else None
            own = row.points[-1][1] - row.points[0][1]
            if high is not None and abs(own - high) > 2.0 * AGREE * skin.height:
                what = f"the points run over {says(own, 'length')}, keel to deck is "
                what += f"{says(high, 'length')} there"
                yield Mistake((*place, "points"), what, "Measure both again, from the keel line.")


def _points(path: Path, row: SectionRow) -> Mistakes:
    """Yield points that run from deck to keel, enclose nothing, or knuckles there are not."""
    breadths, heights = zip(*row.points, strict=True)
    if heights[0] >= heights[-1]:
        what = "the points do not run from keel to deck"
        yield Mistake((*path, "points"), what, "Begin at the keel; each is half-breadth, height.")
    elif max(breadths) <= 0.0:
        what = "all half-breadths are nothing"
        yield Mistake((*path, "points"), what, "Measure each from the centre line.")
    elif len(set(row.points)) < len(row.points):
        yield Mistake((*path, "points"), "a point stands twice", "Keep one of them.")
    elif crossed := _crossing(row.points):
        what = f"the section crosses itself between points {crossed[0]} and {crossed[1]}"
        yield Mistake((*path, "points"), what, "Give them in order round the girth.")
    for edge in row.knuckles:
        if not 1 <= edge <= len(row.points):
            what = f"there is no point {edge}"
            yield Mistake((*path, "knuckles"), what, f"Write figures from 1 to {len(row.points)}.")


def _crossing(points: tuple[Point, ...]) -> tuple[int, int] | None:
    """Return two points, counted from one, after which a run of points crosses itself."""
    steps = list(enumerate(pairwise(points), 1))
    for first, (a, b) in steps:
        for second, (c, d) in steps[first + 1 :]:
            if _side(a, b, c) * _side(a, b, d) < 0.0 and _side(c, d, a) * _side(c, d, b) < 0.0:
                return first, second
    return None


def _side(a: Point, b: Point, c: Point) -> float:
    """Return on which side of the way from a to b a point lies; positive to the left [m²]."""
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
