"""Bench: one cylinder opened lengthwise with its depth slider, seals, plant, failsafe, linkages."""

import datetime
import json
import re
from typing import TYPE_CHECKING

from trimdive.boatfile import append
from trimdive.boatfile.loading import toml
from trimdive.boatfile.ref import ref
from trimdive.errors import BoatFileError, TrimdiveError
from trimdive.hydrostatics.equilibrium.named import bound, deep
from trimdive.page.form import Typed, field_of
from trimdive.page.places.place import Place, View
from trimdive.page.places.tub_blocks import Piece, for_page
from trimdive.page.rows import causes
from trimdive.pictures.drawings.cap import cap_drawing
from trimdive.pictures.drawings.cylinder import cylinder_drawing
from trimdive.pictures.drawings.groove import groove_drawing
from trimdive.plant.failsafe import FAILURES, STARTS
from trimdive.text.bench_asked import asked_tube
from trimdive.text.bench_text import compare_text, cylinder_text, headline, works_text
from trimdive.text.cylinder_words import part_name
from trimdive.text.deep import bound_of, may_go_words
from trimdive.text.fills import planned_words
from trimdive.text.gaps import gap
from trimdive.text.said import said
from trimdive.text.say import Say
from trimdive.text.sentence import sentence
from trimdive.text.tube_text import tube_text

if TYPE_CHECKING:
    from collections.abc import Iterable

    from trimdive.assessment import Assessment
    from trimdive.bench import CylinderBench
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
DEEPER = 1.25  # times where the weakest part gives way: as far as the slider goes [-]
HATCHES = re.compile("<defs>.*?</defs>", re.DOTALL)
LEAK = ("cylinder", "date", "gauge_start", "gauge_end", "temperature_start", "temperature_end",
        "time", "after")  # fmt: skip


def _view(desk: "Desk", typed: Typed) -> View:
    her = desk.her
    try:
        benched = her.bench
    except TrimdiveError as error:
        return {"refused": str(error), "names": [], "one": None}
    names = [one.name for one in benched.cylinders]
    chosen = field_of(typed, "bench_cylinder")
    one = next((one for one in benched.cylinders if one.name == chosen), None)
    one = one or next(iter(benched.cylinders), None)
    found = causes(her.boat, her.bench_findings)
    return {
        "refused": "",
        "names": names,
        "urgent": [row for row in found if row.is_urgent],
        "others": [row for row in found if not row.is_urgent],
        "headline": sentence(headline(her)).removesuffix("."),
        "not_entered": [gap(one) for one in her.not_entered],
        "may_go": may_go_words(her),
        "one": None if one is None else _one(desk, her, one),
        "plant": [*for_page(works_text(her), skip=0)],
        "failures": _failures(her),
        "kinds": _kinds(her) if field_of(typed, "bench_kinds") else [],
        "plants": [plant.kind for plant in her.boat.plants],
        "asks_kinds": bool(field_of(typed, "bench_kinds")),
        "tube": _tube(typed),
        "tube_typed": {key: field_of(typed, f"tube_{key}") for key in ("bore", "depth", "of")},
        "leak": {key: field_of(typed, f"leak_{key}") for key in LEAK},
        "today": datetime.date.today().isoformat(),
    }


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
    is_amiss = not one.is_entered or one.ends == "under"
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
        "drawing": cylinder_drawing(her, one),
        "parts": parts,
        "bound": limit.depth,
        "bound_says": f"{limit.because}, to {bound(her.boat, limit.depth)}",
        "limits": json.dumps(parts).replace("<", "\\u003c"),
        "deepest": round(deepest, 1),
        "depth": one.depth,
        "fields": [
            (key, label, str(typed.get(key, "")) if isinstance(typed, dict) else "")
            for key, label in FIELDS
        ],
        "pieces": for_page(cylinder_text(her, one)),
        "caps": [cap_drawing(her, one, end) for end in one.caps],
        "grooves": _grooves(her, one),
    }


def _grooves(her: "Assessment", one: "CylinderBench") -> list[tuple[str, str, str]]:
    """Return each groove by its cap: as it is, and as it is to be cut where it does not seal."""
    rings = [(end.name, ring) for end in one.caps for ring in end.rings]
    fitted = [groove_drawing(her.boat, ring.fitted, f"{name}: as it is") for name, ring in rings]
    wanted = [
        groove_drawing(her.boat, ring.wanted, f"to cut, ring {ring.wanted.ring.number}")
        if ring.wanted is not None and ring.faults
        else ""
        for _, ring in rings
    ]
    drawn = hatched_once([*fitted, *wanted])
    names = [name for name, _ in rings]
    return list(zip(names, drawn[: len(rings)], drawn[len(rings) :], strict=True))


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
    """Return what a cylinder's parts bear, exactly and in words."""
    return [
        {
            "name": part_name(part),
            "drawn": part.cap or part.kind,
            "bears": part.depth,
            "gives": part.gives_way,
            "bears_text": bound(her.boat, part.depth),
            "gives_text": bound(her.boat, part.gives_way),
            "factor": part.factor,
        }
        for part in one.strength.parts
    ]


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
