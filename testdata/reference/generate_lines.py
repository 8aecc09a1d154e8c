"""Shots with hoses as lines: volume, inertia and friction of their air, by the
method of lines in SciPy.

Unknowns: mass and internal energy of the tank, of every cell and of the barrel; the
mass flow q of every stretch of gas between two cells' centres, or between a centre and an
open end; x and v of the projectile. A piece of length L and section A has n equal cells;
where it ends at the valve its last cell is half as long as the others and its
pressure stands at the valve (a piece of one cell keeps its length).

Stretch of length l (gas of the halves of its cells, M; u = q l/M), from cell a to cell b:
    (l/A) dq/dt = pa - pb - F/A + (q_c u_c)_a/A - (q_c u_c)_b/A
    F = (f/(2 D) + K/(2 L)) |q| l u
f is 64/Re, or (1.8 log10(Re/6.9))^-2 above Re 4000, a smooth step between 2000 and 4000, at the root
mean square of the piece's q; K the fittings. At a cell's centre passes the mean of the flows beside
it, q_c, with the speed u_c it comes with.
Energy of a cell: the internal energy that comes and goes with q (of the cell it comes
from), - p A (u_right - u_left), half of F u of each stretch beside it (all at an open end),
|q_c| (u_right - u_left)^2/2 of the mixing. Kinetic energy of a stretch: M u^2/2.
Open end, inflow: p = (p0 - K rho u^2/2) (1 - u^2/(2 cp T0))^(g/(g-1)), K = 0.5, total enthalpy of
the space. Outflow: the pressure outside, or that of sonic flow; the gas leaves with
cp T + u^2/2 and with the speed of that enthalpy at that pressure. F there is multiplied
by 2 p_cell/(p_cell + p_mouth).
Valve: ISO 6358 between the stagnation pressure of gas that comes to it and the static
pressure of gas that goes, at most the sonic flow of the bores; the gas behind it arrives
with the speed of the stretch there, total enthalpy kept.
Two bores: momentum balance into the wider (Borda, Carnot); into the narrower
isentropic from the stagnation state, with the loss (1 - A2/A1)/2 of a dynamic head.
Checked here: mass to rounding and energy (column ledger_residual_J) at the end.
"""
import math
import sys

import numpy as np
from scipy.integrate import DOP853
from scipy.optimize import brentq

import common as c

G, R, CV, CP = c.GAMMA, c.R_AIR, c.R_AIR / (c.GAMMA - 1), c.R_AIR * c.GAMMA / (c.GAMMA - 1)
LAMINAR = 0.999


def sutherland(T):
    return 1.716e-5 * (T / 273.15) ** 1.5 * (273.15 + 110.4) / (T + 110.4)


def darcy(re):
    if re <= 0:
        return 0.0
    lam = 64 / re
    if re <= 2000:
        return lam
    tur = (1.8 * math.log10(re / 6.9)) ** -2
    if re >= 4000:
        return tur
    s = (re - 2000) / 2000
    w = s * s * (3 - 2 * s)
    return (1 - w) * lam + w * tur


class Run:
    """A row of pieces (bore, length, fittings, cells) with ends 'open' or 'valve'."""

    def __init__(self, pieces, left, right):
        self.ends = (left, right)
        self.len, self.A, self.piece, self.pieces = [], [], [], pieces
        for j, (d, L, K, n) in enumerate(pieces):
            cut_l = left == "valve" and j == 0
            cut_r = right == "valve" and j == len(pieces) - 1
            lengths = [1.0] * n
            if n > 1 and cut_l:
                lengths[0] = 0.5
            if n > 1 and cut_r:
                lengths[-1] = 0.5
            s = L / sum(lengths)
            self.len += [s * z for z in lengths]
            self.A += [math.pi / 4 * d * d] * n
            self.piece += [j] * n
        self.N = len(self.len)
        self.V = [a * z for a, z in zip(self.A, self.len)]
        # share of a cell that moves with the stretch on its left and on its right
        self.wl, self.wr = [0.5] * self.N, [0.5] * self.N
        if left == "valve":
            self.wl[0], self.wr[0] = 0.0, 1.0
        if right == "valve":
            self.wl[-1], self.wr[-1] = 1.0, 0.0
        # stretches: k = 0..N between cell k-1 and cell k; those at a valve have no gas
        self.live = [k for k in range(self.N + 1)
                     if not (k == 0 and left == "valve") and not (k == self.N and right == "valve")]

    def halves(self, k):
        """(cell, length) of the two halves of stretch k; None where there is none."""
        a = (k - 1, self.wr[k - 1] * self.len[k - 1]) if k > 0 else None
        b = (k, self.wl[k] * self.len[k]) if k < self.N else None
        return a, b


class Shot:
    def __init__(self, case):
        k = self.k = dict(pa=c.PA, Ta=293.15, before=[], after=[], breakaway=0.0, sliding=0.0, opening=0.0, inertia=False, air=False, whole=[])
        k.update(case)
        self.area = math.pi / 4 * k["bore"] ** 2
        self.runs = []
        if k["before"]:
            self.runs.append(("before", Run(k["before"], "open", "valve")))
        if k["after"]:
            self.runs.append(("after", Run(k["after"], "valve", "open")))
        if k["whole"]:
            self.runs.append(("whole", Run(k["whole"], "open", "open")))
        T = k["Ta"]
        gas = [(k["pt"], T, k["tank"])]
        if k["whole"]:
            gas.append((k["pa"], T, k["dose"]))  # tank, valve, dose, line, barrel
        for side, r in self.runs:
            gas += [(k["pt"] if side == "before" else k["pa"], T, V) for V in r.V]
        gas.append((k["pa"], T, k["dead"]))
        self.cells = len(gas)
        self.vol = [g[2] for g in gas]
        y = []
        for p, t, V in gas:
            y += [p * V / (R * t), p * V / (G - 1)]
        y += [0.0, 0.0, 0.0]  # x, v, energy spent outside
        self.ix = 2 * self.cells
        self.iq = self.ix + 3
        y += [0.0] * sum(len(r.live) for _, r in self.runs)
        self.y0 = np.array(y)
        self.mu = sutherland(k["Ta"])
        self.slope = (1.5 - k["Ta"] / (k["Ta"] + 110.4)) / k["Ta"]

    def state(self, y):
        V = list(self.vol)
        V[-1] += self.area * y[self.ix]
        m = [y[2 * i] for i in range(self.cells)]
        U = [y[2 * i + 1] for i in range(self.cells)]
        p = [(G - 1) * u / v for u, v in zip(U, V)]
        T = [u / (a * CV) for u, a in zip(U, m)]
        return m, p, T

    def speeds(self, r, first, q, m):
        """Speed and gas of both halves of every stretch."""
        ul, ur, ml, mr = {}, {}, {}, {}
        for j, k in enumerate(r.live):
            a, b = r.halves(k)
            ma = r.wr[k - 1] * m[first + k - 1] if a else 0.0
            mb = r.wl[k] * m[first + k] if b else 0.0
            if a and b and r.A[k - 1] != r.A[k]:
                ul[k], ur[k] = q[j] * a[1] / ma, q[j] * b[1] / mb
            else:
                u = q[j] * ((a[1] if a else 0) + (b[1] if b else 0)) / (ma + mb)
                ul[k] = ur[k] = u
            ml[k], mr[k] = ma, mb
        return ul, ur, ml, mr

    def rhs(self, t, y, mode):
        k = self.k
        m, p, T = self.state(y)
        if not (min(m) > 0 and min(p) > 0):
            return np.full(len(y), np.nan)
        dm, dU = [0.0] * self.cells, [0.0] * self.cells
        d = np.zeros(len(y))
        bar = self.cells - 1
        first, at, info = 2 if k["whole"] else 1, self.iq, {}
        for side, r in self.runs:
            q = list(y[at:at + len(r.live)])
            info[side] = (r, first, at, dict(zip(r.live, q)), self.speeds(r, first, q, m), {})
            first += r.N
            at += len(r.live)
        up_node, down_node = (0, 1) if k["whole"] else (0, bar)
        self.valve(t, p, T, dm, dU, info, up_node, down_node)
        for side, r in self.runs:
            left = 1 if side == "whole" else 0
            self.line(info[side], p, T, dm, dU, d, left, bar)
        x, v = y[self.ix], y[self.ix + 1]
        if mode:
            M, H = k["mass"], p[bar] * self.area * v
            front = k["pa"]
            spent = front * self.area * v + k["sliding"] * v
            if k["inertia"]:
                M += m[bar] / 3
                H += v * v / 6 * dm[bar]
            if k["air"]:
                rho = k["pa"] / (R * k["Ta"])
                M += rho * self.area * (k["travel"] - x)
                spent += 0.5 * rho * self.area * v ** 3
            dU[bar] -= H
            d[self.ix] = v
            d[self.ix + 1] = ((p[bar] - front) * self.area - k["sliding"]) / M
            d[self.ix + 2] = spent
        d[0:self.ix:2] = dm
        d[1:self.ix:2] = dU
        return d

    def valve(self, t, p, T, dm, dU, info, up, down):
        k = self.k
        C = k["C"] * (min(t / k["opening"], 1.0) if k["opening"] > 0 else 1.0)
        sides = []
        for side, node in (("before", up), ("after", down)):
            s = dict(node=node, ps=p[node], Ts=T[node], u=0.0, A=None)
            if side in info:
                r, first, at, q, (ul, ur, _, _), push = info[side]
                cell = r.N - 1 if side == "before" else 0
                stretch = r.N - 1 if side == "before" else 1
                u = ur[stretch] if side == "before" else ul[stretch]
                s = dict(node=first + cell, ps=p[first + cell], Ts=T[first + cell], u=u, A=r.A[cell], push=push, stretch=stretch)
            come = s["u"] if side == "before" else -s["u"]
            s["T0"] = s["Ts"] + s["u"] ** 2 / (2 * CP)
            s["p"], s["T"] = s["ps"], s["Ts"]
            if come > 0:
                s["p"], s["T"] = s["ps"] * (s["T0"] / s["Ts"]) ** (G / (G - 1)), s["T0"]
            sides.append(s)
        a, b = sides
        sign = 1.0
        if b["p"] > a["p"]:
            a, b, sign = b, a, -1.0
        q = c.q_ellipse(a["p"], a["T"], b["p"], C, k["b"], LAMINAR) if C > 0 else 0.0
        if a["A"]:
            q = min(q, a["A"] * a["ps"] * math.sqrt(G * (G + 1) / (2 * R * a["T0"])))
        if b["A"]:
            q = min(q, b["A"] * c.psi_nozzle(0.0) * a["p"] / math.sqrt(R * a["T"]))
        h = q * CP * a["T0"] if a["A"] else q * CP * a["Ts"]
        for s, flow, heat in ((sides[0], -sign * q, -sign * h), (sides[1], sign * q, sign * h)):
            dm[s["node"]] += flow
            kinetic = 0.0
            if s["A"]:
                # the speed the flow carries: that of the stretch, none where it comes in against it
                enters_with = 1.0 if s is sides[1] else -1.0
                w = s["u"] if flow <= 0 or enters_with * s["u"] > 0 else 0.0
                s["push"][s["stretch"]] = s["push"].get(s["stretch"], 0.0) + flow * w / s["A"]
                kinetic = flow * (w * s["u"] - 0.5 * s["u"] ** 2)
            dU[s["node"]] += heat - kinetic

    def line(self, info, p, T, dm, dU, d, left, right):
        r, first, at, q, (ul, ur, ml, mr), push = info
        drag = []
        for j, (D, L, K, n) in enumerate(r.pieces):
            mine = [i for i in range(r.N) if r.piece[i] == j]
            ks = [kk for kk in range(mine[0], mine[-1] + 2) if kk in q]
            rms = math.sqrt(sum(q[kk] ** 2 for kk in ks) / len(ks))
            Tm = 0.5 * (T[first + mine[0]] + T[first + mine[-1]])
            re = rms * D / (math.pi / 4 * D * D * self.mu) * (1 - self.slope * (Tm - self.k["Ta"]))
            drag.append(darcy(re) / (2 * D) + K / (2 * L))
        force = dict.fromkeys(q, 0.0)   # on the whole stretch, over the section [Pa]
        before_joint = dict.fromkeys(q, 0.0)
        for kk, v in push.items():
            force[kk] += v
            if r.ends[0] == "valve":
                before_joint[kk] += v
        mouths = {}
        steps = {}
        for kk in q:
            a, b = r.halves(kk)
            qq = q[kk]
            if a and b:
                ia, ib = first + kk - 1, first + kk
                Aa, Ab = r.A[kk - 1], r.A[kk]
                Fa = drag[r.piece[kk - 1]] * abs(qq) * a[1] * ul[kk]
                Fb = drag[r.piece[kk]] * abs(qq) * b[1] * ur[kk]
                dm[ia] -= qq
                dm[ib] += qq
                dU[ia] -= p[ia] * Aa * ul[kk]
                dU[ib] += p[ib] * Ab * ur[kk]
                if Aa == Ab:
                    heat = 0.5 * (Fa + Fb) * ul[kk]
                    e = qq * CV * (T[ia] if qq >= 0 else T[ib])
                    dU[ia] += heat - e
                    dU[ib] += heat + e
                    force[kk] += p[ia] - p[ib] - (Fa + Fb) / Aa
                else:
                    dU[ia] += Fa * ul[kk]
                    dU[ib] += Fb * ur[kk]
                    s = self.step(qq, ul[kk], ur[kk], p[ia], T[ia], Aa, p[ib], T[ib], Ab)
                    steps[kk] = s
                    before_joint[kk] += p[ia] - Fa / Aa - qq * ul[kk] / Aa
                    force[kk] += p[ia] - Fa / Aa - qq * ul[kk] / Aa - s - p[ib] - Fb / Ab + qq * ur[kk] / Ab
            else:
                mouths[kk] = True
                inward = 1.0 if b else -1.0
                i = first + (kk if b else kk - 1)
                A, l = (r.A[kk], b[1]) if b else (r.A[kk - 1], a[1])
                Z = left if b else right
                u, w = inward * ul[kk], inward * qq
                F = drag[r.piece[kk if b else kk - 1]] * abs(w) * u * l
                T0 = T[i] + u * u / (2 * CP)
                if w > 0:
                    pm = (p[Z] - 0.5 * 0.5 * w * u / A) * (1 - u * u / (2 * CP * T[Z])) ** (G / (G - 1))
                    speed, energy = u, w * CP * T[Z]
                else:
                    sonic = -w / A * math.sqrt(R * 2 * T0 / ((G + 1) * G))
                    pm = max(p[Z], sonic)
                    s = w * R / (pm * A)  # speed over temperature: s T + ... = total enthalpy
                    speed = 2 * s * T0 / (1 + math.sqrt(1 + 2 * s * s * T0 / CP))
                    energy = w * CP * T0
                F *= 2 * p[i] / (p[i] + pm)
                dm[Z] -= w
                dU[Z] -= energy
                dm[i] += w
                dU[i] += energy - w * u * speed + 0.5 * w * u * u - (pm - p[i]) * A * u + F * u
                force[kk] += inward * (pm - p[i] + (w * speed - F) / A)
        for i in range(r.N):
            if i not in q or i + 1 not in q:
                continue  # at the valve
            qc = 0.5 * (q[i] + q[i + 1])
            uc = ur[i] if qc >= 0 else ul[i + 1]
            force[i] -= qc * uc / r.A[i]
            force[i + 1] += qc * uc / r.A[i]
            before_joint[i + 1] += qc * uc / r.A[i]
            dU[first + i] += 0.5 * abs(qc) * (ur[i] - ul[i + 1]) ** 2
        for j, kk in enumerate(r.live):
            a, b = r.halves(kk)
            inertance = (a[1] / r.A[kk - 1] if a else 0.0) + (b[1] / r.A[kk] if b else 0.0)
            rate = force[kk] / inertance
            d[at + j] = rate
            if kk in steps:
                Aa, Ab, ia, ib = r.A[kk - 1], r.A[kk], first + kk - 1, first + kk
                pa = before_joint[kk] - rate * a[1] / Aa
                pb = pa - steps[kk]
                inn = lambda pm, A, u, Tc: q[kk] * (CV * Tc + 0.5 * u * u) + pm * A * u
                e = inn(pa, Aa, ul[kk], T[ia]) if q[kk] >= 0 else inn(pb, Ab, ur[kk], T[ib])
                dU[ia] -= e - pa * Aa * ul[kk] - 0.5 * q[kk] * ul[kk] ** 2
                dU[ib] += e - pb * Ab * ur[kk] - 0.5 * q[kk] * ur[kk] ** 2

    def step(self, q, ua, ub, pa, Ta, Aa, pb, Tb, Ab):
        """Fall of pressure across a change of section, from a to b."""
        if q < 0:
            return -self.step(-q, -ub, -ua, pb, Tb, Ab, pa, Ta, Aa)
        T0 = Ta + ua * ua / (2 * CP)
        if Ab > Aa:
            sonic = q / Aa * math.sqrt(R * 2 * T0 / ((G + 1) * G))
            return max(q * (ub - ua) / Ab, sonic - pb)
        p0 = pa * (T0 / Ta) ** (G / (G - 1))
        return pa - p0 * (1 - ub * ub / (2 * CP * T0)) ** (G / (G - 1)) + 0.5 * (1 - Ab / Aa) * 0.5 * q * ub / Ab

    def energy(self, y):
        k = self.k
        e = sum(y[2 * i + 1] for i in range(self.cells)) + y[self.ix + 2]
        m = [y[2 * i] for i in range(self.cells)]
        first, at = 2 if k["whole"] else 1, self.iq
        for _, r in self.runs:
            ul, ur, ml, mr = self.speeds(r, first, list(y[at:at + len(r.live)]), m)
            e += sum(0.5 * (ml[z] * ul[z] ** 2 + mr[z] * ur[z] ** 2) for z in r.live)
            first += r.N
            at += len(r.live)
        M = k["mass"]
        if k["inertia"]:
            M += m[-1] / 3
        if k["air"]:
            M += k["pa"] / (R * k["Ta"]) * self.area * (k["travel"] - y[self.ix])
        return e + 0.5 * M * y[self.ix + 1] ** 2

    def run(self, rtol):
        """To the muzzle; held until the force exceeds breakaway, never at rest again."""
        k = self.k
        y, t = self.y0.copy(), 0.0
        e0, m0 = self.energy(y), sum(y[0:self.ix:2])
        scale = np.maximum(np.abs(y), 1e-30)
        first = self.iq
        atol = rtol * 0.1 * scale
        atol[self.ix], atol[self.ix + 1], atol[self.ix + 2] = rtol * 0.1 * k["travel"], rtol * 0.3, rtol
        atol[first:] = rtol * 1e-3
        force = lambda z: (self.state(z)[1][-1] - k["pa"]) * self.area
        mode, t_move = (0, None) if k["breakaway"] > 0 else (1, 0.0)
        stops = sorted({k["opening"]} - {0.0})
        steps = 0
        while True:
            if steps > 20000:
                raise RuntimeError("too many steps")
            bound = next((z for z in stops if z > t + 1e-15), 10.0)
            s = DOP853(lambda tt, yy: self.rhs(tt, yy, mode), t, y, bound, rtol=rtol, atol=atol, first_step=1e-8)
            hit = None
            while s.status == "running":
                s.step()
                steps += 1
                if steps > 20000:
                    raise RuntimeError("too many steps")
                if s.status == "failed":
                    raise RuntimeError("step failed")
                if mode and s.y[self.ix + 1] < 0:
                    raise RuntimeError("it turned back")
                g = (lambda z: z[self.ix] - k["travel"]) if mode else (lambda z: force(z) - k["breakaway"])
                if g(s.y) >= 0:
                    dense = s.dense_output()
                    hit = brentq(lambda tt: g(dense(tt)), s.t_old, s.t, xtol=1e-16, rtol=8.9e-16)
                    t, y = hit, np.array(dense(hit))
                    break
            if hit is None:
                t, y = s.t, s.y.copy()
                if t >= 10:
                    raise RuntimeError("time ran out")
                continue
            if mode:
                break
            mode, t_move = 1, t
        m, p, T = self.state(y)
        return dict(t_move_s=t_move, t_exit_s=t, v_m_s=y[self.ix + 1], energy_J=0.5 * k["mass"] * y[self.ix + 1] ** 2, tank_p_Pa=p[0], tank_T_K=T[0],
                    barrel_p_Pa=p[-1], barrel_T_K=T[-1], ledger_residual_J=self.energy(y) - e0, mass_residual=sum(y[0:self.ix:2]) / m0 - 1, steps=steps)


def text(pieces):
    return " ".join("%g:%g:%g:%d" % z for z in pieces)


BASE = dict(tank=2e-3, pt=c.PA + 1.5e5, C=3.1e-8, b=0.35, dead=45e-6, bore=0.016, travel=0.25, mass=0.008)
CASES = [
    ("L1", dict(BASE, after=[(8e-3, 1.2, 0.0, 4)], note="hose behind the valve")),
    ("L2", dict(BASE, before=[(10e-3, 0.6, 0.81, 3)], opening=0.02, inertia=True, air=True, sliding=0.3, breakaway=1.0, note="hose before the valve, an elbow, all parts, friction, ramp")),
    ("L3", dict(BASE, before=[(6e-3, 2.0, 0.0, 5)], after=[(10e-3, 0.5, 0.0, 2)], C=1.2e-7, opening=0.005, note="hoses on both sides of a wide valve")),
    ("L4", dict(BASE, after=[(6e-3, 0.8, 0.5, 3), (10e-3, 0.6, 0.0, 2)], opening=0.01, note="two pieces behind the valve, the second wider")),
    ("L5", dict(BASE, before=[(12e-3, 1.0, 0.0, 3), (5e-3, 1.5, 1.0, 4)], pt=c.PA + 4e5, C=8e-8, bore=0.04, travel=0.6, mass=0.03, dead=60e-6, breakaway=8.0, sliding=1.0,
                note="two pieces before the valve, the second narrower; 4 bar")),
    ("L6", dict(BASE, whole=[(8e-3, 3.0, 0.0, 6)], dose=0.2e-3, C=6e-8, opening=0.008, note="tank, valve, dose, hose alone, barrel")),
]
COLUMNS = ("case note pa_Pa Ta_K tank_m3 tank_start_Pa dose_m3 C_m3_sPa b opening_s before after whole dead_m3 bore_m travel_m mass_kg breakaway_N sliding_N gas_inertia air_ahead "
           "t_move_s t_exit_s v_m_s energy_J tank_p_Pa tank_T_K barrel_p_Pa barrel_T_K agreement ledger_residual_J mass_residual").split()
ABOUT = [
    "method: scipy.integrate.DOP853 at rtol 1e-11; agreement is the largest relative difference from a run at 1e-9",
    "equations: head of the script. Adiabatic; ISO 6358-1 ellipse, m 0.5, chord above 0.999, rho0 1.185; R 287.05287; no push after the muzzle",
    "before, after, whole: pieces of line bore_m:length_m:fittings:cells in the direction tank -> barrel; before holds the tank's air at the start, the others ambient air",
    "case with a dose: tank -> valve -> dose -> line -> barrel, the dose at ambient pressure at the start. All launchers are invented",
]


def main():
    rows = []
    for name, case in CASES:
        shot = Shot(case)
        fine, coarse = shot.run(1e-11), Shot(case).run(1e-9)
        agree = max(abs(fine[z] / coarse[z] - 1) for z in ("t_exit_s", "v_m_s", "tank_p_Pa", "tank_T_K", "barrel_p_Pa", "barrel_T_K"))
        k = shot.k
        rows.append(dict(fine, case=name, note=k["note"], pa_Pa=k["pa"], Ta_K=k["Ta"], tank_m3=k["tank"], tank_start_Pa=k["pt"], dose_m3=k.get("dose"), C_m3_sPa=k["C"], b=k["b"],
                         opening_s=k["opening"], before=text(k["before"]), after=text(k["after"]), whole=text(k["whole"]), dead_m3=k["dead"], bore_m=k["bore"],
                         travel_m=k["travel"], mass_kg=k["mass"], breakaway_N=k["breakaway"], sliding_N=k["sliding"], gas_inertia=k["inertia"], air_ahead=k["air"], agreement=agree))
        print(name, "t %.10g v %.11g E %.8g pt %.9g pb %.9g agree %.1e ledger %.1e mass %.1e steps %d" % (
            fine["t_exit_s"], fine["v_m_s"], fine["energy_J"], fine["tank_p_Pa"], fine["barrel_p_Pa"], agree, fine["ledger_residual_J"], fine["mass_residual"], fine["steps"]), flush=True)
    c.write("lines.csv", ABOUT, COLUMNS, rows)


if __name__ == "__main__":
    main()
