"""Placing on the page: what is asked, how far it is, the pieces, and all of it put in at once."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from trimdive.boatfile.placing import AIMS, Placing
from trimdive.errors import BoatFileError
from trimdive.page.form import Typed, field_of
from trimdive.page.places.jobs import Job, begin, is_past, job_of, stop
from trimdive.page.units import in_choice
from trimdive.pictures.drawings.place_card import card_of
from trimdive.text import words
from trimdive.text.found import what
from trimdive.text.place_asked import wish_of
from trimdive.text.place_missing import missing_words
from trimdive.text.place_text import (
    AIMS as AIM_WORDS,
)
from trimdive.text.place_text import (
    CONDITIONS,
    TOGETHER,
    before_after,
    cure_words,
    lacking,
    mend_words,
    piece_row,
    proof,
)
from trimdive.text.sentence import sentence

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.edits.work import Work
    from trimdive.page.desk import Desk
    from trimdive.placing.solve import Reached
    from trimdive.placing.solve.solve import Progress

NAME = "placing"
FIRST = {
    "mass": "least lead and foam", "pieces": "fewest pieces", "foam": "least foam",
    "moves": "least moved",
}  # fmt: skip
KEEP = {
    "": "as the boat file says", "nothing": "cut all again", "lead": "keep the lead",
    "foam": "keep the foam", "lead and foam": "keep both, only add",
}  # fmt: skip
TIMES = ("10", "20", "60", "180")  # that it may take [s]
USUAL = "20"
READ_FIRST = "Under Readings, correct the list by them, or remove them."
FEW = 0.0005  # less than this is not told as a gap [kg]


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """Something that can be put in."""

    number: int  # of the change it needs, counted from 1; 0: none
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """A placing as the page shows it."""

    state: str  # "", "running", "stopped", "wrong", "done"
    is_past: bool  # she was changed since
    wrong: str = ""
    reached: tuple[str, ...] = ()
    took: float = 0.0  # [s]
    seconds: float = 0.0  # that it may take [s]
    nothing: str = ""  # why nothing is to be placed
    lacks: tuple[tuple[str, str], ...] = ()  # what lead cannot keep, and by how much
    together: str = TOGETHER  # what is to be known where there are several
    missing: str = ""  # what she lacks in grams where no answer is found
    mends: tuple[str, ...] = ()
    head: tuple[str, ...] = ()
    rows: tuple[tuple[str, ...], ...] = ()
    figures: tuple[tuple[str, ...], ...] = ()
    proofs: tuple[str, ...] = ()
    cures: tuple[Offer, ...] = ()
    taken: int = 0
    is_found: bool = False
    card: str = ""  # SVG
    left: str = ""


def wish_typed(desk: "Desk", typed: Typed) -> Placing:
    """Return how she is to be placed, as the form says.

    Raises:
        BoatFileError: Something that is asked for is not known.
    """
    first = field_of(typed, "tub.first")
    return wish_of(
        desk.own.her.boat.placing,
        first if first in AIMS else None,
        field_of(typed, "tub.keep") or None,
        above=field_of(typed, "tub.above") == "yes",
    )


def start(desk: "Desk", typed: Typed) -> None:
    """Begin to place her.

    Raises:
        BoatFileError: Something that is asked for is not known.
    """
    wish = wish_typed(desk, typed)
    text = field_of(typed, "tub.seconds")
    seconds = float(text if text in TIMES else USUAL)
    anew = field_of(typed, "tub.anew") == "yes"
    desk.kept.pop("placing taken", None)
    begin(desk, NAME, seconds, _placed, wish, anew)


def _placed(
    her: "Assessment", wish: Placing, anew: bool, seconds: float, progress: "Progress"
) -> "Work":
    """Return what is to be done to her, in a process of its own."""
    from trimdive.edits.work import work  # slow to load

    return work(her, wish, seconds, anew=anew, progress=progress)


def halt(desk: "Desk", _: Typed) -> None:
    """Stop it."""
    stop(desk, NAME)


def take_cure(desk: "Desk", typed: Typed) -> None:
    """Take one of the changes that are offered where lead cannot do it."""
    done = _done(desk)
    number = int(typed["which"]) if typed["which"].isdigit() else 0
    if not 1 <= number <= len(done.cures):
        raise BoatFileError("there is no such change on offer", "Tub", "Choose one of those shown.")
    desk.kept["placing taken"] = number


def put_in(desk: "Desk", _: Typed) -> None:
    """Put the pieces in, with all that goes with them: one step of Undo.

    Raises:
        TrimdiveError: They cannot be put in; she stays as she was.
    """
    from trimdive.edits.work import text_after

    done = _done(desk)
    if done.found is None:
        raise BoatFileError("nothing was placed", "Tub", "See what stops it.")
    if why := behind(done.her):
        raise BoatFileError(f"nothing was added: {why.rstrip('.')}", "Tub", "Do that first.")
    text, files = desk.written()
    new, others = text_after(done.her.boat, text, files, done.edits)
    count = len(done.found.things)
    desk.edit(f"{count} piece{'' if count == 1 else 's'} of lead and foam placed", new, others)
    desk.kept.pop(NAME, None)
    desk.kept.pop("placing taken", None)


def behind(her: "Assessment") -> str:
    """Return in sentences that readings do not count in her list yet; "" where they do."""
    found = next((one for one in her.checked if one.key == "tub-behind"), None)
    return f"{sentence(what(her.boat, found))} {READ_FIRST}" if found else ""


def _done(desk: "Desk") -> "Work":
    """Return the placing of the boat as she is, with the change that was taken.

    Raises:
        BoatFileError: There is none.
    """
    from trimdive.edits.work import Work, with_cure

    job = job_of(desk, NAME)
    if job is None or not isinstance(job.done, Work):
        raise BoatFileError("nothing was placed yet", "Tub", "Place her first.")
    if is_past(desk, job):
        raise BoatFileError("she was changed since", "Tub", "Place again.")
    taken = desk.kept.get("placing taken", 0)
    return with_cure(job.done, taken - 1) if isinstance(taken, int) and taken else job.done


def card(desk: "Desk") -> str:
    """Return the placing card as SVG.

    Raises:
        BoatFileError: Nothing is placed.
    """
    return card_of(_done(desk))


def shown(desk: "Desk") -> Shown:
    """Return the placing as the page shows it."""
    job = job_of(desk, NAME)
    if job is None:
        return Shown(state="", is_past=False)
    from trimdive.edits.work import Work

    reached = tuple(lines_so_far(job, desk.her))
    if job.is_running:
        return Shown(
            state="running", is_past=False, reached=reached, took=job.took, seconds=job.seconds
        )
    past = is_past(desk, job)
    if job.is_stopped and job.done is None:
        return Shown(state="stopped", is_past=past, reached=reached)
    if not isinstance(job.done, Work):
        return Shown(state="wrong", is_past=past, wrong=job.wrong or "No result.")
    return _result(desk, job.done if past else _done(desk), past=past)


def _result(desk: "Desk", done: "Work", *, past: bool) -> Shown:
    from trimdive.edits.placing import Hindered

    her = in_choice(done.her, desk.units)
    if done.done:
        return Shown(state="done", is_past=past, nothing="Nothing to change.")
    found = done.found
    alone = done.hindered if found is None and done.hindered else done.alone
    lacks = alone.shortfalls if isinstance(alone, Hindered) else ()
    is_hindered = bool(done.mends) or found is None
    taken = done.taken
    return Shown(
        state="done",
        is_past=past,
        lacks=tuple((CONDITIONS[one.key], lacking(her, one)) for one in lacks)
        if is_hindered
        else (),
        missing=missing_words(alone) if isinstance(alone, Hindered) and found is None else "",
        mends=tuple(mend_words(one, her) for one in done.mends),
        head=("", "mass", "cut to", f"from {her.boat.entered_from}", "height", "side"),
        rows=tuple(
            tuple(piece_row(her, k, one)) for k, one in enumerate(found.things if found else (), 1)
        ),
        figures=tuple(tuple(row) for row in before_after(her, in_choice(found.after, desk.units)))
        if found
        else (),
        proofs=tuple(one for aim in (found.aims if found else ()) if (one := proof(her, aim))),
        cures=tuple(
            Offer(number=k, words=cure_words(her, cure)) for k, cure in enumerate(done.cures, 1)
        ),
        taken=taken,
        is_found=found is not None,
        card=card_of(done),
        left=f"{words.things(len(found.left))} even then." if found and found.left else "",
    )


def lines_so_far(job: Job, her: "Assessment") -> list[str]:
    """Return how far a placing is, a sentence an aim."""
    return [_aim(one, her) for one in job.reached]


def _aim(one: "Reached", her: "Assessment") -> str:
    name, write = AIM_WORDS[one.aim], her.boat.units.write
    kinds = {"mass": "mass", "foam": "volume", "moves": "length"}
    gap = max(one.value - one.bound, 0.0)
    if one.aim not in kinds:
        text, more = f"{one.value:.0f}", f"{gap:.0f} fewer"
    else:
        text = write(one.value, kinds[one.aim])
        more = f"{write(gap, kinds[one.aim])} {'lighter' if one.aim == 'mass' else 'less'}"
    if one.proven or (one.aim == "mass" and gap < FEW):
        return f"{name}: {text}; proven least"
    if gap == float("inf"):
        return f"{name}: {text}, so far"
    return f"{name}: {text}; could still be {more}"
