"""Writes the reference values in data/ that the tests compare with.

    python3 make_checks.py

Needs coolprop and psychrolib (requirements.txt). SI units, absolute pressures; R-410A with the IIR reference state.
Points are drawn by a fixed seed, so that none lies on a node of a table, and the file is the same each time.
"""

import math
import random
from pathlib import Path

import CoolProp
import psychrolib
from CoolProp import AbstractState
from CoolProp.CoolProp import HAPropsSI

DATA = Path(__file__).parent / "data"
PSYCHROLIB_VERSION = "2.5.0"


def write(name, comments, columns, rows):
    lines = [f"# {comment}" for comment in comments]
    lines.append(",".join(columns))
    lines += [",".join(f"{value:.9g}" for value in row) for row in rows]
    (DATA / name).write_text("\n".join(lines) + "\n")
    print(name, len(rows), "rows")


def refrigerant():
    """region: 0 liquid, 1 two-phase, 2 vapour, 3 bubble, 4 dew."""
    draw = random.Random(410)
    state = AbstractState("HEOS", "R410A")
    rows = []

    def add(region, quality):
        s = state
        # Inside the dome a heat capacity at constant pressure has no meaning.
        cp = 0.0 if region == 1 else s.cpmass()
        rows.append((region, quality, s.p(), s.T(), s.rhomass(), s.hmass(), s.smass(), cp))

    def pressure_pa(low):
        if draw.random() < 0.15:
            return draw.uniform(4.4e6, 4.849e6)
        return math.exp(draw.uniform(math.log(low), math.log(4.849e6)))

    for _ in range(400):
        # The equation of state begins at 200 K; some of what CoolProp says of saturation below that is nonsense.
        p = pressure_pa(29.3e3)
        for region, quality in ((3, 0.0), (4, 1.0), (1, draw.uniform(0.005, 0.995))):
            state.update(CoolProp.PQ_INPUTS, p, quality)
            add(region, quality)
    for _ in range(900):
        p = pressure_pa(5e3)
        dew_k = 200.0
        if p > 29.2e3:
            state.update(CoolProp.PQ_INPUTS, p, 1.0)
            dew_k = state.T()
        # Crowded towards dew, where it is hard.
        t_k = max(dew_k + (489.9 - dew_k) * draw.random() ** 2, dew_k + 0.05)
        state.update(CoolProp.PT_INPUTS, p, t_k)
        add(2, 1.0)
    for _ in range(600):
        p = pressure_pa(35e3)
        state.update(CoolProp.PQ_INPUTS, p, 0.0)
        bubble_k = state.T()
        coldest_k = max(200.0, bubble_k - 109.0)
        t_k = min(bubble_k + (coldest_k - bubble_k) * draw.random() ** 2, bubble_k - 0.05)
        state.update(CoolProp.PT_INPUTS, p, t_k)
        add(0, 0.0)
    write(
        "coolprop_r410a.csv",
        [
            f"CoolProp {CoolProp.__version__}, HEOS::R410A (Lemmon 2003, doi 10.1023/A:1025048800563)",
            "region: 0 liquid, 1 two-phase, 2 vapour, 3 bubble, 4 dew",
        ],
        [
            "region",
            "quality",
            "pressure_pa",
            "temperature_k",
            "density_kg_m3",
            "enthalpy_j_kg",
            "entropy_j_kg_k",
            "cp_j_kg_k",
        ],
        rows,
    )


def moist_air():
    draw = random.Random(72)
    psychrolib.SetUnitSystem(psychrolib.SI)
    rows = []
    for _ in range(600):
        t_c = draw.uniform(-40.0, 60.0)
        p_pa = draw.choice([101_325.0, draw.uniform(70e3, 105e3)])
        rh = draw.uniform(0.03, 0.999)
        w = psychrolib.GetHumRatioFromRelHum(t_c, rh, p_pa)
        # Found to 0.001 K only, so its own humidity ratio is written too.
        wet_bulb_c = psychrolib.GetTWetBulbFromHumRatio(t_c, w, p_pa)
        rows.append(
            (
                t_c,
                rh,
                p_pa,
                w,
                psychrolib.GetSatVapPres(t_c),
                psychrolib.GetTDewPointFromHumRatio(t_c, w, p_pa),
                wet_bulb_c,
                psychrolib.GetHumRatioFromTWetBulb(t_c, wet_bulb_c, p_pa),
                psychrolib.GetMoistAirEnthalpy(t_c, w),
                psychrolib.GetMoistAirVolume(t_c, w, p_pa),
                psychrolib.GetMoistAirDensity(t_c, w, p_pa),
            )
        )
    write(
        "psychrolib.csv",
        [f"PsychroLib {PSYCHROLIB_VERSION}, SI"],
        [
            "dry_bulb_c",
            "relative_humidity",
            "pressure_pa",
            "humidity_ratio",
            "saturation_pressure_pa",
            "dew_point_c",
            "wet_bulb_c",
            "humidity_ratio_of_wet_bulb",
            "enthalpy_j_kg",
            "volume_m3_kg",
            "density_kg_m3",
        ],
        rows,
    )
    rows = []
    while len(rows) < 300:
        t_c = draw.uniform(-25.0, 55.0)
        p_pa = draw.choice([101_325.0, draw.uniform(80e3, 105e3)])
        rh = draw.uniform(0.05, 0.99)
        inputs = ("T", t_c + 273.15, "P", p_pa, "R", rh)
        w = HAPropsSI("W", *inputs)
        rows.append(
            (
                t_c,
                rh,
                p_pa,
                w,
                HAPropsSI("D", *inputs) - 273.15,
                HAPropsSI("B", *inputs) - 273.15,
                HAPropsSI("H", *inputs),
                HAPropsSI("V", *inputs),
            )
        )
    write(
        "coolprop_humid_air.csv",
        [f"CoolProp {CoolProp.__version__}, HAPropsSI: real-gas humid air after ASHRAE RP-1485"],
        [
            "dry_bulb_c",
            "relative_humidity",
            "pressure_pa",
            "humidity_ratio",
            "dew_point_c",
            "wet_bulb_c",
            "enthalpy_j_kg",
            "volume_m3_kg",
        ],
        rows,
    )


if __name__ == "__main__":
    refrigerant()
    moist_air()
