"""The boat on the page and the others on the shelf: one is worked on at a time."""

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from trimdive.errors import BoatFileError
from trimdive.page.ahead import foresee
from trimdive.page.desk import Desk, opened
from trimdive.page.shelf import Shelf

if TYPE_CHECKING:
    from trimdive.assessment import Assessment


@dataclass(slots=True, kw_only=True)
class Workshop:
    """The boat that is shown, the folder in which the boats lie, and how far the walk is."""

    desk: Desk
    shelf: Shelf | None = None  # None: only the boat that was named
    slid_up: bool = False  # in the step of the walk that is on
    slides: tuple[str, ...] = ()  # steps of the walk in which she was slid up and down
    has_left: bool = False  # the walk
    is_ended: bool = False
    root: str = ""  # what every address of the page begins with

    def __post_init__(self) -> None:
        self.desk.workshop = self
        self.has_left = bool(self.shelf and self.shelf.memory().get("walk") == "left")

    def open(self, path: Path, her: "Assessment | None" = None) -> None:
        """Show another boat; the one before is saved first where it saves itself.

        Args:
            path: Her file.
            her: As she is calculated already, where she is.

        Raises:
            TrimdiveError: Her file holds a mistake, or the one before cannot be saved; she stays.
        """
        desk, was = opened(path, her), self.desk
        if her is None:
            desk.shown.ready()
        was.keep()
        if not was.is_saved:
            mend = was.trouble or "Save her, or undo the changes."
            raise BoatFileError("the boat shown is not saved yet", was.path.name, mend)
        desk.is_keeping, desk.revision = was.is_keeping, was.revision + 1
        desk.workshop = self
        self.desk = desk
        was.end()
        self.remember()

    def remember(self) -> None:
        """Remember on the shelf which boat is worked on."""
        if self.shelf:
            self.shelf.remember_last(self.desk.path)

    def foresee(self) -> None:
        """Work ahead for the boat that is shown, until ended."""
        while not self.is_ended:
            foresee(self.desk)

    def end(self) -> None:
        """End the work ahead."""
        self.is_ended = True
        self.desk.end()
