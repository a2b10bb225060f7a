// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import java.util.function.ToDoubleFunction;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.CurveAnatomy;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.quantity.ResultRecord;
import org.tonewedge.core.strip.ExposedStep;
import org.tonewedge.core.strip.Repeatability;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.fitting.spline.SmoothingSpline;
import org.tonewedge.fitting.spline.SplineFit;
import org.tonewedge.fitting.spline.SplineShape;

class StripFitTest {

    private static final double DEVIATION = 0.004;

    /** Of the curve of two layers: D = 0.2 + a fast layer of range 0.5 and a slow one that begins where it ends. */
    private static final CharacteristicCurve TWO_LAYERS = twoLayers();

    private static CharacteristicCurve twoLayers() {
        ParametricForm fast = CurveFamily.TOE_SHOULDER.form(0.2, 0.5, -2, 0.1, -1, 0.1);
        ParametricForm slow = CurveFamily.TOE_SHOULDER.form(0, 0.9, -0.9, 0.1, 0.1, 0.1);
        return FitCoverage.Truth.curve(
                x -> fast.density(x) + slow.density(x), x -> fast.gradient(x) + slow.gradient(x), 0.2);
    }

    private static Strip strip(CharacteristicCurve truth, int steps, int basePlusFogReadings, long seed) {
        return FitCoverage.strip(truth, steps, basePlusFogReadings, DEVIATION, new Random(seed));
    }

    @Test
    void aStripOfTheFamilyIsFittedByIt() {
        StripFit fit = StripFit.of(TestStrips.s07());
        assertEquals(CurveFamily.TOE_SHOULDER, fit.family().orElseThrow().family());
        assertTrue(fit.isTrusted());
        assertEquals(fit.family().orElseThrow().notes(), fit.notes());
        assertEquals(LackOfFit.Test.F, fit.lackOfFit().test());
        assertTrue(
                fit.verdict().startsWith("toe, straight line and shoulder, which follows the readings (F"),
                fit.verdict());
    }

    @Test
    @Tag("slow")
    void twoLayersAreDrawnByASplineWhoseFiguresAreRight() {
        StripFit fit = StripFit.of(strip(TWO_LAYERS, 31, 3, 5));
        assertTrue(fit.spline().isPresent(), fit::toString);
        assertTrue(fit.family().isEmpty());
        assertTrue(fit.lackOfFit().isRejected());
        assertTrue(fit.notes().stream().anyMatch(note -> note.startsWith("Refused: toe and straight line")));
        Estimate speedPoint = fit.estimate(TestStrips::speedPoint);
        assertTrue(speedPoint.interval(0.95).contains(TestStrips.speedPoint(TWO_LAYERS)), speedPoint::toString);
        assertTrue(speedPoint.standardUncertainty() < 0.03, speedPoint::toString);
    }

    /** A curve of another family, read well: that the toe-shoulder curve was refused comes first, however it ranked. */
    @Test
    void anotherFamilyThatFollowsTheReadingsIsTakenAndTheUsualOneNamed() {
        ParametricForm truth = CurveFamily.GOMPERTZ.form(0.2, 1.6, -1.2, 0.5);
        double[] x = TestStrips.grid(-3, 1, 41);
        double[] d = TestStrips.disturbed(TestStrips.densities(truth, x), 0.001, new Random(4));
        StripFit fit = StripFit.of(TestStrips.strip("G", x, d, 0.2, 0.2005, 0.1995), Repeatability.of(0.001));
        assertEquals(CurveFamily.GOMPERTZ, fit.family().orElseThrow().family());
        assertTrue(
                fit.notes().get(0).startsWith("Refused: toe, straight line and shoulder, which does not follow"),
                fit.notes()::toString);
    }

    @Test
    void withoutBasePlusFogTwoLayersAreRefused() {
        StripFit fit = StripFit.of(strip(TWO_LAYERS, 31, 0, 5));
        assertFalse(fit.isTrusted());
        NotDeterminableException e =
                assertThrows(NotDeterminableException.class, () -> fit.estimate(TestStrips::speedPoint));
        assertTrue(e.getMessage().contains("no curve follows the readings"), e.getMessage());
        assertTrue(e.getMessage().contains("Read base plus fog"), e.getMessage());
    }

    @Test
    void aStatedRepeatabilityIsTestedByChiSquare() {
        Strip strip = strip(TWO_LAYERS, 13, 3, 5);
        StripFit exacting = StripFit.of(strip, Repeatability.of(DEVIATION));
        SplineFit spline = exacting.spline().orElseThrow();
        SplineFit expected = SmoothingSpline.withDefaults()
                .with(SplineShape.MONOTONE)
                .with(Repeatability.of(DEVIATION))
                .fit(strip);
        assertEquals(expected.smoothing(), spline.smoothing());
        StripFit lenient = StripFit.of(strip, Repeatability.of(0.05));
        assertEquals(LackOfFit.Test.CHI_SQUARE, lenient.lackOfFit().test());
        assertFalse(lenient.lackOfFit().isRejected());
    }

    /** What a few repeats tell is itself uncertain: pooled beforehand or not, they are judged by the same F test. */
    @Test
    void aPooledRepeatabilityIsTestedByF() {
        CharacteristicCurve truth = FitCoverage.Truth.curve(TestStrips.anyForm(new Random(4))::density, x -> 0, 0.2);
        Strip strip = repeated(truth, 1, new Random(4));
        CurveFit fit = CurveFit.of(CurveFamily.TOE_SHOULDER).withWholeFamily();
        LackOfFit own = fit.with(Repeatability.fromRepeats()).fit(strip).lackOfFit();
        LackOfFit pooled = fit.with(Repeatability.fromRepeats().over(List.of(strip)))
                .fit(strip)
                .lackOfFit();
        assertEquals(LackOfFit.Test.F, pooled.test());
        assertEquals(own.statistic(), pooled.statistic(), 1e-6);
        assertEquals(own.probability(), pooled.probability(), 1e-6);
    }

    /** Nine readings of two layers, which the family follows; how far this helps is measured by {@code FitCoverage}. */
    @Test
    void theUncertaintyIncludesTheDistanceToACurveOfNoFamily() {
        Strip strip = strip(TWO_LAYERS, 9, 3, 2);
        StripFit fit = StripFit.of(strip);
        SmoothingSpline monotone = SmoothingSpline.withDefaults().with(SplineShape.MONOTONE);
        CharacteristicCurve rougher = monotone.withSmoothing(
                        0.1 * monotone.fit(strip).smoothing())
                .fit(strip)
                .curve();
        Estimate alone = fit.family().orElseThrow().estimate(StripFitTest::gamma);
        double distance = gamma(rougher) - alone.value();
        assertTrue(Math.abs(distance) > 0.5 * alone.standardUncertainty(), alone + " " + distance);
        Estimate told = fit.estimate(StripFitTest::gamma);
        assertEquals(alone.value(), told.value());
        assertEquals(Math.hypot(alone.standardUncertainty(), distance), told.standardUncertainty(), 1e-12);
    }

    /** As above; the smoothing beside the fit is that of the stated repeatability, not that of the residuals. */
    @Test
    void theCurveOfNoFamilyKeepsToTheStatedRepeatability() {
        Repeatability stated = Repeatability.of(5 * DEVIATION);
        Strip strip = strip(TWO_LAYERS, 9, 3, 2);
        StripFit fit = StripFit.of(strip, stated);
        SmoothingSpline monotone =
                SmoothingSpline.withDefaults().with(SplineShape.MONOTONE).with(stated);
        CharacteristicCurve rougher = monotone.withSmoothing(
                        0.1 * monotone.fit(strip).smoothing())
                .fit(strip)
                .curve();
        Estimate alone = fit.family().orElseThrow().estimate(StripFitTest::gamma);
        double distance = gamma(rougher) - alone.value();
        assertEquals(
                Math.hypot(alone.standardUncertainty(), distance),
                fit.estimate(StripFitTest::gamma).standardUncertainty(),
                1e-12);
        assertSame(fit, fit.requireTrusted());
    }

    /**
     * Dust on the only step that was read twice: the robust fit distrusts both readings, and nothing is left to tell the
     * repeatability. The figures are still held against a spline, whose smoothing then comes from the residuals.
     */
    @Test
    void distrustedRepeatsDoNotLeaveOutTheCurveOfNoFamily() {
        ParametricForm truth = CurveFamily.TOE_SHOULDER.form(0.2, 0.7, -2, 0.2, -0.4, 0.2);
        Strip clean = strip(FitCoverage.Truth.curve(truth, 0.2), 21, 1, 2);
        Strip.Builder builder = Strip.builder("dusty")
                .basePlusFog(clean.basePlusFog().orElseThrow().value());
        ExposedStep dusty = clean.steps().get(12);
        for (ExposedStep step : clean.steps()) {
            double dust = step.equals(dusty) ? 0.4 : 0;
            builder.reading(step.exposure(), Density.of(step.density().value() + dust));
        }
        Strip strip = builder.reading(
                        dusty.exposure(), Density.of(dusty.density().value() + 0.406))
                .build();

        StripFit fit = StripFit.of(
                strip,
                CurveFit.of(CurveFamily.TOE_SHOULDER).with(RobustLoss.TUKEY).with(Repeatability.fromRepeats()));

        FittedCurve family = fit.family().orElseThrow();
        assertEquals(2, family.outliers().size(), family.outliers()::toString);
        assertTrue(
                fit.estimate(StripFitTest::gamma).standardUncertainty()
                        > family.estimate(StripFitTest::gamma).standardUncertainty(),
                fit::toString);
    }

    /** The family finds a straight line that the readings contradict; without the refusal the intervals miss. */
    @Test
    void aGammaThatTheSplineContradictsIsRefused() {
        SplineReach reach = SplineReach.of(FitCoverage.Truth.TWO_LAYERS, 60);
        assertTrue(reach.contradicted() > 0.01, () -> "refused " + reach.contradicted());
        assertTrue(reach.coverage() < 0.5, () -> "covered " + reach.coverage());
    }

    /** A spline without a complete toe does not contradict the toe of the family, whose uncertainty then stands whole. */
    @Test
    void aFigureThatTheSplineDoesNotReachKeepsTheUncertaintyOfTheFit() {
        Strip strip = strip(TWO_LAYERS, 9, 3, 2);
        StripFit fit = StripFit.of(strip);
        ToDoubleFunction<CharacteristicCurve> beyondTheSpline = curve -> {
            if (!curve.name().equals(fit.curve().name()) || !(curve.form() instanceof ParametricForm)) {
                throw new NotDeterminableException("no such figure");
            }
            return TestStrips.speedPoint(curve);
        };
        assertEquals(fit.family().orElseThrow().estimate(TestStrips::speedPoint), fit.estimate(beyondTheSpline));
    }

    /**
     * A strip without a shoulder, without and with readings of base plus fog. Toe and straight line follows it; other
     * families do as well, with another foot and gradient. The expected variance is the mean Σ w (u² + (θ − θ₀)²) / Σ w
     * over the families that follow, w = exp(−ΔAIC/4), and the squared distance to the spline.
     */
    @ParameterizedTest
    @ValueSource(ints = {0, 3})
    void withoutAShoulderTheFamiliesThatFollowShareTheFigures(int basePlusFogReadings) {
        Strip strip = upswept(basePlusFogReadings);
        StripFit fit = StripFit.of(strip);
        FittedCurve family = fit.family().orElseThrow();
        assertEquals(CurveFamily.TOE_STRAIGHT_LINE, family.family());
        List<FittedCurve> following = CurveFits.compare(strip).candidates().stream()
                .flatMap(candidate -> candidate.fit().stream())
                .filter(each -> !each.lackOfFit().isRejected())
                .toList();
        assertTrue(following.size() > 1, following::toString);
        double own = family.ownEstimate(TestStrips::speedPoint).value();
        double least = following.stream().mapToDouble(each -> each.aic(0)).min().orElseThrow();
        double sum = 0;
        double weights = 0;
        for (FittedCurve each : following) {
            double weight = Math.exp((least - each.aic(0)) / 4);
            Estimate estimate = each.ownEstimate(TestStrips::speedPoint);
            sum += weight * (Math.pow(estimate.standardUncertainty(), 2) + Math.pow(estimate.value() - own, 2));
            weights += weight;
        }
        Strip.Builder withFoot =
                Strip.builder("U").basePlusFog(family.curve().basePlusFog().value());
        strip.steps().forEach(step -> withFoot.reading(step.exposure(), step.density()));
        CharacteristicCurve ofNoFamily = SmoothingSpline.withDefaults()
                .with(SplineShape.MONOTONE)
                .fit(basePlusFogReadings == 0 ? withFoot.build() : strip)
                .lessSmoothed()
                .curve();
        double distance = TestStrips.speedPoint(ofNoFamily) - own;
        assertTrue(
                Math.sqrt(sum / weights)
                        > 1.1 * family.ownEstimate(TestStrips::speedPoint).standardUncertainty(),
                () -> "the rivals add nothing");

        Estimate told = fit.estimate(TestStrips::speedPoint);

        assertEquals(own, told.value());
        assertEquals(Math.hypot(Math.sqrt(sum / weights), distance), told.standardUncertainty(), 1e-9);
    }

    /** A strip that shows toe, straight line and shoulder tells how its curve goes on, and the family stands alone. */
    @Test
    void withAShoulderTheFamilyStandsAlone() {
        Strip strip = FitCoverage.strip(
                FitCoverage.Truth.curve(CurveFamily.TOE_SHOULDER.form(0.2, 0.7, -2, 0.2, -0.7, 0.2), 0.2),
                21,
                0,
                0.01,
                new Random(9));
        FittedCurve family = StripFit.of(strip).family().orElseThrow();
        assertEquals(CurveFamily.TOE_SHOULDER, family.family());
        assertEquals(family.ownEstimate(TestStrips::speedPoint), family.estimateAmongRivals(TestStrips::speedPoint));
    }

    private static Strip upswept(int basePlusFogReadings) {
        ParametricForm toe = CurveFamily.TOE_STRAIGHT_LINE.form(0, 1, -1.8, 0.2);
        CharacteristicCurve truth = FitCoverage.Truth.curve(
                x -> 0.2 + (0.35 + 0.15 * toe.density(x)) * toe.density(x),
                x -> (0.35 + 0.3 * toe.density(x)) * toe.gradient(x),
                0.2);
        return FitCoverage.strip(truth, 21, basePlusFogReadings, 0.015, new Random(9));
    }

    private static double gamma(CharacteristicCurve curve) {
        return CurveAnatomy.of(curve).gamma().value();
    }

    @Test
    void familiesThatDisagreeWidenTheInterval() {
        Strip strip = FitCoverage.strip(
                FitCoverage.Truth.curve(
                        CurveFamily.GOMPERTZ.form(0.2, 1.4, -1.2, 0.5)::density,
                        CurveFamily.GOMPERTZ.form(0.2, 1.4, -1.2, 0.5)::gradient,
                        0.2),
                11,
                2,
                0.01,
                new Random(3));
        ModelComparison comparison = CurveFits.compare(strip);
        double alone = comparison
                .candidates()
                .get(0)
                .fit()
                .orElseThrow()
                .estimate(TestStrips::speedPoint)
                .standardUncertainty();
        double among = comparison.best().estimate(TestStrips::speedPoint).standardUncertainty();
        assertTrue(among > alone, among + " " + alone);
    }

    /**
     * The false alarms of the three tests on strips of the family: one in twenty, within three standard deviations. The
     * pool has six repeats in two strips; taken for exact by χ², it would refuse a quarter.
     */
    @Test
    @Tag("slow")
    void oneStripInTwentyIsRefusedByChance() {
        int strips = 600;
        int byNeighbours = 0;
        int byRepeats = 0;
        int byPool = 0;
        int byStatement = 0;
        Random random = new Random(8);
        for (int i = 0; i < strips; i++) {
            CharacteristicCurve truth = FitCoverage.Truth.curve(TestStrips.anyForm(random)::density, x -> 0, 0.2);
            Strip strip = FitCoverage.strip(truth, 21, 0, 0.01, random);
            CurveFit fit = CurveFit.of(CurveFamily.TOE_SHOULDER).withWholeFamily();
            byNeighbours += refused(strip, fit);
            byStatement += refused(strip, fit.with(Repeatability.of(0.01)));
            byRepeats += refused(repeated(truth, 1, random), fit.with(Repeatability.fromRepeats()));
            Strip few = repeated(truth, 7, random);
            Repeatability pool = Repeatability.fromRepeats().over(List.of(few, repeated(truth, 7, random)));
            byPool += refused(few, fit.with(pool));
        }
        double tolerance = 3 * Math.sqrt(0.05 * 0.95 * strips);
        assertEquals(0.05 * strips, byNeighbours, tolerance);
        assertEquals(0.05 * strips, byStatement, tolerance);
        assertEquals(0.05 * strips, byRepeats, tolerance);
        assertEquals(0.05 * strips, byPool, tolerance);
    }

    private static int refused(Strip strip, CurveFit fit) {
        return fit.fit(strip).lackOfFit().isRejected() ? 1 : 0;
    }

    /** A strip of which each n-th step is read twice. */
    private static Strip repeated(CharacteristicCurve truth, int n, Random random) {
        Strip.Builder builder = Strip.builder("repeated");
        double[] steps = TestStrips.grid(-3, 0, 21);
        for (int i = 0; i < steps.length; i++) {
            for (int reading = 0; reading < (i % n == 0 ? 2 : 1); reading++) {
                builder.reading(
                        LogExposure.ofLogLuxSeconds(steps[i]),
                        Density.of(truth.density(steps[i]) + 0.01 * random.nextGaussian()));
            }
        }
        return builder.build();
    }

    @Test
    void theRecordsTellBasePlusFogAndTheCurveThatIsUsed() {
        StripFit fit = StripFit.of(TestStrips.s07());

        assertTrue(fit.records()
                .contains(ResultRecord.ofEstimate(
                        "base_plus_fog",
                        fit.estimate(curve -> curve.basePlusFog().value()),
                        "density")));
        assertTrue(fit.records()
                .containsAll(fit.family().orElseThrow().records().stream()
                        .map(each -> each.under("curve"))
                        .toList()));
    }

    @Test
    void theRecordsOfARefusedFitSayWhy() {
        StripFit fit = StripFit.of(strip(TWO_LAYERS, 31, 0, 5));
        ResultRecord missing = fit.records().stream()
                .filter(each -> each.name().equals("base_plus_fog"))
                .findFirst()
                .orElseThrow();

        assertTrue(missing.value().isEmpty());
        assertTrue(missing.text().contains("no curve follows the readings"), missing.text());
        int last = fit.notes().size();
        String said = "No curve follows the readings, so its figures have no uncertainty.";
        assertEquals(said, fit.notes().get(last - 1));
        assertTrue(fit.records().contains(ResultRecord.ofText("note." + last, said)));
        assertTrue(fit.records().stream().noneMatch(each -> each.name().startsWith("curve.")));
    }
}
