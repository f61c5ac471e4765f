"""A trim kit: the fewest labelled loose pieces for every water and battery planned."""

from trimdive.placing.kit.cover import cover
from trimdive.placing.kit.laying import Piece
from trimdive.placing.kit.pockets import NAMES, Pocket, Space, pockets
from trimdive.placing.kit.task import Cover, Task, errors, nearest
from trimdive.placing.kit.work import Combination, Kit, Left, Row, bands, is_near, kit, needs

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
