"""Writes src/trimdive/data/gases.csv and gas_vapour.csv from the CoolProp Library.

Run it to add a gas: ``python tools/write_gas_table.py``. The program reads the tables alone.
"""

import csv
from pathlib import Path

from CoolProp import CoolProp as Library

DATA = Path(__file__).parents[1] / "src" / "trimdive" / "data"
ZERO = 273.15  # 0 °C [K]
STEP, COLDEST, WARMEST = 5, -10, 45  # of the rows of saturation pressure [°C]
GASES = (  # our name, the library's, whether it burns, what to know
    ("air", "Air", "no", "never liquid here: compressed in its bottle"),
    ("CO2", "CarbonDioxide", "no", "bottle beyond 50 bar; above 31 °C it is liquid no more"),
    ("propane", "Propane", "yes", "burns"),
    ("isobutane", "IsoButane", "yes", "burns; weak in the cold"),
    ("n-butane", "n-Butane", "yes", "burns; hardly blows in cold water"),
    ("R-134a", "R134a", "no", "a strong greenhouse gas: sale and venting are restricted"),
    ("R-152a", "R152A", "yes", "burns"),
    ("R-1234ze(E)", "R1234ze(E)", "no", "hardly burns; little greenhouse effect"),
    ("DME", "DimethylEther", "yes", "burns; dissolves some plastics"),
)


def properties(fluid: str) -> dict[str, str]:
    """Return molar mass, critical point, ratio of heats, and heats of the liquid at 15 °C."""
    ask = Library.PropsSI
    hot = ZERO + 15
    gamma = ask("CP0MASS", "T", hot, "P", 101325, fluid)
    gamma /= gamma - ask("GAS_CONSTANT", fluid) / ask("MOLARMASS", fluid)
    liquid = ask("TCRIT", fluid) > hot
    heat = ask("H", "T", hot, "Q", 1, fluid) - ask("H", "T", hot, "Q", 0, fluid) if liquid else 0
    held = ask("C", "T", hot, "Q", 0, fluid) if liquid else 0
    return {
        "molar_mass": f"{ask('MOLARMASS', fluid):.7g}",
        "critical": f"{ask('TCRIT', fluid) - ZERO:.5g}",
        "heats_ratio": f"{gamma:.4g}",
        "evaporation": f"{heat:.4g}",
        "liquid_heat": f"{held:.4g}",
    }


def main() -> None:
    """Write both tables."""
    with (DATA / "gases.csv").open("w", newline="", encoding="utf-8") as file:
        file.write(
            "# Gases that blow tanks. molar_mass kg/mol, critical °C, heats_ratio none, evaporation"
            "\n# J/kg and liquid_heat J/kg/K at 15 °C. Written by tools/write_gas_table.py.\n"
        )
        rows = [
            {"key": name, **properties(fluid), "burns": burns, "source": "coolprop-2014",
             "locator": fluid, "note": note}
            for name, fluid, burns, note in GASES
        ]  # fmt: skip
        writer = csv.DictWriter(file, list(rows[0]), lineterminator="\n")
        writer.writeheader()
        writer.writerows(rows)
    with (DATA / "gas_vapour.csv").open("w", newline="", encoding="utf-8") as file:
        file.write("# Pressure of gas above its liquid. Written by tools/write_gas_table.py.\n")
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(["key", "gas", "celsius", "pressure", "unit", "source"])
        for name, fluid, _, _ in GASES:
            top = Library.PropsSI("TCRIT", fluid) - ZERO
            for celsius in range(COLDEST, WARMEST + 1, STEP):
                if celsius < top:
                    pressure = Library.PropsSI("P", "T", ZERO + celsius, "Q", 0, fluid)
                    writer.writerow(
                        [
                            f"{name} {celsius}",
                            name,
                            celsius,
                            f"{pressure:.6g}",
                            "Pa",
                            "coolprop-2014",
                        ]
                    )


if __name__ == "__main__":
    main()
