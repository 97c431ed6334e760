"""States of a blend of two fluids from CoolProp's multi-fluid mixture model, with the functions of reference.Reference.

CoolProp gives pressure, fugacities and energies of one phase from temperature, density and composition. Its own flashes
of the blend fail at many pressures above about half the critical one, so equilibrium is solved here: equal temperature,
pressure and fugacities. make_checks.py holds the result against CoolProp's flashes where those succeed.
"""

import math

import CoolProp
from CoolProp import AbstractState

from reference import IIR_ENTHALPY_J_KG, IIR_ENTROPY_J_KG_K, IIR_TEMPERATURE_K, Point, Reference

# Equilibria are found from the nearest lower one on a ladder of pressures, steps of this in ln p; so no result depends
# on what was asked before.
RUNG_LN = 0.02
FIRST_RUNG_PA = 101_325.0


class Blend(Reference):
    def __init__(self, first, second, first_mass_fraction):
        """The first fluid is the more volatile."""
        self.pair = pair = f"{first}&{second}"
        self.first_mass_fraction = first_mass_fraction
        self.molar_masses = [AbstractState("HEOS", name).molar_mass() for name in (first, second)]
        self.state, self.liquid, self.vapour = (AbstractState("HEOS", pair) for _ in range(3))
        self.state.set_mass_fractions([first_mass_fraction, 1 - first_mass_fraction])
        self.liquid.specify_phase(CoolProp.iphase_liquid)
        self.vapour.specify_phase(CoolProp.iphase_gas)
        self.enthalpy_offset_j_kg = self.entropy_offset_j_kg_k = 0.0
        self.rungs = {}
        stable = [point for point in self.state.all_critical_points() if point.stable and point.p > 0]
        if len(stable) != 1:
            raise ValueError(f"{pair}: {len(stable)} critical points")
        self.critical_pressure_pa, self.critical_temperature_k = stable[0].p, stable[0].T
        # CoolProp leaves a mixture on the reference states of its components.
        low, high = math.log(FIRST_RUNG_PA), math.log(0.5 * self.critical_pressure_pa)
        for _ in range(60):
            middle = 0.5 * (low + high)
            below = self.at_pressure_quality(math.exp(middle), 0.0).temperature_k < IIR_TEMPERATURE_K
            low, high = (middle, high) if below else (low, middle)
        bubble = self.at_pressure_quality(math.exp(0.5 * (low + high)), 0.0)
        self.enthalpy_offset_j_kg = IIR_ENTHALPY_J_KG - bubble.enthalpy_j_kg
        self.entropy_offset_j_kg_k = IIR_ENTROPY_J_KG_K - bubble.entropy_j_kg_k

    def point(self, pressure_pa, cp=True):
        p = super().point(pressure_pa, cp)
        return Point(
            p.pressure_pa,
            p.temperature_k,
            p.density_kg_m3,
            p.enthalpy_j_kg + self.enthalpy_offset_j_kg,
            p.entropy_j_kg_k + self.entropy_offset_j_kg_k,
            p.cp_j_kg_k,
        )

    def at_pressure_quality(self, pressure_pa, quality):
        unknowns = self.equilibrium(pressure_pa, quality)
        t_k, ln_rho_l, ln_rho_v = unknowns[:3]
        if quality in (0.0, 1.0):
            phase, ln_rho = [(CoolProp.iphase_liquid, ln_rho_l), (CoolProp.iphase_gas, ln_rho_v)][int(quality)]
            self.state.specify_phase(phase)
            try:
                self.state.update(CoolProp.DmolarT_INPUTS, math.exp(ln_rho), t_k)
                return self.point(pressure_pa)
            finally:
                self.state.unspecify_phase()
        self.misfits(unknowns, pressure_pa, quality)  # leaves both phases at the solution
        l, v = self.liquid, self.vapour

        def mixed(of_liquid, of_vapour):
            return of_liquid + quality * (of_vapour - of_liquid)

        return Point(
            pressure_pa,
            t_k,
            1 / mixed(1 / l.rhomass(), 1 / v.rhomass()),
            mixed(l.hmass(), v.hmass()) + self.enthalpy_offset_j_kg,
            mixed(l.smass(), v.smass()) + self.entropy_offset_j_kg_k,
            0.0,
        )

    def mole_quality(self, pressure_pa, quality):
        """Vapour mole fraction from vapour mass fraction."""
        x, y = self.equilibrium(pressure_pa, quality)[3:]
        a, b = self.molar_masses
        liquid_mol, vapour_mol = (1 - quality) / (x * a + (1 - x) * b), quality / (y * a + (1 - y) * b)
        return vapour_mol / (liquid_mol + vapour_mol)

    def at_pressure_temperature(self, pressure_pa, temperature_k, near, phase):
        """By small steps of temperature, growing away from saturation: from too far, the search for a density ends
        inside the dome."""
        point, step_k = near, 0.1
        while point.temperature_k != temperature_k:
            way_k = temperature_k - point.temperature_k
            next_k = point.temperature_k + math.copysign(step_k, way_k) if abs(way_k) > step_k else temperature_k
            point = self.near_density(pressure_pa, next_k, point.density_kg_m3, phase)
            step_k *= 1.3
        return point

    def mass_fraction(self, mole_fraction):
        a, b = self.molar_masses
        return mole_fraction * a / (mole_fraction * a + (1 - mole_fraction) * b)

    def misfits(self, unknowns, pressure_pa, quality):
        """Zero in equilibrium. Unknowns: temperature, ln of both molar densities, mole fractions of the first fluid in
        liquid and vapour."""
        t_k, ln_rho_l, ln_rho_v, x, y = unknowns
        for phase, ln_rho, mole_fraction in ((self.liquid, ln_rho_l, x), (self.vapour, ln_rho_v, y)):
            phase.set_mole_fractions([mole_fraction, 1 - mole_fraction])
            phase.update(CoolProp.DmolarT_INPUTS, math.exp(ln_rho), t_k)
        l, v = self.liquid, self.vapour
        mass_fraction = (1 - quality) * self.mass_fraction(x) + quality * self.mass_fraction(y)
        return [
            l.p() / pressure_pa - 1,
            v.p() / pressure_pa - 1,
            math.log(l.fugacity(0) / v.fugacity(0)),
            math.log(l.fugacity(1) / v.fugacity(1)),
            mass_fraction - self.first_mass_fraction,
        ]

    def solve(self, unknowns, pressure_pa, quality):
        """Newton's method with a Jacobian by central differences."""
        widths = (1e-4, 1e-7, 1e-7, 1e-7, 1e-7)
        longest = (3.0, 0.1, 0.2, 0.05, 0.05)
        unknowns = list(unknowns)
        for _ in range(40):
            columns = []
            for k, width in enumerate(widths):
                up, down = list(unknowns), list(unknowns)
                up[k] += width
                down[k] -= width
                a, b = self.misfits(up, pressure_pa, quality), self.misfits(down, pressure_pa, quality)
                columns.append([(i - j) / (2 * width) for i, j in zip(a, b)])
            misfits = self.misfits(unknowns, pressure_pa, quality)
            step = solved([list(row) for row in zip(*columns)], [-m for m in misfits])
            shorten = max(1.0, *(abs(s) / most for s, most in zip(step, longest)))
            unknowns = [u + s / shorten for u, s in zip(unknowns, step)]
            if max(abs(step[0]) / 300, *(abs(s) for s in step[1:])) < 1e-10:
                return unknowns
        raise ArithmeticError(f"no equilibrium at {pressure_pa} Pa, quality {quality}: {unknowns}")

    def rung(self, number, quality):
        """Bubble (quality 0) or dew (1) at a pressure of the ladder, found rung by rung from the first."""
        toward = 1 if number > 0 else -1
        for n in range(0, number + toward, toward):
            if (n, quality) not in self.rungs:
                start = self.rungs[n - toward, quality] if n != 0 else self.boiling_guess(quality)
                pressure_pa = FIRST_RUNG_PA * math.exp(RUNG_LN * n)
                self.rungs[n, quality] = self.solve(start, pressure_pa, quality)
        return self.rungs[number, quality]

    def boiling_guess(self, quality):
        """Roughly the state at one atmosphere; Newton's method finds the rest."""
        t_k = 0.632 * self.critical_temperature_k
        a, b = self.molar_masses
        w = self.first_mass_fraction
        z = w / a / (w / a + (1 - w) / b)
        x, y = (z, z + 0.4 * (1 - z)) if quality == 0.0 else (z - 0.8 * (1 - z), z)
        return [t_k, math.log(20e3), math.log(FIRST_RUNG_PA / (8.314 * t_k)), x, y]

    def equilibrium(self, pressure_pa, quality):
        number = math.floor(math.log(pressure_pa / FIRST_RUNG_PA) / RUNG_LN)
        if quality in (0.0, 1.0):
            start = self.rung(number, quality)
        else:
            # Bubble and dew are close, so the state between them is nearly a mixture of both.
            ends = self.rung(number, 0.0), self.rung(number, 1.0)
            start = [a + quality * (b - a) for a, b in zip(*ends)]
        return self.solve(start, pressure_pa, quality)


def solved(matrix, right):
    """Gauss's elimination with pivots."""
    n = len(right)
    rows = [list(row) + [value] for row, value in zip(matrix, right)]
    for k in range(n):
        pivot = max(range(k, n), key=lambda i: abs(rows[i][k]))
        rows[k], rows[pivot] = rows[pivot], rows[k]
        for i in range(k + 1, n):
            factor = rows[i][k] / rows[k][k]
            rows[i] = [a - factor * b for a, b in zip(rows[i], rows[k])]
    answer = [0.0] * n
    for k in reversed(range(n)):
        answer[k] = (rows[k][n] - sum(rows[k][j] * answer[j] for j in range(k + 1, n))) / rows[k][k]
    return answer
