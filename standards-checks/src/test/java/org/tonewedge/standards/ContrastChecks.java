// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards;

import static org.tonewedge.standards.VerificationRow.Group.ARITHMETIC;
import static org.tonewedge.standards.VerificationRow.OWN_ARITHMETIC;
import static org.tonewedge.standards.VerificationRow.Status.COMPUTED;
import static org.tonewedge.standards.VerificationRow.Status.DERIVED;
import static org.tonewedge.standards.VerificationRow.in;
import static org.tonewedge.standards.VerificationRow.number;

import java.util.ArrayList;
import java.util.List;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.MonotoneCubic;
import org.tonewedge.core.curve.MonotoneSlopes;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.standards.contrast.AverageGradient;
import org.tonewedge.standards.contrast.ContrastIndex;
import org.tonewedge.standards.film.DeltaX;
import org.tonewedge.standards.film.FractionalGradient;
import org.tonewedge.standards.film.Iso6;

/** Contrast and speed points of published curves and of curves of closed form. */
final class ContrastChecks {

    private static final String CLOSED_FORMS = OWN_ARITHMETIC + ", method_results.py (mpmath 1.3.0, 40 digits)";

    private static final String PCHIP =
            OWN_ARITHMETIC + ", published points through PCHIP, method_results.py (SciPy 1.17.1)";

    private static final double[] ENCODING_DENSITIES = {
        0.010, 0.028, 0.054, 0.095, 0.145, 0.220, 0.300, 0.400, 0.500, 0.600, 1.425
    };
    private static final double[] ENCODING_LOG_EXPOSURES = {
        -2.721718645,
        -2.521718645,
        -2.321718645,
        -2.121718645,
        -1.921718645,
        -1.721718645,
        -1.521718645,
        -1.321718645,
        -1.121718645,
        -0.926545676714876,
        -0.926545676714876 + 1.5
    };
    private static final double[] ZONE_DENSITIES = {.02, .11, .21, .34, .48, .62, .76, .97, 1.18, 1.33, 1.44};

    private ContrastChecks() {}

    /** The curve this library draws through published points, by the slopes that SciPy's PCHIP takes. */
    private static CharacteristicCurve drawn(String name, double[] logExposures, double[] densities) {
        return CharacteristicCurve.of(
                name,
                MonotoneCubic.through(logExposures, densities, MonotoneSlopes.FRITSCH_BUTLAND),
                LogExposure.ofLogLuxSeconds(logExposures[0]),
                LogExposure.ofLogLuxSeconds(logExposures[logExposures.length - 1]),
                Density.of(0));
    }

    static List<VerificationRow> rows() {
        List<VerificationRow> rows = new ArrayList<>();
        closedForms(rows);
        densityEncoding(rows);
        zones(rows);
        rows.addAll(in(ARITHMETIC, ContrastChecks::readings));
        return rows;
    }

    private static void closedForms(List<VerificationRow> rows) {
        closedForm(
                rows,
                ClosedFormCurve.LOGISTIC,
                "-1.165886071573426",
                "0.7025250264738249",
                "0.5641851132257959",
                "0.5687413245122102",
                "-1.313970552836431",
                "0.3442784163098022");
        closedForm(
                rows,
                ClosedFormCurve.SOFTPLUS_TOE,
                "-1.947377066370723",
                "0.7117123550124289",
                "0.5544165099877688",
                "0.5597650555284985",
                "-2.226635138048042",
                "0.3394956489958722");
        closedForm(
                rows,
                ClosedFormCurve.SOFTPLUS_TOE_SHOULDER,
                "-1.970559176080022",
                "0.7628669638362363",
                "0.5943901310767191",
                "0.6013905501349072",
                "-2.227034114773252",
                "0.313606252183889");
        closedForm(
                rows,
                ClosedFormCurve.HD1890,
                "-2.408978373751996",
                "0.5591557522049721",
                "0.4569374305448626",
                "0.469252628679822",
                "-2.757094085224301",
                "0.4241632903574619");
    }

    private static void closedForm(
            List<VerificationRow> rows,
            ClosedFormCurve closedForm,
            String speedPoint,
            String contrast,
            String averageGradient,
            String contrastIndex,
            String fractionalGradient,
            String deltaX) {
        CharacteristicCurve curve = closedForm.curve();
        String name = switch (closedForm) {
            case LOGISTIC -> "logistic, density range 1.4";
            case SOFTPLUS_TOE -> "logarithmic toe, gradient 0.6";
            case SOFTPLUS_TOE_SHOULDER -> "logarithmic toe and shoulder, gradient 0.65";
            case HD1890 -> "H&amp;D law of 1890, factor 0.7";
        };
        basics(rows, CLOSED_FORMS, name, curve, speedPoint, contrast, averageGradient);
        rows.add(number(
                "ContrastIndex",
                CLOSED_FORMS,
                COMPUTED,
                name,
                contrastIndex,
                1e-9,
                () -> ContrastIndex.withDefaults().determine(curve).figure()));
        rows.add(number(
                "FractionalGradient, log H",
                CLOSED_FORMS,
                COMPUTED,
                name,
                fractionalGradient,
                1e-9,
                () -> FractionalGradient.withDefaults()
                        .speedPoint(curve)
                        .logExposure()
                        .value()));
        rows.add(number(
                "DeltaX",
                CLOSED_FORMS + ", coefficients from memory",
                COMPUTED,
                name,
                deltaX,
                1e-9,
                () -> Math.log10(DeltaX.withDefaults().determine(curve).exact()) + Double.parseDouble(speedPoint)));
    }

    /** The points of ISO 6 and the average gradient of one curve. */
    private static void basics(
            List<VerificationRow> rows,
            String source,
            String input,
            CharacteristicCurve curve,
            String speedPoint,
            String contrast,
            String averageGradient) {
        rows.add(number(
                "Iso6, log Hm",
                source,
                COMPUTED,
                input,
                speedPoint,
                1e-9,
                () -> Iso6.withDefaults()
                        .contrast(curve)
                        .speedPoint()
                        .logExposure()
                        .value()));
        rows.add(number(
                "Iso6, &#916;D over 1.30",
                source,
                COMPUTED,
                input,
                contrast,
                1e-9,
                () -> Iso6.withDefaults().contrast(curve).figure()));
        rows.add(number(
                "AverageGradient",
                source,
                COMPUTED,
                input,
                averageGradient,
                1e-9,
                () -> AverageGradient.withDefaults().determine(curve).figure()));
    }

    /**
     * The negative of the Academy density exchange encoding: toe table without its first point, an extrapolation guard,
     * then the line D = 0.55 (log E + R) above 0.6; ampas/aces-dev, ACEScsc.Academy.ADX10_to_ACES.ctl, 2015.
     */
    private static CharacteristicCurve densityEncodingCurve() {
        return PiecewiseLinearCurve.through("published negative", ENCODING_LOG_EXPOSURES, ENCODING_DENSITIES, 0);
    }

    private static void densityEncoding(List<VerificationRow> rows) {
        String linear = OWN_ARITHMETIC + ", straight between the published points, method_results.py (NumPy 2.4.6)";
        CharacteristicCurve curve = densityEncodingCurve();
        basics(rows, linear, "11 points and line", curve, "-2.101718645", "0.5686548674431818", "0.45243657829545453");
        basics(
                rows,
                PCHIP,
                "published negative of the density encoding, 11 points",
                drawn("published negative", ENCODING_LOG_EXPOSURES, ENCODING_DENSITIES),
                "-2.099548095076274",
                "0.5669393562308874",
                "0.44876045037113244");
    }

    /** Net densities of Zones 0 to X, one stop apart: public page on zones, table 51, from a test series of 1991. */
    private static CharacteristicCurve zoneCurve() {
        return PiecewiseLinearCurve.through("zones", zoneLogExposures(), ZONE_DENSITIES, 0);
    }

    private static double[] zoneLogExposures() {
        double[] logExposures = new double[ZONE_DENSITIES.length];
        for (int zone = 0; zone < logExposures.length; zone++) {
            logExposures[zone] = (zone - 5) * 0.30103; // as tabulated
        }
        return logExposures;
    }

    private static void zones(List<VerificationRow> rows) {
        String source = OWN_ARITHMETIC
                + ", straight between the points of a table of zone densities (public page), method_results.py (NumPy 2.4.6)";
        basics(rows, source, "Zones 0 to X", zoneCurve(), "-1.2375677778", "0.5490353490", "0.4280328895");
        basics(
                rows,
                PCHIP,
                "published densities of Zones 0 to X",
                drawn("zones", zoneLogExposures(), ZONE_DENSITIES),
                "-1.2360563829804947",
                "0.5487432380978103",
                "0.42673352503250755");
    }

    /** An exposure read off the straight line of the encoding above. */
    private static void readings(List<VerificationRow> rows) {
        rows.add(number(
                "CharacteristicCurve, log E at D 0.70",
                "Academy density exchange encoding, ADX10 to ACES (2015)",
                DERIVED,
                "11 points and line",
                "-0.744727494896694",
                1e-9,
                () -> densityEncodingCurve().logExposureAt(Density.of(0.70)).value()));
    }
}
