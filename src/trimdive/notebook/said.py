"""What is found of a boat, in words."""

from trimdive.assessment import Assessment
from trimdive.fact import Fact
from trimdive.text import said as words
from trimdive.text.say import Say


def said(her: Assessment, fact: Fact) -> str:
    """Return a fact in words, with figures in the boat's own units.

    Args:
        her: The boat.
        fact: What is found of her, what mends it, or what remains then.
    """
    return words.said(Say(her.boat), fact)
