"""``draw``: writes the drawings of a boat and tells their names."""

import re
from pathlib import Path
from typing import TYPE_CHECKING

from trimdive.cli.typed import state_of
from trimdive.cli.writing import FOLDER, written

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.hydrostatics.equilibrium import State


def drawn(her: "Assessment", tanks: str | None, out: Path) -> list[Path]:
    """Return the files of the drawings, written: the states of ``float``, or tanks as asked.

    Raises:
        BoatFileError: They cannot be written there.
    """
    from trimdive.pictures.drawings import boat_drawing

    shown = _both(her) if tanks is None else {tanks: state_of(tanks, her)}
    states = {f"{file_name(her.boat.name)}-{file_name(how)}.svg": at for how, at in shown.items()}
    return [written(out / name, boat_drawing(her, at), FOLDER) for name, at in states.items()]


def _both(her: "Assessment") -> "dict[str, State]":
    """Return the two states that are drawn unasked, by name."""
    if not her.boat.tanks:
        return {"surfaced": her.surfaced, "held under": her.dived}
    low = her.lowest
    return {"surfaced": her.surfaced, "dived" if low.rest.under else "tanks full": low}


def file_name(text: str) -> str:
    """Return a text as part of the name of a file.

    >>> file_name("Bittern as bought"), file_name("forward tank=40 %, after tank=full")
    ('bittern-as-bought', 'forward-tank-40-after-tank-full')
    """
    return "-".join(re.findall(r"\w+", text.lower())) or "boat"
