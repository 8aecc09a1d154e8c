"""Riemann problems at a step in the area of a tube: a shock tube of two bores, and shocks that meet a step.

Left and right of the step the waves of a perfect gas (Toro, Riemann Solvers, sections 3.1 and 4.2); in the step
steady flow. From wide to narrow: isentropic, as in Alpher and White, Flow in shock tubes with area change at the
diaphragm section, J. Fluid Mech. 3 (1958) 457; the narrow end may be sonic, then a rarefaction stands there. From narrow
to wide: mass, energy, and momentum with the pressure of the jet on the back wall (Borda and Carnot), unless the narrow
end is sonic or faster: then the wide tube takes the mass and the energy, and the wall's pressure follows.
The equations of the paper are from memory; the two shock tubes are solved a second time by its closed form with the
equivalence factor g, and both agree.
"""
import math

from scipy.optimize import brentq, fsolve

import common as c

G = c.GAMMA
GM, GP = G - 1, G + 1


def shock_or_fan(p, rho0, p0):
    """Speed change and density behind a wave that leaves the pressure p."""
    a0 = math.sqrt(G * p0 / rho0)
    if p > p0:
        du = (p - p0) * math.sqrt(2 / rho0 / (GP * p + GM * p0))
        return du, rho0 * (GP * p + GM * p0) / (GM * p + GP * p0)
    return 2 * a0 / GM * ((p / p0) ** (GM / (2 * G)) - 1), rho0 * (p / p0) ** (1 / G)


def left_end(p, rho, u, p0):
    """Gas at the right end of the left tube at pressure p: density, speed."""
    du, r = shock_or_fan(p, rho, p0)
    return r, u - du


def right_speed(p, rho, u, p0):
    du, r = shock_or_fan(p, rho, p0)
    return u + du, r


def total_enthalpy(rho, u, p):
    return G / GM * p / rho + u * u / 2


def enter(m, h, area, rho, u, p0):
    """Pressure, speed, density with which a flow m of enthalpy h enters the right tube, at most sonic."""
    def state(p):  # G/GM p/rho + v^2/2 = h, rho v = m/area
        f = m / area
        v = 2 * f * h / (G / GM * p + math.sqrt((G / GM * p) ** 2 + 2 * f * f * h))
        return v, f / v
    vs = math.sqrt(2 * h * GM / GP)
    ps = m / area / vs * vs * vs / G
    if right_speed(ps, rho, u, p0)[0] >= vs:
        return ps, vs, m / area / vs
    p = brentq(lambda p: right_speed(p, rho, u, p0)[0] - state(p)[0], ps, 1e3 * max(p0, ps), xtol=1e-14 * p0, rtol=1e-15)
    return (p,) + state(p)


def sonic_exit(rho, u, p0):
    """Pressure at which the left tube's gas leaves at its own speed of sound."""
    def mach(p):
        r, v = left_end(p, rho, u, p0)
        return v / math.sqrt(G * p / r) - 1
    return brentq(mach, 1e-6 * p0, p0, xtol=1e-15 * p0, rtol=1e-15)


def nozzle(h, s, p):
    """Speed and density at pressure p of gas of total enthalpy h and p/rho^gamma = s."""
    rho = (p / s) ** (1 / G)
    return math.sqrt(max(0, 2 * (h - G / GM * p / rho))), rho


def narrowing(AL, AR, L, R):
    rho, u, p0 = L
    rest = brentq(lambda p: left_end(p, rho, u, p0)[1], 1e-9 * p0, 1e3 * p0, xtol=1e-15 * p0, rtol=1e-15)

    def right(p1):
        r1, u1 = left_end(p1, rho, u, p0)
        h, s = total_enthalpy(r1, u1, p1), p1 / r1 ** G
        a2 = 2 * h * GM / GP            # sonic: a^2
        rs = (a2 / G / s) ** (1 / GM)
        ps = s * rs ** G
        if right_speed(ps, *R)[0] >= math.sqrt(a2):
            return ps, math.sqrt(a2), rs, True
        ptot = (h * GM / G / s) ** (G / GM) * s
        p2 = brentq(lambda p: right_speed(p, *R)[0] - nozzle(h, s, p)[0], ps, ptot, xtol=1e-15 * ptot, rtol=1e-15)
        return (p2,) + nozzle(h, s, p2) + (False,)

    def excess(p1):
        r1, u1 = left_end(p1, rho, u, p0)
        p2, u2, r2, _ = right(p1)
        return r2 * u2 * AR - r1 * u1 * AL
    p1 = brentq(excess, sonic_exit(rho, u, p0), rest * (1 - 1e-13), xtol=1e-15 * p0, rtol=1e-15)
    p2, u2, r2, choked = right(p1)
    r1, u1 = left_end(p1, rho, u, p0)
    if not choked:  # the four unknown pressures and speeds once more, all at once
        def all_at_once(x):
            ra, ua = left_end(x[0], *L)
            rb = ra * (x[2] / x[0]) ** (1 / G)
            return [ua - x[1], right_speed(x[2], *R)[0] - x[3], ra * x[1] * AL - rb * x[3] * AR,
                    total_enthalpy(ra, x[1], x[0]) - total_enthalpy(rb, x[3], x[2])]
        x = fsolve(all_at_once, [p1 * 1.01, u1, p2 * 0.99, u2], xtol=1e-13)
        assert abs(x[0] / p1 - 1) < 1e-9 and abs(x[2] / p2 - 1) < 1e-9, (x, p1, p2)
    return (r1, u1, p1), (r2, u2, p2), choked


def widening(AL, AR, L, R):
    rho, u, p0 = L
    low = sonic_exit(rho, u, p0)
    rest = brentq(lambda p: left_end(p, rho, u, p0)[1], 1e-9 * p0, 1e3 * p0, xtol=1e-15 * p0, rtol=1e-15)

    def wall(p1):
        r1, u1 = left_end(p1, rho, u, p0)
        m = r1 * u1 * AL
        p2, u2, r2 = enter(m, total_enthalpy(r1, u1, p1), AR, *R)
        return (p2 + r2 * u2 ** 2) * AR - p1 * AR - m * u1, (r1, u1, p1), (r2, u2, p2)
    choked = wall(low)[0] <= 0
    p1 = low if choked else brentq(lambda p: wall(p)[0], low, rest * (1 - 1e-9), xtol=1e-15 * p0, rtol=1e-15)
    _, one, two = wall(p1)
    return one, two, choked


def plateau(two, R):
    """Pressure and speed either side of the contact, with the densities: the joint's state unless it is sonic there."""
    r2, u2, p2 = two
    if u2 < math.sqrt(G * p2 / r2) * (1 - 1e-9):
        v, rr = right_speed(p2, *R)
        assert abs(v / u2 - 1) < 1e-9
        return p2, u2, r2, rr
    p = brentq(lambda p: left_end(p, r2, u2, p2)[1] - right_speed(p, *R)[0], 1e-9 * p2, p2, xtol=1e-15 * p2, rtol=1e-15)
    v, rr = right_speed(p, *R)
    return p, v, left_end(p, r2, u2, p2)[0], rr


def alpher_white(area, p41, choked):
    """Plateau pressure p2/p1 of a shock tube of one gas at one temperature whose driver is wider by area."""
    def throat(m):
        return 1 / m * ((2 + GM * m * m) / GP) ** (GP / (2 * GM))

    def solve(m3b):
        m3a = brentq(lambda m: throat(m) / throat(m3b) - area, 1e-6, m3b, xtol=1e-15, rtol=1e-15)
        g = (math.sqrt((2 + GM * m3a ** 2) / (2 + GM * m3b ** 2)) * (2 + GM * m3b) / (2 + GM * m3a)) ** (2 * G / GM)

        def u21(p21):  # u2/a1
            return (p21 - 1) * math.sqrt(2 / G / (GP * p21 + GM))

        def p41_of(p21):
            return p21 / g * max(1e-30, 1 - GM / 2 * u21(p21) * g ** (-GM / (2 * G))) ** (-2 * G / GM)
        p21 = brentq(lambda p: math.log(p41_of(p) / p41), 1 + 1e-9, 100, xtol=1e-15, rtol=1e-15)
        a3b = math.sqrt((2 + GM * m3a ** 2) / (2 + GM * m3b ** 2)) / (1 + GM / 2 * m3a)  # over a4 = a1
        return p21, u21(p21) - m3b * a3b
    if choked:
        return solve(1.0)[0]
    return solve(brentq(lambda m: solve(m)[1], 0.01, 1, xtol=1e-15, rtol=1e-15))[0]


def behind_shock(M, rho, p):
    """Gas behind a shock of Mach number M that runs right into still gas."""
    a = math.sqrt(G * p / rho)
    return rho * GP * M * M / (GM * M * M + 2), 2 * a / GP * (M - 1 / M), p * (1 + 2 * G / GP * (M * M - 1))


STILL = (1.0, 0.0, 1.0)
CASES = [("wide driver", 1.51, 1.0, (4.0, 0, 4.0), STILL), ("wide driver, choked", 1.51, 1.0, (30.0, 0, 30.0), STILL),
         ("wide driver, choked, steep step", 9.0, 1.0, (8.0, 0, 8.0), STILL),
         ("narrow driver", 0.5, 1.0, (3.0, 0, 3.0), STILL), ("narrow driver, choked", 0.4, 1.0, (20.0, 0, 20.0), STILL),
         ("shock into narrowing", 2.0, 1.0, behind_shock(1.3, 1, 1), STILL),
         ("shock into widening", 0.5, 1.0, behind_shock(1.5, 1, 1), STILL),
         ("weak shock into widening", 0.25, 1.0, behind_shock(1.02, 1, 1), STILL)]

c.DATE = "2026-11-28"

if __name__ == "__main__":
    rows = []
    for name, AL, AR, L, R in CASES:
        one, two, choked = (narrowing if AL > AR else widening)(AL, AR, L, R)
        h1, h2 = total_enthalpy(*one), total_enthalpy(*two)
        assert abs(one[0] * one[1] * AL / (two[0] * two[1] * AR) - 1) < 1e-11, name
        assert abs(h1 / h2 - 1) < 1e-11, name
        ps, us, rl, rr = plateau(two, R)
        if "wide driver" in name:
            second = alpher_white(AL / AR, L[2] / R[2], choked)
            print(name, "by the closed form", second, "here", ps)
            assert abs(second / ps - 1) < 1e-12
        rows.append([name, AL, AR] + list(L) + list(R) + list(one) + list(two) + [choked, ps, us, rl, rr])
        print(name, "M1 %.4f M2 %.4f" % (one[1] / math.sqrt(G * one[2] / one[0]), two[1] / math.sqrt(G * two[2] / two[0])), choked)
    cols = ("case area_left area_right rho_left u_left p_left rho_right u_right p_right rho_joint_left u_joint_left p_joint_left "
            "rho_joint_right u_joint_right p_joint_right choked p_star u_star rho_star_left rho_star_right").split()
    about = ["equations: waves of a perfect gas, gamma 1.4, without units (Toro 2009, 4.2)",
             "wide to narrow: isentropic (Alpher and White, J. Fluid Mech. 3 (1958) 457, from memory)",
             "narrow to wide: momentum with the jet's pressure on the back wall (Borda and Carnot); choked: the narrow end is sonic",
             "joint: gas at the two sides of the step; star: between the waves, left and right of the contact,",
             "where it differs from the joint (sonic) a rarefaction lies between"]
    c.write("area_change.csv", about, cols, rows)
