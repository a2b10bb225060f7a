// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.comparison;

import java.util.Collection;
import java.util.Optional;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.ExposureAxis;
import org.tonewedge.standards.comparison.FilmComparison;
import org.tonewedge.standards.comparison.FilmFigure;
import org.tonewedge.standards.comparison.StripComparison;

/** How it is marked that exposures rest on an assumed speed, wherever they show. */
final class Assumed {

    /** What follows a figure or the heading of its column. */
    static final String MARK = " (assumed)";

    private Assumed() {}

    /** A remark for the top of a page; nothing where all is measured. */
    static Optional<String> remark(FilmComparison comparison) {
        if (comparison.assumption().isEmpty()) {
            return Optional.empty();
        }
        long assumed = comparison.rows().stream()
                .filter(row -> !row.assumption().isEmpty())
                .count();
        String whose = assumed == comparison.rows().size()
                ? "Speeds, log exposures and stops from the box rest on it."
                : "Speeds, log exposures and stops from the box of " + Figures.counted(assumed, "strip")
                        + " rest on it; those of the others are measured.";
        return Optional.of("Assumed, not measured: " + comparison.assumption() + ". " + whose);
    }

    /** The heading of a figure over these rows, marked where all of them are assumed. */
    static String heading(String heading, FilmFigure figure, Collection<StripComparison> rows) {
        return figure != null && figure.isAbsolute() && all(rows) ? heading + MARK : heading;
    }

    /** The unit of exposures on an axis over these rows. */
    static String unit(ExposureAxis axis, Collection<StripComparison> rows) {
        if (!axis.isAbsolute()) {
            return axis.toString();
        }
        if (rows.stream().allMatch(row -> row.assumption().isEmpty())) {
            return "lux seconds";
        }
        return all(rows) ? "lux seconds, assumed" : "lux seconds, partly assumed";
    }

    /** Whether all rest on an assumption. */
    static boolean all(Collection<StripComparison> rows) {
        return rows.stream().noneMatch(row -> row.assumption().isEmpty());
    }
}
