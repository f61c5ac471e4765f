"""What-if: what was taken for granted of something flooded, and of a tower full of water."""

from trimdive.text.said import says
from trimdive.text.say import Say


@says("flooded-supposed")
def _flooded_supposed(
    say: Say, both: bool, wall: float | None, things: int, mass: float, density: float
) -> str:
    texts = ["both of the pair"] if both else []
    if wall is not None:
        texts.append(f"its wall taken at {say.write(wall, 'density')}")
    if things:
        many = "1 part" if things == 1 else f"{things} parts"
        texts.append(
            f"{many} of unknown volume in it, {say.write(mass, 'mass')} in all, taken at "
            f"{say.write(density, 'density')}"
        )
    return "; ".join(texts)


@says("tower-holds")
def _tower_holds(say: Say, mass: float) -> str:
    return f"it holds {say.write(mass, 'mass')} of water and does not drain"
