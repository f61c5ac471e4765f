"""Where does it all go: cylinders and what lies in them arranged, beside the page, side by side."""

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, cast

from trimdive.boatfile import Part, Tank
from trimdive.boatfile.ref import ref
from trimdive.errors import BoatFileError
from trimdive.geometry.solids.build import numbered
from trimdive.page.form import Typed, field_of, number_in
from trimdive.page.places.jobs import begin, is_past, job_of, state_of, stop, took_by, wrong_of
from trimdive.page.typed_fields import TypedField, fields_of, typed_in
from trimdive.page.units import in_choice

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from trimdive.arranging.work import Arranged, Arrangement, Progress
    from trimdive.assessment import Assessment
    from trimdive.page.desk import Desk
    from trimdive.page.places.jobs import Job
    from trimdive.text.say import Say

NAME, KEPT, TAKEN = "arranging", "arranging keeps", "arranging taken"
SECONDS = 30.0  # of the processor, that it may take [s]
FORM, STAYS = "arrange.form", "arrange.stays."  # fields of its form


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One arrangement beside the others, or the boat as she is."""

    number: int  # 0: as she is
    verdict: str
    is_fine: bool
    picture: str  # SVG
    figures: tuple[str, ...]
    in_way: str
    out: str
    says: tuple[str, ...]  # in sentences: what moves, what remains, how sure it is
    can_take: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """A cylinder, or a thing in one, of which the form asks."""

    path: str
    name: str
    is_cylinder: bool
    stays: bool
    cap: TypedField | None  # at which it belongs; None of what has no such field


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """Arranging as the page shows it."""

    state: str  # "", "running", "stopped", "wrong", "done"
    short: str
    held: tuple[Held, ...]
    caps: "Mapping[str, str]"
    is_past: bool = False
    taken: int = 0  # the one that was taken last, where nothing was changed since; 0: none
    wrong: str = ""
    took: float = 0.0  # [s]
    stages: tuple[str, ...] = ()
    heads: tuple[str, ...] = ()
    rows: tuple[Row, ...] = ()
    names: tuple[str, ...] = ()  # where numbers stand for them
    notes: tuple[str, ...] = ()


def start(desk: "Desk", typed: Typed) -> None:
    """Begin to arrange her.

    Raises:
        AskError: There is nothing to arrange.
    """
    from trimdive.text.arrange_asked import checked

    checked(desk.own.her.boat)
    desk.kept[KEPT] = keeps = _ticked(typed)
    desk.kept.pop(TAKEN, None)
    begin(desk, NAME, SECONDS, _arranged, keeps)


def _arranged(
    her: "Assessment", keeps: frozenset[str], seconds: float, progress: "Progress"
) -> "Arranged":
    """Return what comes of arranging her, in a process of its own."""
    from trimdive.arranging.work import arrange  # slow to load
    from trimdive.text.arrange_text import as_she_is, figures, verdict

    done = arrange(her, keeps, seconds=seconds, progress=progress)
    for one in (done.before, *(one.her for one in done.found)):
        figures(one)  # here, and not as the page is shown; so with whether the way up is watched
    as_she_is(done.before)
    for one in done.found:
        verdict(one)
    return done


def _ticked(typed: Typed) -> frozenset[str]:
    """Return the paths of what is ticked to stay."""
    return frozenset(key.removeprefix(STAYS) for key in typed if key.startswith(STAYS))


def halt(desk: "Desk", _: Typed) -> None:
    """Stop it."""
    stop(desk, NAME)


def take(desk: "Desk", typed: Typed) -> None:
    """Write one arrangement into her file: one step of Undo.

    Raises:
        TrimdiveError: It cannot be written; she stays as she was.
    """
    from trimdive.edits.work import text_after
    from trimdive.text.arrange_short import taken_words

    job = job_of(desk, NAME)
    found = _found(job)
    if job is None or found is None:
        raise BoatFileError("nothing is arranged yet", "Drawing board", "Arrange her first.")
    if is_past(desk, job):
        raise BoatFileError("she was changed since", "Drawing board", "Arrange her again.")
    which = typed["which"]
    number = number_in(which)
    if not 1 <= number <= len(found.found) or not found.found[number - 1].is_placed:
        raise BoatFileError("there is no such arrangement", "Drawing board", "Take one shown.")
    if why := _behind(job.her):
        raise BoatFileError(f"nothing was written: {why}", "Drawing board", "Do that first.")
    text, files = desk.written()
    steps = found.found[number - 1].steps
    new, others = text_after(job.her.boat, text, files, steps)
    desk.edit(taken_words(number), new, others)
    desk.kept[TAKEN] = number, desk.written()


def _behind(her: "Assessment") -> str:
    """Return that readings do not count in her list yet; "" where they do."""
    from trimdive.page.places.tub_placing import behind

    return behind(her).rstrip(".")


def _found(job: "Job | None") -> "Arranged | None":
    from trimdive.arranging.work import Arranged

    return job.done if job is not None and isinstance(job.done, Arranged) else None


def shown(desk: "Desk", typed: Typed) -> Shown:
    """Return arranging as the page shows it."""
    from trimdive.text.arrange_short import CAPS, arrange_short
    from trimdive.text.say import Say

    job = job_of(desk, NAME)
    keeps = _ticked(typed) if field_of(typed, FORM) else desk.kept.get(KEPT, frozenset[str]())
    held = tuple(_held(desk, cast("frozenset[str]", keeps)))
    done = _found(job)
    say = Say(desk.her.boat)
    state = state_of(job)
    common = Shown(
        state=state,
        short=arrange_short(done, sum(not one.is_cylinder for one in held)),
        held=held,
        caps=CAPS,
        is_past=job is not None and state == "done" and is_past(desk, job),
        taken=_taken(desk),
        wrong=wrong_of(job) if state == "wrong" else "",
        took=took_by(job),
        stages=stages_of(job, say) if job else (),
    )
    return _with_rows(common, done, in_choice(done.before, desk.units)) if done else common


def _taken(desk: "Desk") -> int:
    """Return which arrangement she lies in, since it was taken; 0 for none."""
    number, written = cast("tuple[int, object]", desk.kept.get(TAKEN, (0, None)))
    return number if written == desk.written() else 0


def stages_of(job: "Job", say: "Say") -> tuple[str, ...]:
    """Return how far it is, in sentences."""
    from trimdive.arranging.work import Stage
    from trimdive.text.arrange_short import stage_words

    return tuple(stage_words(say, one) for one in job.told if isinstance(one, Stage))


def progress(desk: "Desk") -> dict[str, object]:
    """Return how far it is, for its script."""
    from trimdive.text.say import Say

    with desk.working():
        job = job_of(desk, NAME)
        say = Say(desk.her.boat)
    return {
        "is_running": state_of(job) == "running",
        "took": round(took_by(job), 1),
        "lines": stages_of(job, say) if job else (),
    }


def _held(desk: "Desk", keeps: frozenset[str]) -> "Iterator[Held]":
    """Yield cylinders, each with what lies in it; works of a tank go with that."""
    boat = desk.her.boat
    listed = typed_in(desk, "part")
    inside: list[tuple[str, Tank | Part]] = [
        *((f"tank[{k}]", one) for k, one in enumerate(boat.tanks, 1)),
        *((path, one) for path, one in numbered(boat) if not one.works_of),
    ]
    for k, vessel in enumerate(boat.cylinders, 1):
        path = f"cylinder[{k}]"
        yield Held(path=path, name=vessel.name, is_cylinder=True, stays=path in keeps, cap=None)
        for at, one in inside:
            if one.inside != vessel.name:
                continue
            cap = _cap(listed[ref(at).number - 1], at) if ref(at).table == "part" else None
            yield Held(path=at, name=one.name, is_cylinder=False, stays=at in keeps, cap=cap)


def _cap(typed: "Mapping[str, object]", path: str) -> TypedField:
    """Return the field that says at which cap a part belongs."""
    fields, _ = fields_of(Part, typed, path, ("at_cap",))
    return next(one for one in fields if one.key == "at_cap")


def _with_rows(shown: Shown, done: "Arranged", her: "Assessment") -> Shown:
    """Return what is shown with every arrangement beside the boat as she is."""
    from trimdive.pictures.drawings.arranged import numbered_names
    from trimdive.text.arrange_short import SHOWN
    from trimdive.text.arrange_text import assumed
    from trimdive.text.say import Say

    say = Say(her.boat)
    return replace(
        shown,
        heads=tuple(head for _, head in SHOWN),
        rows=tuple(_row(done, say, k, one) for k, one in enumerate((None, *done.found))),
        names=numbered_names(done),
        notes=tuple(assumed(done, say)),
    )


def _row(done: "Arranged", say: "Say", number: int, one: "Arrangement | None") -> Row:
    from trimdive.pictures.drawings.arranged import arranged_picture
    from trimdive.text.arrange_short import SHOWN, out_short
    from trimdive.text.arrange_text import (
        as_she_is,
        comes_out,
        is_in_order,
        moves,
        proof,
        remains,
        told,
        verdict,
    )

    her = one.her if one else done.before
    written = told(her, say)
    says: tuple[str, ...] = ()
    if one is not None:
        every = [*moves(done, say, one), remains(done, say, one), proof(say, number, one)]
        every.append(comes_out(one) if one.outs else "")
        says = tuple(text for text in every if text)
    return Row(
        number=number,
        verdict=verdict(one) if one else as_she_is(her),
        is_fine=is_in_order(one) if one else her.urgent == 0,
        picture=arranged_picture(done, one),
        figures=tuple(written[key] for key, _ in SHOWN),
        in_way=written["share_room"],
        out=out_short(one) if one else "–",
        says=says,
        can_take=one is not None and one.is_placed,
    )
