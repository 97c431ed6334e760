"""States of a fluid with one equation of state, from CoolProp. Blends are in blend.py, with the same functions.

SI units, absolute pressures, the IIR reference state (saturated liquid at 0 C: 200 kJ/kg, 1 kJ/(kg K)).
"""

from dataclasses import dataclass

import CoolProp
from CoolProp import AbstractState

IIR_TEMPERATURE_K = 273.15
IIR_ENTHALPY_J_KG = 200e3
IIR_ENTROPY_J_KG_K = 1e3


@dataclass(frozen=True)
class Point:
    pressure_pa: float
    temperature_k: float
    density_kg_m3: float
    enthalpy_j_kg: float
    entropy_j_kg_k: float
    cp_j_kg_k: float  # 0 inside the dome, where it has no meaning


class Reference:
    def __init__(self, coolprop_name):
        self.state = AbstractState("HEOS", coolprop_name)
        self.critical_pressure_pa = self.state.p_critical()
        self.check_reference_state()

    def check_reference_state(self):
        self.state.update(CoolProp.QT_INPUTS, 0.0, IIR_TEMPERATURE_K)
        h, s = self.state.hmass(), self.state.smass()
        if abs(h - IIR_ENTHALPY_J_KG) > 1.0 or abs(s - IIR_ENTROPY_J_KG_K) > 0.01:
            raise ValueError(f"not the IIR reference state: {h} J/kg, {s} J/(kg K) at 0 C")

    def point(self, pressure_pa, cp=True):
        s = self.state
        return Point(pressure_pa, s.T(), s.rhomass(), s.hmass(), s.smass(), s.cpmass() if cp else 0.0)

    def at_pressure_quality(self, pressure_pa, quality):
        """Quality by mass: 0 at bubble, 1 at dew."""
        self.state.update(CoolProp.PQ_INPUTS, pressure_pa, quality)
        return self.point(pressure_pa, cp=quality in (0.0, 1.0))

    def at_pressure_temperature(self, pressure_pa, temperature_k, near, phase):
        """One phase. CoolProp finds it without the nearby state here; a blend needs it."""
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
