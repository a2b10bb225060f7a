// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.development;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.internal.DevelopmentTimes;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.Temperature;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.fitting.development.Caution;
import org.tonewedge.fitting.development.ContrastChoice;
import org.tonewedge.fitting.development.ContrastMeasure;
import org.tonewedge.fitting.development.ContrastTarget;
import org.tonewedge.fitting.development.DevelopmentChange;
import org.tonewedge.fitting.development.DevelopmentException;
import org.tonewedge.fitting.development.DevelopmentFamily;
import org.tonewedge.fitting.development.DevelopmentPlan;
import org.tonewedge.fitting.development.DevelopmentSeries;
import org.tonewedge.fitting.development.LeftOutStrip;
import org.tonewedge.fitting.development.PlannedDevelopment;

/** What a development test gave: the plan, what it rests on, and what to do with the strip as it is developed now. */
record DevelopmentReport(
        DevelopmentSeries series,
        ContrastChoice contrast,
        DevelopmentFamily family,
        List<LeftOutStrip> checks,
        DevelopmentPlan plan,
        DevelopmentPlan expansions,
        Strip current,
        Optional<DevelopmentChange> change,
        String advice) {

    static DevelopmentReport of(
            DevelopmentSeries series,
            List<ContrastTarget> targets,
            ExposureInterval normalRange,
            List<Temperature> temperatures,
            Strip current) {
        ContrastTarget iso = ContrastTarget.isoContrastCondition();
        ContrastChoice contrast = series.contrast(ContrastMeasure.RISE_OVER_130);
        DevelopmentFamily family = series.family();
        Optional<DevelopmentChange> change = Optional.empty();
        String advice;
        double found = series.contrasts(iso.measure())
                .get(series.strips().indexOf(current))
                .value();
        boolean met = Math.abs(found - iso.value()) <= iso.tolerance().orElseThrow();
        String state = String.format(
                Locale.ROOT,
                "Strip %s, developed %s, has ΔD %.2f over 1.30 and %s the contrast condition (0.80 ± 0.05)",
                current.id(),
                developed(current),
                found,
                met ? "meets" : "misses");
        try {
            DevelopmentChange wanted = series.changeFor(current, iso);
            change = Optional.of(wanted);
            advice = state + (met ? "; to bring it to 0.80: " : ": ") + wanted + ".";
        } catch (DevelopmentException e) {
            advice = state + "; no time can be given: " + e.getMessage() + ".";
        }
        return new DevelopmentReport(
                series,
                contrast,
                family,
                leaveOneOut(family),
                series.plan(targets, temperatures),
                series.expansions(iso, normalRange, temperatures),
                current,
                change,
                advice);
    }

    static String developed(Strip strip) {
        return DevelopmentTimes.inWords(strip.processing().time().orElseThrow())
                + strip.processing()
                        .temperature()
                        .map(at -> " at " + DevelopmentTimes.inWords(at))
                        .orElse("");
    }

    private static List<LeftOutStrip> leaveOneOut(DevelopmentFamily family) {
        try {
            return family.leaveOneOut();
        } catch (NotDeterminableException e) {
            // Without one of its strips there is no family: the check is not possible, the family is.
            return List.of();
        }
    }

    /** What goes with the times of this report, the most pressing first. */
    List<Caution> cautions() {
        return Stream.of(plan.cautions(), expansions.cautions())
                .flatMap(List::stream)
                .distinct()
                .sorted()
                .toList();
    }

    List<PlannedDevelopment> lines() {
        List<PlannedDevelopment> lines = new ArrayList<>(plan.developments());
        lines.addAll(expansions.developments());
        return lines;
    }

    /** The line of normal development at the temperature of another line. */
    Optional<PlannedDevelopment> normal(PlannedDevelopment line) {
        return expansions.developments().stream()
                .filter(other -> other.target().name().equals("N"))
                .filter(other -> other.temperature().equals(line.temperature()))
                .findFirst();
    }
}
