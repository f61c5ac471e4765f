"""Pictures of a boat: her drawing in one of her states, or one of her charts."""

from collections.abc import Callable
from typing import Literal, get_args

from trimdive.assessment import Assessment
from trimdive.boatfile.near_words import folded
from trimdive.errors import AskError
from trimdive.hydrostatics.equilibrium import State
from trimdive.notebook.picture import Picture
from trimdive.pictures.charts import dive_chart, gm_chart, gz_chart, lever_states, reach_chart, svg
from trimdive.pictures.drawings import boat_drawing, section_drawing

What = Literal["surfaced", "full", "dived", "dive", "gm", "gz", "reach"]
TITLES: dict[str, str] = {
    "surfaced": "tanks blown",
    "full": "tanks full",
    "dived": "dived",
    "dive": "the dive",
    "gm": "stability on the way down",
    "gz": "righting levers",
    "reach": "what ballast water alone covers",
}
CHARTS: dict[str, Callable[[Assessment], dict[str, object]]] = {
    "dive": lambda her: dive_chart(her, her.down, her.up),
    "gm": lambda her: gm_chart(her, her.down),
    "gz": lambda her: gz_chart(her, lever_states(her, her.down)),
    "reach": lambda her: reach_chart(her, her.wanted),
}


def show(
    her: Assessment, what: What | State = "surfaced", *, section: float | None = None
) -> Picture:
    """Return a picture of a boat.

    Args:
        her: The boat.
        what: A state: "surfaced", "full", "dived", or any State of hers, such as
            ``her.at(waters)``: side view and plan. Or a chart: "dive", "gm", "gz", "reach".
        section: Where along the boat to cut her across instead, from the stern [m].

    Raises:
        AskError: There is no such picture.
    """
    if isinstance(what, State):
        return _drawn(her, what, "as she lies", section)
    if what not in get_args(What):
        mend = f"Ask for a State, or one of: {', '.join(get_args(What))}."
        raise AskError(f"there is no picture '{folded(str(what))[:40]}'", "show", mend)
    if what in CHARTS:
        return Picture(title=f"{her.boat.name}: {TITLES[what]}", svg=svg(CHARTS[what](her)))
    return _drawn(her, getattr(her, what), TITLES[what], section)


def _drawn(her: Assessment, state: State, title: str, section: float | None) -> Picture:
    if section is None:
        return Picture(title=f"{her.boat.name}, {title}", svg=boat_drawing(her, state))
    place = her.boat.place(section)
    return Picture(
        title=f"{her.boat.name}, {title}, section {place}",
        svg=section_drawing(her, section, state),
    )
