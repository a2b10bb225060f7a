// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.curve;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Comparator;
import java.util.List;
import java.util.stream.DoubleStream;
import org.junit.jupiter.api.Test;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.DensityDifference;
import org.tonewedge.core.quantity.ExposureAxis;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.strip.Strip;

class CharacteristicCurveTest {

    private static LogExposure at(double logExposure) {
        return LogExposure.ofLogLuxSeconds(logExposure);
    }

    private static Strip.Builder strip(double... densities) {
        Strip.Builder strip = Strip.builder("S1");
        for (int i = 0; i < densities.length; i++) {
            strip.reading(at(-3 + 0.3 * i), Density.of(densities[i]));
        }
        return strip;
    }

    private static CharacteristicCurve curve(double... densities) {
        return CharacteristicCurve.through(strip(densities).basePlusFog(0.20).build());
    }

    @Test
    void passesThroughTheMeanOfRepeats() {
        Strip strip = strip(0.20, 0.25, 0.45, 0.75)
                .basePlusFog(0.19, 0.21)
                .reading(at(-2.1), Density.of(0.79))
                .build();
        CharacteristicCurve curve = CharacteristicCurve.through(strip);
        assertEquals(0.77, curve.densityAt(at(-2.1)).value(), 1e-15);
        assertEquals(0.20, curve.basePlusFog().value(), 1e-15);
    }

    @Test
    void readsLikeTheTrade() {
        CharacteristicCurve curve = curve(0.20, 0.22, 0.40, 0.60, 0.80);
        CurvePoint point = curve.pointAbove(DensityDifference.of(0.40));
        assertEquals(new CurvePoint(at(-2.1), Density.of(0.20 + 0.40)).toString(), point.toString());
        assertEquals("(log H \u22122.10 lx·s, D 0.60)", point.toString());
    }

    @Test
    void outsideTheMeasuredRangeIsRefusedWithRangeAndRemedy() {
        CharacteristicCurve curve = curve(0.20, 0.25, 0.45, 0.75);
        OutsideMeasuredRangeException e =
                assertThrows(OutsideMeasuredRangeException.class, () -> curve.densityAt(at(-2.0)));
        assertTrue(e.getMessage().contains("strip 'S1'"), e.getMessage());
        assertTrue(e.getMessage().contains("\u22122.00"), e.getMessage());
        assertTrue(e.getMessage().contains("log H \u22123.00 lx·s to log H \u22122.10 lx·s"), e.getMessage());
        assertThrows(OutsideMeasuredRangeException.class, () -> curve.gradientAt(at(-3.1)));
        assertThrows(OutsideMeasuredRangeException.class, () -> curve.density(Double.NaN));
    }

    @Test
    void roundingAtTheEndsIsNotOutside() {
        CharacteristicCurve curve = curve(0.20, 0.25, 0.45, 0.75);
        assertEquals(0.75, curve.density(curve.highestExposure().value() + 1e-12), 1e-9);
        assertEquals(0.20, curve.density(curve.lowestExposure().value() - 1e-12), 1e-9);
    }

    @Test
    void densityNotReachedSaysMoreOrLessExposure() {
        CharacteristicCurve curve = curve(0.22, 0.25, 0.45, 0.75);
        assertTrue(messageAt(curve, 0.9).contains("with more exposure"));
        assertTrue(messageAt(curve, 0.1).contains("with less exposure"));
        CharacteristicCurve reversal = curve(2.0, 1.5, 0.8, 0.3);
        assertTrue(messageAt(reversal, 2.2).contains("with less exposure"));
        assertTrue(messageAt(reversal, 0.1).contains("with more exposure"));
    }

    private static String messageAt(CharacteristicCurve curve, double density) {
        return assertThrows(OutsideMeasuredRangeException.class, () -> curve.logExposure(density))
                .getMessage();
    }

    @Test
    void fallingCurvesAreCurves() {
        CharacteristicCurve reversal = curve(2.0, 1.5, 0.8, 0.3);
        assertEquals(CurveDirection.FALLING, reversal.direction());
        assertTrue(reversal.isMonotone());
        assertEquals(-2.4, reversal.logExposureAt(Density.of(0.8)).value(), 1e-12);
        assertTrue(reversal.gradientAt(at(-2.4)).value() < 0);
        assertEquals(2.0, reversal.maximumDensity().value());
        assertEquals(0.3, reversal.minimumDensity().value(), 1e-15);
    }

    @Test
    void aReversingCurveRefusesTheDensitiesItReachesTwice() {
        // Rises to 1.2, then solarises to 0.9.
        CharacteristicCurve curve = curve(0.20, 0.50, 0.90, 1.20, 1.10, 0.90);
        assertFalse(curve.isMonotone());
        AmbiguousDensityException e =
                assertThrows(AmbiguousDensityException.class, () -> curve.logExposureAt(Density.of(1.0)));
        assertTrue(e.getMessage().contains("reached 2 times"), e.getMessage());
        assertEquals(2, curve.logExposuresAt(Density.of(1.0)).size());
        assertEquals(-2.7, curve.logExposureAt(Density.of(0.50)).value(), 1e-12);
        assertEquals(1, curve.logExposuresAt(Density.of(1.20)).size());
        CharacteristicCurve rising = curve.restrictedTo(at(-3), at(-2.1));
        double found = rising.logExposureAt(Density.of(1.0)).value();
        assertEquals(1.0, curve.density(found), 1e-12);
    }

    @Test
    void aLevelStretchHasNoSingleExposure() {
        CharacteristicCurve curve = curve(0.20, 0.20, 0.20, 0.60, 0.90);
        assertTrue(assertThrows(AmbiguousDensityException.class, () -> curve.logExposure(0.20))
                .getMessage()
                .contains("level"));
        assertEquals(-2.1, curve.logExposure(0.60), 1e-12);
    }

    @Test
    void levelStretchesInTheMiddleAndAtTheTopAreRefusedToo() {
        CharacteristicCurve middle = curve(0.20, 0.50, 0.80, 0.80, 1.00);
        assertThrows(AmbiguousDensityException.class, () -> middle.logExposure(0.80));
        assertEquals(List.of(at(-2.4)), middle.logExposuresAt(Density.of(0.80)));
        CharacteristicCurve top = curve(0.20, 0.50, 0.80, 1.00, 1.00);
        assertThrows(AmbiguousDensityException.class, () -> top.logExposure(1.00));
    }

    @Test
    void aCubicContinuedByItsOwnFormTellsWhereItTurns() {
        // Slopes of three points bend the end cubics over, soon beyond the readings.
        Strip strip = strip(0.20, 0.30, 0.55, 0.70, 0.72).basePlusFog(0.20).build();
        CharacteristicCurve longer = CharacteristicCurve.through(strip, MonotoneSlopes.FRITSCH_BUTLAND)
                .extrapolatedByFormula(ExposureInterval.ofLogUnits(0.3), ExposureInterval.ofLogUnits(0.6));
        double least = Double.POSITIVE_INFINITY;
        double greatest = Double.NEGATIVE_INFINITY;
        for (int i = 0; i <= 21_000; i++) {
            double density = longer.density(-3.3 + i * 1e-4);
            least = Math.min(least, density);
            greatest = Math.max(greatest, density);
        }
        assertFalse(longer.isMonotone());
        assertEquals(least, longer.form().density(turnOrEnd(longer, least)), 1e-6);
        assertEquals(greatest, longer.form().density(turnOrEnd(longer, greatest)), 1e-6);
    }

    /** The turning point or end of a curve whose density is nearest to one. */
    private static double turnOrEnd(CharacteristicCurve curve, double density) {
        double lowest = curve.lowestExposure().value();
        double highest = curve.highestExposure().value();
        return DoubleStream.concat(
                        DoubleStream.of(lowest, highest),
                        DoubleStream.of(curve.form().turningPoints(lowest, highest)))
                .boxed()
                .min(Comparator.comparingDouble(x -> Math.abs(curve.form().density(x) - density)))
                .orElseThrow();
    }

    @Test
    void anExtrapolatedCurveBeyondWhatADensityCanBeStillPrints() {
        CharacteristicCurve longer = curve(0.20, 0.40, 0.60, 0.80)
                .extrapolatedStraight(ExposureInterval.ofLogUnits(3), ExposureInterval.ZERO);
        assertTrue(longer.toString().contains("D \u2212"), longer.toString());
        assertThrows(IllegalArgumentException.class, longer::minimumDensity);
    }

    @Test
    void noiseInTheToeDoesNotDisturbTheRest() {
        CharacteristicCurve curve = curve(0.21, 0.20, 0.22, 0.45, 0.80);
        assertFalse(curve.isMonotone());
        assertEquals(-2.1, curve.logExposure(0.45), 1e-12);
        assertThrows(AmbiguousDensityException.class, () -> curve.logExposure(0.205));
    }

    @Test
    void missingBasePlusFogOrStepsAreNamed() {
        NotDeterminableException none = assertThrows(
                NotDeterminableException.class,
                () -> CharacteristicCurve.through(strip(0.2, 0.3, 0.5, 0.8).build()));
        assertTrue(none.getMessage().contains("strip 'S1' has no base-plus-fog reading"), none.getMessage());
        NotDeterminableException few = assertThrows(
                NotDeterminableException.class,
                () -> CharacteristicCurve.through(
                        strip(0.2, 0.3, 0.5).basePlusFog(0.2).build()));
        assertTrue(few.getMessage().contains("has 3 exposures"), few.getMessage());
    }

    @Test
    void axesDoNotMix() {
        CharacteristicCurve curve = curve(0.20, 0.25, 0.45, 0.75);
        LogExposure relative = new LogExposure(-2.5, ExposureAxis.relativeTo("frame 1"));
        assertThrows(IllegalArgumentException.class, () -> curve.densityAt(relative));
        CharacteristicCurve anchored = curve.anchored(at(-3), new LogExposure(0, ExposureAxis.relativeTo("frame 1")));
        assertEquals(
                curve.density(-2.55),
                anchored.densityAt(new LogExposure(0.45, ExposureAxis.relativeTo("frame 1")))
                        .value(),
                1e-12);
        assertThrows(IllegalArgumentException.class, () -> anchored.densityAt(at(-2.5)));
    }

    @Test
    void movingTheAxisMovesTheCurve() {
        CharacteristicCurve curve = curve(0.20, 0.50, 0.90, 1.20, 1.10, 0.90);
        CharacteristicCurve moved = curve.shiftedBy(ExposureInterval.ofStops(1));
        assertEquals(curve.density(-2.5), moved.density(-2.5 + Math.log10(2)), 1e-12);
        assertEquals(curve.gradient(-2.5), moved.gradient(-2.5 + Math.log10(2)), 1e-12);
        assertEquals(curve.logExposure(0.5) + Math.log10(2), moved.logExposure(0.5), 1e-12);
        assertFalse(moved.isMonotone());
    }

    @Test
    void extrapolationIsByTheCallersDecision() {
        CharacteristicCurve curve = curve(0.20, 0.40, 0.60, 0.80);
        CharacteristicCurve longer =
                curve.extrapolatedStraight(ExposureInterval.ZERO, ExposureInterval.ofLogUnits(0.6));
        double gradient = 0.2 / 0.3;
        assertEquals(0.80 + 0.5 * gradient, longer.density(-2.1 + 0.5), 1e-12);
        assertEquals(-2.1 + 0.3, longer.logExposure(1.0), 1e-9);
        assertTrue(longer.name().contains("extrapolated"));
        assertThrows(OutsideMeasuredRangeException.class, () -> longer.density(-1.4));
        assertThrows(OutsideMeasuredRangeException.class, () -> longer.density(-3.1));
        assertThrows(
                IllegalArgumentException.class,
                () -> curve.extrapolatedByFormula(ExposureInterval.ofLogUnits(-1), ExposureInterval.ZERO));
    }

    @Test
    void bulkFormsAgreeWithSingleOnesAndNameTheBadSample() {
        CharacteristicCurve curve = curve(0.20, 0.25, 0.45, 0.75);
        double[] exposures = {-3, -2.9, -2.55, -2.1};
        double[] densities = new double[4];
        double[] gradients = new double[4];
        curve.densities(exposures, densities);
        curve.gradients(exposures, gradients);
        for (int i = 0; i < 4; i++) {
            assertEquals(curve.density(exposures[i]), densities[i], 0);
            assertEquals(curve.gradient(exposures[i]), gradients[i], 0);
        }
        exposures[2] = Double.NaN;
        OutsideMeasuredRangeException e =
                assertThrows(OutsideMeasuredRangeException.class, () -> curve.densities(exposures, densities));
        assertTrue(e.getMessage().contains("sample 2"), e.getMessage());
        assertThrows(IllegalArgumentException.class, () -> curve.densities(exposures, new double[3]));
    }

    @Test
    void averageGradientIsTheSlopeOfTheChord() {
        CharacteristicCurve curve = curve(0.20, 0.25, 0.45, 0.75);
        assertEquals(0.55 / 0.9, curve.averageGradient(at(-3), at(-2.1)).value(), 1e-12);
        assertThrows(IllegalArgumentException.class, () -> curve.averageGradient(at(-3), at(-3)));
    }

    @Test
    void formsThatDoNotKnowTheirTurningPointsAreSearched() {
        CurveForm sine = CurveForm.of(x -> 1 + Math.sin(x), Math::cos);
        CharacteristicCurve curve = CharacteristicCurve.of("sine", sine, at(-3), at(3), Density.of(0));
        List<LogExposure> low = curve.logExposuresAt(Density.of(0.5));
        assertEquals(2, low.size());
        assertEquals(-5 * Math.PI / 6, low.get(0).value(), 1e-12);
        assertEquals(-Math.PI / 6, low.get(1).value(), 1e-12);
        assertEquals(Math.PI / 6, curve.logExposuresAt(Density.of(1.5)).get(0).value(), 1e-12);
        assertEquals(2, curve.logExposuresAt(Density.of(1.5)).size());
        assertEquals(2.0, curve.maximumDensity().value(), 1e-15);
        assertEquals(0.0, curve.minimumDensity().value(), 1e-15);
    }

    @Test
    void badRangesAreRefused() {
        CurveForm form =
                MonotoneCubic.through(new double[] {0, 1}, new double[] {0, 1}, MonotoneSlopes.FRITSCH_CARLSON);
        assertThrows(
                IllegalArgumentException.class, () -> CharacteristicCurve.of("x", form, at(1), at(0), Density.of(0)));
        assertThrows(
                IllegalArgumentException.class,
                () -> CharacteristicCurve.of(
                        "x", form, at(0), new LogExposure(1, ExposureAxis.relativeTo("a")), Density.of(0)));
        assertThrows(
                IllegalArgumentException.class, () -> CharacteristicCurve.of(" ", form, at(0), at(1), Density.of(0)));
    }

    /** A root has no value below 0: the message names the curve and the place, not the densitometer. */
    @Test
    void aFormulaWithoutAValueIsNamed() {
        CharacteristicCurve root = CharacteristicCurve.of(
                "a root",
                CurveForm.of(Math::sqrt, x -> 0.5 / Math.sqrt(x)),
                LogExposure.ofLogLuxSeconds(-1),
                LogExposure.ofLogLuxSeconds(1),
                Density.of(0));
        IllegalArgumentException refused =
                assertThrows(IllegalArgumentException.class, () -> root.densityAt(LogExposure.ofLogLuxSeconds(-0.5)));
        assertTrue(
                refused.getMessage().startsWith("a root: the density is NaN at log H −0.50 lx·s"),
                refused.getMessage());
    }
}
