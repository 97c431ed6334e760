"""Writes the reference values in data/ that the tests compare with.

    python3 make_checks.py

Needs coolprop and psychrolib (requirements.txt). SI units, absolute pressures; refrigerants with the IIR reference state.
Points are drawn by a fixed seed, so that none lies on a node of a table, and the file is the same each time.
"""

import math
import random
from dataclasses import dataclass
from pathlib import Path

import CoolProp
import psychrolib
from CoolProp import AbstractState
from CoolProp.CoolProp import HAPropsSI

import make_tables
from blend import Blend
from make_tables import Recipe

DATA = Path(__file__).parent / "data"
PSYCHROLIB_VERSION = "2.5.0"
RECIPES = {recipe.name: recipe for recipe in make_tables.RECIPES}


def write(name, comments, columns, rows):
    lines = [f"# {comment}" for comment in comments]
    lines.append(",".join(columns))
    lines += [",".join(f"{value:.9g}" for value in row) for row in rows]
    (DATA / name).write_text("\n".join(lines) + "\n")
    print(name, len(rows), "rows")


@dataclass(frozen=True)
class Draw:
    recipe: Recipe
    file_name: str
    seed: int
    # Where CoolProp can be trusted with saturation; some of what it says of R-410A below 200 K is nonsense.
    lowest_saturation_pressure_pa: float
    crowded_above_pa: float  # near the critical point, where it is hard
    # Liquid is drawn above this pressure, and not colder than the equation of state.
    lowest_liquid_pressure_pa: float


DRAWS = [
    Draw(RECIPES["R-410A"], "coolprop_r410a.csv", 410, 29.3e3, 4.4e6, 35e3),
    Draw(RECIPES["R-32"], "coolprop_r32.csv", 32, 5e3, 5.2e6, 5e3),
    Draw(RECIPES["R-454B"], "coolprop_r454b.csv", 454, 5e3, 4.75e6, 5e3),
    Draw(RECIPES["R-22"], "coolprop_r22.csv", 22, 5e3, 4.5e6, 5e3),
]


def refrigerant(spec):
    """region: 0 liquid, 1 two-phase, 2 vapour, 3 bubble, 4 dew."""
    recipe = spec.recipe
    draw = random.Random(spec.seed)
    reference = recipe.reference()
    highest_pa = recipe.highest_pressure_pa - 1e3
    hottest_k = recipe.highest_vapour_temperature_k - 0.1
    rows = []

    def add(region, quality, s):
        # Inside the dome a heat capacity at constant pressure has no meaning.
        cp = 0.0 if region == 1 else s.cp_j_kg_k
        rows.append(
            (region, quality, s.pressure_pa, s.temperature_k, s.density_kg_m3, s.enthalpy_j_kg, s.entropy_j_kg_k, cp)
        )

    def pressure_pa(low):
        if draw.random() < 0.15:
            return draw.uniform(spec.crowded_above_pa, highest_pa)
        return math.exp(draw.uniform(math.log(low), math.log(highest_pa)))

    for _ in range(400):
        p = pressure_pa(spec.lowest_saturation_pressure_pa)
        for region, quality in ((3, 0.0), (4, 1.0), (1, draw.uniform(0.005, 0.995))):
            add(region, quality, reference.at_pressure_quality(p, quality))
    for _ in range(900):
        p = pressure_pa(recipe.lowest_pressure_pa)
        near, dew_k = None, recipe.lowest_temperature_k
        if p > recipe.lowest_saturation_pressure_pa:
            near = reference.at_pressure_quality(p, 1.0)
            dew_k = near.temperature_k
        # Crowded towards dew, where it is hard.
        t_k = max(dew_k + (hottest_k - dew_k) * draw.random() ** 2, dew_k + 0.05)
        add(2, 1.0, reference.at_pressure_temperature(p, t_k, near, CoolProp.iphase_gas))
    for _ in range(600):
        p = pressure_pa(spec.lowest_liquid_pressure_pa)
        bubble = reference.at_pressure_quality(p, 0.0)
        bubble_k = bubble.temperature_k
        coldest_k = max(recipe.lowest_temperature_k, bubble_k - (recipe.deepest_subcooling_k - 1))
        t_k = min(bubble_k + (coldest_k - bubble_k) * draw.random() ** 2, bubble_k - 0.05)
        add(0, 0.0, reference.at_pressure_temperature(p, t_k, bubble, CoolProp.iphase_liquid))
    if isinstance(reference, Blend):
        hold_against_flashes_of_coolprop(spec, reference, rows)
    write(
        spec.file_name,
        [
            f"CoolProp {CoolProp.__version__}, {spec.recipe.source}",
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


def hold_against_flashes_of_coolprop(spec, reference, rows):
    """CoolProp's own flashes of a blend know nothing of blend.py; where they succeed they must say the same."""
    flash = AbstractState("HEOS", reference.pair)
    flash.set_mass_fractions([reference.first_mass_fraction, 1 - reference.first_mass_fraction])
    compared, failed = [0] * 5, [0] * 5
    for region, quality, p, t_k, density, h, s, _ in rows:
        try:
            if region in (1, 3, 4):
                flash.unspecify_phase()
                flash.update(CoolProp.PQ_INPUTS, p, reference.mole_quality(p, quality))
            else:
                flash.specify_phase(CoolProp.iphase_gas if region == 2 else CoolProp.iphase_liquid)
                flash.update(CoolProp.PT_INPUTS, p, t_k)
        except ValueError:
            failed[region] += 1
            continue
        compared[region] += 1
        # Between bubble and dew CoolProp ends its search earlier.
        loose = 1e3 if region == 1 else 1.0
        same = (
            abs(flash.T() - t_k) < 1e-6 * loose
            and abs(flash.rhomass() / density - 1) < 1e-8 * loose
            and abs(flash.hmass() + reference.enthalpy_offset_j_kg - h) < 1e-2 * loose
            and abs(flash.smass() + reference.entropy_offset_j_kg_k - s) < 1e-4 * loose
        )
        if not same:
            ours, theirs = f"{t_k} K, {density} kg/m3", f"{flash.T()} K, {flash.rhomass()} kg/m3"
            raise ValueError(f"{spec.recipe.name}: region {region}, {p} Pa: {ours}; CoolProp's flash: {theirs}")
    for region in range(5):
        print(f"  region {region}: CoolProp's flash compared {compared[region]}, failed {failed[region]}")


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
    for spec in DRAWS:
        refrigerant(spec)
    moist_air()
