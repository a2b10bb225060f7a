"""Expected values of CameraFlareTest and ReciprocityFitTest: python3 exposure_fits.py (NumPy 2.4.6, SciPy 1.17.1).

Least squares of the two models by scipy.optimize.curve_fit, with stated uncertainties and without; uncertainties of what is
derived from the parameters by their covariance.
"""

import numpy as np
from scipy.optimize import brentq, curve_fit

EXACT = dict(ftol=1e-15, xtol=1e-15, gtol=1e-15)

# A tablet photographed with a veil of light.
density = np.array([0.05, 0.5, 1.0, 1.5, 2.0, 2.5])
log_h = np.array([0.37, -0.09, -0.60, -1.01, -1.49, -1.63])
u = np.array([0.01, 0.015, 0.02, 0.02, 0.03, 0.04])


def veil(d, source, flare):
    return source + np.log10(10**-d + flare)


for sigma in (u, None):
    p, c = curve_fit(veil, density, log_h, (0.4, 0.01), sigma, sigma is not None, **EXACT)
    print("flare", p[1], np.sqrt(c[1, 1]), "source", p[0], np.sqrt(c[0, 0]))
    for d in (1.0, 2.0):
        g = np.array([1, 1 / (np.log(10) * (10**-d + p[1]))])
        print("  behind", d, veil(d, *p), np.sqrt(g @ c @ g))

# Exposures for times, on the catenary h = h0 + log cosh (a ln 10 (h - log t - e0)).
seconds = np.array([0.01, 0.1, 1.0, 10.0, 100.0, 1000.0])
log_exposure = np.array([-1.02, -1.22, -1.33, -1.27, -1.05, -0.72])
u = np.array([0.02, 0.01, 0.01, 0.015, 0.02, 0.03])


def catenary(t, h0, e0, a):
    return np.array(
        [
            brentq(lambda h: h - h0 - np.log10(np.cosh(a * np.log(10) * (h - x - e0))), -9, 9, xtol=1e-14)
            for x in np.log10(np.atleast_1d(t))
        ]
    )


def by_covariance(figure, p, c):
    step = 1e-5
    g = np.array([(figure(p + step * e) - figure(p - step * e)) / (2 * step) for e in np.eye(len(p))])
    return figure(p), np.sqrt(g @ c @ g)


def corrected(p, law, metered):
    wanted = law(seconds[0], *p)[0] - np.log10(metered)
    return brentq(lambda x: law(10**x, *p)[0] - x - wanted, np.log10(metered) - 1, np.log10(metered) + 6, xtol=1e-14)


def schwarzschild(t, level, slope):
    return np.atleast_1d(level + slope * np.log10(t))


for law, start in ((catenary, (-1.3, -1.6, 0.2)), (schwarzschild, (-1.2, 0.05))):
    for sigma in (u, None):
        p, c = curve_fit(law, seconds, log_exposure, start, sigma, sigma is not None, **EXACT)
        last = np.log10(seconds[-1])
        at_last = lambda q: 1 - (law(10**last, *q)[0] - law(10 ** (last - 1e-3), *q)[0]) / 1e-3
        value, uncertainty = by_covariance(lambda q: corrected(q, law, 60.0), p, c)
        print(law.__name__, "exponent", *by_covariance(at_last, p, c))
        print("  60 s", 10**value, 10**value * np.log(10) * uncertainty)
