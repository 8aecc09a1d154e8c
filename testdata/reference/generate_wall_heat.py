"""Emptying of one vessel whose walls give heat at other rates than none or all.

    dm/dt = -q,  m cv dT/dt = -q R T + H (Tw - T)

q of an ideal nozzle, H the walls' conductance [W/K]. With tau = V/(Cd A psi sqrt(R
Tw)) and N = H tau/(m0 cv) the time over tau depends on N and the pressures only.
Family: H = H0 (rho/rho0)^n ((Tw - T)/Tw)^k, of which n = k = 0 is the constant one;
natural convection has n = 2/3, k = 1/3 (Nu as Ra^(1/3)) or n = 1/2, k = 1/4.
"""
import math

import numpy as np
from scipy.integrate import solve_ivp
from scipy.optimize import minimize_scalar

import common as c

G = c.GAMMA


def time(gauge, to, N, n=0.0, k=0.0, rtol=1e-10):
    """t/tau from gauge [Pa] to the gauge pressure to [Pa]; in units of m0, Tw, tau."""
    r0 = (c.PA + gauge) / c.PA  # start over ambient
    ps = c.psi_nozzle(0.0)

    def f(t, y):
        m, T = y
        p = m * T * r0  # over ambient
        q = m * math.sqrt(T) * c.psi_nozzle(1 / p) / ps
        heat = N * m ** n * max(1 - T, 0.0) ** k * (1 - T)
        return [-q, (-q * (G - 1) * T + heat) / m]

    end = (c.PA + to) / c.PA
    reached = lambda t, y: y[0] * y[1] * r0 - end
    reached.terminal, reached.direction = True, -1
    s = solve_ivp(f, (0, 50), [1.0, 1.0], method="Radau", rtol=rtol, atol=1e-12, events=reached)
    return s.t_events[0][0]


def slowest(gauge, to, n=0.0, k=0.0):
    """The N of the longest time, and that time: scan in log N, then refined."""
    at = np.arange(-2.0, 2.6, 0.1)
    t = [time(gauge, to, 10 ** x, n, k, 1e-7) for x in at]
    i = min(max(int(np.argmax(t)), 1), len(at) - 2)
    o = minimize_scalar(lambda x: -time(gauge, to, 10 ** x, n, k, 1e-9), bounds=(at[i - 1], at[i + 1]), method="bounded",
                        options=dict(xatol=1e-5))
    return 10 ** o.x, time(gauge, to, 10 ** o.x, n, k)


if __name__ == "__main__":
    rows = []
    to = 5000.0
    for gauge in (100e3, 300e3, 700e3, 1000e3):
        for N in (0.1, 1.0, 10.0):
            t = time(gauge, to, N)
            rows.append(dict(set="constant", gauge_Pa=gauge, to_gauge_Pa=to, N=N, t_over_tau=t,
                             agreement=abs(time(gauge, to, N, rtol=1e-8) / t - 1)))
        for n, k in ((0.0, 0.0), (0.25, 0.0), (0.5, 0.25), (2 / 3, 0.0), (2 / 3, 1 / 3), (1.0, 0.0), (0.0, 0.25), (0.0, 1 / 3)):
            N, t = slowest(gauge, to, n, k)
            print(gauge, n, k, N, t)
            rows.append(dict(set="slowest", gauge_Pa=gauge, to_gauge_Pa=to, density_power=n, difference_power=k, N=N, t_over_tau=t))
    c.write("wall_heat.csv", [
        "set constant: t/tau from gauge_Pa to to_gauge_Pa above 101325 Pa, ideal nozzle, gamma 1.4, walls of the starting temperature, at the constant",
        "  conductance N = H tau/(m0 cv). Radau at 1e-10; agreement: relative difference from 1e-8",
        "set slowest: the N with the longest time, and that time, of conductances that go as density^n (Tw - T)^k; n = k = 0 is the constant one"],
            "set gauge_Pa to_gauge_Pa density_power difference_power N t_over_tau agreement".split(), rows)
