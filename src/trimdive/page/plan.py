"""The boat as the page shows her from above, on the same x as from the side, in her own axes."""

import numpy as np

from trimdive.assessment import Assessment
from trimdive.page.scene import INKED, scene_of
from trimdive.pictures.drawings.plan import plan_view
from trimdive.pictures.drawings.svg import tag
from trimdive.pictures.drawings.view import View

PLAN = View(right=np.array([1.0, 0.0, 0.0]), up=np.array([0.0, 1.0, 0.0]), x=0.0, y=0.0)


def plan_picture(her: Assessment) -> str:
    """Return the plan as SVG, the stern at 0, port upwards [mm].

    Its hatches are those of the side view on the same page.
    """
    return tag("g", plan_view(scene_of(her), PLAN), class_="inked", **INKED)
