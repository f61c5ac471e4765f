"""Does it fit and come out: looked for beside the page, each way out played in a picture."""

from dataclasses import dataclass
from typing import TYPE_CHECKING, cast

from starlette.responses import JSONResponse

from trimdive.page.form import Typed
from trimdive.page.places.jobs import begin, is_past, job_of, state_of, stop, took_by, wrong_of
from trimdive.page.places.tub_blocks import Piece, for_page
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
    if job is None or state_of(job) != "done":
        return Shown(state=state_of(job), took=took_by(job), wrong=wrong_of(job))
    found = cast("Fit", job.done)
    return _done(in_choice(job.her, desk.units), found, past=is_past(desk, job))


def _done(her: "Assessment", found: "Fit", *, past: bool) -> Shown:
    from trimdive.text.fit_text import out_words, room_text
    from trimdive.text.say import Say
    from trimdive.text.sentence import sentence

    say = Say(her.boat)
    ways = tuple(
        WayView(
            name=one.name,
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
    return JSONResponse({"is_running": state_of(job) == "running", "took": round(took_by(job), 1)})
