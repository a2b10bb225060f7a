// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.page;

import static org.tonewedge.examples.page.Page.escape;
import static org.tonewedge.examples.page.Page.isolated;

import java.util.ArrayList;
import java.util.List;

/**
 * A table of a page: with a caption, headings that sort, and the first field of a row as its header. On a narrow screen
 * each row becomes a card whose fields carry their headings; roles keep it a table for screen readers. Not thread safe.
 */
public final class TableMarkup {

    private static final int FEW = 4;
    private static final int SOME = 8;

    /**
     * A column.
     *
     * @param text its heading
     * @param isText whether it sorts as text
     */
    public record Heading(String text, boolean isText) {}

    /**
     * What stands in a row.
     *
     * @param markup HTML
     * @param sorted what it sorts by; empty for last
     * @param style style names; empty for none
     */
    public record Field(String markup, String sorted, String style) {

        /**
         * Returns a field with a text.
         *
         * @param text the text
         * @return the field
         */
        public static Field text(String text) {
            return new Field(text.isEmpty() ? "" : isolated(text), text, "");
        }

        /**
         * Returns a field with a number; what follows ± is set apart.
         *
         * @param shown the number for readers
         * @param sorted the number to sort by
         * @return the field
         */
        public static Field number(String shown, String sorted) {
            return new Field(uncertaintyApart(shown), sorted, "");
        }

        /**
         * Returns a field with what stands in a cell.
         *
         * @param cell the cell
         * @return the field
         */
        public static Field of(Cell cell) {
            return new Field(uncertaintyApart(cell.shown()), cell.sorted(), cell.style());
        }

        /**
         * Returns the field with more in a line of its own.
         *
         * @param more HTML
         * @param style style names of the line
         * @return the field
         */
        public Field under(String more, String style) {
            String line = "<span class=\"" + ("under " + style).strip() + "\"> " + more + "</span>";
            return new Field(markup + line, sorted, this.style);
        }
    }

    private final String caption;
    private final List<Heading> headings;
    private final StringBuilder rows = new StringBuilder();
    private String style = "";
    private int sortedColumn = -1;
    private boolean falling;

    /**
     * Begins a table.
     *
     * @param caption what it shows
     * @param headings its columns
     */
    public TableMarkup(String caption, List<Heading> headings) {
        this.caption = caption;
        this.headings = List.copyOf(headings);
    }

    /**
     * Returns a table of texts, whose numbers sort as numbers.
     *
     * @param table the table
     * @return the table
     */
    static TableMarkup of(ReportTable table) {
        List<Heading> headings = new ArrayList<>();
        for (int i = 0; i < table.columns().size(); i++) {
            int column = i;
            boolean text = i == 0
                    || table.rows().stream()
                            .anyMatch(row -> number(row.get(column)).isEmpty()
                                    && !row.get(column).isBlank()
                                    && !row.get(column).equals("\u2013"));
            headings.add(new Heading(table.columns().get(i), text));
        }
        TableMarkup markup = new TableMarkup(table.note().isEmpty() ? table.title() : table.note(), headings);
        markup.style = table.note().isEmpty() ? "" : " noted";
        for (List<String> row : table.rows()) {
            List<Field> fields = new ArrayList<>();
            for (int i = 0; i < row.size(); i++) {
                String text = row.get(i);
                fields.add(headings.get(i).isText() ? Field.text(text) : Field.number(text, number(text)));
            }
            markup.row("", "", fields);
        }
        return markup;
    }

    /** The number that a text begins with, as a program writes it; empty if it begins with none. */
    private static String number(String text) {
        String first = text.replace('\u2212', '-').replaceFirst("^([+-]?\\d+(?:\\.\\d+)?)(?:\\s.*|[^\\w.].*)?$", "$1");
        return first.matches("[+-]?\\d+(\\.\\d+)?") ? first.replace("+", "") : "";
    }

    private static String uncertaintyApart(String shown) {
        int at = shown.indexOf(" \u00b1 ");
        return at < 0
                ? escape(shown)
                : escape(shown.substring(0, at)) + " <span class=\"u\">" + escape(shown.substring(at + 1)) + "</span>";
    }

    /**
     * Gives the table a look of its own.
     *
     * @param name a style name
     * @return this table
     */
    public TableMarkup styled(String name) {
        style = " " + name;
        return this;
    }

    /**
     * States by which column the rows are sorted, for readers and for their next press on a heading.
     *
     * @param column the number of the column, from 0
     * @param descending whether the greatest comes first
     * @return this table
     */
    public TableMarkup sortedBy(int column, boolean descending) {
        sortedColumn = column;
        falling = descending;
        return this;
    }

    /**
     * Adds a row.
     *
     * @param id its name for links; empty for none
     * @param style style names; empty for none
     * @param fields a field for each column
     * @return this table
     */
    public TableMarkup row(String id, String style, List<Field> fields) {
        rows.append("<tr role=\"row\"");
        attribute("id", id);
        attribute("class", style);
        rows.append('>');
        for (int i = 0; i < fields.size(); i++) {
            Heading heading = headings.get(i);
            Field field = fields.get(i);
            rows.append(i == 0 ? "<th scope=\"row\" role=\"rowheader\"" : "<td role=\"cell\"");
            attribute("class", ((heading.isText() ? "text " : "") + field.style()).strip());
            rows.append(" data-value=\"").append(escape(field.sorted())).append('"');
            if (i > 0) {
                attribute("data-label", heading.text());
            }
            rows.append('>').append(field.markup()).append(i == 0 ? "</th>" : "</td>");
        }
        rows.append("</tr>\n");
        return this;
    }

    private void attribute(String name, String value) {
        if (!value.isEmpty()) {
            rows.append(' ').append(name).append("=\"").append(escape(value)).append('"');
        }
    }

    /**
     * Returns the table.
     *
     * @return HTML
     */
    public String markup() {
        String size = headings.size() <= FEW ? "few" : headings.size() <= SOME ? "some" : "many";
        StringBuilder html =
                new StringBuilder("<table role=\"table\" class=\"sortable " + size + style + "\">\n<caption>");
        html.append(escape(caption)).append("</caption>\n<thead role=\"rowgroup\"><tr role=\"row\">");
        for (int i = 0; i < headings.size(); i++) {
            Heading heading = headings.get(i);
            html.append("<th scope=\"col\" role=\"columnheader\"")
                    .append(heading.isText() ? " class=\"text\"" : "")
                    .append(i != sortedColumn ? "" : " aria-sort=\"" + (falling ? "descending" : "ascending") + "\"")
                    .append("><button type=\"button\">")
                    .append(escape(heading.text()))
                    .append("</button></th>");
        }
        return html.append("</tr></thead>\n<tbody role=\"rowgroup\">\n")
                .append(rows)
                .append("</tbody></table>\n")
                .toString();
    }
}
