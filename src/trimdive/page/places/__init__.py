"""The places of work under the boat, in their order on the page."""

from trimdive.page.form import Typed, field_of
from trimdive.page.places.bench import BENCH
from trimdive.page.places.board import BOARD
from trimdive.page.places.place import Place
from trimdive.page.places.pond import POND
from trimdive.page.places.right import RIGHT
from trimdive.page.places.scales import SCALES
from trimdive.page.places.shelf import SHELF
from trimdive.page.places.tub import TUB

ALL = (SHELF, RIGHT, BOARD, SCALES, TUB, BENCH, POND)
PLACES: dict[str, Place] = {place.key: place for place in ALL}

__all__ = ["PLACES", "Place", "Typed", "field_of"]
