package org.tonewedge.examples.tone;

/**
 * A chart of a report, written as {@code name.svg} and {@code name.png}.
 *
 * @param name the file name without its ending
 * @param title the heading
 * @param caption what it shows
 */
public record ReportFigure(String name, String title, String caption) {}
