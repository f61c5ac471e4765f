"""What drives the plant: a pump by its curve, a motor by its line, a screw by its thread.

Sources: straight curve of a pump and straight line of a direct-current motor: usual models, their
ends measured; power screws: [machine-elements].
"""

from dataclasses import dataclass
from functools import cached_property
from math import cos, pi, radians

import numpy as np

from trimdive.errors import PlantError
from trimdive.geometry.lines.mesh import Floats
from trimdive.plant.water import Way

RUNS_AWAY = 4.0  # times its free flow: no pump is driven faster by what helps it [-]
POINTS = 257  # of a pump's curve with its hose [-]
TRAPEZOID = radians(15.0)  # half the angle of a trapezoid thread [rad]


@dataclass(frozen=True, kw_only=True)
class PumpCurve:
    """A pump at the voltage it gets, with the way its water takes.

    At a share s of its own voltage a gear, hose or diaphragm pump moves s times as much; its slip
    hangs on the pressure alone, so that the pressure at which nothing flows is s times as high. A
    centrifugal pump's is s² times.
    """

    flow: float  # against nothing [m³/s]
    head: float  # at which nothing flows [Pa]
    current: float  # drawn against nothing [A]
    stalled: float  # drawn at that pressure and its own voltage [A]
    own_head: float  # pressure at which nothing flows, at its own voltage [Pa]
    way: Way

    @cached_property
    def _curve(self) -> tuple[Floats, Floats]:
        """Return pressure left over, rising, and flow; shape (POINTS,) each [Pa] [m³/s]."""
        flows = np.linspace(0.0, RUNS_AWAY * self.flow, POINTS)
        left = self.head * (1 - flows / self.flow) - self.way.losses(flows)
        return left[::-1], flows[::-1]

    def against(self, pressure: float) -> float:
        """Return what flows against a pressure, the hose's loss counted [m³/s].

        Args:
            pressure: At the far end above that at the near end; below 0 it helps [Pa].

        Source:
            Q = Q0 (1 - Δp / p_max), with the way's loss in Δp.
        """
        if pressure >= self.head:
            return 0.0
        return float(np.interp(pressure, *self._curve))

    def draws(self, pressure: float, flow: float) -> float:
        """Return the current: the torque of a pump that pushes a fixed room goes with pressure [A].

        Args:
            pressure: At the far end above that at the near end [Pa].
            flow: Through it [m³/s].
        """
        own = max(pressure + self.way.loss(flow), 0.0)
        return self.current + (self.stalled - self.current) * min(own / self.own_head, 1.0)


def pump_curve(
    *,
    flow: float,
    head: float,
    current: float,
    stalled: float,
    share: float,
    way: Way,
    centrifugal: bool = False,
) -> PumpCurve:
    """Return a pump at a share of its own voltage.

    Args:
        flow: Against nothing, at its own voltage [m³/s].
        head: At which nothing flows, at its own voltage [Pa].
        current: Drawn against nothing [A].
        stalled: Drawn at that pressure [A].
        share: Voltage over its own [-].
        way: That its water takes.
        centrifugal: Whether its pressure goes with the square of its speed.

    Raises:
        PlantError: It moves nothing.
    """
    if not (flow > 0 and head > 0 and share > 0):
        what = f"{flow * 6e4:g} L/min and {head / 1e5:g} bar at {100 * share:.0f} % of its voltage"
        raise PlantError(what, "pump", "Give flow, head and voltage above 0.")
    return PumpCurve(
        flow=flow * share,
        head=head * (share**2 if centrifugal else share),
        current=current,
        stalled=stalled,
        own_head=head,
        way=way,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Thread:
    """A screw that pushes."""

    lead: float  # how far a turn takes the nut [m]
    diameter: float  # mean, of the thread [m]
    friction: float  # of thread and nut [-]
    collar: float  # mean diameter of a plain collar, 0 for balls [m]
    flank: float  # half the angle of the thread, 0 for a square one [rad]

    @property
    def grip(self) -> float:
        """Return the friction as the flanks make it [-]."""
        return self.friction / cos(self.flank)

    @property
    def holds(self) -> bool:
        """Return whether it holds by itself, whatever pushes."""
        return pi * self.grip * self.diameter > self.lead


def raising_torque(screw: Thread, force: float) -> float:
    """Return the torque to push against a force [N m].

    Args:
        screw: The screw.
        force: Against the motion [N].

    Raises:
        PlantError: So much friction on so steep a thread lets nothing move.

    Source:
        [machine-elements] example 8-1 and the formulas before it.

    >>> shown = Thread(lead=8e-3, diameter=30e-3, friction=0.08, collar=40e-3, flank=0.0)
    >>> round(raising_torque(shown, 6400.0), 2)
    26.18
    """
    below = pi * screw.diameter - screw.grip * screw.lead
    if below <= 0:
        what = f"a lead of {screw.lead * 1e3:g} mm on {screw.diameter * 1e3:g} mm jams"
        raise PlantError(what, "screw", "Give a finer thread or a thicker screw.")
    d = screw.diameter
    thread = force * d / 2 * (screw.lead + pi * screw.grip * d) / below
    return thread + screw.friction * force * screw.collar / 2


def lowering_torque(screw: Thread, force: float) -> float:
    """Return the torque to move with a force that helps; below 0 it must be braked [N m].

    Args:
        screw: The screw.
        force: With the motion [N].

    Source:
        [machine-elements] example 8-1.
    """
    d = screw.diameter
    thread = force * d / 2 * (pi * screw.grip * d - screw.lead)
    thread /= pi * d + screw.grip * screw.lead
    return thread + screw.friction * force * screw.collar / 2


def screw_torque(screw: Thread, force: float) -> float:
    """Return the torque that a motor must give against a force, or with it [N m].

    Args:
        screw: The screw.
        force: Against the motion; below 0 it helps [N].
    """
    if force >= 0:
        return raising_torque(screw, force)
    return max(lowering_torque(screw, -force), 0.0)


def screw_efficiency(screw: Thread, force: float) -> float:
    """Return the share of the work that comes out of a screw: F l / 2 π T [-].

    Args:
        screw: The screw.
        force: Against the motion [N].
    """
    return force * screw.lead / (2 * pi * raising_torque(screw, force))


@dataclass(frozen=True, slots=True, kw_only=True)
class MotorLine:
    """A motor with its gear at the voltage it gets."""

    turns: float  # running free [1/s]
    torque: float  # at which it stalls [N m]
    current: float  # running free [A]
    stalled: float  # at its stall, at its own voltage [A]
    own_torque: float  # at which it stalls at its own voltage [N m]

    def speed(self, torque: float) -> float:
        """Return how fast it runs against a torque [1/s]; 0: it stalls.

        Args:
            torque: Against it [N m].
        """
        return self.turns * max(1 - torque / self.torque, 0.0)

    def draws(self, torque: float) -> float:
        """Return the current [A].

        Args:
            torque: Against it [N m].
        """
        held = min(torque, self.torque) / self.own_torque
        return self.current + (self.stalled - self.current) * held


def motor_line(
    *, turns: float, torque: float, current: float, stalled: float, share: float
) -> MotorLine:
    """Return a motor at a share of its own voltage: speed and stall torque go with it.

    Args:
        turns: Running free, at its own voltage [1/s].
        torque: At which it stalls, at its own voltage [N m].
        current: Running free [A].
        stalled: At its stall [A].
        share: Voltage over its own [-].

    Raises:
        PlantError: It does not turn.
    """
    if not (turns > 0 and torque > 0 and share > 0):
        what = f"{turns * 60:g} rpm and {torque:g} N m at {100 * share:.0f} % of its voltage"
        raise PlantError(what, "motor", "Give turns, torque and voltage above 0.")
    return MotorLine(
        turns=turns * share,
        torque=torque * share,
        current=current,
        stalled=stalled,
        own_torque=torque,
    )
