"""A hull changed again and again leaves the memory where it was."""

import gc

from tests.page.conftest import Page
from tests.page.hands import put

from trimdive.geometry.lines.mesh import Mesh

FEW = 64  # surfaces of plain shapes that are kept for whoever asks next [-]
TIMES = 20


def alive() -> int:
    """Return how many surfaces there are."""
    gc.collect()
    return sum(type(one) is Mesh for one in gc.get_objects())


def thickened(page: Page, first: int) -> int:
    """Change the skin so many times, with all findings, and return how many surfaces there are."""
    for k in range(first, first + TIMES):
        put(page.desk, "region[1].thickness", f"{2 + 0.001 * k:.3f} mm")
        assert page.desk.her.findings
    return alive()


def test_no_surface_outlives_its_hull(sprat: Page) -> None:
    """Undo keeps the boat file of each step, not what was worked out of it."""
    before = thickened(sprat, 1)
    after = thickened(sprat, 1 + TIMES)
    assert after < before + FEW
    assert len(sprat.desk.steps) == 1 + 2 * TIMES
