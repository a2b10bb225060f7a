// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.verdict;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.BufferedInputStream;
import java.io.IOException;
import java.util.Locale;
import java.util.Random;
import java.util.Set;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.strip.StepTablet;
import org.tonewedge.standards.densitometer.input.DensitometerInputException;
import org.tonewedge.standards.densitometer.input.LayoutGuess;
import org.tonewedge.standards.densitometer.input.LineKind;
import org.tonewedge.standards.densitometer.input.RawCounts;
import org.tonewedge.standards.densitometer.summary.ArithmeticFault;
import org.tonewedge.standards.densitometer.summary.ReadingsSummary;

/** Sound optics and a firmware with one fault in its arithmetic: from the text of the log to the verdict. */
class FaultyFirmwareTest {

    private static final String HEADER =
            "step\tsample\tdark\topen\topen_dark\tgain\topen_gain\tint\topen_int\tdensity\n";
    private static final String PLACES = "tab step=step sample=sample dark=dark open=open open_dark=open_dark gain=gain"
            + " open_gain=open_gain integration=int open_integration=open_int density=density";
    private static final Set<ArithmeticFault> HARMLESS =
            Set.of(ArithmeticFault.DECIMALS_CUT_OFF, ArithmeticFault.STRAY_READINGS);

    /** What a firmware with the fault prints. */
    private static double printed(ArithmeticFault fault, RawCounts counts, int reading) {
        double right = counts.density();
        return switch (fault) {
            case DECIMALS_CUT_OFF -> Math.floor(right * 1000) / 1000;
            case RANGE_CLIPPED -> Math.min(right, 2);
            case STRAY_READINGS -> reading == 77 ? right + 0.01 : right;
            case GAIN_TABLE_WRONG -> right + (counts.gainRatio() > 1 ? Math.log10(1.1) : 0);
            case UNEXPLAINED -> right + 0.1 * Math.sin(9 * right);
            default -> fault.printed(counts).orElse(Double.NaN);
        };
    }

    private static String log(String header, ArithmeticFault fault) {
        Random random = new Random(3);
        StringBuilder log = new StringBuilder("boot: ready\n").append(header);
        int reading = 0;
        for (int run = 0; run < 3; run++) {
            for (StepTablet.Step step : Logs.TABLET.steps()) {
                for (int repeat = 0; repeat < 3; repeat++) {
                    double gain = step.density().value() > 1 ? 4 : 1;
                    double time = step.density().value() > 2 ? 10 : 1;
                    double light = 4_000_000
                            * gain
                            * time
                            * Math.pow(10, -step.density().value())
                            * (1 + 0.001 * random.nextGaussian());
                    RawCounts counts = new RawCounts(Math.rint(20_000 + light), 20_000, 4_015_000, 15_000, gain, time);
                    log.append(String.format(
                            Locale.ROOT,
                            "%d\t%.0f\t%.0f\t%.0f\t%.0f\t%.0f\t1\t%.0f\t1\t%.3f%n",
                            step.number(),
                            counts.sample(),
                            counts.dark(),
                            counts.openGate(),
                            counts.openGateDark(),
                            gain,
                            time,
                            printed(fault, counts, reading++)));
                }
            }
        }
        return log.toString().replace("Infinity", "inf");
    }

    /** The sign and the signed 16 bits do no harm from D 0.05 to 3.05. */
    private static DensitometerVerdict judgeStated(ArithmeticFault fault) {
        return DensitometerCheck.withDefaults().judge(Logs.summarise(PLACES, Logs.TABLET, log(HEADER, fault)));
    }

    private static DensitometerVerdict judgeGuessed(String log) throws IOException {
        BufferedInputStream stream = new BufferedInputStream(Logs.stream(log));
        LayoutGuess guess = LayoutGuess.from(stream);
        return DensitometerCheck.withDefaults().judge(ReadingsSummary.read(stream, guess.layout(), Logs.TABLET));
    }

    private static void assertNamed(ArithmeticFault fault, DensitometerVerdict verdict) {
        assertEquals(fault, verdict.summary().audit().orElseThrow().fault().orElseThrow());
        assertEquals(
                HARMLESS.contains(fault),
                verdict.isPassed(),
                () -> verdict.findings().toString());
        assertEquals(!HARMLESS.contains(fault), verdict.isArithmeticWrong());
        if (verdict.isArithmeticWrong()) {
            assertEquals(1, verdict.opticalComparison().slope().value(), 0.002);
        }
    }

    @ParameterizedTest
    @EnumSource(
            mode = EnumSource.Mode.EXCLUDE,
            names = {"SIGN_LOST", "OVERFLOW_SIGNED_16_BIT"})
    @Tag("slow")
    void isNamedByALogWhoseLayoutIsStated(ArithmeticFault fault) {
        assertNamed(fault, judgeStated(fault));
    }

    @ParameterizedTest
    @EnumSource(
            mode = EnumSource.Mode.EXCLUDE,
            names = {"SIGN_LOST", "OVERFLOW_SIGNED_16_BIT"})
    void isNamedByALogWhoseLayoutIsGuessed(ArithmeticFault fault) throws IOException {
        assertNamed(
                fault,
                judgeGuessed(log(HEADER.replace("open_int", "open_integration").replace("\tdensity", "\tD"), fault)));
    }

    /** As a log of few columns: step, sample, dark, open, density. */
    private static String narrow(String header, DoubleUnaryOperator arithmetic, int runs) {
        StringBuilder log = new StringBuilder(header);
        for (int run = 0; run < runs; run++) {
            for (StepTablet.Step step : Logs.TABLET.steps()) {
                long sample = Math.round(
                        260 + run % 3 + 480_000 * Math.pow(10, -step.density().value()));
                double density = RawCounts.of((double) sample, 260, 480_260).density();
                log.append(String.format(
                        Locale.ROOT,
                        "%d,%d,260,480260,%.3f%n",
                        step.number(),
                        sample,
                        arithmetic.applyAsDouble(density)));
            }
        }
        return log.toString();
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "step,sample,dark,open,density\n"})
    void isNamedWhereThePrintedDensitiesAreImpossible(String header) throws IOException {
        for (int runs : new int[] {1, 2}) {
            assertEquals(
                    ArithmeticFault.SIGN_REVERSED,
                    judgeGuessed(narrow(header, density -> -density, runs))
                            .summary()
                            .audit()
                            .orElseThrow()
                            .fault()
                            .orElseThrow());
            assertEquals(
                    ArithmeticFault.BINARY_LOGARITHM,
                    judgeGuessed(narrow(header, density -> density / Math.log10(2), runs))
                            .summary()
                            .audit()
                            .orElseThrow()
                            .fault()
                            .orElseThrow());
            assertTrue(judgeGuessed(narrow(header, density -> density, runs)).isPassed());
        }
    }

    @Test
    void isWarnedOfWhereANumberThatMayBeTheDensityIsNotUsed() {
        DensitometerVerdict verdict = DensitometerCheck.withDefaults()
                .judge(Logs.summarise(
                        "comma step=1 sample=2 dark=3 open=4", Logs.TABLET, narrow("", density -> -density, 2)));

        Finding warned = verdict.findings().stream()
                .filter(found -> found.kind() == FindingKind.DENSITY_NOT_USED)
                .findFirst()
                .orElseThrow();
        assertEquals(Severity.WARNING, warned.severity());
    }

    /** Sound firmware that chooses its gain and prints the dark of the sample alone, not that of the open gate at gain 1. */
    private static String autoRanging(long seed, double gainTable) {
        Random random = new Random(seed);
        StringBuilder log = new StringBuilder("boot: ready\n");
        for (int run = 0; run < 3; run++) {
            for (StepTablet.Step step : Logs.TABLET.steps()) {
                double density = step.density().value();
                double gain = density > 2.2 ? 64 : density > 1.4 ? 16 : density > 0.8 ? 4 : 1;
                double dark = Math.rint(120 * Math.sqrt(gain) + random.nextGaussian());
                double open = Math.rint(50_000 + 5 * random.nextGaussian());
                double openDark = 120;
                double light = 49_880 * gain * Math.pow(10, -density);
                double raw = Math.rint(dark + light * (1 + 0.001 * random.nextGaussian()));
                double printed = Math.log10((open - openDark) * gain * gainTable / (raw - dark));
                log.append(String.format(
                        Locale.ROOT,
                        "step=%d D=%.3f raw=%.0f dark=%.0f open=%.0f gain=%.0f%n",
                        step.number(),
                        printed,
                        raw,
                        dark,
                        open,
                        gain));
            }
        }
        return log.toString();
    }

    @Test
    @Tag("slow")
    void isNotAccusedForTheDarkThatTheLogDoesNotGive() throws IOException {
        for (int seed = 0; seed < 100; seed++) {
            DensitometerVerdict verdict = judgeGuessed(autoRanging(seed, 1));

            assertTrue(verdict.isPassed(), verdict.findings().toString());
            assertFalse(verdict.isArithmeticWrong());
            assertTrue(verdict.findings().stream()
                    .anyMatch(found ->
                            found.kind() == FindingKind.OPEN_DARK_NOT_STATED && found.severity() == Severity.NOTE));
        }
    }

    /** Half a unit off at the third decimal, a fortieth of the tolerance. */
    @Test
    void isNotAccusedForAnArithmeticThatIsFarBelowTheTolerance() throws IOException {
        DensitometerVerdict verdict = judgeGuessed(
                narrow("step,sample,dark,open,density\n", density -> density + 0.0011 * Math.sin(9 * density), 3));

        assertTrue(verdict.isPassed(), verdict.findings().toString());
        assertEquals(
                Severity.NOTE,
                verdict.findings().stream()
                        .filter(found -> found.kind() == FindingKind.ARITHMETIC)
                        .findFirst()
                        .orElseThrow()
                        .severity());
    }

    private static String withoutCounts(DoubleUnaryOperator arithmetic, int steps) {
        StringBuilder log = new StringBuilder();
        for (StepTablet.Step step : Logs.TABLET.steps().subList(0, steps)) {
            for (int repeat = 0; repeat < 4; repeat++) {
                log.append(String.format(
                        Locale.ROOT,
                        "step=%d D=%.3f%n",
                        step.number(),
                        arithmetic.applyAsDouble(step.density().value() + 0.001 * (repeat % 2))));
            }
        }
        return log.toString();
    }

    @Test
    void isSuspectedWithoutCountsWhereTheSignIsReversed() throws IOException {
        DensitometerVerdict verdict = judgeGuessed(withoutCounts(density -> -density, 21));

        assertFalse(verdict.isPassed());
        assertEquals(-1, verdict.comparison().slope().value(), 0.01);
        String findings = verdict.findings().toString();
        assertEquals(1, findings.split("sign is reversed", -1).length - 1, findings);
        assertTrue(findings.contains("lines have densities outside −0.2…10"), findings);
        assertFalse(findings.contains("DAMAGED_LINES"), findings);
        // The reversed sign explains that readings fall.
        assertFalse(findings.contains("NOT_MONOTONE"), findings);
    }

    @Test
    void isSuspectedWithoutCountsWhereTheLogarithmIsWrong() throws IOException {
        assertTrue(judgeGuessed(withoutCounts(density -> Math.log(10) * density, 21))
                .findings()
                .toString()
                .contains("the natural logarithm"));
        assertTrue(judgeGuessed(withoutCounts(density -> density / Math.log10(2), 21))
                .findings()
                .toString()
                .contains("the logarithm to base 2"));
    }

    @Test
    void givesTheTallyWhereTooFewStepsAreLeft() {
        DensitometerInputException thrown = assertThrows(
                DensitometerInputException.class,
                () -> DensitometerCheck.withDefaults()
                        .withDensities(Density.of(0.3), Density.of(0.6))
                        .judge(Logs.summarise(
                                "keys step=step density=d", Logs.TABLET, withoutCounts(density -> -density, 21))));

        assertTrue(thrown.getMessage().contains("84 lines: "), thrown.getMessage());
        assertTrue(
                thrown.getMessage().contains("lines have densities outside −0.2…10; is the sign reversed?"),
                thrown.getMessage());
    }

    @Test
    void doesNotTakeADamagedDigitForTheInstrument() throws IOException {
        String log = withoutCounts(density -> density, 21).replaceFirst("D=0\\.", "D=-9.");

        DensitometerVerdict verdict = judgeGuessed(log);

        assertTrue(verdict.isPassed(), verdict.findings().toString());
        assertEquals(1, verdict.summary().tally().count(LineKind.IMPLAUSIBLE));
        assertEquals(3, verdict.comparison().steps().get(0).count());
        assertTrue(verdict.findings().stream().anyMatch(found -> found.kind() == FindingKind.DAMAGED_LINES));
    }
}
