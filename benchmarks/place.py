"""Placing *Bittern* as she was bought: 40 pockets of lead, 40 of foam, five things that slide.

Her winch house is opened first, which lead cannot do; all her lead is placed anew in steps of 5 g,
within 1 mm of her waterline and 0.3° of level in both states. Told are the times to the first good
answer and to the proof that none is better. There is no general library to set beside it: the
solver is one.
"""

from itertools import pairwise
from math import pi
from pathlib import Path
from time import perf_counter

import numpy as np

from trimdive.assessment import Assessment, assess
from trimdive.boatfile.placing import Lane, Placing, Pocket
from trimdive.edits.mends import mends
from trimdive.edits.task import task
from trimdive.placing.solve import Reached, answer, programme

BOUGHT = Path(__file__).parents[1] / "boats" / "bittern-as-bought" / "boat.toml"
COUNT, SECONDS = 40, 60.0
WISH = Placing(
    lead_step=0.005,
    waterline=0.001,
    trim_surfaced=0.3 * pi / 180,
    trim_dived=0.3 * pi / 180,
)


def _pockets() -> tuple[Pocket, ...]:
    """Return 40 pockets along the keel and 40 pairs beside the cylinders."""
    # Aft and forward of the well through her middle.
    spans = [
        pair
        for low, high in ((0.70, 1.06), (1.26, 1.80))
        for pair in pairwise(np.linspace(low, high, COUNT // 2 + 1))
    ]
    lead = [
        Pocket(
            name=f"keel {k}", holds="lead", x_aft=float(a), x_fore=float(b) - 0.001,
            y_starboard=-0.025, y_port=0.025, z_bottom=0.008, z_top=0.018,
        )
        for k, (a, b) in enumerate(spans)
    ]  # fmt: skip
    foam = [
        Pocket(
            name=f"side {k}", holds="foam", x_aft=float(a), x_fore=float(b) - 0.001,
            y_starboard=0.072, y_port=0.082, z_bottom=0.06, z_top=0.10, pair=True,
        )
        for k, (a, b) in enumerate(spans)
    ]  # fmt: skip
    return (*lead, *foam)


def _lanes() -> tuple[Lane, ...]:
    """Return five things that slide in their cylinders."""
    return (
        Lane(things=("forward tank", "forward tank works"), x_aft=1.30, x_fore=1.88),
        Lane(things=("after tank", "after tank works"), x_aft=0.45, x_fore=1.04),
        Lane(things=("forward battery",), x_aft=1.30, x_fore=1.88, z_bottom=0.04, z_top=0.15),
        Lane(things=("after battery",), x_aft=0.45, x_fore=1.04, z_bottom=0.04, z_top=0.15),
        Lane(things=("receiver, failsafe, level keeper",), x_aft=1.30, x_fore=1.88),
    )


def bittern() -> Assessment:
    """Return her with the house opened, no lead, and the pockets and lanes."""
    her = assess(BOUGHT)
    opened = next(m for m in mends(her) if m.finding.key == "void-above")
    boat = her.edited(opened.edits).boat
    changes = {"lead": (), "pockets": _pockets(), "lanes": _lanes()}
    return Assessment(boat=boat.model_copy(update=changes), files=her.files)


def rows() -> tuple[list[list[str]], list[str]]:
    """Return the lines of the table, and what else is worth telling."""
    her = bittern()
    start = perf_counter()
    work = task(her, WISH)
    made = perf_counter() - start
    times: list[tuple[float, Reached]] = []
    start = perf_counter()
    it = programme(work)
    found = answer(it, WISH.aims, SECONDS, lambda now: times.append((perf_counter() - start, now)))
    whole = perf_counter() - start
    if found is None:
        return [], ["Placing of Bittern: no answer."]
    proven = all(one.proven for one in found.aims)
    aims = ", ".join(f"{one.aim} {one.value:.4g}" for one in found.aims)
    return [], [
        f"Placing of Bittern, {len(work.slots)} slots and {len(work.ways)} ways to slide: rows in "
        f"{made:.2f} s, first answer after {times[0][0]:.2f} s, {'proven' if proven else 'ended'} "
        f"after {whole:.2f} s (wanted: 1 s and 10 s). {aims}.",
    ]
