package org.tonewedge.examples.page;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Set;
import org.tonewedge.examples.chart.ChartFiles;

/** An HTML page with its style inside, built from top to bottom. Not thread safe. */
public final class Page {

    private final StringBuilder html = new StringBuilder();
    private final Set<ChartFiles.Format> plots;

    /**
     * Begins a page.
     *
     * @param title the title and first heading
     * @param lead what the page is about in a sentence; empty for none
     * @param notes remarks that stand out below it
     * @param plots the kinds of file of each figure
     */
    public Page(String title, String lead, List<String> notes, Set<ChartFiles.Format> plots) {
        this.plots = Set.copyOf(plots);
        html.append("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n")
                .append("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<title>")
                .append(escape(title))
                .append("</title>\n<style>\n")
                .append(resource(Page.class, "page.css"))
                .append("</style>\n</head>\n<body>\n<h1>")
                .append(escape(title))
                .append("</h1>\n");
        if (!lead.isEmpty()) {
            html.append("<p class=\"lead\">").append(escape(lead)).append("</p>\n");
        }
        notes.forEach(
                note -> html.append("<p class=\"note\">").append(escape(note)).append("</p>\n"));
    }

    /**
     * Adds a heading.
     *
     * @param title the heading
     * @return this page
     */
    public Page heading(String title) {
        html.append("<h2>").append(escape(title)).append("</h2>\n");
        return this;
    }

    /**
     * Adds a paragraph.
     *
     * @param text the text
     * @return this page
     */
    public Page paragraph(String text) {
        html.append("<p>").append(escape(text)).append("</p>\n");
        return this;
    }

    /**
     * Adds a list of remarks, or nothing if there is none.
     *
     * @param items the remarks
     * @return this page
     */
    public Page list(List<String> items) {
        if (!items.isEmpty()) {
            html.append("<ul class=\"remarks\">\n");
            items.forEach(item -> html.append("<li>").append(escape(item)).append("</li>\n"));
            html.append("</ul>\n");
        }
        return this;
    }

    /**
     * Adds a table under its own heading.
     *
     * @param table the table
     * @return this page
     */
    public Page table(ReportTable table) {
        heading(table.title());
        if (!table.note().isEmpty()) {
            paragraph(table.note());
        }
        html.append("<div class=\"wide\"><table class=\"plain\">\n<thead>");
        row("th", table.columns());
        html.append("</thead>\n<tbody>\n");
        table.rows().forEach(row -> row("td", row));
        html.append("</tbody>\n</table></div>\n");
        return this;
    }

    private void row(String tag, List<String> fields) {
        html.append("<tr>");
        for (String field : fields) {
            html.append('<').append(tag).append('>').append(escape(field));
            html.append("</").append(tag).append('>');
        }
        html.append("</tr>\n");
    }

    /**
     * Adds a figure with its caption and links to its files; nothing where no plots are drawn.
     *
     * @param figure the figure; its title is its heading, or none if empty
     * @return this page
     */
    public Page figure(ReportFigure figure) {
        if (!plots.isEmpty() && !figure.title().isEmpty()) {
            heading(figure.title());
        }
        return markup(markupOf(figure, plots));
    }

    /**
     * Returns a figure without heading, with its caption and links to its files.
     *
     * @param figure the figure
     * @param plots the kinds of file of it
     * @return the markup; empty without files
     */
    public static String markupOf(ReportFigure figure, Set<ChartFiles.Format> plots) {
        if (plots.isEmpty()) {
            return "";
        }
        String name = escape(figure.name());
        String caption = escape(figure.caption());
        return "<figure><img src=\"" + name + ".svg\" alt=\"" + caption + "\" loading=\"lazy\"><figcaption>" + caption
                + (plots.contains(ChartFiles.Format.PNG) ? " <a href=\"" + name + ".png\">PNG</a>" : "") + " <a href=\""
                + name
                + ".svg\">SVG</a></figcaption></figure>\n";
    }

    /**
     * Adds HTML as it is.
     *
     * @param markup well-formed HTML, its texts escaped
     * @return this page
     */
    public Page markup(String markup) {
        html.append(markup);
        return this;
    }

    /**
     * Ends the page.
     *
     * @return the whole page
     */
    public String finished() {
        return html + "</body>\n</html>\n";
    }

    /**
     * Returns a text with the characters that mean something in HTML replaced.
     *
     * @param text the text
     * @return the text for element content or a quoted attribute
     */
    public static String escape(String text) {
        return text.replace("&", "&amp;")
                .replace("<", "&lt;")
                .replace(">", "&gt;")
                .replace("\"", "&quot;");
    }

    /**
     * Returns a text that is packed beside a class.
     *
     * @param beside the class
     * @param name the name of the resource
     * @return its text
     */
    public static String resource(Class<?> beside, String name) {
        try (InputStream in = beside.getResourceAsStream(name)) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
