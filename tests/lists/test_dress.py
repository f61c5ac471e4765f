"""One small ledger in many dresses: whatever a spreadsheet writes, the same masses come in.

The masses are summed by hand in decimal arithmetic; ounces and pounds by the international pound
of 0.45359237 kg (exact by definition).
"""

from decimal import Decimal

import pytest
from tests.in_words import SAY, in_words

from trimdive.text.list_words import ask_sentence
from trimdive.weightlists import Answers, ListPreview, understood

LB = 0.45359237  # kg, exact by the agreement of 1959
OZ = LB / 16
INCH = 0.0254  # m, exact by the same


def read(text: str, **said: str) -> ListPreview:
    return understood(text.encode(), "list.csv", Answers(**said))


def masses(preview: ListPreview) -> dict[str, float]:
    return {item.name: item.mass for item in preview.items}


def uses(preview: ListPreview) -> list[str]:
    return [column.use for column in preview.columns]


THREE = {"hull": 1.2405, "motor": 0.19, "battery": 0.52}

DRESSES = {
    "commas": 'Name,Mass [g]\nhull,"1,240.5"\nmotor,190\nbattery,520.0\n',
    "commas, no thousands": "Name,Mass [g]\nhull,1240.5\nmotor,190\nbattery,520\n",
    "semicolons": "Name;Gewicht [g]\nhull;1.240,5\nmotor;190,0\nbattery;520\n",
    "tabs": "Naam\tGewicht (g)\nhull\t1240,5\nmotor\t190\nbattery\t520\n",
    "strokes": "Nome|Peso [g]\nhull|1240,5\nmotor|190\nbattery|520\n",
    "sep line": "sep=;\nNombre;Peso (g)\nhull;1240,5\nmotor;190\nbattery;520\n",
    "kilograms": "Nom;masse, kg\nhull;1,2405\nmotor;0,19\nbattery;0,520\n",
    "units in cells": "Item,Weight\nhull,1240.5 g\nmotor,0.19 kg\nbattery,520 g\n",
    "unit column": "Item;Weight;Unit\nhull;1,2405;kg\nmotor;190;g\nbattery;0,52;kg\n",
    "Gramm": "Teil;Gewicht\nhull;1240,5 Gramm\nmotor;190 gr\nbattery;0,52 Kilogramm\n",
    "Swiss": "Teil;Masse [g]\nhull;1'240.5\nmotor;190\nbattery;520\n",
    "thousands by blanks": "Nom;Poids [g]\nhull;1 240,5\nmotor;190\nbattery;520\n",
    "quotes": '"Part";"Mass, g"\n"hull";"1240.5"\n"motor";"190"\n"battery";"520"\n',
    "blank rows": "\n\nPart,Mass [g]\n\nhull,1240.5\n,,\nmotor,190\n\nbattery,520\n,\n",
    "unit row": "Part,Mass\n,[g]\nhull,1240.5\nmotor,190\nbattery,520\n",
    "notes above": "My boat\nall in g\n\nPart;Weight\nhull;1240,5\nmotor;190\nbattery;520\n",
    "underscore": "part_name,weight_g\nhull,1240.5\nmotor,190\nbattery,520\n",
    "misspelt": "Part,Wieght [g]\nhull,1240.5\nmotor,190\nbattery,520\n",
    "Windows line ends": "Part;Mass [g]\r\nhull;1240,5\r\nmotor;190\r\nbattery;520\r\n",
    "old line ends": "Part;Mass [g]\rhull;1240,5\rmotor;190\rbattery;520\r",
    "no last line end": "Part;Mass [g]\nhull;1240,5\nmotor;190\nbattery;520",
}


@pytest.mark.parametrize("dress", DRESSES)
def test_the_same_masses_in_every_dress(dress: str) -> None:
    preview = read(DRESSES[dress])
    assert masses(preview) == pytest.approx(THREE, rel=1e-12)
    assert preview.not_understood == ()
    assert Decimal(repr(round(preview.mass, 9))) == Decimal("1.9505")


LANGUAGES = {
    "English": "Part;Qty;Weight [g];x [mm];Height [mm];Material;Notes",
    "German": "Bezeichnung;Stück;Gewicht [g];ab Heck [mm];Höhe [mm];Werkstoff;Bemerkung",
    "French": "Désignation;Qté;Poids [g];depuis l'arrière [mm];Hauteur [mm];Matériau;Remarque",
    "Dutch": "Onderdeel;Aantal;Gewicht [g];vanaf hek [mm];Hoogte [mm];Materiaal;Opmerking",
    "Italian": "Descrizione;Quantità;Peso [g];da poppa [mm];Altezza [mm];Materiale;Note",
    "Spanish": "Descripción;Cantidad;Peso [g];desde popa [mm];Altura [mm];Material;Observaciones",
}


@pytest.mark.parametrize("language", LANGUAGES)
def test_heads_in_six_languages(language: str) -> None:
    preview = read(f"{LANGUAGES[language]}\nmotor;1;190;375;48;ABS;new\n")
    assert [use.removesuffix("_stern") for use in uses(preview)] == [
        "name", "quantity", "mass", "x", "z", "material", "note",
    ]  # fmt: skip
    (item,) = preview.items
    assert item.figures == pytest.approx({"x": 0.375, "z": 0.048})
    assert item.words["material"] == "ABS"
    assert preview.asks == ()


def test_pounds_beside_ounces() -> None:
    preview = read("Part\tlb\toz\tfrom stern (in)\nbattery\t3\t4\t9 3/4\nlead\t2\t0\t12\n")
    assert masses(preview) == pytest.approx({"battery": 3 * LB + 4 * OZ, "lead": 2 * LB})
    assert preview.items[0].figures["x"] == pytest.approx(9.75 * INCH)


def test_pounds_and_ounces_in_one_cell() -> None:
    preview = read('Item,Weight,From bow\nBattery,3 lb 4 oz,"9 3/4"""\n')
    assert masses(preview) == pytest.approx({"Battery": 3 * LB + 4 * OZ})
    assert preview.items[0].figures["x"] == pytest.approx(9.75 * INCH)
    assert preview.items[0].words["from"] == "bow"


def test_the_same_mass_in_two_units_counts_once() -> None:
    preview = read("Part,Weight g,Weight oz\nmotor,190,6.70\nservo,55,1.94\n")
    assert preview.mass == pytest.approx(0.245)


def test_two_masses_that_disagree_are_not_guessed_between() -> None:
    preview = read("Part,Weight g,Weight oz\nmotor,190,6.70\nservo,55,2.94\n")
    assert masses(preview) == {"motor": 0.19}
    assert "say two masses" in in_words(preview.not_understood[0].why)


def test_a_head_over_two_lines() -> None:
    preview = read(
        "Part,Weight [g],Position [mm],,\n,,x,y,z\nmotor,190,375,12,48\nlead,500,600,0,9\n"
    )
    assert uses(preview) == ["name", "mass", "x", "y", "z"]
    assert preview.items[0].figures == pytest.approx({"x": 0.375, "y": 0.012, "z": 0.048})


def test_each_and_all_columns() -> None:
    preview = read("Part,Qty,Unit weight [g],Total weight [g]\nservo,2,55,110\nmotor,1,190,190\n")
    assert uses(preview) == ["name", "quantity", "mass_each", "mass_all"]
    assert masses(preview) == pytest.approx({"servo": 0.11, "motor": 0.19})


def test_pieces_times_the_mass_of_one() -> None:
    preview = read("Part,pcs,Weight each [g]\nservo,2 pcs,55\nmotor,,190\nlead,3x,100\n")
    assert masses(preview) == pytest.approx({"servo": 0.11, "motor": 0.19, "lead": 0.3})


@pytest.mark.parametrize(("total", "servo"), [("300", 0.11), ("245", 0.055)])
def test_the_lists_own_sum_tells_whether_a_mass_is_of_one_piece(total: str, servo: float) -> None:
    preview = read(f"Part,Qty,Weight [g]\nservo,2,55\nmotor,1,190\nTotal,,{total}\n")
    assert masses(preview)["servo"] == pytest.approx(servo)
    assert [ask.field for ask in preview.asks if ask.field == "mass_of"] == []


@pytest.mark.parametrize(("said", "servo"), [("each", 0.11), ("all", 0.055)])
def test_without_a_sum_it_is_asked(said: str, servo: float) -> None:
    text = "Part,Qty,Weight [g]\nservo,2,55\nmotor,1,190\n"
    assert "mass_of" in [ask.field for ask in read(text).asks]
    preview = read(text, mass_of=said)
    assert "mass_of" not in [ask.field for ask in preview.asks]
    assert masses(preview)["servo"] == pytest.approx(servo)


def test_about_and_plus_minus() -> None:
    preview = read("Part,Mass\nwiring,ca. 40 g\nlead,500 ± 20 g\nfoam,~12 g\n")
    assert masses(preview) == pytest.approx({"wiring": 0.04, "lead": 0.5, "foam": 0.012})
    assert [item.words.get("known") for item in preview.items] == ["guess", None, "guess"]
    assert preview.items[1].words["spread"] == "± 20 g"


def test_how_masses_are_known() -> None:
    preview = read(
        "Teil;Gewicht [g];Herkunft\nMotor;190;gewogen\nKabel;40;geschätzt\nAkku;520;Datenblatt\n"
        "Rahmen;21;berechnet\nX;1;Orakel\n"
    )
    assert [item.words.get("known") for item in preview.items] == [
        "weighed", "guess", "catalogue", "worked out", None,
    ]  # fmt: skip
    assert "Orakel" in in_words(preview.items[-1].doubts[0])


def test_starboard_is_the_other_side() -> None:
    preview = read("Part,Mass [g],to starboard [mm]\nmotor,190,12\n")
    assert preview.items[0].figures["y"] == pytest.approx(-0.012)


def test_both_ends_make_the_middle() -> None:
    preview = read("Part,Mass [g],x aft [mm],x fore [mm]\nmotor,190,300,400\n")
    assert preview.items[0].figures["x"] == pytest.approx(0.35)


def test_nought_along_the_hull() -> None:
    text = "Part,Mass [g],lever arm [mm]\nmotor,190,-100\nlead,500,50\n"
    assert "measured_from" in [ask.field for ask in read(text).asks]
    preview = read(text, measured_from="650 mm")
    assert [item.figures["x"] for item in preview.items] == pytest.approx([0.55, 0.7])
    assert "measured_from" not in [ask.field for ask in preview.asks]


def test_no_unit_is_asked_for_not_guessed() -> None:
    text = "Part,Weight\nmotor,190\nlead,500\n"
    ask = next(ask for ask in read(text).asks if ask.field == "mass_unit")
    assert "g is likely" in ask_sentence(SAY, ask)
    assert "--" not in ask_sentence(SAY, ask)
    assert in_words(ask.option) == "--mass-unit g"
    assert read(text, mass_unit="oz").mass == pytest.approx(690 * OZ)


@pytest.mark.parametrize("figure", ["1,240", "1.240"])
def test_thousands_or_decimals_is_not_guessed(figure: str) -> None:
    preview = read(f"Teil\tGewicht [g]\nRumpf\t{figure}\nMotor\t190\n".replace("\t", ";"))
    assert f"'{figure}' may be 1240 g or 1.24 g; 1240 is likelier" in in_words(
        preview.not_understood[0].why
    )
    assert masses(preview) == {"Motor": 0.19}


def test_other_decimals_in_the_list_settle_it() -> None:
    german = read("Teil;Gewicht [g]\nRumpf;1.240\nMotor;190,5\n")
    english = read("Part;Weight [g]\nhull;1,240\nmotor;190.5\n")
    assert masses(german)["Rumpf"] == pytest.approx(1.24)
    assert masses(english)["hull"] == pytest.approx(1.24)


def test_an_unquoted_decimal_comma_is_noticed() -> None:
    preview = read("Part,Mass [g],x [mm]\nmotor,190,375\nservo,55,5,450\n")
    assert masses(preview) == {"motor": 0.19}
    assert "4 cells under 3 headings" in in_words(preview.not_understood[0].why)


@pytest.mark.parametrize("heads", ["Item,Qty,Each,Total", "Item,Qty,Weight,Total"])
def test_a_column_headed_total_is_the_mass_of_all(heads: str) -> None:
    preview = read(f"{heads}\nmotor,1,190 g,190 g\nservo,2,55 g,110 g\n,,Total:,300 g\n")
    assert uses(preview) == ["name", "quantity", "mass_each", "mass_all"]
    assert preview.mass == pytest.approx(0.3)
    assert preview.sums[0].agrees


@pytest.mark.parametrize(
    ("head", "use"),
    [
        ("LCG (mm from bow)", "x_bow"),
        ("Position/étrave (mm)", "x_bow"),
        ("Plaats t.o.v. boeg (mm)", "x_bow"),
        ("Lage ab Heck [mm]", "x_stern"),
        ("x forward of stern [mm]", "x_stern"),
        ("Schwerpunkt x [mm]", "x"),
        ("Hebelarm [mm]", "arm"),
    ],
)
def test_ends_in_heads(head: str, use: str) -> None:
    assert uses(read(f"Part;Mass [g];{head}\nmotor;190;375\n")) == ["name", "mass", use]


def test_dry_and_soaked() -> None:
    (item,) = read("Part,Weight g (dry),Weight g (wet),x mm\nplank,44,50,600\n").items
    assert item.mass == pytest.approx(0.044)
    assert item.figures["soaked"] == pytest.approx(0.05)


@pytest.mark.parametrize(
    "last", ["Total: 1190 g", "Summe 1.190,0 g", ";Total 1190 g", "∑;1190", "Total weight;1190"]
)
def test_totals_however_they_are_written(last: str) -> None:
    preview = read(f"Part;Weight [g]\nhull;1000,0\nmotor;190\n{last}\n")
    assert preview.mass == pytest.approx(1.19)
    assert [one.stated for one in preview.sums] == pytest.approx([1.19])


def test_no_heads_but_masses_with_their_units() -> None:
    preview = read("motor;190 g;375 mm\nservo;55 g;450 mm\n")
    assert masses(preview) == pytest.approx({"motor": 0.19, "servo": 0.055})
    assert in_words(preview.columns[2].why) == "ignored: it has no heading"


def test_a_formula_in_a_text_file_is_no_mass() -> None:
    preview = read("Part,Mass [g]\nmotor,=B4*2\nservo,55\n")
    assert "a formula, not a result" in in_words(preview.not_understood[0].why)


@pytest.mark.parametrize("figure", ["1e99 kg", "99999999"])
def test_a_mass_that_no_boat_can_have_is_not_understood(figure: str) -> None:
    preview = read(f"Part,Mass [kg]\nhull,{figure}\nmotor,0.19\n")
    assert masses(preview) == {"motor": 0.19}
    assert "more than a model boat can have; write at most 10 t" in in_words(
        preview.not_understood[0].why
    )
