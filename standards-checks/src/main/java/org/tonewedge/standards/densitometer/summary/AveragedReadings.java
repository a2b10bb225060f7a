// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.summary;

import java.util.OptionalInt;

/**
 * Readings that are means over earlier ones: of the last 2 to 8, of all since the change of step, or smoothed so that a
 * fraction of each new reading is taken; of the transmittances or of the densities. Across a change of step such a mean is
 * wrong, of transmittances more so: the clear step outshines the dense one.
 *
 * <p>What should have been read is known from the counts, or else from the certificate. A mean is recognised if it leaves
 * less than a tenth of the variance of the errors; the limit is the project's own. Within a step, without counts, it cannot
 * be recognised and hardly matters: the mean of transmittances reads (ln 10 / 2) s<sup>2</sup> below that of densities, 0.003
 * for readings that scatter by s = 0.05.
 *
 * <p>Immutable and thread safe.
 */
public final class AveragedReadings {

    /** What was averaged. */
    public enum Quantity {
        /** The transmittances. */
        TRANSMITTANCES,
        /** The densities. */
        DENSITIES,
        /** One or the other: both give these readings. */
        EITHER
    }

    private final Quantity quantity;
    private final String span;
    /** How many readings it reaches back; 0 if it begins anew with each step. */
    private final int window;

    private final double effect;

    private AveragedReadings(Quantity quantity, String span, int window, double effect) {
        this.quantity = quantity;
        this.span = span;
        this.window = window;
        this.effect = effect;
    }

    /** Compares readings with means as they arrive, in constant memory. */
    static final class Counter {

        private static final int LONGEST = 8;
        private static final double[] FRACTIONS = {0.5, 1.0 / 3, 0.25, 0.2, 0.15, 0.1, 0.05};
        private static final int CANDIDATES = LONGEST - 1 + 1 + FRACTIONS.length;
        private static final int SINCE_STEP = LONGEST - 1;
        private static final double EXPLAINED = 0.1;
        private static final double ALIKE = 0.5;
        /** Departures below this are of rounding. */
        private static final double ROUNDING = 1e-3;

        private final double[][] last = new double[2][LONGEST];
        private final double[][] smoothed = new double[2][FRACTIONS.length];
        private final double[] sinceStep = new double[2];
        private long inStep;
        private long order;
        private int stepBefore = -1;
        private boolean counted = true;
        /** Mean and sum of squares of the departures: first of the plain reading, then of each candidate. */
        private final double[][] moments = new double[1 + 2 * CANDIDATES][2];

        private long scored;

        /** The truth is the density by counts, or the certified one. */
        void add(int step, double printed, double truth, boolean byCounts) {
            if (!Double.isFinite(printed) || !Double.isFinite(truth)) {
                return;
            }
            counted &= byCounts;
            double[] now = {Math.pow(10, -truth), truth};
            inStep = step == stepBefore ? inStep + 1 : 1;
            stepBefore = step;
            for (int kind = 0; kind < 2; kind++) {
                last[kind][(int) (order % LONGEST)] = now[kind];
                sinceStep[kind] = inStep == 1 ? now[kind] : sinceStep[kind] + (now[kind] - sinceStep[kind]) / inStep;
                for (int i = 0; i < FRACTIONS.length; i++) {
                    smoothed[kind][i] =
                            order == 0 ? now[kind] : smoothed[kind][i] + FRACTIONS[i] * (now[kind] - smoothed[kind][i]);
                }
            }
            order++;
            if (order < LONGEST) {
                return;
            }
            scored++;
            score(0, printed - truth);
            for (int kind = 0; kind < 2; kind++) {
                double sum = 0;
                for (int n = 1; n <= LONGEST; n++) {
                    sum += last[kind][(int) ((order - n) % LONGEST)];
                    if (n > 1) {
                        score(1 + kind * CANDIDATES + n - 2, printed - density(kind, sum / n));
                    }
                }
                score(1 + kind * CANDIDATES + SINCE_STEP, printed - density(kind, sinceStep[kind]));
                for (int i = 0; i < FRACTIONS.length; i++) {
                    score(1 + kind * CANDIDATES + LONGEST + i, printed - density(kind, smoothed[kind][i]));
                }
            }
        }

        private static double density(int kind, double mean) {
            return kind == 0 ? -Math.log10(mean) : mean;
        }

        private void score(int candidate, double departure) {
            double[] moment = moments[candidate];
            double change = departure - moment[0];
            moment[0] += change / scored;
            moment[1] += change * (departure - moment[0]);
        }

        /** The mean that explains the readings, or null if none does. */
        AveragedReadings found() {
            double plain = moments[0][1];
            if (scored < LONGEST || !(Math.sqrt(plain / scored) > ROUNDING)) {
                return null;
            }
            int best = 0;
            for (int i = 1; i < moments.length; i++) {
                boolean possible = counted || (i - 1) % CANDIDATES != SINCE_STEP;
                if (possible && moments[i][1] < moments[best][1]) {
                    best = i;
                }
            }
            if (best == 0 || !(moments[best][1] < EXPLAINED * plain)) {
                return null;
            }
            int kind = (best - 1) / CANDIDATES;
            int span = (best - 1) % CANDIDATES;
            double other = Double.POSITIVE_INFINITY;
            for (int i = 0; i < CANDIDATES; i++) {
                other = Math.min(other, moments[1 + (1 - kind) * CANDIDATES + i][1]);
            }
            Quantity known = kind == 0 ? Quantity.TRANSMITTANCES : Quantity.DENSITIES;
            Quantity quantity = moments[best][1] > ALIKE * other ? Quantity.EITHER : known;
            double effect = Math.sqrt((moments[0][1] - moments[best][1]) / scored);
            if (span == SINCE_STEP) {
                return new AveragedReadings(quantity, "of all readings since the change of step", 0, effect);
            }
            if (span < SINCE_STEP) {
                return new AveragedReadings(quantity, "of the last " + (span + 2) + " readings", span + 2, effect);
            }
            double fraction = FRACTIONS[span - LONGEST];
            int readings = (int) Math.round(1 / fraction);
            return new AveragedReadings(
                    quantity,
                    "smoothed so that about 1/" + readings + " of each new reading is taken",
                    3 * readings,
                    effect);
        }
    }

    /**
     * Returns what was averaged.
     *
     * @return transmittances, densities, or either if both give these readings
     */
    public Quantity quantity() {
        return quantity;
    }

    /**
     * Returns how large the errors are.
     *
     * @return the standard deviation of what the mean adds to the readings
     * @units density
     */
    public double effect() {
        return effect;
    }

    /**
     * Returns how many readings of a step to leave out after each change of step.
     *
     * @return the length of the mean; of a smoothed reading, the number after which the step before counts for 5 % or less;
     *     empty if the mean begins anew with each step
     */
    public OptionalInt readingsToWait() {
        return window > 0 ? OptionalInt.of(window) : OptionalInt.empty();
    }

    /**
     * Returns what this is, in words that may change.
     *
     * @return for example {@code the mean transmittance of the last 4 readings}
     */
    @Override
    public String toString() {
        String mean = switch (quantity) {
            case TRANSMITTANCES -> "the mean transmittance ";
            case DENSITIES -> "the mean density ";
            case EITHER -> "the mean density or mean transmittance (both give these readings) ";
        };
        return mean + span;
    }
}
