"""The drawing board tells a skin that was measured and weighed with both figures, once."""

from pathlib import Path
from shutil import copytree

from tests.page.conftest import BOATS, page_of


def test_a_skin_by_its_mass_names_the_entered_thickness_too(tmp_path: Path) -> None:
    file = Path(copytree(BOATS / "bittern", tmp_path / "bittern")) / "boat.toml"
    text = file.read_text("utf-8")
    at = text.index('name = "tower"')
    page = page_of(file).enter()
    assert "by its mass, entered as" not in page.client.get("/board").text
    file.write_text(text[:at] + 'thickness = "1.4 mm"\n' + text[at:], "utf-8")
    shown = page_of(file).enter().client.get("/board").text
    assert "skin 2.4 mm by its mass, entered as 1.4 mm" in shown
    assert "its skin is entered as 1.4 mm thick" in page_of(file).enter().client.get("/right").text
