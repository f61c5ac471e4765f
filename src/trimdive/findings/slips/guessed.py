"""Whether her sums rest on guesses: then they say nothing about a figure that was measured.

A new boat is balanced around the masses that the program guessed. Each true figure throws her far
out of balance, and none of them has slipped.
"""

from trimdive.findings.assessed import Assessed
from trimdive.findings.finding import limit_of


def rests_on_guesses(her: Assessed) -> bool:
    """Return whether too much of her mass is marked as guessed for her sums to be evidence.

    What is worked out counts neither way: lead and foam follow what they were placed for.
    """
    marked, others = 0.0, 0.0
    for entry in her.masses.entries:
        if entry.known == "guess" and her.boat.typed(f"{entry.path}.known") == "guess":
            marked += entry.mass
        elif entry.known != "worked out":
            others += entry.mass
    return marked > limit_of("slip-guessed", her.boat).value * (marked + others)
