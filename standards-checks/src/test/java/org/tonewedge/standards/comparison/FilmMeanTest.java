// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.comparison;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.quantity.CoverageInterval;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.strip.Processing;
import org.tonewedge.core.strip.Repeatability;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.fitting.parametric.CurveFits;
import org.tonewedge.standards.film.Iso6;

/** Strips of one film and development, taken together. */
class FilmMeanTest {

    private static final double READING_ERROR = 0.01;

    /** A tenth of a stop from strip to strip. */
    private static final double EXPOSURE_ERROR = 0.03;

    private static final CurveDrawing EXACT = CurveDrawing.throughReadings(Repeatability.of(0));

    /** The spread among strips needs no uncertainties of each. */
    private static final CurveDrawing FITTED =
            CurveDrawing.of(strip -> CurveFits.toeShoulder(strip).curve());

    private static final FilmFigure SPEED_POINT = FilmFigure.SPEED_POINT;

    private static Strip line(String id, String film, double minutes, double start) {
        Strip.Builder strip = Strip.builder(id)
                .film(film)
                .processing(Processing.unknown().withMinutes(minutes))
                .basePlusFog(0.2);
        for (int i = 0; i <= 40; i++) {
            double x = start - 1 + 0.1 * i;
            strip.reading(LogExposure.ofLogLuxSeconds(x), Density.of(0.2 + 0.6 * Math.max(0, x - start)));
        }
        return strip.build();
    }

    /** By hand: speed points at 0, −0.1 and +0.1 have the mean 0 and s = 0.1, so u = 0.1 / √3 with 2 degrees of freedom. */
    @Test
    void strips() {
        List<Strip> strips = List.of(
                line("R", "reference", 8, -2),
                line("A1", "A", 8, -2.3),
                line("A2", "A", 8, -2.4),
                line("A3", "A", 8, -2.2),
                line("A4", "A", 11, -2.5));
        List<FilmMean> films = FilmComparison.of(strips, "R", EXACT).films();
        assertEquals(3, films.size());
        FilmMean mean = films.get(1);
        assertEquals(3, mean.strips().size());
        assertTrue(mean.includesStripToStrip());
        assertFalse(films.get(2).includesStripToStrip());
        double single =
                StripFigures.of(strips.get(1), EXACT).get(SPEED_POINT).value().orElseThrow();
        Estimate point = mean.get(SPEED_POINT).estimate().orElseThrow();
        assertEquals(single, point.value(), 1e-9);
        assertEquals(0.1 / Math.sqrt(3), point.standardUncertainty(), 1e-9);
        assertEquals(2, point.degreesOfFreedom());
        // t of 2 degrees of freedom at 95 %: 4.303 (JCGM 100:2008, table G.2).
        assertEquals(4.303 * 0.1 / Math.sqrt(3), point.interval(0.95).upper() - point.value(), 1e-4);
        assertEquals(0.1, mean.stripToStripDeviation(SPEED_POINT).orElseThrow(), 1e-9);
        assertEquals(
                0.3 / Math.log10(2),
                mean.get(FilmFigure.STOPS_FROM_REFERENCE).value().orElseThrow(),
                1e-9);
        assertEquals(
                0, films.get(0).get(FilmFigure.STOPS_FROM_REFERENCE).value().orElseThrow());
        assertTrue(films.get(2).stripToStripDeviation(SPEED_POINT).isEmpty());
    }

    /**
     * Equal strips whose readings are uncertain: the readings explain all of what they differ by, which is nothing, and their
     * mean is as uncertain as that of two readings, u / √2.
     */
    @Test
    void readingsExplainTheSpreadOfEqualStrips() {
        List<Strip> strips = List.of(line("R", "reference", 8, -2), line("A1", "A", 8, -2.3), line("A2", "A", 8, -2.3));
        FilmMean mean = FilmComparison.of(strips, "R", CurveDrawing.throughReadings(Repeatability.of(READING_ERROR)))
                .films()
                .get(1);
        Estimate single = mean.strips().get(0).read(SPEED_POINT).fromReadings().orElseThrow();
        assertEquals(0, mean.stripToStripDeviation(SPEED_POINT).orElseThrow());
        Estimate both = mean.get(SPEED_POINT).estimate().orElseThrow();
        assertEquals(single.standardUncertainty() / Math.sqrt(2), both.standardUncertainty(), 1e-3);
        assertEquals(1, both.degreesOfFreedom());

        // The mean of n readings of standard deviation s has s / √n (JCGM 100:2008, 4.2.3).
        Estimate base = mean.get(FilmFigure.BASE_PLUS_FOG).estimate().orElseThrow();
        assertEquals(0.2, base.value(), 1e-12);
        assertEquals(READING_ERROR / Math.sqrt(2), base.standardUncertainty(), 1e-12);
    }

    /**
     * Of n equal strips of two layers, on which families disagree by d: u² = r² / n + d², since d is the same for all of them
     * (JCGM 100:2008, 5.2.2, with a correlation of 1). Hence u₁² − u₂² = r² / 2 and u₂² − u₆² = r² / 3.
     */
    @Test
    void theDisagreementOfFamiliesDoesNotBecomeLessWithMoreStrips() {
        SimulatedFilm film = SimulatedFilm.Shape.TWO_LAYERS.film(new Random(3));
        List<Strip> strips = new ArrayList<>();
        for (int k = 0; k < 6; k++) {
            strips.add(film.strip("S" + k, 21, READING_ERROR, new Random(8)));
        }
        double ofSix = varianceOfMean(strips);
        double ofTwo = varianceOfMean(strips.subList(0, 2));
        double ofOne = varianceOfMean(strips.subList(0, 1));
        assertEquals(1.5, (ofOne - ofTwo) / (ofTwo - ofSix), 1e-6);
        assertTrue(ofSix > 1.5 * ofOne / 6, ofOne + " becomes " + ofSix);
    }

    private static double varianceOfMean(List<Strip> strips) {
        double uncertainty = FilmComparison.of(strips, "S0")
                .films()
                .get(0)
                .get(FilmFigure.GAMMA)
                .estimate()
                .orElseThrow()
                .standardUncertainty();
        return uncertainty * uncertainty;
    }

    /** By hand: speed points 0.1 apart have a variance of 0.1² / 2, of which the readings explain their own. */
    @Test
    void readingsExplainAPartOfTheSpread() {
        FilmMean mean = FilmComparison.of(
                        List.of(line("R", "reference", 8, -2), line("A1", "A", 8, -2.3), line("A2", "A", 8, -2.4)),
                        "R",
                        CurveDrawing.throughReadings(Repeatability.of(READING_ERROR)))
                .films()
                .get(1);
        double own = mean.strips()
                .get(0)
                .read(SPEED_POINT)
                .fromReadings()
                .orElseThrow()
                .standardUncertainty();
        assertTrue(own > 0.01, "the readings explain something: " + own);
        assertEquals(
                Math.sqrt(0.005 - own * own),
                mean.stripToStripDeviation(SPEED_POINT).orElseThrow(),
                1e-3);
        assertEquals("A", mean.film());
    }

    /** A strip that does not reach the speed point takes no part in the mean of the others; one strip is no mean. */
    @Test
    void stripsThatLackAFigureTakeNoPart() {
        Strip.Builder thin = Strip.builder("A0")
                .film("A")
                .processing(Processing.unknown().withMinutes(8))
                .basePlusFog(0.2);
        for (int i = 0; i <= 10; i++) {
            thin.reading(LogExposure.ofLogLuxSeconds(-4 + 0.1 * i), Density.of(0.2 + 0.005 * i));
        }
        Strip reference = line("R", "reference", 8, -2);
        Strip one = line("A1", "A", 8, -2.3);
        Strip other = line("A2", "A", 8, -2.4);
        FilmMean both = FilmComparison.of(List.of(reference, thin.build(), one, other), "R", EXACT)
                .films()
                .get(1);
        double first = StripFigures.of(one, EXACT).get(SPEED_POINT).value().orElseThrow();
        assertEquals(first - 0.05, both.get(SPEED_POINT).value().orElseThrow(), 1e-9);
        FilmMean alone = FilmComparison.of(List.of(reference, thin.build(), one), "R", EXACT)
                .films()
                .get(1);
        assertEquals(
                "only one of the 2 strips gives it; a mean needs two",
                alone.get(SPEED_POINT).reason());
        assertTrue(alone.stripToStripDeviation(SPEED_POINT).isEmpty());
    }

    /** A slice of {@link #main}: a share of 0.95 of 150 lies within 0.89 and 1 but for one time in a thousand. */
    @Test
    @Tag("slow")
    void theMeanCoversTheTruthWhereASingleStripDoesNot() {
        Coverage found = Coverage.of(150, 3, 21);
        assertTrue(found.means >= 145, found::toString);
        assertEquals(0.95, found.ofMean(), 0.06, found::toString);
        assertTrue(found.ofSingle() < 0.85, found::toString);
    }

    /** How often intervals of the speed point contain the truth; a film whose readings do not reach it gives none. */
    private static final class Coverage {

        private final int films;
        private final int strips;
        private int means;
        private int byMean;
        private int singles;
        private int bySingle;

        private Coverage(int films, int strips) {
            this.films = films;
            this.strips = strips;
        }

        static Coverage of(int films, int strips, long seed) {
            Coverage found = new Coverage(films, strips);
            Random random = new Random(seed);
            for (int i = 0; i < films; i++) {
                found.add(random);
            }
            return found;
        }

        private void add(Random random) {
            SimulatedFilm film = SimulatedFilm.withShoulder(random);
            double truth = film.truth().get(SPEED_POINT).value().orElseThrow();
            List<Strip> same = new ArrayList<>();
            for (int k = 0; k < strips; k++) {
                same.add(film.strip("S" + k, 21, READING_ERROR, EXPOSURE_ERROR * random.nextGaussian(), random));
            }
            Optional<Estimate> mean = FilmComparison.of(same, "S0", FITTED)
                    .films()
                    .get(0)
                    .get(SPEED_POINT)
                    .estimate();
            if (mean.isPresent()) {
                means++;
                byMean += covers(mean.get(), truth) ? 1 : 0;
            }
            try {
                Estimate single = CurveFits.toeShoulder(same.get(0))
                        .estimate(curve -> curve.pointAbove(Iso6.SPEED_POINT_DENSITY)
                                .logExposure()
                                .value());
                singles++;
                bySingle += covers(single, truth) ? 1 : 0;
            } catch (NotDeterminableException e) {
                // the readings do not reach the speed point
            }
        }

        double ofMean() {
            return byMean / (double) means;
        }

        double ofSingle() {
            return bySingle / (double) singles;
        }

        private static boolean covers(Estimate estimate, double truth) {
            CoverageInterval interval = estimate.interval(0.95);
            return interval.lower() <= truth && truth <= interval.upper();
        }

        @Override
        public String toString() {
            return String.format(
                    Locale.ROOT,
                    "%d films of %d strips: %d means cover %.4f, %d single strips %.4f",
                    films,
                    strips,
                    means,
                    ofMean(),
                    singles,
                    ofSingle());
        }
    }

    /**
     * Of films of one shape, whose strips differ only by their readings: how often intervals of the mean, and two standard
     * uncertainties, contain the truth, and how wide the intervals are beside the errors.
     */
    private static void print(SimulatedFilm.Shape shape, int films, int strips, long seed) {
        Random random = new Random(seed);
        List<FilmFigure> figures = List.of(
                SPEED_POINT,
                FilmFigure.AVERAGE_GRADIENT,
                FilmFigure.CONTRAST_INDEX,
                FilmFigure.GAMMA,
                FilmFigure.TOE_LENGTH);
        double[][] sums = new double[figures.size()][5];
        for (int i = 0; i < films; i++) {
            SimulatedFilm film = shape.film(random);
            StripFigures truth = film.truth();
            List<Strip> same = new ArrayList<>();
            for (int k = 0; k < strips; k++) {
                same.add(film.strip("S" + k, 21, READING_ERROR, random));
            }
            FilmMean mean = FilmComparison.of(same, "S0").films().get(0);
            for (int f = 0; f < figures.size(); f++) {
                Optional<Estimate> estimate = mean.get(figures.get(f)).estimate();
                OptionalDouble exact = truth.get(figures.get(f)).value();
                if (estimate.isPresent() && exact.isPresent()) {
                    double error = Math.abs(estimate.get().value() - exact.getAsDouble());
                    sums[f][0]++;
                    sums[f][1] += Coverage.covers(estimate.get(), exact.getAsDouble()) ? 1 : 0;
                    sums[f][2] += error <= 2 * estimate.get().standardUncertainty() ? 1 : 0;
                    sums[f][3] += estimate.get().interval(0.95).upper()
                            - estimate.get().value();
                    sums[f][4] += error * error;
                }
            }
        }
        for (int f = 0; f < figures.size(); f++) {
            double n = sums[f][0];
            System.out.printf(
                    Locale.ROOT,
                    "%s, %d strips, %s: %.0f means, intervals hold %.1f %%, 2 u %.1f %%, half an interval is %.1f errors%n",
                    shape,
                    strips,
                    figures.get(f),
                    n,
                    100 * sums[f][1] / n,
                    100 * sums[f][2] / n,
                    sums[f][3] / n / Math.sqrt(sums[f][4] / n));
        }
    }

    /**
     * Prints the coverage of means and single strips: the number of films and, if not 2, 3 and 5, of strips, and the seed;
     * with the name of a shape after them, that of several figures of such films, as the comparison draws them.
     */
    public static void main(String[] args) {
        if (args.length > 3) {
            print(
                    SimulatedFilm.Shape.valueOf(args[3]),
                    Integer.parseInt(args[0]),
                    Integer.parseInt(args[1]),
                    Long.parseLong(args[2]));
            return;
        }
        int[] strips = args.length > 1 ? new int[] {Integer.parseInt(args[1])} : new int[] {2, 3, 5};
        for (int each : strips) {
            System.out.println(
                    Coverage.of(Integer.parseInt(args[0]), each, args.length > 2 ? Long.parseLong(args[2]) : 31));
        }
    }
}
