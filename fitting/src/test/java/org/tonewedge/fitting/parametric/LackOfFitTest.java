// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.ExposureAxis;
import org.tonewedge.core.strip.Repeatability;
import org.tonewedge.core.strip.Strip;

/**
 * Straight lines 0.2 + 0.3 x with errors orthogonal to 1 and x, so that the fit is the line itself and every sum of squares can be
 * written down.
 */
class LackOfFitTest {

    private static final CurveFit LINE = CurveFit.of(CurveFamily.STRAIGHT_LINE);

    private static FittedCurve fit(CurveFit fit, double[] x, double[] errors, double... basePlusFog) {
        double[] d = new double[x.length];
        Arrays.setAll(d, i -> 0.2 + 0.3 * x[i] + errors[i]);
        return fit.fit(
                "S1", ExposureAxis.LUX_SECONDS, x, d, basePlusFog.length == 0 ? new double[] {0.2} : basePlusFog);
    }

    /** Four steps off by 0.02 (1 −1 −1 1), each read twice and off its mean by ± 0.01. */
    private static FittedCurve repeated(CurveFit fit) {
        return fit(fit, new double[] {0, 0, 1, 1, 2, 2, 3, 3}, new double[] {
            0.03, 0.01, -0.01, -0.03, -0.03, -0.01, 0.03, 0.01
        });
    }

    /** Computed densities leave the residuals of arithmetic, which are alike among neighbours: no misfit of the curve. */
    @Test
    void exactReadingsFollowTheirOwnFamily() {
        for (int steps : new int[] {9, 13, 21, 31}) {
            double[] x = TestStrips.grid(-3, 1.05, steps);
            double[] d = TestStrips.densities(CurveFamily.TOE_SHOULDER.form(0.2, 0.68, -2.1, 0.16, 0.5, 0.25), x);
            Strip strip = TestStrips.strip("exact", x, d, 0.2, 0.2, 0.2);
            StripFit found = StripFit.of(strip);
            assertFalse(found.lackOfFit().isRejected(), found.verdict());
            assertEquals(CurveFamily.TOE_SHOULDER, found.family().orElseThrow().family(), steps + " steps");
            FittedCurve stated = CurveFit.of(CurveFamily.TOE_SHOULDER)
                    .with(Repeatability.of(0.01))
                    .fit(strip);
            assertEquals(LackOfFit.Test.CHI_SQUARE, stated.lackOfFit().test());
        }
    }

    /** Three readings of 0.20 as a coarse instrument shows them: their mean is 0.2 and 3e-17, which is no scatter to judge by. */
    @Test
    void equalReadingsHaveNoScatter() {
        double[] x = TestStrips.grid(-3, 1.05, 21);
        double[] d = TestStrips.densities(CurveFamily.TOE_STRAIGHT_LINE.form(0.2, 0.68, -2.1, 0.16), x);
        Arrays.setAll(d, i -> Math.round(100 * d[i]) / 100.0);
        FittedCurve found =
                CurveFit.of(CurveFamily.TOE_STRAIGHT_LINE).fit(TestStrips.strip("coarse", x, d, 0.2, 0.2, 0.2));
        assertEquals(LackOfFit.Test.DURBIN_WATSON, found.lackOfFit().test());
    }

    /** By hand: χ² = 40 with 6 degrees of freedom, p = exp(−20) (1 + 20 + 20²/2), the form for an even number of them. */
    @Test
    void statedRepeatabilityByHand() {
        FittedCurve fit = repeated(LINE.with(Repeatability.of(0.01)));
        LackOfFit found = fit.lackOfFit();
        assertEquals(LackOfFit.Test.CHI_SQUARE, found.test());
        assertEquals(40, found.statistic(), 1e-9);
        assertEquals(221 * Math.exp(-20), found.probability(), 1e-15);
        assertTrue(found.isRejected());
        assertTrue(found.toString().startsWith("does not follow the readings ("), found.toString());
        assertTrue(found.toString().endsWith(", p = 0.000)"), found.toString());
        int last = fit.notes().size() - 1;
        assertTrue(fit.notes().get(last).startsWith("The curve " + found + ": its figures"), fit.notes()::toString);
        assertEquals(fit.notes().subList(0, last), fit.notesBesidesVerdict());
    }

    /**
     * By hand: 8 · 0.02²/2 over 8 · 0.01²/4 is F = 8 with 2 and 4 degrees of freedom; P(F &gt; f) = (1 + 2 f/4)<sup>−2</sup>
     * = 0.04 for 2 in the numerator.
     */
    @Test
    void repeatsByHand() {
        for (CurveFit way : List.of(LINE, LINE.with(Repeatability.fromRepeats()))) {
            LackOfFit found = repeated(way).lackOfFit();
            assertEquals(LackOfFit.Test.F, found.test());
            assertEquals(8, found.statistic(), 1e-9);
            assertEquals(0.04, found.probability(), 1e-9);
            assertTrue(found.isRejected());
        }
    }

    /**
     * Eight steps, the two in the middle read twice. By hand: F = 233.3 with 6 and 2 degrees of freedom, P(F &gt; f) =
     * 1 − (6 f/(2 + 6 f))<sup>3</sup> for 2 in the denominator; then Durbin and Watson's ratio 13.5/17, its chance by
     * Imhof's integral as below. The smaller of two chances counts double, and never as more than 1.
     */
    @Test
    void theMoreDoubtfulOfTwoTestsCountsDouble() {
        double[] x = {0, 1, 2, 3, 3, 4, 4, 5, 6, 7};
        LackOfFit byRepeats = fit(LINE, x, hundredths(-2, 2, -2, 1.1, 0.9, 1.1, 0.9, -2, 2, -2))
                .lackOfFit();
        assertEquals(LackOfFit.Test.F, byRepeats.test());
        assertEquals(700.0 / 3, byRepeats.statistic(), 1e-6);
        assertEquals(2 * (1 - Math.pow(1400.0 / 1402, 3)), byRepeats.probability(), 1e-9);
        LackOfFit byNeighbours = fit(LINE, x, hundredths(2, 1, -1, -0.5, -1.5, -0.5, -1.5, -1, 1, 2))
                .lackOfFit();
        assertEquals(LackOfFit.Test.DURBIN_WATSON, byNeighbours.test());
        assertEquals(13.5 / 17, byNeighbours.statistic(), 1e-9);
        assertEquals(2 * 0.002270546, byNeighbours.probability(), 2e-8);
        LackOfFit neither =
                fit(LINE, x, hundredths(2, 1, -1, 2, -4, 2, -4, -1, 1, 2)).lackOfFit();
        assertEquals(1, neither.probability());
    }

    private static double[] hundredths(double... errors) {
        return Arrays.stream(errors).map(error -> 0.01 * error).toArray();
    }

    /**
     * By hand, Durbin and Watson's ratio of (1 1 −1 −1 −1 −1 1 1) is 1, of (1 −1 −1 1 1 −1 −1 1) 2. Their chance by Imhof's
     * integral ({@code durbin_watson.py}, SciPy 1.17.1) is 0.009922783 and 0.306118409.
     */
    @Test
    void neighboursByHand() {
        double[] x = {0, 1, 2, 3, 4, 5, 6, 7};
        assertNeighbours(1, 0.009922783, x, 1, 1, -1, -1, -1, -1, 1, 1);
        assertNeighbours(2, 0.306118409, x, 1, -1, -1, 1, 1, -1, -1, 1);
    }

    /** Exposures counted from elsewhere give the same fit but for rounding, and so the same chance. */
    @Test
    void theLastDigitsOfAFitDecideNothing() {
        double[] x = {0, 1, 2, 3, 4, 5, 6, 7};
        double[] densities = new double[x.length];
        double[] signs = {1, -1, -1, 1, 1, -1, -1, 1};
        Arrays.setAll(densities, i -> 0.2 + 0.3 * x[i] + 0.01 * signs[i]);
        double[] basePlusFog = {0.19, 0.30};
        LackOfFit one = LINE.fit("S1", ExposureAxis.LUX_SECONDS, x, densities, basePlusFog)
                .lackOfFit();
        for (double shift : new double[] {-0.1, -1.0 / 3, -7.7}) {
            double[] moved = Arrays.stream(x).map(h -> h + shift).toArray();
            LackOfFit other = LINE.fit("S1", ExposureAxis.LUX_SECONDS, moved, densities, basePlusFog)
                    .lackOfFit();
            assertEquals(one.statistic(), other.statistic(), 1e-9);
            assertEquals(one.probability(), other.probability(), 1e-9, "moved by " + shift);
        }
    }

    private static void assertNeighbours(double ratio, double chance, double[] x, double... signs) {
        LackOfFit found = fit(LINE, x, hundredths(signs), 0.19, 0.30).lackOfFit();
        assertEquals(LackOfFit.Test.DURBIN_WATSON, found.test());
        assertEquals(ratio, found.statistic(), 1e-9);
        assertEquals(chance, found.probability(), 1e-8);
    }

    /**
     * Repeats that are equal tell nothing. Four steps leave a logistic curve only the freedom of its base plus fog, so
     * that their residuals are always in the same proportion and their ratio has no distribution; a fifth step gives
     * them one.
     */
    @Test
    void residualsOfOneProportionAreNotJudged() {
        CurveFit logistic = CurveFit.of(CurveFamily.LOGISTIC);
        double[] basePlusFog = {0.25, 0.25};
        LackOfFit four = logistic.fit(
                        "S1",
                        ExposureAxis.LUX_SECONDS,
                        new double[] {-1, 0, 0.5, 1.5},
                        new double[] {0.43, 0.88, 1.20, 1.66},
                        basePlusFog)
                .lackOfFit();
        assertEquals(LackOfFit.Test.NONE, four.test());
        LackOfFit five = logistic.fit(
                        "S1",
                        ExposureAxis.LUX_SECONDS,
                        new double[] {-1, 0, 0.5, 1.5, 2},
                        new double[] {0.43, 0.88, 1.20, 1.66, 1.77},
                        basePlusFog)
                .lackOfFit();
        assertEquals(LackOfFit.Test.DURBIN_WATSON, five.test());
    }

    @Test
    void onlyLessThanTheSignificanceRefuses() {
        assertFalse(new LackOfFit(LackOfFit.Test.F, 4, LackOfFit.SIGNIFICANCE).isRejected());
        assertTrue(new LackOfFit(LackOfFit.Test.F, 4, 0.0499).isRejected());
    }

    @Test
    void tooFewReadingsAreNotJudged() {
        // Two steps read twice leave 2 degrees of freedom, both to the repeats.
        Repeatability pooled = Repeatability.fromRepeats()
                .over(List.of(TestStrips.strip("S1", new double[] {0, 0, 1, 1}, new double[] {0.2, 0.21, 0.5, 0.51})));
        double[] errors = {0.01, -0.01, 0.01, -0.01};
        assertEquals(
                LackOfFit.Test.NONE,
                fit(LINE.with(pooled), new double[] {0, 0, 1, 1}, errors)
                        .lackOfFit()
                        .test());
        LackOfFit three = fit(LINE, new double[] {0, 1, 2}, new double[] {0.01, -0.02, 0.01})
                .lackOfFit();
        assertEquals(LackOfFit.Test.NONE, three.test());
        assertEquals(1, three.probability());
        assertFalse(three.isRejected());
        assertEquals("not judged (no test: too few readings for the parameters)", three.toString());
    }

    /** A robust fit is judged by the readings that it trusts: by hand χ² = 8 of the eight others, with 6 degrees of freedom. */
    @Test
    void distrustedReadingsAreNotJudged() {
        double[] x = {0, 1, 2, 3, 3.5, 4, 5, 6, 7};
        FittedCurve fit = fit(
                LINE.with(RobustLoss.TUKEY).with(Repeatability.of(0.01)),
                x,
                hundredths(1, -1, -1, 1, 90, 1, -1, -1, 1));
        assertEquals(0, fit.readings().get(4).weight());
        LackOfFit found = fit.lackOfFit();
        assertEquals(8, found.statistic(), 0.01);
        assertEquals(Math.exp(-4) * (1 + 4 + 8), found.probability(), 0.001);
    }

    /**
     * AICc by hand for eight readings of the line and two unexposed ones, 0.20 and 0.22, whose squares add to 0.0042: with a known
     * variance v and three parameters 0.0042/v + 6 + 24/6, where Huber's loss is that of squares too; else with four 10
     * ln(0.00042) + 8 + 40/5.
     */
    @Test
    void criterionOfALineByHand() {
        double[] x = {0, 0, 1, 1, 2, 2, 3, 3};
        double[] errors = hundredths(3, 1, -1, -3, -3, -1, 3, 1);
        CurveFit stated = LINE.with(Repeatability.of(0.03));
        assertEquals(0.0042 / 0.0009 + 10, fit(stated, x, errors, 0.20, 0.22).aicc(), 1e-9);
        assertEquals(
                0.0042 / 0.0009 + 10,
                fit(stated.with(RobustLoss.HUBER), x, errors, 0.20, 0.22).aicc(),
                1e-9);
        assertEquals(
                10 * Math.log(0.00042) + 16, fit(LINE, x, errors, 0.20, 0.22).aicc(), 1e-9);
    }

    /** By hand: weights 1 and 0.5, (0.3² + 0.5 (0.6² + 0.4²))/1.5, (10 + 0.5 · 4)/1.5 degrees of freedom. */
    @Test
    void rivalsWidenAnEstimate() {
        Estimate own = Estimate.of(1, 0.3, 10);
        Rivals.Rival other = new Rivals.Rival(0.5, figure -> Estimate.of(1.4, 0.6, 4));
        Rivals.Rival refusing = new Rivals.Rival(0.5, figure -> {
            throw new IllegalArgumentException("not on this curve");
        });
        Rivals.Rival unlikely = new Rivals.Rival(0.0049, figure -> Estimate.of(9, 9, 9));
        Estimate among = new Rivals(1, List.of(other, refusing, unlikely), List.of()).among(own, curve -> 0);
        assertEquals(1, among.value());
        assertEquals(Math.sqrt(0.35 / 1.5), among.standardUncertainty(), 1e-12);
        assertEquals(8, among.degreesOfFreedom(), 1e-12);
        assertEquals(own, new Rivals(0, List.of(refusing), List.of()).among(own, curve -> 0));
        assertEquals(
                1,
                new Rivals(1, List.of(new Rivals.Rival(0.005, any -> own)), List.of())
                        .others()
                        .size());
    }
}
