"""What the page remembers of a boat: her states one after another, what to say, the slider."""

from dataclasses import dataclass
from typing import Literal

from trimdive.errors import TrimdiveError
from trimdive.page.keeping import Files
from trimdive.page.shown import Shown
from trimdive.text.sentence import beside_field

Kind = Literal["done", "refused", "changed on disk"]

HEARD = 200  # names of what was sent that are remembered [-]


@dataclass(slots=True, kw_only=True)
class Step:
    """The boat after one change."""

    says: str  # what was done; "" for the boat as it was opened
    text: str  # of the boat file
    files: Files  # beside it
    shown: Shown | None  # None: to be worked out again from its text when it is wanted
    field: str = ""  # that was typed into, alone; "" for any other change

    def written(self) -> tuple[str, Files]:
        """Return the text of the boat file, and every file beside it by name."""
        return self.text, self.files


@dataclass(frozen=True, slots=True, kw_only=True)
class Note:
    """What the page says after something was pressed."""

    kind: Kind
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Wrong:
    """What was typed into a field and cannot be taken; the boat is as she was."""

    field: str  # such as "part[3].mass"
    typed: str
    says: str  # one sentence


def refused_in(field: str, typed: str, error: TrimdiveError) -> Wrong:
    """Return why what was typed is refused, beside its field; where, only if that is elsewhere.

    Args:
        field: Its place in the boat file, such as "part[3].mass".
        typed: What was typed into it.
        error: What is wrong.

    >>> at = "boat.toml:12: cylinder[1].length"
    >>> refused_in("cylinder[1].length", "9 m", TrimdiveError("too long", at, "Shorten it.")).says
    'Too long. Shorten it.'
    >>> refused_in("length", "3 m", TrimdiveError("too long", at, "Shorten it.")).says
    'boat.toml:12: cylinder[1].length: too long. Shorten it.'
    """
    is_own = error.where.rpartition(" ")[2] == field
    says = beside_field(error) if is_own else str(error)
    return Wrong(field=field, typed=typed, says=says)


@dataclass(frozen=True, slots=True, kw_only=True)
class Slider:
    """Where the slider stands."""

    filling: float | None = None  # share of the water that comes in [-]; None: not yet touched
    up: bool = False  # on the way up


class Heard(dict[str, tuple[int, int]]):
    """Of each name her revision before that was done, and after."""

    def is_known(self, once: str, revision: int) -> bool:
        """Return whether what is sent came already; from now on it has.

        Args:
            once: Its name; "" where it has none, and is always new.
            revision: Of her now.
        """
        if not once or once in self:
            return bool(once)
        self[once] = (revision, revision)
        while len(self) > HEARD:
            del self[next(iter(self))]
        return False

    def done(self, once: str, before: int, after: int) -> None:
        """Keep between which revisions it was done."""
        if self.get(once) == (before, before):
            self[once] = (before, after)
