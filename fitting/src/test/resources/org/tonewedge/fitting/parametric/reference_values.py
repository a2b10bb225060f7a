"""Densities of closed-form curves at 40 digits: writes reference-values.csv, and the exposures 0.10 above base plus fog.

Run with Python 3: python3 reference_values.py > reference-values.csv (made with Python 3.11.7, mpmath 1.3.0); the exposures go to
standard error. The formulas are those that CurveFamilyTest states.
"""
import sys
from mpmath import exp, findroot, log, log10, mp, mpf, nstr

mp.dps = 40


def logistic(x):
    return mpf('0.2') + mpf('1.4') / (1 + exp(-mpf('2.2') * x))


def ramp(x, at, sharpness):
    return log(1 + exp(sharpness * (x - at))) / sharpness


def softplus_toe(x):
    return mpf('0.2') + mpf('0.6') * ramp(x, -2, 5)


def softplus_toe_shoulder(x):
    return mpf('0.2') + mpf('0.65') * (ramp(x, -2, 5) - ramp(x, 1, 3))


def hd1890(x):
    opacity = mpf(1000)
    return mpf('0.2') + mpf('0.7') * log10(opacity - (opacity - 1) * exp(-mpf(10) ** (x + 2) / opacity))


CURVES = [logistic, softplus_toe, softplus_toe_shoulder, hd1890]
print('# Densities of closed-form curves, computed beside this project with mpmath 1.3.0 at 40 digits; not published results.')
print('log10_H', *(curve.__name__ for curve in CURVES), sep=',')
for k in range(33):
    x = mpf(k) / 4 - 4
    print(nstr(x, 16), *(nstr(curve(x), 16) for curve in CURVES), sep=',')
for curve in CURVES:
    print(curve.__name__, nstr(findroot(lambda x: curve(x) - mpf('0.3'), -2), 16), file=sys.stderr)
