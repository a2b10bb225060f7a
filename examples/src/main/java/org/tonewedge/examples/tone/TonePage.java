package org.tonewedge.examples.tone;

import de.siegmar.fastcsv.writer.CsvWriter;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;

/** A report as a page beside its charts, and its tables as CSV. */
final class TonePage {

    private static final String STYLE = """
            body { margin: 0 auto; max-width: 72rem; padding: 1.5rem 1.25rem 4rem; color: #222; background: #fff;
              font: 16px/1.5 system-ui, sans-serif; }
            h1 { font-size: 1.7rem; } h2 { font-size: 1.25rem; margin-top: 2.5rem; }
            p { max-width: 46rem; } .wide { overflow-x: auto; }
            table { border-collapse: collapse; font-size: .84rem; font-variant-numeric: tabular-nums; }
            th, td { padding: .3rem .6rem; border-bottom: 1px solid #d8d8d8; text-align: right; white-space: nowrap; }
            th { vertical-align: bottom; border-bottom: 2px solid #222; white-space: normal; }
            th:first-child, td:first-child { text-align: left; }
            figure { margin: 1.5rem 0; } figure img { max-width: 100%; height: auto; }
            figcaption, .notices { font-size: .875rem; color: #555; max-width: 46rem; }
            """;

    private TonePage() {}

    static void write(String title, List<String> remarks, ToneReport report, List<ReportFigure> figures, Path directory)
            throws IOException {
        StringBuilder html = new StringBuilder();
        html.append("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<title>")
                .append(escape(title))
                .append("</title>\n<style>\n")
                .append(STYLE)
                .append("</style>\n</head>\n<body>\n<h1>")
                .append(escape(title))
                .append("</h1>\n");
        remarks.forEach(remark -> html.append("<p>").append(escape(remark)).append("</p>\n"));
        for (ReportTable table : report.tables()) {
            addTable(html, table);
            writeCsv(table, directory.resolve(table.name() + ".csv"));
        }
        for (ReportFigure figure : figures) {
            html.append("<h2>")
                    .append(escape(figure.title()))
                    .append("</h2>\n<figure><img src=\"")
                    .append(figure.name())
                    .append(".svg\" alt=\"")
                    .append(escape(figure.title()))
                    .append("\"><figcaption>")
                    .append(escape(figure.caption()))
                    .append("</figcaption></figure>\n");
        }
        if (!report.notices().isEmpty()) {
            html.append("<h2>What could not be determined</h2>\n<ul class=\"notices\">\n");
            report.notices()
                    .forEach(
                            notice -> html.append("<li>").append(escape(notice)).append("</li>\n"));
            html.append("</ul>\n");
        }
        html.append("</body>\n</html>\n");
        Files.writeString(directory.resolve("tone.html"), html);
    }

    private static void addTable(StringBuilder html, ReportTable table) {
        html.append("<h2>")
                .append(escape(table.title()))
                .append("</h2>\n<p>")
                .append(escape(table.note()))
                .append("</p>\n<div class=\"wide\"><table>\n<thead>");
        addRow(html, "th", table.columns());
        html.append("</thead>\n<tbody>\n");
        table.rows().forEach(row -> addRow(html, "td", row));
        html.append("</tbody>\n</table></div>\n");
    }

    private static void addRow(StringBuilder html, String tag, List<String> fields) {
        html.append("<tr>");
        for (String field : fields) {
            html.append('<').append(tag).append('>').append(escape(field));
            html.append("</").append(tag).append('>');
        }
        html.append("</tr>\n");
    }

    private static void writeCsv(ReportTable table, Path file) throws IOException {
        try (CsvWriter csv = CsvWriter.builder().build(file, StandardCharsets.UTF_8)) {
            csv.writeRecord(table.columns());
            table.rows().forEach(csv::writeRecord);
        }
    }

    private static String escape(String text) {
        return text.replace("&", "&amp;")
                .replace("<", "&lt;")
                .replace(">", "&gt;")
                .replace("\"", "&quot;");
    }
}
