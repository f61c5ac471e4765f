"""What is asked of ``place``: aims, what is kept, which change is taken, and the file with it."""

from typing import TYPE_CHECKING

from trimdive.errors import AskError

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.boatfile import Loaded
    from trimdive.boatfile.placing import Aim, Placing
    from trimdive.edits.work import Work

KINDS = ("lead", "foam")
NOTHING = "nothing"


def _listed(text: str, known: tuple[str, ...], option: str) -> list[str]:
    """Return the words of an option, each one of those that are known.

    Raises:
        AskError: One is not, or stands twice.
    """
    names = [name.strip().lower() for name in text.replace(" and ", ",").split(",")]
    for name in names:
        if name not in known:
            raise AskError(f"'{name}' is not known", option, f"Write {', '.join(known)}.")
    if len(set(names)) < len(names):
        raise AskError(f"'{text}' names one twice", option, "Name each once.")
    return names


def wish_of(wish: "Placing", aims: str | None, keep: str | None, *, above: bool) -> "Placing":
    """Return how she is to be placed: as her file says, but for what is asked for.

    Raises:
        AskError: Something that is asked for is not known.
    """
    from trimdive.boatfile.placing import AIMS

    changed: dict[str, object] = {"above": wish.above or above}
    if aims is not None:
        named: list[Aim] = [a for a in _listed(aims, AIMS, "--aims") if a in AIMS]
        changed["aims"] = (*named, *(aim for aim in AIMS if aim not in named))
    if keep is not None:
        kept = _listed(keep, (*KINDS, NOTHING), "--keep")
        if NOTHING in kept and kept != [NOTHING]:
            raise AskError(f"'{keep}' keeps and does not", "--keep", "Write one of the two.")
        changed |= dict.fromkeys(KINDS, "anew") if kept == [NOTHING] else {}
        changed |= {kind: "keep" for kind in KINDS if kind in kept}
    return wish.model_copy(update=changed)


def taken(done: "Work", number: int | None) -> "Work":
    """Return the work with the change taken that was asked for, if any was.

    Raises:
        AskError: There is no such change on offer.
    """
    from trimdive.edits.work import with_cure

    if number is None:
        return done
    if not 1 <= number <= len(done.cures):
        count = len(done.cures)
        what = f"there is no change {number} on offer"
        mend = f"Name one of 1 to {count}." if count else "Leave --take out."
        raise AskError(what, "--take", mend)
    return with_cure(done, number - 1)


def saved_with(loaded: "Loaded", done: "Work", *, mend: bool) -> "Assessment | None":
    """Return her as she is with all of it written into her file; None where nothing is to write.

    Raises:
        AskError: Mends are needed first, which were not asked for; or it cannot be written.
    """
    from trimdive.edits.work import written

    if done.found is None and (done.mended is None or not mend):
        return None
    if done.steps and not mend:
        what = "nothing was written: she needs mends first that lead cannot do"
        raise AskError(what, str(loaded.path), "See them without --apply, or add --mend.")
    refuse_behind(loaded, done.her)
    return written(done.her, loaded, done.edits)


def refuse_behind(loaded: "Loaded", her: "Assessment") -> None:
    """Refuse to write into a file that does not use readings yet: they are of her as she is.

    Raises:
        AskError: It has some.
    """
    left = next((one for one in her.first_findings if one.key == "tub-behind"), None)
    if left is not None:
        first = "Take over what the tub says first, or take the readings out of the file."
        raise AskError(f"nothing was written: {left.what}", str(loaded.path), first)
