"""What the page's templates are given: words and numbers, finished."""

from typing import TYPE_CHECKING

from trimdive.page.large import larges
from trimdive.page.marked import marked, on_board
from trimdive.page.remains import at_once, is_whole, urgent
from trimdive.page.rows import causes
from trimdive.page.track import exact
from trimdive.page.units import CHOICES, bare
from trimdive.pictures.drawings.words import state_words

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.hydrostatics.equilibrium import State
    from trimdive.page.desk import Desk, Slider

View = dict[str, object]
STEP = 0.001  # of the slider [-]


def lowest_filling(her: "Assessment") -> float:
    """Return the filling at which she is neutral, or full where she will not go under [-]."""
    low, high = float(her.blown_water.sum()), float(her.full_water.sum())
    if not her.full.rest.under or high <= low:
        return 1.0
    return min(max((float(her.dived.rest.waters.sum()) - low) / (high - low), 0.0), 1.0)


def standing(her: "Assessment", slider: "Slider") -> tuple[float, "State"]:
    """Return filling and state at the slider.

    Untouched, or within half a step of where she is neutral, it stands there exactly.
    """
    low = lowest_filling(her)
    if slider.filling is None or not her.boat.tanks or abs(slider.filling - low) <= STEP / 2:
        return low, her.lowest
    return slider.filling, her.moment(slider.filling, up=slider.up).state


def state_view(her: "Assessment", slider: "Slider") -> View:
    """Return how she lies at the slider, for the browser, and in words and figures."""
    filling, state = standing(her, slider)
    return {
        "lie": exact(her, state, filling),
        "words": state_words(her, state),
        "figures": larges(her, state),
    }


def page_view(desk: "Desk") -> View:
    """Return all that the page's template shows."""
    from trimdive.page.places.board_fit import stays  # the places lean on this file

    her = desk.her
    every = at_once(desk)
    found = causes(her.boat, every, is_tried=is_whole(her))
    warm = her.boat.units.write(her.water.celsius, "temperature")
    view = state_view(her, desk.slider)
    return {
        "boat": her.boat,
        "scale": f"1:{her.boat.scale:g}" if her.boat.scale else "",
        "water": f"{her.water.kind} water, {warm}",
        "file": desk.path.name,
        "shown": desk.shown,
        "view": view,
        "start": view["lie"],
        "filling": round(standing(her, desk.slider)[0] / STEP) * STEP,
        "is_touched": desk.slider.filling is not None,
        "step": STEP,
        "marks": marked(desk.own.her, urgent(every)) | on_board(stays(desk)),
        "urgent": [row for row in found if row.is_urgent],
        "count": urgent(every),  # as the terminal counts them: with what goes with others
        "undo": desk.steps[desk.at].says if desk.at else "",
        "redo": desk.steps[desk.at + 1].says if desk.at + 1 < len(desk.steps) else "",
        "is_saved": desk.is_saved,
        "revision": desk.revision,
        "note": desk.note,
        "wrong": desk.wrong,
        "is_keeping": desk.is_keeping,
        "units": CHOICES,
        "chosen": desk.units if desk.units in CHOICES else "",
        "bare": bare(desk.file_units),
        "trouble": desk.trouble,
    }
