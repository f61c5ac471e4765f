"""The answers as one JSON document: SI, keys with their units, as docs/json.md has them."""

from pathlib import Path
from typing import TYPE_CHECKING

from trimdive.ballast.need import foam_instead, ranges
from trimdive.ballast.need.moves import foam_across, pair_on_board, stand_ins
from trimdive.cli.afloat import marks_of
from trimdive.findings.ballast import tip_of
from trimdive.findings.order import labels
from trimdive.tables import part_row
from trimdive.tables.states import figures
from trimdive.text import words
from trimdive.text.ballast import MOVED, RAISED
from trimdive.text.documents import changes, common, finding_document, lowest
from trimdive.text.found import listed_in_words, mend, mend_kind
from trimdive.text.held import way_up
from trimdive.text.layout import Document

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.boatfile import Boat
    from trimdive.findings import Finding
    from trimdive.geometry.lines.mesh import Floats
    from trimdive.hydrostatics.equilibrium import State


def _tanks(her: "Assessment", waters: "Floats") -> list[Document]:
    fillings = waters / her.floater.tanks.capacities
    return [
        {"name": tank.name, "water_m3": float(water), "filling": float(filling)}
        for tank, water, filling in zip(her.boat.tanks, waters, fillings, strict=True)
    ]


def _draughts(her: "Assessment", state: "State") -> list[Document] | None:
    if not state.has_draughts:
        return None
    meant = her.boat.waterline
    return [
        {
            "mark": name,
            "x_m": x,
            "draught_m": state.draught(x),
            "meant_m": meant.height_at(x) if meant else None,
        }
        for name, x in marks_of(her)
    ]


def state_document(her: "Assessment", state: "State") -> Document:
    """Return how she lies at rest, as the document tells it."""
    return {
        "tanks": _tanks(her, state.rest.waters),
        "filling": words.how_full(her, state.rest.waters),
        "under": state.rest.under,
        "excess_kg": state.rest.excess if state.rest.under else None,
        "draughts": _draughts(her, state),
        **figures(state),
    }


def float_json(her: "Assessment", asked: "State | None") -> Document:
    """Return what ``float --json`` prints."""
    least, most = her.down.least_gm.state, her.down.largest_trim.state
    sink = her.surfaced.mass_to_sink_1_mm
    return {
        **common(her),
        "lowest": lowest(her),
        "surfaced": state_document(her, her.surfaced),
        "full": state_document(her, her.full),
        "dived": state_document(her, her.dived),
        "asked": state_document(her, asked) if asked else None,
        "neutral_filling": her.neutral,
        "lift_left_kg": -her.full.rest.excess,
        "upright_bg_m": her.bg,
        "least_gm": {"filling": words.how_full(her, least.rest.waters), "gm_t_m": least.gm_t},
        "largest_trim": {
            "filling": words.how_full(her, most.rest.waters),
            "trim_bow_down_rad": most.trim_angle,
        },
        "film_pull_kg": her.film,
        "film_sinks_m": her.film / sink * 1e-3 if sink > 0 else None,
        "other_rests": [
            {"trim_bow_down_rad": state.trim_angle, "heel_starboard_rad": state.heel}
            for state in her.others
        ],
        "stand_ins": [body.name for body in stand_ins(her.boat, her.bodies, her.waterline)],
    }


def litres_json(her: "Assessment") -> Document:
    """Return what ``litres --json`` prints."""
    need = her.need
    tank_water = need.fitted > 0
    return {
        **common(her),
        "need_m3": need.volume,
        "need_x_m": float(need.place[0]),
        "need_y_m": float(need.place[1]),
        "need_z_m": float(need.place[2]),
        "mass_above_kg": need.mass_above,
        "shares": [
            {"name": s.name, "volume_m3": s.volume, "mass_kg": s.mass, "x_m": s.x}
            for s in need.shares
        ],
        "tanks": [
            {
                "name": tank.name,
                "room_m3": float(room),
                "takes_m3": float(takes),
                "filling": filling,
            }
            for tank, room, takes, filling in zip(
                her.boat.tanks,
                her.full_water - her.blown_water,
                need.takes,
                ((her.blown_water + need.takes) / her.floater.tanks.capacities).tolist(),
                strict=True,
            )
        ],
        "fitted_m3": need.fitted,
        "margin": need.margin if tank_water else None,
        "filling": words.how_full(her, her.blown_water + need.takes),
        "water_x_m": float(need.water_place[0]) if tank_water else None,
        "offset_forward_m": need.offset if tank_water else None,
        "tips_bow_down_rad": tip_of(her) if tank_water else None,
        "neutral_filling": her.neutral if tank_water else None,
        "lowest": lowest(her),
        **_cures(her),
    }


def _cures(her: "Assessment") -> Document:
    need, mass, density = her.need, her.dived.displacement_mass, her.floater.density
    found = ranges(her.floater, need, her.full_water / her.floater.tanks.capacities)
    foam = foam_instead(need, words.ends(her))
    crossing = foam_across(MOVED, her.surfaced.waterplane_area, mass, density)
    pair = pair_on_board(RAISED, her.boat, her.waterline, (mass, her.bg, density))
    return {
        "fillings": [{"least": least, "most": most} for least, most in found] if found else None,
        "foam_instead": {"volume_m3": foam.volume, "x_m": foam.x} if foam else None,
        "across": {
            "foam_m3": crossing.volume,
            "sinks_m": crossing.sinks,
            "bg_gain_m": crossing.gain,
        }
        if crossing
        else None,
        "pair": {"lead_kg": pair.lead, "foam_m3": pair.foam, "bg_gain_m": pair.gain},
    }


def weigh_json(her: "Assessment") -> Document:
    """Return what ``weigh --json`` prints."""
    masses = her.masses
    x, y, z = (float(value) for value in masses.gravity)
    return {
        **common(her),
        "entries": [{**part_row(one), "inside": one.inside or None} for one in masses.entries],
        "mass_kg": masses.mass,
        "spread_kg": masses.spread,
        "x_m": x,
        "y_m": y,
        "z_m": z,
        "guessed_kg": masses.known_as("guess"),
        "dry_kg": masses.dry,
        "today_kg": masses.today.mass,
    }


def draw_json(her: "Assessment", files: list[Path]) -> Document:
    """Return what ``draw --json`` prints."""
    return {**common(her), "files": [str(file) for file in files]}


def _finding(boat: "Boat", found: "Finding", number: str) -> Document:
    return {
        "number": number,
        **finding_document(boat, found),
        "mend": mend(boat, found),
        "mend_kind": mend_kind(found),
        "edits": changes(found.edits),
        "can_be_done": bool(found.edits),
        "left": listed_in_words(boat, found.left),
        "hidden": listed_in_words(boat, found.hidden),
        "follows": [{"check": key, "subject": subject} for key, subject in found.follows],
    }


def check_json(her: "Assessment") -> Document:
    """Return what ``check --json`` prints."""
    return {
        **common(her),
        "lowest": lowest(her),
        "tips_bow_down_rad": her.lowest.trim_angle,
        "lift_left_kg": -her.full.rest.excess,
        "upright_bg_m": her.bg,
        "findings": [
            _finding(her.boat, one, number)
            for one, number in zip(her.findings, labels(her.findings), strict=True)
        ],
        "way_up": list(way_up(her)),
    }
