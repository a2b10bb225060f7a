// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.page;

/**
 * A chart of a report, written as {@code name.svg} and {@code name.png}.
 *
 * @param name the file name without its ending; with it for a picture that is there as PNG alone
 * @param title the heading
 * @param caption what it shows
 * @param film the film that it is about; empty for several
 */
public record ReportFigure(String name, String title, String caption, String film) {

    /**
     * A chart that is about no film in particular.
     *
     * @param name the file name
     * @param title the heading
     * @param caption what it shows
     */
    public ReportFigure(String name, String title, String caption) {
        this(name, title, caption, "");
    }

    /**
     * Returns a copy about one film.
     *
     * @param label the label of the film
     * @return the copy
     */
    public ReportFigure about(String label) {
        return new ReportFigure(name, title, caption, label);
    }
}
