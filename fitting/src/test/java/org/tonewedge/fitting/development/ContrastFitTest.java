// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.development;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.function.Function;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.tonewedge.core.internal.DevelopmentTimes;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.ResultRecord;
import org.tonewedge.core.quantity.Temperature;
import org.tonewedge.fitting.internal.Resources;

class ContrastFitTest {

    private static final Temperature COOL = Temperature.ofCelsius(18);
    private static final Temperature TWENTY = Temperature.ofCelsius(20);
    private static final Temperature WARM = Temperature.ofCelsius(24);

    private static List<DevelopedFigure> points(double... minutesAndContrasts) {
        List<DevelopedFigure> points = new ArrayList<>();
        for (int i = 0; i < minutesAndContrasts.length; i += 2) {
            points.add(DevelopedFigure.of(
                    "strip 'S" + (i / 2 + 1) + "'",
                    DevelopmentTimes.ofMinutes(minutesAndContrasts[i]),
                    minutesAndContrasts[i + 1]));
        }
        return points;
    }

    private static List<DevelopedFigure> stated(double u, double... minutesAndContrasts) {
        return points(minutesAndContrasts).stream()
                .map(point -> point.withStandardUncertainty(u))
                .toList();
    }

    private static ContrastFit fit(ContrastModel model, List<DevelopedFigure> points) {
        return ContrastFitting.withDefaults().fit(model, points);
    }

    private static DevelopmentFailure failure(Runnable question) {
        return assertThrows(DevelopmentException.class, question::run).failure();
    }

    private static void assertFigure(double value, double error, PredictedFigure figure, double relative) {
        assertEquals(value, figure.value(), relative * Math.abs(value));
        assertEquals(error, figure.standardUncertainty().orElseThrow(), 10 * relative * Math.abs(error));
    }

    /** NIST StRD BoxBOD, certified: b1 213.80940889 (12.354515176), b2 0.54723748542 (0.10455993237), RSS 1168.0088766. */
    @Test
    void certifiedBoxBod() {
        ContrastFit fit = fit(ContrastModel.EXPONENTIAL, points(1, 109, 2, 149, 3, 149, 5, 191, 7, 213, 10, 224));
        assertFigure(2.1380940889E+02, 1.2354515176E+01, fit.ceiling().orElseThrow(), 1e-8);
        assertFigure(5.4723748542E-01, 1.0455993237E-01, fit.ratePerMinute().orElseThrow(), 1e-8);
        assertEquals(1.1680088766E+03, fit.residualSumOfSquares(), 1e-6);
        assertEquals(4, fit.degreesOfFreedom());
    }

    /**
     * NIST StRD Misra1a, certified: b1 238.94212918 (2.7070075241), b2 5.5015643181E-04 (7.2668688436E-06), RSS
     * 0.12455138894. Its x, 77.6 to 760, stand for minutes.
     */
    @Test
    void certifiedMisra1a() {
        ContrastFit fit = fit(
                ContrastModel.EXPONENTIAL,
                points(
                        77.6, 10.07, 114.9, 14.73, 141.1, 17.94, 190.8, 23.93, 239.9, 29.61, 289.0, 35.18, 332.8, 40.02,
                        378.4, 44.82, 434.8, 50.76, 477.3, 55.05, 536.8, 61.01, 593.1, 66.40, 689.1, 75.47, 760.0,
                        81.78));
        assertFigure(2.3894212918E+02, 2.7070075241E+00, fit.ceiling().orElseThrow(), 1e-8);
        assertFigure(5.5015643181E-04, 7.2668688436E-06, fit.ratePerMinute().orElseThrow(), 1e-8);
        assertEquals(1.2455138894E-01, fit.residualSumOfSquares(), 1e-9);
    }

    /**
     * Growth of tree 329 of R's Loblolly data against the asymptotic fit by R 4.2.2, nls(height ~ SSasymp(age, Asym, R0,
     * lrc)): Asym 94.1282039 (8.403018), R0 −8.25075328, lrc −3.21757817 (0.1385837), RSS 1.68440146. With an induction
     * time the same curve has k = exp(lrc) and t0 = ln(1 − R0/Asym)/k.
     */
    @Test
    void asymptoteOfLoblolly() {
        ContrastFit fit = fit(
                ContrastModel.EXPONENTIAL_WITH_INDUCTION,
                points(3, 3.93, 5, 9.34, 10, 26.08, 15, 37.79, 20, 48.31, 25, 56.43));
        assertFigure(94.1282039, 8.403018, fit.ceiling().orElseThrow(), 1e-6);
        double k = Math.exp(-3.21757817);
        assertFigure(k, 0.1385837 * k, fit.ratePerMinute().orElseThrow(), 1e-6);
        assertEquals(
                Math.log(1 + 8.25075328 / 94.1282039) / k,
                fit.inductionMinutes().orElseThrow().value(),
                1e-6);
        assertEquals(1.68440146, fit.residualSumOfSquares(), 1e-7);
        assertEquals(3, fit.degreesOfFreedom());
    }

    /** The contrasts of a table of the model, computed beside the library, give back its parameters by least squares. */
    @Test
    void modelTable() throws IOException {
        List<String[]> rows = Resources.lines(ContrastFitTest.class, "gamma-time-model.csv").stream()
                .skip(1)
                .map(line -> line.split(",", -1))
                .toList();
        assertEquals(56, rows.size());
        for (String set : rows.stream()
                .map(row -> row[0] + "," + row[1] + "," + row[2])
                .distinct()
                .toList()) {
            List<DevelopedFigure> points = rows.stream()
                    .filter(row -> set.equals(row[0] + "," + row[1] + "," + row[2]))
                    .filter(row -> Double.parseDouble(row[4]) > 0)
                    .map(row -> DevelopedFigure.of(
                            row[3] + " min",
                            DevelopmentTimes.ofMinutes(Double.parseDouble(row[3])),
                            Double.parseDouble(row[4])))
                    .toList();
            String[] truth = set.split(",", -1);
            ContrastFit fit = fit(ContrastModel.EXPONENTIAL_WITH_INDUCTION, points);
            assertEquals(
                    Double.parseDouble(truth[0]), fit.ceiling().orElseThrow().value(), 1e-6, set);
            assertEquals(
                    Double.parseDouble(truth[1]),
                    fit.ratePerMinute().orElseThrow().value(),
                    1e-6,
                    set);
            assertEquals(
                    Double.parseDouble(truth[2]),
                    fit.inductionMinutes().orElseThrow().value(),
                    1e-5,
                    set);
        }
    }

    /** Closed form: 1.80 (1 − exp(−0.10 t)) after 5 and 10 minutes. */
    @Test
    void twoStripsGiveTheClosedForm() {
        ContrastFit fit = fit(ContrastModel.EXPONENTIAL, points(5, 0.7082448125172599, 10, 1.1378170058914039));
        assertEquals(1.80, fit.ceiling().orElseThrow().value(), 1e-9);
        assertEquals(0.10, fit.ratePerMinute().orElseThrow().value(), 1e-9);
        assertTrue(fit.ceiling().orElseThrow().standardUncertainty().isEmpty());
        assertThrows(IllegalStateException.class, () -> fit.timeFor(1.0).intervalMinutes(0.95));
        assertTrue(
                fit.notes().stream().anyMatch(note -> note.contains("not known")),
                fit.notes().toString());
    }

    /** C(t₂)/C(t₁) is a monotone function of the rate alone, so two contrasts made with 1.4 and a rate have that rate. */
    @ParameterizedTest
    @CsvSource({"0.1, 1.3", "0.1, 3.7", "0.5, 1.1", "0.003, 2.5", "1.2, 4"})
    void anyTwoTimesGiveTheirRate(double rate, double ratio) {
        double second = 4 * ratio;
        ContrastFit fit = fit(
                ContrastModel.EXPONENTIAL,
                points(second, -1.4 * Math.expm1(-rate * second), 4, -1.4 * Math.expm1(-rate * 4)));
        assertEquals(rate, fit.ratePerMinute().orElseThrow().value(), 1e-6 * rate);
        assertEquals(1.4, fit.ceiling().orElseThrow().value(), 1e-5);
    }

    /** Algebra: an approach to a ceiling has C(t) < C(2t) < 2 C(t); both borders belong to the refusals. */
    @ParameterizedTest
    @CsvSource({"0.60, CONTRAST_FALLS", "0.59, CONTRAST_FALLS", "1.20, NO_CEILING", "1.30, NO_CEILING"})
    void twoContrastsWithoutACeilingAreRefused(String afterTwice, DevelopmentFailure reason) {
        List<DevelopedFigure> points = stated(0.02, 5, 0.6, 10, Double.parseDouble(afterTwice));
        DevelopmentException refused =
                assertThrows(DevelopmentException.class, () -> fit(ContrastModel.EXPONENTIAL, points));
        assertEquals(reason, refused.failure());
        assertTrue(
                refused.getMessage().startsWith("contrast is 0.60 after 5 min and " + afterTwice + " after 10 min"),
                refused.getMessage());
    }

    /** With two strips the uncertainty of the contrast in between follows from theirs by hand: at a strip it is its own. */
    @Test
    void statedUncertaintiesReachThePrediction() {
        ContrastFit fit = fit(ContrastModel.EXPONENTIAL, stated(0.02, 5, 0.60, 10, 0.90));
        assertEquals(
                0.02,
                fit.contrastAfter(Duration.ofMinutes(5)).standardUncertainty().orElseThrow(),
                1e-6);
        PredictedTime time = fit.timeFor(0.60);
        double slope = (fit.contrastAfter(Duration.ofMillis(300_100)).value() - 0.60) / (0.1 / 60);
        assertEquals(
                0.02 / slope,
                DevelopmentTimes.minutes(time.standardUncertainty().orElseThrow()),
                1e-3 * 0.02 / slope);
    }

    @ParameterizedTest
    @EnumSource(ContrastModel.class)
    void timeForTheContrastOfATimeIsTheTime(ContrastModel model) {
        ContrastFit fit = fit(model, stated(0.01, 4, 0.42, 6, 0.57, 9, 0.70, 13, 0.81));
        for (double minutes = 4; minutes <= 13; minutes += 0.75) {
            double contrast =
                    fit.contrastAfter(DevelopmentTimes.ofMinutes(minutes)).value();
            // The ends of an interpolation are the strips themselves; rounding may lie beyond.
            double inside = Math.max(0.4200001, Math.min(0.8099999, contrast));
            if (model == ContrastModel.MONOTONE_INTERPOLATION) {
                contrast = inside;
            }
            double back = DevelopmentTimes.minutes(
                    fit.withExtrapolation().timeFor(contrast).time());
            assertEquals(minutes, back, 1e-4);
        }
    }

    @Test
    void evidenceChoosesTheModelTheContrastsWereMadeWith() {
        ContrastChoice plain = ContrastFitting.withDefaults()
                .choose(stated(
                        0.002,
                        4,
                        approach(4, 0),
                        6,
                        approach(6, 0),
                        8,
                        approach(8, 0),
                        11,
                        approach(11, 0),
                        15,
                        approach(15, 0)));
        assertEquals(ContrastModel.EXPONENTIAL, plain.best().model(), plain.toString());
        ContrastChoice late = ContrastFitting.withDefaults()
                .choose(stated(
                        0.002,
                        4,
                        approach(4, 2),
                        6,
                        approach(6, 2),
                        8,
                        approach(8, 2),
                        11,
                        approach(11, 2),
                        15,
                        approach(15, 2)));
        assertEquals(ContrastModel.EXPONENTIAL_WITH_INDUCTION, late.best().model(), late.toString());
        ContrastChoice logarithmic = ContrastFitting.withDefaults()
                .choose(stated(
                        0.002,
                        4,
                        0.3 + 0.2 * Math.log(4),
                        6,
                        0.3 + 0.2 * Math.log(6),
                        8,
                        0.3 + 0.2 * Math.log(8),
                        11,
                        0.3 + 0.2 * Math.log(11),
                        15,
                        0.3 + 0.2 * Math.log(15)));
        assertEquals(ContrastModel.LOGARITHMIC, logarithmic.best().model(), logarithmic.toString());
        // A step that no law has.
        ContrastChoice none =
                ContrastFitting.withDefaults().choose(stated(0.002, 4, 0.40, 6, 0.41, 8, 0.42, 11, 0.80, 15, 0.81));
        assertEquals(ContrastModel.MONOTONE_INTERPOLATION, none.best().model(), none.toString());
        assertEquals(4, plain.fits().size() + plain.refusals().size());
    }

    private static double approach(double minutes, double induction) {
        return -0.9 * Math.expm1(-0.15 * (minutes - induction));
    }

    @Test
    void aTargetAboveTheCeilingIsRefusedByName() {
        ContrastFit fit = fit(ContrastModel.EXPONENTIAL, points(5, 0.60, 10, 0.75, 15, 0.79));
        DevelopmentException e = assertThrows(DevelopmentException.class, () -> fit.timeFor(0.95));
        assertEquals(DevelopmentFailure.ABOVE_CEILING, e.failure());
        assertTrue(e.getMessage().contains("0.95") && e.getMessage().contains("ceiling"), e.getMessage());
        assertEquals(
                DevelopmentFailure.ABOVE_CEILING,
                failure(() -> fit.withExtrapolation().timeFor(0.95)));
    }

    @Test
    void beyondTheTestedTimesIsRefusedUnlessAskedFor() {
        ContrastFit fit = fit(ContrastModel.EXPONENTIAL, points(5, 0.50, 10, 0.75, 15, 0.87));
        assertEquals(DevelopmentFailure.OUTSIDE_TESTED_TIMES, failure(() -> fit.timeFor(0.30)));
        assertEquals(DevelopmentFailure.OUTSIDE_TESTED_TIMES, failure(() -> fit.contrastAfter(Duration.ofMinutes(16))));
        PredictedTime flagged = fit.withExtrapolation().timeFor(0.30);
        assertTrue(flagged.isExtrapolated());
        assertEquals(Caution.EXTRAPOLATED, flagged.cautions().get(0));
        assertTrue(flagged.cautions().contains(Caution.SHORT_TIME));
        assertTrue(flagged.toString().contains("extrapolated"), flagged.toString());
        assertFalse(fit.timeFor(0.60).isExtrapolated());
        ContrastFit interpolation = fit(ContrastModel.MONOTONE_INTERPOLATION, points(5, 0.50, 10, 0.75, 15, 0.87))
                .withExtrapolation();
        assertEquals(DevelopmentFailure.OUTSIDE_TESTED_TIMES, failure(() -> interpolation.timeFor(0.30)));
        assertEquals(
                DevelopmentFailure.OUTSIDE_TESTED_TIMES,
                failure(() -> interpolation.contrastAfter(Duration.ofMinutes(4))));
    }

    @Test
    void badStripsAreNamed() {
        assertEquals(DevelopmentFailure.UNUSABLE_STRIPS, failure(() -> choose(List.of())));
        assertEquals(DevelopmentFailure.ONE_TIME, failure(() -> choose(points(8, 0.6))));
        assertEquals(DevelopmentFailure.EQUAL_TIMES, failure(() -> choose(points(8, 0.6, 8, 0.62))));
        assertEquals(DevelopmentFailure.CONTRAST_FALLS, failure(() -> choose(points(6, 0.6, 9, 0.5))));
        assertEquals(DevelopmentFailure.UNUSABLE_STRIPS, failure(() -> choose(points(6, -0.1, 9, 0.5))));
        assertEquals(
                DevelopmentFailure.TOO_FEW_STRIPS,
                failure(() -> fit(ContrastModel.EXPONENTIAL_WITH_INDUCTION, points(6, 0.5, 9, 0.6))));
        assertEquals(
                DevelopmentFailure.NO_CEILING, failure(() -> fit(ContrastModel.EXPONENTIAL, points(5, 0.3, 10, 0.61))));
        assertEquals(
                DevelopmentFailure.NO_CEILING,
                failure(() -> fit(ContrastModel.EXPONENTIAL, points(5, 0.3, 10, 0.62, 15, 0.95))));
        DevelopmentException units =
                assertThrows(DevelopmentException.class, () -> choose(points(6, 0.5, 9, 0.6, 720, 0.7)));
        assertEquals(DevelopmentFailure.MIXED_UNITS, units.failure());
        assertTrue(units.getMessage().contains("'S3'") && units.getMessage().contains("12 min"), units.getMessage());
        assertEquals(DevelopmentFailure.MIXED_UNITS, failure(() -> choose(points(6, 0.5, 540, 0.6))));
        DevelopmentException falls =
                assertThrows(DevelopmentException.class, () -> choose(stated(0.01, 6, 0.60, 9, 0.55, 12, 0.7)));
        assertTrue(falls.getMessage().contains("'S1'") && falls.getMessage().contains("'S2'"), falls.getMessage());
        // Within the uncertainty a fall is noise.
        assertTrue(choose(stated(0.02, 6, 0.60, 9, 0.59, 12, 0.7)).best().notes() != null);
        List<DevelopedFigure> mixed = new ArrayList<>(points(6, 0.5, 9, 0.6));
        mixed.set(0, mixed.get(0).withTemperature(TWENTY));
        assertEquals(DevelopmentFailure.UNUSABLE_STRIPS, failure(() -> choose(mixed)));
    }

    /**
     * 1,000 simulated series of four strips with a repeatability of 2.5 %, of an exponential approach to a ceiling. The
     * 95 % intervals of the model chosen held the truth in 90 % of them when its choice counted as certain.
     */
    @Test
    @Tag("slow")
    void intervalsHoldTheUncertaintyOfTheChoice() {
        double[] minutes = {4, 6, 9, 13};
        Random random = new Random(29);
        int contrasts = 0;
        int times = 0;
        int series = 1000;
        for (int i = 0; i < series; i++) {
            double ceiling = 0.7 + 0.6 * random.nextDouble();
            double rate = (0.5 + 1.3 * random.nextDouble()) / 9;
            List<DevelopedFigure> read = new ArrayList<>();
            for (double time : minutes) {
                double contrast = -ceiling * Math.expm1(-rate * time) * (1 + 0.025 * random.nextGaussian());
                read.add(DevelopedFigure.of("strip", DevelopmentTimes.ofMinutes(time), contrast)
                        .withStandardUncertainty(0.025 * contrast));
            }
            double asked = 6 + 5 * random.nextDouble();
            double truth = -ceiling * Math.expm1(-rate * asked);
            ContrastFit best = choose(read).best();
            contrasts += best.contrastAfter(DevelopmentTimes.ofMinutes(asked))
                            .interval(0.95)
                            .contains(truth)
                    ? 1
                    : 0;
            times += best.timeFor(truth).intervalMinutes(0.95).contains(asked) ? 1 : 0;
        }
        assertEquals(0.95, contrasts / (double) series, 0.02);
        assertEquals(0.95, times / (double) series, 0.02);
    }

    private static ContrastChoice choose(List<DevelopedFigure> points) {
        return ContrastFitting.withDefaults().choose(points);
    }

    private static DevelopedFigure at(double minutes, double celsius, double contrast) {
        return DevelopedFigure.of(minutes + " min at " + celsius, DevelopmentTimes.ofMinutes(minutes), contrast)
                .withTemperature(Temperature.ofCelsius(celsius));
    }

    private static List<DevelopedFigure> overTemperature(TemperatureLaw law) {
        List<DevelopedFigure> points = new ArrayList<>();
        for (double celsius : new double[] {18, 20, 24}) {
            for (double minutes : new double[] {5, 8, 12}) {
                double tau = minutes * law.rateRatio(TWENTY, Temperature.ofCelsius(celsius));
                points.add(at(minutes, celsius, approach(tau, 0)));
            }
        }
        return points;
    }

    @ParameterizedTest
    @EnumSource(TemperatureRule.class)
    void temperatureAndTimeTogetherGiveBackTheLaw(TemperatureRule rule) {
        TemperatureLaw law = rule == TemperatureRule.ARRHENIUS
                ? TemperatureLaw.ofActivationEnergy(58)
                : TemperatureLaw.ofCoefficient(2.2, 10);
        ContrastFit fit =
                ContrastFitting.withDefaults().with(rule).fit(ContrastModel.EXPONENTIAL, overTemperature(law));
        assertEquals(
                law.coefficient(10, TWENTY),
                fit.temperatureCoefficient(10).orElseThrow().value(),
                1e-6);
        assertEquals(0.9, fit.ceiling().orElseThrow().value(), 1e-7);
        Duration equivalent =
                fit.equivalentTime(Duration.ofMinutes(8), TWENTY, WARM).time();
        assertEquals(8 / law.rateRatio(TWENTY, WARM), DevelopmentTimes.minutes(equivalent), 1e-6);
        assertEquals(
                fit.contrastAfter(Duration.ofMinutes(8), TWENTY).value(),
                fit.contrastAfter(equivalent, WARM).value(),
                1e-8);
    }

    @Test
    void onlyTestedTemperaturesAreAnswered() {
        ContrastFit fit = fit(ContrastModel.EXPONENTIAL, overTemperature(TemperatureLaw.ofActivationEnergy(58)));
        assertEquals(DevelopmentFailure.TEMPERATURE_UNKNOWN, failure(() -> fit.timeFor(0.6)));
        Temperature hot = Temperature.ofCelsius(27);
        assertEquals(DevelopmentFailure.OUTSIDE_TESTED_TEMPERATURES, failure(() -> fit.timeFor(0.6, hot)));
        assertTrue(fit.withExtrapolation().timeFor(0.6, hot).isExtrapolated());
        ContrastFit single = fit(ContrastModel.EXPONENTIAL, List.of(at(5, 20, 0.5), at(10, 20, 0.7)));
        assertEquals(20, single.timeFor(0.6).temperature().orElseThrow().celsius());
        assertEquals(DevelopmentFailure.OUTSIDE_TESTED_TEMPERATURES, failure(() -> single.timeFor(0.6, WARM)));
        assertEquals(
                DevelopmentFailure.OUTSIDE_TESTED_TEMPERATURES,
                failure(() -> single.withExtrapolation().timeFor(0.6, WARM)));
        assertEquals(
                DevelopmentFailure.TEMPERATURE_UNKNOWN,
                failure(() -> single.equivalentTime(Duration.ofMinutes(6), TWENTY, WARM)));
        assertEquals(
                DevelopmentFailure.TEMPERATURE_UNKNOWN,
                failure(() ->
                        fit(ContrastModel.EXPONENTIAL, points(5, 0.5, 10, 0.7)).timeFor(0.6, TWENTY)));
        ContrastFit stated = ContrastFitting.withDefaults()
                .with(TemperatureLaw.ofCoefficient(2, 10))
                .fit(ContrastModel.EXPONENTIAL, List.of(at(5, 20, 0.5), at(10, 20, 0.7)))
                .withExtrapolation();
        assertEquals(
                DevelopmentTimes.minutes(stated.timeFor(0.6, TWENTY).time()) * Math.pow(2, -0.4),
                DevelopmentTimes.minutes(stated.timeFor(0.6, WARM).time()),
                1e-7);
    }

    /** By hand: at a coefficient of 4 for 4 K, 5 and 10 min at 20 °C are 1 min 15 s and 2 min 30 s at 24 °C. */
    @Test
    void refusalsTellWhatWasTestedInTheTermsOfTheQuestion() {
        List<DevelopedFigure> two = List.of(at(5, 20, 0.5), at(10, 20, 0.7));
        ContrastFit fit = ContrastFitting.withDefaults()
                .with(TemperatureLaw.ofCoefficient(4, 4))
                .fit(ContrastModel.EXPONENTIAL, two);
        assertRefusal(
                "24 °C is outside the tested temperatures, 20 °C: develop strips there, or ask for an extrapolation",
                () -> fit.timeFor(0.6, WARM));
        assertRefusal(
                "12 min at 20 °C is outside the tested times, equivalent to 5 min to 10 min there: develop a strip for it,"
                        + " or ask for an extrapolation",
                () -> fit.contrastAfter(Duration.ofMinutes(12), TWENTY));
        assertRefusal(
                "5 min at 24 °C is outside the tested times, equivalent to 1 min 15 s to 2 min 30 s there: develop a strip"
                        + " for it, or ask for an extrapolation",
                () -> FigureTrend.of(
                                List.of(at(5, 20, 0.5), at(10, 20, 0.7), at(2, 24, 0.6)),
                                TemperatureLaw.ofCoefficient(4, 4))
                        .after(Duration.ofMinutes(5), WARM));
        assertRefusal(
                "24 °C is outside the tested temperatures, 20 °C: develop strips there, or state a temperature law",
                () -> fit(ContrastModel.EXPONENTIAL, two).timeFor(0.6, WARM));
        assertRefusal(
                "12 min is outside the tested times, equivalent to 5 min to 10 min: develop a strip for it, or ask for an"
                        + " extrapolation",
                () -> fit(ContrastModel.EXPONENTIAL, points(5, 0.5, 10, 0.7)).contrastAfter(Duration.ofMinutes(12)));
        assertRefusal(
                "strips were developed at 18 °C, 20 °C, 24 °C: say for which temperature",
                () -> fit(ContrastModel.EXPONENTIAL, overTemperature(TemperatureLaw.ofActivationEnergy(58)))
                        .timeFor(0.6));
    }

    private static void assertRefusal(String words, Runnable question) {
        assertEquals(
                words, assertThrows(DevelopmentException.class, question::run).getMessage());
    }

    @Test
    void timeTemperatureTableFallsWithTemperatureAndShowsItsCautions() {
        ContrastFit fit = fit(ContrastModel.EXPONENTIAL, overTemperature(TemperatureLaw.ofActivationEnergy(58)));
        TimeTemperatureTable table = fit.timeTemperatureTable(0.6, COOL, WARM, 1);
        assertEquals(7, table.times().size());
        for (int i = 1; i < 7; i++) {
            assertTrue(table.times()
                            .get(i)
                            .time()
                            .compareTo(table.times().get(i - 1).time())
                    < 0);
        }
        assertTrue(table.cautions().containsAll(List.of(Caution.CONFIRM, Caution.SAME_CONDITIONS, Caution.CHEMICALS)));
        assertTrue(table.toString().contains("20 °C") && table.toString().contains("gloves"), table.toString());
        assertFalse(table.toString().contains("extrapolated"), table.toString());
        TimeTemperatureTable beyond =
                fit.withExtrapolation().timeTemperatureTable(0.6, WARM, Temperature.ofCelsius(25), 1);
        assertTrue(beyond.toString().lines().toList().get(2).endsWith("  extrapolated"), beyond.toString());
        assertEquals(
                DevelopmentFailure.OUTSIDE_TESTED_TEMPERATURES,
                failure(() -> fit.timeTemperatureTable(0.6, COOL, Temperature.ofCelsius(25), 1)));
        assertThrows(IllegalArgumentException.class, () -> fit.timeTemperatureTable(0.6, WARM, COOL, 1));
    }

    @Test
    void stripsThatScatterMoreThanTheyMayEnlargeTheUncertainty() {
        ContrastFit quiet = fit(ContrastModel.EXPONENTIAL, stated(0.002, 5, 0.50, 8, 0.66, 12, 0.79, 16, 0.86));
        ContrastFit loud = fit(ContrastModel.EXPONENTIAL, stated(0.002, 5, 0.52, 8, 0.63, 12, 0.82, 16, 0.85));
        assertTrue(
                loud.notes().stream().anyMatch(note -> note.contains("enlarged")),
                loud.notes().toString());
        assertTrue(loud.timeFor(0.7).standardUncertainty().orElseThrow().toMillis()
                > 3 * quiet.timeFor(0.7).standardUncertainty().orElseThrow().toMillis());
    }

    /**
     * Of 4000 simulated tests of five strips the stated 95 % intervals of time and contrast must hold the truth in 93 % to
     * 97 %; so with uncertainties from the residuals, by Student's t.
     */
    @ParameterizedTest
    @CsvSource({
        "EXPONENTIAL, 0, true",
        "EXPONENTIAL, 0, false",
        "EXPONENTIAL_WITH_INDUCTION, 1.5, true",
        "LOGARITHMIC, 0, true"
    })
    @Tag("slow")
    void intervalsCoverTheTruth(ContrastModel model, double induction, boolean stated) {
        Random random = new Random(20_261_125);
        double[] minutes = {4, 6, 8.5, 12, 16};
        int runs = 4000;
        int time = 0;
        int contrast = 0;
        double trueContrast = truth(model, 7, induction);
        for (int run = 0; run < runs; run++) {
            List<DevelopedFigure> points = new ArrayList<>();
            for (double t : minutes) {
                DevelopedFigure point = DevelopedFigure.of(
                        "at " + t,
                        DevelopmentTimes.ofMinutes(t),
                        truth(model, t, induction) + 0.006 * random.nextGaussian());
                points.add(stated ? point.withStandardUncertainty(0.006) : point);
            }
            ContrastFit fit = fit(model, points).withExtrapolation();
            time += fit.timeFor(trueContrast).intervalMinutes(0.95).contains(7) ? 1 : 0;
            contrast += fit.contrastAfter(Duration.ofMinutes(7)).interval(0.95).contains(trueContrast) ? 1 : 0;
        }
        assertEquals(0.95, time / (double) runs, 0.02, "time");
        assertEquals(0.95, contrast / (double) runs, 0.02, "contrast");
    }

    private static double truth(ContrastModel model, double minutes, double induction) {
        return model == ContrastModel.LOGARITHMIC ? 0.1 + 0.25 * Math.log(minutes) : approach(minutes, induction);
    }

    @Test
    void theRecordsGiveConstantsWithUncertaintyAndSayWhatIsMissing() {
        ContrastFit fit = fit(ContrastModel.EXPONENTIAL, points(1, 109, 2, 149, 3, 149, 5, 191, 7, 213, 10, 224));
        PredictedFigure rate = fit.ratePerMinute().orElseThrow();

        assertTrue(fit.records()
                .contains(ResultRecord.ofEstimate(
                        "rate",
                        Estimate.of(rate.value(), rate.standardUncertainty().orElseThrow(), 4),
                        "1/min")));
        assertTrue(fit.records()
                .contains(ResultRecord.ofMissing(
                        "induction_time", "min", "the model, " + fit.modelName() + ", has none")));
    }

    /**
     * By hand, over ln t at 4, 8 and 16 min: contrasts off a line by 0.01 (1 −2 1), with u = 0.01, have χ² = 6, too much for
     * one degree of freedom (3.84, any table); all uncertainties are √6 as great, 0.01 √(6/3) in the middle.
     */
    @Test
    void scatterIsToldAndEntersByItsFactor() {
        double[] line = {0.40, 0.60, 0.80};
        ContrastFit fit =
                fit(ContrastModel.LOGARITHMIC, stated(0.01, 4, line[0] + 0.01, 8, line[1] - 0.02, 16, line[2] + 0.01));
        assertEquals(6, fit.residualSumOfSquares(), 1e-9);
        PredictedFigure middle = fit.contrastAfter(Duration.ofMinutes(8));
        assertEquals(0.60, middle.value(), 1e-9);
        assertEquals(0.01 * Math.sqrt(2), middle.standardUncertainty().orElseThrow(), 1e-9);
        assertTrue(
                fit.notes().get(0).startsWith("The strips scatter 2.4 times as much"),
                fit.notes().toString());
        assertEquals(6 + 2 * 2, fit.informationCriterion(), 1e-9);
        ContrastFit unstated =
                fit(ContrastModel.LOGARITHMIC, points(4, line[0] + 0.01, 8, line[1] - 0.02, 16, line[2] + 0.01, 32, 1));
        double sum = unstated.residualSumOfSquares();
        // AICc with two parameters and the variance; four readings leave nothing for its correction.
        assertEquals(Double.POSITIVE_INFINITY, unstated.informationCriterion(), "of " + sum);
        unstated = fit(
                ContrastModel.LOGARITHMIC,
                points(4, line[0] + 0.01, 8, line[1] - 0.02, 16, line[2] + 0.01, 32, 1, 64, 1.2));
        sum = unstated.residualSumOfSquares();
        assertEquals(5 * Math.log(sum / 5) + 6 + 2.0 * 3 * 4 / 1, unstated.informationCriterion(), 1e-9);
    }

    /**
     * By hand: each other model adds its weight, exp(−½ difference of the criteria), times the square of its distance; a time is
     * counted by its logarithm. Beyond the strips an interpolation says nothing.
     */
    @Test
    void theChoiceOfAModelEntersByItsWeight() {
        List<DevelopedFigure> read = stated(0.01, 4, 0.42, 6, 0.57, 9, 0.70, 13, 0.81);
        assertChoice(read, List.of(ContrastModel.values()), fit -> fit.contrastAfter(Duration.ofMinutes(7)));
        assertChoice(read, List.of(ContrastModel.values()), fit -> logMinutes(fit.timeFor(0.6)));
        List<ContrastModel> laws =
                List.of(ContrastModel.EXPONENTIAL, ContrastModel.EXPONENTIAL_WITH_INDUCTION, ContrastModel.LOGARITHMIC);
        assertChoice(read, laws, fit -> fit.withExtrapolation().contrastAfter(Duration.ofMinutes(16)));
    }

    private static PredictedFigure logMinutes(PredictedTime time) {
        double minutes = DevelopmentTimes.minutes(time.time());
        double u = DevelopmentTimes.minutes(time.standardUncertainty().orElseThrow());
        return new PredictedFigure(Math.log(minutes), OptionalDouble.of(u / minutes), 1, Scope.TESTED);
    }

    private static void assertChoice(
            List<DevelopedFigure> read, List<ContrastModel> models, Function<ContrastFit, PredictedFigure> question) {
        ContrastFit best = choose(read).best();
        PredictedFigure own = question.apply(fit(best.model(), read));
        double weights = 0;
        double squares = 0;
        for (ContrastModel model : models) {
            ContrastFit each = fit(model, read);
            double weight = Math.exp(-0.5 * (each.informationCriterion() - best.informationCriterion()));
            weights += weight;
            squares += weight * Math.pow(question.apply(each).value() - own.value(), 2);
        }
        double expected = Math.hypot(own.standardUncertainty().orElseThrow(), Math.sqrt(squares / weights));
        assertEquals(expected, question.apply(best).standardUncertainty().orElseThrow(), 1e-9);
        assertTrue(expected > 1.01 * own.standardUncertainty().orElseThrow(), expected + " of " + own);
    }

    /** A contrast that grows as fast as time has no ceiling yet; one that no longer grows tells no rate. */
    @Test
    void aRateAtItsLimitIsRefusedWithTheRemedy() {
        assertRemedy(
                "develop a strip still longer",
                () -> fit(ContrastModel.EXPONENTIAL, points(5, 0.3, 10, 0.62, 15, 0.95)));
        List<DevelopedFigure> level = stated(0.02, 5, 0.70, 10, 0.70, 15, 0.70);
        assertEquals(DevelopmentFailure.NOT_DETERMINED, failure(() -> fit(ContrastModel.EXPONENTIAL, level)));
        assertRemedy("develop a strip for less time", () -> fit(ContrastModel.EXPONENTIAL, level));
    }

    @Test
    void aChoiceTellsWhatItRefused() {
        ContrastChoice choice = choose(points(5, 0.3, 10, 0.61));
        assertEquals(ContrastModel.LOGARITHMIC, choice.best().model());
        assertTrue(
                choice.refusals()
                        .get(0)
                        .startsWith(
                                "exponential approach to a ceiling: contrast is 0.30 after 5 min and 0.61 after 10 min"),
                choice.refusals().toString());
        assertTrue(
                choice.refusals().get(1).contains(" has 3 parameters, but there are 2 strips: strip 'S1'"),
                choice.refusals().toString());
        List<String> lines = choice.toString().lines().toList();
        assertEquals("growth with the logarithm of time: too few strips for a criterion", lines.get(0));
        assertEquals(choice.refusals(), lines.subList(2, 4));
        String stated = choose(stated(0.01, 4, 0.42, 6, 0.57, 9, 0.70)).toString();
        assertTrue(stated.matches("(?s)[a-z ]+: [0-9.]+\n.*"), stated);
        // Where no model is left, the reason of the first is told.
        DevelopmentException none = assertThrows(DevelopmentException.class, () -> choose(points(6, 0.6, 9, 0.6)));
        assertTrue(
                none.getMessage().startsWith("contrast is 0.60 after 6 min and 0.60 after 9 min"), none.getMessage());
    }

    @Test
    void interpolationAveragesRepeatsAndRefusesAFall() {
        ContrastFit fit =
                fit(ContrastModel.MONOTONE_INTERPOLATION, List.of(at(10, 20, 0.75), at(5, 20, 0.48), at(5, 20, 0.52)));
        assertEquals(0.50, fit.contrastAfter(Duration.ofMinutes(5)).value(), 1e-9);
        assertEquals(5, DevelopmentTimes.minutes(fit.timeFor(0.50).time()), 1e-6);
        assertEquals(10, DevelopmentTimes.minutes(fit.timeFor(0.75).time()), 1e-6);
        assertRemedy("develop a strip longer", () -> fit.timeFor(0.76));
        assertRemedy("develop a strip for less time", () -> fit.timeFor(0.49));
        // Within the uncertainty the contrast may fall, but not for a curve through the strips.
        List<DevelopedFigure> falling = stated(0.02, 6, 0.60, 9, 0.59, 12, 0.70);
        DevelopmentException refused =
                assertThrows(DevelopmentException.class, () -> fit(ContrastModel.MONOTONE_INTERPOLATION, falling));
        assertTrue(refused.getMessage().startsWith("contrast falls with time, by 0.01, from "), refused.getMessage());
        assertEquals(
                DevelopmentFailure.CONTRAST_FALLS,
                failure(() -> fit(ContrastModel.MONOTONE_INTERPOLATION, stated(0.02, 6, 0.60, 9, 0.60, 12, 0.70))));
        assertEquals(
                DevelopmentFailure.NOT_DETERMINED,
                failure(() -> fit(
                        ContrastModel.MONOTONE_INTERPOLATION,
                        List.of(at(5, 20, 0.5), at(9, 20, 0.7), at(5, 24, 0.6)))));
    }

    private static void assertRemedy(String remedy, Runnable question) {
        String said = assertThrows(DevelopmentException.class, question::run).getMessage();
        assertTrue(said.endsWith(remedy), said);
    }

    /** Contrasts must be above 0; a time 20 times that of the others is taken for another unit (own choice, no source). */
    @Test
    void limitsOfUsableStrips() {
        assertEquals(DevelopmentFailure.UNUSABLE_STRIPS, failure(() -> choose(points(6, 0, 9, 0.5))));
        assertEquals(DevelopmentFailure.MIXED_UNITS, failure(() -> choose(points(1, 0.2, 20, 0.6))));
        assertEquals(
                ContrastModel.LOGARITHMIC,
                fit(ContrastModel.LOGARITHMIC, points(1, 0.2, 19.9, 0.6)).model());
        assertEquals(
                DevelopmentFailure.MIXED_UNITS, failure(() -> choose(points(1, 0.2, 20, 0.6, 20, 0.61, 20, 0.62))));
        // Strips of one time may differ by any amount.
        assertEquals(
                5,
                choose(points(8, 0.60, 8, 0.50, 12, 0.7, 4, 0.3, 16, 0.75))
                        .best()
                        .contrasts()
                        .size());
        List<DevelopedFigure> mixed = new ArrayList<>(points(6, 0.5, 9, 0.6));
        mixed.set(1, mixed.get(1).withStandardUncertainty(0.01));
        DevelopmentException refused = assertThrows(DevelopmentException.class, () -> choose(mixed));
        assertTrue(
                refused.getMessage()
                        .startsWith("some strips have a standard uncertainty but these have none: strip 'S1'"),
                refused.getMessage());
    }

    @Test
    void aTableHasItsStepsAndARecordItsRange() {
        ContrastFit fit = fit(ContrastModel.EXPONENTIAL, overTemperature(TemperatureLaw.ofActivationEnergy(58)));
        assertEquals(
                List.of(18.0, 20.0, 22.0, 24.0),
                fit.timeTemperatureTable(0.6, COOL, WARM, 2).times().stream()
                        .map(time -> time.temperature().orElseThrow().celsius())
                        .toList());
        assertEquals(1, fit.timeTemperatureTable(0.6, COOL, COOL, 2).times().size());

        ContrastFit two = fit(ContrastModel.EXPONENTIAL, List.of(at(5, 20, 0.5), at(10, 20, 0.7)));
        assertTrue(two.records()
                .containsAll(List.of(
                        ResultRecord.ofNumber("reference_temperature", 20, "°C"),
                        ResultRecord.ofNumber("shortest_tested", 300, "s"),
                        ResultRecord.ofNumber("longest_tested", 600, "s"),
                        ResultRecord.ofMissing(
                                "criterion", "", "too few strips for a criterion: develop more strips"))));
        String through =
                "The model passes through all strips, so they cannot show whether it is right: develop one more.";
        assertTrue(two.notes().contains(through), two.notes().toString());
        ContrastFit interpolation = fit(ContrastModel.MONOTONE_INTERPOLATION, List.of(at(5, 20, 0.5), at(10, 20, 0.7)));
        assertFalse(
                interpolation.notes().contains(through), interpolation.notes().toString());
        assertTrue(fit(ContrastModel.EXPONENTIAL, stated(0.01, 5, 0.5, 8, 0.64, 12, 0.75)).records().stream()
                .anyMatch(
                        each -> each.name().equals("criterion") && each.value().isPresent()));
    }

    /** For exact contrasts a search begins within 8 % of rate and ceiling and 0.1 min of the induction time (own limits, no source). */
    @ParameterizedTest
    @CsvSource({"0.01, 0", "0.05, 0", "0.1, 0", "0.5, 0", "0.1, 1.2", "0.1, 2", "0.1, 3.2"})
    void theSearchBeginsNearTheRate(double rate, double induction) {
        double[] minutes = {4, 6, 9, 16};
        double[] contrasts = new double[4];
        for (int i = 0; i < 4; i++) {
            contrasts[i] = -1.4 * Math.expm1(-rate * (minutes[i] - induction));
        }
        TimeResponse response = induction == 0 ? TimeResponse.exponential() : TimeResponse.exponentialWithInduction();
        double[] start = response.start(minutes, contrasts);
        assertEquals(1, start[1] / rate, 0.08);
        assertEquals(1, start[0] / 1.4, 0.08);
        assertEquals(induction, start[2], 0.1);
    }
}
