"""Files that are made to break whoever reads them: each is answered in one sentence, in time.

They are asked of the command that reads such a file, in a copy of this program of its own, whose
time and memory are measured. ``python -m tests.hard.hostile``
"""

import gzip
import io
import json
import os
import signal
import struct
import sys
import tempfile
import time
import warnings
import zipfile
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path

import trimesh
from tests.cli.boats import SMALL
from tests.hard.boats import TABLE, text_of

LONGEST = 10.0  # that one may take [s]
ENDED = 60  # after which it is ended [s]
MOST = 2 * 2**30  # memory that one may take [bytes]
MODEL = "3D/3dmodel.model"
CORE = "http://schemas.microsoft.com/3dmanufacturing/core/2015/02"
CORNERS = ((0, 0, 0), (100, 0, 0), (0, 100, 0), (0, 0, 100))
SIDES = ((0, 2, 1), (0, 1, 3), (1, 2, 3), (0, 3, 2))


Made = bytes | Callable[[], bytes]


@dataclass(frozen=True)
class Hostile:
    """A file, and how it is asked."""

    name: str
    made: Made  # made when it is asked, where it is large
    asked: tuple[str, ...]  # the command, with the file where "FILE" stands
    may_pass: bool = False  # it is odd, and can be read all the same

    @property
    def data(self) -> bytes:
        """Return what it holds."""
        return self.made if isinstance(self.made, bytes) else self.made()


@dataclass
class Figures:
    """What came out of a run."""

    tried: int = 0
    refused: int = 0
    slowest: tuple[float, str] = (0.0, "")  # [s]
    largest: tuple[float, str] = (0.0, "")  # [bytes]
    wrong: list[str] = field(default_factory=list)
    said: dict[str, str] = field(default_factory=dict)


def _zip(*members: tuple[str, bytes | str]) -> bytes:
    data = io.BytesIO()
    with zipfile.ZipFile(data, "w", zipfile.ZIP_DEFLATED, compresslevel=1) as book:
        for name, one in members:
            book.writestr(name, one)
    return data.getvalue()


def _shape(number: int, inner: str) -> str:
    return f'<object id="{number}" type="model">{inner}</object>'


def _mesh() -> str:
    points = "".join(f'<vertex x="{x}" y="{y}" z="{z}"/>' for x, y, z in CORNERS)
    sides = "".join(f'<triangle v1="{a}" v2="{b}" v3="{c}"/>' for a, b, c in SIDES)
    return f"<mesh><vertices>{points}</vertices><triangles>{sides}</triangles></mesh>"


def _model(objects: str, items: str = '<item objectid="1"/>', head: str = "") -> str:
    start = f'{head}<model unit="millimeter" xmlns="{CORE}">'
    return f"{start}<resources>{objects}</resources><build>{items}</build></model>"


def _threemf() -> Iterator[tuple[str, Made]]:
    """Yield 3MF files, core specification, chapters 2 to 4, stretched."""
    tens = [_shape(1, _mesh())] + [
        _shape(k, "<components>" + f'<component objectid="{k - 1}"/>' * 10 + "</components>")
        for k in range(2, 14)
    ]
    deep = [_shape(1, _mesh())] + [
        _shape(k, f'<components><component objectid="{k - 1}"/></components>')
        for k in range(2, 3000)
    ]
    ring = _shape(1, '<components><component objectid="2"/></components>') + _shape(
        2, '<components><component objectid="1"/></components>'
    )
    self_ = _shape(1, '<components><component objectid="1"/></components>')
    good = _shape(1, _mesh())
    entities = '<!DOCTYPE m [<!ENTITY a "aaaaaaaaaa">' + "".join(
        f'<!ENTITY {b} "{f"&{a};" * 10}">' for a, b in zip("abcdefgh", "bcdefghi", strict=True)
    )
    for name, text in (
        ("tens", _model("".join(tens), '<item objectid="13"/>')),
        ("deep", _model("".join(deep), '<item objectid="2999"/>')),
        ("ring", _model(ring)),
        ("itself", _model(self_)),
        ("many items", _model(good, '<item objectid="1"/>' * 200_000)),
        ("nobody", _model("")),
        ("missing", _model(good, '<item objectid="7"/>')),
        ("no mesh", _model(_shape(1, ""))),
        ("no items", _model(good, "")),
        ("entities", _model(good, head=entities + "]>")),
        ("outside entity", _model(good, head='<!DOCTYPE m SYSTEM "file:///etc/passwd">')),
        ("huge number", _model(good.replace('x="100"', f'x="{"9" * 5000}"'))),
        ("no number", _model(good.replace('x="100"', 'x="nan"'))),
        ("endless", _model(good.replace('x="100"', 'x="1e308"'))),
        ("huge corner", _model(good.replace('v1="1"', f'v1="{"9" * 5000}"'))),
        ("corner -1", _model(good.replace('v1="1"', 'v1="-1"'))),
        ("corner beyond", _model(good.replace('v1="1"', 'v1="99"'))),
        ("place of words", _model(good, '<item objectid="1" transform="a b"/>')),
        ("place of inf", _model(good, f'<item objectid="1" transform="{"inf " * 12}"/>')),
        ("flat place", _model(good, f'<item objectid="1" transform="{"0 " * 12}"/>')),
        ("no model", "<x/>"),
        ("tags", "<a>" * 200_000),
        ("words", f'<model xmlns="{CORE}" a="{"x" * 3_000_000}">'),
        ("half", _model(good)[:300]),
        ("other unit", _model(good).replace("millimeter", "parsec")),
        ("extension", _model(good).replace("<model", '<model requiredextensions="q"')),
    ):
        yield f"{name}.3mf", _zip((MODEL, text))
    plain = _model(good).encode()
    yield "plain XML.3mf", plain
    yield "no archive.3mf", b"PK\x03\x04" + b"\0" * 200
    whole = _zip((MODEL, plain))
    yield "cut.3mf", whole[: len(whole) // 2]
    yield "no models.3mf", _zip(("readme.txt", b"x"))
    yield "two models.3mf", _zip(("a.model", plain), ("b.model", plain))
    yield (
        "bomb.3mf",
        lambda: _zip((MODEL, _model(good) + " " * 2**20 * 300), ("3D/b", b"\0" * 2**20)),
    )
    yield "lies.3mf", _lying(_zip((MODEL, plain)), 2**31)
    for at, byte in ((18, 0xFF), (22, 0xFF), (26, 0xFF), (30, 0x80), (60, 0xAA)):
        yield f"bent at {at}.3mf", whole[:at] + bytes([byte]) + whole[at + 1 :]


def _lying(data: bytes, size: int) -> bytes:
    """Return a zip whose list says another size of what is in it."""
    at = data.rindex(b"PK\x01\x02")
    return data[: at + 24] + struct.pack("<I", size) + data[at + 28 :]


def _glb(held: object, blob: bytes = b"") -> bytes:
    text = json.dumps(held).encode() if not isinstance(held, bytes) else held
    text += b" " * (-len(text) % 4)
    chunks = struct.pack("<II", len(text), 0x4E4F534A) + text
    if blob:
        chunks += struct.pack("<II", len(blob), 0x004E4942) + blob
    return struct.pack("<III", 0x46546C67, 2, 12 + len(chunks)) + chunks


def _glbs() -> Iterator[tuple[str, Made]]:
    """Yield GLB files, glTF 2.0, stretched."""
    good = trimesh.creation.box((0.3, 0.1, 0.1)).export(file_type="glb")
    size = struct.unpack_from("<I", good, 12)[0]
    held, blob = json.loads(good[20 : 20 + size]), good[28 + size :]

    def changed(**more: object) -> bytes:
        return _glb({**held, **more}, blob)

    twice = [{"children": [k + 1, k + 1]} for k in range(60)] + [{"mesh": 0}]
    yield "nodes twice.glb", changed(nodes=twice, scenes=[{"nodes": [0]}])
    yield "nodes in a ring.glb", changed(nodes=[{"children": [1]}, {"children": [0]}])
    yield "node of itself.glb", changed(nodes=[{"children": [0], "mesh": 0}])
    many, some = [{"mesh": 0}] * 1_000_000, list(range(1000))
    yield "million nodes.glb", lambda: changed(nodes=many, scenes=[{"nodes": some}])
    chain = [{"children": [k + 1]} for k in range(5000)] + [{"mesh": 0}]
    yield "nodes deep.glb", changed(nodes=chain, scenes=[{"nodes": [0]}])
    far = {"mesh": 0, "matrix": [1e308] * 16}
    yield "infinity.glb", changed(nodes=[far])
    answer = json.dumps(held).replace('"count": 36', '"count": 1e999')
    yield "infinity told.glb", _glb(answer.encode(), blob)
    tables = [{**one, "count": 2**40} for one in held["accessors"]]
    yield "more than there is.glb", changed(accessors=tables)
    yield "negative.glb", changed(accessors=[{**one, "count": -5} for one in held["accessors"]])
    views = [{**one, "byteOffset": 2**40} for one in held["bufferViews"]]
    yield "views beyond.glb", changed(bufferViews=views)
    yield "buffer elsewhere.glb", changed(buffers=[{"uri": "file:///etc/passwd", "byteLength": 9}])
    yield "extension.glb", changed(extensionsRequired=["KHR_draco_mesh_compression"])
    yield "deep words.glb", _glb(b"[" * 100_000)
    yield "no words.glb", _glb(b"\xff" * 100)
    yield "nothing.glb", _glb({})
    yield "meshes of words.glb", changed(meshes="all of them")
    yield "cut.glb", good[: len(good) // 2]


def _others() -> Iterator[tuple[str, Made]]:
    """Yield meshes in other kinds of file."""
    face = b"v 0 0 0\nv 1 0 0\nv 0 1 0\n"
    yield "one face.obj", face + b"f 1 2 3\n"
    yield "long face.obj", face + b"f " + b"1 2 3 " * 300_000
    yield "huge corner.obj", face + b"f 1 2 " + b"9" * 5000
    yield "corner 0.obj", face + b"f 0 1 2\n"
    yield "corner back.obj", face + b"f -1 -2 -99\n"
    yield "no number.obj", face + b"v nan inf 1e999\nf 1 2 4\n"
    yield "goes on.obj", face + b"\\\n" * 200_000
    yield "points alone.obj", face * 1000
    yield "long line.obj", b"v " + b"1" * 5_000_000
    ply = b"ply\nformat ascii 1.0\nelement vertex %d\nproperty float x\nproperty float y\n"
    ply += (
        b"property float z\nelement face %d\nproperty list uchar int vertex_indices\nend_header\n"
    )
    yield "claims.ply", ply % (10**12, 10**12) + b"0 0 0\n"
    yield "no faces.ply", ply % (3, 0) + b"0 0 0\n1 0 0\n0 1 0\n"
    yield "face of 255.ply", ply % (3, 1) + b"0 0 0\n1 0 0\n0 1 0\n255 0 1 2\n"
    yield "huge.ply", ply.replace(b"%d", b"9" * 5000) + b"0\n"
    yield "no end.ply", ply[:60] % 3
    yield "claims.stl", b"\0" * 80 + struct.pack("<I", 2**32 - 1) + b"\0" * 500
    yield "half.stl", b"\0" * 80 + struct.pack("<I", 50) + b"\0" * 700
    yield (
        "infinite.stl",
        b"\0" * 80 + struct.pack("<I", 4) + struct.pack("<12fH", *[1e38] * 12, 0) * 4,
    )
    yield "no number.stl", b"\0" * 80 + struct.pack("<I", 4) + (b"\xff" * 48 + b"\0\0") * 4
    yield "words.stl", b"solid x\n" + b"facet normal 0 0 0\n" * 100_000
    yield "empty.stl", b""
    yield "bomb.stl.gz", lambda: gzip.compress(b"\0" * 2**20 * 600, 1)
    yield "packed in packed.stl.gz", gzip.compress(gzip.compress(gzip.compress(b"solid x")))
    yield "cut.stl.gz", gzip.compress(b"solid x" * 9999)[:50]
    yield "picture.stl", b"\x89PNG\r\n\x1a\n" + b"\0" * 99
    yield "wide letters.obj", "v 1 2 3\n".encode("utf-16")


def _book(sheet: str, *more: tuple[str, bytes | str], shared: str = "") -> bytes:
    """Return a workbook of one sheet, as Office Open XML has it."""
    space = "http://schemas.openxmlformats.org"
    kinds = (
        f'<Types xmlns="{space}/package/2006/content-types"><Default Extension="rels" '
        'ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Override '
        'PartName="/xl/workbook.xml" ContentType="application/vnd.openxmlformats-officedocument.'
        'spreadsheetml.sheet.main+xml"/><Override PartName="/xl/worksheets/sheet1.xml" ContentType='
        '"application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/></Types>'
    )
    rel = f"{space}/officeDocument/2006/relationships"
    rels = (
        f'<Relationships xmlns="{space}/package/2006/relationships"><Relationship Id="r1" '
        'Type="{}" Target="{}"/></Relationships>'
    )
    book = (
        f'<workbook xmlns="{space}/spreadsheetml/2006/main" xmlns:r="{rel}"><sheets>'
        '<sheet name="weights" sheetId="1" r:id="r1"/></sheets></workbook>'
    )
    whole = f'{shared}<worksheet xmlns="{space}/spreadsheetml/2006/main">{sheet}</worksheet>'
    return _zip(
        ("[Content_Types].xml", kinds),
        ("_rels/.rels", rels.format(f"{rel}/officeDocument", "xl/workbook.xml")),
        ("xl/workbook.xml", book),
        ("xl/_rels/workbook.xml.rels", rels.format(f"{rel}/worksheet", "worksheets/sheet1.xml")),
        ("xl/worksheets/sheet1.xml", whole),
        *more,
    )


def _cell(at: str, text: str) -> str:
    return f'<c r="{at}" t="inlineStr"><is><t>{text}</t></is></c>'


def _lists() -> Iterator[tuple[str, Made, bool]]:
    """Yield weight lists; True for one that may be read all the same."""
    head = f'<row r="1">{_cell("A1", "Part")}{_cell("B1", "Mass [g]")}</row>'
    row = f'<row r="2">{_cell("A2", "bar")}<c r="B2"><v>5</v></c></row>'
    end = '<mergeCells><mergeCell ref="A3:XFD1048576"/></mergeCells>'
    rows = f"<sheetData>{head}{row}</sheetData>"
    yield "merged without end.xlsx", _book(rows + end), True
    far = f'<sheetData>{head}{row}<row r="1048576">{_cell("XFD1048576", "x")}</row></sheetData>'
    yield "last cell.xlsx", _book(far), True
    empty = "".join(f'<row r="{k}"><c r="A{k}" s="0"/></row>' for k in range(3, 200_000))
    yield "empty cells.xlsx", _book(f"<sheetData>{head}{row}{empty}</sheetData>"), True
    filled = "".join(f'<row r="{k}"><c r="A{k}"><v>{k}</v></c></row>' for k in range(3, 150_000))
    yield "filled cells.xlsx", _book(f"<sheetData>{head}{row}{filled}</sheetData>"), False
    merged = "".join(f'<mergeCell ref="A{k}:B{k}"/>' for k in range(3, 40_000))
    yield "merged many times.xlsx", _book(f"{rows}<mergeCells>{merged}</mergeCells>"), False
    yield "entities.xlsx", _book(rows, shared='<!DOCTYPE x [<!ENTITY a "b">]>'), False
    yield "sheet of tags.xlsx", _book("<a>" * 300_000), False
    yield "mass of 5000 digits.xlsx", _book(rows.replace("<v>5<", f"<v>{'9' * 5000}<")), False
    yield "mass without end.xlsx", _book(rows.replace("<v>5<", "<v>1e999<")), True
    yield "bomb.xlsx", lambda: _book(rows, ("xl/media/a.bin", b"\0" * 2**20 * 300)), False
    yield "lies.xlsx", _lying(_book(rows), 2**31), False
    yield "many members.xlsx", _book(rows, *((f"x{k}", b"") for k in range(3000))), False
    whole = _book(rows)
    yield "cut.xlsx", whole[: len(whole) // 2], False
    yield "bent.xlsx", whole[:200] + b"\xff\xff\xff" + whole[203:], False
    yield "no book.xlsx", _zip(("a", b"b")), False
    good = b"Part,Mass [g]\nbar,5\n"
    yield "quote.csv", b'Part,Mass [g]\n"bar,5\n' + b"x,1\n" * 100_000, False
    yield "wide.csv", b"," * 500_000 + b"\n" + good, False
    yield "long.csv", good + b"x,1\n" * 300_000, False
    yield "long cell.csv", good + b"x" * 3_000_000 + b",5\n", False
    yield "5000 digits.csv", good.replace(b",5", b"," + b"9" * 5000), False
    yield "nothing in it.csv", b"\xff\xfe\x00\x00", False
    yield "zeros.csv", b"\0" * 10_000, False
    yield "one half of a letter.csv", "Part,Mass\nbär,5".encode("utf-16")[:-1], False
    yield "escapes.csv", b"Part,Mass [g]\n\x1b[2J\x1b]0;x\x07bar,5\n", True


def _texts() -> Iterator[tuple[str, bytes, str]]:
    """Yield boat files and tables of lines, and what reads them."""
    deep = ".".join("a" * 20_000)
    part = '[[part]]\nname = "x"\nmass = "{}"\nx = "1 mm"\nz = "1 mm"\nvolume = "1 cm3"\n'
    for name, text in (
        ("deep keys", f"{deep} = 1\n{SMALL}"),
        ("deep table", f"[{deep}]\n"),
        ("deep list", f"a = {'[' * 50_000}"),
        ("deep table in line", "a = " + "{b = " * 20_000),
        ("huge integer", f"format = {'9' * 5000}\n"),
        ("huge hexadecimal", f"format = 0x{'f' * 100_000}\n"),
        ("huge float", SMALL.replace('"600 mm"', "1e99999")),
        ("5000 digits", SMALL.replace("600 mm", "9" * 5000 + " mm")),
        ("infinite", SMALL.replace("600 mm", "inf mm")),
        ("no number", SMALL.replace("600 mm", "nan mm")),
        ("power of 0", SMALL.replace("600 mm", "0 mm")),
        ("wall over half", SMALL.replace('wall = "3 mm"', 'wall = "70 mm"')),
        ("many parts", SMALL + "".join(part.format("1 g") for _ in range(3000))),
        ("same key", SMALL + "format = 1\n" * 10_000),
        ("quote open", SMALL + 'note = """' + "x" * 1_000_000),
        ("zeros", "\0" * 10_000),
        ("escapes", SMALL.replace("Sprat", "\x1b[2JSprat")),
        ("path", SMALL + '[[part]]\nname = "a"\nshape = "mesh"\nmesh = "../../etc/passwd"\n'),
        ("hidden", text_of(0).replace("lines.csv", ".saved/names.json")),
        ("date", SMALL.replace('length = "600 mm"', "length = 1979-05-27T07:32:00Z")),
        ("half a letter", SMALL[:200] + "\udcff"),
        ("not a table", "region = 5\npart = true\n"),
    ):
        yield f"{name}.toml", text.encode("utf-8", "surrogateescape"), "boat"
    for name, text in (
        ("empty", ""),
        ("heads alone", "x mm,keel,10,50,80,deck,deck half\n"),
        ("wide", "x mm,keel," + ",".join(map(str, range(20_000))) + "\n" + "0," * 20_000),
        ("long", TABLE + "".join(f"{k},0,5,10,10,100,10\n" for k in range(601, 30_000))),
        ("5000 digits", TABLE.replace("58", "9" * 5000)),
        ("infinite", TABLE.replace("58", "inf")),
        ("no number", TABLE.replace("58", "nan")),
        ("quote", '"' + TABLE),
        ("same place", TABLE.replace("150,", "0,")),
        ("other separator", TABLE.replace(",", "|")),
        ("zeros", "\0" * 5000),
        ("escapes", TABLE.replace("keel", "\x1b[2Jkeel")),
    ):
        yield f"{name} lines.csv", text.encode(), "lines"


def everything() -> list[Hostile]:
    """Return all files."""
    found = [
        Hostile(name, data, ("mesh", "FILE"), may_pass=name in MAY)
        for name, data in (*_threemf(), *_glbs(), *_others())
    ]
    found += [
        Hostile(name, data, ("weights-in", "FILE", "BOAT"), may_pass=may)
        for name, data, may in _lists()
    ]
    found += [
        Hostile(name, data, ("check", "FILE" if kind == "boat" else "LINES"), may_pass=name in MAY)
        for name, data, kind in _texts()
    ]
    return found


MAY = (  # odd, and good enough to be looked at
    "bomb.3mf",
    "bent at 18.3mf",
    "bent at 22.3mf",
    "nodes deep.glb",
    "one face.obj",
)


def _laid(one: Hostile, home: Path) -> list[str]:
    """Put a file where its command finds it; return the command."""
    file = home / one.name.replace("/", " ")
    if "LINES" in one.asked:
        file = home / "lines" / "lines.csv"
        file.parent.mkdir(exist_ok=True)
        (file.parent / "boat.toml").write_text(text_of(0), "utf-8")
    file.write_bytes(one.data)
    boat = home / "sprat.toml"
    boat.write_text(SMALL, "utf-8")
    words = {"FILE": str(file), "LINES": str(file.parent / "boat.toml"), "BOAT": str(boat)}
    return [words.get(word, word) for word in one.asked]


def _ask(command: list[str], home: Path) -> tuple[int, str, float, float]:
    """Ask a command in a copy of this program; return status, words, time [s], memory [bytes]."""
    answer, began = home / "told", time.monotonic()
    pages = int(Path("/proc/self/statm").read_text("ascii").split()[1])
    own = pages * os.sysconf("SC_PAGE_SIZE")  # what the copy begins with is not of the command
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        child = os.fork()
    if not child:
        _answered(command, answer)
    signal.signal(signal.SIGALRM, lambda *_: os.kill(child, signal.SIGKILL))
    signal.alarm(ENDED)
    _, status, used = os.wait4(child, 0)
    signal.alarm(0)
    took = time.monotonic() - began
    code = os.WEXITSTATUS(status) if os.WIFEXITED(status) else -os.WTERMSIG(status)
    return code, answer.read_text("utf-8", "replace"), took, max(used.ru_maxrss * 1024.0 - own, 0.0)


def _answered(command: list[str], answer: Path) -> None:
    """Do as the command says, and end."""
    code = 99
    try:
        with answer.open("wb") as stream, Path(os.devnull).open("wb") as nothing:
            os.dup2(nothing.fileno(), 1)
            os.dup2(stream.fileno(), 2)
            sys.stdout, sys.stderr = os.fdopen(1, "w"), os.fdopen(2, "w")
            from trimdive.cli import main

            sys.argv = ["trimdive", *command]
            main()
            code = 0
    except SystemExit as error:
        code = error.code if isinstance(error.code, int) else 98
    except BaseException as error:
        os.write(2, f"Traceback {error!r}\n".encode())
    finally:
        sys.stderr.flush()
        os._exit(code)


def run(files: list[Hostile], tell: Callable[[str], None] = lambda _: None) -> Figures:
    """Ask of each file, and look at the answer."""
    found = Figures()
    for one in files:
        with tempfile.TemporaryDirectory() as home:
            code, said, took, used = _ask(_laid(one, Path(home)), Path(home))
            said = said.replace(f"{home}/", "")
        found.tried += 1
        found.refused += code == 2
        found.said[one.name] = said.strip()
        found.slowest = max(found.slowest, (took, one.name))
        found.largest = max(found.largest, (used, one.name))
        tell(f"{one.name}: {code} {took:.1f} s {used / 2**20:.0f} MB {said[:150]!r}")
        allowed = (0, 1, 2) if one.may_pass else (2,)
        if code not in allowed or "Traceback" in said or (code == 2 and not said.strip()):
            found.wrong.append(f"{one.name}: status {code}, {said[-300:]!r}")
        if code == 2 and (len(said.strip()) > 1500 or "\x1b" in said):
            found.wrong.append(f"{one.name}: no plain sentence, {said[:300]!r}")
        if took > LONGEST or used > MOST:
            found.wrong.append(f"{one.name}: {took:.1f} s, {used / 2**20:.0f} MB")
    return found


def main() -> int:
    """Run as a script."""
    found = run(everything(), lambda line: print(line, flush=True))
    took, used = found.slowest, found.largest
    print(f"slowest {took[0]:.1f} s ({took[1]}), most memory {used[0] / 2**20:.0f} MB ({used[1]})")
    for wrong in found.wrong:
        print(f"WRONG {wrong}")
    print(f"{found.tried} files, {found.refused} refused in words, {len(found.wrong)} wrong")
    return 1 if found.wrong else 0


if __name__ == "__main__":
    raise SystemExit(main())
