"""Makes the property tables of src/media/data from a reference equation of state.

    python3 make_tables.py            writes them
    python3 make_tables.py --check    compares with the committed files instead, and fails on a difference

Needs coolprop (requirements.txt). The layout is described in src/media/refrigerant/table.rs, which reads it.
SI units, absolute pressures, IIR reference state (saturated liquid at 0 C: 200 kJ/kg, 1 kJ/(kg K)).
"""

import math
import struct
import sys
from dataclasses import dataclass
from pathlib import Path

import CoolProp
from CoolProp import AbstractState

DATA = Path(__file__).parent / "../../src/media/data"


@dataclass(frozen=True)
class Recipe:
    name: str
    coolprop_name: str
    source: str
    file_name: str
    lowest_pressure_pa: float
    highest_pressure_pa: float  # somewhat under the critical pressure
    # Below this the equation of state no longer says where the fluid saturates; the curve goes on by Clapeyron.
    lowest_saturation_pressure_pa: float
    lowest_temperature_k: float  # of the equation of state
    highest_vapour_temperature_k: float
    deepest_subcooling_k: float  # where the lowest temperature allows it


RECIPES = [
    Recipe(
        name="R-410A",
        coolprop_name="R410A",
        source="Lemmon 2003, doi 10.1023/A:1025048800563, pseudo-pure",
        file_name="r410a.tab",
        lowest_pressure_pa=5e3,
        highest_pressure_pa=4.85e6,
        lowest_saturation_pressure_pa=29.2e3,
        lowest_temperature_k=200.0,
        highest_vapour_temperature_k=490.0,
        deepest_subcooling_k=110.0,
    ),
]

SATURATION_ROWS = 2049
SINGLE_PHASE_ROWS = 513  # their steps divide those of the saturation rows
STRETCH = 2.0  # of the row coordinate; table.rs has the same
VAPOUR_NODES = 81
LIQUID_NODES = 81
# Subcooling that the table reaches at least, K, where that is below the lowest temperature of the equation.
LEAST_SUBCOOLING_K = 15.0


@dataclass(frozen=True)
class Point:
    pressure_pa: float
    temperature_k: float
    density_kg_m3: float
    enthalpy_j_kg: float
    entropy_j_kg_k: float
    cp_j_kg_k: float


class Reference:
    def __init__(self, coolprop_name):
        self.state = AbstractState("HEOS", coolprop_name)

    def point(self, pressure_pa):
        s = self.state
        return Point(pressure_pa, s.T(), s.rhomass(), s.hmass(), s.smass(), s.cpmass())

    def at_pressure_quality(self, pressure_pa, quality):
        self.state.update(CoolProp.PQ_INPUTS, pressure_pa, quality)
        return self.point(pressure_pa)

    def at_pressure_temperature(self, pressure_pa, temperature_k):
        self.state.update(CoolProp.PT_INPUTS, pressure_pa, temperature_k)
        return self.point(pressure_pa)

    def near_density(self, pressure_pa, temperature_k, guess_kg_m3, phase):
        """Newton's method on density, for places where CoolProp itself does not look: beside saturation, and below
        the lowest temperature of the equation, where it still gives pressure from density."""
        s = self.state
        s.specify_phase(phase)
        try:
            density = guess_kg_m3
            for _ in range(60):
                s.update(CoolProp.DmassT_INPUTS, density, temperature_k)
                slope = s.first_partial_deriv(CoolProp.iP, CoolProp.iDmass, CoolProp.iT)
                step = (pressure_pa - s.p()) / slope
                step = min(max(step, -0.2 * density), 0.2 * density)
                density += step
                if abs(step) < 1e-11 * density:
                    break
            else:
                raise ArithmeticError(f"density does not settle at {pressure_pa} Pa, {temperature_k} K")
            s.update(CoolProp.DmassT_INPUTS, density, temperature_k)
            return self.point(pressure_pa)
        finally:
            s.unspecify_phase()

    def near_enthalpy(self, pressure_pa, enthalpy_j_kg, near, phase):
        """Newton's method on temperature from a nearby state."""
        point = near
        for _ in range(80):
            temperature_k = point.temperature_k + (enthalpy_j_kg - point.enthalpy_j_kg) / point.cp_j_kg_k
            point = self.near_density(pressure_pa, temperature_k, point.density_kg_m3, phase)
            if abs(point.enthalpy_j_kg - enthalpy_j_kg) < 1e-5:
                return point
        raise ArithmeticError(f"temperature does not settle at {pressure_pa} Pa, {enthalpy_j_kg} J/kg")


def row_pressures_pa(recipe, critical_pressure_pa):
    """Uniform in z = ln p - STRETCH sqrt(1 - p/p_c)."""

    def z(ln_p):
        return ln_p - STRETCH * math.sqrt(1 - math.exp(ln_p) / critical_pressure_pa)

    ends = math.log(recipe.lowest_pressure_pa), math.log(recipe.highest_pressure_pa)
    first, last = z(ends[0]), z(ends[1])
    pressures_pa = []
    for i in range(SATURATION_ROWS):
        target = first + (last - first) * i / (SATURATION_ROWS - 1)
        low, high = ends
        for _ in range(60):
            middle = 0.5 * (low + high)
            low, high = (middle, high) if z(middle) < target else (low, middle)
        pressures_pa.append(math.exp(0.5 * (low + high)))
    return pressures_pa


def saturation(recipe, reference):
    """(liquid, vapour) for every row, from the lowest pressure up."""
    rows = []
    for p in reversed(row_pressures_pa(recipe, reference.state.p_critical())):
        if p >= recipe.lowest_saturation_pressure_pa:
            rows.append((reference.at_pressure_quality(p, 0.0), reference.at_pressure_quality(p, 1.0)))
        else:
            rows.append(continued(reference, rows[-1], p))
    rows.reverse()
    return rows


def continued(reference, above, pressure_pa):
    """Saturation at a slightly lower pressure by the Clapeyron equation (midpoint rule). The difference between bubble
    and dew temperature stays."""
    liquid, vapour = above
    glide_k = vapour.temperature_k - liquid.temperature_k
    ln_step = math.log(pressure_pa / vapour.pressure_pa)

    def at(p, dew_k):
        thinner = vapour.density_kg_m3 * p / vapour.pressure_pa
        return (
            reference.near_density(p, dew_k - glide_k, liquid.density_kg_m3, CoolProp.iphase_liquid),
            reference.near_density(p, dew_k, thinner, CoolProp.iphase_gas),
        )

    def slope(pair):
        l, v = pair
        volume = 1 / v.density_kg_m3 - 1 / l.density_kg_m3
        return v.temperature_k * v.pressure_pa * volume / (v.enthalpy_j_kg - l.enthalpy_j_kg)

    half = at(vapour.pressure_pa * math.exp(0.5 * ln_step), vapour.temperature_k + slope(above) * 0.5 * ln_step)
    return at(pressure_pa, vapour.temperature_k + slope(half) * ln_step)


def fraction(node, nodes):
    return (node / (nodes - 1)) ** 2


def vapour_nodes(recipe, reference, dew):
    p = dew.pressure_pa
    hottest = reference.at_pressure_temperature(p, recipe.highest_vapour_temperature_k)
    span = hottest.enthalpy_j_kg - dew.enthalpy_j_kg
    point, nodes = dew, []
    for node in range(VAPOUR_NODES):
        if node > 0:
            h = dew.enthalpy_j_kg + fraction(node, VAPOUR_NODES) * span
            point = reference.near_enthalpy(p, h, point, CoolProp.iphase_gas)
        nodes += [
            point.temperature_k - dew.temperature_k,
            p / point.density_kg_m3 - p / dew.density_kg_m3,
            point.entropy_j_kg_k - dew.entropy_j_kg_k,
        ]
    return span, nodes


def liquid_nodes(recipe, reference, bubble):
    p = bubble.pressure_pa
    coldest_k = max(bubble.temperature_k - recipe.deepest_subcooling_k, recipe.lowest_temperature_k)
    coldest_k = min(coldest_k, bubble.temperature_k - LEAST_SUBCOOLING_K)
    if coldest_k >= recipe.lowest_temperature_k:
        coldest = reference.at_pressure_temperature(p, coldest_k)
    else:
        coldest = reference.near_density(p, coldest_k, bubble.density_kg_m3, CoolProp.iphase_liquid)
    span = bubble.enthalpy_j_kg - coldest.enthalpy_j_kg
    point, nodes = bubble, []
    for node in range(LIQUID_NODES):
        if node > 0:
            h = bubble.enthalpy_j_kg - fraction(node, LIQUID_NODES) * span
            point = reference.near_enthalpy(p, h, point, CoolProp.iphase_liquid)
        nodes += [
            bubble.temperature_k - point.temperature_k,
            1 / bubble.density_kg_m3 - 1 / point.density_kg_m3,
            bubble.entropy_j_kg_k - point.entropy_j_kg_k,
        ]
    return span, nodes


def header(recipe, critical_pressure_pa):
    return "\n".join(
        [
            "rimebench refrigerant table 1",
            f"name {recipe.name}",
            f"source {recipe.source}",
            f"evaluated_by CoolProp {CoolProp.__version__}",
            "reference_state IIR: saturated liquid at 0 C has 200 kJ/kg and 1 kJ/(kg K)",
            f"lowest_pressure_pa {recipe.lowest_pressure_pa!r}",
            f"highest_pressure_pa {recipe.highest_pressure_pa!r}",
            f"critical_pressure_pa {critical_pressure_pa!r}",
            f"highest_vapour_temperature_k {recipe.highest_vapour_temperature_k!r}",
            f"saturation_rows {SATURATION_ROWS}",
            f"single_phase_rows {SINGLE_PHASE_ROWS}",
            f"vapour_nodes {VAPOUR_NODES}",
            f"liquid_nodes {LIQUID_NODES}",
            "",
            "",
        ]
    ).encode()


def make(recipe):
    reference = Reference(recipe.coolprop_name)
    reference.state.update(CoolProp.QT_INPUTS, 0.0, 273.15)
    h, s = reference.state.hmass(), reference.state.smass()
    if abs(h - 200e3) > 1.0 or abs(s - 1e3) > 0.01:
        raise ValueError(f"{recipe.name}: not the IIR reference state: {h} J/kg, {s} J/(kg K) at 0 C")

    rows = saturation(recipe, reference)
    for (l, v), (above_l, above_v) in zip(rows, rows[1:]):
        sane = (
            l.temperature_k < above_l.temperature_k
            and v.temperature_k < above_v.temperature_k
            and l.density_kg_m3 > above_l.density_kg_m3
            and v.density_kg_m3 < above_v.density_kg_m3
            and l.enthalpy_j_kg < above_l.enthalpy_j_kg
        )
        if not sane:
            raise ValueError(f"{recipe.name}: saturation is not monotone at {l.pressure_pa} Pa")
    out = bytearray(header(recipe, reference.state.p_critical()))
    for l, v in rows:
        out += struct.pack(
            "<10d",
            l.temperature_k,
            v.temperature_k,
            1 / l.density_kg_m3,
            v.pressure_pa / v.density_kg_m3,
            l.enthalpy_j_kg,
            v.enthalpy_j_kg,
            l.entropy_j_kg_k,
            v.entropy_j_kg_k,
            l.cp_j_kg_k,
            v.cp_j_kg_k,
        )
    coarse = rows[:: (SATURATION_ROWS - 1) // (SINGLE_PHASE_ROWS - 1)]
    for made in (
        [vapour_nodes(recipe, reference, v) for _, v in coarse],
        [liquid_nodes(recipe, reference, l) for l, _ in coarse],
    ):
        spans = [span for span, _ in made]
        nodes = [number for _, row in made for number in row]
        out += struct.pack(f"<{len(spans)}d", *spans)
        out += struct.pack(f"<{len(nodes)}f", *nodes)
    return bytes(out)


def main():
    differs = False
    for recipe in RECIPES:
        made = make(recipe)
        path = DATA / recipe.file_name
        if "--check" in sys.argv[1:]:
            same = path.read_bytes() == made
            differs |= not same
            print(recipe.name, "is as committed" if same else "DIFFERS from the committed file")
        else:
            path.write_bytes(made)
            print(recipe.name, len(made), "bytes")
    return 1 if differs else 0


if __name__ == "__main__":
    sys.exit(main())
