"""One boat, one answer: each figure given in two places reads alike in both.

Run as a script it prints its rate: how many figures in how many places of how many boats agree.
"""

import pytest
from tests.answers.boats import boat, names
from tests.answers.told import told

ALWAYS = {"trim, low", "BG, low", "weight, full", "need", "mass", "GM, blown", "trim, blown"}


def differing(name: str) -> tuple[list[str], int]:
    """Return the figures that read otherwise in two places, and how many places were compared."""
    found, count = [], 0
    for figure, places in told(boat(name)).items():
        count += len(places) - 1
        if len(set(places.values())) > 1:
            each = "; ".join(f"{place}: {text}" for place, text in places.items())
            found.append(f"{name}: {figure}: {each}")
    return found, count


@pytest.mark.parametrize("name", names())
def test_a_figure_reads_alike_wherever_it_stands(name: str) -> None:
    found, count = differing(name)
    assert not found, "\n".join(found)
    assert count > 40, "figures were found to compare"


@pytest.mark.parametrize("name", ["bittern-as-bought", "grebe", "seed 3"])
def test_the_figures_that_matter_stand_in_several_places(name: str) -> None:
    places = told(boat(name))
    for figure in ALWAYS:
        assert len(places[figure]) >= 3, figure


def main() -> None:
    """Print how many figures agree."""
    wrong, compared = [], 0
    for name in names():
        found, count = differing(name)
        wrong += found
        compared += count
    print("\n".join(wrong))
    boats = len(names())
    print(f"{boats} boats, {compared} places compared with another: {len(wrong)} figures differ")


if __name__ == "__main__":
    main()
