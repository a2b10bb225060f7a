// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Scale;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.CurveAnatomy;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.DensityDifference;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.standards.colour.ColourCurves;
import org.tonewedge.standards.contrast.AverageGradient;
import org.tonewedge.standards.contrast.ContrastIndex;
import org.tonewedge.standards.film.DeltaX;
import org.tonewedge.standards.film.FractionalGradient;
import org.tonewedge.standards.film.Inertia;
import org.tonewedge.standards.film.Iso2240;
import org.tonewedge.standards.film.Iso5800;
import org.tonewedge.standards.film.Iso6;
import org.tonewedge.standards.film.IsoSpeed;
import org.tonewedge.standards.paper.Iso6846;
import org.tonewedge.standards.paper.Iso6846Range;
import org.tonewedge.standards.paper.PaperGrade;

/** The laws of the trade that hold for every method. */
class StandardsProperties {

    private static final double EXACT = 1e-7;

    @Property(tries = 100, seed = "1")
    void everySpeedMovesByExactlyTheShiftOfTheExposureAxis(
            @ForAll ClosedFormCurve closedForm, @ForAll @DoubleRange(min = -1.0, max = 1.0) @Scale(6) double shift) {
        List<Double> before = logSpeeds(closedForm.curve());
        List<Double> after = logSpeeds(closedForm.curve().shiftedBy(ExposureInterval.ofLogUnits(shift)));
        for (int i = 0; i < before.size(); i++) {
            assertEquals(before.get(i) - shift, after.get(i), EXACT, "method " + i);
        }
    }

    private static List<Double> logSpeeds(CharacteristicCurve curve) {
        CharacteristicCurve slide = reversed(curve);
        List<Double> speeds = new ArrayList<>(List.of(
                Math.log10(Iso6.withDefaults().determine(curve).exact()),
                Math.log10(Iso5800.withDefaults()
                        .determine(new ColourCurves(curve, curve.shiftedBy(ExposureInterval.ofStops(-1)), curve))
                        .exact()),
                Math.log10(Iso2240.withDefaults().determine(slide).exact()),
                Iso6846.withDefaults().speed(curve).figure(),
                Math.log10(FractionalGradient.withDefaults().determine(curve).exact()),
                Math.log10(DeltaX.withDefaults().determine(curve).exact())));
        try {
            speeds.add(Math.log10(Inertia.withDefaults().determine(curve).exact()));
        } catch (NotDeterminableException e) {
            speeds.add(-curve.lowestExposure().value()); // refused before as after
        }
        return speeds;
    }

    /** A falling curve: the mirror of a rising one about density 2. */
    private static CharacteristicCurve reversed(CharacteristicCurve curve) {
        double[] x = new double[161];
        double[] y = new double[161];
        double from = curve.lowestExposure().value();
        for (int i = 0; i < x.length; i++) {
            x[i] = from + i * 0.05;
            y[i] = 4 - curve.form().density(x[i]);
        }
        return PiecewiseLinearCurve.through("slide", x, y, 4);
    }

    @Property(tries = 50, seed = "1")
    void determinationsDoNotDependOnTheOrderOfReadings(@ForAll ClosedFormCurve closedForm, @ForAll long seed) {
        List<Integer> order = new ArrayList<>();
        for (int i = 0; i < SampledStrips.STEPS; i++) {
            order.add(i);
        }
        CharacteristicCurve sorted = sampled(closedForm, order);
        Collections.shuffle(order, new Random(seed));
        CharacteristicCurve shuffled = sampled(closedForm, order);
        assertEquals(
                Iso6.withDefaults().determine(sorted).exact(),
                Iso6.withDefaults().determine(shuffled).exact());
        assertEquals(
                FractionalGradient.withDefaults().determine(sorted).exact(),
                FractionalGradient.withDefaults().determine(shuffled).exact());
        assertEquals(
                ContrastIndex.withDefaults().determine(sorted).figure(),
                ContrastIndex.withDefaults().determine(shuffled).figure());
        assertEquals(
                Iso6846.withDefaults().range(sorted).figure(),
                Iso6846.withDefaults().range(shuffled).figure());
    }

    private static CharacteristicCurve sampled(ClosedFormCurve closedForm, List<Integer> order) {
        Strip.Builder builder = Strip.builder("strip").basePlusFog(0.20);
        for (int step : order) {
            double logExposure = SampledStrips.exposure(step);
            builder.reading(
                    LogExposure.ofLogLuxSeconds(logExposure),
                    Density.of(closedForm.curve().density(logExposure)));
        }
        return CharacteristicCurve.through(builder.build());
    }

    @Property(tries = 100, seed = "1")
    void contrastMethodsAgreeOnAStraightLine(
            @ForAll @DoubleRange(min = 0.2, max = 1.3) @Scale(3) double gamma,
            @ForAll @DoubleRange(min = -3.0, max = -1.0) @Scale(3) double start) {
        CharacteristicCurve line = ClosedFormCurve.line("line", 0.20, gamma, start);
        AverageGradient average = AverageGradient.withDefaults();
        assertEquals(gamma, average.determine(line).figure(), EXACT);
        assertEquals(gamma, average.withArc(1.5).determine(line).figure(), EXACT);
        assertEquals(
                gamma,
                average.withStart(DensityDifference.of(0.05))
                        .withEnd(DensityDifference.of(0.60))
                        .determine(line)
                        .figure(),
                EXACT);
        assertEquals(gamma, ContrastIndex.withDefaults().determine(line).figure(), EXACT);
        assertEquals(gamma, CurveAnatomy.of(line).gamma().value(), EXACT);
        assertEquals(
                gamma,
                Iso6.withDefaults()
                        .contrast(line)
                        .averageGradient()
                        .orElseThrow()
                        .value(),
                EXACT);
    }

    @Property(tries = 1000, seed = "1")
    void roundingOfSpeedsHasNoGapAndNoOverlap(
            @ForAll @IntRange(min = 0, max = 42) int degrees,
            @ForAll @DoubleRange(min = 0.1, max = 1000) @Scale(4) double constant) {
        IsoSpeed speed = IsoSpeed.ofDegrees(degrees);
        double low = speed.lowestExposure(constant).value();
        double high = speed.highestExposure(constant).value();
        assertEquals(0.1, high - low, 1e-12);
        assertEquals(degrees, rounded(constant, low));
        assertEquals(degrees, rounded(constant, low + 1e-6));
        assertEquals(degrees, rounded(constant, high - 1e-6));
        assertEquals(speed, IsoSpeed.nearest(speed.exact()));
        if (degrees < 42) {
            assertEquals(
                    low,
                    IsoSpeed.ofDegrees(degrees + 1).highestExposure(constant).value(),
                    1e-12);
            assertEquals(degrees + 1, rounded(constant, low - 1e-6));
        }
    }

    private static int rounded(double constant, double logExposure) {
        return IsoSpeed.nearest(constant / Math.pow(10, logExposure)).degrees();
    }

    @Property(tries = 1000, seed = "1")
    void everyRangeOfAPaperHasOneGradeAndOneRoundedRange(
            @ForAll @DoubleRange(min = 0.35, max = 1.69) @Scale(4) double range) {
        long grades = 0;
        for (PaperGrade grade : PaperGrade.values()) {
            if (range >= grade.lowestRange().logUnits()
                    && range < grade.highestRange().logUnits()) {
                grades++;
                assertEquals(Optional.of(grade), PaperGrade.of(ExposureInterval.ofLogUnits(range)));
            }
        }
        assertEquals(1, grades);
        Iso6846Range found = Iso6846.withDefaults()
                .range(PiecewiseLinearCurve.through(
                        "paper", new double[] {-1, 0, range, range + 1}, new double[] {0, 0.04, 1.8, 2.0}, 0));
        assertEquals(range, found.figure(), EXACT);
        assertTrue(Math.abs(found.isoRange() - 100 * range) <= 5 + EXACT && found.isoRange() % 10 == 0);
    }
}
