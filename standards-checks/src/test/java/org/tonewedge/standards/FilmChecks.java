// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards;

import static org.tonewedge.standards.VerificationRow.Group.ARITHMETIC;
import static org.tonewedge.standards.VerificationRow.Group.CONSTANT;
import static org.tonewedge.standards.VerificationRow.OWN_ARITHMETIC;
import static org.tonewedge.standards.VerificationRow.Status.DERIVED;
import static org.tonewedge.standards.VerificationRow.Status.MEMORY;
import static org.tonewedge.standards.VerificationRow.Status.VERIFIED;
import static org.tonewedge.standards.VerificationRow.in;
import static org.tonewedge.standards.VerificationRow.number;
import static org.tonewedge.standards.VerificationRow.text;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.IntStream;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.standards.film.HistoricalScale;
import org.tonewedge.standards.film.Iso2240;
import org.tonewedge.standards.film.Iso5800;
import org.tonewedge.standards.film.Iso6;
import org.tonewedge.standards.film.IsoSpeed;
import org.tonewedge.standards.film.PlateSpeed;
import org.tonewedge.standards.paper.PaperGrade;

/** Speeds of films, plates and papers. */
final class FilmChecks {

    private static final String PAIRS = "public table of equivalents of ASA and DIN";
    private static final String PLATES =
            "Martin, Wireless Transmission of Photographs, 2nd ed. (1919), table of plate speeds";

    private FilmChecks() {}

    static List<VerificationRow> rows() {
        List<VerificationRow> rows = new ArrayList<>();
        rows.addAll(in(CONSTANT, FilmChecks::nominalPairs));
        rows.addAll(in(ARITHMETIC, FilmChecks::bins));
        rows.addAll(in(ARITHMETIC, FilmChecks::exactDegrees));
        rows.addAll(in(ARITHMETIC, FilmChecks::plates));
        rows.addAll(in(CONSTANT, FilmChecks::scales));
        rows.addAll(in(CONSTANT, FilmChecks::papers));
        return rows;
    }

    /** Degrees and arithmetic speeds 6° to 40° as printed, but for 32°, printed as 1300 where ISO tables have 1250. */
    private static void nominalPairs(List<VerificationRow> rows) {
        String printed =
                "6:3 7:4 8:5 9:6 10:8 11:10 12:12 13:16 14:20 15:25 16:32 17:40 18:50 19:64 20:80 21:100 22:125"
                        + " 23:160 24:200 25:250 26:320 27:400 28:500 29:640 30:800 31:1000 33:1600 34:2000 35:2500 36:3200"
                        + " 37:4000 38:5000 39:6400 40:8000";
        rows.add(VerificationRow.table(
                "IsoSpeed, rounding table",
                PAIRS,
                VERIFIED,
                "degrees of 34 arithmetic speeds from 3 to 8000, and back",
                List.of(printed.split(" ", -1)),
                FilmChecks::isPair));
        rows.add(VerificationRow.table(
                "IsoSpeed, rounding table",
                "ISO tables, from memory; the table of equivalents prints 1300",
                MEMORY,
                "degrees of 1250, and back",
                List.of("32:1250"),
                FilmChecks::isPair));
    }

    private static boolean isPair(String pair) {
        String[] parts = pair.split(":", -1);
        int degrees = Integer.parseInt(parts[0]);
        double arithmetic = Double.parseDouble(parts[1]);
        return IsoSpeed.nearest(arithmetic).degrees() == degrees
                && IsoSpeed.ofDegrees(degrees).arithmetic() == arithmetic;
    }

    /** First and last two-decimal log Hm of each bin from 4/7° to 6400/39°, for the constant of each standard. */
    private static void bins(List<VerificationRow> rows) {
        bins(rows, "0.8 (ISO 6)", Iso6.SPEED_CONSTANT, -74);
        bins(rows, "&#8730;2 (ISO 5800)", Iso5800.SPEED_CONSTANT, -49);
        bins(rows, "10 (ISO 2240)", Iso2240.SPEED_CONSTANT, 35);
    }

    /** One row for one constant; the bins follow each other at 0.10. */
    private static void bins(List<VerificationRow> rows, String constant, double k, int firstCentile) {
        rows.add(VerificationRow.table(
                "IsoSpeed, bins of log Hm for k = " + constant,
                OWN_ARITHMETIC + " from S = k / Hm and 1 + 10 log S, rounded to the nearest degree",
                MEMORY,
                "first and last log Hm of two decimals of 33 bins, 7&#176; to 39&#176;, and those beyond",
                IntStream.rangeClosed(7, 39).mapToObj(Integer::toString).toList(),
                bin -> {
                    int degrees = Integer.parseInt(bin);
                    int first = firstCentile - 10 * (degrees - 7);
                    return degreesAt(k, first - 1) == degrees + 1
                            && degreesAt(k, first) == degrees
                            && degreesAt(k, first + 9) == degrees
                            && degreesAt(k, first + 10) == degrees - 1;
                }));
    }

    private static int degreesAt(double constant, int centile) {
        return IsoSpeed.nearest(constant / Math.pow(10, centile / 100.0)).degrees();
    }

    /** Hm = 0.8/S and exact degrees, worked out beside this library, one row for all; the logarithmic form is from memory. */
    private static void exactDegrees(List<VerificationRow> rows) {
        String computed = "6:8.7815:0.13333333 8:10.0309:0.10000000 10:11.0000:0.08000000 12:11.7918:0.06666667"
                + " 16:13.0412:0.05000000 20:14.0103:0.04000000 25:14.9794:0.03200000 32:16.0515:0.02500000"
                + " 40:17.0206:0.02000000 50:17.9897:0.01600000 64:19.0618:0.01250000 80:20.0309:0.01000000"
                + " 100:21.0000:0.00800000 125:21.9691:0.00640000 160:23.0412:0.00500000 200:24.0103:0.00400000"
                + " 250:24.9794:0.00320000 320:26.0515:0.00250000 400:27.0206:0.00200000 500:27.9897:0.00160000"
                + " 640:29.0618:0.00125000 800:30.0309:0.00100000 1000:31.0000:0.00080000 1250:31.9691:0.00064000"
                + " 1600:33.0412:0.00050000 2000:34.0103:0.00040000 2500:34.9794:0.00032000 3200:36.0515:0.00025000";
        rows.add(VerificationRow.table(
                "Iso6, exact degrees",
                OWN_ARITHMETIC + " from 1 + 10 log S",
                MEMORY,
                "28 lines with Hm = 0.8 / S, S from 6 to 3200, within 0.0001",
                List.of(computed.split(" ", -1)),
                line -> {
                    String[] parts = line.split(":", -1);
                    double found = Iso6.withDefaults()
                            .determine(isoLine(Math.log10(Double.parseDouble(parts[2]))))
                            .exactDegrees();
                    return Math.abs(found - Double.parseDouble(parts[1])) < 1e-4;
                }));
    }

    /**
     * H&D, Watkins and Wynne numbers. Left out are the Watkins numbers below H&D 100, printed as multiples of 15, and the
     * Wynne numbers of H&D 20 and 160, which are misprints. Wynne numbers are printed up to 1.3 below the rule.
     */
    private static void plates(List<VerificationRow> rows) {
        String watkins =
                "100:147 120:176 140:206 160:235 200:294 220:323 240:352 260:382 280:412 300:441 320:470 340:500"
                        + " 380:558 400:588";
        String wynne = "10:24 40:49 80:69 100:77 120:84 140:91 200:109 220:114 240:120 260:124 280:129 300:134 320:138"
                + " 340:142 380:150 400:154";
        rows.add(VerificationRow.table(
                "PlateSpeed, Watkins",
                PLATES,
                VERIFIED,
                "14 plates of H&amp;D 100 to 400, within 1",
                List.of(watkins.split(" ", -1)),
                plate -> isNumber(plate, PlateSpeed.WATKINS, 1)));
        rows.add(VerificationRow.table(
                "PlateSpeed, Wynne",
                PLATES,
                VERIFIED,
                "16 plates of H&amp;D 10 to 400, within 1.5",
                List.of(wynne.split(" ", -1)),
                plate -> isNumber(plate, PlateSpeed.WYNNE, 1.5)));
        LogExposure example = LogExposure.ofLuxSeconds(0.2);
        rows.add(number(
                "PlateSpeed, H&amp;D",
                PLATES,
                VERIFIED,
                "inertia 1/5",
                "170",
                0.5,
                () -> PlateSpeed.HURTER_DRIFFIELD.speed(example)));
        rows.add(number(
                "PlateSpeed, Watkins",
                PLATES,
                VERIFIED,
                "inertia 1/5",
                "250",
                0.5,
                () -> PlateSpeed.WATKINS.speed(example)));
        rows.add(number(
                "PlateSpeed, Wynne",
                PLATES,
                VERIFIED,
                "inertia 1/5",
                "101",
                0.5,
                () -> PlateSpeed.WYNNE.speed(example)));
    }

    private static boolean isNumber(String plate, PlateSpeed scale, double tolerance) {
        String[] parts = plate.split(":", -1);
        LogExposure inertia = LogExposure.ofLuxSeconds(34 / Double.parseDouble(parts[0]));
        return Math.abs(scale.speed(inertia) - Double.parseDouble(parts[1])) < tolerance;
    }

    private static void scales(List<VerificationRow> rows) {
        String encyclopedia = "encyclopedia article on film speed, historic systems";
        rows.add(number(
                "HistoricalScale DIN",
                encyclopedia,
                VERIFIED,
                "+20&#176;",
                "100",
                1e-9,
                () -> HistoricalScale.DIN.difference(1, 21).ratio()));
        rows.add(number(
                "HistoricalScale DIN",
                encyclopedia,
                VERIFIED,
                "+3&#176;",
                "2",
                0.005,
                () -> HistoricalScale.DIN.difference(18, 21).ratio()));
        rows.add(number(
                "HistoricalScale Scheiner",
                encyclopedia,
                VERIFIED,
                "+19&#176;",
                "100",
                1e-9,
                () -> HistoricalScale.SCHEINER.difference(1, 20).ratio()));
        rows.add(number(
                "HistoricalScale Warnerke",
                encyclopedia,
                VERIFIED,
                "+1",
                "1.333",
                0.5e-3,
                () -> HistoricalScale.WARNERKE.difference(10, 11).ratio()));
        rows.add(number(
                "HistoricalScale British",
                encyclopedia,
                DERIVED,
                "31 (DIN 21)",
                "100",
                1e-9,
                () -> HistoricalScale.BRITISH_LOGARITHMIC
                        .approximateArithmetic(31)
                        .orElseThrow()));
    }

    private static void papers(List<VerificationRow> rows) {
        String focal = "Focal Encyclopedia of Photography, p. 679, on ANSI PH2.2-1966";
        grade(rows, focal, 1.69, "grade 0 (very soft)");
        grade(rows, focal, 0.50, "grade 5 (extra hard)");
        grade(rows, focal, 0.35, "grade 6");
    }

    private static void grade(List<VerificationRow> rows, String source, double range, String published) {
        rows.add(text(
                "PaperGrade",
                source,
                VERIFIED,
                String.format(Locale.ROOT, "log exposure range %.2f", range),
                published,
                () -> PaperGrade.of(ExposureInterval.ofLogUnits(range)).orElseThrow()));
    }

    /** A straight line of the contrast of the standard whose ISO 6 speed point lies at a log exposure. */
    private static CharacteristicCurve isoLine(double speedPoint) {
        double gradient = 0.80 / 1.30;
        return ClosedFormCurve.line("line", 0.20, gradient, speedPoint - 0.10 / gradient);
    }
}
