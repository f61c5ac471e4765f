"""The answers of the Tub that are worked out of her alone: litres, dive, stability, reach, what if.

Each is the terminal's own words and tables, with its chart; kept by the boat they are of.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, cast

from trimdive.errors import TrimdiveError
from trimdive.page.form import Typed, field_of
from trimdive.page.places.tub_blocks import Piece, for_page, parted, says
from trimdive.page.places.tub_reading import pieces
from trimdive.pictures.charts import (
    Chart,
    dive_chart,
    gm_chart,
    gz_chart,
    lever_states,
    reach_chart,
    svg,
)
from trimdive.text import words
from trimdive.text.ballast import litres_text, tank_place
from trimdive.text.dive_text import COARSE, dive_text, dived, tried
from trimdive.text.dive_typed import as_typed, ordered
from trimdive.text.layout import heading, labelled, line
from trimdive.text.reach_text import reach_text
from trimdive.text.sentences.ballast import margin_words
from trimdive.text.whatif_asked import Other, asked
from trimdive.text.whatif_text import what_if_text
from trimdive.water import waters

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.ballast.dive import Dive

NONE = 5e-4  # so small a GM or BG holds her up no more [m]
LEAST = 1e-9  # of a bar, so that none is measured by nothing [m³]
KEPT = 24  # answers kept of one boat
NAMES = ("order", "water", "without", "instead", "mass", "volume", "x", "z")


@dataclass(frozen=True, slots=True, kw_only=True)
class Tried:
    """An order of filling, and what comes of it."""

    typed: str  # "" as planned
    name: str
    tips: str  # at most
    share: float  # of the worst of all orders [-]
    at: str  # how full she is then
    gm: str  # at the least
    flops: int
    is_shown: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Large:
    """A figure written large."""

    name: str
    value: str
    says: str
    why: str  # key of its panel; "" where it has none
    is_amiss: bool = False
    share: float = 0.0  # of the longest bar; nought: it has none [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """What one section answers."""

    larges: tuple[Large, ...]
    charts: tuple[str, ...]  # SVG
    pieces: tuple[Piece, ...]
    orders: tuple[Tried, ...] = ()
    wrong: Mapping[str, str] = field(default_factory=dict[str, str])  # by field

    @property
    def parts(self) -> list[tuple[str, list[Piece]]]:
        """Return what is said in parts, each with its heading."""
        return parted(self.pieces)


def answer(her: "Assessment", at: str, typed: Typed) -> Answer:
    """Return what a section answers; what was typed wrong is told with the answer without it.

    Args:
        her: The boat.
        at: Key of the section.
        typed: What the form held.
    """
    kept, key = _kept(her), key_of(at, typed)
    if key not in kept:
        if len(kept) >= KEPT:
            kept.clear()
        kept[key] = ANSWERS[at](her, {name: field_of(typed, f"tub.{name}") for name in NAMES})
    return kept[key]


def key_of(at: str, typed: Typed) -> tuple[str, ...]:
    """Return by what an answer is kept."""
    used = USES.get(at, ())
    return (at, *(field_of(typed, f"tub.{name}") for name in used))


def known_answer(her: "Assessment", at: str, typed: Typed) -> Answer | None:
    """Return an answer that is there already."""
    return _kept(her).get(key_of(at, typed))


def _kept(her: "Assessment") -> dict[object, Answer]:
    """Return the answers that are there already, in the units in which she is shown."""
    return cast("dict[object, Answer]", her.kept.setdefault(("tub", her.boat.units), {}))


def _litres(her: "Assessment", _: Typed) -> Answer:
    boat, need, write = her.boat, her.need, her.boat.units.write
    thumb = need.rule_litres
    most = max(need.volume, thumb, need.fitted, LEAST)
    larges = (
        Large(
            name="she needs",
            value=write(need.volume, "volume"),
            says=f"of ballast water, its centre {boat.place(float(need.place[0]))}",
            why="litres-needed",
            share=need.volume / most,
        ),
        Large(
            name="the rule of thumb",
            value=write(thumb, "volume"),
            says="it counts kilograms above the waterline; only their volume counts",
            why="rule-of-thumb",
            share=thumb / most,
        ),
        *(_tanks(her, most) if boat.tanks and need.volume > 0 else ()),
    )
    return Answer(larges=larges, charts=(), pieces=tuple(for_page(litres_text(her))))


def _tanks(her: "Assessment", most: float) -> tuple[Large, Large]:
    """Return what her tanks take and where it lies.

    Args:
        her: The boat.
        most: Volume of the longest bar [m³].
    """
    need, write = her.need, her.boat.units.write
    takes = Large(
        name="her tanks take",
        value=write(need.fitted, "volume"),
        says=_margin(her),
        why="",
        is_amiss=need.margin < 0,
        share=need.fitted / most,
    )
    lies = Large(
        name="their centre is off by",
        value=write(abs(need.offset), "length"),
        says=_off(her),
        why="tank-water-offset",
        is_amiss=any(one.key == "tank-offset" for one in her.checked),
    )
    return takes, lies


def _margin(her: "Assessment") -> str:
    need = her.need
    if need.margin < 0:
        lack = her.boat.units.write(need.volume - need.fitted, "volume")
        return f"{lack} too little"
    return f"{margin_words(need.margin)} more than she needs"


def _off(her: "Assessment") -> str:
    forward, back = words.way(her.need.offset)
    so = {
        "right": "",
        "little": "; nothing to move",
        "she is off": "; she does not float on her waterline: put that right first",
        "others": "; fixing her other faults fixes this too",
        "move": f"; move it {back}",
    }[place := tank_place(her)]
    lies = "" if place == "right" else f" {forward} of"
    return f"it is{lies} where her waterline needs it{so}"


def _dive(her: "Assessment", typed: Typed) -> Answer:
    order = typed["order"]
    wrong: dict[str, str] = {}
    now = her
    if order:
        try:
            now = _again(her, as_typed(her, order, None))
        except TrimdiveError as error:
            wrong["tub.order"] = says(error)
    one = dived(now, None)
    chart = svg(dive_chart(now, one.down, one.up))
    orders = _orders(her, one.down, order if not wrong else "") if len(her.boat.tanks) > 1 else ()
    given = tuple(for_page(dive_text(one, orders=False)))
    return Answer(
        larges=_worst(now, one.down), charts=(chart,), pieces=given, orders=orders, wrong=wrong
    )


def _again(her: "Assessment", other: "Assessment") -> "Assessment":
    """Return another boat as the same one filled otherwise, in the units in which she is shown."""
    return other.in_units(her.boat.units)


def _worst(her: "Assessment", way: "Dive") -> tuple[Large, ...]:
    tip, least = way.largest_trim.state, way.least_gm.state
    tips = words.trim(her.boat, tip.trim_angle)
    size, _, way_words = tips.partition(" ")
    gm = her.boat.units.write(least.gm_t, "length")
    flops = len(way.jumps)
    return (
        Large(
            name="largest trim on the way down",
            value=size,
            says=f"{way_words}, {words.filling(her, tip)} full" if way_words else "",
            why="",
        ),
        Large(
            name="least GM on the way down",
            value=gm,
            says=f"{words.filling(her, least)} full",
            why="",
            is_amiss=least.gm_t < NONE,
        ),
        Large(
            name="flops",
            value=str(flops) if flops else "nowhere",
            says="from one way of floating to another" if flops else "she goes down steadily",
            why="",
            is_amiss=bool(flops),
        ),
    )


def _orders(her: "Assessment", down: "Dive", order: str) -> tuple[Tried, ...]:
    """Return orders of filling side by side; the one that is shown, going down, among them."""
    from trimdive.assessment import Assessment

    boats = {"": her.boat, **tried(her.boat, her.neutral)}
    if order and order not in boats:
        boats[order] = ordered(her.boat, order, her.neutral)
    found: list[tuple[str, Assessment, Dive]] = []
    for text, boat in boats.items():
        one = her if not text else Assessment(boat=boat, files=her.files)
        way = down if text == order else _way(one, text)
        found.append((text, one, way))
    angles = [abs(way.largest_trim.state.trim_angle) for _, _, way in found]
    most = max(*angles, 1e-6)
    return tuple(
        Tried(
            typed=text,
            name=text or "as planned",
            tips=words.trim(her.boat, way.largest_trim.state.trim_angle),
            share=angle / most,
            at=words.filling(one, way.largest_trim.state),
            gm=her.boat.units.write(way.least_gm.state.gm_t, "length"),
            flops=len(way.jumps),
            is_shown=text == order,
        )
        for (text, one, way), angle in zip(found, angles, strict=True)
    )


def _way(her: "Assessment", order: str) -> "Dive":
    """Return the way down by another order, in coarser steps; as planned, as the dive has it."""
    return her.way(up=False, steps=COARSE) if order else dived(her, None).down


COMES_BACK = (
    "The righting lever (GZ) is how hard she comes back when heeled: above zero she comes "
    "back, below it she capsizes. GM is how steeply it begins; a free surface in a tank takes "
    "some of it."
)


def _stands(her: "Assessment", _: Typed) -> Answer:
    write = her.boat.units.write
    down = dived(her, None).down if her.boat.tanks else None
    charts: list[Chart] = []
    if down is not None:
        charts = [gz_chart(her, lever_states(her, down)), gm_chart(her, down)]
    rows = [
        ("GM lengthways, tanks blown", write(her.surfaced.gm_l, "length")),
        ("loss of GM to free surface", write(her.lowest.free_surface_t, "length")),
        ("loss of GM lengthways to free surface", write(her.lowest.free_surface_l, "length")),
    ]
    blocks = [line(), heading("How to read it"), line(COMES_BACK), labelled(rows)]
    return Answer(
        larges=_stiff(her, down),
        charts=tuple(svg(one) for one in charts),
        pieces=tuple(for_page(blocks)),
    )


def _stiff(her: "Assessment", down: "Dive | None") -> tuple[Large, ...]:
    """Return how stiff she is dived, surfaced and at the least."""
    write = her.boat.units.write
    first = (
        Large(
            name=f"BG, {her.lowest_name}",
            value=write(her.lowest.bg, "length"),
            says="how far B is above G: what keeps her upright dived",
            why="bg",
            is_amiss=her.lowest.bg < NONE,
        ),
        Large(
            name="GM, tanks blown",
            value=write(her.surfaced.gm_t, "length"),
            says="what keeps her upright on the surface",
            why="gm-empty",
            is_amiss=her.surfaced.gm_t < NONE,
        ),
    )
    if down is None:
        return first
    least = down.least_gm.state
    last = Large(
        name="least GM on the way down",
        value=write(least.gm_t, "length"),
        says=f"{words.filling(her, least)} full",
        why="",
        is_amiss=least.gm_t < NONE,
    )
    return (*first, last)


def _reach(her: "Assessment", _: Typed) -> Answer:
    charts = (svg(reach_chart(her, her.wanted)),) if her.boat.tanks else ()
    return Answer(larges=(), charts=charts, pieces=tuple(for_page(reach_text(her, her.wanted))))


def _what_if(her: "Assessment", typed: Typed) -> Answer:
    wrong: dict[str, str] = {}
    now = her.own or her  # what is typed without a unit is in her file's own
    if typed["water"] in waters():
        water = waters()[typed["water"]]
        now = now.in_water(water.kind, water.celsius, water.salt)
    left = [typed["without"]] if typed["without"] else []
    try:
        cases = asked(now, left, _other(typed))
    except TrimdiveError as error:
        wrong[FIELDS.get(error.where, "tub.instead")] = says(error)
        cases = asked(now, (), _other({}))
    given = tuple(for_page(what_if_text(her, cases)))
    return Answer(larges=(), charts=(), pieces=given, wrong=wrong)


def _read(her: "Assessment", _: Typed) -> Answer:
    return Answer(larges=(), charts=(), pieces=pieces(her))


FIELDS = {
    "--without": "tub.without", "--instead": "tub.instead", "--mass": "tub.mass",
    "--volume": "tub.volume", "--x": "tub.x", "--z": "tub.z",
}  # fmt: skip


def _other(typed: Typed) -> Other:
    """Return another thing in a part's place as it was typed; nothing where none was named."""
    named = typed.get("instead") or None
    fields = {name: typed.get(name) or None for name in ("mass", "volume", "x", "z")}
    return Other(name=named, **fields)


ANSWERS: "Mapping[str, Callable[[Assessment, Typed], Answer]]" = {
    "litres": _litres,
    "dive": _dive,
    "stands": _stands,
    "reach": _reach,
    "what-if": _what_if,
    "read": _read,
}
USES: Mapping[str, tuple[str, ...]] = {
    "dive": ("order",),
    "what-if": ("water", "without", "instead", "mass", "volume", "x", "z"),
}
