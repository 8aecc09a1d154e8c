"""Heat of the walls: emptying at other rates than none or all, and filling.

Emptying of one vessel:

    dm/dt = -q,  m cv dT/dt = -q R T + H (Tw - T)

q of an ideal nozzle, H the walls' conductance [W/K]. With tau = V/(Cd A psi sqrt(R
Tw)) and N = H tau/(m0 cv) the time over tau depends on N and the pressures only.
Family: H = H0 (rho/rho0)^n ((Tw - T)/Tw)^k, of which n = k = 0 is the constant one;
natural convection has n = 2/3, k = 1/3 (Nu as Ra^(1/3)) or n = 1/2, k = 1/4.

Filling of one vessel at a constant mass flow from a source at Tw, by an inlet of bore d:

    m cv dT/dt = q (cp Tw - cv T) + Nu k/D A (Tw - T)
    Nu = 0.56 (4 q/(pi mu d))^0.67 + 0.104 Ra^0.352

(Woodfield, Monde and Takano, J. Thermal Sci. Tech. 3 (2008) 241, from memory), properties at
the gas's temperature, D the inside diameter of a closed cylinder three diameters long.
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


def mu_air(T):
    """Sutherland, air [Pa s]: 1.716e-5 at 273.15 K, S = 110.4 K (from memory)."""
    return 1.716e-5 * (T / 273.15) ** 1.5 * (273.15 + 110.4) / (T + 110.4)


def filled(V, q, d, until, model, Tw=293.15, Pr=0.71, rtol=1e-11):
    """Pressure [Pa] and temperature [K] after filling from ambient pressure."""
    R, cv, cp = c.R_AIR, c.R_AIR / (G - 1), G * c.R_AIR / (G - 1)
    D = (4 * V / (3 * math.pi)) ** (1 / 3)
    A = math.pi * D * 3 * D + math.pi / 2 * D * D
    m0 = c.PA * V / (R * Tw)

    def f(t, y):
        m, T = m0 + q * t, y[0]
        mu = mu_air(T)
        k = mu * cp / Pr
        rho = m / V
        Ra = 9.80665 / T * abs(Tw - T) * D ** 3 * rho ** 2 * cp / (mu * k)
        nu = 0.0
        if model == "stirring":
            nu = 0.56 * (4 * q / (math.pi * mu * d)) ** 0.67 + 0.104 * Ra ** 0.352
        elif model == "convection":
            nu = max(0.68 + 0.67 * Ra ** 0.25 / (1 + (0.492 / Pr) ** (9 / 16)) ** (4 / 9), 0.13 * Ra ** (1 / 3))
        return [(q * (cp * Tw - cv * T) + nu * k / D * A * (Tw - T)) / (m * cv)]

    s = solve_ivp(f, (0, until), [Tw], method="DOP853", rtol=rtol, atol=1e-9)
    T = s.y[0, -1]
    return (m0 + q * until) * R * T / V, T


if __name__ == "__main__":
    rows = []
    rho = c.PA / (c.R_AIR * 293.15)
    for V, free, d, until in ((2e-3, 2e-4, 4e-3, 7.0), (2e-3, 2e-4, 8e-3, 7.0), (0.2e-3, 5e-5, 4e-3, 4.0), (10e-3, 1e-3, 6e-3, 60.0)):
        for model in ("adiabatic", "convection", "stirring"):
            p, T = filled(V, free * rho, d, until, model)
            p2, T2 = filled(V, free * rho, d, until, model, rtol=1e-8)
            print(V, free, d, until, model, p, T)
            rows.append(dict(set="filling", model=model, V_m3=V, free_air_m3_s=free, inlet_m=d, t_s=until, p_Pa=p, T_K=T,
                             agreement=abs(T2 / T - 1)))
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
        "set slowest: the N with the longest time, and that time, of conductances that go as density^n (Tw - T)^k; n = k = 0 is the constant one",
        "set filling: pressure and temperature after filling from 101325 Pa, walls and source at 293.15 K, R 287.05287, Pr 0.71, k = mu cp/Pr"],
            "set model V_m3 free_air_m3_s inlet_m t_s p_Pa T_K gauge_Pa to_gauge_Pa density_power difference_power N t_over_tau agreement".split(), rows)
