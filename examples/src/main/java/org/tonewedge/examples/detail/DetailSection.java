// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.detail;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.examples.command.NumberTable;
import org.tonewedge.examples.page.ReportTable;

/**
 * Sharpness and grain of films beside the reference, from a {@code detail.csv}, for the page of a comparison. A scan belongs
 * to a film if its name is that of the film, in small letters and with hyphens for all else, such as {@code bellmarsh-400} for
 * Bellmarsh 400.
 */
public final class DetailSection {

    /** The figures of a film; others of the table, such as densities of patches, are of a scan. */
    private static final Map<String, String> FIGURES = Map.of(
            "mtf50",
            "MTF50",
            "mtf10",
            "MTF10",
            "acutance",
            "Acutance",
            "resolving_power",
            "Resolving power",
            "rms_granularity",
            "RMS granularity",
            "rms_granularity_film",
            "RMS granularity of the film alone");

    /** A column that older tables lack. */
    private static final String FREEDOM = "degrees_of_freedom";

    /** So many films without a scan are named, the others counted. */
    private static final int NAMED = 10;

    private final ReportTable table;
    private final List<String> missing;

    private DetailSection(ReportTable table, List<String> missing) {
        this.table = table;
        this.missing = missing;
    }

    /** A figure of a scan, or why there is none. */
    private record Read(Optional<Estimate> value, String notes) {}

    /**
     * Reads a table of detail.
     *
     * @param file the table, as the detail program writes it
     * @param films the films of the comparison, the reference among them
     * @param reference the reference film
     * @return the section
     * @throws IOException if the file cannot be read
     * @throws IllegalArgumentException if it is no such table, or none of its scans is of a film
     */
    public static DetailSection read(Path file, List<String> films, String reference) throws IOException {
        NumberTable rows = NumberTable.read(
                file,
                DetailTable.COLUMNS.stream()
                        .filter(column -> !column.equals(FREEDOM))
                        .toList());
        Map<String, Map<String, Read>> byScan = new LinkedHashMap<>();
        Set<String> columns = new LinkedHashSet<>();
        for (NumberTable.Row row : rows.rows()) {
            String figure = rows.text(row, "figure");
            Map<String, Read> own =
                    byScan.computeIfAbsent(nameOf(rows.text(row, "scan")), any -> new LinkedHashMap<>());
            if (FIGURES.containsKey(figure)) {
                String unit = rows.field(row, "unit");
                String column = FIGURES.get(figure) + ", " + rows.text(row, "region")
                        + (unit.isEmpty() ? "" : " (" + unit + ")");
                columns.add(column);
                own.put(column, new Read(estimate(rows, row), rows.field(row, "notes")));
            }
        }
        List<String> known = films.stream()
                .filter(film -> byScan.containsKey(nameOf(film)))
                .distinct()
                .toList();
        if (known.isEmpty()) {
            throw new IllegalArgumentException(file + ": no scan is named as a film of the comparison; the scans are "
                    + String.join(", ", byScan.keySet()) + ", name them such as " + nameOf(reference));
        }
        List<String> said = new ArrayList<>(missing(file, films, known, reference, byScan));
        if (!rows.has(FREEDOM)) {
            said.add(file.getFileName() + " has no column " + FREEDOM
                    + ": its uncertainties are taken as well known, which"
                    + " makes the 95 % intervals of the ratios too short where few samples were read; measure the scans"
                    + " again for a table with that column.");
        }
        return new DetailSection(table(known, reference, List.copyOf(columns), byScan), List.copyOf(said));
    }

    private static Optional<Estimate> estimate(NumberTable rows, NumberTable.Row row) {
        if (rows.field(row, "value").isEmpty()) {
            return Optional.empty();
        }
        double u = rows.field(row, "u").isEmpty() ? 0 : rows.number(row, "u");
        double degrees = rows.field(row, FREEDOM).isEmpty() ? Double.POSITIVE_INFINITY : rows.number(row, FREEDOM);
        return Optional.of(Estimate.of(rows.number(row, "value"), u, degrees));
    }

    /** The name of a scan, for a film. */
    static String nameOf(String film) {
        return film.strip()
                .toLowerCase(Locale.ROOT)
                .replaceAll("[^\\p{L}\\p{N}]+", "-")
                .replaceAll("^-|-$", "");
    }

    private static ReportTable table(
            List<String> films, String reference, List<String> columns, Map<String, Map<String, Read>> byScan) {
        List<String> heads = new ArrayList<>(List.of("Film"));
        heads.addAll(columns);
        Map<String, Read> besides = byScan.getOrDefault(nameOf(reference), Map.of());
        List<List<String>> rows = new ArrayList<>();
        for (String film : films) {
            List<String> row = new ArrayList<>(List.of(film));
            for (String column : columns) {
                Read read = byScan.get(nameOf(film)).get(column);
                Optional<Estimate> beside = film.equals(reference) || !besides.containsKey(column)
                        ? Optional.empty()
                        : besides.get(column).value();
                row.add(
                        read == null
                                ? "not measured"
                                : read.value()
                                        .map(value -> DetailPage.shown(value)
                                                + beside.map(of -> DetailPage.ratio(value, of))
                                                        .orElse(""))
                                        .orElse("not determined"));
            }
            rows.add(row);
        }
        return new ReportTable(
                "detail",
                "Sharpness and grain",
                "From scans, by region and figure. ± is one standard uncertainty, × the ratio to the reference, with * where its"
                        + " 95 % interval excludes 1. Scans compare if they were made at one setting of one scanner.",
                heads,
                rows);
    }

    private static List<String> missing(
            Path file,
            List<String> films,
            List<String> known,
            String reference,
            Map<String, Map<String, Read>> byScan) {
        List<String> said = new ArrayList<>();
        List<String> without =
                films.stream().filter(film -> !known.contains(film)).distinct().toList();
        if (!without.isEmpty()) {
            String others = without.size() > NAMED ? " and " + (without.size() - NAMED) + " more" : "";
            said.add("No scan in " + file.getFileName() + " of "
                    + String.join(", ", without.subList(0, Math.min(NAMED, without.size()))) + others
                    + ": sharpness and grain are not known.");
        }
        if (!known.contains(reference)) {
            said.add("Without a scan of the reference, " + reference + ", there are no ratios to it; name its scan "
                    + nameOf(reference) + ".");
        }
        List<String> names = films.stream().map(DetailSection::nameOf).toList();
        List<String> strange = byScan.keySet().stream()
                .filter(scan -> !names.contains(scan) && !byScan.get(scan).isEmpty())
                .toList();
        if (!strange.isEmpty()) {
            said.add("Not a film of this comparison: the scans " + String.join(", ", strange) + ".");
        }
        for (String film : known) {
            byScan.get(nameOf(film)).forEach((column, read) -> {
                if (read.value().isEmpty()) {
                    said.add(film + ", " + column + ": " + read.notes());
                }
            });
        }
        return List.copyOf(said);
    }

    /**
     * Returns the section.
     *
     * @return films down, figures across
     */
    public ReportTable table() {
        return table;
    }

    /**
     * Returns what is not there, and why.
     *
     * @return sentences; empty if all films have all figures and the table all columns
     */
    public List<String> missing() {
        return missing;
    }
}
