"""The words for what must be lifted."""

from trimdive.hydrostatics.equilibrium.named import lifted
from trimdive.text.said import says
from trimdive.text.say import Say


def _weighs(say: Say, mass: float) -> str:
    return f"drained, tanks blown, she weighs {lifted(say.boat, mass)}"


@says("heavy-for-two")
def _heavy_for_two(say: Say, mass: float, limit: float) -> str:
    most = lifted(say.boat, limit)
    return f"{_weighs(say, mass)}; two people should not lift more than {most}"


@says("plan-a-trolley")
def _plan_a_trolley(_: Say) -> str:
    return (
        "Plan a trolley and a ramp or more hands, or remove batteries for the carry; your local "
        "rules have the last word."
    )


@says("heavy-for-one")
def _heavy_for_one(say: Say, mass: float, limit: float) -> str:
    most = lifted(say.boat, limit)
    return f"{_weighs(say, mass)}; one person alone should not lift more than {most}"


@says("lift-with-two")
def _lift_with_two(_: Say) -> str:
    return "Lift her with two people, close to the body, from a firm bank; local rules come first."
