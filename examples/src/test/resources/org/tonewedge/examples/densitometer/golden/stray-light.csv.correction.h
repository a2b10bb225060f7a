/* From a reading to the true density: D = -log10(10^-((reading +0.0003) / 1.0002) - 3.989e-04) for readings from 0.0333 to 2.9112.
   Check of 2030-01-02: failed: 17 of 21 steps within 0.02 or 2.00 % of density, 1 fault found.
   Tablet: tablet.csv (21 steps, D 0.056 to D 3.053).
   Readings are equally spaced; interpolate on a straight line between two rows, which is at most
   0.001370 off, and mark readings outside 0.033333 to 2.911222 as out of range. */
#ifndef DENSITY_CORRECTION_H
#define DENSITY_CORRECTION_H

#define DENSITY_CORRECTION_OFFSET (-0.000348f)
#define DENSITY_CORRECTION_SLOPE (1.000181f)
#define DENSITY_CORRECTION_LEAK (3.989256e-04f)
#define DENSITY_CORRECTION_LOWEST_READING (0.033333f)
#define DENSITY_CORRECTION_HIGHEST_READING (2.911222f)
#define DENSITY_CORRECTION_ROWS 33

static const float density_correction_reading[DENSITY_CORRECTION_ROWS] = {
    0.033333f,
    0.123267f,
    0.213201f,
    0.303135f,
    0.393069f,
    0.483003f,
    0.572938f,
    0.662872f,
    0.752806f,
    0.842740f,
    0.932674f,
    1.022608f,
    1.112542f,
    1.202476f,
    1.292410f,
    1.382344f,
    1.472278f,
    1.562212f,
    1.652146f,
    1.742080f,
    1.832014f,
    1.921948f,
    2.011882f,
    2.101816f,
    2.191750f,
    2.281684f,
    2.371618f,
    2.461552f,
    2.551486f,
    2.641420f,
    2.731354f,
    2.821288f,
    2.911222f
};

static const float density_correction_density[DENSITY_CORRECTION_ROWS] = {
    0.033862f,
    0.123823f,
    0.213794f,
    0.303777f,
    0.393775f,
    0.483791f,
    0.573830f,
    0.663897f,
    0.753999f,
    0.844143f,
    0.934339f,
    1.024600f,
    1.114939f,
    1.205377f,
    1.295935f,
    1.386641f,
    1.477530f,
    1.568647f,
    1.660043f,
    1.751786f,
    1.843960f,
    1.936669f,
    2.030046f,
    2.124255f,
    2.219511f,
    2.316086f,
    2.414336f,
    2.514725f,
    2.617880f,
    2.724654f,
    2.836245f,
    2.954395f,
    3.081764f
};

static const float density_correction_uncertainty[DENSITY_CORRECTION_ROWS] = {
    0.004868f,
    0.003903f,
    0.003494f,
    0.003490f,
    0.003554f,
    0.003687f,
    0.003726f,
    0.003735f,
    0.003741f,
    0.003670f,
    0.003524f,
    0.003498f,
    0.003497f,
    0.003547f,
    0.003614f,
    0.003700f,
    0.003763f,
    0.003748f,
    0.003703f,
    0.003684f,
    0.003659f,
    0.003629f,
    0.003645f,
    0.003800f,
    0.003875f,
    0.003934f,
    0.004027f,
    0.003964f,
    0.003813f,
    0.003805f,
    0.003879f,
    0.004121f,
    0.004716f
};

#endif
