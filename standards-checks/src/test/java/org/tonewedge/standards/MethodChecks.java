// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards;

import static org.tonewedge.standards.VerificationRow.OWN_ARITHMETIC;
import static org.tonewedge.standards.VerificationRow.Status.COMPUTED;
import static org.tonewedge.standards.VerificationRow.number;

import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleUnaryOperator;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.quantity.DensityDifference;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.standards.colour.Channel;
import org.tonewedge.standards.colour.ColourCurves;
import org.tonewedge.standards.film.Iso2240;
import org.tonewedge.standards.film.Iso5800;
import org.tonewedge.standards.paper.Iso6846;
import org.tonewedge.standards.radiography.AirKerma;
import org.tonewedge.standards.radiography.RadiographicGradient;
import org.tonewedge.standards.radiography.RadiographicSpeed;

/**
 * Methods from the curve to the result, on curves of closed form. The expected results were worked out by {@code
 * method_results.py} beside the test resources, which shares no code with this library.
 */
final class MethodChecks {

    private static final String SCIPY = OWN_ARITHMETIC + ", method_results.py (SciPy 1.17.1)";

    private MethodChecks() {}

    static List<VerificationRow> rows() {
        List<VerificationRow> rows = new ArrayList<>();
        colourNegative(rows);
        reversal(rows);
        paper(rows);
        radiography(rows);
        return rows;
    }

    private static double softplus(double z) {
        return Math.max(z, 0) + Math.log1p(Math.exp(-Math.abs(z)));
    }

    private static double sigmoid(double z) {
        return 1 / (1 + Math.exp(-z));
    }

    private static CharacteristicCurve layer(String name, double base, double gradient, double toe) {
        return ClosedFormCurve.of(
                name,
                x -> base + gradient * (0.2 * softplus((x - toe) / 0.2) - softplus(3 * (x - toe - 2.4)) / 3),
                x -> gradient * (sigmoid((x - toe) / 0.2) - sigmoid(3 * (x - toe - 2.4))),
                base);
    }

    private static CharacteristicCurve logistic(String name, double base, double rise, double rate, double middle) {
        DoubleUnaryOperator part = x -> sigmoid(rate * (x - middle));
        return ClosedFormCurve.of(
                name,
                x -> base + rise * part.applyAsDouble(x),
                x -> rise * rate * part.applyAsDouble(x) * (1 - part.applyAsDouble(x)),
                base);
    }

    private static void colourNegative(List<VerificationRow> rows) {
        ColourCurves film = new ColourCurves(
                layer("red", 0.25, 0.60, -2.30), layer("green", 0.55, 0.65, -2.45), layer("blue", 0.80, 0.70, -2.60));
        String input = "three layers with toe and shoulder";
        rows.add(number(
                "Iso5800, speed",
                SCIPY,
                COMPUTED,
                input,
                "227.08697645",
                1e-6,
                () -> Iso5800.withDefaults().determine(film).exact()));
        rows.add(number(
                "Iso5800, log H of the slowest layer",
                SCIPY,
                COMPUTED,
                input,
                "-2.1169124635",
                1e-9,
                () -> Iso5800.withDefaults()
                        .determine(film)
                        .speedPoint(Channel.RED)
                        .logExposure()
                        .value()));
        rows.add(VerificationRow.text(
                "Iso5800, slowest layer",
                SCIPY,
                COMPUTED,
                input,
                "RED",
                () -> Iso5800.withDefaults().determine(film).slowest()));
    }

    private static void reversal(List<VerificationRow> rows) {
        rows.add(number(
                "Iso2240, speed by the point at 2.00",
                SCIPY,
                COMPUTED,
                "reversal logistic, density range 3.2",
                "30.0240198",
                1e-6,
                () -> Iso2240.withDefaults()
                        .determine(logistic("long scale", 0.15, 3.2, -2.6, -0.9))
                        .exact()));
        rows.add(number(
                "Iso2240, speed by the tangent",
                SCIPY,
                COMPUTED,
                "reversal logistic, density range 2.3",
                "51.73553",
                1e-4,
                () -> Iso2240.withDefaults()
                        .determine(logistic("short scale", 0.15, 2.3, -3.5, -0.9))
                        .exact()));
    }

    private static void paper(List<VerificationRow> rows) {
        CharacteristicCurve paper = logistic("paper", 0.05, 2.0, 5.0, 0.3);
        String input = "logistic paper, greatest density 2.05";
        rows.add(number(
                "Iso6846, range R before rounding",
                SCIPY,
                COMPUTED,
                input,
                "121.780896",
                1e-5,
                () -> 100
                        * Iso6846.withDefaults().range(paper).logExposureRange().logUnits()));
        rows.add(number(
                "Iso6846, speed P before rounding",
                SCIPY,
                COMPUTED,
                input,
                "740.3883424",
                1e-5,
                () -> Iso6846.withDefaults().speed(paper).exact()));
    }

    private static void radiography(List<VerificationRow> rows) {
        rows.add(number(
                "RadiographicGradient, medical",
                SCIPY,
                COMPUTED,
                "logistic, density range 3.6",
                "1.8627601634",
                1e-9,
                () -> RadiographicGradient.medical()
                        .determine(logistic("medical", 0.20, 3.6, 3.0, 0.0))
                        .figure()));
        CharacteristicCurve industrial = logistic("industrial", 0.25, 6.0, 1.2, 0.0);
        rows.add(number(
                "RadiographicGradient, industrial",
                SCIPY,
                COMPUTED,
                "logistic, density range 6",
                "1.6723753603",
                1e-9,
                () -> RadiographicGradient.industrial().determine(industrial).figure()));
        rows.add(number(
                "RadiographicGradient, at 2.0 above base plus fog",
                SCIPY,
                COMPUTED,
                "logistic, density range 6",
                "1.6",
                1e-9,
                () -> RadiographicGradient.at(industrial, DensityDifference.of(2.0))
                        .value()));
        CharacteristicCurve inKerma = CharacteristicCurve.of(
                "in air kerma",
                industrial.form(),
                new LogExposure(-4, AirKerma.AXIS),
                new LogExposure(4, AirKerma.AXIS),
                industrial.basePlusFog());
        String input = "logistic in log gray, density range 6";
        rows.add(number(
                "RadiographicSpeed SCREEN_FILM",
                SCIPY,
                COMPUTED,
                input,
                "0.0219380620422736",
                1e-12,
                () -> RadiographicSpeed.SCREEN_FILM.determine(inKerma).exact()));
        rows.add(number(
                "RadiographicSpeed DENTAL",
                SCIPY,
                COMPUTED,
                input,
                "0.219380620422736",
                1e-11,
                () -> RadiographicSpeed.DENTAL.determine(inKerma).exact()));
        rows.add(number(
                "RadiographicSpeed INDUSTRIAL",
                SCIPY,
                COMPUTED,
                input,
                "3.7811390655873",
                1e-10,
                () -> RadiographicSpeed.INDUSTRIAL.determine(inKerma).exact()));
    }
}
