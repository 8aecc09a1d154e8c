"""Flow laws and CSV writing shared by the reference generators.

Written from the equations, not from the Go program: its figures are compared
with these, so nothing here may be copied from it.
Sources of the laws: ISO 6358-1 (elliptic law), ISO 6358-3 (series), isentropic
nozzle (NACA Report 1135).
"""
import csv
import math
import os
import sys

import numpy
import scipy
from scipy.optimize import brentq

DATE = "2026-11-28"
HERE = os.path.dirname(os.path.abspath(__file__))
RHO0 = 1.185      # kg/m3, reference density of ISO 6358-1 (moist air)
T0 = 293.15       # K, reference temperature of ISO 6358-1
R_AIR = 287.05287  # J/(kg K), ISO 2533
GAMMA = 1.4
PA = 101325.0
G0 = 9.80665  # m/s2, 3rd General Conference on Weights and Measures


def phi_ellipse(r, b, laminar=None, m=0.5):
    """ISO 6358-1: 1 for r <= b, else (1 - ((r-b)/(1-b))^2)^m; chord above laminar."""
    if r <= b:
        return 1.0
    if r >= 1.0:
        return 0.0
    if laminar is not None and r > laminar:
        return phi_ellipse(laminar, b, None, m) * (1 - r) / (1 - laminar)
    z = (r - b) / (1 - b)
    return ((1 - z) * (1 + z)) ** m


def q_ellipse(p1, T1, p2, C, b, laminar=None, rho0=RHO0):
    """Mass flow [kg/s] from p1, T1 to p2 (p1 >= p2)."""
    return C * rho0 * p1 * math.sqrt(T0 / T1) * phi_ellipse(p2 / p1, b, laminar)


def critical_ratio(g=GAMMA):
    return (2 / (g + 1)) ** (g / (g - 1))


def psi_nozzle(r, g=GAMMA, laminar=None):
    """Isentropic nozzle: q = Cd A p1 psi / sqrt(R T1); chord above laminar."""
    rc = critical_ratio(g)
    if r <= rc:
        return math.sqrt(g) * (2 / (g + 1)) ** ((g + 1) / (2 * (g - 1)))
    if r >= 1.0:
        return 0.0
    if laminar is not None and r > laminar:
        return psi_nozzle(laminar, g) * (1 - r) / (1 - laminar)
    # r^(2/g) (1 - r^((g-1)/g)), by expm1 so that r near 1 keeps its digits
    lr = math.log(r)
    return math.sqrt(2 * g / (g - 1) * math.exp(2 * lr / g) * -math.expm1((g - 1) / g * lr))


def q_nozzle(p1, T1, p2, cda, R, g=GAMMA, laminar=None):
    return cda * p1 * psi_nozzle(p2 / p1, g, laminar) / math.sqrt(R * T1)


def phi_inverse(y, b):
    """The ratio r >= b at which the ellipse (m = 0.5) gives y in [0, 1]."""
    return b + (1 - b) * math.sqrt((1 - y) * (1 + y))


def series_c(C1, b1, C2):
    """Exact sonic conductance of two elements, 1 upstream (ISO 6358-3)."""
    if C1 == 0:
        return 0.0
    al = C1 / (b1 * C2)
    if al <= 1:
        return C1
    k = (1 - b1) / b1
    return C2 * al * (al * b1 + (1 - b1) * math.sqrt(al * al + k * k - 1)) / (al * al + k * k)


def series_choking_ratio(C1, b1, C2, b2):
    """Largest p3/p1 at which the pair still passes its choked flow."""
    C12 = series_c(C1, b1, C2)
    if C1 < b1 * C2:  # element 1 chokes; p2 may rise to b1 p1
        y = C1 / (C2 * b1)
        return b1 * phi_inverse(y, b2)
    return b2 * C12 / C2  # element 2 chokes


def series_b_iso(C1, b1, C2, b2):
    """Critical ratio by the approximate rule of ISO 6358-3 (from memory):
    b12 = 1 - C12^2 [(1-b1)/C1^2 + (1-b2)/C2^2]."""
    C12 = series_c(C1, b1, C2)
    return 1 - C12 * C12 * ((1 - b1) / C1 ** 2 + (1 - b2) / C2 ** 2)


def chain_flow(elements, p1, p2):
    """Exact flow of a chain [(C, b), ...] in conductance units: q/(rho0 sqrt(T0/T))
    [m3/s x Pa/Pa], with the intermediate pressures. All stages have the inlet's
    stagnation temperature."""
    C, b = elements[0]
    if len(elements) == 1:
        return C * p1 * phi_ellipse(p2 / p1, b), []

    def f(p):
        return C * p1 * phi_ellipse(p / p1, b) - chain_flow(elements[1:], p, p2)[0]

    if f(p2) <= 0:
        p = p2
    elif f(p1) >= 0:
        p = p1
    else:
        p = brentq(f, p2, p1, xtol=1e-13 * p1, rtol=8.9e-16, maxiter=300)
    q, rest = chain_flow(elements[1:], p, p2)
    return q, [p] + rest


def difference(a, b, keys):
    """Largest relative difference of two runs in some of their figures; one that either lacks, or that is zero in both, counts as none."""
    worst = 0.0
    for key in keys:
        u, w = a[key], b[key]
        if u is not None and w is not None and max(abs(u), abs(w)) > 0:
            worst = max(worst, abs(u - w) / max(abs(u), abs(w)))
    return worst


def num(x):
    """A float as shortest text of 13 significant digits, blanks for None."""
    if x is None:
        return ""
    if isinstance(x, str):
        return x
    if isinstance(x, (bool, int)):
        return str(int(x))
    return "%.13g" % x


def write(name, about, columns, rows):
    """Write NAME with its comment header."""
    path = os.path.join(HERE, name)
    script = os.path.basename(sys.argv[0])
    head = ["puffproof reference data: " + name,
            "tool: Python %s, NumPy %s, SciPy %s" % (sys.version.split()[0], numpy.__version__, scipy.__version__),
            "command: /usr/bin/python3 -B testdata/reference/" + script,
            "date: " + DATE] + about
    with open(path, "w", newline="") as f:
        for h in head:
            f.write("# " + h + "\n")
        w = csv.writer(f, lineterminator="\n")
        w.writerow(columns)
        for r in rows:
            w.writerow([num(r.get(c)) for c in columns] if isinstance(r, dict) else [num(v) for v in r])
    print(name, len(rows), "rows")
