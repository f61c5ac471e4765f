"""Checks of the shell as it came in: wall, bend and twist, port against starboard."""

from collections.abc import Iterator
from math import atan

import numpy as np

from trimdive.boatfile import Skin
from trimdive.fact import fact
from trimdive.findings.assessed import Assessed
from trimdive.findings.finding import Finding, Limit, check, finding


def bend(skin: Skin) -> float:
    """Return how far the middle of the two edges leaves a straight line at most [m].

    A line is laid through the readings by least squares, so that the board need not be level.
    """
    x = np.array([spot.x for spot in skin.board])
    height = np.array([(spot.port + spot.starboard) / 2 for spot in skin.board])
    if len(x) < 3:
        return 0.0
    return float(np.abs(height - np.polyval(np.polyfit(x, height, 1), x)).max())


def twist(skin: Skin, breadth: float) -> float:
    """Return the angle by which one end is turned against the other [rad].

    Args:
        skin: With readings of both edges above a board.
        breadth: Between the edges [m].
    """
    across = [spot.port - spot.starboard for spot in skin.board]
    return atan((max(across) - min(across)) / breadth) if across else 0.0


def _breadth(her: Assessed, number: int) -> float:
    """Return the greatest breadth of a region [m]."""
    return float(np.ptp(her.hull.skins[number].outer.bounds[:, 1]))


@check("wall-spread")
def walls(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield walls that differ much from spot to spot: the litres hang on what lies between."""
    for skin in her.boat.regions:
        found = [spot.thickness for spot in skin.walls]
        if len(found) < 2:
            continue
        mean = sum(found) / len(found)
        off = (max(found) - min(found)) / mean
        if off <= limit.value:
            continue
        thin = min(skin.walls, key=lambda spot: spot.thickness)
        yield finding(
            limit=limit,
            subject=skin.name,
            weight="look at",
            rank=6,
            beyond=off,
            stands=off,
            what=fact(
                "wall-varies",
                name=skin.name,
                least=thin.thickness,
                thinnest_at=thin.x,
                most=max(found),
                mean=mean,
            ),
            mend=fact("measure-wall"),
        )


@check("shell-bend")
def bent(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield shells that lie bent on the board."""
    for skin in her.boat.regions:
        if len(skin.board) < 3:
            continue
        long = max(spot.x for spot in skin.board) - min(spot.x for spot in skin.board)
        off = bend(skin)
        if off > limit.value * long:
            yield finding(
                limit=limit,
                subject=skin.name,
                rank=16,
                beyond=off,
                stands=off / long,
                what=fact("shell-bent", name=skin.name, off=off, long=long),
                mend=fact("straighten-shell"),
            )


@check("shell-twist")
def twisted(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield shells that are twisted from end to end."""
    for number, skin in enumerate(her.boat.regions):
        if len(skin.board) < 2:
            continue
        long = max(spot.x for spot in skin.board) - min(spot.x for spot in skin.board)
        turn = twist(skin, _breadth(her, number))
        if long > 0 and turn > limit.value * long:
            yield finding(
                limit=limit,
                subject=skin.name,
                rank=16,
                beyond=turn,
                stands=turn / long,
                what=fact("shell-twisted", name=skin.name, turn=turn),
                mend=fact("true-shell"),
            )


@check("shell-halves")
def halves(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield shells that are broader on one side than on the other."""
    for skin in her.boat.regions:
        worst = max(skin.halves, key=lambda spot: abs(spot.port - spot.starboard), default=None)
        if worst is None or abs(worst.port - worst.starboard) <= limit.value:
            continue
        off = worst.port - worst.starboard
        yield finding(
            limit=limit,
            subject=skin.name,
            rank=16,
            stands=off,
            what=fact("shell-broader", name=skin.name, to_port=off, x=worst.x),
            mend=fact("find-middle-line"),
        )
