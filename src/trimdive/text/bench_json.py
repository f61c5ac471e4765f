"""``bench`` as one JSON document, in SI."""

from math import degrees
from typing import TYPE_CHECKING

from trimdive.data.cautions import cautions
from trimdive.text.care import care_words
from trimdive.text.cylinder_words import part_name
from trimdive.text.deep import may_go_json
from trimdive.text.documents import common, found_document
from trimdive.text.gaps import gap
from trimdive.text.said import said
from trimdive.text.say import Say

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.bench import CylinderBench
    from trimdive.findings.plant import Works
    from trimdive.text.layout import Document


def _cautions(her: "Assessment", *, kinds: bool) -> list[str]:
    """Return the cautions of the bench for a program, those of the text."""
    leak = [one.short for one in cautions("leak test")] if her.bench.cylinders else []
    more = [one.short for one in cautions("kinds")] if kinds else []
    own = care_words("bench", [plant.kind for plant in her.boat.plants])
    return list(dict.fromkeys([*leak, *more, *own]))


def bench_json(her: "Assessment", *, kinds: bool = False) -> "Document":
    """Return what ``bench --json`` tells.

    Args:
        her: The boat.
        kinds: Whether every other kind of plant was asked for.
    """
    say = Say(her.boat)
    return {
        **common(her),
        "not_entered": _not_entered_json(her),
        "depth_m": her.bench.depth,
        **may_go_json(her),
        "findings": [
            found_document(her.boat, one) for one in her.bench_findings
        ],
        "cylinders": [_cylinder_json(say, one) for one in her.bench.cylinders],
        "leak_tests": [
            {"cylinder": one.cylinder, "date": one.date.isoformat(), "water_in_m3_s": one.water_in,
             "at_most_m3_s": one.most, "passes": one.passes}
            for one in her.bench.leaks
        ],
        **_plant_json(say, her.works),
        "cautions": _cautions(her, kinds=kinds),
        "linkages": [
            {"name": one.name, "reaches": one.reaches, "rod_force_n": one.rod_force,
             "torque_spare": one.spare}
            for one in her.works.links
        ],
    }  # fmt: skip


def _not_entered_json(her: "Assessment") -> "list[Document]":
    return [
        {"key": one.key, "path": one.path, "what": words.what, "not_known": words.leaves,
         "enter": words.enter}
        for one in her.not_entered
        for words in (gap(one),)
    ]  # fmt: skip


def _plant_json(say: Say, works: "Works") -> "Document":
    """Return plants, and where she ends up when something fails."""
    return {
        "plant": [
            {"name": one.name, "kind": one.kind,
             "figures": {figure.key: figure.value for figure in one.figures}}
            for one in works.answers
        ],
        "failures": [
            {"failure": one.failure, "state": one.start, "does": said(say, one.does),
             "ends": one.ends, "lift_left_kg": one.grams,
             "trim_bow_down_deg": degrees(one.trim_angle)}
            for one in (works.failures.squares if works.failures else ())
        ],
    }  # fmt: skip


def _cylinder_json(say: Say, one: "CylinderBench") -> "Document":
    return {
        "name": one.name,
        "bears_m": one.strength.depth,
        "weakest": part_name(one.strength.weakest),
        "margin": one.margin,
        "test_pressure_pa": one.strength.test_pressure,
        "parts": [
            {"name": part_name(part), "gives_way_m": part.gives_way, "factor": part.factor,
             "bears_m": part.depth}
            for part in one.strength.parts
        ],
        "air_m3": one.air,
        "air_known": said(say, one.dry.space.known),
        "inside": [{"state": state.key, "pressure_pa": state.pressure} for state in one.inside],
        "push_off_n": one.push.load,
        "holds_n": one.holds,
        "rings": [
            {"cap": end.name, "number": ring.ring.number, "squeeze": ring.fitted.squeeze.usual,
             "squeeze_least": ring.fitted.squeeze.least,
             "faults": [said(say, fault) for fault in ring.faults]}
            for end in one.caps
            for ring in end.rings
        ],
        "assumed": [said(say, taken) for taken in one.assumed],
    }  # fmt: skip
