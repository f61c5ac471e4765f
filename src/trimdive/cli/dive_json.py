"""The dive as one JSON document: SI, keys with their units, as docs/json.md has them."""

from pathlib import Path
from typing import TYPE_CHECKING

from trimdive.ballast.dive.sinking import speed
from trimdive.ballast.dive.upright import stands_upright
from trimdive.cli.as_json import state_document
from trimdive.cli.dive_out import level_surface
from trimdive.errors import BalanceError
from trimdive.text.dive_kinks import kinks
from trimdive.text.dive_text import Dived
from trimdive.text.dive_typed import in_words
from trimdive.text.documents import common
from trimdive.text.fills import reached
from trimdive.text.layout import Document
from trimdive.text.moments import happenings, how_full

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.ballast.dive import Dive, Moment


def _moment(her: "Assessment", moment: "Moment") -> Document:
    across, along = level_surface(her, moment.state)
    return {
        "share": moment.filling,
        "stands_upright": stands_upright(her.floater, moment.state),
        "level_surface_t_m": across,
        "level_surface_l_m": along,
        "state": state_document(her, moment.state),
    }


def _worst(her: "Assessment", moment: "Moment") -> Document:
    state = moment.state
    return {
        "share": moment.filling,
        "filling": how_full(her, state),
        "gm_t_m": state.gm_t,
        "trim_bow_down_rad": state.trim_angle,
        "heel_starboard_rad": state.heel,
    }


def _way(her: "Assessment", way: "Dive", *, up: bool) -> Document:
    return {
        "moments": [_moment(her, moment) for moment in way.moments],
        "jumps": [
            {
                "share": jump.filling,
                "filling": how_full(her, jump.before),
                "angle_rad": jump.angle,
                "before": state_document(her, jump.before),
                "after": state_document(her, jump.after),
            }
            for jump in way.jumps
        ],
        "events": [
            {
                "share": event.filling,
                "filling": how_full(her, event.moment.state),
                "what": event.what,
            }
            for event in happenings(way, up=up)
        ],
        "least_gm": _worst(her, way.least_gm),
        "largest_trim": _worst(her, way.largest_trim),
        "largest_heel": _worst(her, way.largest_heel),
    }


def _sinking(her: "Assessment") -> Document:
    """Return how fast she sinks quite full, and how blowing stops her, if it does."""
    moves = her.heave
    fast = speed(her.full.rest.excess, moves.plan_area, moves.density)
    try:
        stands = her.stop
    except BalanceError:
        stands = None
    return {
        "speed_m_s": fast,
        "moving_kg": moves.moving,
        "stop_s": stands and stands.time,
        "stop_m": stands and stands.depth,
    }


def dive_json(one: Dived, files: list[Path]) -> Document:
    """Return what ``dive --json`` prints."""
    her = one.her
    return {
        **common(her),
        "order": in_words(her.boat),
        "down": _way(her, one.down, up=False),
        "up": _way(her, one.up, up=True),
        "kinks": [
            {"share": moment.filling, "filling": how_full(her, moment.state), "why": text}
            for moment, text in kinks(her, one.down)
        ],
        "held": [
            {
                "region": name,
                "moments": [
                    {"share": m.filling, "gm_t_m": m.state.gm_t, "heel_starboard_rad": m.state.heel}
                    for m in way
                ],
            }
            for name, way in her.held.items()
        ],
        "lift_left_kg": -one.down.moments[-1].state.rest.excess,
        "sinking": _sinking(her),
        "fills": [
            {"plant": name, "filling": full, "short": is_short}
            for name, full, is_short in reached(her)
        ],
        "files": [str(file) for file in files],
    }
