"""The depth she is for, in words."""

from typing import TYPE_CHECKING

from trimdive.plant.failsafe import meant

if TYPE_CHECKING:
    from trimdive.text.say import Say


def meant_words(say: "Say") -> str:
    """Return the depth she is for, and what tells it."""
    found = meant(say.boat)
    by = {"failsafe": ", which her failsafe counts as too deep", "usual": ", the usual depth"}
    return f"{say.deep(found.depth)} of water{by.get(found.by, '')}"
