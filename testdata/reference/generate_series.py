"""Chains of ISO 6358 restrictions solved exactly for their intermediate pressures."""
import common as c

CHAINS = [((1, .3), (1, .3)), ((2, .3), (1, .3)), ((2, .4), (1.3, .35)), ((1, .5), (3, .2)), ((8, .35), (6, .25)),
          ((1.5, .35), (6, .2)), ((6, .2), (1.5, .35)), ((1, .3), (1, .3), (1, .3)), ((2, .4), (1.3, .35), (3, .2)),
          ((0.5, .5), (2, .3), (2, .3)), ((3, .2), (2, .3), (1, .45))]
RATIOS = [0.05, 0.1, 0.15, 0.2, 0.25, 0.3, 0.35, 0.4, 0.45, 0.5, 0.55, 0.6, 0.65, 0.7, 0.75, 0.8, 0.85, 0.9, 0.93, 0.96,
          0.98, 0.99, 0.995, 0.999]
U = 1e-8  # m3/(s Pa) per L/(s bar)


def composite(elements):
    """C exact; b by the choking ratio and by the sum rule of ISO 6358-3."""
    C, b = elements[0]
    s = (1 - b) / C ** 2
    for C2, b2 in elements[1:]:
        if len(elements) == 2:
            Cn = c.series_c(C, b, C2)
        s += (1 - b2) / C2 ** 2
    exact = c.chain_flow([(e[0] * U, e[1]) for e in elements], 1.0, 1e-6)[0] / U
    lo, hi = 0.0, 1.0  # choking ratio: where the flow first falls by 1e-13
    for _ in range(60):
        mid = (lo + hi) / 2
        if c.chain_flow([(e[0] * U, e[1]) for e in elements], 1.0, mid)[0] / U >= exact * (1 - 1e-13):
            lo = mid
        else:
            hi = mid
    if len(elements) == 2:
        assert abs(Cn - exact) < 1e-11, (Cn, exact)
        bc = c.series_choking_ratio(*elements[0], *elements[1])
        assert abs(bc - lo) < 1e-5, (bc, lo)
        lo = bc
    else:
        lo = chain_choking(elements, exact)
    return exact, lo, 1 - exact ** 2 * s


def chain_choking(elements, C):
    """Outlet ratio at which the choked flow C just still passes, going down the chain."""
    p = 1.0
    for Ce, b in elements:
        y = min(1.0, C / (Ce * p))
        p *= c.phi_inverse(y, b)
    return p


if __name__ == "__main__":
    cols = "chain n C1_L_s_bar b1 C2_L_s_bar b2 C3_L_s_bar b3 ratio flow_per_p1_L_s_bar p2_over_p1 p3_over_p1 C_exact_L_s_bar b_choking b_iso phi_exact phi_ellipse_b_choking phi_ellipse_b_iso".split()
    rows, worst = [], 0
    for i, ch in enumerate(CHAINS):
        C, bc, bi = composite(ch)
        print(i + 1, ch, "C %.6f choking %.4f iso %.4f" % (C, bc, bi))
        dev = [0, 0]
        for r in RATIOS:
            q, mids = c.chain_flow([(e[0] * U, e[1]) for e in ch], 7e5, 7e5 * r)
            q /= 7e5 * U
            # second way: march the flow down the chain and look at the outlet ratio
            p = 1.0
            for Ce, b in ch:
                p *= c.phi_inverse(min(1.0, q / (Ce * p)), b)
            choked = r <= bc
            if not choked:
                assert abs(p - r) < 1e-9, (i, r, p)
            row = dict(chain=i + 1, n=len(ch), ratio=r, flow_per_p1_L_s_bar=q, C_exact_L_s_bar=C, b_choking=bc, b_iso=bi,
                       phi_exact=q / C, phi_ellipse_b_choking=c.phi_ellipse(r, bc), phi_ellipse_b_iso=c.phi_ellipse(r, bi))
            for j, (Ce, b) in enumerate(ch):
                row["C%d_L_s_bar" % (j + 1)], row["b%d" % (j + 1)] = Ce, b
            for j, p in enumerate(mids):
                row["p%d_over_p1" % (j + 2)] = p / 7e5
            dev = [max(dev[0], abs(row["phi_ellipse_b_choking"] - row["phi_exact"])), max(dev[1], abs(row["phi_ellipse_b_iso"] - row["phi_exact"]))]
            rows.append(row)
        print("   worst ellipse error: b choking %.4f, b iso %.4f of choked flow" % tuple(dev))
    c.write("series.csv", ["equations: ISO 6358-1 elements (m 0.5, no chord) in series at one stagnation temperature, ISO 6358-3",
                           "flow_per_p1: q/(rho0 sqrt(T0/T1) p1); p2, p3 intermediate pressures by nested brentq, checked by marching the flow downstream to 1e-9",
                           "b_choking: largest ratio that still passes the choked flow; b_iso = 1 - C^2 sum (1-bi)/Ci^2 (ISO 6358-3, from memory)"], cols, rows)
