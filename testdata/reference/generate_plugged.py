"""A loaded projectile driven against a closed muzzle.

Upper bound: p_t (1 - 1/r) = pa (r^(g-1) - 1)/(g - 1), p = pa r^g (tank at constant
pressure, air ahead adiabatic). Simulation: the lumped model of generate_shots.py
with the front pressure pa ((L - x0)/(L - x))^g, tight, frictionless, to the
projectile's first stop. Equations: first law; isentropic compression.
"""
import math

from mpmath import mp, mpf, findroot

import common as c
from generate_shots import Sim

mp.dps = 30


def bound(pt, pa=c.PA, g=1.4):
    pt, pa, g = mpf(pt), mpf(pa), mpf(g)
    f = lambda r: pt * (1 - 1 / r) - pa * (r ** (g - 1) - 1) / (g - 1)
    lo, hi = mpf("1.0000001"), mpf(2)
    while f(hi) > 0:
        hi *= 2
    # f > 0 just above r = 1 for pt > pa; bisection to a bracket, then Illinois
    r = findroot(f, (lo if f(lo) > 0 else lo + 1e-3, hi), solver="illinois", tol=1e-40)
    return float(r), float(pa * r ** g)


BASE = dict(tank=2e-3, bore=0.041, travel=0.3, mass=0.004, dead=40e-6, plugged=True, first_peak=True, until=2.0)

if __name__ == "__main__":
    cols = "kind tank_gauge_Pa pa_Pa gamma R_J_kgK rho0_kg_m3 T_K ratio bound_p_Pa bound_gauge_Pa tank_m3 C_m3_sPa b opening_s dead_m3 bore_m travel_m mass_kg t_stop_s x_stop_m front_peak_p_Pa front_peak_gauge_Pa stop_barrel_p_Pa stop_tank_p_Pa agreement".split()
    rows = []
    for bar in (0.05, 0.1, 0.2, 0.3, 0.5, 0.75, 0.95, 1.0, 1.4, 1.5, 2.0, 3.0, 4.0, 6.0, 8.0, 10.0):
        r, p = bound(c.PA + bar * 1e5)
        rows.append(dict(kind="bound", tank_gauge_Pa=bar * 1e5, pa_Pa=c.PA, gamma=1.4, ratio=r, bound_p_Pa=p, bound_gauge_Pa=p - c.PA))
        print(bar, r, (p - c.PA) / 1e5)
    for bar, C, tank, op in ((0.95, 3e-6, 10.0, 0), (0.95, 1e-6, 2e-3, 0), (0.95, 3e-7, 2e-3, 0), (0.95, 9.725e-8, 2e-3, 0),
                             (0.95, 1.556e-8, 2e-3, 0.015), (1.4, 1e-6, 2e-3, 0), (1.5, 1e-6, 20e-3, 0), (0.3, 1e-6, 2e-3, 0),
                             (0.5, 3e-7, 0.25e-3, 0.005), (4.0, 1e-6, 2e-3, 0)):
        dead = 40e-6
        k = dict(BASE, tank=tank, pt=c.PA + bar * 1e5, valve=("ellipse", C, 0.35), opening=op, dead=dead)
        f, g = Sim(k, 0.999).run(1e-12), Sim(k, 0.999).run(1e-10)
        agree = max(abs(f[z] / g[z] - 1) for z in ("t_end_s", "x_end_m", "front_peak_p_Pa", "end_barrel_p_Pa"))
        r, p = bound(c.PA + bar * 1e5)
        rows.append(dict(kind="simulation", tank_gauge_Pa=bar * 1e5, pa_Pa=c.PA, gamma=1.4, R_J_kgK=c.R_AIR, rho0_kg_m3=c.RHO0, T_K=293.15,
                         ratio=r, bound_p_Pa=p, bound_gauge_Pa=p - c.PA, tank_m3=tank, C_m3_sPa=C, b=0.35, opening_s=op, dead_m3=dead,
                         bore_m=0.041, travel_m=0.3, mass_kg=0.004, t_stop_s=f["t_end_s"], x_stop_m=f["x_end_m"],
                         front_peak_p_Pa=f["front_peak_p_Pa"], front_peak_gauge_Pa=f["front_peak_p_Pa"] - c.PA,
                         stop_barrel_p_Pa=f["end_barrel_p_Pa"], stop_tank_p_Pa=f["end_tank_p_Pa"], agreement=agree))
        print(bar, C, tank, f["outcome"], "front peak %.6g bar gauge, bound %.6g" % ((f["front_peak_p_Pa"] - c.PA) / 1e5, (p - c.PA) / 1e5), "agree %.1e" % agree, f["steps"], flush=True)
    c.write("plugged.csv", ["equations: p_t (1 - 1/r) = pa (r^(g-1) - 1)/(g - 1), p = pa r^g (rows bound, mpmath at 30 digits);",
                            "  rows simulation: lumped model of generate_shots.py to the FIRST stop of the projectile (front_peak is the air ahead then), DOP853 1e-12;",
                            "  agreement: largest relative difference from 1e-10. Ellipse with the chord above 0.999; tight, frictionless, muzzle closed, seated at 0"], cols, rows)
