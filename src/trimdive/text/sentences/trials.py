"""What can be read in the tub."""

from trimdive.text.said import says
from trimdive.text.say import Say


@says("read-draughts")
def _read_draughts(say: Say, one: str, other: str) -> str:
    return f"draughts at {one} and {other}, tanks blown"


@says("read-scales")
def _read_scales(say: Say) -> str:
    return "two scales dived, at bow and stern, tanks full"


@says("read-mass")
def _read_mass(say: Say) -> str:
    return "the whole boat on a scale"


@says("read-shift")
def _read_shift(say: Say, dived: bool) -> str:
    return f"a shift test across, {'dived' if dived else 'on the surface'}"


@says("read-heel")
def _read_heel(say: Say) -> str:
    return "how she heels, tanks blown"
