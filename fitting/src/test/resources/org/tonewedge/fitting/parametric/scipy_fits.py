"""Fits that CurveFitTest, ModelComparisonTest and LeastSquaresTest expect, by SciPy's general solver.

Run with Python 3: python3 scipy_fits.py (made with Python 3.11.7, SciPy 1.17.1, NumPy 2.4.6).
The families are those that CurveFamily states; unexposed readings count as readings at log exposure -1e6.
"""
import numpy as np
from scipy.optimize import curve_fit, least_squares
from scipy.special import expit, ndtr

X = np.round(-3 + 0.15 * np.arange(21), 6)
D = np.array([
    0.241, 0.244, 0.240, 0.238, 0.251, 0.263, 0.306, 0.371, 0.423, 0.505, 0.606, 0.697, 0.787, 0.867, 0.961, 1.044, 1.085,
    1.140, 1.156, 1.181, 1.185])
BASE = np.array([0.244, 0.237, 0.242])


def ramp(x, at, softness):
    return softness * np.logaddexp(0, (x - at) / softness)


def toe_shoulder(x, b, g, t, s, u, v):
    return b + g * (ramp(x, t, s) - ramp(x, u, v))


families = {
    'toe, straight line, shoulder': (toe_shoulder, [0.24, 0.64, -2, 0.2, -0.6, 0.2]),
    'logistic': (lambda x, b, r, m, w: b + r * expit((x - m) / w), [0.2, 1, -1.3, 0.4]),
    'five-parameter logistic': (lambda x, b, r, m, w, k: b + r * expit((x - m) / w) ** k, [0.23, 1, -1.8, 0.5, 2.5]),
    'Richards': (lambda x, b, r, m, w, v: b + r * (1 + v * np.exp(-(x - m) / w)) ** (-1 / v), [0.23, 1, -1.4, 0.47, 0.4]),
    'Gompertz': (lambda x, b, r, m, w: b + r * np.exp(-np.exp(-(x - m) / w)), [0.24, 1, -1.5, 0.6]),
    'cumulative normal': (lambda x, b, r, m, w: b + r * ndtr((x - m) / w), [0.23, 1, -1.3, 0.6]),
    'Hurter and Driffield': (
        lambda x, b, g, i, o: b + g * np.log10(o - (o - 1) * np.exp(-10 ** (x - i) / o)), [0.2, 1.3, -1.6, 5]),
}


def fit(form, x, d, start, **stated):
    p, c = curve_fit(form, x, d, start, xtol=1e-15, ftol=1e-15, gtol=1e-15, maxfev=100_000, **stated)
    return p, c, ((form(x, *p) - d) ** 2).sum()


def show(name, p, c, squares):
    print(name, *('%.10g' % value for value in p), '|', *('%.8g' % value for value in np.sqrt(np.diag(c))), '| %.12g' % squares)


for name, (form, start) in families.items():
    show(name, *fit(form, X, D, start))
WITH_BASE = np.append(X, [-1e6] * 3), np.append(D, BASE)
p, c, squares = fit(toe_shoulder, *WITH_BASE, families['toe, straight line, shoulder'][1])
show('with base plus fog', p, c, squares)
jacobian = np.array([
    (toe_shoulder(-2.1, *(p + h)) - toe_shoulder(-2.1, *(p - h))) / 2e-6 for h in 1e-6 * np.eye(6)])
print('density at -2.1 and its standard uncertainty', '%.10g' % toe_shoulder(-2.1, *p), '%.8g' % np.sqrt(jacobian @ c @ jacobian),
      'standard deviation of a reading', '%.10g' % np.sqrt(squares / 18))
p, c, squares = fit(
    toe_shoulder, *WITH_BASE, families['toe, straight line, shoulder'][1], sigma=np.full(24, 0.008), absolute_sigma=True)
show('stated 0.008', p, c, squares)
print('covariance of base plus fog and gradient', '%.8g' % c[0, 1])

# zones 0 to X, one stop apart: a logistic curve without bounds, and with its lower end at 0
ZONES = (np.arange(11) - 5) * np.log10(2)
Z = np.array([0.02, 0.11, 0.21, 0.34, 0.48, 0.62, 0.76, 0.97, 1.18, 1.33, 1.44])
show('zones', *fit(lambda x, a, b, m, s: a + (b - a) * expit((x - m) / s), ZONES, Z, [0, 1.5, 0, 0.5]))
show('zones from 0', *fit(lambda x, b, m, s: b * expit((x - m) / s), ZONES, Z, [1.5, 0, 0.5]))

# readings without an unexposed one that toe and shoulder run together on; and the good ones of a strip with a bad first step
T5 = np.round(-3 + 0.3 * np.arange(9), 6), np.array([0.207, 0.230, 0.310, 0.487, 0.636, 0.902, 1.154, 1.373, 1.616])
best = min((least_squares(lambda q: toe_shoulder(T5[0], q[0], q[1], q[2], np.exp(q[3]), q[4], np.exp(q[5])) - T5[1], start,
                          xtol=1e-15, ftol=1e-15, gtol=1e-15, max_nfev=20_000)
            for start in ([0.2, 0.8, -2.4, -1.5, -0.6, -1.5], [1, 1, -2, -0.7, -1, -0.5], [0.2, 1, -2.5, -2, -0.8, -2],
                          [1.2, 1.4, -2, -0.5, -1.5, -0.5])), key=lambda found: found.cost)
print('T5', best.x[0], toe_shoulder(-3, best.x[0], best.x[1], best.x[2], np.exp(best.x[3]), best.x[4], np.exp(best.x[5])),
      np.r_[best.x[1:3], np.exp(best.x[3]), best.x[4], np.exp(best.x[5])], 2 * best.cost)
covariance = np.linalg.inv(best.jac.T @ best.jac) * 2 * best.cost / 3
print('T5: standard uncertainty of base plus fog', np.sqrt(covariance[0, 0]))
for held in (1.16, 1.20):
    beside = least_squares(
        lambda q: toe_shoulder(T5[0], held, q[0], q[1], np.exp(q[2]), q[3], np.exp(q[4])) - T5[1], best.x[1:],
        xtol=1e-15, ftol=1e-15, gtol=1e-15, max_nfev=20_000)
    print('T5: base plus fog held at', held, 'sum of squares over the least', beside.cost / best.cost)
T7 = np.round(-3 + 0.24 * np.arange(11), 6), np.array([
    0.589, 0.274, 0.29, 0.377, 0.58, 0.822, 1.074, 1.327, 1.581, 1.833, 2.073])
show('T7 without its first step', *fit(
    lambda x, b, g, t, s: b + g * ramp(x, t, s), T7[0][1:], T7[1][1:], [0.27, 1, -2.2, 0.1]))
