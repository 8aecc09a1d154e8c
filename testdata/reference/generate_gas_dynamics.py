"""Closed forms and converged figures of one-dimensional gas dynamics.

Riemann problem: the star pressure is the root of f_L(p) + f_R(p) + u_R - u_L, shock or
rarefaction on either side (Toro 2009, chapter 4). Gun with an endless chamber: Siegel,
AGARDograph 91. Shock ahead of a piston: Rankine and Hugoniot. Fanno flow: Shapiro 1953.

Lagrange problem: a closed chamber, vacuum ahead. The gas is homentropic, so u + 5 a and
u - 5 a (gamma 1.4) are constant along the two families of characteristics. Their net is
laid from the projectile's own path; only the places of its points and the projectile's
motion carry an error, of second order, and two Richardson steps are taken from three
nets. No artificial viscosity, no cells: nothing in common with the program's method.
"""
import csv
import math
import os

from mpmath import mp, mpf, findroot
from scipy.integrate import DOP853
from scipy.optimize import brentq

import common as c

mp.dps = 30
G = c.GAMMA


def riemann(left, right, g="1.4"):
    """Star pressure, speed and the two densities, 30 digits; left, right: rho, u, p."""
    g = mpf(g)

    def side(p, rho, pk):
        a = mp.sqrt(g * pk / rho)
        if p > pk:
            return (p - pk) * mp.sqrt(2 / ((g + 1) * rho) / (p + (g - 1) / (g + 1) * pk))
        return 2 * a / (g - 1) * ((p / pk) ** ((g - 1) / (2 * g)) - 1)

    def density(p, rho, pk):
        r, k = p / pk, (g - 1) / (g + 1)
        return rho * (r + k) / (k * r + 1) if r > 1 else rho * r ** (1 / g)

    (rl, ul, pl), (rr, ur, pr) = [[mpf(str(z)) for z in s] for s in (left, right)]
    f = lambda p: side(p, rl, pl) + side(p, rr, pr) + ur - ul
    low, high = mpf(10) ** -12, 10 * max(pl, pr)
    p = findroot(f, (low, high), solver="anderson", tol=mpf(10) ** -25, maxsteps=500)
    u = (ul + ur + side(p, rr, pr) - side(p, rl, pl)) / 2
    return float(p), float(u), float(density(p, rl, pl)), float(density(p, rr, pr))


def endless(x):
    """u/a0 of the endless chamber at travel x in units of m a0^2/(p0 A): U dU/dX = w^e
    with w = 1 - k U, k = (g-1)/2, e = 2 g/(g-1), integrated over w."""
    g = mpf("1.4")
    k, e = (g - 1) / 2, 2 * g / (g - 1)
    travel = lambda w: ((w ** (1 - e) - 1) / (e - 1) - (w ** (2 - e) - 1) / (e - 2)) / k ** 2
    w = findroot(lambda w: mp.log(travel(w) / x), (mpf("0.2"), mpf("0.999")), solver="anderson", tol=mpf(10) ** -24, maxsteps=500)
    return float((1 - w) / k)


def shock(mach):
    """p2/p1 ahead of a piston at a constant Mach number."""
    q = (mpf("1.4") + 1) * mpf(str(mach)) / 4
    return float(1 + mpf("1.4") * mpf(str(mach)) * (q + mp.sqrt(1 + q * q)))


def fanno(mach):
    """f L/D to sonic flow."""
    g, m2 = mpf("1.4"), mpf(str(mach)) ** 2
    return float((1 - m2) / (g * m2) + (g + 1) / (2 * g) * mp.log((g + 1) * m2 / (2 + (g - 1) * m2)))


def pressure(a):
    return a ** 7 / G  # p in units of rho0 a0^2; 2 g/(g-1) = 7


def first_wave(mass, n):
    """n + 1 points of the projectile's path until the wave from the breech meets it, and
    that wave's own crossings with the characteristics from these points. In units of a0
    and chamber length; mass in units of the chamber's gas."""
    def rhs(tau, y):
        x, v, t = y
        a = 1 - v / 5
        acc = pressure(a) / mass
        return [v, acc, (a + 1.2 * acc * (t - tau)) / (2 * a)]

    s = DOP853(rhs, 0.0, [0.0, 0.0, 1.0], 1e4, rtol=1e-13, atol=1e-15, first_step=1e-3)
    steps = []
    while s.y[2] > s.t:
        s.step()
        steps.append(s.dense_output())
    last = steps[-1]
    end = brentq(lambda tau: last(tau)[2] - tau, last.t_old, last.t, xtol=1e-15)
    path, head = [], []
    for i in range(n + 1):
        tau = end * i / n
        z = DOP853(rhs, 0.0, [0.0, 0.0, 1.0], tau, rtol=1e-13, atol=1e-15, first_step=min(1e-3, tau)) if i else None
        while z and z.status == "running":
            z.step()
        x, v, t = z.y if i else (0.0, 0.0, 1.0)
        path.append((tau, x, v))
        a = 1 - v / 5
        head.append((t, x + (v - a) * (t - tau)))
    return path, head


def lagrange(gas_over_mass, travels, n):
    """u/a0 at travels over chamber length, n points on the first stretch."""
    mass = 1 / gas_over_mass
    path, head = first_wave(mass, n)
    jm = [v - 5 * (1 - v / 5) for _, _, v in path]  # u - 5 a of every characteristic to the breech
    before, jp, first = head, 5.0, 0  # crossings of the last wave to the muzzle, by index of what it crosses
    t, x, v = path[-1]
    out, todo = [], list(travels)
    while todo and todo[0] <= x:  # before the breech is heard the chamber is endless
        out.append(endless(gas_over_mass * todo.pop(0) / G))
    before_p = pressure((jp - v) / 5)
    while todo:
        first += 1
        # at the breech u = 0
        tr, xr = before[1]
        aw = -jm[first] / 5
        slope = 0.5 * ((jp + jm[first]) / 2 - (jp - jm[first]) / 10 - aw)
        jn = 5 * aw
        line = [(tr + (-1 - xr) / slope, -1.0)]
        for i in range(1, len(before) - 1):
            m = jm[first + i]
            tl, xl = line[-1]
            tr, xr = before[i + 1]
            u0, a0 = (jn + jm[first + i - 1]) / 2, (jn - jm[first + i - 1]) / 10
            u1, a1 = (jp + m) / 2, (jp - m) / 10
            u, b = (jn + m) / 2, (jn - m) / 10
            plus, minus = 0.5 * (u0 + a0 + u + b), 0.5 * (u1 - a1 + u - b)
            tt = (xr - xl + plus * tl - minus * tr) / (plus - minus)
            line.append((tt, xl + plus * (tt - tl)))
        # the projectile
        tl, xl = line[-1]
        ul, al = (jn + jm[-1]) / 2, (jn - jm[-1]) / 10
        tn, vn = t + (tl - t) * 1.5, v
        for _ in range(60):
            pn = pressure((jn - vn) / 5)
            v2 = v + 0.5 * (before_p + pn) * (tn - t) / mass
            plus = 0.5 * (ul + al + v2 + (jn - v2) / 5)
            mean = 0.5 * (v + v2)
            t2 = (x - xl + plus * tl - mean * t) / (plus - mean)
            done = abs(t2 - tn) + abs(v2 - vn) < 1e-15
            tn, vn = t2, v2
            if done:
                break
        pn = pressure((jn - vn) / 5)
        xn = x + 0.5 * (v + vn) * (tn - t)
        while todo and xn >= todo[0]:
            out.append(between(t, x, v, before_p / mass, tn, xn, vn, pn / mass, todo.pop(0)))
        line.append((tn, xn))
        jm.append(vn - 5 * (jn - vn) / 5)
        t, x, v, before_p, before, jp = tn, xn, vn, pn, line, jn
    return out


def between(t0, x0, v0, f0, t1, x1, v1, f1, want):
    """Speed at a place between two points: cubic in time through speed and force."""
    h = t1 - t0

    def speed(s):
        return (1 + 2 * s) * (1 - s) ** 2 * v0 + s * (1 - s) ** 2 * h * f0 + s * s * (3 - 2 * s) * v1 + s * s * (s - 1) * h * f1

    def place(s):  # its integral
        i00, i10 = s - s ** 3 + s ** 4 / 2, s * s / 2 - 2 * s ** 3 / 3 + s ** 4 / 4
        i01, i11 = s ** 3 - s ** 4 / 2, s ** 4 / 4 - s ** 3 / 3
        return h * (v0 * i00 + h * f0 * i10 + v1 * i01 + h * f1 * i11)

    miss = (x1 - x0) - place(1.0)
    s = brentq(lambda s: x0 + place(s) + miss * s - want, 0, 1, xtol=1e-15)
    return speed(s)


def converged(gas_over_mass, travels, n):
    """Two Richardson steps from three nets; the second is the error's estimate."""
    a, b, d = (lagrange(gas_over_mass, travels, k * n) for k in (1, 2, 4))
    once = [(4 * q - p) / 3 for p, q in zip(a, b)], [(4 * q - p) / 3 for p, q in zip(b, d)]
    twice = [(16 * q - p) / 15 for p, q in zip(*once)]
    return twice, [abs(q - z) for q, z in zip(once[1], twice)]


def cannon():
    """Mean and standard deviation of measured over lossless speed, less 1."""
    with open(os.path.join(c.HERE, "vacuum-cannon.csv")) as f:
        shots = [r for r in csv.DictReader(line for line in f if not line.startswith("#"))]
    a0 = math.sqrt(G * c.R_AIR * 293.15)
    area = math.pi / 4 * 0.0404 ** 2
    d = [float(r["velocity_m_s"]) / (endless(float(r["length_m"]) * c.PA * area / (2.7e-3 * a0 * a0)) * a0) - 1 for r in shots]
    mean = sum(d) / len(d)
    return mean, math.sqrt(sum((z - mean) ** 2 for z in d) / (len(d) - 1)), max(d)


if __name__ == "__main__":
    rows = []

    def add(what, quantity, value, x=None, y=None, error=None):
        rows.append(dict(set=what, quantity=quantity, x=x, y=y, value=value, error=error))
        print(what, quantity, x, y, value, error)

    problems = (("Sod", (1, 0, 1), (0.125, 0, 0.1)), ("Toro 2", (1, -2, 0.4), (1, 2, 0.4)),
                ("Toro 3", (1, 0, 1000), (1, 0, 0.01)), ("Lax", (0.445, 0.698, 3.528), (0.5, 0, 0.571)))
    for name, left, right in problems:
        for quantity, value in zip(("pressure", "speed", "left density", "right density"), riemann(left, right)):
            add("riemann " + name, quantity, value)
    for x in (0.1, 1, 10):
        add("endless chamber", "u/a0 at x p0 A/(m a0^2)", endless(x), x)
    for m in (0.05, 0.1):
        add("shock ahead", "p2/p1 at the piston's Mach number", shock(m), m)
    for m in (0.2, 0.3, 0.5):
        add("fanno", "f L/D to sonic flow from the Mach number", fanno(m), m)
    for gm, n in ((0.1, 100), (1, 400)):
        for x, value, error in zip((0.5, 1, 2, 5), *converged(gm, (0.5, 1, 2, 5), n)):
            add("lagrange", "u/a0; x: G/m, y: travel over chamber", value, gm, x, error)
    for quantity, value in zip(("mean", "standard deviation", "largest"), cannon()):
        add("vacuum cannon", quantity + " of measured over lossless speed, less 1", value)
    c.write("gas_dynamics.csv", [
        "equations: Riemann problem (Toro 2009, chapter 4), endless chamber (Siegel, AGARDograph 91), shock ahead of a piston",
        "  (Rankine-Hugoniot), Fanno flow (Shapiro 1953), all at 30 digits (mpmath); Lagrange problem by its net of",
        "  characteristics, error: the second Richardson step; vacuum cannon: vacuum-cannon.csv against the endless chamber,",
        "  ball 2.7 g, bore 40.4 mm, 101325 Pa, 293.15 K"], "set quantity x y value error".split(), rows)
