"""A draft made into a boat: read as any boat file, with its hull, bodies and masses."""

from dataclasses import dataclass

from trimdive.boatfile import Boat, parse
from trimdive.estimates.starter.chapters import Draft, chapters_of
from trimdive.estimates.starter.pieces import toml_of
from trimdive.geometry.solids.build import Body, bodies
from trimdive.geometry.solids.hull import Hull, hull
from trimdive.hydrostatics.weights import Ledger, ledger


@dataclass(frozen=True, slots=True, kw_only=True)
class Built:
    """A draft made into a boat."""

    boat: Boat
    files: dict[str, bytes]  # that lie beside the boat file
    hull: Hull
    bodies: tuple[Body, ...]
    masses: Ledger

    @property
    def waterline(self) -> float:
        """Return the height of the waterline meant, above the keel line [m]."""
        return self.boat.waterline.height_at(0.0) if self.boat.waterline else 0.0


def parsed(draft: Draft) -> Boat:
    """Return the boat file of a draft, read."""
    return parse(toml_of(chapters_of(draft)))


def built(draft: Draft) -> Built:
    """Return the boat of a draft.

    Raises:
        StarterError: The draft makes no boat.
    """
    boat, drawn = parsed(draft), draft.plan.wish.drawn
    files = dict(drawn.files) if drawn else {}
    shell = hull(boat, files)
    made = bodies(boat, shell, files)
    return Built(boat=boat, files=files, hull=shell, bodies=made, masses=ledger(boat, made))
