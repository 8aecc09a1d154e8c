"""Parts of the random shots, as the design documents them (pressures gauge; every one a fraction of its full opening):
  relief     opens linearly from set to full flow, shuts linearly from set to reseat, stands still between
             those two lines (play): the lift is remembered from turn to turn of the pressure, exactly;
             one that starts above its set pressure stands on the rising line
  check      nothing up to its cracking pressure, all of it a tenth of that, or 1 kPa, above
  regulator  (set - outlet)/droop
  valve      linear in time; back at its pulse; one that is open before the shot shuts, and may open again
  diaphragm  shut until (1-s) p_from + s p_to > p_back + spring, then up by (p_from - p_back - spring)/span until
             nothing is left of that; p_back = p_from - c (p_from - p_pilot), c the opening of its pilot valve
  exhaust    (quick exhaust) the same with p_back = p_pilot
  relief, check and regulator pass no flow back
Flow laws: ISO 6358-1, isentropic nozzle, exact pair with a hose (ISO 6358-3); above a ratio of 0.999 the
chord to 1. A part with an ideal nozzle in series with a hose has the C and b of the nozzle's choking.
"""
import math

import numpy as np
from scipy.optimize import brentq

import common as c

LAM = 0.999


def clip(x, low=0.0, high=1.0):
    return min(max(x, low), high)


class Part:
    """A flow path: its law, its nodes as indices, and what moves it."""

    def __init__(self, spec, nodes):
        self.s = spec
        self.kind = spec["kind"]
        self.a, self.b = nodes[spec["from"]], nodes[spec["to"]]
        self.pilot = nodes[spec["pilot"]] if "pilot" in spec else None
        self.law = spec["law"]
        self.lift = 0.0       # relief: at the last turn
        self.up = False       # diaphragm
        self.line = (1.0, 0.0, 0.0)  # opening at, start of the segment, slope
        if self.law == "ellipse":
            self.C, self.bc, self.m = spec["C"], spec["b"], spec.get("m", 0.5)
        else:
            self.bc = c.critical_ratio()
            self.C = spec["cda"] * c.psi_nozzle(0.0) / math.sqrt(c.R_AIR) / (c.RHO0 * math.sqrt(c.T0))
            self.m = 0.5
        self.hose = spec.get("hose")

    def schedule(self, t):
        """Opening commanded at t, and the knots."""
        s = self.s
        if self.kind not in ("valve", "diaphragm"):
            return 1.0
        t_open, t_shut = s.get("opening", 0.0), s.get("closing", 0.0)
        if s.get("normally") == "open":  # open in the state before: shuts
            end, whole, way, turn, back = 0.0, t_shut, -1.0, s.get("reopens"), t_open
        else:
            end, whole, way, turn, back = 1.0, t_open, 1.0, s.get("pulse"), t_shut
        first = lambda u: end if whole == 0 else clip((1 - end) + way * u / whole)
        if turn is None or t < turn:
            return first(t)
        return clip(first(turn) - way * (t - turn) / back) if back > 0 else 1 - end

    def knots(self):
        s = self.s
        if self.kind not in ("valve", "diaphragm"):
            return []
        shuts = s.get("normally") == "open"
        whole, back = (s.get("closing", 0.0), s.get("opening", 0.0)) if shuts else (s.get("opening", 0.0), s.get("closing", 0.0))
        turn = s.get("reopens") if shuts else s.get("pulse")
        if turn is None:
            return [whole]
        gone = 1.0 if whole == 0 else min(1.0, turn / whole)
        return [min(whole, turn), turn, turn + back * gone]

    def rise(self, g):
        return clip((g - self.s["set"]) / (self.s["full"] - self.s["set"]))

    def fall(self, g):
        return clip((g - self.s["reseat"]) / (self.s["set"] - self.s["reseat"]))

    def forces(self, t, p):
        """Of a diaphragm over its area: shut, and off its seat."""
        s = self.s
        back = p[self.pilot]
        if self.kind == "diaphragm":
            back = p[self.a] - self.at(t) * (p[self.a] - back)
        return ((1 - s["seat"]) * p[self.a] + s["seat"] * p[self.b] - back - s["spring"], p[self.a] - back - s["spring"])

    def at(self, t):
        f, t0, rate = self.line
        return clip(f + rate * (t - t0))

    def opening(self, t, p, pa):
        s, k = self.s, self.kind
        if k == "relief":
            g = p[self.a] - pa
            return clip(self.lift, self.rise(g), self.fall(g))
        if k == "check":
            return clip((p[self.a] - p[self.b] - s["crack"]) / max(0.1 * s["crack"], 1e3))
        if k == "regulator":
            return clip((s["set"] - (p[self.b] - pa)) / s["droop"])
        if k in ("diaphragm", "exhaust"):
            return clip(self.forces(t, p)[1] / s["span"]) if self.up else 0.0
        return self.at(t)

    def flow(self, t, p, T, pa):
        """Signed flow from a to b, and the temperature it carries."""
        i, j, sign = self.a, self.b, 1.0
        if p[j] > p[i]:
            if self.kind in ("relief", "check", "regulator"):
                return 0.0, T[i]
            i, j, sign = j, i, -1.0
        f = self.opening(t, p, pa)
        if f <= 0 or p[i] == p[j]:
            return 0.0, T[i]
        r = p[j] / p[i]
        if self.hose:
            part, hose = (f * self.C, self.bc), tuple(self.hose)
            chain = [part, hose] if sign > 0 else [hose, part]
            K = self.pair(chain, r)
        elif self.law == "nozzle":
            return sign * c.q_nozzle(p[i], T[i], p[j], f * self.s["cda"], c.R_AIR, c.GAMMA, LAM), T[i]
        else:
            K = f * self.C * c.phi_ellipse(r, self.bc, LAM, self.m)
        return sign * K * c.RHO0 * p[i] * math.sqrt(c.T0 / T[i]), T[i]

    @staticmethod
    def pair(chain, r):
        """Conductance of two in series at the ratio r: the pressure between, in units of the first, by Brent's method."""
        if r > LAM:
            return Part.pair(chain, LAM) * (1 - r) / (1 - LAM)
        (C1, b1), (C2, b2) = chain

        def miss(y):
            return C1 * c.phi_ellipse(y, b1) - C2 * y * c.phi_ellipse(r / y, b2)

        if C2 * c.phi_ellipse(r, b2) <= 0 or miss(1.0) >= 0:
            return 0.0
        y = brentq(miss, r, 1.0, xtol=1e-15, rtol=8.9e-16)
        # the better conditioned of the two equal flows
        return C1 * c.phi_ellipse(y, b1) if y < 0.9 else C2 * y * c.phi_ellipse(r / y, b2)

    def region(self, t, p, pa):
        """A code that changes where the right-hand side bends."""
        i, j = self.a, self.b
        back = p[j] > p[i]
        r = p[i] / p[j] if back else p[j] / p[i]
        code = [back, r > self.bc, r > LAM]
        if self.kind == "relief":
            g, s = p[i] - pa, self.s
            lo, hi = self.rise(g), self.fall(g)
            code += [g > s["reseat"], g > s["set"], g > s["full"], self.lift > lo, self.lift < hi]
        elif self.kind in ("check", "regulator", "exhaust", "diaphragm"):
            f = self.opening(t, p, pa)
            code += [f > 0, f >= 1]
        return tuple(code)


def supply_free(s, g):
    """Free air of the supply at gauge g: linear between points, from the first one's value at 0 to 0 at the dead head."""
    if g >= s["dead_head"]:
        return 0.0
    pts = list(s["curve"] or [(0.0, s["free"])])
    pts = [(0.0, pts[0][1])] + pts + [(s["dead_head"], 0.0)]
    return float(np.interp(g, [q[0] for q in pts], [q[1] for q in pts]))
