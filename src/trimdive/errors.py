"""The errors a builder may meet: each says what is wrong, where, and how to mend it."""


class TrimdiveError(Exception):
    """What went wrong, where, and what the builder does next."""

    def __init__(self, what: str, where: str, mend: str) -> None:
        """Keep the three parts; ``where`` is a file, line, field or name."""
        super().__init__(what, where, mend)
        self.what, self.where, self.mend = what, where, mend

    def __str__(self) -> str:
        """Return one sentence for the builder."""
        return f"{self.where}: {self.what}. {self.mend}"


class UnitError(TrimdiveError, ValueError):
    """A quantity that cannot be read as typed."""


class BoatFileError(TrimdiveError):
    """A boat file that cannot be read or saved."""


class GeometryError(TrimdiveError):
    """A shape that cannot be built or measured."""


class BalanceError(TrimdiveError):
    """No rest was found for this state."""


class DataError(TrimdiveError):
    """A shipped table that is missing a row or holds a wrong one."""
