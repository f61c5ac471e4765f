"""The boat in a text as it was changed on the page, or a refusal that names the slipped figure."""

from trimdive.assessment import Assessment
from trimdive.boatfile import Boat, parse
from trimdive.errors import TrimdiveError
from trimdive.findings.slips import explained
from trimdive.geometry.solids.surfaces import Files


def taken(text: str, name: str, files: Files) -> Boat:
    """Return the boat in the text of a boat file.

    Args:
        text: TOML.
        name: What to call the file in an error.
        files: What lies beside it.

    Raises:
        TrimdiveError: Something in it must be mended; first the figure that slipped, where one did.
    """
    try:
        return parse(text, name)
    except TrimdiveError as error:

        def made(boat: Boat) -> Assessment:
            return Assessment(boat=boat, files=files)

        raise explained(error, text, name, made) from None  # pyright: ignore[reportArgumentType]
