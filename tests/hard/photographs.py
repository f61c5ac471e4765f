"""A hundred photographs of each kind by random cameras: are errors as large as they are said to be?

Errors over their spreads have a root mean square of 1 where these are honest.

    python -m tests.hard.photographs 100
"""

import sys

import numpy as np
from tests.photographs.shots import WIDE, Kind, boat, errors, found, shot

from trimdive.errors import TrimdiveError
from trimdive.trials.photographs import together

KINDS: tuple[tuple[str, Kind, int, float, bool], ...] = (
    ("plover", "side", 5, 0.0, True),
    ("plover", "side", 5, 0.02, True),
    ("plover", "side", 5, 0.02, False),
    ("bittern", "side", 6, 0.02, True),
    ("bittern", "side", 3, 0.0, True),
    ("bittern", "side", 2, 0.0, True),
    ("bittern", "bow", 4, 0.02, True),
    ("plover", "bow", 4, 0.02, True),
)
LEAST, MOST = 0.6, 1.4  # root mean square of honest spreads, of the figures that a kind tells


def main(count: int) -> int:
    """Return 1 where a kind of picture is not as sure as it says."""
    wrong = 0
    for name, kind, points, bend, film in KINDS:
        random = np.random.default_rng(2026)
        rows, far, refused, above = [], [], 0, 0
        for _ in range(count):
            one = shot(random, name, kind, points=points, bend=bend, film=film)
            try:
                seen = found(one, name)
            except TrimdiveError:
                refused += 1
                continue
            by = together([seen.sight], boat(name)[1].middle)
            side = by.draught(by.middle)
            y = by.out(by.middle)
            true = one.true.height - np.tan(one.true.heel) * y
            half = float(np.sqrt(max(side[1] ** 2 - 1e-6, 0.0)))  # without the creep of 1 mm
            rows.append([*errors(by, one.true), (side[0] - true) / (half / WIDE)])
            off = by.trim[0] - one.true.trim, by.heel[0] - one.true.heel
            far.append([side[0] - true, half / WIDE, *np.rad2deg(off)])
            above += abs(off[0]) > np.deg2rad(0.1)
        rms, way = np.sqrt((np.array(rows) ** 2).mean(axis=0)), np.array(far)
        told = rms[[1, 3]] if kind == "side" else rms[[2]]
        is_wrong = bool((told < LEAST).any() or (told > MOST).any())
        wrong += is_wrong
        print(
            f"{name} {kind}, {points} points, bend {bend}, {'with' if film else 'without'} EXIF:"
            f" errors over spreads: draught on the side {rms[3]:.2f}, trim {rms[1]:.2f}, heel"
            f" {rms[2]:.2f}; draught off {1e3 * np.sqrt((way[:, 0] ** 2).mean()):.2f} mm, trim"
            f" {np.sqrt((way[:, 2] ** 2).mean()):.3f}° ({above} beyond 0.1°), heel"
            f" {np.sqrt((way[:, 3] ** 2).mean()):.2f}°; refused {refused}"
            f"{'  WRONG' if is_wrong else ''}",
            flush=True,
        )
    return int(wrong > 0)


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]) if len(sys.argv) > 1 else 100))
