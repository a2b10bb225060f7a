/* Computes the golden vectors in single precision and compares the results with what they expect.
   cc -std=c99 -o reference-check reference-check.c -lm && ./reference-check
   The functions are a reference for firmware: each returns 1 and a result, or 0 where it must refuse. */
#include <math.h>
#include <stdio.h>

#include "golden-vectors.h"

#define COUNT(array) (sizeof(array) / sizeof((array)[0]))

static int density_of_counts(const golden_counts_to_density_t *in, float *density)
{
    float net_sample = in->sample - in->dark;
    float net_open = in->open - in->open_dark;
    float ratio = in->gain_ratio * in->time_ratio;
    if (!isfinite(net_sample) || !isfinite(net_open) || !isfinite(ratio)) {
        return 0;
    }
    if (in->sample < 0.0f || in->dark < 0.0f || in->open < 0.0f || in->open_dark < 0.0f) {
        return 0;
    }
    if (in->full_scale > 0.0f
        && (in->sample >= in->full_scale || in->dark >= in->full_scale || in->open >= in->full_scale
            || in->open_dark >= in->full_scale)) {
        return 0;
    }
    if (!(net_sample > 0.0f) || !(net_open > 0.0f) || !(in->gain_ratio > 0.0f) || !(in->time_ratio > 0.0f)) {
        return 0;
    }
    *density = log10f(net_open * ratio / net_sample);
    return 1;
}

static int opacity_of_density(const golden_density_to_opacity_t *in, float *opacity)
{
    if (!isfinite(in->density)) {
        return 0;
    }
    *opacity = powf(10.0f, in->density);
    return 1;
}

static int corrected_density(const golden_reading_to_corrected_density_t *in, float *density)
{
    float transmittance;
    if (!(in->reading >= in->lowest_reading && in->reading <= in->highest_reading)) {
        return 0;
    }
    transmittance = powf(10.0f, -(in->reading - in->offset) / in->slope) - in->leak;
    if (!(transmittance > 0.0f)) {
        return 0;
    }
    *density = -log10f(transmittance);
    return 1;
}

/* The gradient at reading i: the harmonic mean of those beside it, 0 where they differ in sign. */
static float gradient(const float *x, const float *y, size_t count, size_t i)
{
    float before;
    float after;
    if (i == 0) {
        return (y[1] - y[0]) / (x[1] - x[0]);
    }
    before = (y[i] - y[i - 1]) / (x[i] - x[i - 1]);
    if (i == count - 1) {
        return before;
    }
    after = (y[i + 1] - y[i]) / (x[i + 1] - x[i]);
    return before * after > 0.0f ? 2.0f * before * after / (before + after) : 0.0f;
}

/* The cubic between readings i and i + 1 at t from 0 to 1. */
static float cubic(const float *x, const float *y, size_t count, size_t i, float t)
{
    float width = x[i + 1] - x[i];
    float left = width * gradient(x, y, count, i);
    float right = width * gradient(x, y, count, i + 1);
    float rise = y[i + 1] - y[i];
    return y[i] + t * (left + t * (3.0f * rise - 2.0f * left - right + t * (left + right - 2.0f * rise)));
}

static int speed_of_readings(const golden_readings_to_speed_t *in, float *speed)
{
    size_t count = in->densities_count;
    float target = in->base_plus_fog + 0.10f;
    float low = 0.0f;
    float high = 1.0f;
    size_t i = 0;
    int halving;
    while (i + 1 < count && in->densities[i + 1] < target) {
        i++;
    }
    if (i + 1 >= count || in->densities[i] > target) {
        return 0;
    }
    for (halving = 0; halving < 24; halving++) {
        float middle = 0.5f * (low + high);
        if (cubic(in->log_exposures, in->densities, count, i, middle) < target) {
            low = middle;
        } else {
            high = middle;
        }
    }
    *speed = 0.8f / powf(10.0f, in->log_exposures[i] + low * (in->log_exposures[i + 1] - in->log_exposures[i]));
    return 1;
}

static int failures;

static void compare(const char *name, size_t i, int given, float value, const char *refusal, float expected, float tolerance)
{
    if (refusal != 0) {
        if (given) {
            failures++;
            printf("%s %u: %g given, a refusal expected: %s\n", name, (unsigned) i + 1, (double) value, refusal);
        }
    } else if (!given) {
        failures++;
        printf("%s %u: refused, %g expected\n", name, (unsigned) i + 1, (double) expected);
    } else if (!(fabsf(value - expected) <= tolerance)) {
        failures++;
        printf("%s %u: %g given, %g expected\n", name, (unsigned) i + 1, (double) value, (double) expected);
    }
}

int main(void)
{
    size_t i;
    size_t j;
    size_t checked = 0;
    for (i = 0; i < COUNT(golden_counts_to_density); i++) {
        const golden_counts_to_density_t *in = &golden_counts_to_density[i];
        float value = 0.0f;
        int given = density_of_counts(in, &value);
        compare("counts-to-density", i, given, value, in->refusal, in->expected_density,
                GOLDEN_COUNTS_TO_DENSITY_ABSOLUTE_TOLERANCE);
        checked++;
    }
    for (i = 0; i < COUNT(golden_density_to_opacity); i++) {
        const golden_density_to_opacity_t *in = &golden_density_to_opacity[i];
        float value = 0.0f;
        int given = opacity_of_density(in, &value);
        compare("density-to-opacity", i, given, value, in->refusal, in->expected_opacity,
                GOLDEN_DENSITY_TO_OPACITY_RELATIVE_TOLERANCE * in->expected_opacity);
        checked++;
    }
    for (i = 0; i < COUNT(golden_tablet_to_log_exposure); i++) {
        const golden_tablet_to_log_exposure_t *in = &golden_tablet_to_log_exposure[i];
        for (j = 0; j < in->step_densities_count; j++) {
            compare("tablet-to-log-exposure", i, 1, in->log_exposure_without_tablet - in->step_densities[j],
                    in->refusal, in->expected_log_exposures[j], GOLDEN_TABLET_TO_LOG_EXPOSURE_ABSOLUTE_TOLERANCE);
        }
        checked++;
    }
    for (i = 0; i < COUNT(golden_readings_to_speed); i++) {
        const golden_readings_to_speed_t *in = &golden_readings_to_speed[i];
        float value = 0.0f;
        int given = speed_of_readings(in, &value);
        compare("readings-to-speed", i, given, value, in->refusal, in->expected_speed,
                GOLDEN_READINGS_TO_SPEED_RELATIVE_TOLERANCE * in->expected_speed);
        checked++;
    }
    for (i = 0; i < COUNT(golden_reading_to_corrected_density); i++) {
        const golden_reading_to_corrected_density_t *in = &golden_reading_to_corrected_density[i];
        float value = 0.0f;
        int given = corrected_density(in, &value);
        compare("reading-to-corrected-density", i, given, value, in->refusal, in->expected_corrected_density,
                GOLDEN_READING_TO_CORRECTED_DENSITY_ABSOLUTE_TOLERANCE);
        checked++;
    }
    printf("%u vectors, %d failed\n", (unsigned) checked, failures);
    return failures == 0 ? 0 : 1;
}
