"""Toe, straight line and shoulder fitted by scipy.optimize.leastsq, with analytic derivatives and covariance.

Reads lines of steps, start, log exposures and densities; prints for each strip the median time of five fits in
microseconds and the residual sum of squares, "inf" if it did not converge.
"""

import sys
import time

import numpy
from scipy.optimize import leastsq

numpy.seterr(all="ignore")


def parts(p, x):
    toe = (x - p[2]) / p[3]
    shoulder = (x - p[4]) / p[5]
    return toe, numpy.logaddexp(0, toe), shoulder, numpy.logaddexp(0, shoulder)


def residuals(p, x, d):
    _, toe_ramp, _, shoulder_ramp = parts(p, x)
    return p[0] + p[1] * (p[3] * toe_ramp - p[5] * shoulder_ramp) - d


def jacobian(p, x, d):
    toe, toe_ramp, shoulder, shoulder_ramp = parts(p, x)
    toe_slope = 1 / (1 + numpy.exp(-toe))
    shoulder_slope = 1 / (1 + numpy.exp(-shoulder))
    return numpy.array([
        numpy.ones_like(x),
        p[3] * toe_ramp - p[5] * shoulder_ramp,
        -p[1] * toe_slope,
        p[1] * (toe_ramp - toe * toe_slope),
        p[1] * shoulder_slope,
        -p[1] * (shoulder_ramp - shoulder * shoulder_slope),
    ])


for line in open(sys.argv[1]):
    numbers = numpy.array(line.split(), dtype=float)
    steps = int(numbers[0])
    start, x, d = numbers[1:7], numbers[7:7 + steps], numbers[7 + steps:]
    times = []
    for _ in range(5):
        before = time.perf_counter()
        p, covariance, info, _, how = leastsq(
            residuals, start, args=(x, d), Dfun=jacobian, col_deriv=True, full_output=True, ftol=1e-10, xtol=1e-10,
            maxfev=1000)
        times.append(1e6 * (time.perf_counter() - before))
    total = numpy.sum(info["fvec"] ** 2)
    print(sorted(times)[2], total if 1 <= how <= 4 and numpy.isfinite(total) else "inf")
