package org.tonewedge.examples.tone;

import de.siegmar.fastcsv.writer.CsvWriter;
import de.siegmar.fastcsv.writer.LineDelimiter;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
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
     * @param directory where charts and tables go
     * @throws IOException if a file cannot be written
     */
    public static void addTo(Page page, ToneReport report, Path directory) throws IOException {
        for (ReportTable table : report.tables()) {
            page.table(table);
            writeCsv(table, directory.resolve(table.name() + ".csv"));
        }
        for (ReportFigure figure : report.writeFigures(directory)) {
            page.figure(figure);
        }
        List<String> missing = report.notices();
        if (!missing.isEmpty()) {
            page.heading("What could not be determined").list(missing);
        }
    }

    private static void writeCsv(ReportTable table, Path file) throws IOException {
        try (CsvWriter csv = CsvWriter.builder().lineDelimiter(LineDelimiter.LF).build(file, StandardCharsets.UTF_8)) {
            csv.writeRecord(table.columns());
            table.rows().forEach(csv::writeRecord);
        } catch (UncheckedIOException e) {
            throw e.getCause();
        }
    }
}
