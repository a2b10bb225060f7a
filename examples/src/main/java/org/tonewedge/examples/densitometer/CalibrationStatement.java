// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.densitometer;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.standards.densitometer.input.Certificate;
import org.tonewedge.standards.densitometer.input.StatedKind;
import org.tonewedge.standards.densitometer.summary.StepReadings;
import org.tonewedge.standards.densitometer.verdict.DensitometerVerdict;
import org.tonewedge.standards.densitometer.verdict.DensityCorrection;
import org.tonewedge.standards.densitometer.verdict.StepVerdict;

/** What a maker states about a densitometer on one sheet: values, uncertainties, range, tablet, conditions, date, method. */
final class CalibrationStatement {

    private static final String NOT_STATED = "not stated";
    private static final String COVERAGE = "2";

    private CalibrationStatement() {}

    static CheckReport of(
            DensitometerVerdict verdict,
            Certificate certificate,
            StatedKind kind,
            Optional<DensityCorrection> correction,
            Optional<String> instrument,
            Optional<String> conditions,
            Instant when) {
        CheckReport statement = new CheckReport(
                verdict.isSoFar() ? "Calibration statement, not complete" : "Calibration statement", verdict);
        List<StepVerdict> read = verdict.steps().stream()
                .filter(step -> step.error().isPresent())
                .toList();
        List<List<String>> what = new ArrayList<>();
        what.add(List.of("instrument", instrument.orElse(NOT_STATED)));
        StatedKind stated = kind.orElse(certificate.kind());
        what.add(List.of("quantity", "optical density" + (stated.isEmpty() ? "" : ": " + stated)));
        what.add(List.of("range", range(read)));
        what.add(List.of("date", LocalDate.ofInstant(when, ZoneOffset.UTC).toString()));
        what.add(List.of("result", verdict.toString()));
        correction.ifPresent(found -> what.add(List.of("correction of readings", found.toString())));
        statement.add("Subject", "", List.of(), what);
        List<List<String>> tablet = new ArrayList<>();
        tablet.add(List.of("tablet", verdict.summary().tablet().toString()));
        certificate.remarks().forEach((name, text) -> tablet.add(List.of(name, text)));
        statement.add("Traceability", "", List.of(), tablet);
        statement.add(
                "Conditions and method",
                "",
                List.of(),
                List.of(
                        List.of("conditions", conditions.orElse(NOT_STATED)),
                        List.of("readings", readings(read)),
                        List.of(
                                "method",
                                "each step of the tablet was read, and the mean compared with its certified density; the uncertainty"
                                        + " of the error combines the scatter of the mean and the certificate (JCGM 100)"),
                        List.of(
                                "tolerance and decision",
                                verdict.tolerance() + " (" + verdict.rule() + ", JCGM 106)")));
        List<List<String>> rows = new ArrayList<>();
        for (StepVerdict step : read) {
            double error = step.error().orElseThrow();
            rows.add(List.of(
                    Integer.toString(step.step().number()),
                    number("%.3f", step.step().density().value()),
                    number(
                            "%.3f",
                            step.readings()
                                    .map(StepReadings::mean)
                                    .orElse(step.step().density().value() + error)),
                    CheckWords.signed(-error, 3),
                    number("%.3f", step.expandedUncertaintyOfError()),
                    COVERAGE));
        }
        statement.add(
                "Values",
                "the correction is added to a reading; U is its expanded uncertainty for about 95 %, k the coverage factor",
                List.of("step", "certified", "reading", "correction", "U", "k"),
                rows);
        statement.add(
                "Signed",
                "",
                List.of(),
                List.of(
                        List.of("by", "______________________________"),
                        List.of(
                                "note",
                                "a statement of the instrument's maker or user, not an accredited certificate")));
        return statement;
    }

    private static String range(List<StepVerdict> read) {
        if (read.isEmpty()) {
            return "no step was read";
        }
        return "certified densities "
                + number("%.3f", read.get(0).step().density().value()) + " to "
                + number("%.3f", read.get(read.size() - 1).step().density().value());
    }

    private static String readings(List<StepVerdict> read) {
        long all = read.stream()
                .mapToLong(step -> step.readings().map(StepReadings::count).orElse(0L))
                .sum();
        long runs = read.stream()
                .mapToLong(step -> step.readings().map(StepReadings::runs).orElse(0L))
                .max()
                .orElse(0);
        return Figures.counted(all, "reading") + " of " + Figures.counted(read.size(), "step") + " in "
                + Figures.counted(runs, "run");
    }

    private static String number(String format, double value) {
        return String.format(Locale.ROOT, format, value);
    }
}
