// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.detail;

import java.awt.Color;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.EstimateFormat;
import org.tonewedge.examples.chart.Axis;
import org.tonewedge.examples.chart.Chart;
import org.tonewedge.examples.chart.ChartFiles;
import org.tonewedge.examples.chart.ChartStyle;
import org.tonewedge.examples.chart.LegendItem;
import org.tonewedge.examples.chart.Line;
import org.tonewedge.examples.chart.Plot;
import org.tonewedge.examples.page.Page;
import org.tonewedge.examples.page.ReportFigure;
import org.tonewedge.examples.page.ReportTable;
import org.tonewedge.standards.detail.ModulationTransfer;

/** The page of a measurement of detail: figures side by side, modulation transfer, and what was read. */
final class DetailPage {

    private static final String PLOT = "modulation-transfer";
    /** The figure of a patch of a chart. */
    static final String PATCH = "density";
    /** The region of figures of the scanner itself. */
    static final String SCANNER = "scanner";
    /** What the names of its figures begin with. */
    private static final String OF_SCANNER = SCANNER + "_";
    /** Grain without the noise of the scanner. */
    static final String FILM_GRAIN = "rms_granularity_film";

    private static final double WIDTH = 560;
    private static final double HEIGHT = 340;
    private static final double SHOWN_FROM = 0.03;

    private final DetailTable table;
    /** By scan and region. */
    private final Map<String, ModulationTransfer> transfers;

    private final boolean withoutScanner;
    private final Optional<String> reference;
    private final List<Crops.Pictures> crops;
    /** The scans of which a picture shows what was read. */
    private final List<String> pictures;

    DetailPage(
            DetailTable table,
            Map<String, ModulationTransfer> transfers,
            boolean withoutScanner,
            Optional<String> reference,
            List<Crops.Pictures> crops,
            List<String> pictures) {
        this.table = table;
        this.transfers = transfers;
        this.reference = reference;
        this.crops = crops;
        this.pictures = pictures;
        this.withoutScanner = withoutScanner;
    }

    void write(Page page, List<String> scans, ChartFiles charts, Path file) throws IOException {
        page.table(table(
                scans,
                "Figures",
                "± is one standard uncertainty."
                        + (reference.isPresent()
                                ? " × is the ratio to the reference, with * where its 95 % interval excludes 1."
                                : "")
                        + whatIsOfTheFilm()
                        + " Where no curve was given, edges and bars are read in transmittance.",
                row -> !row.figure().equals(PATCH) && !isOfScanner(row)));
        String ofScanner = table.rows().stream()
                .filter(DetailPage::isOfScanner)
                .map(row -> words(row.figure()) + " "
                        + row.value().map(DetailPage::shown).orElse("not determined") + " " + unit(row))
                .collect(Collectors.joining("; "));
        if (!ofScanner.isEmpty()) {
            page.paragraph("The scanner itself: " + ofScanner + ".");
        }
        page.list(table.missing().stream()
                .map(row -> row.scan() + ", " + row.region() + ", " + words(row.figure()) + ": " + row.notes())
                .toList());
        if (table.rows().stream().anyMatch(row -> row.figure().equals(PATCH))) {
            page.table(table(
                    scans,
                    "Patches",
                    "Rims, dust and scratches are left out; patches.csv gives the scatter.",
                    row -> row.figure().equals(PATCH)));
        }
        if (!transfers.isEmpty() && !charts.formats().isEmpty()) {
            charts.write(chart(), PLOT);
            page.figure(new ReportFigure(
                    PLOT,
                    "Modulation transfer",
                    "The fraction of the modulation that "
                            + (withoutScanner ? "the film passes" : "film and scanner pass")
                            + " at each spatial frequency; the band about"
                            + " each line is ± 1 standard uncertainty."));
        }
        writeCrops(page);
        page.heading("What was read");
        for (String scan : pictures) {
            page.markup("<figure class=\"regions\"><img src=\"" + Page.escape(RegionPicture.nameOf(scan))
                    + "\" alt=\"The scan "
                    + Page.escape(scan) + " with the regions that were read\" loading=\"lazy\"><figcaption>"
                    + Page.escape(scan) + "</figcaption></figure>\n");
        }
        Files.writeString(file, page.finished());
    }

    /** The name of a figure as people write it; detail.csv has it as programs do. */
    private static String words(String figure) {
        return figure.replace('_', ' ');
    }

    private static String unit(DetailTable.Row row) {
        return row.unit().replace("um^2", "µm²").replace("um", "µm");
    }

    /** Which figures are of the film alone, in words. */
    private String whatIsOfTheFilm() {
        List<String> alone = (withoutScanner ? Stream.of("mtf50", "mtf10", FILM_GRAIN) : Stream.of(FILM_GRAIN))
                .filter(figure ->
                        table.rows().stream().anyMatch(row -> row.figure().equals(figure)))
                .map(DetailPage::words)
                .toList();
        return alone.isEmpty()
                ? " Film and scanner are measured together."
                : " Of the film alone: " + String.join(", ", alone) + "; all others are of film and scanner together.";
    }

    private void writeCrops(Page page) {
        if (crops.isEmpty()) {
            return;
        }
        page.heading("Side by side");
        for (Crops.Pictures pictures : crops) {
            StringBuilder html = new StringBuilder("<figure><div class=\"beside\">\n");
            pictures.files()
                    .forEach((scan, file) -> html.append("<img src=\"")
                            .append(Page.escape(file))
                            .append("\" alt=\"")
                            .append(Page.escape(pictures.region() + " on " + scan))
                            .append("\" width=\"" + Crops.SIDE + "\" height=\"" + Crops.SIDE
                                    + "\" loading=\"lazy\">\n"));
            html.append("</div><figcaption>")
                    .append(Page.escape(String.format(
                            Locale.ROOT,
                            "%s: from the left %s; %.3g mm of film across each, %s.",
                            pictures.region(),
                            String.join(", ", pictures.files().keySet()),
                            pictures.millimetres(),
                            pictures.even()
                                    ? "white and black lie 0.3 of density below and above the mean of each"
                                    : "black and white at the same densities on all")))
                    .append("</figcaption></figure>\n");
            page.markup(html.toString());
        }
    }

    /** Figures down, scans across. */
    private ReportTable table(List<String> scans, String title, String note, Predicate<DetailTable.Row> which) {
        Map<String, Map<String, String>> cells = new LinkedHashMap<>();
        List<DetailTable.Row> shown = table.rows().stream().filter(which).toList();
        for (DetailTable.Row row : shown) {
            String name =
                    row.region() + ": " + words(row.figure()) + (row.unit().isEmpty() ? "" : " (" + unit(row) + ")");
            Optional<Estimate> beside = shown.stream()
                    .filter(other -> reference.isPresent()
                            && !row.scan().equals(reference.get())
                            && other.scan().equals(reference.get())
                            && other.region().equals(row.region())
                            && other.figure().equals(row.figure()))
                    .findFirst()
                    .flatMap(DetailTable.Row::value);
            cells.computeIfAbsent(name, any -> new LinkedHashMap<>())
                    .put(
                            row.scan(),
                            row.value()
                                    .map(value -> shown(value)
                                            + beside.map(of -> ratio(value, of)).orElse(""))
                                    .orElse("not determined"));
        }
        List<String> columns = new ArrayList<>(List.of("Region and figure"));
        scans.forEach(scan -> columns.add(reference.filter(scan::equals).isPresent() ? scan + " (reference)" : scan));
        List<List<String>> rows = new ArrayList<>();
        cells.forEach((name, byScan) -> {
            List<String> row = new ArrayList<>(List.of(name));
            scans.forEach(scan -> row.add(byScan.getOrDefault(scan, "")));
            rows.add(row);
        });
        return new ReportTable(title.toLowerCase(Locale.ROOT), title, note, columns, rows);
    }

    private static boolean isOfScanner(DetailTable.Row row) {
        return row.figure().startsWith(OF_SCANNER);
    }

    /** The ratio to the reference, where both have one sign and an uncertainty. */
    static String ratio(Estimate value, Estimate reference) {
        double ratio = value.value() / reference.value();
        double relative = Math.hypot(
                value.standardUncertainty() / value.value(), reference.standardUncertainty() / reference.value());
        if (!(ratio > 0 && value.standardUncertainty() > 0 && reference.standardUncertainty() > 0 && relative < 1)) {
            return "";
        }
        double degrees = Math.min(value.degreesOfFreedom(), reference.degreesOfFreedom());
        boolean differs =
                !Estimate.of(Math.log(ratio), relative, degrees).interval(0.95).contains(0);
        return String.format(Locale.ROOT, " ×%.2f%s", ratio, differs ? "*" : "");
    }

    /** A value to the second digit of its uncertainty, or to four digits. */
    static String shown(Estimate estimate) {
        if (!(estimate.standardUncertainty() > 0)) {
            return String.format(Locale.ROOT, "%.4g", estimate.value());
        }
        return EstimateFormat.withDefaults().format(estimate);
    }

    private Chart chart() {
        double highest = transfers.values().stream()
                .mapToDouble(DetailPage::endOfInterest)
                .max()
                .orElseThrow();
        Plot plot = new Plot(
                Axis.round("cycles per millimetre on the film", 0, highest),
                Axis.of("modulation", 0, 1.2, 0.2),
                WIDTH,
                HEIGHT);
        List<LegendItem> legend = new ArrayList<>();
        int index = 0;
        for (Map.Entry<String, ModulationTransfer> entry : transfers.entrySet()) {
            Line line = ChartStyle.line(index);
            draw(plot, entry.getValue(), highest, line);
            legend.add(LegendItem.line(entry.getKey(), line));
            index++;
        }
        return new Chart(
                "Modulation transfer",
                withoutScanner ? "film without the scanner" : "film and scanner together",
                plot,
                legend);
    }

    private static void draw(Plot plot, ModulationTransfer transfer, double highest, Line line) {
        double[] all = transfer.frequencies();
        int count = 0;
        while (count < all.length && all[count] <= highest) {
            count++;
        }
        double[] xs = new double[count];
        double[] ys = new double[count];
        double[] outline = new double[2 * count];
        double[] band = new double[2 * count];
        for (int i = 0; i < count; i++) {
            Estimate found = transfer.at(all[i]);
            xs[i] = all[i];
            ys[i] = Math.min(1.2, found.value());
            outline[i] = all[i];
            outline[2 * count - 1 - i] = all[i];
            band[i] = Math.min(1.2, found.value() + found.standardUncertainty());
            band[2 * count - 1 - i] = Math.max(0, found.value() - found.standardUncertainty());
        }
        Color colour = line.colour();
        plot.area(outline, band, new Color(colour.getRed(), colour.getGreen(), colour.getBlue(), 40));
        plot.line(xs, ys, line);
    }

    private static double endOfInterest(ModulationTransfer transfer) {
        for (double frequency : transfer.frequencies()) {
            if (transfer.at(frequency).value() < SHOWN_FROM) {
                return frequency;
            }
        }
        return transfer.highestFrequency();
    }
}
