package org.tonewedge.examples.page;

/**
 * A chart of a report, written as {@code name.svg} and {@code name.png}.
 *
 * @param name the file name without its ending; with it for a picture that is there as PNG alone
 * @param title the heading
 * @param caption what it shows
 */
public record ReportFigure(String name, String title, String caption) {}
