"""What a first boat still wants, but for masses that are only guessed."""

from tests.said import what_of

from trimdive.assessment import Assessment
from trimdive.estimates.starter import Starter


def weighty(boat: Starter) -> list[str]:
    """Return what check asks to put right, but for masses that are only guessed."""
    her = Assessment(boat=boat.boat, files={})
    return [
        what_of(found)
        for found in her.first_findings
        if found.weight == "put right" and found.key != "guess-share"
    ]
