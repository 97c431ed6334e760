"""Makes the property tables of src/media/data from a reference equation of state.

    python3 make_tables.py            writes them
    python3 make_tables.py --check    compares with the committed files instead, and fails on a difference

Names after that, such as R-22, restrict it to those refrigerants.

Needs coolprop (requirements.txt). The layout is described in src/media/refrigerant/table.rs, which reads it.
SI units, absolute pressures, IIR reference state (saturated liquid at 0 C: 200 kJ/kg, 1 kJ/(kg K)).
"""

import math
import struct
import sys
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import CoolProp

from blend import Blend
from reference import Reference

DATA = Path(__file__).parent / "../../src/media/data"


@dataclass(frozen=True)
class Recipe:
    name: str
    reference: Callable[[], Reference]
    source: str
    file_name: str
    lowest_pressure_pa: float
    highest_pressure_pa: float  # somewhat under the critical pressure
    # Below this the equation of state no longer says where the fluid saturates; the curve goes on by Clapeyron.
    lowest_saturation_pressure_pa: float
    lowest_temperature_k: float  # of the equation of state
    highest_vapour_temperature_k: float
    deepest_subcooling_k: float  # where the lowest temperature allows it
    # Nodes from bubble to dew; none where everything is linear in enthalpy.
    dome_nodes: int = 0


RECIPES = [
    Recipe(
        name="R-410A",
        reference=lambda: Reference("R410A"),
        source="Lemmon 2003, doi 10.1023/A:1025048800563, pseudo-pure",
        file_name="r410a.tab",
        lowest_pressure_pa=5e3,
        highest_pressure_pa=4.85e6,
        lowest_saturation_pressure_pa=29.2e3,
        lowest_temperature_k=200.0,
        highest_vapour_temperature_k=490.0,
        deepest_subcooling_k=110.0,
    ),
    Recipe(
        name="R-32",
        reference=lambda: Reference("R32"),
        source="Tillner-Roth and Yokozeki 1997, doi 10.1063/1.556002",
        file_name="r32.tab",
        lowest_pressure_pa=5e3,
        highest_pressure_pa=5.72e6,
        lowest_saturation_pressure_pa=5e3,
        lowest_temperature_k=140.0,
        # The equation was fitted up to 435 K. Above, its ideal gas goes on by vibrations of the molecule, and the rest
        # is small: hot discharge gas is better served by that than by a straight line.
        highest_vapour_temperature_k=490.0,
        deepest_subcooling_k=110.0,
    ),
    Recipe(
        name="R-22",
        reference=lambda: Reference("R22"),
        source="Kamei, Beyerlein and Jacobsen 1995, International Journal of Thermophysics 16, 1155",
        file_name="r22.tab",
        lowest_pressure_pa=5e3,
        highest_pressure_pa=4.94e6,
        lowest_saturation_pressure_pa=5e3,
        lowest_temperature_k=140.0,
        highest_vapour_temperature_k=510.0,
        deepest_subcooling_k=110.0,
    ),
    Recipe(
        name="R-454B",
        reference=lambda: Blend("R32", "R1234yf", 0.689),
        source="R-32/R-1234yf 68.9/31.1 by mass, mixture model of Bell 2023, doi 10.1063/5.0135368, on the pure fluids of "
        "Tillner-Roth and Yokozeki 1997, doi 10.1063/1.556002, and Lemmon and Akasaka 2022, doi 10.1007/s10765-022-03015-y",
        file_name="r454b.tab",
        lowest_pressure_pa=5e3,
        highest_pressure_pa=5.25e6,
        lowest_saturation_pressure_pa=5e3,
        # Under 153 K the mixture model has a second density at the pressures of liquid, and CoolProp's flash takes it.
        lowest_temperature_k=160.0,
        # As for R-32; the other fluid's equation was fitted up to 410 K.
        highest_vapour_temperature_k=490.0,
        deepest_subcooling_k=110.0,
        dome_nodes=17,
    ),
]

SATURATION_ROWS = 2049
SINGLE_PHASE_ROWS = 513  # their steps divide those of the saturation rows
STRETCH = 2.0  # of the row coordinate; table.rs has the same
VAPOUR_NODES = 81
LIQUID_NODES = 81
# Subcooling that the table reaches at least, K, where that is below the lowest temperature of the equation.
LEAST_SUBCOOLING_K = 15.0


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
    for p in reversed(row_pressures_pa(recipe, reference.critical_pressure_pa)):
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
    hottest_k = recipe.highest_vapour_temperature_k
    hottest = reference.at_pressure_temperature(p, hottest_k, dew, CoolProp.iphase_gas)
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
        coldest = reference.at_pressure_temperature(p, coldest_k, bubble, CoolProp.iphase_liquid)
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


def dome_nodes(recipe, reference, bubble, dew):
    """Vapour mass fraction and shares of temperature, volume and entropy at even steps of enthalpy, by the secant method
    on quality."""
    latent = dew.enthalpy_j_kg - bubble.enthalpy_j_kg
    quality, shares = 0.0, [(0.0, 0.0, 0.0, 0.0)]
    for node in range(1, recipe.dome_nodes - 1):
        wanted = node / (recipe.dome_nodes - 1)

        def misfit(quality):
            point = reference.at_pressure_quality(bubble.pressure_pa, quality)
            return (point.enthalpy_j_kg - bubble.enthalpy_j_kg) / latent - wanted, point

        a, b = quality + 1e-3, wanted
        at_a, _ = misfit(a)
        for _ in range(30):
            at_b, point = misfit(b)
            if abs(at_b) < 1e-8:
                break
            a, b, at_a = b, b - at_b * (b - a) / (at_b - at_a), at_b
        else:
            raise ArithmeticError(f"quality does not settle at {bubble.pressure_pa} Pa, share {wanted}")
        quality = b

        def share(of):
            return (of(point) - of(bubble)) / (of(dew) - of(bubble))

        shares.append(
            (
                share(lambda s: s.temperature_k),
                quality,
                share(lambda s: 1 / s.density_kg_m3),
                share(lambda s: s.entropy_j_kg_k),
            )
        )
    shares.append((1.0, 1.0, 1.0, 1.0))
    if any(a >= b for lower, upper in zip(shares, shares[1:]) for a, b in zip(lower, upper)):
        raise ValueError(f"{recipe.name}: the dome is not monotone at {bubble.pressure_pa} Pa")
    return [number for node in shares for number in node]


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
        ]
        + ([f"dome_nodes {recipe.dome_nodes}"] if recipe.dome_nodes else [])
        + ["", ""]
    ).encode()


def make(recipe):
    reference = recipe.reference()
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
    out = bytearray(header(recipe, reference.critical_pressure_pa))
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
    if recipe.dome_nodes:
        nodes = [number for pair in coarse for number in dome_nodes(recipe, reference, *pair)]
        out += struct.pack(f"<{len(nodes)}f", *nodes)
    return bytes(out)


def main():
    check = "--check" in sys.argv[1:]
    names = [argument for argument in sys.argv[1:] if argument != "--check"]
    unknown = set(names) - {recipe.name for recipe in RECIPES}
    if unknown:
        print("no such refrigerant:", ", ".join(sorted(unknown)))
        return 2
    differs = False
    for recipe in RECIPES:
        if names and recipe.name not in names:
            continue
        made = make(recipe)
        path = DATA / recipe.file_name
        if check:
            same = path.read_bytes() == made
            differs |= not same
            print(recipe.name, "is as committed" if same else "DIFFERS from the committed file", flush=True)
        else:
            path.write_bytes(made)
            print(recipe.name, len(made), "bytes", flush=True)
    return 1 if differs else 0


if __name__ == "__main__":
    sys.exit(main())
