"""What her plant draws from each battery, and the fuse and the wire for it."""

from trimdive.plant import Electric, Piston, PlantAnswer, electric, systems
from trimdive.plant.driving import PumpCurve
from trimdive.plant.failsafe.compare import answers
from trimdive.plant.failsafe.lifting import Made


def feeding(her: Made, found: tuple[PlantAnswer, ...] | None = None) -> tuple[Electric, ...]:
    """Return what each of her batteries feeds.

    Args:
        her: The boat.
        found: What her plants do, where it has been worked out already.

    Raises:
        PlantError: A plant cannot be run, or no fuse or wire of the tables is large enough.
    """
    answered = answers(her) if found is None else found
    most = {
        one.name: max((run.most_current for run in (*one.downs, *one.ups)), default=0.0)
        for one in answered
    }
    stalled: dict[str, float] = {}
    for one in systems(her):
        drive = one.drive
        if isinstance(drive, PumpCurve):
            stalled[one.name] = drive.stalled
        elif isinstance(drive, Piston):
            stalled[one.name] = drive.motor.stalled
    return electric(her.boat, most, stalled)
