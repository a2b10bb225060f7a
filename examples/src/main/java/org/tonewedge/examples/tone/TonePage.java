package org.tonewedge.examples.tone;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.tonewedge.examples.chart.ChartFiles;
import org.tonewedge.examples.page.Page;
import org.tonewedge.examples.page.ReportFigure;
import org.tonewedge.examples.page.ReportTable;

/** A tone report as sections of a page, its charts and its tables as CSV beside it. */
public final class TonePage {

    private TonePage() {}

    /**
     * Adds the sections of a report to a page and writes what they show into a directory.
     *
     * @param report the report
     * @param page the page, which is to lie in the directory
     * @param directory where tables go
     * @param plots what writes the charts into that directory
     * @throws IOException if a file cannot be written
     */
    public static void addTo(Page page, ToneReport report, Path directory, ChartFiles plots) throws IOException {
        for (ReportTable table : report.tables()) {
            page.table(table);
        }
        for (DataTable table : report.data()) {
            table.write(directory);
        }
        for (ReportFigure figure : report.writeFigures(plots)) {
            page.figure(figure);
        }
        List<String> missing = report.notices();
        if (!missing.isEmpty()) {
            page.heading("What could not be determined").list(missing);
        }
    }
}
