// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.page;

import java.util.Locale;

/**
 * A chart of a report, written as {@code name.svg} and {@code name.png}.
 *
 * @param name the file name without its ending; with it for a picture that is there as PNG alone
 * @param title the heading
 * @param caption what it shows
 * @param film the film that it is about; empty for several
 * @param size how much room it takes on a printed page
 */
public record ReportFigure(String name, String title, String caption, String film, Size size) {

    /** How much room a figure takes on a printed page. */
    public enum Size {
        /** A chart that shares the page with what is about it. */
        CHART,
        /** A chart of several parts above each other. */
        TALL_CHART,
        /** A picture. */
        PICTURE;

        /** The class in the page. */
        String style() {
            return name().toLowerCase(Locale.ROOT).replace('_', '-');
        }
    }

    /**
     * A chart, or a picture that is there as PNG alone, about no film in particular.
     *
     * @param name the file name
     * @param title the heading
     * @param caption what it shows
     */
    public ReportFigure(String name, String title, String caption) {
        this(name, title, caption, "", name.endsWith(".png") ? Size.PICTURE : Size.CHART);
    }

    /**
     * Returns a copy about one film.
     *
     * @param label the label of the film
     * @return the copy
     */
    public ReportFigure about(String label) {
        return new ReportFigure(name, title, caption, label, size);
    }

    /**
     * Returns a copy that takes more room on a printed page.
     *
     * @return the copy
     */
    public ReportFigure tall() {
        return new ReportFigure(name, title, caption, film, Size.TALL_CHART);
    }
}
