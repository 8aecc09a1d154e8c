"""Random shots over every kind of part, solved from knot to knot and event to event.

Balances, volume i:  dm/dt = sum q;  dU/dt = sum q cp T_upstream. Adiabatic, perfect gas.
Barrel:              dU/dt = sum q cp T_upstream - p A v - (v^2/6) dG/dt
                     (last term only with gas inertia; G = gas mass in the barrel)
Projectile:          (m + G/3 + Mc) dv/dt = (p - pa) A - F - m g sin(pitch),  Mc = rho_a A (L - x)
Rest: at v = 0 the projectile is held until the net force exceeds the breakaway force (after the first
motion the restart force), either way, at the rear seat x = 0 forward only; never less than the sliding one.
Parts and flow laws: random_parts.py; the circuits: random_circuits.py.
After the muzzle: F = max((p - pa) A, k rho A_exit (u - v)^2), u = q/(rho A_exit), rho expanded isentropically to
  ambient or choking pressure; q through the gap and a ring pi d (x - L), d of the bore, Cd 0.6, at most the bore
  or exit; no weight, no inertia of gas; F is never negative; ends 10 d out.
Ledger (checked):    sum U + (m + G/3 + Mc) v^2/2 + what went outside = const.
"""
import math
import sys

import numpy as np
from scipy.integrate import DOP853
from scipy.optimize import brentq

import common as c
from random_circuits import ATM, SHOTS, draw, inputs
from random_parts import LAM, Part, supply_free

COLUMNS = """case theme pa_Pa Ta_K volumes paths supply area_m2 exit_area_m2 jet_factor leak_area_m2 leak_cd dead_m3 travel_m
sin_pitch mass_kg breakaway_N restart_N sliding_N seat_m barrel_p_Pa barrel_T_K gas_inertia air_ahead after_muzzle until_s
outcome t_first_motion_s t_exit_s v_exit_m_s exit_energy_J barrel_exit_p_Pa final_energy_J t_end_s x_end_m v_end_m_s
end_p_Pa end_T_K barrel_end_p_Pa barrel_end_T_K supplied_kg rests agreement ledger_J""".split()


class Shot:
    """State: m, U of each volume, then of the barrel, x, v, energy gone outside, mass supplied."""

    def __init__(self, k):
        self.k = k
        self.n = len(k["volumes"])
        self.nodes = {str(i): i for i in range(self.n)}
        self.nodes.update({"barrel": self.n, ATM: self.n + 1})
        self.pa, self.Ta = k["pa"], k["Ta"]
        self.A, self.L = k["area"], k["travel"]
        self.d = 2 * math.sqrt(self.A / math.pi)
        self.parts = [Part(s, self.nodes) for s in k["paths"]]
        self.cv = c.R_AIR / (c.GAMMA - 1)
        self.cp = c.GAMMA * self.cv
        self.rho_a = self.pa / (c.R_AIR * self.Ta)
        self.weight = k["mass"] * c.G0 * k["sin_pitch"]
        self.reliefs = [q for q in self.parts if q.kind == "relief"]
        self.discs = [q for q in self.parts if q.kind in ("exhaust", "diaphragm")]
        self.mode = "held"
        self.sign = 1

    def gas(self, y):
        g1, n = c.GAMMA - 1, self.n
        V = [v[0] for v in self.k["volumes"]] + [self.k["dead"] + self.A * y[2 * n + 2]]
        p = [g1 * y[2 * i + 1] / V[i] for i in range(n + 1)] + [self.pa]
        T = [y[2 * i + 1] / (y[2 * i] * self.cv) for i in range(n + 1)] + [self.Ta]
        return p, T

    def escape(self, p, T, x):
        """Flow out of the muzzle behind a projectile that has left."""
        k, n = self.k, self.n
        area = min(k["leak_area"] + math.pi * self.d * max(x - self.L, 0.0), max(self.A, k["exit_area"]))
        if p[n] >= self.pa:
            return c.q_nozzle(p[n], T[n], self.pa, 0.6 * area, c.R_AIR, c.GAMMA, LAM)
        return -c.q_nozzle(self.pa, self.Ta, p[n], 0.6 * area, c.R_AIR, c.GAMMA, LAM)

    def jet(self, p, T, q):
        pe = max(self.pa, p * c.critical_ratio())
        rho = p / (c.R_AIR * T) * min(1.0, pe / p) ** (1 / c.GAMMA)
        return q / (rho * self.k["exit_area"]), rho

    def rhs(self, t, y):
        k, n, cp = self.k, self.n, self.cp
        y = y.tolist()
        x, v = y[2 * n + 2], y[2 * n + 3]
        if min(y[: 2 * n + 2]) <= 0 or k["dead"] + self.A * x <= 0:
            return np.full(len(y), np.nan)  # a trial stage out of range: the step is cut
        p, T = self.gas(y)
        d = [0.0] * (2 * n + 6)  # the atmosphere has the place of x and v for a while
        for part in self.parts:
            q, Tq = part.flow(t, p, T, self.pa)
            i, j, h = 2 * part.a, 2 * part.b, q * cp * Tq
            d[i] -= q
            d[i + 1] -= h
            d[j] += q
            d[j + 1] += h
        outside = d[2 * n + 3]
        d[2 * n + 2] = d[2 * n + 3] = 0.0
        if k["leak_area"] > 0 and self.mode in ("held", "moving"):
            if p[n] >= self.pa:
                q = c.q_nozzle(p[n], T[n], self.pa, k["leak_cd"] * k["leak_area"], c.R_AIR, c.GAMMA, LAM)
                h = q * cp * T[n]
            else:
                q = -c.q_nozzle(self.pa, self.Ta, p[n], k["leak_cd"] * k["leak_area"], c.R_AIR, c.GAMMA, LAM)
                h = q * cp * self.Ta
            d[2 * n] -= q
            d[2 * n + 1] -= h
            outside += h
        if k["supply"]:
            i = self.nodes[k["supply"]["feeds"]]
            q = supply_free(k["supply"], p[i] - self.pa) * self.rho_a
            d[2 * i] += q
            d[2 * i + 1] += q * cp * self.Ta
            outside -= q * cp * self.Ta
            d[2 * n + 5] = q
        if self.mode == "moving":
            inertia = k["mass"]
            drop = p[n] * self.A * v
            if k["inertia"]:
                inertia += y[2 * n] / 3
                drop += v * v / 6 * d[2 * n]
            if k["air"]:
                inertia += self.rho_a * self.A * (self.L - x)
                outside += 0.5 * self.rho_a * self.A * v ** 3
            resist = self.sign * k["sliding"] + self.weight
            d[2 * n + 1] -= drop
            d[2 * n + 2] = v
            d[2 * n + 3] = ((p[n] - self.pa) * self.A - resist) / inertia
            outside += (self.pa * self.A + resist) * v
        elif self.mode == "after":
            q = self.escape(p, T, x)
            h = q * cp * (T[n] if q >= 0 else self.Ta)
            pressure = (p[n] - self.pa) * self.A
            force = max(pressure, 0.0)
            if q > 0:
                u, rho = self.jet(p[n], T[n], q)
                if u > v:
                    force = max(force, k["jet_factor"] * rho * k["exit_area"] * (u - v) ** 2)
            d[2 * n] -= q
            d[2 * n + 1] -= h + p[n] * self.A * v
            d[2 * n + 2] = v
            d[2 * n + 3] = force / k["mass"]
            outside += h + self.pa * self.A * v - (force - pressure) * v
        d[2 * n + 4] = outside
        return np.array(d)

    def energy(self, y):
        k, n = self.k, self.n
        M = k["mass"]
        if self.mode in ("held", "moving"):
            M += y[2 * n] / 3 if k["inertia"] else 0.0
            M += self.rho_a * self.A * (self.L - y[2 * n + 2]) if k["air"] else 0.0
        return sum(y[2 * i + 1] for i in range(n + 1)) + 0.5 * M * y[2 * n + 3] ** 2 + y[2 * n + 4]

    def net(self, y):
        return (self.gas(y)[0][self.n] - self.pa) * self.A - self.weight

    def pull(self, y):
        f = self.net(y)
        return f if y[2 * self.n + 2] <= 0 else abs(f)

    def rate(self, part, t, y):
        """Of the pressure that a relief valve sees."""
        n, i = self.n, part.a
        d = self.rhs(t, y)
        if i < n:
            return d[2 * i + 1]
        V = self.k["dead"] + self.A * y[2 * n + 2]
        return d[2 * n + 1] - y[2 * n + 1] * self.A * d[2 * n + 2] / V

    def events(self):
        """(name, value, direction): the mode ends where value x direction rises through 0."""
        n = self.n
        ix = 2 * n + 2
        out = []
        if self.mode == "held":
            out.append(("release", lambda t, y: self.pull(y) - self.threshold, 1))
        elif self.mode == "moving":
            out.append(("zero", lambda t, y: self.sign * y[ix + 1], -1))
            if self.sign > 0:
                out.append(("left", lambda t, y: y[ix] - self.L, 1))
            else:
                out.append(("seat", lambda t, y: y[ix], -1))
        elif self.mode == "after":
            out.append(("far", lambda t, y: y[ix] - self.L - 10 * self.d, 1))
        for q in self.discs:
            if q.active:
                k = 1 if q.up else 0
                out.append((("disc", q), lambda t, y, q=q, k=k: q.forces(t, self.gas(y)[0])[k], -1 if q.up else 1))
        return out

    def settle_discs(self, t, y):
        p, _ = self.gas(y)
        for q in self.discs:
            shut, lifted = q.forces(t, p)
            if not q.active:
                q.up = False
            elif shut > 0:
                q.up = True
            elif lifted < 0:
                q.up = False

    def follow(self, y):
        """Relief valves remember where they stand."""
        p, _ = self.gas(y)
        for q in self.reliefs:
            q.lift = q.opening(0, p, self.pa)

    def region(self, t, y):
        p, _ = self.gas(y)
        code = tuple(q.region(t, p, self.pa) for q in self.parts)
        if self.mode == "after":
            r = min(p[self.n], self.pa) / max(p[self.n], self.pa)
            full = self.k["leak_area"] + math.pi * self.d * (y[2 * self.n + 2] - self.L) > max(self.A, self.k["exit_area"])
            code += ((p[self.n] > self.pa, r > c.critical_ratio(), r > LAM, full),)
        return code

    def segment(self, t, stop):
        """Straight lines of the openings until the next knot."""
        for q in self.parts:
            a, b = t + 0.25 * (stop - t), t + 0.75 * (stop - t)
            fa, fb = q.schedule(a), q.schedule(b)
            rate = (fb - fa) / (b - a)
            if abs(rate) < 1e-9:
                rate = 0.0
            q.line = (fa - rate * (a - t) if rate else fa, t, rate)
            q.active = q.kind != "diaphragm" or max(fa, fb) > 0

    def run(self, rtol):
        k, n = self.k, self.n
        ix = 2 * n + 2
        y = []
        gas = k["volumes"] + [(k["dead"] + self.A * k["seat_m"], k["barrel_p"], k["barrel_T"])]
        for V, p, T in gas:
            y += [p * V / (c.R_AIR * T), p * V / (c.GAMMA - 1)]
        y = np.array(y + [k["seat_m"], 0.0, 0.0, 0.0])
        e0 = self.energy(y)
        scale = np.abs(y)
        scale[ix], scale[ix + 1], scale[ix + 2], scale[ix + 3] = self.L, 1.0, 1.0, scale[2 * n]
        knots = sorted({t for q in self.parts for t in q.knots() if 0 < t < k["until"]} | {k["until"]})
        self.threshold = max(k["breakaway"], k["sliding"])
        t, rests, bends, steps = 0.0, 0, 0, 0
        exit_state = first = None
        outcome = "still in"
        self.segment(t, knots[0])
        self.settle_discs(t, y)
        self.follow(y)
        turned = None

        def try_release():
            nonlocal first
            f = self.net(y)
            f = 0.0 if abs(f) <= 1e-12 * self.pa * self.A else f
            pull = f if y[ix] <= 0 else abs(f)
            if pull > self.threshold or (pull == 0 and self.threshold == 0):
                self.mode, self.sign = "moving", 1 if f >= 0 else -1
                first = t if first is None else first
                self.threshold = max(k["restart"] or k["breakaway"], k["sliding"])
                return True
            return False

        try_release()
        fresh = True
        while t < k["until"]:
            stop = next(q for q in knots if q > t)
            self.segment(t, stop)
            if fresh:
                self.settle_discs(t, y)
                self.follow(y)
            fresh = True
            evs = self.events()
            atol = rtol * scale
            s = DOP853(self.rhs, t, y, stop, rtol=rtol, atol=atol, first_step=min(1e-7, 0.5 * (stop - t)))
            hit = None
            while s.status == "running":
                t0, y0, h0 = s.t, s.y.copy(), s.h_abs
                message = s.step()
                steps += 1
                if steps > 20000:
                    raise RuntimeError("more than 20000 steps, at t = %g" % s.t)
                if s.status == "failed":
                    raise RuntimeError(message)
                dense = s.dense_output()
                ts = np.linspace(t0, s.t, 6)
                ys = [y0] + [dense(u) for u in ts[1:-1]] + [s.y]

                def reach(u):
                    """State at u by integrating afresh from the step's start."""
                    if u <= t0:
                        return y0
                    z = DOP853(self.rhs, t0, y0, u, rtol=rtol, atol=atol, first_step=min(h0, u - t0))
                    while z.status == "running":
                        z.step()
                    return z.y

                found = []
                for name, g, way in evs:
                    gs = [way * g(u, yy) for u, yy in zip(ts, ys)]
                    for i in range(5):
                        if gs[i] <= 0 < gs[i + 1] and not (i == 0 and gs[0] == 0 and name != "release"):
                            found.append((ts[i], ts[i + 1], name, g))
                            break
                for q in self.reliefs:
                    if min(self.gas(y0)[0][q.a], self.gas(s.y)[0][q.a]) - self.pa < q.s["reseat"]:
                        continue
                    gs = [self.rate(q, u, yy) for u, yy in zip(ts, ys)]
                    for i in range(1 if turned is q else 0, 5):
                        if gs[i] * gs[i + 1] < 0:
                            found.append((ts[i], ts[i + 1], ("turn", q), lambda u, yy, q=q: self.rate(q, u, yy)))
                            break
                turned = None
                codes = [self.region(u, yy) for u, yy in zip(ts, ys)]
                for i in range(5):
                    if codes[i] != codes[i + 1] and bends < 80:
                        a, b = ts[i], ts[i + 1]
                        if i == 0 and self.region(t0 + 1e-3 * (s.t - t0), dense(t0 + 1e-3 * (s.t - t0))) == codes[1]:
                            codes[0] = codes[1]  # it starts at the bend
                            continue
                        while b - a > 1e-12 * max(b, 1e-3):
                            mid = 0.5 * (a + b)
                            if self.region(mid, dense(mid)) == codes[i]:
                                a = mid
                            else:
                                b = mid
                        found.append((b, b, "bend", None))
                        break
                if found:
                    hit = min(found, key=lambda e: (e[0], e[1]))
                    break
                self.follow(s.y)
            if hit is None:
                t, y = s.t, s.y.copy()
                if t < k["until"] and self.mode == "held":
                    self.segment(t, next(q for q in knots if q > t))
                    try_release()
                continue
            a, b, name, g = hit
            if name == "bend":
                bends += 1
                t, y = b, np.array(reach(b))
                continue
            ga, gb = g(a, reach(a)), g(b, reach(b))
            if ga * gb > 0 or ga == 0:
                tr = a if abs(ga) <= abs(gb) else b
            else:
                tr = brentq(lambda u: g(u, reach(u)), a, b, xtol=1e-16, rtol=8.9e-16)
            t, y = tr, np.array(reach(tr))
            if isinstance(name, tuple):
                if name[0] == "disc":
                    self.follow(y)
                    name[1].up = not name[1].up
                    fresh = False
                else:
                    turned = name[1]
                continue
            self.follow(y)
            if name == "release":
                self.mode, self.sign = "moving", 1 if self.net(y) > 0 or y[ix] <= 0 else -1
                first = t if first is None else first
                self.threshold = max(k["restart"] or k["breakaway"], k["sliding"])
            elif name in ("zero", "seat"):
                if name == "seat":  # the stop takes what moves
                    before = self.energy(y)
                    y[ix] = y[ix + 1] = 0.0
                    y[ix + 2] += before - self.energy(y)
                y[ix + 1] = 0.0
                y[ix] = max(y[ix], 0.0)
                self.mode = "held"
                rests += 1
                try_release()
            elif name == "left":
                y[ix] = self.L
                p, T = self.gas(y)
                v = y[ix + 1]
                outcome, exit_state = "left", (t, v, p[n])
                if k["inertia"]:
                    y[ix + 2] += y[2 * n] * v * v / 6
                self.mode = "after"
                if not k["after"]:
                    break
            else:
                break
        p, T = self.gas(y)
        te, ve, pe = exit_state or (None, None, None)
        return dict(outcome=outcome, t_first_motion_s=first, t_exit_s=te, v_exit_m_s=ve,
                    exit_energy_J=None if ve is None else 0.5 * k["mass"] * ve * ve, barrel_exit_p_Pa=pe,
                    final_energy_J=None if ve is None else 0.5 * k["mass"] * y[ix + 1] ** 2, t_end_s=t, x_end_m=y[ix],
                    v_end_m_s=y[ix + 1], p=p[:n], T=T[:n], barrel_end_p_Pa=p[n], barrel_end_T_K=T[n],
                    supplied_kg=y[ix + 3], rests=rests, ledger_J=self.energy(y) - e0, steps=steps, bends=bends,
                    lifts=[q.lift for q in self.reliefs], ups=[q.up for q in self.discs])


def compare(a, b):
    """Largest relative difference of the outputs; inf where the two tolerances tell another story."""
    if (a["outcome"], a["rests"], a["ups"]) != (b["outcome"], b["rests"], b["ups"]):
        return math.inf
    worst = c.difference(a, b, ("t_first_motion_s", "t_exit_s", "exit_energy_J", "barrel_exit_p_Pa", "final_energy_J", "x_end_m",
                                "barrel_end_p_Pa"))
    return max([worst] + [abs(u / w - 1) for u, w in zip(a["p"] + a["T"], b["p"] + b["T"])])


def main():
    rows = []
    only = [int(a) for a in sys.argv[1:]]
    for i in only or range(SHOTS):
        k = draw(i)
        fine = Shot(k).run(1e-11)
        fine["agreement"] = compare(fine, Shot(k).run(1e-9))
        if abs(fine["ledger_J"]) > 1e-9 * max(fine["final_energy_J"] or 0, 1.0):
            raise RuntimeError("case %d: energy account open by %g J" % (i, fine["ledger_J"]))
        ends = {"end_p_Pa": fine["p"], "end_T_K": fine["T"]}
        rows.append(dict(inputs(k), **fine, **{key: ";".join("%.13g" % q for q in v) for key, v in ends.items()}))
        print(k["case"], k["theme"], fine["outcome"], "E %s rests %d agree %.1e ledger %.1e steps %d bends %d lifts %s ups %s" % (
            fine["final_energy_J"], fine["rests"], fine["agreement"], fine["ledger_J"], fine["steps"], fine["bends"],
            fine["lifts"], fine["ups"]), flush=True)
    if not only:
        c.write("random_shots.csv", ABOUT, COLUMNS, rows)


ABOUT = [
    "method: scipy.integrate.DOP853 at rtol 1e-11 from knot to knot of the valves, stopped at every event and at every bend of the",
    "  right-hand side; agreement: largest relative difference from a run at 1e-9; ledger_J: error of the energy account, below 1e-9 J or",
    "  1e-9 of the energy. Circuits drawn at random, seed 7000 + case; all launchers are invented",
    "gas: air, R 287.05287, gamma 1.4, reference density 1.185 kg/m3; chord above a pressure ratio of 0.999; equations: heads of the scripts",
    "volumes: m3:Pa:K each; paths: key=value, SI units, gauge pressures; C m3/(s Pa), cda m2, hose C:b downstream of the part",
    "end: the muzzle; with after_muzzle the end of the push; at until_s for what is still in",
]

if __name__ == "__main__":
    main()
