// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.densitometer;

import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.standards.densitometer.input.LineKind;
import org.tonewedge.standards.densitometer.summary.StepReadings;
import org.tonewedge.standards.densitometer.verdict.CertificateComparison;
import org.tonewedge.standards.densitometer.verdict.DensitometerVerdict;
import org.tonewedge.standards.densitometer.verdict.DensityCorrection;
import org.tonewedge.standards.densitometer.verdict.Finding;
import org.tonewedge.standards.densitometer.verdict.StepVerdict;

/** The verdict for machines, as JSON. */
final class SummaryFile {

    private static final int VERSION = 1;

    private SummaryFile() {}

    private static Map<String, Object> head(String outcome, Instant when) {
        Map<String, Object> head = new LinkedHashMap<>();
        head.put("format", "densitometer-check");
        head.put("version", VERSION);
        head.put("date", when.toString());
        head.put("outcome", outcome);
        return head;
    }

    static String ofError(String message, Instant when) {
        Map<String, Object> json = head("error", when);
        json.put("message", message);
        return Json.of(json);
    }

    static String of(
            DensitometerVerdict verdict, Optional<DensityCorrection> correction, String withheld, Instant when) {
        Map<String, Object> json = head(verdict.outcome().name().toLowerCase(Locale.ROOT), when);
        json.put("so_far", verdict.isSoFar());
        json.put("tablet", verdict.summary().tablet().name());
        json.put("tolerance_absolute", verdict.tolerance().absolute());
        json.put("tolerance_relative", verdict.tolerance().relative());
        json.put("decision_rule", verdict.rule().toString());
        Map<String, Object> lines = new LinkedHashMap<>();
        for (LineKind kind : LineKind.values()) {
            lines.put(
                    kind.name().toLowerCase(Locale.ROOT),
                    verdict.summary().tally().count(kind));
        }
        json.put("lines", lines);
        json.put("steps", verdict.steps().stream().map(SummaryFile::step).toList());
        json.put(
                "findings",
                verdict.findings().stream().map(SummaryFile::finding).toList());
        json.put("figures", figures(verdict));
        json.put("correction", correction(correction, withheld));
        return Json.of(json);
    }

    private static Map<String, Object> step(StepVerdict step) {
        Optional<StepReadings> readings = step.readings();
        Map<String, Object> json = new LinkedHashMap<>();
        json.put("step", step.step().number());
        json.put("certified", step.step().density().value());
        json.put("certified_expanded_uncertainty", 2 * step.step().standardUncertainty());
        json.put("mean", readings.map(StepReadings::mean).orElse(null));
        json.put("readings", readings.map(StepReadings::count).orElse(0L));
        json.put("runs", readings.map(StepReadings::runs).orElse(0L));
        json.put("error", step.error());
        json.put("allowed", step.allowed());
        json.put("repeatability", readings.map(StepReadings::repeatability).orElse(OptionalDouble.empty()));
        json.put("reproducibility", readings.map(StepReadings::reproducibility).orElse(OptionalDouble.empty()));
        json.put("normalised_error", step.normalisedError());
        json.put(
                "expanded_uncertainty_of_reading",
                step.budget().map(budget -> budget.expanded()).orElse(null));
        json.put("probability_out_of_tolerance", step.probabilityOutOfTolerance());
        json.put("outcome", step.outcome().name().toLowerCase(Locale.ROOT));
        return json;
    }

    private static Map<String, Object> finding(Finding found) {
        Map<String, Object> json = new LinkedHashMap<>();
        json.put("severity", found.severity().name().toLowerCase(Locale.ROOT));
        json.put("kind", found.kind().name().toLowerCase(Locale.ROOT));
        json.put("step", found.step().isPresent() ? found.step().getAsInt() : null);
        json.put("effect", found.effect());
        json.put("allowed", found.allowed());
        json.put("words", found.message());
        json.put("remedy", found.remedy());
        return json;
    }

    private static Map<String, Object> figures(DensitometerVerdict verdict) {
        CertificateComparison comparison = verdict.opticalComparison();
        Map<String, Object> json = new LinkedHashMap<>();
        json.put("zero_offset", estimate(comparison.zeroOffset(), comparison.isScatterKnown()));
        json.put("slope", estimate(comparison.slope(), comparison.isScatterKnown()));
        comparison.leak().ifPresent(leak -> json.put("leak", estimate(leak, comparison.isScatterKnown())));
        json.put("leak_significant", comparison.isLeakSignificant());
        json.put("smallest_step", verdict.summary().resolution());
        return json;
    }

    private static Map<String, Object> estimate(Estimate estimate, boolean known) {
        Map<String, Object> json = new LinkedHashMap<>();
        json.put("value", estimate.value());
        json.put("standard_uncertainty", known ? estimate.standardUncertainty() : null);
        return json;
    }

    private static Map<String, Object> correction(Optional<DensityCorrection> correction, String withheld) {
        Map<String, Object> json = new LinkedHashMap<>();
        json.put("withheld", withheld.isEmpty() ? null : withheld);
        if (withheld.isEmpty() && correction.isPresent()) {
            DensityCorrection found = correction.get();
            json.put("form", found.kind().name().toLowerCase(Locale.ROOT));
            json.put("offset", found.offset());
            json.put("slope", found.slope());
            json.put("leak", found.leak());
            json.put("readings", new ArrayList<>(List.of(found.lowestReading(), found.highestReading())));
        }
        return json;
    }
}
