"""The boat on the page and the others on the shelf: one is worked on at a time."""

from dataclasses import dataclass
from pathlib import Path

from trimdive.errors import BoatFileError
from trimdive.page.desk import Desk, opened


@dataclass(slots=True, kw_only=True)
class Workshop:
    """The boat that is shown, and the folder in which the boats lie."""

    desk: Desk
    shelf: Path | None = None  # folder of boats; None: only the one that was named
    is_ended: bool = False

    def __post_init__(self) -> None:
        self.desk.workshop = self

    def open(self, path: Path) -> None:
        """Show another boat; the one before is saved first where it saves itself.

        Raises:
            TrimdiveError: Her file holds a mistake, or the one before cannot be saved; she stays.
        """
        desk, was = opened(path), self.desk
        desk.shown.ready()
        was.keep()
        if not was.is_saved:
            mend = was.trouble or "Save her, or take the changes back."
            raise BoatFileError("the boat shown is not saved yet", was.path.name, mend)
        desk.is_keeping, desk.revision = was.is_keeping, was.revision + 1
        desk.workshop = self
        self.desk = desk
        was.end()

    def foresee(self) -> None:
        """Work ahead for the boat that is shown, until ended."""
        while not self.is_ended:
            self.desk.foresee()

    def end(self) -> None:
        """End the work ahead."""
        self.is_ended = True
        self.desk.end()
