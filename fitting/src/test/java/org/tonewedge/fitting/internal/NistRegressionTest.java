// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.internal;

import static org.junit.jupiter.api.Assertions.assertAll;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * The engine against the 27 nonlinear regression problems of NIST's Statistical Reference Datasets (certified values to
 * 11 digits; US government work, read from the copies named in {@link NistDataset}). Derivatives are the engine's own
 * differences.
 */
class NistRegressionTest {

    private static final Path PUBLISHED = Path.of(
            "src/main/javadoc/org.tonewedge.fitting/org/tonewedge/fitting/parametric/doc-files/nist-regression.html");
    private static final Pattern ROW = Pattern.compile(
            "<tr><th scope=\"row\">(\\w+)</th><td>(\\d)</td><td>(yes|no)</td><td>(\\d+)</td><td>(\\d+)</td></tr>");

    /** Lanczos1 was generated to 14 digits, so its residuals are rounding and their spread has no digits to compare. */
    private static final String EXACT = "Lanczos1";

    private static final int MOST_DIGITS_SHOWN = 8;

    static Stream<String> names() {
        return NistModel.all().keySet().stream();
    }

    @ParameterizedTest
    @MethodSource("names")
    @Tag("slow")
    void certifiedValuesFromBothStarts(String name) throws IOException {
        NistDataset set = NistDataset.read(name);
        for (int start = 1; start <= 2; start++) {
            Outcome outcome = Outcome.of(set, start);
            assertTrue(
                    outcome.solution.stopReason().isConverged(), () -> outcome.solution.stopReason() + " in " + name);
            if (name.equals(EXACT)) {
                for (int j = 0; j < set.certified().length; j++) {
                    assertEquals(set.certified()[j], outcome.solution.parameters()[j], 1e-8);
                }
                assertTrue(outcome.solution.residualSumOfSquares() < 1e-24);
            } else {
                assertTrue(outcome.parameterDigits >= 6, () -> name + " parameters: " + outcome.parameterDigits);
                assertTrue(outcome.errorDigits >= 5, () -> name + " standard errors: " + outcome.errorDigits);
            }
        }
    }

    @Test
    @Tag("slow")
    void publishedTableIsTrue() throws IOException {
        List<Outcome> outcomes = new ArrayList<>();
        for (String name : NistModel.all().keySet()) {
            NistDataset set = NistDataset.read(name);
            outcomes.add(Outcome.of(set, 1));
            outcomes.add(Outcome.of(set, 2));
        }
        StringBuilder table = new StringBuilder();
        outcomes.forEach(outcome -> table.append(outcome.row()).append('\n'));
        Files.writeString(Path.of("target", "nist-regression.txt"), table);
        String published = Files.readString(PUBLISHED);
        assertEquals(54, ROW.matcher(published).results().count());
        assertAll(outcomes.stream().map(outcome -> () -> outcome.assertPublishedIn(published)));
    }

    /** One problem solved from one start. */
    private static final class Outcome {

        private final NistDataset set;
        private final int start;
        private final LeastSquaresSolution solution;
        private final double parameterDigits;
        private final double errorDigits;

        private Outcome(NistDataset set, int start, LeastSquaresSolution solution) {
            this.set = set;
            this.start = start;
            this.solution = solution;
            parameterDigits = digits(solution.parameters(), set.certified());
            errorDigits = digits(solution.standardErrors(), set.deviations());
        }

        static Outcome of(NistDataset set, int start) {
            LeastSquaresProblem problem = set.problem(NistModel.all().get(set.name()));
            return new Outcome(set, start, LeastSquares.withDefaults().solve(problem, set.start(start)));
        }

        /** The least number of correct digits, −log<sub>10</sub> of the relative error; at most the 11 certified. */
        private static double digits(double[] values, double[] certified) {
            double least = 11;
            for (int j = 0; j < values.length; j++) {
                least = Math.min(least, -Math.log10(Math.abs(values[j] - certified[j]) / Math.abs(certified[j])));
            }
            return least;
        }

        private static int shown(double digits) {
            return (int) Math.max(0, Math.min(MOST_DIGITS_SHOWN, Math.floor(digits)));
        }

        String row() {
            return "<tr><th scope=\"row\">" + set.name() + "</th><td>" + start + "</td><td>"
                    + (solution.stopReason().isConverged() ? "yes" : "no") + "</td><td>" + shown(parameterDigits)
                    + "</td><td>" + shown(errorDigits) + "</td></tr>";
        }

        /** The row as published, where rounding of another machine may move a count of digits by one. */
        void assertPublishedIn(String page) {
            Matcher row = ROW.matcher(page);
            while (row.find()) {
                if (row.group(1).equals(set.name()) && Integer.parseInt(row.group(2)) == start) {
                    assertEquals(row.group(3), solution.stopReason().isConverged() ? "yes" : "no", set.name());
                    assertEquals(Integer.parseInt(row.group(4)), shown(parameterDigits), 1, set.name());
                    assertEquals(Integer.parseInt(row.group(5)), shown(errorDigits), 1, set.name());
                    return;
                }
            }
            throw new AssertionError(set.name() + " from start " + start + " is missing");
        }
    }
}
