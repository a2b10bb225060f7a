// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.comparison;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Locale;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.tonewedge.core.quantity.CoverageInterval;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.ExposureAxis;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.strip.Strip;

/** Errors of tablet and exposure that were stated of the strips, in the figures of a comparison. */
class StatedErrorsTest {

    private static final int STEPS = 13;
    private static final double TABLET = 0.005;
    private static final double WHOLE = 0.06;
    private static final double READING = 0.005;

    /** D = 0.25 + a softened line, 0.62 steep: its gradient and softness place the point 0.10 above base. */
    private static final double POINT = -2.2 + 0.2 * Math.log(Math.expm1(0.10 / (0.62 * 0.2)));

    private static double density(double exposure) {
        return 0.25 + 0.62 * 0.2 * Math.log1p(Math.exp((exposure + 2.2) / 0.2));
    }

    private static Strip strip(String id, double faster, double whole, double[] tablet, Random random) {
        return strip(id, ExposureAxis.LUX_SECONDS, faster, whole, tablet, random);
    }

    /** A strip whose exposures are believed to be those of the tablet, and were off by the errors. */
    private static Strip strip(
            String id, ExposureAxis axis, double faster, double whole, double[] tablet, Random random) {
        Strip.Builder strip = Strip.builder(id).boxSpeed(100).exposureError("exposure of " + id, WHOLE);
        for (int i = 0; i < 3; i++) {
            strip.basePlusFog(0.25 + READING * random.nextGaussian());
        }
        for (int i = 0; i < STEPS; i++) {
            LogExposure believed = new LogExposure(-0.2 - 0.25 * i, axis);
            double drawn = density(believed.value() + faster + whole + tablet[i]);
            strip.reading(believed, Density.of(drawn + READING * random.nextGaussian()));
            strip.exposureError("step " + (i + 1) + " of the tablet", believed, TABLET);
        }
        return strip.build();
    }

    /** What came out of simulated pairs of films behind one tablet. */
    private static final class Pairs {
        private int pairs;
        private int ofPoint;
        private int ofPointByReadings;
        private int ofStops;
        private double squaresOfPoint;
        private double statedOfPoint;
        private double squaresOfStops;
        private double statedOfStops;

        static Pairs of(int pairs, long seed) {
            Pairs found = new Pairs();
            Random random = new Random(seed);
            for (int i = 0; i < pairs; i++) {
                found.add(random);
            }
            return found;
        }

        private void add(Random random) {
            double faster = 0.6 * random.nextDouble() - 0.3;
            double[] tablet = new double[STEPS];
            for (int i = 0; i < STEPS; i++) {
                tablet[i] = TABLET * random.nextGaussian();
            }
            StripFigures reference = StripFigures.of(strip("R", 0, WHOLE * random.nextGaussian(), tablet, random));
            StripFigures film = StripFigures.of(strip("A", faster, WHOLE * random.nextGaussian(), tablet, random));
            Figure point = film.get(FilmFigure.SPEED_POINT);
            Figure stops = StripComparison.of(film, reference).get(FilmFigure.STOPS_FROM_REFERENCE);
            pairs++;
            ofPoint += contains(point.estimate().orElseThrow(), POINT - faster);
            ofPointByReadings += contains(point.fromReadings().orElseThrow(), POINT - faster);
            ofStops += contains(stops.estimate().orElseThrow(), faster / Math.log10(2));
            squaresOfPoint += square(point.value().orElseThrow() - POINT + faster);
            statedOfPoint += square(point.estimate().orElseThrow().standardUncertainty());
            squaresOfStops += square(stops.value().orElseThrow() - faster / Math.log10(2));
            statedOfStops += square(stops.estimate().orElseThrow().standardUncertainty());
        }

        private static double square(double value) {
            return value * value;
        }

        /** The stated uncertainty of the speed point over its true one. */
        double sizeOfPoint() {
            return Math.sqrt(statedOfPoint / squaresOfPoint);
        }

        /** The stated uncertainty of stops from the reference over the true one. */
        double sizeOfStops() {
            return Math.sqrt(statedOfStops / squaresOfStops);
        }

        private static int contains(Estimate estimate, double truth) {
            CoverageInterval interval = estimate.interval(0.95);
            return interval.lower() <= truth && truth <= interval.upper() ? 1 : 0;
        }

        @Override
        public String toString() {
            return String.format(
                    Locale.ROOT,
                    "%d pairs: speed point %.3f (readings alone %.3f), u stated over true %.2f; stops from the reference %.3f,"
                            + " u stated over true %.2f",
                    pairs,
                    ofPoint / (double) pairs,
                    ofPointByReadings / (double) pairs,
                    sizeOfPoint(),
                    ofStops / (double) pairs,
                    sizeOfStops());
        }
    }

    /** 80 pairs: 95 % of them are 76 ± 2. Those of the tablet count twice, as scatter about the curve too. */
    @Test
    @Tag("slow")
    void intervalsIncludeTheTruthBehindAnErroneousTablet() {
        Pairs pairs = Pairs.of(80, 5);
        assertTrue(pairs.ofPoint >= 71, pairs::toString);
        assertTrue(pairs.ofStops >= 71, pairs::toString);
        // Without the errors of tablet and exposure, intervals of a film's own speed would be too narrow.
        assertTrue(pairs.ofPointByReadings < 64, pairs::toString);
        assertEquals(1, pairs.sizeOfPoint(), 0.35, pairs::toString);
        assertEquals(1, pairs.sizeOfStops(), 0.35, pairs::toString);
    }

    /** Two films read at the same steps share all of the tablet's error. */
    @Test
    void aCommonTabletCancelsBesideTheReference() {
        double[] none = new double[STEPS];
        FilmComparison comparison = FilmComparison.of(
                List.of(strip("R", 0, 0, none, new Random(1)), strip("A", 0, 0, none, new Random(1))), "R");
        Figure stops = comparison.rows().get(1).get(FilmFigure.STOPS_FROM_REFERENCE);
        stops.statedErrors().contributions().forEach((source, contribution) -> {
            if (source.startsWith("step")) {
                assertEquals(0, contribution, 1e-12, source);
            }
        });
        assertEquals(WHOLE * Math.sqrt(2) / Math.log10(2), stops.statedErrors().standardUncertainty(), 1e-6);
        double own = comparison
                .reference()
                .get(FilmFigure.SPEED_POINT)
                .statedErrors()
                .standardUncertainty();
        assertTrue(own > WHOLE && own < Math.hypot(WHOLE, TABLET), () -> "u " + own);
    }

    /** Relative exposures keep their stated errors when the reference's speed is taken as known. */
    @Test
    void anchoredStripsKeepTheirErrors() {
        double[] none = new double[STEPS];
        ExposureAxis relative = ExposureAxis.relativeTo("the lamp");
        FilmComparison comparison = FilmComparison.of(
                        List.of(
                                strip("R", relative, 0, 0, none, new Random(1)),
                                strip("A", relative, 0, 0, none, new Random(1))),
                        "R")
                .withReferenceSpeed(100);
        StripComparison row = comparison.rows().get(1);
        assertEquals(1 + STEPS, row.figures().strip().statedErrors().size());
        double stops = row.get(FilmFigure.STOPS_FROM_REFERENCE).statedErrors().standardUncertainty();
        assertEquals(
                stops, row.get(FilmFigure.STOPS_FROM_BOX_SPEED).statedErrors().standardUncertainty(), 1e-6);
    }

    /** Prints the coverage: the number of pairs, and perhaps the seed. */
    public static void main(String[] args) {
        System.out.println(Pairs.of(Integer.parseInt(args[0]), args.length > 1 ? Long.parseLong(args[1]) : 1));
    }
}
