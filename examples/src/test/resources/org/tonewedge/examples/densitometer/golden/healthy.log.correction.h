/* From a reading to the true density: D = (reading -0.0012) / 1.0004 for readings from 0.0353 to 3.0756.
   Check of 2030-01-02: passed: 21 of 21 steps within 0.02 or 2.00 % of density, 0 faults found.
   Tablet: tablet.csv (21 steps, D 0.056 to D 3.053).
   Readings are equally spaced; interpolate on a straight line between two rows, which is at most
   0.000000 off, and mark readings outside 0.035333 to 3.075556 as out of range. */
#ifndef DENSITY_CORRECTION_H
#define DENSITY_CORRECTION_H

#define DENSITY_CORRECTION_OFFSET (0.001182f)
#define DENSITY_CORRECTION_SLOPE (1.000449f)
#define DENSITY_CORRECTION_LOWEST_READING (0.035333f)
#define DENSITY_CORRECTION_HIGHEST_READING (3.075556f)
#define DENSITY_CORRECTION_ROWS 33

static const float density_correction_reading[DENSITY_CORRECTION_ROWS] = {
    0.035333f,
    0.130340f,
    0.225347f,
    0.320354f,
    0.415361f,
    0.510368f,
    0.605375f,
    0.700382f,
    0.795389f,
    0.890396f,
    0.985403f,
    1.080410f,
    1.175417f,
    1.270424f,
    1.365431f,
    1.460437f,
    1.555444f,
    1.650451f,
    1.745458f,
    1.840465f,
    1.935472f,
    2.030479f,
    2.125486f,
    2.220493f,
    2.315500f,
    2.410507f,
    2.505514f,
    2.600521f,
    2.695528f,
    2.790535f,
    2.885542f,
    2.980549f,
    3.075556f
};

static const float density_correction_density[DENSITY_CORRECTION_ROWS] = {
    0.034136f,
    0.129101f,
    0.224065f,
    0.319029f,
    0.413993f,
    0.508958f,
    0.603922f,
    0.698886f,
    0.793851f,
    0.888815f,
    0.983779f,
    1.078743f,
    1.173708f,
    1.268672f,
    1.363636f,
    1.458600f,
    1.553565f,
    1.648529f,
    1.743493f,
    1.838457f,
    1.933422f,
    2.028386f,
    2.123350f,
    2.218315f,
    2.313279f,
    2.408243f,
    2.503207f,
    2.598172f,
    2.693136f,
    2.788100f,
    2.883064f,
    2.978029f,
    3.072993f
};

static const float density_correction_uncertainty[DENSITY_CORRECTION_ROWS] = {
    0.003829f,
    0.003757f,
    0.003706f,
    0.003708f,
    0.003666f,
    0.003606f,
    0.003638f,
    0.003674f,
    0.003715f,
    0.003733f,
    0.003728f,
    0.003694f,
    0.003680f,
    0.003674f,
    0.003680f,
    0.003667f,
    0.003646f,
    0.003553f,
    0.003482f,
    0.003430f,
    0.003458f,
    0.003488f,
    0.003477f,
    0.003501f,
    0.003529f,
    0.003481f,
    0.003444f,
    0.003456f,
    0.003461f,
    0.003478f,
    0.003516f,
    0.003581f,
    0.003656f
};

#endif
