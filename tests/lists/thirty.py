"""Weight lists as builders make them, each with what it holds stated first, by hand.

``holds`` is one line a part: mass of all its pieces [g], then its place along from the end named,
to port and up [mm]. Inches are 25.4 mm, pounds 453.59237 g, ounces 28.349523125 g (exact).
"""

import io
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

from openpyxl import Workbook
from openpyxl.styles import PatternFill
from tests.lists.books import Value, bytes_of, stored_book, xml_row

from trimdive.weightlists import Answers

IN, LB, OZ = 25.4, 453.59237, 28.349523125
Holds = Sequence[tuple[float, float, float, float]]


@dataclass(frozen=True, kw_only=True)
class Case:
    """One list: what it holds, and the file."""

    name: str
    holds: Holds  # mass [g], along, to port, up [mm]; empty where it must be refused
    end: str = "stern"  # from which "along" counts
    data: bytes | Callable[[], bytes]  # what takes long to make is made when asked for
    suffix: str = ".csv"
    said: Answers = field(default_factory=Answers)
    asked: str = ""  # a word of what must be asked or said before it can go in; "" where nothing is
    refused: str = ""  # a word of the refusal

    @property
    def file(self) -> bytes:
        """Return what the file holds."""
        return self.data() if callable(self.data) else self.data


CASES: list[Case] = []


def case(name: str, holds: Holds, data: str | bytes | Callable[[], bytes], **more: object) -> None:
    """Note a case."""
    raw = data.encode() if isinstance(data, str) else data
    CASES.append(Case(name=name, holds=holds, data=raw, **more))  # type: ignore[arg-type]


def book(rows: Sequence[Sequence[Value]], *, before: int = 0, merged: Sequence[str] = ()) -> bytes:
    """Return a workbook, the list on its first sheet after some empty ones."""
    made = Workbook()
    for k in range(before):
        made.worksheets[0].title = "Sheet1"
        made.create_sheet(f"Blank{k}")
    sheet = made.worksheets[-1]
    for row in rows:
        sheet.append(list(row))
    for area in merged:
        sheet.merge_cells(area)
    return bytes_of(made)


def _hidden() -> bytes:
    made = Workbook()
    sheet = made.worksheets[0]
    for row in (
        ["Part", "Supplier code", "Mass [g]", "x [mm]", "z [mm]"],
        ["pump", "A-1", 140, 400, 30],
        ["spare pump", "A-2", 140, 430, 30],
        ["valve", "B-1", 60, 500, 42],
        ["Total", None, 340, None, None],
    ):
        sheet.append(row)
    sheet.row_dimensions[3].hidden = True
    sheet.column_dimensions["B"].hidden = True
    return bytes_of(made)


def _huge() -> bytes:
    made = Workbook()
    sheet = made.worksheets[0]
    for row in (["Part", "Mass [g]", "x [mm]"], ["ram", 210, 610], ["weight", 455, 500]):
        sheet.append(row)
    grey = PatternFill("solid", fgColor="DDDDDD")
    for row in range(4, 2500):
        for column in range(1, 60):
            sheet.cell(row, column).fill = grey
    sheet.cell(1048570, 16000).fill = grey
    data = io.BytesIO(bytes_of(made))
    return data.getvalue()


def _merged_over_all() -> bytes:
    rows = xml_row(1, "Part", "Mass [g]", "x [mm]") + xml_row(2, "ram", 210, 610)
    data = stored_book(rows + xml_row(3, "weight", 455, 500))
    return with_merge(data, "E1:XFD1048576")


def with_merge(data: bytes, area: str) -> bytes:
    """Return a workbook with cells merged that no library would merge."""
    import zipfile

    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as old, zipfile.ZipFile(out, "w") as new:
        for name in old.namelist():
            held = old.read(name)
            if name.endswith("sheet1.xml"):
                merge = f'</sheetData><mergeCells count="1"><mergeCell ref="{area}"/></mergeCells>'
                held = held.replace(b"</sheetData>", merge.encode())
            new.writestr(name, held)
    return out.getvalue()


def _formula_rows() -> bytes:
    rows = [xml_row(1, "Part", "Pcs", "Each [g]", "Total [g]", "x [mm]")]
    rows.append(xml_row(2, "servo", 3, 55, ("B2*C2", 165), 320))
    rows.append(xml_row(3, "battery", 2, 410, ("B3*C3", 820), 700))
    rows += [f'<row r="{k}"><c r="D{k}"><f>B{k}*C{k}</f><v>0</v></c></row>' for k in range(4, 204)]
    rows.append(
        '<row r="204"><c r="A204" t="inlineStr"><is><t>Sum</t></is></c>'
        '<c r="D204"><f>SUM(D2:D203)</f><v>985</v></c></row>'
    )
    return stored_book("".join(rows))


# 1 to 6: places along, across and up
case(
    "fore-aft and lateral arms, inches",
    [(12.0 * OZ, 14.5 * IN, 11 * IN, 0), (3.5 * OZ, 20 * IN, -2.25 * IN, 0)],
    "Part,Weight (oz),Arm fore-aft (in),Arm lateral (in),Notes\n"
    "Battery,12.0,14.5,11,side pod\nMotor,3.5,20,-2.25,\nTotal,15.5,,,\n",
    said=Answers(measured_from="stern"),
)
case(
    "LCG, TCG, VCG in metres, decimal commas",
    [(1250, 612, 12, 45), (480.5, 1010, -30, 22), (95, 240, 0, 71)],
    "Item;Mass [kg];LCG [m];TCG [m];VCG [m]\nmotor frame;1,250;0,612;0,012;0,045\n"
    "pump;0,4805;1,010;-0,030;0,022\naerial;0,095;0,240;0;0,071\n;;;;\nTotal;1,8255;;;\n",
    said=Answers(measured_from="stern"),
)
case(
    "from front, off centre, above keel",
    [(310, 225, 0, 48), (44, 130, 18, 60), (44, 130, -18, 60)],
    "Component,Weight g,From front (mm),Off centre (mm),Above keel (mm)\n"
    "Drive motor,310,225,0,48\nServo P,44,130,18,60\nServo S,44,130,-18,60\nTOTAL,398,,,\n",
    end="bow",
)
case(
    "distance from the bow, from the centreline with P and S, from the baseline, cm",
    [(700, 1180, 25, 33), (700, 1180, -35, 33), (120, 340, 0, 90)],
    "description\tmass/g\tdistance from bow/cm\tdistance from centreline/cm\tfrom baseline/cm\n"
    "lead block\t700\t118\t2.5 P\t3.3\nlead block 2\t700\t118\t3.5 S\t3.3\n"
    "camera\t120\t34\tCL\t9.0\n",
    end="bow",
    suffix=".tsv",
)
case(
    "longitudinal, transverse and vertical position",
    [(905, 410, -14, 37), (62, 88, 0, 20)],
    "Bauteil;Gewicht (g);Position längs (mm);Position quer (mm);Position hoch (mm)\n"
    "Akku;905;410;-14;37\nRuder;62;88;0;20\nSumme;967;;;\n",
    said=Answers(measured_from="stern"),
)
case(
    "measured from, off to starboard",
    [(150, 300, -40, 0), (150, 300, 40, 0)],
    "Part,Mass [g],Station [mm],To starboard [mm],Measured from\n"
    "tank pump,150,300,40,bow\ntank pump 2,150,300,-40,bow\n",
    end="bow",
)
# 7 to 13: pieces
case(
    "each by pieces, one row's total wrong",
    [],
    "Part,Qty,Each [g],Total [g]\nservo,3,55,165\nbattery,2,410,720\nhatch,1,90,90\nSum,,,975\n",
    asked="2 × 410 g make 820 g",
)
case(
    "Number beside mass each",
    [(165, 320, 0, 0), (820, 700, 0, 0), (90, 640, 0, 0)],
    "Item,Number,Mass each (g),x (mm)\nservo,3,55,320\nbattery,2,410,700\nhatch,1,90,640\n",
)
case(
    "No. beside mass each, and the sum",
    [(165, 320, 0, 0), (820, 700, 0, 0), (90, 640, 0, 0)],
    "No.,Item,Mass each (g),x (mm)\n3,servo,55,320\n2,battery,410,700\n1,hatch,90,640\n"
    ",Total,1075,\n",
)
case(
    "No. that only counts the rows",
    [(55, 320, 0, 0), (410, 700, 0, 0), (90, 640, 0, 0)],
    "No.,Item,Mass (g),x (mm)\n1,servo,55,320\n2,battery,410,700\n3,hatch,90,640\n,Total,555,\n",
)
case(
    "no unit upon each, Total / kg",
    [(165, 0, 0, 0), (820, 0, 0, 0), (90, 0, 0, 0)],
    "Item;Qty;Mass each;Total / kg\nservo;3;55;0,165\nbattery;2;410;0,820\nhatch;1;90;0,090\n"
    ";;;1,075\n",
)
case(
    "Qty, weight each and line weight in ounces",
    [(4 * 1.25 * OZ, 6 * IN, 0, 0), (2 * 7.5 * OZ, 22.5 * IN, 0, 0)],
    "Qty,Item,Weight ea (oz),Line weight (oz),From stern (in)\n4,tie rod,1.25,5.0,6\n"
    "2,cell pack,7.5,15.0,22 1/2\n,,,20.0,\n",
)
case(
    "Mass Units beside Units",
    [(2 * 55, 0, 0, 0), (1 * 1200, 0, 0, 0), (4 * 0.5 * OZ, 0, 0, 0)],
    "Part,Units,Mass each,Mass Units\nservo,2,55,g\ncylinder,1,1.2,kg\nknob,4,0.5,oz\n",
)
# 14 to 20: sums of every kind
NESTED = """\
Weights of the boat,,,
Category,Item,Mass [g],x [mm]
Hull,,,
,shell,1000,600
,deck,240,610
,Hull,1240,
Electrics,,,
,battery,820,700
,receiver,25,400
,Electrics,845,
,HULL AND ELECTRICS,2085,
Ballast,,,
,lead,500,610
,Ballast,500,
,NET,2585,
,Margin multiplier,1.05,
,GROSS,2714.25,
"""
case(
    "subtotals named as their category, nested, NET, margin multiplier, GROSS",
    [(1000, 600, 0, 0), (240, 610, 0, 0), (820, 700, 0, 0), (25, 400, 0, 0), (500, 610, 0, 0)],
    NESTED,
)
case(
    "category rows that hold the sum of the rows below",
    [(1000, 0, 0, 0), (240, 0, 0, 0), (90, 0, 0, 0), (820, 0, 0, 0), (25, 0, 0, 0)],
    "Group;Part;Mass [g]\nHull;;1330\n;shell;1000\n;deck;240\n;hatch;90\nElectrics;;845\n"
    ";battery;820\n;receiver;25\n;;2175\n",
)
case(
    "total in the first row",
    [(1000, 600, 0, 0), (240, 610, 0, 0), (90, 640, 0, 0)],
    "Part,Mass [g],x [mm]\nTOTAL,1330,\nshell,1000,600\ndeck,240,610\nhatch,90,640\n",
)
case(
    "subtotals with the category's name, contingency in per cent, grand total",
    [(600, 0, 0, 0), (140, 0, 0, 0), (80, 0, 0, 0), (20, 0, 0, 0)],
    "Part|Mass (g)\nshell|600\ndeck|140\nHull sub-total|740\nmotor|80\nshaft|20\n"
    "Drive sub-total|100\nContingency 5 %|42\nGrand total|882\n",
    asked="",
)
case(
    "target, actual so far and what is left to go, below the list",
    [(600, 0, 0, 0), (140, 0, 0, 0)],
    "Part,Mass (g)\nshell,600\ndeck,140\nTotal,740\nTarget,4200\nTo go,3460\n",
)
case(
    "moments along and across, with their sums",
    [(310, 225, 20, 0), (44, 130, -18, 0)],
    "Part,Mass (g),Arm long. (mm),Moment long. (g mm),Arm lat. (mm),Moment lat. (g mm)\n"
    "motor,310,225,69750,20,6200\nservo,44,130,5720,-18,-792\nSum,354,,75470,,5408\n",
    said=Answers(measured_from="stern"),
)
case(
    "share of the whole, price, weight in per cent",
    [(600, 0, 0, 0), (140, 0, 0, 0)],
    "Part,Weight [g],Weight %,Price €\nshell,600,81.1,120.00\ndeck,140,18.9,35.50\n"
    "Sum,740,100,155.5\n",
)
# 21 to 28: workbooks
case(
    "a side table on the right of the list",
    [(310, 225, 0, 0), (44, 130, 0, 0), (500, 640, 0, 0)],
    book(
        [
            ["Part", "Mass [g]", "x [mm]", None, "Summary", "Mass [g]"],
            ["motor", 310, 225, None, "target", 4200],
            ["servo", 44, 130, None, "so far", 854],
            ["lead", 500, 640, None, "left", 3346],
            ["Total", 854, None, None, None, None],
        ]
    ),
    suffix=".xlsx",
)
case(
    "categories filled in on their first row only",
    [(1000, 600, 0, 0), (240, 610, 0, 0), (820, 700, 0, 0), (25, 400, 0, 0)],
    book(
        [
            ["System", "Component", "Mass [g]", "x [mm]"],
            ["Hull", "shell", 1000, 600],
            [None, "deck", 240, 610],
            ["Electrics", "battery", 820, 700],
            [None, "receiver", 25, 400],
            ["Total", None, 2085, None],
        ]
    ),
    suffix=".xlsx",
)
case(
    "categories merged downwards, heads merged across two rows",
    [(1000, 600, 5, 40), (240, 610, 0, 90), (820, 700, -5, 30)],
    book(
        [
            ["Weights", None, None, None, None, None],
            ["Category", "Item", "Mass", "Position [mm]", None, None],
            [None, None, "[g]", "x", "y", "z"],
            ["Hull", "shell", 1000, 600, 5, 40],
            [None, "deck", 240, 610, 0, 90],
            ["Electrics", "battery", 820, 700, -5, 30],
        ],
        merged=["A1:F1", "A2:A3", "B2:B3", "D2:F2", "A4:A5"],
    ),
    suffix=".xlsx",
)
case("two hundred empty formula rows", [(165, 320, 0, 0), (820, 700, 0, 0)], _formula_rows(),
     suffix=".xlsx")  # fmt: skip
case("hidden row and column", [(140, 400, 0, 30), (140, 430, 0, 30), (60, 500, 0, 42)], _hidden(),
     suffix=".xlsx")  # fmt: skip
case(
    "empty sheets before the list",
    [(310, 225, 0, 0), (44, 130, 0, 0)],
    book([["Part", "Mass [g]", "x [mm]"], ["motor", 310, 225], ["servo", 44, 130]], before=2),
    suffix=".xlsx",
)
case("a huge empty range with colours", [(210, 610, 0, 0), (455, 500, 0, 0)], _huge,
     suffix=".xlsx")  # fmt: skip
case("cells merged to the end of the sheet", [(210, 610, 0, 0), (455, 500, 0, 0)],
     _merged_over_all(), suffix=".xlsx")  # fmt: skip
# 29 to 35: traps in cells
case(
    "escape sequences in names",
    [(310, 225, 0, 0), (44, 130, 0, 0)],
    "Part,Mass [g],x [mm]\n\x1b[31mmotor\x1b[0m,310,225\nser\x07vo\u202e,44,130\n",
)
case(
    "a point among decimal commas",
    [(310.5, 225, 0, 0), (44.25, 130, 0, 0), (12.5, 90, 0, 0)],
    "Teil;Anzahl;Masse g;x mm\nMotor;1;310,5;225\nServo;1;44,25;130\nKlemme;1;12.5;90\n",
)
case(
    "French heads, unit and line weights, from the stem",
    [(2 * 55, 320, 20, 48), (910, 705, 0, 31)],
    "Désignation;Quantité;Poids unitaire (g);Poids total (g);Distance étrave (mm);"
    "Écart latéral (mm);Hauteur (mm)\nservo;2;55;110;320;20;48\naccu;1;910;910;705;0;31\n"
    "Total;;;1020;;;\n",
    end="bow",
)
case(
    "pounds and ounces, places in inches and sixteenths",
    [(2 * LB + 4 * OZ, 14.5 * IN, 0, 0), (1 * LB + 9 * OZ, 30 * IN, 0, 0)],
    'What,lb,oz,"From stern, in"\ncylinder,2,4,14 1/2\nlead,1,9,30\nTotal,3,13,\n',
)
case(
    "after and fore ends, height of the underside",
    [(640, 500, 0, 12), (88, 210, 0, 40)],
    "Name,Mass [g],Aft end [mm],Fore end [mm],Height [mm]\n"
    "rail,640,200,800,12\nshaft,88,60,360,40\n",
)
case(
    "units in the cells, thousands with apostrophes",
    [(1250, 600, 0, 0), (350, 400, 0, 0), (2 * LB + 3 * OZ, 900, 0, 0)],
    "Part;Mass;From stern\nshell;1'250 g;600 mm\npump;0.35kg;40 cm\nkeel;2 lb 3 oz;0.9 m\n",
)
case(
    "a second list with other heads below the first",
    [],
    "Part,Mass [g],x [mm]\nshell,1000,600\ndeck,240,610\n\nPart,x [mm],Mass [g]\nlead,500,610\n",
    asked="other headings",
)
case(
    "planned and actual masses",
    [],
    "Part,Planned mass [g],Actual mass [g]\nshell,1000,1040\ndeck,240,236\n",
    asked="two masses",
)
case(
    "one person's weights by date",
    [],
    "Date,Weight [kg]\n2024-01-03,82.4\n2024-01-10,82.1\n2024-01-17,81.7\n",
    refused="dates",
)
case(
    "one person's weights by date, in a workbook",
    [],
    book(
        [
            ["Name", "Day", "Weight [kg]"],
            ["Alex", "3 Jan 2024", 82.4],
            ["Alex", "10 Jan 2024", 82.1],
            ["Alex", "17 Jan 2024", 81.7],
        ]
    ),
    suffix=".xlsx",
    refused="dates",
)
