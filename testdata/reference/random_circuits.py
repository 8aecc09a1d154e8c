"""The circuits of the random shots: drawn from a seed, and written down for the table."""
import math
import random

ATM = "atmosphere"
THEMES = ["relief on the barrel", "relief on a dose", "check", "regulator", "bleed", "two valves", "supply curve",
          "valve shuts", "fill shuts", "quick exhaust", "diaphragm", "pitched", "after", "everything"]
SHOTS = 126


def draw(i):
    """Case i: its theme for certain, the rest by chance. Figures are rounded, so that the table holds them exactly."""
    rng = random.Random(7000 + i)
    theme = THEMES[i % len(THEMES)]

    def num(low, high, digits=4):
        return float("%.*g" % (digits, rng.uniform(low, high)))

    def log(low, high):
        return float("%.4g" % math.exp(rng.uniform(math.log(low), math.log(high))))

    def chance(share, name=None):
        return theme == name or rng.random() < share * (2 if theme == "everything" else 1)

    def law(low, high, hose=0.12):
        s = {}
        r = rng.random()
        if r < 0.35:
            s = dict(law="nozzle", cda=float("%.4g" % (log(low, high) * 5.0)))
        else:
            s = dict(law="ellipse", C=log(low, high), b=num(0.05, 0.5))
            if r > 0.8:
                s["m"] = num(0.4, 0.65)
        if s.get("m") is None and rng.random() < hose:
            s["hose"] = (log(low, 2 * high), num(0.1, 0.45))
        return s

    pa = num(95e3, 104e3)
    Ta = num(268, 305)
    n = rng.choice((1, 2, 2, 3))
    if theme in ("check", "regulator", "relief on a dose", "fill shuts", "quick exhaust"):
        n = max(n, 2)
    gauge = num(0.6e5, 3e5)
    top = [pa + gauge] + [0.0] * (n - 1)
    for j in range(1, n):
        top[j] = pa + num(0.3, 1) * (top[j - 1] - pa)
    volumes = [(log(4e-4, 4e-3) if j == 0 else log(1.5e-4, 1.5e-3), float("%.7g" % p), num(270, 320)) for j, p in enumerate(top)]
    bore = num(0.012, 0.05)
    area = float("%.6g" % (math.pi / 4 * bore * bore))
    k = dict(case="%03d" % i, theme=theme, pa=pa, Ta=Ta, volumes=volumes, supply=None, area=area, exit_area=area,
             jet_factor=1, leak_area=0.0, leak_cd=0.6, dead=log(3e-5, 1.5e-4), travel=num(0.08, 0.45), sin_pitch=0.0,
             mass=log(3e-3, 2.5e-2), breakaway=0.0, restart=0.0, sliding=0.0, seat_m=0.0, barrel_p=pa, barrel_T=Ta,
             inertia=rng.random() < 0.7, air=rng.random() < 0.7, after=chance(0.3, "after"), until=0.25)
    force = gauge * area
    if chance(0.75) or theme in ("quick exhaust", "diaphragm"):
        k["sliding"] = float("%.4g" % (force * rng.uniform(0.002, 0.04)))
        k["breakaway"] = float("%.4g" % max(k["sliding"], force * rng.uniform(0.01, 0.2)))
        if rng.random() < 0.4:
            k["restart"] = float("%.4g" % (k["breakaway"] * rng.uniform(0.3, 1)))
    if chance(0.3):
        k["leak_area"] = float("%.4g" % (area * rng.uniform(0.002, 0.03)))
    if chance(0.25, "pitched"):
        k["sin_pitch"] = num(-0.7, 1.0)
    if rng.random() < 0.2:
        k["seat_m"] = float("%.4g" % (k["travel"] * rng.uniform(0.02, 0.5)))
    if rng.random() < 0.15:
        k["barrel_p"], k["barrel_T"] = float("%.6g" % (pa * rng.uniform(0.97, 1.06))), num(270, 315)
    if k["after"]:
        k["jet_factor"] = rng.choice((1, 2))
        if rng.random() < 0.4:
            k["exit_area"], k["air"] = float("%.4g" % (area * rng.uniform(0.35, 0.95))), False  # over a tube
    paths = []
    for j in range(1, n):
        s = dict(kind="orifice")
        last = j == n - 1
        if (theme == "check" and last) or chance(0.15):
            s = dict(kind="check", crack=rng.choice((0.0, num(500, 15e3))))
        elif (theme == "regulator" and last) or chance(0.12):
            s = dict(kind="regulator", set=float("%.5g" % (rng.uniform(0.6, 1.02) * (top[j] - pa))), droop=num(2e3, 3e4))
        elif (theme == "fill shuts" and last) or chance(0.12):
            s = dict(kind="valve", normally="open", closing=num(2e-3, 3e-2))
            if rng.random() < 0.3:
                s["reopens"], s["opening"] = num(3e-3, 4e-2), num(2e-3, 2e-2)
        paths.append(dict(s, **{"from": str(j - 1), "to": str(j)}, **law(3e-9, 6e-8)))
    fire = dict(kind="valve", opening=rng.choice((0.0, num(2e-3, 3e-2))))
    fed = str(n - 1)
    if theme == "quick exhaust":
        volumes[-2] = (log(3e-5, 2e-4), volumes[-1][1], volumes[-2][2])  # the pilot chamber
        fire = dict(kind="exhaust", seat=num(0.3, 0.75), spring=rng.choice((0.0, num(500, 8e3))), span=log(2e3, 4e4), pilot=str(n - 2))
        paths[-1] = dict(kind="check", crack=0.0, **{"from": str(n - 2), "to": fed}, **law(3e-9, 3e-8, 0))
        paths.append(dict(kind="valve", opening=num(1e-3, 1e-2), **{"from": str(n - 2), "to": ATM}, **law(1e-8, 5e-8, 0)))
    elif theme == "diaphragm":
        fire = dict(kind="diaphragm", opening=num(2e-3, 2e-2), seat=num(0.2, 0.8), spring=num(1e3, 1.5e4), span=log(2e3, 4e4),
                    pilot=rng.choice((ATM, "barrel")))
    elif chance(0.2, "valve shuts"):
        fire["pulse"], fire["closing"] = num(3e-3, 3e-2), rng.choice((0.0, num(1e-3, 2e-2)))
    paths.append(dict(fire, **{"from": fed, "to": "barrel"}, **law(3e-8, 2.5e-7, 0 if fire["kind"] != "valve" else 0.15)))
    if chance(0.15, "two valves"):
        s = dict(kind="valve", opening=num(1e-3, 3e-2), **{"from": rng.choice(("0", fed)), "to": "barrel"}, **law(1e-8, 1e-7))
        if rng.random() < 0.3:
            s["pulse"], s["closing"] = num(2e-3, 2e-2), num(1e-3, 1e-2)
        paths.append(s)
    if chance(0.15, "bleed"):
        paths.append(dict(kind=rng.choice(("orifice", "hose")), **{"from": "barrel", "to": ATM}, **law(5e-10, 2e-8)))
    for name, node, share in (("relief on the barrel", "barrel", 0.15), ("relief on a dose", fed, 0.2)):
        if not chance(share, name):
            continue
        at = rng.uniform(0.1, 0.6) * gauge if node == "barrel" else rng.uniform(0.75, 1.0) * (top[-1] - pa)
        full = at + rng.uniform(0.03, 0.3) * at
        paths.append(dict(kind="relief", set=float("%.5g" % at), full=float("%.5g" % full),
                          reseat=float("%.5g" % (at * rng.uniform(0.6, 0.97))), **{"from": node, "to": ATM}, **law(5e-9, 6e-8, 0)))
    if theme == "relief on a dose":  # it fills during the shot
        volumes[-1] = (volumes[-1][0], float("%.7g" % (pa + 0.7 * paths[-1]["set"])), volumes[-1][2])
    if chance(0.2, "supply curve"):
        dead = num(1.2, 2.5) * gauge
        k["supply"] = dict(feeds=rng.choice(("0", fed)), dead_head=float("%.5g" % dead), free=log(1e-4, 2e-3), curve=None)
        if theme == "supply curve" or rng.random() < 0.5:
            f, at, pts = k["supply"]["free"], 0.0, []
            for _ in range(rng.choice((2, 3, 4))):
                at += rng.uniform(0.05, 0.25) * dead
                pts.append((float("%.5g" % at), f))
                f = float("%.4g" % (f * rng.uniform(0.4, 0.95)))
            k["supply"]["curve"] = pts
    k["paths"] = paths
    return k


def text(value):
    if isinstance(value, (tuple, list)):
        return ":".join(text(v) for v in value)
    return value if isinstance(value, str) else repr(float(value))


def inputs(k):
    r = dict(case=k["case"], theme=k["theme"], pa_Pa=k["pa"], Ta_K=k["Ta"], gas_inertia=k["inertia"], air_ahead=k["air"],
             after_muzzle=k["after"], until_s=k["until"], barrel_p_Pa=k["barrel_p"], barrel_T_K=k["barrel_T"],
             exit_area_m2=k["exit_area"], area_m2=k["area"], leak_area_m2=k["leak_area"], dead_m3=k["dead"], travel_m=k["travel"],
             mass_kg=k["mass"], breakaway_N=k["breakaway"], restart_N=k["restart"], sliding_N=k["sliding"])
    r.update((q, k[q]) for q in ("jet_factor", "leak_cd", "sin_pitch", "seat_m"))
    r["volumes"] = ";".join(text(v) for v in k["volumes"])
    r["paths"] = ";".join(" ".join("%s=%s" % (key, text(v)) for key, v in s.items()) for s in k["paths"])
    s = k["supply"]
    r["supply"] = s and "feeds=%s dead_head=%s free=%s" % (s["feeds"], text(s["dead_head"]), text(s["free"])) + (
        " curve=" + ":".join(text(q) for q in s["curve"]) if s["curve"] else "")
    return r
