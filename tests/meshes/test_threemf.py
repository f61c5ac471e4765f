"""3MF files of all shapes that the core and the production specification describe.

Source: 3MF Core Specification, chapters 2 to 4; 3MF Production Extension, chapters 2 to 4. Volumes
by hand.
"""

import io
import struct
import zipfile

import numpy as np
import pytest
from tests.meshes.packages import assembly, at, box, model, package

from trimdive.errors import GeometryError
from trimdive.geometry.lines.mesh import Mesh, volume
from trimdive.geometry.meshes import Drawn, read

NEEDS = 'requiredextensions="p"'


def of(data: bytes) -> Drawn:
    return read(data, "x.3mf")


def filled(held: Drawn) -> float:
    """Return the volume in the file's own unit, cubed."""
    return volume(Mesh(vertices=held.points, triangles=held.triangles))


def test_two_items_of_one_object() -> None:
    data = package(model(box("1", (5, 5, 5)), 'objectid="1"', f'objectid="1" {at(9, 0, 0)}'))
    assert filled(of(data)) == pytest.approx(250)


def test_objects_that_are_not_built_do_not_count() -> None:
    objects = box("1", (5, 5, 5)) + box("2", (9, 9, 9))
    assert filled(of(package(model(objects, 'objectid="1"')))) == pytest.approx(125)


def test_an_object_of_others_that_stands_in_an_item() -> None:
    """The outer transform follows the inner one: row vectors, times inner, times outer."""
    turn = np.array([[0, 1, 0], [-1, 0, 0], [0, 0, 1]])
    objects = box("1", (4, 2, 1)) + assembly("2", f'objectid="1" {at(10, 0, 0, 2 * np.eye(3))}')
    data = package(model(objects, f'objectid="2" {at(0, 0, 5, turn)}'))
    held = of(data)
    assert filled(held) == pytest.approx(8 * 8)
    assert held.points.min(axis=0) == pytest.approx([-4, 10, 5])
    assert held.points.max(axis=0) == pytest.approx([0, 18, 7])


def test_models_each_with_ids_of_their_own() -> None:
    """Objects 1 of three models are three objects."""
    root = model(
        box("1", (1, 1, 1)),
        'objectid="1"',
        f'objectid="1" p:path="/3D/hull.model" {at(10, 0, 0)}',
        f'objectid="1" p:path="/3D/fin.model" {at(40, 0, 0)}',
        head=NEEDS,
    )
    hull, fin = model(box("1", (4, 4, 4))), model(box("1", (2, 2, 2)))
    assert filled(of(package(root, hull=hull, fin=fin))) == pytest.approx(1 + 64 + 8)


def test_a_component_in_another_model() -> None:
    """187.5 mm³: three boxes of 5 × 5 × 2.5, all from another model."""
    objects = assembly(
        "7",
        'objectid="3" p:path="/3D/parts.model"',
        f'objectid="4" p:path="/3D/parts.model" {at(20, 0, 0)}',
    )
    parts = model(
        box("3", (5, 5, 2.5)) + assembly("4", 'objectid="3"', f'objectid="3" {at(0, 9, 0)}')
    )
    data = package(model(objects, 'objectid="7"', head=NEEDS), parts=parts)
    assert filled(of(data)) == pytest.approx(3 * 62.5)


def test_items_of_further_models_are_not_built() -> None:
    """Production Extension, chapter 2: the build of a model within is passed over."""
    root = model("", 'objectid="1" p:path="/3D/part.model"', head=NEEDS)
    part = model(box("1", (2, 2, 2)) + box("2", (3, 3, 3)), 'objectid="2"', 'objectid="2"')
    assert filled(of(package(root, part=part))) == pytest.approx(8)


def test_a_model_in_another_unit() -> None:
    root = model("", 'objectid="1" p:path="/3D/part.model"', head=NEEDS, unit="centimeter")
    part = model(box("1", (20, 20, 20)), unit="millimeter")
    held = of(package(root, part=part))
    assert held.unit == 0.01
    assert filled(held) == pytest.approx(8)


def test_the_first_model_is_the_one_that_the_archive_names() -> None:
    root = model(box("1", (2, 2, 2)), 'objectid="1"')
    other = model(box("1", (5, 5, 5)), 'objectid="1"')
    data = package(root, start="Other/start.model", aaa=other, zzz=other)
    assert filled(of(data)) == pytest.approx(8)


def test_names_of_parts_go_by_letters_of_either_size() -> None:
    root = model("", 'objectid="1" p:path="/3d/PART.model"', head=NEEDS)
    assert filled(of(package(root, part=model(box("1", (2, 2, 2)))))) == pytest.approx(8)


def test_mirrored_objects_stay_the_right_way_out() -> None:
    mirror = np.diag([-1.0, 1.0, 1.0])
    data = package(model(box("1", (2, 3, 4)), f'objectid="1" {at(0, 0, 0, mirror)}'))
    assert filled(of(data)) == pytest.approx(24)


@pytest.mark.parametrize("kind", ["support", "solidsupport"])
def test_supports_are_left_out_and_said(kind: str) -> None:
    objects = box("1", (2, 2, 2)) + box("2", (9, 9, 9), f'type="{kind}"')
    held = of(package(model(objects, 'objectid="1"', 'objectid="2"')))
    assert filled(held) == pytest.approx(8)
    assert held.kind == "3MF"
    assert held.without_supports


def test_elements_of_extensions_that_are_not_needed_are_passed_over() -> None:
    strange = box("1", (2, 2, 2)).replace(
        "</mesh>", '<b:beamlattice xmlns:b="urn:beams"><b:vertex/></b:beamlattice></mesh>'
    )
    assert filled(of(package(model(strange, 'objectid="1"')))) == pytest.approx(8)


@pytest.mark.parametrize(
    ("prefix", "uri"),
    [
        ("b", "http://schemas.microsoft.com/3dmanufacturing/beamlattice/2017/02"),
        ("s", "http://schemas.microsoft.com/3dmanufacturing/slice/2015/07"),
        ("sc", "http://schemas.microsoft.com/3dmanufacturing/securecontent/2019/04"),
        ("bo", "http://schemas.3mf.io/3dmanufacturing/booleanoperations/2023/07"),
        ("mine", "urn:of-my-own"),
    ],
)
@pytest.mark.parametrize("is_inner", [False, True])
def test_extensions_that_are_needed_and_not_known(prefix: str, uri: str, is_inner: bool) -> None:
    head = f'requiredextensions="p {prefix}" xmlns:{prefix}="{uri}"'
    one = model(box("1", (2, 2, 2)), 'objectid="1"', head=head)
    root = model("", 'objectid="1" p:path="/3D/part.model"', head=NEEDS) if is_inner else one
    with pytest.raises(GeometryError, match="needs an extension of 3MF that is not read here"):
        of(package(root, part=one))


def test_materials_may_be_needed() -> None:
    uri = "http://schemas.microsoft.com/3dmanufacturing/material/2015/02"
    head = f'requiredextensions="m" xmlns:m="{uri}"'
    data = package(model(box("1", (2, 2, 2)), 'objectid="1"', head=head))
    assert filled(of(data)) == pytest.approx(8)


def deep(fan: int, levels: int) -> bytes:
    """Return objects that contain objects, so many times each, so many levels deep."""
    objects = [box("0", (1, 1, 1))]
    for level in range(levels):
        objects.append(assembly(str(level + 1), *[f'objectid="{level}"'] * fan))
    return package(model("".join(objects), f'objectid="{levels}"'))


def test_ten_times_ten_times_ten_is_refused_at_once() -> None:
    with pytest.raises(GeometryError, match="make 120 000 000 000 triangles"):
        of(deep(10, 10))


def test_deep_but_few_is_read() -> None:
    assert filled(of(deep(1, 20))) == pytest.approx(1)
    with pytest.raises(GeometryError, match="more than 32 deep"):
        of(deep(1, 40))


def test_empty_objects_in_each_other_are_counted_too() -> None:
    objects = ['<object id="0"></object>']
    for level in range(10):
        objects.append(assembly(str(level + 1), *[f'objectid="{level}"'] * 10))
    with pytest.raises(GeometryError, match="make 11 000 000 000 objects"):
        of(package(model("".join(objects), 'objectid="10"')))


def test_an_archive_that_lies_about_its_size_unpacks_no_further() -> None:
    """A bomb: 64 MB of blanks packed small, said to be 100 bytes."""
    held = io.BytesIO()
    with zipfile.ZipFile(held, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("3D/3dmodel.model", b" " * 2**26)
    data = bytearray(held.getvalue())
    for mark, offset in ((b"PK\x03\x04", 22), (b"PK\x01\x02", 24)):
        at = data.index(mark) + offset
        data[at : at + 4] = struct.pack("<I", 100)
    with pytest.raises(GeometryError, match="cannot be unpacked"):
        of(bytes(data))


ENTITIES = '<!DOCTYPE model [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;&a;&a;">]>'


@pytest.mark.parametrize(
    ("root", "says"),
    [
        (model(box("1", (1, 1, 1)), 'objectid="2"'), "its object '2' is missing"),
        (model(box("1", (1, 1, 1))), "no triangles"),
        (model(assembly("1", 'objectid="1"'), 'objectid="1"'), "stand in each other"),
        (
            model(assembly("1", 'objectid="2"') + assembly("2", 'objectid="1"'), 'objectid="1"'),
            "stand in each other",
        ),
        (model("", 'objectid="1" p:path="/3D/no.model"', head=NEEDS), "'3d/no.model' is missing"),
        (
            model(box("1", (1, 1, 1)), f'objectid="1" {at(0, 0, 0, np.diag([1, 1, 0]))}'),
            "leaves nothing of its object",
        ),
        (model(box("1", (1, 1, 1)), 'objectid="1" transform="1 0 0"'), "a number there"),
        (model(box("1", (1, 1, 1)), 'objectid="1"', unit="cubit"), "no unit 'cubit'"),
        (model(box("1", (1, 1, 1)) * 2, 'objectid="1"'), "'1' stands there twice"),
        (
            model(box("1", (1, 1, 1)), 'objectid="1"').replace('v1="3"', 'v1="8"'),
            "names a point that there is not",
        ),
        (
            model(box("1", (1, 1, 1)), 'objectid="1"').replace('v1="3"', 'v1="' + "9" * 400 + '"'),
            "a number there cannot be read",
        ),
        (
            model(box("1", (1, 1, 1)), 'objectid="1"').replace('x="1"', 'x="1e999"'),
            "no numbers",
        ),
        (model(box("1", (1, 1, 1)), 'objectid="1"').replace("<model", ENTITIES + "<model"), "type"),
        (model(box("1", (1, 1, 1)), 'objectid="1"')[:-20], "it is no XML"),
        ("<html/>", "no model"),
        (
            model(box("1", (1, 1, 1), 'pa:modelresolution="lowres"'), 'objectid="1"').replace(
                "<resources", '<resources xmlns:pa="urn:pa"'
            ),
            "only stands for a finer one",
        ),
    ],
)
def test_what_is_wrong_is_one_sentence(root: str, says: str) -> None:
    with pytest.raises(GeometryError, match=says) as caught:
        of(package(root))
    assert caught.value.where.startswith("x.3mf")
    assert len(caught.value.sentences) == 1


def test_a_path_in_a_model_within_is_refused() -> None:
    """Production Extension, section 3.2: a consumer must generate an error."""
    part = model(
        box("1", (1, 1, 1)) + assembly("2", 'objectid="1" p:path="/3D/part.model"'), head=NEEDS
    )
    root = model("", 'objectid="2" p:path="/3D/part.model"', head=NEEDS)
    with pytest.raises(GeometryError, match="names yet another one"):
        of(package(root, part=part))


@pytest.mark.parametrize("seed", range(300))
def test_damaged_archives(seed: int) -> None:
    """Bytes changed at random end in the mesh or in one sentence with the file's name."""
    random = np.random.default_rng(seed)
    root = model("", 'objectid="1" p:path="/3D/part.model"', head=NEEDS)
    data = bytearray(package(root, part=model(box("1", (2, 2, 2)))))
    for _ in range(random.integers(1, 6)):
        data[random.integers(len(data))] = random.integers(256)
    said = ""
    try:
        of(bytes(data))
    except GeometryError as error:
        said = error.where
    assert said == "" or said.startswith("x.3mf")
