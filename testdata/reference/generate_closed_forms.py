"""Closed forms of a cannon with no valve: one gas volume expanding against the atmosphere.

Rohrbach, Buresh & Madsen, Am. J. Phys. 80, 24 (2012):
adiabatic   m v^2/2 = p0 V0/(g-1) [1 - (V0/(V0 + A L))^(g-1)] - (pa A + f) L
isothermal  m v^2/2 = p0 V0 ln(1 + A L/V0) - (pa A + f) L
"""
import math

from mpmath import mp, mpf, log

import common as c

mp.dps = 40


def speeds(V0, p0, d, L, m, f, pa=c.PA, g=1.4):
    V0, p0, L, m, f, pa, g = (mpf(repr(z)) for z in (V0, p0, L, m, f, pa, g))
    A = mp.pi / 4 * mpf(repr(d)) ** 2
    loss = (pa * A + f) * L
    e_ad = p0 * V0 / (g - 1) * (1 - (V0 / (V0 + A * L)) ** (g - 1)) - loss
    e_is = p0 * V0 * log(1 + A * L / V0) - loss
    return [float(z) for z in (A, e_ad, e_is, mp.sqrt(2 * e_ad / m), mp.sqrt(2 * e_is / m))]


DESIGNS = [(2e-3, 401325.0, 0.05, 1.0, 0.05, 0.0), (2e-3, 401325.0, 0.05, 1.0, 0.05, 20.0),
           (5e-3, 301325.0, 0.025, 0.4, 0.02, 2.0), (1e-3, 146325.0, 0.041, 0.15, 0.004, 0.6),
           (0.8e-3, 141325.0, 0.051, 0.06, 0.005, 0.2), (0.25e-3, 196325.0, 0.041, 0.12, 0.004, 0.0),
           (0.05e-3, 301325.0, 0.016, 0.15, 0.008, 0.1), (10e-3, 131325.0, 0.063, 0.5, 0.012, 1.0),
           (24e-3, 801325.0, 0.05, 0.8, 0.1, 10.0), (0.3e-3, 1101325.0, 0.012, 0.3, 0.01, 3.0),
           (2e-3, 131325.0, 0.041, 0.3, 0.004, 0.0), (1.5e-3, 151325.0, 0.02, 0.25, 0.0025, 0.0)]

if __name__ == "__main__":
    cols = "V0_m3 p0_Pa pa_Pa gamma bore_m travel_m mass_kg friction_N area_m2 energy_adiabatic_J energy_isothermal_J v_adiabatic_m_s v_isothermal_m_s".split()
    rows = []
    for V0, p0, d, L, m, f in DESIGNS:
        A, ea, ei, va, vi = speeds(V0, p0, d, L, m, f)
        rows.append((V0, p0, c.PA, 1.4, d, L, m, f, A, ea, ei, va, vi))
        print(rows[-1][-2:])
    c.write("closed_forms.csv", ["equations: Rohrbach, Buresh & Madsen, Am. J. Phys. 80, 24 (2012); evaluated with mpmath at 40 digits",
                                 "no dead volume, no valve, friction constant; the designs are invented "], cols, rows)
