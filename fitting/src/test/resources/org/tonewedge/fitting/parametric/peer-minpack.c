/*
 * Toe, straight line and shoulder fitted by MINPACK's lmder (C/C++ MINPACK, Debian package libcminpack-dev), with analytic
 * derivatives and covariance. Reads lines of steps, start, log exposures and densities; prints for each strip the median
 * time of nine fits in microseconds and the residual sum of squares, "inf" if it did not converge.
 */
#include <cminpack-1/cminpack.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#define FITTED 6
#define MOST_STEPS 64
#define REPEATS 9

typedef struct {
    int steps;
    double x[MOST_STEPS], d[MOST_STEPS];
} strip;

static int model(void *given, int m, int n, const double *p, double *residuals, double *jacobian, int ld, int what) {
    const strip *s = given;
    (void) n;
    for (int i = 0; i < m; i++) {
        double toe = (s->x[i] - p[2]) / p[3];
        double e = exp(-fabs(toe));
        double toe_ramp = fmax(toe, 0) + log1p(e);
        double toe_slope = (toe >= 0 ? 1 : e) / (1 + e);
        double shoulder = (s->x[i] - p[4]) / p[5];
        e = exp(-fabs(shoulder));
        double shoulder_ramp = fmax(shoulder, 0) + log1p(e);
        double shoulder_slope = (shoulder >= 0 ? 1 : e) / (1 + e);
        double shape = p[3] * toe_ramp - p[5] * shoulder_ramp;
        if (what == 1) {
            residuals[i] = p[0] + p[1] * shape - s->d[i];
        } else {
            jacobian[i] = 1;
            jacobian[i + ld] = shape;
            jacobian[i + 2 * ld] = -p[1] * toe_slope;
            jacobian[i + 3 * ld] = p[1] * (toe_ramp - toe * toe_slope);
            jacobian[i + 4 * ld] = p[1] * shoulder_slope;
            jacobian[i + 5 * ld] = -p[1] * (shoulder_ramp - shoulder * shoulder_slope);
        }
    }
    return 0;
}

static int by_size(const void *a, const void *b) {
    double difference = *(const double *) a - *(const double *) b;
    return (difference > 0) - (difference < 0);
}

int main(int count, char **arguments) {
    FILE *input = count == 2 ? fopen(arguments[1], "r") : NULL;
    strip s;
    double start[FITTED];
    if (!input) {
        return 2;
    }
    while (fscanf(input, "%d", &s.steps) == 1) {
        for (int i = 0; i < FITTED; i++) {
            if (fscanf(input, "%lf", &start[i]) != 1) return 2;
        }
        for (int i = 0; i < s.steps; i++) {
            if (fscanf(input, "%lf", &s.x[i]) != 1) return 2;
        }
        for (int i = 0; i < s.steps; i++) {
            if (fscanf(input, "%lf", &s.d[i]) != 1) return 2;
        }
        double times[REPEATS], sum = INFINITY;
        for (int k = 0; k < REPEATS; k++) {
            double p[FITTED], residuals[MOST_STEPS], jacobian[MOST_STEPS * FITTED], scale[FITTED], qtf[FITTED];
            double a[FITTED], b[FITTED], c[FITTED], work[MOST_STEPS];
            int pivots[FITTED], evaluations, jacobians;
            struct timespec before, after;
            clock_gettime(CLOCK_MONOTONIC, &before);
            memcpy(p, start, sizeof p);
            int info = lmder(model, &s, s.steps, FITTED, p, residuals, jacobian, s.steps, 1e-10, 1e-10, 0, 1000, scale, 1,
                    100, 0, &evaluations, &jacobians, pivots, qtf, a, b, c, work);
            covar(FITTED, jacobian, s.steps, pivots, 1e-14, a);
            clock_gettime(CLOCK_MONOTONIC, &after);
            times[k] = 1e6 * (after.tv_sec - before.tv_sec) + 1e-3 * (after.tv_nsec - before.tv_nsec);
            double norm = enorm(s.steps, residuals);
            sum = info >= 1 && info <= 4 && isfinite(norm) ? norm * norm : INFINITY;
        }
        qsort(times, REPEATS, sizeof *times, by_size);
        printf("%.3f %.17g\n", times[REPEATS / 2], sum);
    }
    return 0;
}
