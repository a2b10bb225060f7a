package org.tonewedge.examples.chart;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;

/** The parts of a page that all reports share; a page is one file with its style inside, and needs no network. */
public final class Html {

    private Html() {}

    /**
     * Returns the beginning of a page, down to its title.
     *
     * @param title the title
     * @return the markup
     * @throws IOException if the style cannot be read
     */
    public static String begin(String title) throws IOException {
        return "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
                + "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<title>" + escape(title)
                + "</title>\n<style>\n" + resource(Html.class, "report.css") + "</style>\n</head>\n<body>\n<h1>"
                + escape(title) + "</h1>\n";
    }

    /**
     * Returns a plot with its caption.
     *
     * @param name the file name of the plot without its ending, beside the page
     * @param caption the caption
     * @return the markup
     */
    public static String figure(String name, String caption) {
        return "<figure><img src=\"" + name + ".svg\" alt=\"" + escape(caption) + "\" loading=\"lazy\"><figcaption>"
                + escape(caption) + " <a href=\"" + name + ".png\">PNG</a> <a href=\"" + name
                + ".svg\">SVG</a></figcaption></figure>\n";
    }

    /**
     * Returns a text as markup.
     *
     * @param text the text
     * @return the text with the characters of markup replaced
     */
    public static String escape(String text) {
        return text.replace("&", "&amp;")
                .replace("<", "&lt;")
                .replace(">", "&gt;")
                .replace("\"", "&quot;");
    }

    /**
     * Reads a text that lies beside a class.
     *
     * @param beside the class
     * @param name the file name
     * @return the text
     * @throws IOException if it cannot be read
     */
    public static String resource(Class<?> beside, String name) throws IOException {
        try (InputStream in = beside.getResourceAsStream(name)) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        }
    }
}
