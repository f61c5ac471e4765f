"""The whole of a placing: as she is, or after what lead cannot mend, and the boat file with it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from trimdive.assessment import Assessment
from trimdive.boatfile import Boat, Loaded, save, set_value
from trimdive.boatfile.placing import Placing
from trimdive.edits.mends import Cure, Mend, cures, in_order, mended, unmoved
from trimdive.edits.placing import Hindered, Placement, place
from trimdive.edits.writing import beside, rewritten
from trimdive.findings import Edit, burden
from trimdive.geometry.solids.beside import read_beside
from trimdive.placing.solve.solve import Progress


@dataclass(frozen=True, slots=True, kw_only=True)
class Work:
    """What came of a placing."""

    her: Assessment  # as she is
    done: bool  # she is in order as she is: nothing is to be placed
    alone: Placement | Hindered | None  # without any mend; None: not tried, since she is in order
    mends: tuple[Mend, ...]  # what lead cannot mend, first
    steps: tuple[tuple[Edit, ...], ...]  # the same as changes, one step after another
    found: Placement | None  # after those mends, or alone where none are needed
    hindered: Hindered | None  # after those mends
    cures: tuple[Cure, ...]  # changes of another kind, where nothing else helped
    taken: int = 0  # which of them was taken, counted from 1; 0: none
    mended: Assessment | None = None  # with the mends alone, where no more helps and they do

    @property
    def edits(self) -> tuple[tuple[Edit, ...], ...]:
        """Return all changes, one step after another."""
        return (*self.steps, *((self.found.edits,) if self.found else ()))


def work(
    her: Assessment,
    wish: Placing,
    seconds: float,
    *,
    anew: bool = False,
    progress: Progress | None = None,
) -> Work:
    """Return what is to be done to a boat so that she lies right in both states.

    Args:
        her: The boat.
        wish: How she is to be placed.
        seconds: Time that each placing may take [s].
        anew: Place her even where she is in order as she is.
        progress: Called with every improvement.
    """
    others = mended(her, wish, seconds, progress, anew=anew)
    if in_order(her) and others is None and not anew:
        return Work(
            her=her, done=True, alone=None, mends=(), steps=(), found=None, hindered=None, cures=()
        )
    alone = place(her, wish, seconds, progress)
    if isinstance(alone, Placement) and (others is None or not alone.left):
        return Work(
            her=her, done=False, alone=alone, mends=(), steps=(), found=alone, hindered=None,
            cures=(),
        )  # fmt: skip
    now, found = (her, alone) if others is None else (others.her, others.found)
    is_found = isinstance(found, Placement)
    is_less = burden(now.first_findings) < burden(her.first_findings)
    return Work(
        her=her,
        done=False,
        alone=alone,
        mends=others.mends if others else (),
        steps=others.edits if others else (),
        found=found if isinstance(found, Placement) else None,
        hindered=found if isinstance(found, Hindered) else None,
        cures=() if is_found else cures(now, wish, _lacking(found), progress),
        mended=now if is_less and others and not is_found else None,
    )


def _lacking(found: Placement | Hindered) -> float:
    """Return what the tanks hold too little [m³], as far as that is in the way."""
    if isinstance(found, Placement):
        return 0.0
    return sum(one.value for one in found.shortfalls if one.key == "tank-margin")


def with_cure(done: Work, number: int) -> Work:
    """Return the work with one of its cures taken, counted from 0."""
    cure = done.cures[number]
    return Work(
        her=done.her, done=False, alone=done.alone, mends=done.mends,
        steps=(*done.steps, cure.edits) if cure.edits else done.steps,
        found=unmoved(cure.found), hindered=None, cures=done.cures,
        taken=number + 1,
    )  # fmt: skip


def _with_readings_past(boat: Boat, text: str) -> str:
    """Return the text with all readings past: they are of the boat before this change."""
    for key, pieces in (("reading", boat.readings), ("from_tub", boat.from_tub)):
        for number, piece in enumerate(pieces, 1):
            if not piece.past:
                text = set_value(text, f"{key}[{number}].past", value=True)
    return text


def text_after(
    boat: Boat, text: str, files: Mapping[str, bytes], steps: Sequence[Sequence[Edit]]
) -> tuple[str, dict[str, bytes]]:
    """Return the text of a boat file with changes written into it, and the files that they change.

    What was read of her before is past with that; what the tub said stands.

    Args:
        boat: As the text tells her.
        text: The boat file.
        files: Those beside it, by name.
        steps: The changes, one step after another.
    """
    now, others = dict(files), dict[str, bytes]()
    for edits in steps:
        text = rewritten(text, edits, now)
        others |= beside(edits)
        now |= others
    return (_with_readings_past(boat, text) if steps else text), others


def written(her: Assessment, loaded: Loaded, steps: Sequence[Sequence[Edit]]) -> Assessment:
    """Write changes into a boat file and the files beside it, and return her as she is then.

    What was read of her before is past with that; what the tub said stands. All files are written,
    or none.

    Args:
        her: The boat as she was when the changes were found.
        loaded: Her file as it was then.
        steps: The changes, one step after another.

    Raises:
        BoatFileError: The file was changed meanwhile, or cannot be written; it is then as it was.
    """
    text, others = text_after(loaded.boat, loaded.text, her.files, steps)
    saved = save(loaded, text, others, seen={name: her.files[name] for name in others})
    return Assessment(boat=saved.boat, files=read_beside(saved))
