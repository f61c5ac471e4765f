"""Answers given before, shown again while everything they were worked out from is as it was.

An answer counts for the same words typed in the same folder, at the same kind of terminal, by the
same program with the same libraries. It must never be stale: with it stand the contents of every
file that was opened meanwhile, and what lay in every folder of theirs; one that changed while the
answer was worked out keeps it from being kept. What cannot be read counts as not there.
"""

import json
import os
import sys
import sysconfig
from collections.abc import Generator, Mapping, Sequence
from contextlib import contextmanager, suppress
from hashlib import file_digest, sha256
from pathlib import Path
from tempfile import mkstemp
from typing import Any, cast

COMMANDS = frozenset(
    {"float", "litres", "weigh", "check", "bench", "reach", "fit", "what-if", "why"}
)
OFF = "TRIMDIVE_ANSWERS"  # "off" in the environment: nothing is kept or shown again
MOST = 64  # answers
LARGEST = 2**18  # of an answer [letters]; with what stands beside it, 20 MB in all
PACKAGE = Path(__file__).resolve().parents[1]
SWAYS = {"COLORTERM", "COLUMNS", "FORCE_COLOR", "LANG", "LINES", "NO_COLOR", "TERM", "TZ"}
SWAYING = ("JUPYTER_", "LC_", "NUMBA_", "PYTHON", "TRIMDIVE_", "TTY_")
SYSTEM = ("/dev", "/proc", "/sys")  # no boat's; what stands there changes all the time
ANSWERED = (0, 1)  # exit statuses of an answer

Seen = dict[str, str | None]  # contents of files and folders by their path; None: cannot be read


def folder(environment: Mapping[str, str] = os.environ, system: str = sys.platform) -> Path:
    """Return where answers are kept, by the rules of the system: XDG's where there is none else.

    Args:
        environment: Variables of the environment.
        system: As ``sys.platform`` calls it.
    """
    if system == "win32":
        return Path(environment.get("LOCALAPPDATA") or Path.home() / "AppData/Local") / "trimdive"
    if system == "darwin":
        return Path.home() / "Library/Caches/trimdive"
    named = environment.get("XDG_CACHE_HOME", "")  # one that is not absolute does not count
    return (Path(named) if Path(named).is_absolute() else Path.home() / ".cache") / "trimdive"


def place_of(words: Sequence[str], environment: Mapping[str, str] = os.environ) -> Path | None:
    """Return the file in which the answer to what was typed is kept, or None if it never is.

    Args:
        words: What was typed after the program's name.
        environment: Variables of the environment.
    """
    if not words or words[0] not in COMMANDS or environment.get(OFF) == "off":
        return None
    if os.name == "nt" and sys.stdout.isatty():  # colours may be no letters there
        return None
    swaying = {k: v for k, v in environment.items() if k in SWAYS or k.startswith(SWAYING)}
    out = sys.stdout
    size = os.get_terminal_size(out.fileno()) if out.isatty() else None
    how = [out.encoding, out.errors, out.isatty(), sys.stderr.isatty(), size]
    try:
        around = [str(Path.cwd()), sys.version, sys.path, _libraries(), _program()]
        whole = json.dumps([list(words), sorted(swaying.items()), how, around])
        return folder(environment) / f"{sha256(whole.encode('utf-8', 'surrogatepass')).hexdigest()}"
    except (OSError, RuntimeError):  # no such folder, or no home
        return None


def _libraries() -> list[str]:
    """Return the libraries installed, each with its version in its name."""
    where = sysconfig.get_path("platlib")
    return sorted(name for name in os.listdir(where) if name.endswith(".dist-info"))  # noqa: PTH208


def _program() -> str:
    """Return what stands for every file of the program: names, sizes and times."""
    found: list[tuple[str, int, int]] = []
    for at, folders, names in os.walk(PACKAGE):
        folders[:] = [name for name in folders if name != "__pycache__"]
        for name in names:
            info = os.stat(os.path.join(at, name))  # noqa: PTH116, PTH118
            found.append((f"{at}/{name}", info.st_size, info.st_mtime_ns))
    return sha256(repr(sorted(found)).encode()).hexdigest()


def shown(place: Path | None) -> int | None:
    """Show the answer kept there and return its exit status; None where none counts."""
    if place is None:
        return None
    try:
        kept = json.loads(place.read_text("utf-8", "surrogatepass"))
        status, said, seen = int(kept["status"]), str(kept["said"]), cast("Seen", kept["seen"])
        if not seen or any(contents(path) != was for path, was in seen.items()):
            return None
        os.utime(place)
    except (OSError, ValueError, KeyError, TypeError, AttributeError, RecursionError):
        return None
    sys.stdout.write(said)
    sys.stdout.flush()
    return status


def contents(path: str) -> str | None:
    """Return what stands for the contents of a file, or for the names in a folder.

    What is neither, such as a pipe, is left alone: it can be read once only.
    """
    try:
        if os.path.isdir(path):  # noqa: PTH112
            names = "\n".join(sorted(os.listdir(path)))  # noqa: PTH208
            return sha256(names.encode(errors="replace")).hexdigest()
        if not os.path.isfile(path):  # noqa: PTH113
            return None
        with open(path, "rb") as stream:  # noqa: PTH123
            return file_digest(stream, "sha256").hexdigest()
    except (OSError, ValueError):
        return None


class Watch:
    """Notes what is opened, with what it held just before."""

    def __init__(self) -> None:
        """Begin with nothing, asleep."""
        self.seen: Seen = {}
        self.awake = False
        paths = {
            sysconfig.get_path(kind) for kind in ("stdlib", "platstdlib", "purelib", "platlib")
        }
        own = [*paths, PACKAGE, *SYSTEM]
        self.own = tuple(f"{os.path.realpath(path)}{os.sep}" for path in own)

    def hears(self, event: str, given: tuple[Any, ...]) -> None:
        """Note a file that is opened, unless it is the program's own."""
        if not self.awake or event != "open":
            return
        self.awake = False
        try:
            if given and isinstance(given[0], str | bytes | os.PathLike):
                self.note(os.path.abspath(os.fsdecode(given[0])))  # noqa: PTH100
        finally:
            self.awake = True

    def note(self, path: str) -> None:
        """Note a file or folder as it is now, and the folder in which it lies."""
        if path in sys.path or os.path.realpath(path).startswith(self.own):
            return
        for one in (path, os.path.dirname(path)):  # noqa: PTH120
            if one not in self.seen:
                self.seen[one] = contents(one)


class _Listening:
    """The stream that an answer goes to, which keeps what is written."""

    def __init__(self, stream: Any) -> None:
        self.stream = stream
        self.said: list[str] = []
        self.is_whole = True  # nothing that was to be written was lost

    def __getattr__(self, name: str) -> Any:
        return getattr(self.stream, name)

    def write(self, text: str) -> int:
        """Write, and keep what was written."""
        with self._noted():
            count = self.stream.write(text)  # first: it may refuse what is no text
        self.said.append(text)
        return count

    def flush(self) -> None:
        """Send what was written on its way."""
        with self._noted():
            self.stream.flush()

    @contextmanager
    def _noted(self) -> Generator[None]:
        """Note where nobody reads any more: what is said then is not the whole answer."""
        try:
            yield
        except OSError:
            self.is_whole = False
            raise


@contextmanager
def keeping(place: Path | None, words: Sequence[str]) -> Generator[None]:
    """Keep the answer that is given meanwhile, if it ends as an answer does.

    Args:
        place: Where to; None keeps nothing.
        words: What was typed: a boat within the program's own folders is never kept.
    """
    watch = Watch()
    if place is None or any(os.path.realpath(word).startswith(watch.own) for word in words):
        yield
        return
    stream = _Listening(sys.stdout)
    sys.addaudithook(watch.hears)
    sys.stdout, watch.awake = cast("Any", stream), True
    try:
        yield
    except SystemExit as end:
        watch.awake = False
        is_so = all(contents(path) == was for path, was in watch.seen.items())
        if stream.is_whole and end.code in ANSWERED and is_so:
            _keep(place, cast("int", end.code), "".join(stream.said), watch.seen)
        raise
    finally:
        watch.awake, sys.stdout = False, stream.stream


def _keep(place: Path, status: int, said: str, seen: Seen) -> None:
    """Write an answer whole, and let go of those shown longest ago; where that fails, of this."""
    text = json.dumps({"status": status, "said": said, "seen": seen})
    if len(text) > LARGEST or not seen:
        return
    with suppress(OSError):
        place.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        number, part = mkstemp(dir=place.parent, suffix=".part")
        try:
            with open(number, "w", encoding="utf-8", errors="surrogatepass") as stream:  # noqa: PTH123
                stream.write(text)
            os.replace(part, place)  # noqa: PTH105
        except BaseException:
            with suppress(OSError):
                os.unlink(part)  # noqa: PTH108
            raise
        by_age = sorted(place.parent.iterdir(), key=lambda file: file.stat().st_mtime, reverse=True)
        for old in by_age[MOST:]:
            old.unlink()
