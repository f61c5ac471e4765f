"""What the board shows of a plan that is open: its steps, what is marked, what is wrong with it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from trimdive.boatfile import OutlineRegion
from trimdive.boatfile.regions import LinesRegion, MeshRegion, RoundRegion
from trimdive.plans.marks import CORNERS, COUNTS, PAIRS
from trimdive.text.sentence import beside_field
from trimdive.text.trace_words import (
    apart_short,
    apart_words,
    checked_words,
    counted,
    next_click,
    point_name,
    still_missing,
    thing,
    volume_words,
)

if TYPE_CHECKING:
    from trimdive.boatfile import Boat, Plan
    from trimdive.boatfile.boat import Units
    from trimdive.page.desk import Desk
    from trimdive.page.tracing import Table
    from trimdive.plans.spread import TracedSpread
    from trimdive.plans.tracing import Tracing

Said = Mapping[str, str]  # sentences, by what is wrong
HULLS = (OutlineRegion, LinesRegion, RoundRegion, MeshRegion)
THICK = "3 mm"  # a skin of which nobody has said more
SPARE = ("along-2", "up-2", "check", "waterline")  # things that may be left out
FINEST = 1  # decimals of a pixel that the page draws


@dataclass(frozen=True, slots=True, kw_only=True)
class FieldView:
    """A figure that is typed beside a thing."""

    key: str
    label: str
    value: str
    hint: str  # what is seen while it is empty
    wrong: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ThingView:
    """A thing that is marked."""

    key: str
    name: str
    says: str
    is_active: bool
    is_begun: bool
    is_whole: bool
    is_spare: bool  # it may be left out
    fields: tuple[FieldView, ...]
    note: str  # what came of it
    wrong: str
    is_going: bool  # it is being traced: what is wrong with it may only be that it is not done


@dataclass(frozen=True, slots=True, kw_only=True)
class StepView:
    """One step of tracing."""

    name: str
    answer: str
    is_open: bool
    is_wrong: bool
    things: tuple[ThingView, ...]


def tracer_view(desk: "Desk", number: int, plan: "Plan", wrong: str) -> dict[str, object]:
    """Return all that the page shows of the plan that is open.

    Args:
        desk: The boat; whoever calls holds its lock.
        number: Of the plan, from one.
        plan: The plan.
        wrong: Why its lines were refused; "" where they were not.

    Raises:
        TrimdiveError: Its picture or its marks cannot be read.
    """
    from trimdive.page.tracing import table_of

    table = table_of(desk, plan)
    return {
        "number": number,
        "name": plan.name,
        "close": "board plan-close",
        "of": "plan",
        "tiles": "/board/plan-tile",
        "sum": "/board/plan-sum",
        "whole": "Whole plan",
        "template": "places/trace_panel.html",
        "panel": {**panel_view(desk, table, None), "refused": wrong},
    }


def panel_view(desk: "Desk", table: "Table", wrong: tuple[str, str] | None) -> dict[str, object]:
    """Return the steps, and what the picture is drawn over with.

    Args:
        desk: The boat; whoever calls holds its lock.
        table: The plan.
        wrong: What was asked last and refused: of which thing, and why.
    """
    boat, units = desk.own.her.boat, desk.her.boat.units
    found = table.tracing(boat)
    said = {key: beside_field(error) for key, error in found.troubles.items()}
    refused = wrong[1] if wrong is not None else ""
    steps = _steps(table, found, said, boat, units)
    return {
        "steps": steps,
        "lie": table.marks.said("lie"),
        "of": table.marks.said("of"),
        "scale": table.marks.said("scale") or (f"1:{boat.scale:g}" if boat.scale else ""),
        "larger": table.marks.said("larger"),
        "said": {**dict.fromkeys(("lie", "scale", "larger", "sections"), ""), **said},
        "missing": still_missing(table.marks, lies=found.lie.sheet is not None),
        "apart": apart_words(found.apart, units),
        "apart_short": apart_short(found.apart, units),
        "has_hull": found.taken is not None,
        "has_waterline": found.waterline is not None,
        "regions": [
            (number, one.name)
            for number, one in enumerate(boat.regions, 1)
            if isinstance(one, HULLS)
        ],
        "refused": "",
        "thick": THICK,
        "state": {**_state(table, found), "refused": refused},
    }


def _steps(
    table: "Table", found: "Tracing", said: Said, boat: "Boat", units: "Units"
) -> tuple[StepView, ...]:
    """Return the three steps in which things are marked."""
    marks = table.marks
    is_photo = marks.said("lie") == "photo"
    lie = (*CORNERS, "check") if is_photo else PAIRS
    sections = tuple(dict.fromkeys((*marks.sections, *_active_section(table))))
    keys = {
        "How the plan lies": lie,
        "Where each view is": ("profile", "plan", "body"),
        "The lines": ("keel", "deck", "half", "waterline", *sections),
    }
    answers = (_lie(found), _views(found), _lines(table, found))
    steps: list[StepView] = []
    for (name, own), answer in zip(keys.items(), answers, strict=True):
        things = tuple(_thing(table, key, found, said, boat, units) for key in own)
        wrong = [
            key
            for key in said
            if (key.startswith(own) and not _is_going(table, key)) or key in OTHERS[name]
        ]
        steps.append(
            StepView(
                name=name,
                answer=answer,
                is_open=table.active in own,
                is_wrong=bool(wrong),
                things=things,
            )
        )
    return tuple(steps)


OTHERS = {  # what else may be wrong in a step
    "How the plan lies": ("lie", "scale"),
    "Where each view is": ("larger",),
    "The lines": ("sections",),
}


def _active_section(table: "Table") -> tuple[str, ...]:
    return (table.active,) if table.active.startswith("section-") else ()


def _lie(found: "Tracing") -> str:
    if found.lie.sheet is None:
        return "to be marked"
    checked = found.lie.checked
    return f"checked to {100 * abs(checked.share):.1f} %" if checked else "marked"


def _views(found: "Tracing") -> str:
    return f"{len(found.views)} of 3 marked" if found.views else "to be marked"


def _lines(table: "Table", found: "Tracing") -> str:
    count = sum(bool(table.marks.of(key)) for key in table.marks.sections)
    if found.taken is not None:
        return f"a hull of {count} section{'' if count == 1 else 's'}"
    return "to be traced"


def _thing(
    table: "Table", key: str, found: "Tracing", said: Said, boat: "Boat", units: "Units"
) -> ThingView:
    """Return one thing that is marked."""
    marks = table.marks
    checked = found.lie.checked if key == "check" else None
    return ThingView(
        key=key,
        name=thing(key).name,
        says=counted(marks, key),
        is_active=table.active == key,
        is_begun=bool(marks.of(key)),
        is_whole=marks.is_whole(key) if key in COUNTS else len(marks.of(key)) > 1,
        is_spare=key in SPARE,
        fields=tuple(_fields(table, key, said, boat)),
        note=checked_words(checked, units) if checked else "",
        wrong=said.get(key, ""),
        is_going=_is_going(table, key),
    )


def _is_going(table: "Table", key: str) -> bool:
    return key == table.active and key not in COUNTS


def _fields(table: "Table", key: str, said: Said, boat: "Boat") -> Sequence[FieldView]:
    """Return the figures that are typed beside a thing."""
    marks = table.marks
    unit = "m" if marks.said("of") == "ship" else boat.units.length or "mm"
    if key in PAIRS[1:]:
        names = {key: f"length, {unit}"}
    elif key in CORNERS:
        names = {f"{key}-x": "along", f"{key}-z": "up"}
    elif key.startswith("section-"):
        names = {key: f"station, {unit}"}
    else:
        return ()
    return [
        FieldView(
            key=one,
            label=f"{thing(key).name}: {hint.replace(f', {unit}', '')}",
            value=marks.said(one),
            hint=hint,
            wrong=said.get(one, "") if one != key else "",
        )
        for one, hint in names.items()
    ]


def _state(table: "Table", found: "Tracing") -> dict[str, object]:
    """Return what the page draws over the picture, in pixels."""
    marks = table.marks
    things: dict[str, list[tuple[float, float, bool, str]]] = {}
    for key, points in marks.points.items():
        count = COUNTS.get(key, len(points))
        things[key] = [
            (
                round(one.at[0], 2),
                round(one.at[1], 2),
                one.on_ink,
                point_name(key, number, count, on_ink=one.on_ink),
            )
            for number, one in enumerate(points, 1)
        ]
    return {
        "size": table.tiles.size,
        "active": table.active,
        "named": thing(table.active).name,
        "says": next_click(marks, table.active),
        "asked": _asked(table),
        "things": things,
        "drawn": {key: line.round(FINEST).tolist() for key, line in found.drawn.items()},
        "spots": found.spots.round(FINEST).tolist(),
        "undo": bool(table.past),
        "redo": bool(table.future),
        "hull": found.taken is not None,
    }


def _asked(table: "Table") -> str:
    """Return which figure is to be typed now; "" for none."""
    key, marks = table.active, table.marks
    if key in CORNERS and marks.is_whole(key):
        return next((one for one in (f"{key}-x", f"{key}-z") if not marks.said(one)), "")
    if key == "body" and marks.is_whole(key) and not marks.said("larger"):
        return "larger"
    return key if key in PAIRS[1:] and marks.is_whole(key) and not marks.said(key) else ""


def sum_view(found: "Tracing", spread: "TracedSpread", units: "Units") -> tuple[str, ...]:
    """Return what the traced hull encloses, in sentences."""
    return volume_words(spread, units, has_waterline=found.waterline is not None)
