"""The words for batteries in open water, and for the cylinder that they belong into."""

from trimdive.text.said import says
from trimdive.text.say import Say


@says("battery-in-water")
def _battery_in_water(_: Say, name: str) -> str:
    return f"{name} is in open water: no cylinder is entered for it"


@says("enter-a-cylinder")
def _enter_a_cylinder(_: Say) -> str:
    return "Enter the cylinder it is in."


@says("enter-inside")
def _enter_inside(say: Say, cylinder: str, aft: float, fore: float) -> str:
    reach = f"it reaches from {say.place(aft)} to {say.place(fore)}"
    return f"Enter that it lies inside {cylinder}, and where in it: {reach}."
