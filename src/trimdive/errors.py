"""The errors a builder may meet: each says what is wrong, where, and how to mend it.

``fence`` stands around every reader of what others wrote: whatever a library raises at it comes
out as one of these errors, with the file's name.
"""

from collections.abc import Generator
from contextlib import contextmanager
from typing import Protocol


class TrimdiveError(Exception):
    """What went wrong, where, and what the builder does next."""

    def __init__(self, what: str, where: str, mend: str, *, name: str = "") -> None:
        """Keep the three parts; ``where`` is a file, line, field or name.

        Args:
            what: What is wrong.
            where: File, line, field or name.
            mend: What to do next.
            name: What the builder calls the piece at ``where``, if it has a name.
        """
        super().__init__(what, where, mend)
        self.what, self.where, self.mend, self.name = what, where, mend, name
        self.others: tuple[TrimdiveError, ...] = ()  # further mistakes, in their order
        self.left = 0  # how many more there are that are not told
        self.place = ""  # the field of the boat file, such as "tank[2].bore", where it is one
        self.beside = ""  # the whole sentence beside that field in a form, where it is another

    def __str__(self) -> str:
        """Return one sentence a mistake for the builder, each on a line of its own."""
        return "\n".join(self.sentences)

    @property
    def sentences(self) -> tuple[str, ...]:
        """Return one sentence a mistake for the builder, and how many are not told."""
        every = dict.fromkeys(one.sentence for one in (self, *self.others))
        left = [f"{self.left} more to mend after that."] if self.left else []
        return (*every, *left)

    @property
    def sentence(self) -> str:
        """Return the sentence of this mistake alone."""
        name = f" ('{self.name}')" if self.name else ""
        end = "" if self.what.endswith("?") else "."
        return " ".join(f"{self.where}{name}: {self.what}{end} {self.mend}".split())


class Typed(Protocol):
    """An answer as it was typed."""

    @property
    def key(self) -> str:
        """Return what it answers."""
        ...

    @property
    def typed(self) -> str:
        """Return what was typed."""
        ...


class UnitError(TrimdiveError, ValueError):
    """A quantity that cannot be read as typed."""

    lacks = ""  # kind of quantity whose unit is missing, where that is all


class BoatError(TrimdiveError):
    """Something told of a boat, or asked of her, that cannot be; those below say of what."""


class BoatFileError(BoatError):
    """A boat file that cannot be read or saved, or a file beside it."""


class AskError(BoatError):
    """Something asked of a boat that she has not, or that cannot be understood."""


class WaterError(BoatError):
    """A water that cannot be, or that is not known by that name."""


class PlantError(BoatError):
    """A ballast plant that cannot work as told, or not at that depth."""


class StrengthError(BoatError):
    """A tube, cap or material whose strength cannot be worked out as told."""


class LinkageError(BoatError):
    """A servo's linkage that cannot be put together or does not reach."""


class StarterError(BoatError):
    """A wish that makes no boat that floats upright."""


class TapeError(BoatError):
    """Readings with a tape that are not understood, or contradict each other."""


class DisagreementError(BoatError):
    """Two answers at the tub that no boat gives together."""

    def __init__(self, one: Typed, other: Typed) -> None:
        """Keep the two."""
        what = f"'{one.key}: {one.typed}' and '{other.key}: {other.typed}' disagree"
        super().__init__(what, "the answers", "No boat does both: do one of the two tests again.")
        self.one, self.other = one, other


class PlanError(TrimdiveError):
    """A picture of a plan that cannot be read, or marks on it that cannot be as they stand."""


class LockedError(PlanError):
    """A picture of a plan that a password locks."""


class ListError(TrimdiveError):
    """A weight list that cannot be read, taken over or written."""


class GeometryError(TrimdiveError):
    """A shape that cannot be built or measured."""


class UnmendedError(GeometryError):
    """A mesh with which nothing can be worked out before some repairs are done on it."""

    def __init__(self, what: str, where: str, mend: str, *, repairs: tuple[str, ...] = ()) -> None:
        """Keep the three parts, and all the repairs with which it would do."""
        super().__init__(what, where, mend)
        self.repairs = repairs


class BalanceError(TrimdiveError):
    """No rest was found for this state."""


class DataError(TrimdiveError):
    """A shipped table that is missing a row or holds a wrong one."""


@contextmanager
def fence(
    what: str, where: str, mend: str, kind: type[TrimdiveError] = BoatFileError
) -> Generator[None]:
    """Turn whatever is raised within into an error for the builder; errors for her pass through.

    It serves as a decorator too, where all three parts are known beforehand.

    Args:
        what: What cannot be done, as "this mesh cannot be read".
        where: The file.
        mend: What to do next.
        kind: Which error to raise.

    Raises:
        TrimdiveError: Something was raised within.
    """
    with fenced(kind(what, where, mend)):
        yield


@contextmanager
def fenced(error: TrimdiveError) -> Generator[None]:
    """Turn whatever is raised within into an error; errors for the builder pass through.

    Args:
        error: What to raise.

    Raises:
        TrimdiveError: Something was raised within.
    """
    try:
        yield
    except TrimdiveError:
        raise
    except Exception as found:  # libraries raise whatever the bytes provoke
        raise error from found
