"""Tub: water, tanks, lead, foam and readings in three groups of closed folds, or by wet hands."""

from collections import ChainMap
from collections.abc import Callable, Mapping
from contextlib import suppress
from dataclasses import dataclass
from typing import TYPE_CHECKING
from urllib.parse import urlencode

from starlette.responses import HTMLResponse, JSONResponse, Response

from trimdive.errors import TrimdiveError
from trimdive.page.form import Typed, field_of
from trimdive.page.places import tub_kit, tub_photo, tub_placing, tub_reading, tub_wet
from trimdive.page.places.jobs import job_of
from trimdive.page.places.place import Place, View
from trimdive.page.places.tub_answers import ANSWERS, NAMES, Answer, answer, known_answer
from trimdive.sheets import placing_sheet
from trimdive.text.sentence import capital
from trimdive.text.tub_short import dive_short, litres_short, readings_short, stability_short
from trimdive.text.words import neutral_words
from trimdive.water import waters

if TYPE_CHECKING:
    from starlette.requests import Request

    from trimdive.assessment import Assessment
    from trimdive.page.desk import Desk

JOBS = {"placing": tub_placing.NAME, "kit": tub_kit.NAME}
WET = "wet"


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """One of the questions that the Tub answers."""

    key: str
    name: str
    asks: str  # in a few words
    short: "Callable[[Assessment], str] | None" = None  # its answer in one line
    care: str = ""  # where the table of cautions has what belongs here
    needs_tanks: bool = False


GROUPS: "Mapping[str, tuple[Section, ...]]" = {
    "Before the tub": (
        Section(
            key="litres",
            name="Litres",
            asks="How much water does she need, and where?",
            short=litres_short,
        ),
        Section(
            key="dive",
            name="The dive",
            asks="What does she do on the way down?",
            short=dive_short,
            needs_tanks=True,
        ),
        Section(
            key="stands",
            name="Stability",
            asks="How hard does she come back when heeled?",
            short=stability_short,
        ),
    ),
    "In the tub": (
        Section(
            key="read",
            name="Readings",
            asks="What do the readings say about the weight list?",
            short=readings_short,
            care="tub",
        ),
        Section(
            key="placing",
            name="Lead and foam",
            asks="Which pieces go where?",
            needs_tanks=True,
            care="place",
        ),
    ),
    "Before the pond": (
        Section(
            key="reach",
            name="Reach",
            asks="What can ballast water alone put right?",
            needs_tanks=True,
        ),
        Section(key="what-if", name="What if", asks="Does she stay up when something goes wrong?"),
        Section(
            key="kit",
            name="Trim kit",
            asks="Which loose pieces to take along?",
            needs_tanks=True,
            care="kit",
        ),
    ),
}
SECTIONS = tuple(one for group in GROUPS.values() for one in group)


def sections(desk: "Desk") -> list[Section]:
    """Return what is answered of this boat."""
    has_tanks = bool(desk.her.boat.tanks)
    return [one for one in SECTIONS if has_tanks or not one.needs_tanks]


def _view(desk: "Desk", typed: Typed) -> View:
    """Return what is shown: folds that are open with all that is in them, the others in a line."""
    known = sections(desk)
    keys = field_of(typed, "tub.at").split()
    is_wet = WET in keys
    wrong = desk.kept.pop("tub wrong", {})
    taken = desk.kept.pop("tub taken", "")
    view: View = {
        "groups": [
            (name, [one for one in group if one in known]) for name, group in GROUPS.items()
        ],
        "open": [] if is_wet else [one.key for one in known if one.key in keys],
        "is_wet": is_wet,
        "wrong": dict(wrong) if isinstance(wrong, dict) else {},
        "typed": {
            name.removeprefix("tub."): "" if name == taken else text.strip()
            for name, text in typed.items()
            if name.startswith("tub.")
        },
        "answers": {},
        "later": {},
    }
    if is_wet:
        return view | {"wet": tub_wet.screen(desk, typed)}
    view["headline"] = neutral_words(desk.her)
    view["shorts"] = {one.key: _short(desk.her, one) for one in known}
    view["trace"] = tub_photo.shown(desk)
    answers: dict[str, Answer] = {}
    for key in ANSWERS:
        if key not in keys:
            continue
        found = known_answer(desk.her, key, typed)
        if found is not None:
            answers[key] = found
            view["wrong"] = {**view["wrong"], **found.wrong}  # type: ignore[dict-item]
    later = {key: _address(key, typed) for key in ANSWERS if key in keys and key not in answers}
    more = [MORE[key](desk) for key in keys if key in MORE]
    return view | {"answers": answers, "later": later} | dict(ChainMap(*more))


def _short(her: "Assessment", one: Section) -> str:
    """Return a question's answer in one line; the question where it is not calculated yet."""
    with suppress(TrimdiveError):
        return capital(one.short(her)) if one.short else one.asks
    return one.asks


def _address(at: str, typed: Typed) -> str:
    asked = {f"tub.{name}": field_of(typed, f"tub.{name}") for name in NAMES}
    return "/tub/answer?" + urlencode({"at": at, **{k: v for k, v in asked.items() if v}})


def _parts(desk: "Desk") -> View:
    boat = desk.her.boat
    return {
        "parts_twice": [(one.name, one.name) for one in boat.pieces],
        "waters_twice": [(name, name) for name in waters()],
        "own": f"as in the file ({boat.water.kind})",
    }


MORE: "Mapping[str, Callable[[Desk], View]]" = {
    "what-if": _parts,
    "placing": lambda desk: {
        "placing": tub_placing.shown(desk),
        "behind": tub_placing.behind(desk.her),
        "first": tub_placing.FIRST,
        "keep": tub_placing.KEEP,
        "times": tub_placing.TIMES,
        "usual": tub_placing.USUAL,
    },
    "read": lambda desk: {
        "rows": tub_reading.rows(desk),
        "examples": tub_reading.EXAMPLES,
        **tub_reading.state(desk.her),
    },
    "kit": lambda desk: {"kit": tub_kit.shown(desk), **_parts(desk)},
}


def _answer(desk: "Desk", request: "Request") -> Response:
    """Return a section's answer, worked out beside the page."""
    typed = dict(request.query_params)
    with desk.working():
        her, at = desk.her, typed.get("at", "")
    if at not in ANSWERS:
        return HTMLResponse("There is no such question.", status_code=404)
    try:
        found: Answer | None = answer(her, at, typed)
        wrong = ""
    except TrimdiveError as error:
        found, wrong = None, str(error)
    return HTMLResponse(_rendered(found, at, wrong))


def _rendered(found: Answer | None, at: str, wrong: str) -> str:
    from trimdive.page.templating import TEMPLATES

    template = TEMPLATES.get_template("places/tub_late.html")
    return template.render({"answer": found, "key": at, "trouble": wrong})


def _progress(desk: "Desk", request: "Request") -> Response:
    """Return how far a work is."""
    name = JOBS.get(request.query_params.get("of", ""), "")
    with desk.working():
        job, her = job_of(desk, name), desk.her
    if job is None:
        return JSONResponse({"is_running": False, "lines": [], "took": 0, "seconds": 0})
    return JSONResponse(
        {
            "is_running": job.is_running,
            "lines": tub_placing.lines_so_far(job, her),
            "took": round(job.took, 1),
            "seconds": job.seconds,
        }
    )


def _card(desk: "Desk", _: "Request") -> Response:
    """Return the placing card to be printed."""
    with desk.working():
        drawn, name = tub_placing.card(desk), desk.her.boat.name
    headers = {"content-disposition": 'attachment; filename="placing.pdf"'}
    return Response(placing_sheet(drawn, name), media_type="application/pdf", headers=headers)


TUB = Place(
    key="tub",
    name="Tub",
    answers="Water, tanks, lead, foam, readings",
    view=_view,
    acts={
        "place": tub_placing.start,
        "halt": tub_placing.halt,
        "cure": tub_placing.take_cure,
        "put": tub_placing.put_in,
        "read": tub_reading.read,
        "out": tub_reading.take_out,
        "correct": tub_reading.correct,
        "kit": tub_kit.start,
        "halt-kit": tub_kit.halt,
        "this": tub_wet.this_boat,
        "tell": tub_wet.tell,
        "say": tub_wet.say,
        "pass": tub_wet.pass_over,
        "why": tub_wet.ask_why,
        "back": tub_wet.back,
        "again": tub_wet.again,
        **tub_photo.ACTS,
    },
    asks={"answer": _answer, "progress": _progress, "card": _card, **tub_photo.ASKS},
    takes=tub_photo.TAKES,
)
