"""Does it fit and come out: looked for beside the page, each way out played in a picture."""

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, cast

from trimdive.errors import BoatFileError, TrimdiveError
from trimdive.page.form import Typed, field_of
from trimdive.page.places.jobs import begin, is_past, job_of, state_of, stop, took_by, wrong_of
from trimdive.page.places.tub_blocks import Piece, for_page, says
from trimdive.page.small import way_picture
from trimdive.page.units import in_choice

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.boatfile.boat import Units
    from trimdive.fit.fitted import Fit
    from trimdive.page.desk import Desk

NAME, TUBE = "ways out", "tube at hand"
SECONDS = 60.0  # that it may take [s]

_drawn: "list[tuple[Fit, Units, tuple[str, ...]]]" = []  # drawn last


@dataclass(frozen=True, slots=True, kw_only=True)
class WayView:
    """Whether one thing comes out, as the page shows it."""

    name: str
    comes_out: bool
    says: str  # in a sentence
    picture: str  # with the way to be played, as it is or with a longer opening; "" where none is
    cuts: str  # hatch that is to be longer for it, where that alone frees it; else ""
    path: str  # in the boat file


@dataclass(frozen=True, slots=True, kw_only=True)
class TubeView:
    """A tube at hand, as typed, and where it goes in."""

    outside: str = ""
    length: str = ""
    says: tuple[str, ...] = ()
    wrong: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """How things fit, as the page shows it."""

    state: str  # "", "running", "stopped", "wrong", "done"
    tube: TubeView = TubeView()
    is_past: bool = False
    wrong: str = ""
    took: float = 0.0  # [s]
    ways: tuple[WayView, ...] = ()
    charts: tuple[str, ...] = ()  # SVG: areas along her, and the largest tubes
    pieces: tuple[Piece, ...] = ()  # gaps, largest cylinder, room left


def start(desk: "Desk", _: Typed) -> None:
    """Begin to try everything."""
    begin(desk, NAME, SECONDS, _found)


def _found(her: "Assessment", seconds: float) -> "Fit":
    """Return how things fit, in a process of its own."""
    return her.fit


def cut(desk: "Desk", typed: Typed) -> None:
    """Make the opening longer through which a thing is to come out.

    Raises:
        BoatFileError: Nothing is known of that, or she was changed since.
    """
    from trimdive.findings.getting_out import longer

    job = job_of(desk, NAME)
    outs = cast("Fit", job.done).outs if job and job.done and not is_past(desk, job) else ()
    one = next((out for out in outs if out.path == typed["which"] and longer(out)), None)
    if one is None or one.cut is None:
        raise BoatFileError("she was changed since", "Does it come out?", "Try it again.")
    desk.make(f"{one.cut.name} cut longer", longer(one))


def halt(desk: "Desk", _: Typed) -> None:
    """Stop it."""
    stop(desk, NAME)


def ask_tube(desk: "Desk", typed: Typed) -> None:
    """Ask where a tube at hand goes in."""
    desk.kept[TUBE] = field_of(typed, "fit.outside"), field_of(typed, "fit.length")


def _tube(desk: "Desk") -> TubeView:
    """Return where the tube that was asked for goes into the boat as she is now."""
    from trimdive.text.fit_asked import asked_tube
    from trimdive.text.fit_text import tube_in

    outside, length = cast("tuple[str, str]", desk.kept.get(TUBE, ("", "")))
    her = desk.her
    try:
        sizes = asked_tube(her.boat, outside, length)
        found = for_page(tube_in(her, *sizes)) if sizes else []
    except TrimdiveError as error:
        return TubeView(outside=outside, length=length, wrong=says(error))
    return TubeView(outside=outside, length=length, says=tuple(one.text for one in found))


def shown(desk: "Desk") -> Shown:
    """Return how things fit as the page shows it."""
    job, tube = job_of(desk, NAME), _tube(desk)
    if job is None or state_of(job) != "done":
        return Shown(state=state_of(job), tube=tube, took=took_by(job), wrong=wrong_of(job))
    found = cast("Fit", job.done)
    past = is_past(desk, job)
    return replace(_done(in_choice(job.her, desk.units), found, past=past), tube=tube)


def _done(her: "Assessment", found: "Fit", *, past: bool) -> Shown:
    from trimdive.findings.getting_out import longer
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
            cuts=one.cut.name if one.cut and longer(one) else "",
            path=one.path,
        )
        for one in found.outs
    )
    pieces = tuple(for_page(room_text(her, found), skip=0))
    charts = _charts(her, found)
    return Shown(state="done", is_past=past, ways=ways, charts=charts, pieces=pieces)


def _charts(her: "Assessment", found: "Fit") -> tuple[str, ...]:
    """Return the charts of the room in her, drawn once in each choice of units."""
    for whose, units, drawn in _drawn:
        if whose is found and units == her.boat.units:
            return drawn
    from trimdive.pictures.charts import room_charts, svg

    charts = tuple(svg(chart) for chart in room_charts(her, found).values())
    _drawn[:] = [(found, her.boat.units, charts)]
    return charts


def short(found: Shown, desk: "Desk") -> str:
    """Return in a line how things fit, as far as it was looked at as she is now."""
    from trimdive.text.board_short import fit_short

    is_known = found.state == "done" and not found.is_past
    outs = [(one.name, one.comes_out) for one in found.ways] if is_known else None
    return fit_short(len(desk.her.boat.hatches), outs, was_tried=found.is_past)


def stays(desk: "Desk") -> int | None:
    """Return how many large things do not come out; None: nobody looked at her as she is now."""
    job = job_of(desk, NAME)
    if job is None or state_of(job) != "done" or is_past(desk, job):
        return None
    return sum(one.way is None for one in cast("Fit", job.done).outs)


def progress(desk: "Desk") -> dict[str, object]:
    """Return how far it is, for its script."""
    with desk.working():
        job = job_of(desk, NAME)
    return {"is_running": state_of(job) == "running", "took": round(took_by(job), 1), "lines": ()}
