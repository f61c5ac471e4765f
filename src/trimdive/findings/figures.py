"""Checks of the figures themselves: guesses that matter, densities that cannot be, odd lines."""

from collections.abc import Iterator
from functools import lru_cache

from trimdive.boatfile import LinesRegion, RoundRegion
from trimdive.bodies.build import numbered
from trimdive.bodies.hull import density_of
from trimdive.bodies.surfaces import table_of, text_of
from trimdive.fact import Fact, fact
from trimdive.findings.facts import Facts
from trimdive.findings.finding import Edit, Finding, Limit, check, finding
from trimdive.lines import Doubt, doubts, mended
from trimdive.lines.keel import keel_doubt


def _figure(
    limit: Limit,
    subject: str,
    what: Fact | str,
    mend: str,
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
def guesses(facts: Facts, limit: Limit) -> Iterator[Finding]:
    """Yield masses that are only guessed on something heavy."""
    least = limit.value * facts.floater.mass
    guessed = [one for one in facts.masses.entries if one.known == "guess" and one.mass > least]
    guessed.sort(key=lambda one: one.mass, reverse=True)
    if not guessed:
        return
    told = [f"{one.name}, {facts.mass(one.mass)} ± {facts.mass(one.spread)}" for one in guessed]
    share = sum(one.mass for one in guessed) / facts.floater.mass
    most = guessed[0].mass / facts.floater.mass
    if len(told) == 1:
        what = f"the mass of {told[0]}, is only a guess"
        yield _figure(limit, guessed[0].name, what, "Weigh it.", 10, stands=most, beyond=share)
        return
    what = f"{len(told)} heavy masses are only guesses: {'; '.join(told)}"
    mend = "Weigh them, the first of them first."
    yield _figure(limit, "guesses", what, mend, 10, stands=most, beyond=share)


@check("density-least")
def too_light_to_be(facts: Facts, limit: Limit) -> Iterator[Finding]:
    """Yield things lighter for their volume than anything is."""
    for path, mass, volume, name in _densities(facts):
        if mass / volume < limit.value:
            what = _odd(facts, name, mass, volume, "light")
            mend = "Look for a slipped figure."
            yield _figure(limit, path, what, mend, 18, stands=mass / volume)


@check("density-most")
def too_heavy_to_be(facts: Facts, limit: Limit) -> Iterator[Finding]:
    """Yield things heavier for their volume than anything is."""
    for path, mass, volume, name in _densities(facts):
        if mass / volume > limit.value:
            what = _odd(facts, name, mass, volume, "heavy")
            mend = "Look for a slipped figure."
            yield _figure(limit, path, what, mend, 18, stands=mass / volume)


def _odd(facts: Facts, name: str, mass: float, volume: float, how: str) -> str:
    return f"{name}: {facts.mass(mass)} for {facts.volume(volume)}; nothing is so {how}"


@lru_cache(maxsize=32)
def _doubts(text: str, name: str) -> tuple[Doubt, ...]:
    """Return the doubts about a table, kept by what it says."""
    return doubts(table_of(text, name))


def _densities(facts: Facts) -> Iterator[tuple[str, float, float, str]]:
    """Yield path, mass, volume and name of everything that displaces by itself."""
    volumes: dict[str, float] = {}
    for body in facts.bodies:
        volumes[body.path] = volumes.get(body.path, 0.0) + body.volume
    for entry in facts.masses.entries:
        if entry.path in volumes and entry.mass > 0:
            yield entry.path, entry.mass, volumes[entry.path], entry.name


@check("volume-mismatch")
def volumes(facts: Facts, limit: Limit) -> Iterator[Finding]:
    """Yield solid parts whose volume by mass and material is more than their shape holds."""
    for path, part in numbered(facts.boat):
        body = next((body for body in facts.bodies if body.path == path), None)
        if body is None or part.shape == "point" or part.open or body.share <= 1 + limit.value:
            continue
        what = (
            f"{part.name} pushes aside {facts.volume(body.volume)}, but its shape holds only "
            f"{facts.volume(body.volume / body.share)}"
        )
        mend = "Measure its size again, or its mass."
        yield _figure(limit, part.name, what, mend, 12, stands=body.share - 1, beyond=body.share)


@check("skin-mismatch")
def skins(facts: Facts, limit: Limit) -> Iterator[Finding]:
    """Yield skins whose measured thickness does not agree with their mass."""
    for region, skin in zip(facts.boat.regions, facts.hull.skins, strict=True):
        if region.thickness is None or skin.thickness <= 0 or region.mass is None:
            continue
        off = skin.thickness / region.thickness - 1
        if abs(off) <= limit.value:
            continue
        density = density_of(region.material, region.density) or 0.0
        what = (
            f"{region.name} was measured {facts.length(region.thickness)} thick, but "
            f"{facts.mass(region.mass)} at {density / 1000:.2f} g/cm³ make "
            f"{facts.length(skin.thickness)}"
        )
        mend = "Measure the wall at more spots, or weigh an offcut in air and in water."
        yield _figure(limit, region.name, what, mend, 13, stands=off, beyond=abs(off))


@check("length-mismatch")
def length(facts: Facts, limit: Limit) -> Iterator[Finding]:
    """Yield a hull that is not as long as the boat file says: a wrong unit or scale, mostly."""
    told = facts.boat.length
    if told is None or not facts.boat.regions:
        return
    low, high = facts.hull.envelope.bounds[:, 0]
    off = float(high - low) / told - 1
    if abs(off) > limit.value:
        what = (
            f"the hull's surfaces are {facts.length(float(high - low))} long, but the boat file "
            f"says {facts.length(told)}"
        )
        mend = "Look at the units of the tables and meshes, and at the boat's length."
        yield _figure(limit, "boat", what, mend, 39, stands=off)


@check("lines-doubt")
def lines(facts: Facts, limit: Limit) -> Iterator[Finding]:
    """Yield figures of tables of lines that look wrong, with the likely right ones."""
    seen: set[str] = set()
    for region in facts.boat.regions:
        if not isinstance(region, LinesRegion | RoundRegion) or region.file in seen:
            continue
        seen.add(region.file)
        table = table_of(text_of(facts.files, region.file), region.file)
        for doubt in _doubts(table.text, table.name):
            if doubt.off <= limit.value:
                continue
            edits: tuple[Edit, ...] = ()
            mend = "Measure it again."
            if doubt.changes:
                text = mended(table, doubt).text
                edits = (Edit(action="file", path=region.file, fields=(("text", text),)),)
                mend = f"Write {doubt.likely}, if that is what the plan says."
            what = fact("line-of-table", where=doubt.where, doubt=doubt.what)
            yield _figure(limit, doubt.where, what, mend, 38, stands=doubt.off, edits=edits)
        keel = keel_doubt(table)
        if keel is not None and keel.off > limit.value:
            edits = (Edit(action="file", path=region.file, fields=(("text", keel.text),)),)
            what = f"{region.file}: {keel.what}"
            at = f"{region.file}: keel"
            yield _figure(limit, at, what, keel.mend, 37, stands=keel.off, edits=edits)
