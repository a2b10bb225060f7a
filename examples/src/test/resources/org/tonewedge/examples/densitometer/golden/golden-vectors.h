/* Inputs with the outputs that a right computation gives, in single precision.
   A vector with a refusal has no output: the computation must refuse, for the reason given. */
#ifndef GOLDEN_VECTORS_H
#define GOLDEN_VECTORS_H

#include <math.h>
#include <stddef.h>

/* D = log10((open - open_dark) * gain_ratio * time_ratio / (sample - dark)); ratios are sample over open gate; full_scale is the count at which the converter is saturated, 0 if not known. The tolerance is that of single precision. */
#define GOLDEN_COUNTS_TO_DENSITY_ABSOLUTE_TOLERANCE 2.0E-6f
#define GOLDEN_COUNTS_TO_DENSITY_RELATIVE_TOLERANCE 0.0f

typedef struct {
    float sample;
    float dark;
    float open;
    float open_dark;
    float gain_ratio;
    float time_ratio;
    float full_scale;
    float expected_density;
    const char *refusal;
} golden_counts_to_density_t;

static const golden_counts_to_density_t golden_counts_to_density[] = {
    {60200.0f, 200.0f, 60200.0f, 200.0f, 1.0f, 1.0f, 65535.0f, 0.0f, 0},
    {30200.0f, 200.0f, 60200.0f, 200.0f, 1.0f, 1.0f, 65535.0f, 0.30103f, 0},
    {6200.0f, 200.0f, 60200.0f, 200.0f, 1.0f, 1.0f, 65535.0f, 1.0f, 0},
    {800.0f, 200.0f, 60200.0f, 200.0f, 1.0f, 1.0f, 65535.0f, 2.0f, 0},
    {260.0f, 200.0f, 60200.0f, 200.0f, 1.0f, 1.0f, 65535.0f, 3.0f, 0},
    {206.0f, 200.0f, 60200.0f, 200.0f, 1.0f, 1.0f, 65535.0f, 4.0f, 0},
    {201.0f, 200.0f, 60200.0f, 200.0f, 1.0f, 1.0f, 65535.0f, 4.778151f, 0},
    {61000.0f, 200.0f, 60200.0f, 200.0f, 1.0f, 1.0f, 65535.0f, -0.005752329f, 0},
    {65534.0f, 200.0f, 60200.0f, 200.0f, 1.0f, 1.0f, 65535.0f, -0.036987998f, 0},
    {50300.0f, 300.0f, 50200.0f, 200.0f, 16.0f, 4.0f, 65535.0f, 1.80618f, 0},
    {1924.0f, 300.0f, 50200.0f, 200.0f, 16.0f, 4.0f, 65535.0f, 3.294564f, 0},
    {332.0f, 300.0f, 50200.0f, 200.0f, 64.0f, 10.0f, 65535.0f, 6.0f, 0},
    {40000.0f, 0.0f, 20000.0f, 0.0f, 4.0f, 1.0f, 65535.0f, 0.30103f, 0},
    {20000.0f, 0.0f, 40000.0f, 0.0f, 1.0f, 0.5f, 65535.0f, 0.0f, 0},
    {4.0E9f, 100.0f, 4.2E9f, 100.0f, 1.0f, 1.0f, 0.0f, 0.021189298f, 0},
    {7.0f, 3.0f, 65535.0f, 3.0f, 1.0f, 1.0f, 0.0f, 4.2143936f, 0},
    {1.0f, 0.0f, 4094.0f, 0.0f, 1.0f, 1.0f, 4095.0f, 3.6121478f, 0},
    {200.0f, 200.0f, 60200.0f, 200.0f, 1.0f, 1.0f, 65535.0f, 0.0f, "the sample is not above the dark"},
    {190.0f, 200.0f, 60200.0f, 200.0f, 1.0f, 1.0f, 65535.0f, 0.0f, "the sample is not above the dark"},
    {0.0f, 0.0f, 60200.0f, 0.0f, 1.0f, 1.0f, 65535.0f, 0.0f, "the sample is not above the dark"},
    {0.0f, 200.0f, 60200.0f, 200.0f, 1.0f, 1.0f, 65535.0f, 0.0f, "the sample is not above the dark"},
    {6200.0f, 200.0f, 200.0f, 200.0f, 1.0f, 1.0f, 65535.0f, 0.0f, "the open gate is not above its dark"},
    {6200.0f, 200.0f, 100.0f, 200.0f, 1.0f, 1.0f, 65535.0f, 0.0f, "the open gate is not above its dark"},
    {0.0f, 0.0f, 0.0f, 0.0f, 1.0f, 1.0f, 65535.0f, 0.0f, "the open gate is not above its dark"},
    {-6200.0f, 200.0f, 60200.0f, 200.0f, 1.0f, 1.0f, 65535.0f, 0.0f, "a count is negative"},
    {6200.0f, -200.0f, 60200.0f, 200.0f, 1.0f, 1.0f, 65535.0f, 0.0f, "a count is negative"},
    {6200.0f, 200.0f, -60200.0f, 200.0f, 1.0f, 1.0f, 65535.0f, 0.0f, "a count is negative"},
    {6200.0f, 200.0f, 60200.0f, -1.0f, 1.0f, 1.0f, 65535.0f, 0.0f, "a count is negative"},
    {65535.0f, 200.0f, 60200.0f, 200.0f, 1.0f, 1.0f, 65535.0f, 0.0f, "the converter is saturated"},
    {65536.0f, 200.0f, 60200.0f, 200.0f, 1.0f, 1.0f, 65535.0f, 0.0f, "the converter is saturated"},
    {6200.0f, 200.0f, 65535.0f, 200.0f, 1.0f, 1.0f, 65535.0f, 0.0f, "the converter is saturated"},
    {4095.0f, 20.0f, 4000.0f, 20.0f, 1.0f, 1.0f, 4095.0f, 0.0f, "the converter is saturated"},
    {NAN, 200.0f, 60200.0f, 200.0f, 1.0f, 1.0f, 65535.0f, 0.0f, "a number is not finite"},
    {6200.0f, NAN, 60200.0f, 200.0f, 1.0f, 1.0f, 65535.0f, 0.0f, "a number is not finite"},
    {6200.0f, 200.0f, NAN, 200.0f, 1.0f, 1.0f, 65535.0f, 0.0f, "a number is not finite"},
    {6200.0f, 200.0f, 60200.0f, 200.0f, NAN, 1.0f, 65535.0f, 0.0f, "a number is not finite"},
    {INFINITY, 200.0f, 60200.0f, 200.0f, 1.0f, 1.0f, 0.0f, 0.0f, "a number is not finite"},
    {6200.0f, 200.0f, INFINITY, 200.0f, 1.0f, 1.0f, 0.0f, 0.0f, "a number is not finite"},
    {6200.0f, 200.0f, 60200.0f, 200.0f, 0.0f, 1.0f, 65535.0f, 0.0f, "a ratio is not above 0"},
    {6200.0f, 200.0f, 60200.0f, 200.0f, -4.0f, 1.0f, 65535.0f, 0.0f, "a ratio is not above 0"},
    {6200.0f, 200.0f, 60200.0f, 200.0f, 1.0f, 0.0f, 65535.0f, 0.0f, "a ratio is not above 0"},
};

/* opacity = 10^density. The tolerance is that of single precision. */
#define GOLDEN_DENSITY_TO_OPACITY_ABSOLUTE_TOLERANCE 0.0f
#define GOLDEN_DENSITY_TO_OPACITY_RELATIVE_TOLERANCE 2.0E-6f

typedef struct {
    float density;
    float expected_opacity;
    const char *refusal;
} golden_density_to_opacity_t;

static const golden_density_to_opacity_t golden_density_to_opacity[] = {
    {-0.02f, 0.9549926f, 0},
    {0.0f, 1.0f, 0},
    {0.05f, 1.1220185f, 0},
    {0.1f, 1.2589254f, 0},
    {0.3f, 1.9952623f, 0},
    {0.6f, 3.9810717f, 0},
    {0.9f, 7.943282f, 0},
    {1.0f, 10.0f, 0},
    {1.5f, 31.622776f, 0},
    {2.0f, 100.0f, 0},
    {2.4f, 251.18864f, 0},
    {3.0f, 1000.0f, 0},
    {3.6f, 3981.0718f, 0},
    {4.0f, 10000.0f, 0},
    {4.5f, 31622.777f, 0},
    {NAN, 0.0f, "the density is not finite"},
    {INFINITY, 0.0f, "the density is not finite"},
};

/* log H behind step i = log H0 - D_i, from the clear end; H0 in lux seconds. The tolerance is that of single precision. */
#define GOLDEN_TABLET_TO_LOG_EXPOSURE_ABSOLUTE_TOLERANCE 1.0E-6f
#define GOLDEN_TABLET_TO_LOG_EXPOSURE_RELATIVE_TOLERANCE 0.0f

typedef struct {
    float log_exposure_without_tablet;
    const float *step_densities;
    size_t step_densities_count;
    const float *expected_log_exposures;
    size_t expected_log_exposures_count;
    const char *refusal;
} golden_tablet_to_log_exposure_t;

static const golden_tablet_to_log_exposure_t golden_tablet_to_log_exposure[] = {
    {0.75f, (const float[]) {0.05f, 0.2f, 0.35f, 0.5f, 0.65f}, 5, (const float[]) {0.7f, 0.55f, 0.4f, 0.25f, 0.1f}, 5, 0},
    {0.0f, (const float[]) {0.05f, 0.2f, 0.35f, 0.5f, 0.65f}, 5, (const float[]) {-0.05f, -0.2f, -0.35f, -0.5f, -0.65f}, 5, 0},
    {-1.25f, (const float[]) {0.05f, 0.2f, 0.35f, 0.5f, 0.65f}, 5, (const float[]) {-1.3f, -1.45f, -1.6f, -1.75f, -1.9f}, 5, 0},
    {0.75f, (const float[]) {0.048f, 0.352f, 0.661f, 0.949f, 1.258f, 1.551f, 1.862f, 2.149f, 2.461f, 2.748f, 3.055f}, 11, (const float[]) {0.702f, 0.398f, 0.089f, -0.199f, -0.508f, -0.801f, -1.112f, -1.399f, -1.711f, -1.998f, -2.305f}, 11, 0},
    {0.0f, (const float[]) {0.048f, 0.352f, 0.661f, 0.949f, 1.258f, 1.551f, 1.862f, 2.149f, 2.461f, 2.748f, 3.055f}, 11, (const float[]) {-0.048f, -0.352f, -0.661f, -0.949f, -1.258f, -1.551f, -1.862f, -2.149f, -2.461f, -2.748f, -3.055f}, 11, 0},
    {-1.25f, (const float[]) {0.048f, 0.352f, 0.661f, 0.949f, 1.258f, 1.551f, 1.862f, 2.149f, 2.461f, 2.748f, 3.055f}, 11, (const float[]) {-1.298f, -1.602f, -1.911f, -2.199f, -2.508f, -2.801f, -3.112f, -3.399f, -3.711f, -3.998f, -4.305f}, 11, 0},
};

/* S = 0.8 / H_m, H_m in lux seconds where the density is 0.10 above base plus fog (ISO 6); the curve is the monotone cubic of Fritsch and Carlson through the readings. The tolerance of 2 % leaves room for another smooth interpolation. Densities are invented. */
#define GOLDEN_READINGS_TO_SPEED_ABSOLUTE_TOLERANCE 0.0f
#define GOLDEN_READINGS_TO_SPEED_RELATIVE_TOLERANCE 0.02f

typedef struct {
    float base_plus_fog;
    const float *log_exposures;
    size_t log_exposures_count;
    const float *densities;
    size_t densities_count;
    float expected_speed;
    const char *refusal;
} golden_readings_to_speed_t;

static const golden_readings_to_speed_t golden_readings_to_speed[] = {
    {0.2f, (const float[]) {-2.85f, -2.7f, -2.55f, -2.4f, -2.25f, -2.1f, -1.95f, -1.8f, -1.65f, -1.5f, -1.35f, -1.2f, -1.05f, -0.9f, -0.75f, -0.6f, -0.45f, -0.3f, -0.15f, 0.0f, 0.15f}, 21, (const float[]) {0.2f, 0.2f, 0.2f, 0.2f, 0.2f, 0.21f, 0.23f, 0.27f, 0.34f, 0.42f, 0.51f, 0.6f, 0.7f, 0.79f, 0.88f, 0.98f, 1.07f, 1.16f, 1.25f, 1.35f, 1.44f}, 21, 42.982147f, 0},
    {0.28f, (const float[]) {-3.4f, -3.25f, -3.1f, -2.95f, -2.8f, -2.65f, -2.5f, -2.35f, -2.2f, -2.05f, -1.9f, -1.75f, -1.6f, -1.45f, -1.3f, -1.15f, -1.0f, -0.85f, -0.7f, -0.55f, -0.4f}, 21, (const float[]) {0.28f, 0.28f, 0.28f, 0.28f, 0.28f, 0.29f, 0.31f, 0.36f, 0.44f, 0.53f, 0.64f, 0.74f, 0.85f, 0.95f, 1.06f, 1.17f, 1.27f, 1.38f, 1.49f, 1.59f, 1.7f}, 21, 162.54497f, 0},
    {0.12f, (const float[]) {-2.1f, -1.95f, -1.8f, -1.65f, -1.5f, -1.35f, -1.2f, -1.05f, -0.9f, -0.75f, -0.6f, -0.45f, -0.3f, -0.15f, 0.0f, 0.15f, 0.3f, 0.45f, 0.6f, 0.75f, 0.9f}, 21, (const float[]) {0.12f, 0.12f, 0.12f, 0.12f, 0.12f, 0.13f, 0.14f, 0.18f, 0.23f, 0.3f, 0.37f, 0.45f, 0.52f, 0.6f, 0.67f, 0.75f, 0.82f, 0.9f, 0.97f, 1.05f, 1.12f}, 21, 6.747717f, 0},
};

/* D = -log10(10^(-(reading - offset) / slope) - leak) for readings from lowest_reading to highest_reading; with leak 0 this is (reading - offset) / slope. The tolerance can be met in single precision. */
#define GOLDEN_READING_TO_CORRECTED_DENSITY_ABSOLUTE_TOLERANCE 5.0E-6f
#define GOLDEN_READING_TO_CORRECTED_DENSITY_RELATIVE_TOLERANCE 0.0f

typedef struct {
    float reading;
    float offset;
    float slope;
    float leak;
    float lowest_reading;
    float highest_reading;
    float expected_corrected_density;
    const char *refusal;
} golden_reading_to_corrected_density_t;

static const golden_reading_to_corrected_density_t golden_reading_to_corrected_density[] = {
    {0.329f, 0.006001899f, 1.0040449f, 3.0108402E-4f, 0.036186557f, 2.9608507f, 0.3219712f, 0},
    {0.621f, 0.006001899f, 1.0040449f, 3.0108402E-4f, 0.036186557f, 2.9608507f, 0.61305666f, 0},
    {0.914f, 0.006001899f, 1.0040449f, 3.0108402E-4f, 0.036186557f, 2.9608507f, 0.9053905f, 0},
    {1.206f, 0.006001899f, 1.0040449f, 3.0108402E-4f, 0.036186557f, 2.9608507f, 1.1972181f, 0},
    {1.499f, 0.006001899f, 1.0040449f, 3.0108402E-4f, 0.036186557f, 2.9608507f, 1.491015f, 0},
    {1.791f, 0.006001899f, 1.0040449f, 3.0108402E-4f, 0.036186557f, 2.9608507f, 1.785718f, 0},
    {2.083f, 0.006001899f, 1.0040449f, 3.0108402E-4f, 0.036186557f, 2.9608507f, 2.0842218f, 0},
    {2.376f, 0.006001899f, 1.0040449f, 3.0108402E-4f, 0.036186557f, 2.9608507f, 2.3915222f, 0},
    {2.668f, 0.006001899f, 1.0040449f, 3.0108402E-4f, 0.036186557f, 2.9608507f, 2.7141998f, 0},
    {0.03518656f, 0.006001899f, 1.0040449f, 3.0108402E-4f, 0.036186557f, 2.9608507f, 0.0f, "the reading is outside those of the tablet"},
    {2.9618506f, 0.006001899f, 1.0040449f, 3.0108402E-4f, 0.036186557f, 2.9608507f, 0.0f, "the reading is outside those of the tablet"},
    {9.0f, 0.006001899f, 1.0040449f, 3.0108402E-4f, 0.036186557f, 2.9608507f, 0.0f, "the reading is outside those of the tablet"},
    {NAN, 0.006001899f, 1.0040449f, 3.0108402E-4f, 0.036186557f, 2.9608507f, 0.0f, "the reading is outside those of the tablet"},
    {INFINITY, 0.006001899f, 1.0040449f, 3.0108402E-4f, 0.036186557f, 2.9608507f, 0.0f, "the reading is outside those of the tablet"},
    {0.341f, 0.00607734f, 1.0039482f, 0.0f, 0.036333304f, 3.087358f, 0.3336055f, 0},
    {0.647f, 0.00607734f, 1.0039482f, 0.0f, 0.036333304f, 3.087358f, 0.6384021f, 0},
    {0.952f, 0.00607734f, 1.0039482f, 0.0f, 0.036333304f, 3.087358f, 0.9422026f, 0},
    {1.257f, 0.00607734f, 1.0039482f, 0.0f, 0.036333304f, 3.087358f, 1.2460032f, 0},
    {1.562f, 0.00607734f, 1.0039482f, 0.0f, 0.036333304f, 3.087358f, 1.5498036f, 0},
    {1.867f, 0.00607734f, 1.0039482f, 0.0f, 0.036333304f, 3.087358f, 1.8536042f, 0},
    {2.172f, 0.00607734f, 1.0039482f, 0.0f, 0.036333304f, 3.087358f, 2.1574047f, 0},
    {2.477f, 0.00607734f, 1.0039482f, 0.0f, 0.036333304f, 3.087358f, 2.4612052f, 0},
    {2.782f, 0.00607734f, 1.0039482f, 0.0f, 0.036333304f, 3.087358f, 2.7650058f, 0},
    {0.035333306f, 0.00607734f, 1.0039482f, 0.0f, 0.036333304f, 3.087358f, 0.0f, "the reading is outside those of the tablet"},
    {3.088358f, 0.00607734f, 1.0039482f, 0.0f, 0.036333304f, 3.087358f, 0.0f, "the reading is outside those of the tablet"},
    {9.0f, 0.00607734f, 1.0039482f, 0.0f, 0.036333304f, 3.087358f, 0.0f, "the reading is outside those of the tablet"},
    {NAN, 0.00607734f, 1.0039482f, 0.0f, 0.036333304f, 3.087358f, 0.0f, "the reading is outside those of the tablet"},
    {INFINITY, 0.00607734f, 1.0039482f, 0.0f, 0.036333304f, 3.087358f, 0.0f, "the reading is outside those of the tablet"},
};

#endif
