"""What a script or a notebook shows: pictures that show themselves, drawn only when asked for."""

from trimdive.notebook.picture import Picture
from trimdive.notebook.plot import plot
from trimdive.notebook.said import said
from trimdive.notebook.show import show

__all__ = ["Picture", "plot", "said", "show"]
