// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.comparison;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.tonewedge.core.quantity.Estimate;

class FigureDifferenceTest {

    private static final int STEPS = 21;
    private static final double ERROR = 0.01;

    /** Two-sided 95 % points of t: 1.960 for a normal, 3.182 for 3 and 2.228 for 10 degrees of freedom (JCGM 100:2008, table G.2). */
    @ParameterizedTest
    @CsvSource({
        "0.099, 0.05, Infinity, true",
        "0.097, 0.05, Infinity, false",
        "-0.099, 0.05, Infinity, true",
        "0.160, 0.05, 3, true",
        "0.158, 0.05, 3, false",
        "-0.112, 0.05, 10, true",
        "-0.111, 0.05, 10, false",
        "0, 0, Infinity, false",
        "0.01, 0, Infinity, true"
    })
    void aDifferenceIsSignificantOutsideItsInterval(
            double value, double uncertainty, double freedom, boolean expected) {
        Estimate difference = Estimate.of(value, uncertainty, freedom);
        assertEquals(expected, new FigureDifference(FilmFigure.TOE_LENGTH, difference).isSignificant());
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "TOE_LENGTH | 0.31 | 0.05 | The toe is 0.31 ± 0.05 log units longer than the reference's.",
                "TOE_LENGTH | -0.31 | 0.05 | The toe is 0.31 ± 0.05 log units shorter than the reference's.",
                "STOPS_FROM_REFERENCE | -0.5 | 0.04 | It is 0.50 ± 0.04 stops slower than the reference.",
                "PRINT_STOPS_FROM_REFERENCE | 0.5 | 0.04 | It needs 0.50 ± 0.04 stops more printing exposure than the reference.",
                "SHOULDER_START_DENSITY | -0.22 | 0.013 | The shoulder begins at a density 0.220 ± 0.013 lower than the reference's.",
                "GAMMA | 0.1 | 0.03 | Gamma is 0.10 ± 0.03 higher than the reference's."
            })
    void aDifferenceIsASentence(FilmFigure figure, double value, double uncertainty, String sentence) {
        assertEquals(sentence, new FigureDifference(figure, Estimate.of(value, uncertainty)).toString());
    }

    /** A film and a reference whose truths are known; the reference has no shoulder to compare with. */
    @Test
    @Tag("slow")
    void differencesAreThoseOfTheFilms() {
        Random random = new Random(5);
        int named = 0;
        for (int i = 0; i < 10; i++) {
            SimulatedFilm film = SimulatedFilm.withShoulder(random);
            SimulatedFilm other = SimulatedFilm.withoutShoulder(random);
            StripComparison truth = StripComparison.of(film.truth(), other.truth());
            StripComparison read = StripComparison.of(read(film, "S", random), read(other, "R", random));
            for (FigureDifference difference : read.differences()) {
                FilmFigure figure = difference.figure();
                double exact = figure.isBesideReference()
                        ? truth.get(figure).value().orElseThrow()
                        : truth.figures().get(figure).value().orElseThrow()
                                - other.truth().get(figure).value().orElseThrow();
                double found = difference.estimate().value();
                assertEquals(exact, found, 5 * difference.estimate().standardUncertainty(), difference.toString());
                named += difference.isSignificant() ? 1 : 0;
            }
            assertTrue(
                    read.differences().stream().noneMatch(found -> found.figure() == FilmFigure.SHOULDER_START_DENSITY),
                    "the reference has no shoulder");
        }
        assertTrue(named > 30, "films differ in " + named + " figures");
    }

    @Test
    void theReferenceDoesNotDifferFromItself() {
        StripFigures figures = read(SimulatedFilm.withShoulder(new Random(1)), "R", new Random(2));
        assertEquals(List.of(), StripComparison.of(figures, figures).differences());
    }

    @Test
    void withoutUncertaintiesNothingIsClaimed() {
        Random random = new Random(3);
        assertEquals(
                List.of(),
                StripComparison.of(
                                SimulatedFilm.withShoulder(random).truth(),
                                SimulatedFilm.withShoulder(random).truth())
                        .differences());
    }

    /** Of pairs that do not differ, no figure is called different much more often than at 95 %. */
    @Test
    @Tag("slow")
    void pairsOfOneFilmSeldomDiffer() {
        Map<FilmFigure, int[]> counts = alarms(120, 17);
        int given = 0;
        int alarms = 0;
        for (Map.Entry<FilmFigure, int[]> count : counts.entrySet()) {
            given += count.getValue()[0];
            alarms += count.getValue()[1];
            // Binomial: with 120 pairs at 5 %, 16 and more come in one of a thousand series.
            assertTrue(count.getValue()[1] < 16, count.getKey() + ": " + count.getValue()[1]);
        }
        assertTrue(alarms > 0 && alarms < 0.08 * given, alarms + " of " + given);
        assertFalse(given < 500, "pairs gave " + given);
    }

    private static StripFigures read(SimulatedFilm film, String id, Random random) {
        return StripFigures.of(film.strip(id, STEPS, ERROR, random));
    }

    /** For each figure in how many pairs of strips of one film it was given, and called different. */
    private static Map<FilmFigure, int[]> alarms(int pairs, long seed) {
        Random random = new Random(seed);
        Map<FilmFigure, int[]> counts = new EnumMap<>(FilmFigure.class);
        for (int i = 0; i < pairs; i++) {
            SimulatedFilm film = SimulatedFilm.withShoulder(random);
            List<FigureDifference> differences =
                    new ArrayList<>(StripComparison.of(read(film, "S", random), read(film, "R", random))
                            .differences());
            for (FigureDifference difference : differences) {
                int[] count = counts.computeIfAbsent(difference.figure(), any -> new int[2]);
                count[0]++;
                count[1] += difference.isSignificant() ? 1 : 0;
            }
        }
        return counts;
    }

    /** Prints the rate of false alarms: {@code FigureDifferenceTest PAIRS SEED}. */
    public static void main(String[] args) {
        alarms(Integer.parseInt(args[0]), Long.parseLong(args[1]))
                .forEach((figure, count) -> System.out.printf(
                        Locale.ROOT,
                        "%-26s given %d, called different %.3f%n",
                        figure.id(),
                        count[0],
                        (double) count[1] / count[0]));
    }
}
