// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.development;

import de.siegmar.fastcsv.writer.CsvWriter;
import de.siegmar.fastcsv.writer.LineDelimiter;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.function.ToDoubleFunction;
import org.tonewedge.core.internal.DevelopmentTimes;
import org.tonewedge.core.quantity.CoverageInterval;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.fitting.development.Caution;
import org.tonewedge.fitting.development.PlannedDevelopment;
import org.tonewedge.fitting.development.PredictedFigure;
import org.tonewedge.fitting.development.PredictedTime;

/**
 * The table of a plan, numbers in full precision, standard uncertainties (k = 1) and the ends of 95 % intervals beside them. An
 * interval is wider than 2 standard uncertainties on either side where few strips tell them.
 */
final class PlanCsv {

    private static final double CONFIDENCE = 0.95;

    private PlanCsv() {}

    static void write(DevelopmentReport report, Path file) throws IOException {
        try (CsvWriter csv = CsvWriter.builder().lineDelimiter(LineDelimiter.LF).build(file, StandardCharsets.UTF_8)) {
            csv.writeRecord(
                    "target",
                    "measure",
                    "target_contrast",
                    "celsius",
                    "minutes",
                    "time",
                    "minutes_u",
                    "minutes_lower_95",
                    "minutes_upper_95",
                    "extrapolated",
                    "contrast",
                    "contrast_u",
                    "contrast_lower_95",
                    "contrast_upper_95",
                    "speed",
                    "speed_u",
                    "speed_lower_95",
                    "speed_upper_95",
                    "stops_from_normal",
                    "base_plus_fog",
                    "base_plus_fog_u",
                    "base_plus_fog_lower_95",
                    "base_plus_fog_upper_95",
                    "notes",
                    "cautions");
            for (PlannedDevelopment line : report.lines()) {
                Optional<PredictedTime> time = line.time();
                csv.writeRecord(
                        line.target().name(),
                        line.target().measure().label(),
                        Double.toString(line.target().value()),
                        line.temperature()
                                .map(at -> Double.toString(at.celsius()))
                                .orElse(""),
                        time.map(found -> minutes(found.time())).orElse(""),
                        time.map(found -> DevelopmentTimes.inWords(found.time()))
                                .orElse(""),
                        time.flatMap(PredictedTime::standardUncertainty)
                                .map(PlanCsv::minutes)
                                .orElse(""),
                        endOfTime(time, CoverageInterval::lower),
                        endOfTime(time, CoverageInterval::upper),
                        time.map(found -> found.isExtrapolated() ? "yes" : "no").orElse(""),
                        value(line.contrast()),
                        uncertainty(line.contrast()),
                        end(line.contrast(), CoverageInterval::lower),
                        end(line.contrast(), CoverageInterval::upper),
                        value(line.effectiveSpeed()),
                        uncertainty(line.effectiveSpeed()),
                        end(line.effectiveSpeed(), CoverageInterval::lower),
                        end(line.effectiveSpeed(), CoverageInterval::upper),
                        report.normal(line)
                                .flatMap(line::speedGain)
                                .map(ExposureInterval::stops)
                                .map(stops -> Double.toString(stops + 0.0))
                                .orElse(""),
                        value(line.basePlusFog()),
                        uncertainty(line.basePlusFog()),
                        end(line.basePlusFog(), CoverageInterval::lower),
                        end(line.basePlusFog(), CoverageInterval::upper),
                        String.join(" | ", line.notes()),
                        time.map(found -> words(found.cautions())).orElse(""));
            }
        } catch (UncheckedIOException e) {
            throw e.getCause();
        }
    }

    private static String words(List<Caution> cautions) {
        return String.join(" | ", cautions.stream().map(Caution::description).toList());
    }

    private static String minutes(Duration time) {
        return Double.toString(DevelopmentTimes.minutes(time));
    }

    private static String value(Optional<PredictedFigure> figure) {
        return figure.map(found -> Double.toString(found.value())).orElse("");
    }

    private static String uncertainty(Optional<PredictedFigure> figure) {
        return figure.filter(found -> found.standardUncertainty().isPresent())
                .map(found -> Double.toString(found.standardUncertainty().getAsDouble()))
                .orElse("");
    }

    private static String endOfTime(Optional<PredictedTime> time, ToDoubleFunction<CoverageInterval> end) {
        return time.filter(found -> found.standardUncertainty().isPresent())
                .map(found -> Double.toString(end.applyAsDouble(found.intervalMinutes(CONFIDENCE))))
                .orElse("");
    }

    private static String end(Optional<PredictedFigure> figure, ToDoubleFunction<CoverageInterval> end) {
        return figure.filter(found -> found.standardUncertainty().isPresent())
                .map(found -> Double.toString(end.applyAsDouble(found.interval(CONFIDENCE))))
                .orElse("");
    }
}
