"""The trim kit on the page: loose pieces for every water and battery, and what goes where."""

from dataclasses import dataclass
from typing import TYPE_CHECKING, cast

from trimdive.page.form import Typed, field_of
from trimdive.page.places.jobs import begin, is_past, job_of, state_of, stop, took_by, wrong_of
from trimdive.page.places.tub_blocks import Piece, for_page
from trimdive.page.units import in_choice

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.page.desk import Desk
    from trimdive.placing.kit import Kit

NAME = "trim kit"
SECONDS = 30.0  # that it may take [s]


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """A kit as the page shows it."""

    state: str  # "", "running", "stopped", "wrong", "done"
    is_past: bool = False
    wrong: str = ""
    took: float = 0.0  # [s]
    pieces: tuple[Piece, ...] = ()


def start(desk: "Desk", typed: Typed) -> None:
    """Begin to find the kit."""
    waters = field_of(typed, "tub.waters") or None
    gear = [one.strip() for one in field_of(typed, "tub.gear").split(";") if one.strip()]
    left = [one] if (one := field_of(typed, "tub.left")) else []
    begin(desk, NAME, SECONDS, _found, waters, gear, left)


def _found(
    her: "Assessment", waters: str | None, gear: list[str], left: list[str], seconds: float
) -> "Kit":
    """Return the kit, in a process of its own."""
    from trimdive.text.kit_asked import made  # slow to load

    return made(her, waters, gear, left, {}, seconds)


def halt(desk: "Desk", _: Typed) -> None:
    """Stop it."""
    stop(desk, NAME)


def shown(desk: "Desk") -> Shown:
    """Return the kit as the page shows it."""
    job = job_of(desk, NAME)
    if job is None or state_of(job) != "done":
        return Shown(state=state_of(job), took=took_by(job), wrong=wrong_of(job))
    from trimdive.text.kit_text import kit_text  # slow to load

    blocks = kit_text(in_choice(job.her, desk.units), cast("Kit", job.done))
    return Shown(state="done", is_past=is_past(desk, job), pieces=tuple(for_page(blocks)))
