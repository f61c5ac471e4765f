"""A trim kit: the fewest labelled loose pieces for every water and battery planned."""

from trimdive.kit.cover import cover
from trimdive.kit.laying import Piece
from trimdive.kit.pockets import NAMES, Pocket, Space, pockets
from trimdive.kit.task import Cover, Task, errors, nearest
from trimdive.kit.work import Combination, Kit, Left, Row, bands, is_near, kit, needs

__all__ = [
    "NAMES",
    "Combination",
    "Cover",
    "Kit",
    "Left",
    "Piece",
    "Pocket",
    "Row",
    "Space",
    "Task",
    "bands",
    "cover",
    "errors",
    "is_near",
    "kit",
    "nearest",
    "needs",
    "pockets",
]
