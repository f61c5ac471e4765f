"""Files of a dive: every moment as CSV, and its charts."""

import csv
from collections.abc import Callable, Iterator, Sequence
from io import StringIO
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np

from trimdive.ballast.dive.upright import stands_upright
from trimdive.cli.layout import Block, line
from trimdive.cli.sheets import file_name
from trimdive.cli.writing import written
from trimdive.pictures.charts import (
    Chart,
    dive_chart,
    gm_chart,
    gz_chart,
    lever_states,
    reach_chart,
    room_charts,
    svg,
)
from trimdive.text.moments import how_full, outer_marks
from trimdive.text.surfaces import level_surface

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.ballast.dive import Moment
    from trimdive.ballast.reach import Wanted
    from trimdive.hydrostatics.equilibrium import State
    from trimdive.text.dive_text import Dived

Figure = Callable[["State"], float | int | str]
UP = np.array([0.0, 0.0, 1.0])


def _figures(her: "Assessment") -> dict[str, Figure]:
    """Return every column after way and share, by its head."""
    (_, aft), (_, fore) = outer_marks(her)
    room = her.floater.tanks.capacities
    tanks: dict[str, Figure] = {
        f"filling {tank.name}": lambda s, k=k: float(s.rest.waters[k] / room[k])
        for k, tank in enumerate(her.boat.tanks)
    }
    return {
        "filling": lambda s: how_full(her, s),
        **tanks,
        "under": lambda s: int(s.rest.under),
        "stands_upright": lambda s: int(stands_upright(her.floater, s)),
        "draught_aft_m": lambda s: s.draught(aft) if s.has_draughts else "",
        "draught_fore_m": lambda s: s.draught(fore) if s.has_draughts else "",
        "trim_bow_down_rad": lambda s: s.trim_angle,
        "heel_starboard_rad": lambda s: s.heel,
        "displacement_kg": lambda s: s.displacement_mass,
        "out_of_water_m3": lambda s: s.reserve,
        "gm_t_m": lambda s: s.gm_t,
        "gm_l_m": lambda s: s.gm_l,
        "bg_m": lambda s: s.bg,
        "buoyancy_z_m": lambda s: s.kb,
        "gravity_z_m": lambda s: s.kg,
        "free_surface_t_m": lambda s: s.free_surface_t,
        "level_surface_t_m": lambda s: level_surface(her, s)[0],
        "free_surface_l_m": lambda s: s.free_surface_l,
        "level_surface_l_m": lambda s: level_surface(her, s)[1],
    }


def moments_csv(one: "Dived") -> str:
    """Return every moment of both ways as CSV, in SI."""
    text = StringIO()
    figures = _figures(one.her)
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(["way", "share", "jump", *figures])
    for name, way in (("down", one.down), ("up", one.up)):
        jumps = {jump.filling for jump in way.jumps}
        for moment in way.moments:
            writer.writerow([name, *_row(moment, moment.filling in jumps, figures)])
    return text.getvalue()


def _row(moment: "Moment", jumps: bool, figures: dict[str, Figure]) -> list[float | int | str]:
    return [moment.filling, int(jumps), *(tell(moment.state) for tell in figures.values())]


def dive_csv(one: "Dived", file: Path | None) -> list[Path]:
    """Return the table of all moments, written where it was asked for."""
    return [] if file is None else [written(file, moments_csv(one))]


def _charts(one: "Dived") -> Iterator[tuple[str, Chart]]:
    her = one.her
    yield "dive", dive_chart(her, one.down, one.up)
    yield "gz", gz_chart(her, lever_states(her, one.down))
    yield "gm", gm_chart(her, one.down)


def dive_charts(one: "Dived", folder: Path | None) -> list[Path]:
    """Return the charts, written into the folder that was asked for."""
    if folder is None:
        return []
    name = file_name(one.her.boat.name)
    return [written(folder / f"{name}-{kind}.svg", svg(chart)) for kind, chart in _charts(one)]


def reach_charts(her: "Assessment", wanted: Sequence["Wanted"], folder: Path | None) -> list[Path]:
    """Return the chart of what water covers, written into the folder that was asked for."""
    if folder is None or not her.boat.tanks:
        return []
    file = folder / f"{file_name(her.boat.name)}-reach.svg"
    return [written(file, svg(reach_chart(her, wanted)))]


def fit_charts(her: "Assessment", folder: Path | None) -> list[Path]:
    """Return the charts of the room in her, written into the folder that was asked for."""
    if folder is None:
        return []
    name = file_name(her.boat.name)
    return [
        written(folder / f"{name}-{kind}.svg", svg(chart))
        for kind, chart in room_charts(her, her.fit).items()
    ]


def files_written(files: list[Path]) -> Iterator[Block]:
    """Yield the names of files that were written."""
    if files:
        yield line()
        yield line(f"Written: {', '.join(map(str, files))}.")
