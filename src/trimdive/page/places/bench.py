"""Bench: the answer first, then each cylinder, plant, failsafe and linkages as a closed fold."""

import datetime
import json
import re
from typing import TYPE_CHECKING

from trimdive.boatfile import append
from trimdive.boatfile.loading import toml
from trimdive.boatfile.ref import ref
from trimdive.errors import BoatFileError, TrimdiveError
from trimdive.hydrostatics.equilibrium.named import bound, deep
from trimdive.page.entries.doors import door_to_gap
from trimdive.page.form import Typed, field_of
from trimdive.page.places.place import Place, View
from trimdive.page.places.tub_blocks import Piece, for_page
from trimdive.page.rows import causes
from trimdive.pictures.drawings.cap import cap_drawing
from trimdive.pictures.drawings.cylinder import cylinder_drawing
from trimdive.pictures.drawings.groove import groove_drawing
from trimdive.plant.failsafe import FAILURES, STARTS
from trimdive.text.bench_asked import asked_tube
from trimdive.text.bench_short import (
    cylinder_short,
    failures_short,
    feeding_short,
    leaks_short,
    links_short,
    plants_short,
)
from trimdive.text.bench_text import (
    compare_text,
    feeding_text,
    headline,
    leaks_text,
    links_text,
    plants_text,
)
from trimdive.text.cylinder_text import within_text
from trimdive.text.cylinder_words import part_name
from trimdive.text.deep import bound_of, may_go_words, seals_of
from trimdive.text.fills import planned_words
from trimdive.text.gaps import gap
from trimdive.text.said import said
from trimdive.text.say import Say
from trimdive.text.sentence import capital, sentence
from trimdive.text.tube_text import tube_text

if TYPE_CHECKING:
    from collections.abc import Iterable

    from trimdive.assessment import Assessment
    from trimdive.bench import CylinderBench
    from trimdive.bench.entered import NotEntered
    from trimdive.page.desk import Desk
    from trimdive.plant.failsafe import Square

FIELDS = (  # of a cylinder, and what they are called
    ("outside", "outside"),
    ("wall", "wall"),
    ("length", "length"),
    ("material", "material"),
    ("out_of_round", "largest less smallest diameter"),
    ("air", "free air in it"),
    ("hottest", "hottest, closed"),
)
PAPER = 165.0  # width of a cylinder opened [mm of paper]
CAP = 46.0  # breadth of a cap [mm of paper]
DEEPER = 1.25  # times where the weakest part gives way: as far as the slider goes [-]
BOTH = "§§"  # stands for the names of caps that are drawn alike
HATCHES = re.compile("<defs>.*?</defs>", re.DOTALL)
HATCH = re.compile(r"(?:id=\"|url\(#)(?:above|water|lead|foam)-[\w-]+")
LEAK = ("cylinder", "date", "gauge_start", "gauge_end", "temperature_start", "temperature_end",
        "time", "after")  # fmt: skip


def _view(desk: "Desk", typed: Typed) -> View:
    her = desk.her
    try:
        benched = her.bench
    except TrimdiveError as error:
        return {"refused": str(error), "names": []}
    found = causes(her.boat, her.bench_findings)
    asks_kinds = bool(field_of(typed, "bench_kinds"))
    return {
        "refused": "",
        "names": [one.name for one in benched.cylinders],
        "urgent": [row for row in found if row.is_urgent],
        "others": [row for row in found if not row.is_urgent],
        "headline": sentence(headline(her)).removesuffix("."),
        "not_entered": [(gap(one), door_to_gap(one)) for one in her.not_entered],
        "gaps": {
            fold: [(gap(one), door_to_gap(one)) for one in within]
            for fold, within in gaps_by_fold(her).items()
        },
        "may_go": may_go_words(her),
        "marks": marks(her),
        "short": {name: capital(short(her)) for name, short in SHORT.items()},
        "cylinders": [_one(desk, her, one) for one in benched.cylinders],
        **{name: for_page(text(her), skip=0) for name, text in PIECES.items()},
        "failures": _failures(her),
        "kinds": _kinds(her) if asks_kinds else [],
        "plants": [plant.kind for plant in her.boat.plants],
        "asks_kinds": asks_kinds,
        "tube": _tube(typed),
        "tube_typed": {key: field_of(typed, f"tube_{key}") for key in ("bore", "depth", "of")},
        "leak": {key: field_of(typed, f"leak_{key}") for key in LEAK},
        "today": datetime.date.today().isoformat(),
    }


SHORT = {
    "leaks": leaks_short,
    "failures": failures_short,
    "plant": plants_short,
    "fuses": feeding_short,
    "linkages": links_short,
}
PIECES = {
    "leaks": leaks_text,
    "plant": plants_text,
    "fuses": feeding_text,
    "linkages": links_text,
}
FOLDS = {"plant": "plant", "tank": "plant", "failsafe": "failures", "battery": "fuses",
         "linkage": "linkages", "boat": "plant", "brief": "failures"}  # fmt: skip
LEAKS = ("bench-leak", "bench-air")


def marks(her: "Assessment") -> dict[str, tuple[int, int]]:
    """Return for each fold how much is to be put right in it, and how much is not entered.

    Args:
        her: The boat.
    """
    found: dict[str, list[int]] = {}
    for one in her.bench_findings:
        place = "leaks" if one.key in LEAKS else _fold(one.subject)
        found.setdefault(place, [0, 0])[0] += one.weight == "put right"
    for fold, within in gaps_by_fold(her).items():
        found.setdefault(fold, [0, 0])[1] += len(within)
    return {name: (urgent, gaps) for name, (urgent, gaps) in found.items()}


def gaps_by_fold(her: "Assessment") -> "dict[str, list[NotEntered]]":
    """Return what is not entered, by the fold in which it would stand."""
    found: dict[str, list[NotEntered]] = {}
    for one in her.not_entered:
        found.setdefault(_fold(one.path), []).append(one)
    return found


def _fold(path: str) -> str:
    """Return in which fold a piece of the boat file stands; a cylinder has one of its own."""
    kind = re.split(r"\W", path)[0]
    return path if kind == "cylinder" else FOLDS.get(kind, "plant")


def _kinds(her: "Assessment") -> list[Piece]:
    """Return every kind of plant side by side."""
    return [*for_page(compare_text(her, with_care=False), skip=0)]


def _failures(her: "Assessment") -> View | None:
    """Return where she ends up when something fails: a row a failure, a column a state."""
    found = her.works.failures
    if found is None:
        return None
    return {
        "depth": deep(her.boat, found.depth),
        "starts": STARTS,
        "planned": planned_words(her),
        "rows": [
            (one, [_square(her, found.at(one, start)) for start in STARTS]) for one in FAILURES
        ],
    }


def _square(her: "Assessment", one: "Square") -> View:
    """Return one failure in one state in words."""
    say = Say(her.boat)
    is_amiss = not one.is_entered or one.ends in ("under", "hovering")
    return {
        "is_entered": one.is_entered,
        "is_amiss": is_amiss,
        "text": said(say, one.ending),
        "does": said(say, one.does),
    }


def _one(desk: "Desk", her: "Assessment", one: "CylinderBench") -> View:
    number = ref(one.path).number
    pieces = toml(desk.written()[0], desk.path.name).get("cylinder", [])
    typed = pieces[number - 1] if isinstance(pieces, list) else {}
    parts = _parts(her, one)
    limit = bound_of(her, one)
    deepest = DEEPER * max(one.strength.weakest.gives_way, one.depth)
    return {
        "name": one.name,
        "path": one.path,
        "number": number,
        "short": capital(cylinder_short(her, one)),
        "drawing": own_hatches(cylinder_drawing(her, one, PAPER), f"cylinder-{number}"),
        "parts": parts,
        "bound": limit.depth,
        "limit": limit.of,
        "limits": json.dumps(parts).replace("<", "\\u003c"),
        "deepest": round(deepest, 1),
        "depth": one.depth,
        "fields": [
            (key, label, str(typed.get(key, "")) if isinstance(typed, dict) else "")
            for key, label in FIELDS
        ],
        "pieces": for_page(within_text(her, one), skip=0),
        "caps": _caps(her, one),
        "grooves": [own_hatches(drawn, f"groove-{number}") for drawn in _grooves(her, one)],
    }


def _caps(her: "Assessment", one: "CylinderBench") -> list[str]:
    """Return its caps; two that are alike are drawn once."""
    drawn = [(end, cap_drawing(her, one, end, CAP)) for end in one.caps]
    alike: dict[str, list[str]] = {}
    for end, cap in drawn:
        alike.setdefault(cap.replace(end.name, BOTH), []).append(end.name)
    return [cap.replace(BOTH, _named(names)) for cap, names in alike.items()]


def _named(caps: list[str]) -> str:
    """Return the name of a cap, or of both."""
    return caps[0] if len(set(caps)) == 1 else "both caps"


def _grooves(her: "Assessment", one: "CylinderBench") -> list[str]:
    """Return each groove as it is, and as it is to be cut where it does not seal, each once."""
    rings = [(end.name, ring) for end in one.caps for ring in end.rings]
    found: dict[str, list[str]] = {}
    for name, ring in rings:
        as_is = groove_drawing(her.boat, ring.fitted, f"{BOTH}: as it is", has_shares=False)
        found.setdefault(as_is, []).append(name)
        if ring.wanted is not None and ring.faults:
            cut = f"{BOTH}: to cut, ring {ring.wanted.ring.number}"
            found.setdefault(
                groove_drawing(her.boat, ring.wanted, cut, has_shares=False), []
            ).append(name)
    return hatched_once(drawn.replace(BOTH, _named(names)) for drawn, names in found.items())


def own_hatches(drawing: str, whose: str) -> str:
    """Return a drawing whose hatches are its own: one in a closed fold lends none to another.

    >>> own_hatches('<pattern id="water-2"/><path fill="url(#water-2)"/>', "one")
    '<pattern id="water-2-one"/><path fill="url(#water-2-one)"/>'
    """
    return HATCH.sub(rf"\g<0>-{whose}", drawing)


def hatched_once(drawings: "Iterable[str]") -> list[str]:
    """Return drawings of one page, of which the first alone holds the hatches that several share.

    >>> hatched_once(["<defs>a</defs>1", "<defs>a</defs>2", "<defs>b</defs>3"])
    ['<defs>a</defs>1', '2', '<defs>b</defs>3']
    """
    seen: set[str] = set()
    found: list[str] = []
    for drawing in drawings:
        hatches = HATCHES.search(drawing)
        known = hatches is not None and hatches[0] in seen
        found.append(HATCHES.sub("", drawing, count=1) if known else drawing)
        if hatches is not None:
            seen.add(hatches[0])
    return found


def _parts(her: "Assessment", one: "CylinderBench") -> list[View]:
    """Return what a cylinder's parts and its seals bear, exactly and in words, weakest first."""
    parts: list[View] = [
        {
            "name": part_name(part),
            "drawn": part.cap or part.kind,
            "bears": part.depth,
            "gives": part.gives_way,
            "bears_text": bound(her.boat, part.depth),
            "gives_text": bound(her.boat, part.gives_way),
            "factor": f"{part.factor:g}",
        }
        for part in one.strength.parts
    ]
    seals: list[View] = [
        {"name": of, "drawn": "", "bears": depth, "gives": None,
         "bears_text": bound(her.boat, depth), "gives_text": "", "factor": ""}
        for of, depth in dict.fromkeys((seal.of, seal.depth) for seal in seals_of(her, one))
    ]  # fmt: skip
    return sorted([*parts, *seals], key=lambda part: part["bears"])  # type: ignore[arg-type,return-value]


def _tube(typed: Typed) -> View:
    """Return what tube does for what was asked, or why that cannot be told."""
    bore = field_of(typed, "tube_bore")
    if not bore:
        return {"pieces": [], "wrong": ""}
    try:
        offers, deep, wide = asked_tube(
            bore, field_of(typed, "tube_depth") or "3 m", field_of(typed, "tube_of"), "600 mm"
        )
    except TrimdiveError as error:
        return {"pieces": [], "wrong": str(error)}
    return {"pieces": for_page(tube_text(offers, deep, wide), skip=0), "wrong": ""}


def _leak(desk: "Desk", typed: Typed) -> None:
    """Put down what a leak test read.

    Raises:
        TrimdiveError: Something is missing or cannot be read; nothing is changed.
    """
    typed_in = {key: field_of(typed, f"leak_{key}") for key in LEAK}
    for key in LEAK[:-1]:
        if not typed_in[key]:
            what = f"the {key.replace('_', ' at the ')} is missing"
            raise BoatFileError(what, "the leak test", "Enter it.")
    text, _ = desk.written()
    new = append(text, "leak_test", {key: value for key, value in typed_in.items() if value})
    desk.edit(f"leak test of {typed_in['cylinder']} recorded", new)


def _look(_: "Desk", __: Typed) -> None:
    """Show again, with what is typed in the place's own fields."""


BENCH = Place(
    key="bench",
    name="Bench",
    answers="What is inside cylinders and what moves: strength, seals, plant, failsafe",
    view=_view,
    acts={"leak": _leak, "look": _look},
    asks={},
    takes={},
    is_open=lambda desk: bool(desk.own.her.boat.cylinders or desk.own.her.boat.plants),
)
