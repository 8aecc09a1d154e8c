"""Things in the barrel besides the projectile, and a hollow projectile over a tube.

The lumped model of generate_shots.py with gas inertia, without a push after the muzzle.
Object on the ball: both move together, the object's share of the energy counts. Ball
alone: its own section, the gap to the bore as a nozzle. Rocket: the pressure acts on its
inner section; over a tube there is no column of air ahead. All launchers are invented.
"""
import common as c
from generate_shots import BALL, CV, Sim, area_of

LAUNCHER = dict(BALL, valve=("ellipse", 2.5 * CV, 0.35), breakaway=0.0, pt=c.PA + 0.95e5, inertia=True, air=True)
COLUMNS = "set name mass_kg share_kg tank_gauge_Pa area_m2 travel_m leak_area_m2 sliding_N v_m_s energy_J agreement".split()


def row(what, name, share, **kw):
    k = dict(LAUNCHER, **kw)
    fine, coarse = (Sim(k, 0.999).run(tol) for tol in (1e-12, 1e-10))
    assert fine["outcome"] == "left", name
    v = fine["v_m_s"]
    print(what, name, v, 0.5 * share * v * v)
    return dict(set=what, name=name, mass_kg=k["mass"], share_kg=share, tank_gauge_Pa=k["pt"] - c.PA,
                area_m2=Sim(k, None).area, travel_m=k["travel"], leak_area_m2=k.get("leak_area", 0.0), sliding_N=k["sliding"],
                v_m_s=v, energy_J=0.5 * share * v * v, agreement=abs(v / coarse["v_m_s"] - 1))


if __name__ == "__main__":
    rows = [row("on the ball", name, mass, mass=4e-3 + mass) for name, mass in
            (("AA cell", 23e-3), ("AAA cell", 11.5e-3), ("pebble", 11e-3), ("glass marble", 5.4e-3), ("pencil", 5e-3))]
    gap = area_of(0.041) - area_of(0.040)
    rows.append(row("alone", "table-tennis ball", 2.7e-3, mass=2.7e-3, bore=0.040, leak_area=gap, sliding=0.0))
    rows.append(row("over a tube", "rocket", 8e-3, mass=8e-3, bore=0.016, travel=0.15, pt=c.PA + 0.3e5, air=False, sliding=0.0))
    c.write("objects.csv", [
        "method: generate_shots.py, DOP853 at rtol 1e-12; agreement: relative difference of the speed from 1e-10. Chord above 0.999",
        "tank 2 L, valve Cv 2.5 (C 3.89e-8 m3/(s Pa) per Cv, b 0.35), opening 15 ms, dead volume 40 mL, 293.15 K, 101325 Pa; gas inertia;",
        "  air ahead in the bore. mass: all that moves, share: the part whose energy is energy_J. The launchers are invented"], COLUMNS, rows)
