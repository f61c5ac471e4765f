"""The boat file of a first boat, with what a person is told in it."""

from functools import partial
from typing import TYPE_CHECKING

from trimdive.estimates.starter.pieces import toml_of
from trimdive.text.said import said
from trimdive.text.say import Say

if TYPE_CHECKING:
    from trimdive.estimates.starter import Starter


def first_boat(made: "Starter") -> str:
    """Return the boat file of a first boat.

    Args:
        made: The first boat.
    """
    return toml_of(made.chapters, partial(said, Say(made.boat)))
