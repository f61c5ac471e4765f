"""From the picture of a builder's plan to the model's outline, with what its views disagree by."""

from trimdive.plans.agree import Apart, apart, between
from trimdive.plans.fullsize import at_scale, waterline_of
from trimdive.plans.level import Levelled, level
from trimdive.plans.outline import outline_figures, outline_region
from trimdive.plans.photo import Photographed, photographed
from trimdive.plans.picture import PlanPicture, picture_of
from trimdive.plans.sheet import Checked, Known, Lens, Sheet, check_length
from trimdive.plans.snap import Snap, crossing, snapped
from trimdive.plans.spread import TracedSpread, traced_spread
from trimdive.plans.views import Traced, TracedSection, View, traced

__all__ = [
    "Apart",
    "Checked",
    "Known",
    "Lens",
    "Levelled",
    "Photographed",
    "PlanPicture",
    "Sheet",
    "Snap",
    "Traced",
    "TracedSection",
    "TracedSpread",
    "View",
    "apart",
    "at_scale",
    "between",
    "check_length",
    "crossing",
    "level",
    "outline_figures",
    "outline_region",
    "photographed",
    "picture_of",
    "snapped",
    "traced",
    "traced_spread",
    "waterline_of",
]
