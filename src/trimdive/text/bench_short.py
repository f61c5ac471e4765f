"""The bench in one line for each of its pieces: what stands over each fold of the page."""

from typing import TYPE_CHECKING

from trimdive.hydrostatics.equilibrium.named import bound, deep
from trimdive.plant.failsafe import FAILURES
from trimdive.text import link_figures
from trimdive.text.deep import bound_of
from trimdive.text.plant_figures import shown

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.bench import CylinderBench
    from trimdive.plant import PlantAnswer

NONE = "not entered"


def cylinder_short(her: "Assessment", one: "CylinderBench") -> str:
    """Return how deep a cylinder may go, and what of it limits that."""
    limit = bound_of(her, one)
    return f"safe to {bound(her.boat, limit.depth)}; the limit: {limit.of}"


def leaks_short(her: "Assessment") -> str:
    """Return how many cylinders were tried, and the latest leak test."""
    names = [one.name for one in her.bench.cylinders]
    found = her.bench.leaks
    if not found:
        return "none recorded"
    tried = len({one.cylinder for one in found} & set(names))
    last = found[-1]
    says = "tight" if last.passes else "leaks"
    return f"{tried} of {len(names)} cylinders; the latest {last.date:%Y-%m-%d}: {says}"


def failures_short(her: "Assessment") -> str:
    """Return how many failures have no action set, or leave her under; else that all is well."""
    found = her.works.failures
    if found is None:
        return NONE
    ends = {one: {s.ends for s in found.squares if s.failure == one} for one in FAILURES}
    unset = [one for one in FAILURES if "not entered" in ends[one]]
    under = [one for one in FAILURES if "under" in ends[one]]
    if unset:
        return f"no action set for {len(unset)} of {len(FAILURES)}"
    if under:
        return f"she stays under after {len(under)} of {len(FAILURES)}"
    return f"at {deep(her.boat, found.depth)}: she comes up after each"


def plants_short(her: "Assessment") -> str:
    """Return how long her tanks take to fill and to empty, of the slowest plant."""
    answers = her.works.answers
    if not answers:
        return NONE
    fills, empties = _slowest(answers, "fill-time"), _slowest(answers, "empty-deep")
    texts = [f"fills in {fills}"] if fills else []
    if empties:
        texts.append(f"empties in {empties} at {deep(her.boat, answers[0].depth)}")
    return "; ".join(texts) or answers[0].name


def _slowest(answers: "tuple[PlantAnswer, ...]", key: str) -> str:
    """Return a time of the plant that takes the longest; "" where none has it."""
    found = [(figure.value, shown(one, figure)) for one in answers if (figure := one.figure(key))]
    return max(found, default=(0.0, ""))[1]


def feeding_short(her: "Assessment") -> str:
    """Return which battery gives the largest current."""
    found = her.works.feeding
    if not found:
        return NONE
    most = max(found, key=lambda one: one.draws)
    return f"{most.battery}: up to {most.draws:.1f} A"


def links_short(her: "Assessment") -> str:
    """Return which linkage has the least to spare."""
    found = her.works.links
    if not found:
        return NONE
    least = min(found, key=lambda one: one.spare)
    holds = next(f.text for f in link_figures.figures_of(least) if f.label == "servo holds")
    return f"servo of the {least.name} holds {holds}"
