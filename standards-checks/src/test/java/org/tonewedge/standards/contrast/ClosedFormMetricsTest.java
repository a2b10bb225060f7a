// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.contrast;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.CurveAnatomy;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.curve.OutsideMeasuredRangeException;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.standards.ClosedFormCurve;
import org.tonewedge.standards.film.Iso6;
import org.tonewedge.standards.film.Iso6Contrast;

/** Contrast and speed metrics of {@link ClosedFormCurve}s against {@code method_results.py} (mpmath 1.3.0, 40 digits). */
class ClosedFormMetricsTest {

    private static final double EXACT = 1e-9;

    @ParameterizedTest
    @CsvSource(textBlock = """
            LOGISTIC,              -1.165886071573426, 0.7025250264738249
            SOFTPLUS_TOE,          -1.947377066370723, 0.7117123550124289
            SOFTPLUS_TOE_SHOULDER, -1.970559176080022, 0.7628669638362363
            HD1890,                -2.408978373751996, 0.5591557522049721
            """)
    void speedPointAndContrastOver130(ClosedFormCurve closedForm, double logExposure, double contrast) {
        Iso6Contrast found = Iso6.withDefaults().contrast(closedForm.curve());
        assertEquals(logExposure, found.speedPoint().logExposure().value(), EXACT);
        assertEquals(contrast, found.contrast().orElseThrow().value(), EXACT);
    }

    @ParameterizedTest
    @CsvSource(textBlock = """
            LOGISTIC,              0.5641851132257959
            SOFTPLUS_TOE,          0.5544165099877688
            SOFTPLUS_TOE_SHOULDER, 0.5943901310767191
            HD1890,                0.4569374305448626
            """)
    void averageGradientOver150(ClosedFormCurve closedForm, double expected) {
        ContrastDetermination found = AverageGradient.withDefaults().determine(closedForm.curve());
        assertEquals(expected, found.gradient().value(), EXACT);
    }

    @ParameterizedTest
    @CsvSource(textBlock = """
            LOGISTIC,              0.5687413245122102, -1.171419876221529, 0.2988754043309127,  0.5670752896733478
            SOFTPLUS_TOE,          0.5597650555284985, -1.954239215429071, 0.2976894586123275, -0.2090524152259991
            SOFTPLUS_TOE_SHOULDER, 0.6013905501349072, -1.96183295454579,  0.3030743407801845, -0.2478994589652174
            HD1890,                0.469252628679822,  -2.491057058809335, 0.2849613784847362, -0.6804890770430216
            """)
    void contrastIndexWithItsPoints(
            ClosedFormCurve closedForm, double index, double lower, double lowerDensity, double upper) {
        ContrastDetermination found = ContrastIndex.withDefaults().determine(closedForm.curve());
        assertEquals(index, found.gradient().value(), EXACT);
        assertEquals(lower, found.lower().logExposure().value(), EXACT);
        assertEquals(lowerDensity, found.lower().density().value(), EXACT);
        assertEquals(upper, found.upper().logExposure().value(), EXACT);
    }

    @ParameterizedTest
    @CsvSource({"0.30", "0.6154", "1.0", "1.35"})
    void onAStraightLineAllMeasuresAgree(double gamma) {
        // Algebra: D = 0.20 + g (x + 3) above x = −3 has slope g for every measure.
        CharacteristicCurve line = ClosedFormCurve.line("line", 0.20, gamma, -3);
        assertEquals(
                gamma, ContrastIndex.withDefaults().determine(line).gradient().value(), EXACT);
        assertEquals(
                gamma, AverageGradient.withDefaults().determine(line).gradient().value(), EXACT);
        assertEquals(gamma, CurveAnatomy.of(line).gamma().value(), EXACT);
        assertEquals(
                gamma * 1.30,
                Iso6.withDefaults().contrast(line).contrast().orElseThrow().value(),
                EXACT);
    }

    @Test
    void contrastIndexPointsAreTwoApart() {
        ContrastDetermination found =
                ContrastIndex.withDefaults().determine(ClosedFormCurve.SOFTPLUS_TOE_SHOULDER.curve());
        double run =
                found.upper().logExposure().minus(found.lower().logExposure()).logUnits();
        double rise = found.upper().density().minus(found.lower().density()).value();
        assertEquals(2.0, Math.hypot(run, rise), EXACT);
    }

    @Test
    void contrastIndexIsRefusedWhereTheUpperPointWasNotMeasured() {
        CharacteristicCurve shorter = ClosedFormCurve.SOFTPLUS_TOE
                .curve()
                .restrictedTo(LogExposure.ofLogLuxSeconds(-4), LogExposure.ofLogLuxSeconds(-0.21));
        NotDeterminableException e = assertThrows(
                NotDeterminableException.class,
                () -> ContrastIndex.withDefaults().determine(shorter));
        assertTrue(e.getMessage().contains("read more steps"), e.getMessage());
        // 0.002 log units more, and the point at −0.2091 is there.
        ContrastIndex.withDefaults()
                .determine(ClosedFormCurve.SOFTPLUS_TOE
                        .curve()
                        .restrictedTo(LogExposure.ofLogLuxSeconds(-4), LogExposure.ofLogLuxSeconds(-0.209)));
    }

    @Test
    void averageGradientIsRefusedWhereTheUpperPointWasNotMeasured() {
        CharacteristicCurve shorter = ClosedFormCurve.SOFTPLUS_TOE
                .curve()
                .restrictedTo(LogExposure.ofLogLuxSeconds(-4), LogExposure.ofLogLuxSeconds(-0.5));
        assertThrows(
                OutsideMeasuredRangeException.class,
                () -> AverageGradient.withDefaults().determine(shorter));
    }
}
