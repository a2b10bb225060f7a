// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.comparison;

import java.util.List;
import java.util.Optional;
import java.util.function.Predicate;
import org.tonewedge.core.strip.StripFinding;
import org.tonewedge.standards.comparison.StripComparison;
import org.tonewedge.standards.comparison.StripFigures;

/** Why no strip of a table has a result, where they all share one cause: usually one slip in making the table. */
final class CommonCause {

    private CommonCause() {}

    /** The cause in words; nothing if a strip has a result. */
    static Optional<String> of(List<StripComparison> rows) {
        if (rows.stream().anyMatch(ComparisonTable::hasResult)) {
            return Optional.empty();
        }
        String every = rows.size() == 1 ? "the only strip" : "each of the " + rows.size() + " strips";
        if (all(rows, strip -> strip.strip().basePlusFog().isEmpty())) {
            return Optional.of("No results: " + every + " lacks a base-plus-fog reading. Read an unexposed, processed"
                    + " part of each and enter it with an empty exposure.");
        }
        if (all(rows, strip -> has(strip, StripFinding.Kind.DENSITIES_REVERSED))) {
            return Optional.of("No results: density falls with exposure in " + every + ". The exposures probably have"
                    + " the wrong sign, or the tablet was read from the other end: log H is greatest where the film is"
                    + " densest, and under a tablet it is log H without the tablet minus the density of the step."
                    + " Reversal material has no speed by this method.");
        }
        if (all(rows, strip -> has(strip, StripFinding.Kind.BELOW_BASE_PLUS_FOG))) {
            return Optional.of("No results: " + every + " has steps below its base plus fog. Look for a step whose"
                    + " exposure was left empty, which makes it a base-plus-fog reading, and for swapped columns.");
        }
        return Optional.of("No results: none of the strips has a speed point. The notes of each strip say why.");
    }

    private static boolean all(List<StripComparison> rows, Predicate<StripFigures> cause) {
        return rows.stream().map(StripComparison::figures).allMatch(cause);
    }

    private static boolean has(StripFigures strip, StripFinding.Kind kind) {
        return strip.findings().stream().anyMatch(finding -> finding.kind() == kind);
    }
}
