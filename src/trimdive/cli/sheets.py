"""``draw``: writes the drawings of a boat and tells their names."""

import re
from pathlib import Path
from typing import TYPE_CHECKING

from trimdive.cli.typed import state_of
from trimdive.errors import BoatFileError

if TYPE_CHECKING:
    from trimdive.assess import Assessment
    from trimdive.rest import State


def drawn(her: "Assessment", tanks: str | None, out: Path) -> list[Path]:
    """Return the files of the drawings, written: surfaced and dived, or with tanks as asked.

    Raises:
        BoatFileError: They cannot be written there.
    """
    from trimdive.drawings import boat_drawing

    name = file_name(her.boat.name)
    states: dict[str, State]
    if tanks is None:
        states = {f"{name}-surfaced.svg": her.surfaced, f"{name}-dived.svg": her.dived}
    else:
        states = {f"{name}-{file_name(tanks)}.svg": state_of(tanks, her)}
    try:
        out.mkdir(parents=True, exist_ok=True)
        for file, state in states.items():
            (out / file).write_text(boat_drawing(her, state), encoding="utf-8")
    except OSError as error:
        reason = (error.strerror or "it cannot be written").lower()
        mend = "Name another folder after --out."
        raise BoatFileError(reason, str(error.filename or out), mend) from None
    return [out / file for file in states]


def file_name(text: str) -> str:
    """Return a text as part of the name of a file.

    >>> file_name("Bittern as bought"), file_name("forward tank=40 %, after tank=full")
    ('bittern-as-bought', 'forward-tank-40-after-tank-full')
    """
    return "-".join(re.findall(r"\w+", text.lower())) or "boat"
