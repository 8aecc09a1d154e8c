"""Availability ceiling: the most energy any expansion of given gas can give.

Phi(x) = sum m_i [cv (T_i - Tw - Tw ln(T_i/Tw)) + R Tw ln(p_i Tw/(p_f T_i))] - pa A x,
m_i = p_i V_i/(R T_i), p_f = (sum m_i) R Tw/(sum V_i + A x).
Derived from the second law (availability; e.g. Moran & Shapiro, from memory). The
maximum over x is found numerically, on purpose not from its closed form.
"""
import math

from mpmath import mp, mpf, log, findroot

import common as c
from scipy.optimize import minimize_scalar

mp.dps = 30


def phi(x, comps, Tw, A, pa, R=c.R_AIR, g=1.4):
    cv = mpf(R) / (mpf(g) - 1)
    ms = [mpf(p) * V / (mpf(R) * T) for p, V, T in comps]
    pf = sum(ms) * R * Tw / (sum(mpf(V) for _, V, _ in comps) + A * x)
    s = mpf(0)
    for m, (p, V, T) in zip(ms, comps):
        p, T = mpf(p), mpf(T)
        s += m * (cv * (T - Tw - Tw * log(T / Tw)) + R * Tw * log(p * Tw / (pf * T)))
    return s - pa * A * x


def maximum(comps, Tw, A, pa, lo, hi):
    """Golden-section search in 30 digits, then a parabola's vertex: no calculus of Phi."""
    inv = (mp.sqrt(5) - 1) / 2
    a, b = mpf(lo), mpf(hi)
    f = lambda x: phi(x, comps, Tw, A, pa)
    x1, x2 = b - inv * (b - a), a + inv * (b - a)
    f1, f2 = f(x1), f(x2)
    while b - a > mpf(hi) * mpf(10) ** -13:
        if f1 < f2:
            a, x1, f1 = x1, x2, f2
            x2 = a + inv * (b - a)
            f2 = f(x2)
        else:
            b, x2, f2 = x2, x1, f1
            x1 = b - inv * (b - a)
            f1 = f(x1)
    best = max([(f(z), z) for z in (mpf(lo), (a + b) / 2, mpf(hi))])
    return float(best[1]), float(best[0])


PA = c.PA
g = lambda bar: PA + bar * 1e5
D41 = 0.041
CASES = [  # compartments (p, V, T), Tw, bore, travel, pa, note
    ([(g(0.95), 2e-3, 293.15)], 293.15, D41, 0.3, PA, "2 L at 0.95 bar"),
    ([(g(0.95), 2e-3, 293.15), (PA, 40e-6, 293.15)], 293.15, D41, 0.3, PA, "with 40 mL dead volume"),
    ([(g(0.068), 2e-3, 293.15), (PA, 40e-6, 293.15)], 293.15, D41, 0.3, PA, "0.068 bar: near 0.5 J"),
    ([(g(0.9), 16e-6, 293.15)], 293.15, D41, 0.3, PA, "16 mL at 0.9 bar"),
    ([(g(0.5), 47e-6, 293.15)], 293.15, D41, 0.3, PA, "47 mL at 0.5 bar"),
    ([(g(1.0), 13e-6, 293.15)], 293.15, D41, 0.3, PA, "13 mL at 1.0 bar"),
    ([(g(0.3), 123e-6, 293.15)], 293.15, D41, 0.3, PA, "123 mL at 0.3 bar"),
    ([(g(0.05), 2.25e-3, 293.15)], 293.15, D41, 0.3, PA, "2.25 L at 0.05 bar"),
    ([(g(0.05), 20e-3, 293.15)], 293.15, D41, 0.3, PA, "20 L at 0.05 bar"),
    ([(g(0.89), 1e-3, 250.0)], 293.15, D41, 0.3, PA, "1 L of gas at 250 K, walls 293.15 K"),
    ([(g(0.89), 1e-3, 250.0)], 318.15, D41, 0.3, PA, "1 L of gas at 250 K, walls 318.15 K"),
    ([(g(0.60), 2.5e-3, 293.15), (g(0.40), 0.8e-3, 270.0), (PA, 55e-6, 293.15)], 298.15, 0.051, 0.06, PA, "three compartments"),
    ([(g(3.0), 5e-3, 330.0), (PA, 0.2e-3, 280.0)], 293.15, 0.025, 0.4, PA, "hot tank"),
    ([(7e4, 1e-3, 293.15), (g(0.5), 0.5e-3, 293.15)], 293.15, 0.03, 0.5, 98000.0, "one compartment below ambient"),
    ([(g(0.30), 1.5e-3, 293.15), (PA, 30e-6, 293.15)], 293.15, 0.016, 0.15, PA, "narrow bore"),
]

if __name__ == "__main__":
    cols = "case R_J_kgK gamma pa_Pa Tw_K bore_m area_m2 travel_m n p1_Pa V1_m3 T1_K p2_Pa V2_m3 T2_K p3_Pa V3_m3 T3_K muzzle_ceiling_J x_muzzle_m ceiling_J x_max_m scipy_difference note".split()
    rows = []
    for i, (comps, Tw, d, L, pa, note) in enumerate(CASES):
        A = math.pi / 4 * d * d
        xm, em = maximum(comps, Tw, A, pa, 0.0, L)
        far = 100 * sum(p * V for p, V, _ in comps) / (pa * A)
        x, e = maximum(comps, Tw, A, pa, 0.0, far)
        o = minimize_scalar(lambda z: -float(phi(z, comps, Tw, A, pa)), bounds=(0, 3 * x + L), method="bounded", options=dict(xatol=1e-12))
        row = dict(case=i + 1, R_J_kgK=c.R_AIR, gamma=1.4, pa_Pa=pa, Tw_K=Tw, bore_m=d, area_m2=A, travel_m=L, n=len(comps),
                   muzzle_ceiling_J=em, x_muzzle_m=xm, ceiling_J=e, x_max_m=x, scipy_difference=abs(-o.fun - e) / max(e, 1e-9), note=note)
        for j, (p, V, T) in enumerate(comps):
            row["p%d_Pa" % (j + 1)], row["V%d_m3" % (j + 1)], row["T%d_K" % (j + 1)] = p, V, T
        rows.append(row)
        print(note, em, e, x, row["scipy_difference"])
    c.write("ceiling.csv", ["equations: availability (exergy) of closed compartments, second law; maximum by golden section in 30-digit arithmetic (mpmath)",
                            "x from 0: muzzle_ceiling over x <= travel, ceiling over all x. x_* is good to about 1e-7 relative, the energies to 1e-12",
                            "scipy_difference: relative difference of ceiling_J from scipy.optimize.minimize_scalar; no supply, no gravity"], cols, rows)
