"""Checks of the figures themselves: guesses that matter, densities that cannot be, odd lines."""

from collections.abc import Iterator
from functools import lru_cache

from trimdive.boatfile import LinesRegion, RoundRegion
from trimdive.fact import Fact, fact
from trimdive.findings.assessed import Assessed
from trimdive.findings.finding import Edit, Finding, Limit, check, finding
from trimdive.geometry.lines import Doubt, doubts, mended
from trimdive.geometry.lines.keel import KeelDoubt, keel_doubt
from trimdive.geometry.solids.build import numbered
from trimdive.geometry.solids.hull import density_of
from trimdive.geometry.solids.surfaces import table_of, text_of


def _figure(
    limit: Limit,
    subject: str,
    what: Fact,
    mend: Fact,
    rank: int,
    *,
    stands: float,
    beyond: float = 0.0,
    edits: tuple[Edit, ...] = (),
) -> Finding:
    return finding(
        subject=subject,
        rank=rank,
        beyond=beyond,
        what=what,
        stands=stands,
        limit=limit,
        mend=mend,
        edits=edits,
    )


@check("guess-share")
def guesses(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield masses that are only guessed on something heavy."""
    least = limit.value * her.floater.mass
    guessed = [one for one in her.masses.entries if one.known == "guess" and one.mass > least]
    guessed.sort(key=lambda one: one.mass, reverse=True)
    if not guessed:
        return
    masses = [(one.name, one.mass, one.spread) for one in guessed]
    share = sum(one.mass for one in guessed) / her.floater.mass
    most = guessed[0].mass / her.floater.mass
    subject = guessed[0].name if len(guessed) == 1 else "guesses"
    what, mend = fact("guessed", masses=tuple(masses)), fact("weigh", many=len(masses) > 1)
    yield _figure(limit, subject, what, mend, 10, stands=most, beyond=share)


@check("density-least")
def too_light_to_be(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield things lighter for their volume than anything is."""
    for path, mass, volume, name in _densities(her):
        if mass / volume < limit.value:
            what = fact("too-light", name=name, mass=mass, volume=volume)
            mend = fact("look-for-slip")
            yield _figure(limit, path, what, mend, 18, stands=mass / volume)


@check("density-most")
def too_heavy_to_be(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield things heavier for their volume than anything is."""
    for path, mass, volume, name in _densities(her):
        if mass / volume > limit.value:
            what = fact("too-heavy", name=name, mass=mass, volume=volume)
            mend = fact("look-for-slip")
            yield _figure(limit, path, what, mend, 18, stands=mass / volume)


@lru_cache(maxsize=32)
def _doubts(text: str, name: str) -> tuple[Doubt, ...]:
    """Return the doubts about a table, kept by what it says."""
    return doubts(table_of(text, name))


def _densities(her: Assessed) -> Iterator[tuple[str, float, float, str]]:
    """Yield path, mass, volume and name of everything that displaces by itself."""
    volumes: dict[str, float] = {}
    for body in her.bodies:
        volumes[body.path] = volumes.get(body.path, 0.0) + body.volume
    for entry in her.masses.entries:
        if entry.path in volumes and entry.mass > 0:
            yield entry.path, entry.mass, volumes[entry.path], entry.name


@check("volume-mismatch")
def volumes(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield solid parts whose volume by mass and material is more than their shape holds."""
    for path, part in numbered(her.boat):
        body = next((body for body in her.bodies if body.path == path), None)
        if body is None or part.shape == "point" or part.open or body.share <= 1 + limit.value:
            continue
        holds = body.volume / body.share
        what = fact("more-than-shape", name=part.name, volume=body.volume, holds=holds)
        mend = fact("measure-size-or-mass")
        yield _figure(limit, part.name, what, mend, 12, stands=body.share - 1, beyond=body.share)


@check("skin-mismatch")
def skins(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield skins whose measured thickness does not agree with their mass."""
    for region, skin in zip(her.boat.regions, her.hull.skins, strict=True):
        if region.thickness is None or skin.thickness <= 0 or region.mass is None:
            continue
        measured, weighed = region.thickness, skin.thickness
        if region.spots:  # the wall is as measured; by its mass it would have another mean
            measured, weighed = skin.thickness, skin.volume / skin.area
        off = weighed / measured - 1
        if abs(off) <= limit.value:
            continue
        what = fact(
            "skin-off-its-mass",
            name=region.name,
            measured=measured,
            mass=region.mass,
            density=density_of(region.material, region.density) or 0.0,
            thickness=weighed,
        )
        mend = fact("measure-wall-or-weigh-offcut")
        yield _figure(limit, region.name, what, mend, 13, stands=off, beyond=abs(off))


@check("length-mismatch")
def length(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield a hull that is not as long as the boat file says: a wrong unit or scale, mostly."""
    given = her.boat.length
    if given is None or not her.boat.regions:
        return
    low, high = her.hull.envelope.bounds[:, 0]
    off = float(high - low) / given - 1
    if abs(off) > limit.value:
        what = fact("hull-off-its-length", length=float(high - low), given=given)
        mend = fact("look-at-units")
        yield _figure(limit, "boat", what, mend, 39, stands=off)


@check("lines-doubt")
def lines(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield figures of tables of lines that look wrong, with the likely right ones."""
    seen: set[str] = set()
    for region in her.boat.regions:
        if not isinstance(region, LinesRegion | RoundRegion) or region.file in seen:
            continue
        seen.add(region.file)
        table = table_of(text_of(her.files, region.file), region.file)
        for doubt in _doubts(table.text, table.name):
            if doubt.off <= limit.value:
                continue
            edits: tuple[Edit, ...] = ()
            mend = fact("measure-again")
            if doubt.changes:
                text = mended(table, doubt).text
                edits = (Edit(action="file", path=region.file, fields=(("text", text),)),)
                mend = fact("write-if-plan-says", likely=doubt.likely)
            what = fact("line-of-table", where=doubt.where, doubt=doubt.what)
            yield _figure(limit, doubt.where, what, mend, 38, stands=doubt.off, edits=edits)
        keel = keel_doubt(table)
        if keel is not None and keel.off > limit.value:
            yield _keel(limit, region.file, keel)


def _keel(limit: Limit, file: str, keel: KeelDoubt) -> Finding:
    """Return that the sections of a table meet the keel otherwise than it says."""
    doubt = fact("keel-doubt", is_sharp=keel.is_sharp, off=keel.off, unit=keel.unit)
    return _figure(
        limit,
        f"{file}: keel",
        fact("line-of-table", where=file, doubt=doubt),
        fact("mark-keel", is_sharp=keel.is_sharp),
        37,
        stands=keel.off,
        edits=(Edit(action="file", path=file, fields=(("text", keel.text),)),),
    )
