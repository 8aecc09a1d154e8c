#!/usr/bin/env python3
"""One-sided normal tolerance factors from two general reference libraries.

scipy_k:  scipy.stats.nct.ppf(confidence, n-1, z sqrt(n)) / sqrt(n)
mpmath_k: root in k of the integral over the chi distribution, 30 digits
Usage: /usr/bin/python3 factors.py > factors.csv
"""
import datetime
import math
import sys
import warnings

import mpmath as mp
import scipy
from scipy.stats import nct, norm

warnings.simplefilter("ignore")
mp.mp.dps = 30


def exact(n, confidence, coverage, guess):
    nu = mp.mpf(n - 1)
    z = mp.sqrt(2) * mp.erfinv(2 * mp.mpf(coverage) - 1)
    root = mp.sqrt(n)
    norming = mp.log(2) + (nu / 2) * mp.log(nu / 2) - mp.loggamma(nu / 2)

    def density(s):  # of s = sqrt(chi2 / nu)
        return mp.exp(norming + (nu - 1) * mp.log(s) - nu * s * s / 2) if s > 0 else mp.mpf(0)

    def miss(k):
        step = z / k
        width = 12 / (k * root)
        top = 1 + 14 / mp.sqrt(nu)
        low = max(mp.mpf(0), 1 - 14 / mp.sqrt(nu))
        cuts = {low, top, mp.mpf(1)}
        for m in (-1, -0.5, 0, 0.5, 1):
            cuts.add(min(max(step + m * width, low), top))
        total = mp.quad(lambda s: density(s) * mp.ncdf(root * (k * s - z)), sorted(cuts))
        return total - confidence

    return mp.findroot(miss, (guess, guess * 1.0001), tol=1e-22)


print("# One-sided normal tolerance factors k(n, confidence, coverage).")
print(f"# tools: Python {sys.version.split()[0]}, SciPy {scipy.__version__}, mpmath {mp.__version__}")
print("# command: /usr/bin/python3 factors.py > factors.csv")
print(f"# date: {datetime.date.today()}")
print("# methods: scipy_k = nct.ppf(confidence, n-1, z sqrt(n))/sqrt(n); mpmath_k = root of the integral over")
print("# the chi distribution at 30 digits, printed to 15")
print("n,confidence,coverage,scipy_k,mpmath_k")
for n in (2, 3, 4, 5, 6, 8, 10, 15, 20, 30, 43, 50, 100, 200, 276, 300, 400, 500):
    for c, p in ((0.95, 0.99), (0.95, 0.95), (0.95, 0.90), (0.90, 0.99), (0.99, 0.99), (0.99, 0.90)):
        k = nct.ppf(c, n - 1, norm.ppf(p) * math.sqrt(n)) / math.sqrt(n)
        e = exact(n, mp.mpf(str(c)), mp.mpf(str(p)), k)
        print(f"{n},{c},{p},{k!r},{mp.nstr(e, 15)}")
