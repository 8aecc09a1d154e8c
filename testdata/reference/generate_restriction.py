"""Flows of single restrictions and conversions between flow coefficients."""
import math

import fluids
from fluids.control_valve import size_control_valve_g
from fluids.safety_valve import API520_A_g
from scipy.optimize import brentq

import common as c

L = 1e-8  # m3/(s Pa) per L/(s bar)
COLS = "set law C_m3_sPa b cda_m2 R_J_kgK gamma p1_Pa T1_K ratio laminar q_kg_s quantity x1 x2 x3 x4 value published source".split()


def flows():
    rows = []
    for T in (250.0, 273.15, 293.15, 318.15, 340.0):
        for r in (0.05, 0.2, 0.3, 0.4, 0.5, 0.52, 0.5283, 0.54, 0.6, 0.7, 0.8, 0.9, 0.95, 0.99, 0.998, 0.9995, 1.0):
            for p1 in (150e3, 801325.0):
                for b in (0.2, 0.35, 0.528):
                    for lam in (None, 0.999):
                        if lam and r <= 0.999:
                            continue
                        rows.append(dict(set="flow", law="ellipse", C_m3_sPa=2e-8, b=b, p1_Pa=p1, T1_K=T, ratio=r, laminar=lam or "none",
                                         q_kg_s=c.q_ellipse(p1, T, p1 * r, 2e-8, b, lam)))
                for R, g, name in ((c.R_AIR, 1.4, "air"), (c.R_AIR, 1.4, "air 0.999")):
                    lam = 0.999 if name.endswith("999") else None
                    if lam and r <= 0.999:
                        continue
                    rows.append(dict(set="flow", law="nozzle", cda_m2=1e-5, R_J_kgK=R, gamma=g, p1_Pa=p1, T1_K=T, ratio=r, laminar=lam or "none",
                                     q_kg_s=c.q_nozzle(p1, T, p1 * r, 1e-5, R, g, lam)))
    return rows


def value(quantity, v, pub, source, *xs):
    r = dict(set="value", quantity=quantity, value=v, published=pub, source=source)
    for i, x in enumerate(xs):
        r["x%d" % (i + 1)] = x
    return r


def per_cv(xT):
    """C [L/(s bar)] per Cv: IEC 60534 choked gas, Q = N7 Cv p1 (2/3) sqrt(xT/(G T)), N7 = 4.17 (kPa, m3/h at 101.325 kPa, 288.15 K)."""
    q = 4.17 * (2 / 3) * math.sqrt(xT / 293.15)   # m3/h per kPa
    return q * 100 / 3.6 * (101.325 / 100) * (293.15 / 288.15)


def hose(d, length):
    """Eckersten: C [L/(s bar)] and b, bore d and length in m."""
    C = 0.029 * d * d / math.sqrt(length / d ** 1.25 + 510)
    return C / L, 474 * C / (d * d)


def fanno_length(m):
    return (1 - m * m) / (1.4 * m * m) + 2.4 / 2.8 * math.log(2.4 * m * m / (2 + 0.4 * m * m))


def fanno_hose(d, length, p1, entry=0.5):
    """C [L/(s bar)] of a smooth straight hose by Fanno flow, choked at its end: f L/d and
    the loss of a sharp-edged entry, 0.5, as one length; f by Haaland (smooth) at the
    Reynolds number of that flow, 64/Re below 2300. Viscosity 18.2 uPa s, 293.15 K."""
    area, f = math.pi / 4 * d * d, 0.02
    for _ in range(100):
        m = brentq(lambda m: fanno_length(m) - (f * length / d + entry), 1e-6, 1 - 1e-12, xtol=1e-15)
        q = p1 * area * math.sqrt(1.4 / (c.R_AIR * c.T0)) * m * (1 + 0.2 * m * m) ** -3
        re = q * d / (area * 18.2e-6)
        last, f = f, 64 / re if re < 2300 else (1.8 * math.log10(re / 6.9)) ** -2
        if abs(f - last) < 1e-14:
            break
    return q / (c.RHO0 * p1) / L


def values():
    v, out = value, []
    iso = "ISO 6358-1 ellipse, closed form"
    anr = lambda C, b, p1, p2: C * p1 / 1e5 * c.phi_ellipse(p2 / p1, b) * 60  # L/min ANR at 293.15 K
    out.append(v("ellipse flow [L/min ANR]: C, b, p1, p2", anr(2, .3, 7.013e5, 1.013e5), None, iso, 2, .3, 7.013e5, 1.013e5))
    out.append(v("ellipse flow [L/min ANR]: C, b, p1, p2", anr(2, .3, 7.013e5, 5.013e5), None, iso, 2, .3, 7.013e5, 5.013e5))
    y = 600 / (3 * 7.013 * 60)
    out.append(v("outlet pressure [bar]: C, b, p1, L/min ANR", 7.013 * c.phi_inverse(y, .35), None, iso, 3, .35, 7.013e5, 600))
    # 600 L/min choked and 360 L/min at 6.013 bar, both from 7.013 bar: phi = 0.6, z = 0.8
    out.append(v("C [L/(s bar)] of two test points: choked, other [L/min ANR], p1, p2", 600 / (60 * 7.013), None, iso, 600, 360, 7.013e5, 6.013e5))
    z = math.sqrt(1 - (360 / 600) ** 2)
    out.append(v("b of two test points: choked, other [L/min ANR], p1, p2", (6.013 / 7.013 - z) / (1 - z), None, iso, 600, 360, 7.013e5, 6.013e5))
    for b in (0.2, 0.3, 0.35, 0.5, 0.528):
        out.append(v("Qn [L/min per L/(s bar)], 7 to 6 bar abs", 420 * c.phi_ellipse(6 / 7, b), {0.3: 254.27, 0.528: 301.03}.get(b), "ISO 6358-1 ellipse", b))
    for xT in (0.5, 0.6, 0.7, 0.8):
        out.append(v("C per Cv [L/(s bar)]", per_cv(xT), {0.5: 3.29, 0.7: 3.890, 0.8: 4.16}.get(xT), "IEC 60534 choked gas law, N7 4.17", xT))
    out.append(v("Cv per Kv", 1.156, 1.156, "common practice"))
    psi = c.psi_nozzle(0.0)
    out.append(v("psi at gamma 1.4", psi, 0.68473146, "isentropic nozzle"))
    S = 1e-8 * c.RHO0 * math.sqrt(c.R_AIR * c.T0) / psi
    out.append(v("effective area per L/(s bar) [mm2]", S * 1e6, 5.02, "isentropic nozzle, rho0 1.185"))
    for M, pp, tt, aa in ((0.5, .84301918, .95238095, 1.3398438), (0.3, .93946970, .98231827, 2.0350653), (2.0, .12780453, .55555556, 1.6875)):
        T = 1 / (1 + .2 * M * M)
        out.append(v("isentropic p/p0", T ** 3.5, pp, "NACA Report 1135", M))
        out.append(v("isentropic T/T0", T, tt, "NACA Report 1135", M))
        out.append(v("isentropic A/A*", (1 / M) * ((1 + .2 * M * M) / 1.2) ** 3, aa, "NACA Report 1135", M))
        out.append(v("nozzle psi ratio from A/A* (p/p0)", c.psi_nozzle(T ** 3.5) / psi if M <= 1 else None, (1 / aa) if M <= 1 else None, "NACA Report 1135", M, T ** 3.5))
    for b in (0.528, c.critical_ratio()):
        worst = max(abs(c.phi_ellipse(i / 1e4, b) - c.psi_nozzle(i / 1e4) / psi) for i in range(1, 10000))
        out.append(v("largest gap ellipse of b to nozzle, share of choked flow", worst, None, "the two closed forms", b))
    kv = size_control_valve_g(T=433., MW=44.01, mu=1.4665e-4, gamma=1.30, Z=0.988, P1=680E3, P2=310E3, Q=38 / 36., D1=0.08, D2=0.1, d=0.05, FL=0.85, Fd=0.42, xT=0.60)
    out.append(v("Kv, IEC 60534-2-1 example 3 [m3/h]", float(kv if not isinstance(kv, dict) else kv["Kv"]), 72.59, "python3-fluids " + fluids.__version__ + ", size_control_valve_g"))
    for m, T, Z, MW, k, P1, P2, Kd in ((24270 / 3600., 348., 0.90, 51., 1.11, 670E3, 532E3, 0.975), (0.02, 293.15, 1., 28.9647, 1.4, 901325., 101325., 0.62), (0.005, 293.15, 1., 28.9647, 1.4, 200e3, 101325., 0.62)):
        try:
            out.append(v("API 520 area [m2]: kg/s, P1, P2, Kd; T %g Z %g M %g k %g" % (T, Z, MW, k), float(API520_A_g(m=m, T=T, Z=Z, MW=MW, k=k, P1=P1, P2=P2, Kd=Kd)), None,
                         "python3-fluids " + fluids.__version__ + ", API520_A_g", m, P1, P2, Kd))
        except Exception as e:
            print("API520", e)
    for d in (4, 7.5):
        for l in (0.5, 1, 3, 10):
            C, b = hose(d * 1e-3, l)
            out.append(v("hose C [L/(s bar)]: bore mm, length m", C, None, "Eckersten form (status M)", d, l))
            out.append(v("hose b: bore mm, length m", b, None, "Eckersten form (status M)", d, l))
            for p1 in (1.5, 2, 4):
                q = fanno_hose(d * 1e-3, l, p1 * 1e5)
                print("hose", d, l, p1, "Eckersten over Fanno %+.1f %%" % (100 * (C / q - 1)))
                out.append(v("smooth hose C [L/(s bar)]: bore mm, length m, inlet bar abs", q, None, "Fanno flow (Shapiro 1953), Haaland, entry 0.5", d, l, p1))
    for g in (1.1, 1.3, 1.3333333333333333, 1.4, 1.6666666666666667):
        out.append(v("critical ratio: gamma", c.critical_ratio(g), None, "isentropic nozzle", g))
        out.append(v("psi: gamma", c.psi_nozzle(0.0, g), None, "isentropic nozzle", g))
    return [r for r in out if r["value"] is not None]


if __name__ == "__main__":
    vals = values()
    for r in vals:
        print(r["quantity"], [r.get("x%d" % i) for i in (1, 2, 3, 4)], r["value"], r["published"])
    c.write("restriction.csv", ["also: python3-fluids %s (Debian), for IEC 60534 and API 520" % fluids.__version__,
                                "equations: ISO 6358-1 ellipse (m 0.5, rho0 1.185, T0 293.15 K), isentropic nozzle (NACA Report 1135), IEC 60534-2-1, Eckersten hose (status M), Fanno flow",
                                "set flow: mass flow q; laminar none or the chord's ratio. set value: named quantity with its arguments x1.., computed value and published figure"], COLS, flows() + vals)
