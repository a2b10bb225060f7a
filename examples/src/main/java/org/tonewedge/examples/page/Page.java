// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.page;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Base64;
import java.util.List;
import java.util.Set;
import org.tonewedge.examples.chart.ChartFiles;

/**
 * An HTML page with its style and script inside, built from top to bottom. A Content-Security-Policy lets nothing else
 * run or load, whatever a label holds. Not thread safe.
 */
public final class Page {

    private static final String STYLE = resource(Page.class, "page.css");
    private static final String SCRIPT = resource(Page.class, "page.js");

    private final StringBuilder html = new StringBuilder();
    private final Set<ChartFiles.Format> plots;
    private boolean lazy;

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
                .append(
                        "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; img-src 'self' file:;")
                .append(" style-src 'sha256-" + digest(STYLE) + "'; script-src 'sha256-" + digest(SCRIPT))
                .append("'; base-uri 'none'; form-action 'none'\">\n")
                .append("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n")
                .append("<meta name=\"referrer\" content=\"no-referrer\">\n<title>")
                .append(escape(title))
                .append("</title>\n<style>")
                .append(STYLE)
                .append("</style>\n</head>\n<body>\n<main>\n<h1>")
                .append(isolated(title))
                .append("</h1>\n");
        if (!lead.isEmpty()) {
            html.append("<p class=\"lead\">").append(escape(lead)).append("</p>\n");
        }
        notes.forEach(note -> html.append("<p class=\"note\" dir=\"auto\">")
                .append(escape(note))
                .append("</p>\n"));
    }

    private static String digest(String text) {
        try {
            byte[] digest = MessageDigest.getInstance("SHA-256").digest(text.getBytes(StandardCharsets.UTF_8));
            return Base64.getEncoder().encodeToString(digest);
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException(e);
        }
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
        return heading(table.title()).markup(TableMarkup.of(table).markup());
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
        String markup = markupOf(figure, plots);
        return markup(lazy ? markup.replace("<img ", "<img loading=\"lazy\" ") : markup);
    }

    /**
     * Lets figures from here on be loaded when they come near the screen, or when all else is there.
     *
     * @return this page
     */
    public Page lazyFigures() {
        lazy = true;
        return this;
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
        String begin = "<figure class=\"" + figure.size().style() + "\"><img src=\"" + name;
        if (name.endsWith(".png")) {
            return plots.contains(ChartFiles.Format.PNG)
                    ? begin + "\" alt=\"" + caption
                            + "\" decoding=\"async\"><figcaption>" + caption
                            + "</figcaption></figure>\n"
                    : "";
        }
        StringBuilder links = new StringBuilder();
        for (ChartFiles.Format format : ChartFiles.Format.values()) {
            if (plots.contains(format)) {
                String ending = format.ending();
                links.append(" <a href=\"" + name + "." + ending + "\" aria-label=\""
                        + ending.toUpperCase(java.util.Locale.ROOT) + " of " + name + "\">"
                        + ending.toUpperCase(java.util.Locale.ROOT) + "</a>");
            }
        }
        String shown = plots.contains(ChartFiles.Format.SVG) ? "svg" : "png";
        return begin + "." + shown + "\" alt=\"" + caption + "\" decoding=\"async\"><figcaption>" + caption + links
                + "</figcaption></figure>\n";
    }

    /**
     * Adds what the page was made of.
     *
     * @param provenance date, version, command and files
     * @return this page
     */
    public Page provenance(Provenance provenance) {
        html.append("<h2>How this page was made</h2>\n<dl>\n<dt>Date</dt><dd>")
                .append(provenance.date())
                .append("</dd>\n<dt>Program</dt><dd>")
                .append(escape(provenance.version()))
                .append("</dd>\n<dt>Command</dt><dd><code>")
                .append(isolated(provenance.command()))
                .append("</code></dd>\n");
        for (Provenance.Input input : provenance.inputs()) {
            html.append("<dt>")
                    .append(isolated(input.name()))
                    .append("</dt><dd>SHA-256 <code>")
                    .append(input.sha256())
                    .append("</code></dd>\n");
        }
        for (Provenance.Instrument instrument : provenance.instruments()) {
            html.append("<dt>")
                    .append(escape(instrument.role()))
                    .append("</dt><dd>")
                    .append(instrument.name().isEmpty() ? "not stated" : isolated(instrument.name()))
                    .append("</dd>\n");
        }
        html.append("</dl>\n");
        return this;
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
        return html + "</main>\n<script>" + SCRIPT + "</script>\n</body>\n</html>\n";
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
     * Returns a text of the user whose direction of writing does not touch what stands around it.
     *
     * @param text the text
     * @return markup for element content
     */
    public static String isolated(String text) {
        return "<bdi>" + escape(text) + "</bdi>";
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
