// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards;

import static org.tonewedge.standards.VerificationRow.Group.ARITHMETIC;
import static org.tonewedge.standards.VerificationRow.Group.CONSTANT;
import static org.tonewedge.standards.VerificationRow.Group.METHOD;
import static org.tonewedge.standards.VerificationRow.Status.DERIVED;
import static org.tonewedge.standards.VerificationRow.Status.VERIFIED;
import static org.tonewedge.standards.VerificationRow.in;
import static org.tonewedge.standards.VerificationRow.number;
import static org.tonewedge.standards.VerificationRow.text;

import java.text.DecimalFormat;
import java.text.DecimalFormatSymbols;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.StringJoiner;
import java.util.function.DoubleUnaryOperator;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.Gradient;
import org.tonewedge.core.quantity.SpectralResponse;
import org.tonewedge.standards.exposure.SensitometricIlluminant;
import org.tonewedge.standards.radiography.AirKerma;
import org.tonewedge.standards.radiography.DentalSpeedGroup;
import org.tonewedge.standards.radiography.IndustrialFilmClass;
import org.tonewedge.standards.radiography.RadiographicSpeed;

/** Densities, spectra and radiographic films. */
final class DensityChecks {

    private static final String COLOUR_LIBRARY = "general-purpose colour library, ISO 5-3 spectral products";

    private DensityChecks() {}

    static List<VerificationRow> rows() {
        List<VerificationRow> rows = new ArrayList<>();
        rows.addAll(in(ARITHMETIC, DensityChecks::transmittances));
        rows.addAll(in(CONSTANT, DensityChecks::spectralProducts));
        rows.addAll(in(METHOD, DensityChecks::spectralDensities));
        rows.addAll(in(CONSTANT, DensityChecks::illuminants));
        rows.addAll(in(CONSTANT, DensityChecks::radiography));
        return rows;
    }

    private static void transmittances(List<VerificationRow> rows) {
        rows.add(VerificationRow.table(
                "Density of a transmittance",
                "Radiography in Modern Industry, p. 65",
                VERIFIED,
                "7 transmittances from 1 to 0.0001, within 0.005",
                List.of("1:0 0.50:0.3 0.25:0.6 0.10:1.0 0.01:2.0 0.001:3.0 0.0001:4.0".split(" ", -1)),
                pair -> {
                    String[] parts = pair.split(":", -1);
                    double density = Density.ofTransmittance(Double.parseDouble(parts[0]))
                            .value();
                    return Math.abs(density - Double.parseDouble(parts[1])) < 0.005;
                }));
        rows.add(number(
                "ExposureInterval of a ratio",
                "Radiography in Modern Industry, p. 70",
                VERIFIED,
                "exposures 30 and 150",
                "0.70",
                0.005,
                () -> ExposureInterval.ofRatio(150.0 / 30).logUnits()));
    }

    private static void spectralProducts(List<VerificationRow> rows) {
        String sums =
                "VISUAL:1057.33 STATUS_A_BLUE:305.06 STATUS_A_GREEN:313.12 STATUS_A_RED:291.57 STATUS_M_BLUE:404.30"
                        + " STATUS_M_GREEN:446.65 STATUS_M_RED:277.86 STATUS_T_BLUE:711.09 STATUS_T_GREEN:524.33"
                        + " STATUS_T_RED:312.88 STATUS_E_BLUE:526.85 STATUS_E_GREEN:524.34 STATUS_E_RED:312.89 TYPE_1:159.22"
                        + " TYPE_2:945.69";
        for (String row : sums.split(" ", -1)) {
            String[] parts = row.split(":", -1);
            rows.add(number(
                    "SpectralResponse " + parts[0] + ", sum of products",
                    COLOUR_LIBRARY,
                    DERIVED,
                    "340 to 830 nm",
                    parts[1],
                    0.005,
                    () -> SpectralResponse.valueOf(parts[0]).sumOfWeights()));
        }
    }

    private static void spectralDensities(List<VerificationRow> rows) {
        spectralDensities(
                rows,
                "T = &#955;/1000",
                nanometres -> nanometres / 1000,
                "0.2424 0.3524 0.2715 0.2020 0.3445 0.2656 0.1881 0.3371 0.2732 0.2145 0.3541 0.3979 0.3700");
        spectralDensities(
                rows,
                "D = &#955;/500",
                nanometres -> Math.pow(10, -nanometres / 500),
                "1.1369 0.8878 1.0698 1.2552 0.9036 1.0835 1.2962 0.9173 1.0644 1.2196 0.8831 0.7998 0.8481");
        spectralDensities(
                rows,
                "D = 1.5 exp(&#8722;((&#955; &#8722; 540)/40)&#178;/2)",
                nanometres -> Math.pow(10, -1.5 * Math.exp(-0.5 * Math.pow((nanometres - 540) / 40, 2))),
                "0.6271 0.0964 1.4112 0.1514 0.1547 1.3404 0.0482 0.2323 1.2675 0.3247 0.1078 0.0038 0.0809");
    }

    private static void spectralDensities(
            List<VerificationRow> rows, String sample, DoubleUnaryOperator transmittance, String published) {
        List<SpectralResponse> columns = List.of(
                SpectralResponse.VISUAL,
                SpectralResponse.STATUS_A_BLUE,
                SpectralResponse.STATUS_A_GREEN,
                SpectralResponse.STATUS_A_RED,
                SpectralResponse.STATUS_M_BLUE,
                SpectralResponse.STATUS_M_GREEN,
                SpectralResponse.STATUS_M_RED,
                SpectralResponse.STATUS_T_BLUE,
                SpectralResponse.STATUS_T_GREEN,
                SpectralResponse.STATUS_T_RED,
                SpectralResponse.STATUS_E_BLUE,
                SpectralResponse.TYPE_1,
                SpectralResponse.TYPE_2);
        String[] values = published.split(" ", -1);
        for (int i = 0; i < values.length; i++) {
            SpectralResponse response = columns.get(i);
            rows.add(number(
                    "SpectralResponse " + response.name() + ", density",
                    COLOUR_LIBRARY + " and its formula",
                    DERIVED,
                    sample,
                    values[i],
                    0.5e-4 + 1e-9,
                    () -> response.density(transmittance).value()));
        }
    }

    private static void illuminants(List<VerificationRow> rows) {
        String source = "general-purpose colour-science library, ISO 7589:2002";
        String lens = "source times lens: ";
        illuminant(rows, source, lens + "daylight, 400 nm", "45.14", SensitometricIlluminant.DAYLIGHT.throughLens(400));
        illuminant(rows, source, lens + "daylight, 690 nm", "75.20", SensitometricIlluminant.DAYLIGHT.throughLens(690));
        illuminant(
                rows,
                source,
                lens + "tungsten, 450 nm",
                "36.10",
                SensitometricIlluminant.STUDIO_TUNGSTEN.throughLens(450));
        illuminant(
                rows,
                source,
                lens + "tungsten, 650 nm",
                "143.56",
                SensitometricIlluminant.STUDIO_TUNGSTEN.throughLens(650));
        illuminant(
                rows,
                source,
                lens + "photoflood, 420 nm",
                "29.92",
                SensitometricIlluminant.PHOTOFLOOD.throughLens(420));
        illuminant(
                rows,
                source,
                lens + "photoflood, 680 nm",
                "135.36",
                SensitometricIlluminant.PHOTOFLOOD.throughLens(680));
        illuminant(
                rows,
                source,
                "tungsten times lens times diffuser, 400 nm",
                "8.17",
                SensitometricIlluminant.printer(400));
        illuminant(
                rows,
                source,
                "tungsten times lens times diffuser, 500 nm",
                "60.83",
                SensitometricIlluminant.printer(500));
    }

    private static void illuminant(
            List<VerificationRow> rows, String source, String input, String published, double ours) {
        rows.add(number("SensitometricIlluminant", source, VERIFIED, input, published, 0.00501, () -> ours));
    }

    private static void radiography(List<VerificationRow> rows) {
        double[] densities = {0.2, 4.2};
        double kerma = Math.log10(5e-6);
        rows.add(number(
                "RadiographicSpeed SCREEN_FILM",
                "radiographer&#8217;s reference page, after ISO 9236-1",
                VERIFIED,
                "5 &#181;Gy at 1.0 above base plus fog",
                "200",
                1e-9,
                () -> RadiographicSpeed.SCREEN_FILM
                        .determine(PiecewiseLinearCurve.through(
                                "system",
                                new double[] {kerma - 1 / 2.0, kerma + 3 / 2.0},
                                densities,
                                0.2,
                                AirKerma.AXIS))
                        .exact()));
        String dental = "dental reference page, after ISO 3665";
        rows.add(text(
                "DentalSpeedGroup",
                dental,
                VERIFIED,
                "speed 55",
                "E",
                () -> DentalSpeedGroup.of(55).orElseThrow()));
        rows.add(text(
                "DentalSpeedGroup",
                dental,
                VERIFIED,
                "speed 57",
                "F",
                () -> DentalSpeedGroup.of(57).orElseThrow()));
        String classes = "SPECIAL:4.5:7.5:300:0.018 I:4.1:6.8:150:0.028 II:3.8:6.4:120:0.032 III:3.5:5:100:0.039"
                + " W_A:3.8:5.7:135:0.027 W_B:3.5:5:110:0.032 W_C:0:0:80:0.039";
        for (String row : classes.split(" ", -1)) {
            String[] parts = row.split(":", 2);
            IndustrialFilmClass film = IndustrialFilmClass.valueOf(parts[0]);
            rows.add(text(
                    "IndustrialFilmClass " + film + ", limits, 0 for none",
                    "ASTM E1815-08 (2013), table 1",
                    VERIFIED,
                    "gradients at 2.0 and 4.0, gradient over granularity, granularity",
                    parts[1],
                    () -> limits(film)));
        }
    }

    /** Where each condition begins or ends to be met, found by halving and printed to three decimals. */
    private static String limits(IndustrialFilmClass film) {
        double[] met = {20, 20, 2000, 1e-6};
        double[] missed = {0, 0, 0, 1};
        StringJoiner found = new StringJoiner(":");
        for (int i = 0; i < met.length; i++) {
            double inside = met[i];
            double outside = missed[i];
            for (int halving = 0; halving < 60; halving++) {
                double middle = (inside + outside) / 2;
                boolean isMet = film.conditions(
                                Gradient.of(i == 0 ? middle : 1),
                                Gradient.of(i == 1 ? middle : 1),
                                i == 3 ? middle : 1 / (i == 2 ? middle : 1))
                        .get(i)
                        .isMet();
                inside = isMet ? middle : inside;
                outside = isMet ? outside : middle;
            }
            found.add(new DecimalFormat("0.###", DecimalFormatSymbols.getInstance(Locale.ROOT)).format(inside));
        }
        return found.toString();
    }
}
