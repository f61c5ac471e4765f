"""Does it fit and come out: looked for beside the page, each way out played in a picture."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from starlette.responses import JSONResponse

from trimdive.page.form import Typed
from trimdive.page.places.tub_blocks import Piece, for_page
from trimdive.page.places.tub_jobs import begin, is_past, job_of, stop
from trimdive.page.small import way_picture
from trimdive.page.units import in_choice

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response

    from trimdive.assessment import Assessment
    from trimdive.fit.fitted import Fit
    from trimdive.page.desk import Desk

NAME = "ways out"
SECONDS = 60.0  # that it may take [s]


@dataclass(frozen=True, slots=True, kw_only=True)
class WayView:
    """Whether one thing comes out, as the page shows it."""

    name: str
    path: str
    comes_out: bool
    says: str  # in a sentence
    picture: str  # with the way to be played; "" where there is none


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """How things fit, as the page shows it."""

    state: str  # "", "running", "stopped", "wrong", "done"
    is_past: bool = False
    wrong: str = ""
    took: float = 0.0  # [s]
    ways: tuple[WayView, ...] = ()
    pieces: tuple[Piece, ...] = ()  # gaps, largest cylinder, room left


def start(desk: "Desk", _: Typed) -> None:
    """Begin to try everything."""
    begin(desk, NAME, SECONDS, _found)


def _found(her: "Assessment", seconds: float) -> "Fit":
    """Return how things fit, in a process of its own."""
    return her.fit


def halt(desk: "Desk", _: Typed) -> None:
    """Stop it."""
    stop(desk, NAME)


def shown(desk: "Desk") -> Shown:
    """Return how things fit as the page shows it."""
    job = job_of(desk, NAME)
    if job is None:
        return Shown(state="")
    if job.is_running:
        return Shown(state="running", took=job.took)
    if job.is_stopped:
        return Shown(state="stopped")
    from trimdive.fit.fitted import Fit

    if not isinstance(job.done, Fit):
        return Shown(state="wrong", wrong=job.wrong or "No result.")
    return _done(desk, in_choice(job.her, desk.units), job.done, past=is_past(desk, job))


def _done(desk: "Desk", her: "Assessment", found: "Fit", *, past: bool) -> Shown:
    from trimdive.text.fit_text import out_words, room_text
    from trimdive.text.say import Say
    from trimdive.text.sentence import sentence

    del desk
    say = Say(her.boat)
    ways = tuple(
        WayView(
            name=one.name,
            path=one.path,
            comes_out=one.way is not None,
            says=sentence(out_words(say, one)),
            picture=way_picture(her, one),
        )
        for one in found.outs
    )
    pieces = tuple(for_page(room_text(her, found), skip=0))
    return Shown(state="done", is_past=past, ways=ways, pieces=pieces)


def short(found: Shown, desk: "Desk") -> str:
    """Return in a line how things fit, as far as it was looked at."""
    from trimdive.text.board_short import fit_short

    outs = [(one.name, one.comes_out) for one in found.ways] if found.state == "done" else None
    return fit_short(len(desk.her.boat.hatches), outs)


def progress(desk: "Desk", _: "Request") -> "Response":
    """Return how far it is."""
    with desk.working():
        job = job_of(desk, NAME)
    is_running = job is not None and job.is_running
    return JSONResponse({"is_running": is_running, "took": round(job.took, 1) if job else 0})
