// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.exposure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.quantity.DensityDifference;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.ResultRecord;
import org.tonewedge.standards.ClosedFormCurve;
import org.tonewedge.standards.exposure.ReciprocityFit.TimedExposure;

class ReciprocityFitTest {

    @Test
    void exactStripsGiveTheirLawBack() {
        ReciprocityFit fit = ReciprocityFit.schwarzschild(ReciprocitySimulation.strips(false, true, null));
        assertEquals(ReciprocitySimulation.EXPONENT, fit.exponent().value(), 1e-9);
        // The law of Schwarzschild: t becomes t^(1/p) from one second on.
        assertEquals(
                Math.pow(60, 1 / ReciprocitySimulation.EXPONENT),
                fit.correctedSeconds(Duration.ofSeconds(60)).value(),
                1e-6);
        assertTrue(fit.isSignificant());
        assertFalse(fit.lacksFit());
        ReciprocityFit curved = ReciprocityFit.catenary(ReciprocitySimulation.strips(true, true, null));
        assertEquals(
                ReciprocitySimulation.correctedOnCatenary(60),
                curved.correctedSeconds(Duration.ofSeconds(60)).value(),
                1e-4);
    }

    @Test
    void aTableGoesThroughTheStrips() {
        Reciprocity table = ReciprocityFit.table(ReciprocitySimulation.strips(false, true, null));
        assertEquals(Duration.ofSeconds(1), table.correctedTime(Duration.ofSeconds(1)));
        Duration metered = Duration.ofNanos(Math.round(1e9 * Math.pow(100, ReciprocitySimulation.EXPONENT)));
        assertEquals(100, table.correctedTime(metered).toNanos() / 1e9, 1e-6);
    }

    /**
     * Metered and corrected seconds of an unnamed material, from a practitioner, without a published source. The line
     * through them is that of NumPy 2.4.6: {@code np.polyfit(np.log10(c), np.log10(c/m), 1, cov=True)}.
     */
    @Test
    void sixTestsGiveTheLineOfAnotherProgram() {
        double[] metered = {80, 160, 240, 480, 960, 1920};
        double[] corrected = {82, 166, 252, 519, 1090, 2288};
        List<TimedExposure> strips = new ArrayList<>();
        for (int i = 0; i < metered.length; i++) {
            strips.add(new TimedExposure(
                    Duration.ofMillis(Math.round(1000 * corrected[i])),
                    Estimate.of(Math.log10(corrected[i] / metered[i]), 0)));
        }
        ReciprocityFit fit = ReciprocityFit.schwarzschild(strips);
        assertEquals(0.9536460534345649, fit.exponent().value(), 1e-9);
        assertEquals(0.00521696857545323, fit.exponent().standardUncertainty(), 1e-9);
        assertEquals(4, fit.exponent().degreesOfFreedom());
    }

    private static List<TimedExposure> measured(boolean stated) {
        double[] seconds = {0.01, 0.1, 1, 10, 100, 1000};
        double[] logs = {-1.02, -1.22, -1.33, -1.27, -1.05, -0.72};
        double[] uncertainties = {0.02, 0.01, 0.01, 0.015, 0.02, 0.03};
        List<TimedExposure> strips = new ArrayList<>();
        for (int i = 0; i < seconds.length; i++) {
            strips.add(exposure(seconds[i], logs[i], stated ? uncertainties[i] : 0));
        }
        return strips;
    }

    /** SciPy's least squares: {@code exposure_fits.py} in the test resources, with differences for derivatives on both sides. */
    @ParameterizedTest
    @CsvSource({
        "catenary, true, 0.7877439722232529, 0.005625941920995022, 41.82690724387264, 2.2875790131102884",
        "catenary, false, 0.7733886791888569, 0.022001356240706312, 48.6660426484845, 11.183859327640272",
        "schwarzschild, true, 0.9705086684207433, 0.004752063966175731, 78.15554920222782, 3.4303488358597742",
        "schwarzschild, false, 0.9408571421073422, 0.05186114381506469, 103.66882084406666, 52.83697027736007"
    })
    void uncertaintiesAreThoseOfAnotherProgram(
            String law, boolean stated, double exponent, double ofExponent, double corrected, double ofCorrected) {
        List<TimedExposure> strips = measured(stated);
        Collections.reverse(strips);
        ReciprocityFit fit =
                law.equals("catenary") ? ReciprocityFit.catenary(strips) : ReciprocityFit.schwarzschild(strips);
        assertEquals(exponent, fit.exponent().value(), 1e-5);
        assertEquals(ofExponent, fit.exponent().standardUncertainty(), 0.001 * ofExponent);
        Estimate seconds = fit.correctedSeconds(Duration.ofSeconds(60));
        assertEquals(corrected, seconds.value(), 1e-5 * corrected);
        assertEquals(ofCorrected, seconds.standardUncertainty(), 0.001 * ofCorrected);
        assertEquals(
                stated ? Double.POSITIVE_INFINITY : law.equals("catenary") ? 3 : 4,
                fit.exponent().degreesOfFreedom());
        assertEquals(stated, fit.probability().isPresent());
        String first = fit.records().stream()
                .filter(each -> each.name().equals("exposure.1.log_exposure"))
                .findFirst()
                .orElseThrow()
                .toString();
        assertTrue(first.contains("-1.02") || first.contains("−1.02"), first);
        assertTrue(fit.records().stream().anyMatch(each -> each.name().equals("exposure.6.time")));
    }

    /** A slice of the figures in the documentation. */
    @ParameterizedTest
    @ValueSource(ints = {0, 1, 2, 3})
    @Tag("slow")
    void intervalsIncludeTheTruth(int kind) {
        double[] found = ReciprocitySimulation.run(300, kind, new Random(20 + kind));
        assertTrue(found[0] >= 0.915 && found[0] <= 0.985, "coverage " + found[0]);
        assertEquals(0, found[1], kind < 2 ? 0.002 : 0.02);
        // One set in six shows no minimum of a catenary by chance.
        assertTrue(found[2] <= (kind < 2 ? 0 : 75), found[2] + " refused");
    }

    @Test
    void theWrongLawIsNoticed() {
        ReciprocityFit fit = ReciprocityFit.schwarzschild(List.of(
                exposure(0.01, -1.30, 0.01),
                exposure(0.1, -1.50, 0.01),
                exposure(1, -1.50, 0.01),
                exposure(10, -1.35, 0.01),
                exposure(100, -1.10, 0.01)));
        assertTrue(fit.lacksFit());
        ReciprocityFit none = ReciprocityFit.schwarzschild(
                List.of(exposure(1, -1.50, 0.02), exposure(10, -1.49, 0.02), exposure(100, -1.51, 0.02)));
        assertFalse(none.isSignificant());
    }

    private static TimedExposure exposure(double seconds, double log, double uncertainty) {
        return new TimedExposure(Duration.ofMillis(Math.round(1000 * seconds)), Estimate.of(log, uncertainty));
    }

    @Test
    void whatTellsNothingIsRefused() {
        assertThrows(
                NotDeterminableException.class, () -> ReciprocityFit.schwarzschild(List.of(exposure(1, -1, 0.01))));
        assertThrows(
                NotDeterminableException.class,
                () -> ReciprocityFit.schwarzschild(List.of(exposure(1, -1, 0.01), exposure(1.5, -1, 0.01))));
        assertThrows(
                NotDeterminableException.class,
                () -> ReciprocityFit.schwarzschild(List.of(exposure(1, -1, 0), exposure(10, -1, 0))));
        assertThrows(
                IllegalArgumentException.class,
                () -> ReciprocityFit.schwarzschild(List.of(exposure(1, -1, 0), exposure(10, -1, 0.1))));
        assertThrows(
                IllegalArgumentException.class,
                () -> ReciprocityFit.schwarzschild(List.of(exposure(1, -1, 0.1), exposure(1, -1, 0.1))));
        ReciprocityFit fit = ReciprocityFit.schwarzschild(ReciprocitySimulation.strips(false, true, null));
        assertThrows(IllegalArgumentException.class, () -> fit.correctedSeconds(Duration.ofMillis(500)));
        assertThrows(IllegalArgumentException.class, () -> fit.correctedSeconds(Duration.ofSeconds(290)));
    }

    @Test
    void exposuresAreReadOffCurves() {
        CharacteristicCurve curve = ClosedFormCurve.line("line", 0.2, 0.6, -2);
        TimedExposure read = TimedExposure.at(DensityDifference.of(0.6), Duration.ofSeconds(10), curve, 0.01);
        assertEquals(-1, read.logExposure().value(), 1e-9);
        assertEquals(0.01, read.logExposure().standardUncertainty());
    }

    @Test
    void theRecordsTellTheExponentAndTheExposures() {
        List<TimedExposure> strips = ReciprocitySimulation.strips(false, true, null);
        ReciprocityFit fit = ReciprocityFit.schwarzschild(strips);

        assertTrue(fit.records().contains(ResultRecord.ofEstimate("exponent", fit.exponent(), "")));
        assertTrue(fit.records()
                .contains(ResultRecord.ofNumber(
                        "exposure.1.time", strips.get(0).time().toNanos() / 1e9, "s")));
    }

    /**
     * By hand, log H = −1, −0.9, −0.6 at 1, 10, 100 s: the line of least squares rises by 0.2 each decade, so that p = 0.8, and leaves
     * 1/30, −2/30, 1/30 (from the mean −5/6): a sum of squares of 6/900 with 3 − 2 = 1 degree of freedom. The slope has the variance
     * of 6/900 / 2, since the squared decades from their mean sum to 2.
     */
    @Test
    void oneTimeMoreThanTheLawHasParametersIsEnough() {
        List<TimedExposure> three = List.of(exposure(1, -1, 0), exposure(10, -0.9, 0), exposure(100, -0.6, 0));
        ReciprocityFit fit = ReciprocityFit.schwarzschild(three);
        assertEquals(0.8, fit.exponent().value(), 1e-9);
        assertEquals(Math.sqrt(6.0 / 900 / 2), fit.exponent().standardUncertainty(), 1e-9);
        assertEquals(1, fit.exponent().degreesOfFreedom());
        // t^(1/p): 32 s for a metered 16 s.
        assertEquals(32, fit.correctedSeconds(Duration.ofSeconds(16)).value(), 1e-6);
        assertEquals(32, fit.law().correctedTime(Duration.ofSeconds(16)).toNanos() / 1e9, 1e-6);
    }

    /** Two times, a factor of two apart: 0.1 in log H over 0.30103 in log t is p = 1 − 0.33219; nothing tests the law. */
    @Test
    void twoTimesWithStatedUncertaintiesAreEnough() {
        ReciprocityFit fit = ReciprocityFit.schwarzschild(List.of(exposure(1, -1, 0.01), exposure(2, -0.9, 0.01)));
        assertEquals(1 - 0.1 / Math.log10(2), fit.exponent().value(), 1e-9);
        assertEquals(0.01 * Math.sqrt(2) / Math.log10(2), fit.exponent().standardUncertainty(), 1e-9);
        assertTrue(fit.probability().isEmpty());
        assertFalse(fit.lacksFit());
    }

    @Test
    void theRecordsTellAnUncertaintyThatIsStated() {
        for (boolean stated : new boolean[] {false, true}) {
            ResultRecord first = ReciprocityFit.schwarzschild(measured(stated)).records().stream()
                    .filter(each -> each.name().equals("exposure.1.log_exposure"))
                    .findFirst()
                    .orElseThrow();
            assertEquals(
                    stated ? 0.02 : -1,
                    first.estimate().map(Estimate::standardUncertainty).orElse(-1.0));
        }
    }
}
