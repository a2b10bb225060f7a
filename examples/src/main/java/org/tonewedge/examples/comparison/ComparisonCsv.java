package org.tonewedge.examples.comparison;

import de.siegmar.fastcsv.writer.CsvWriter;
import de.siegmar.fastcsv.writer.LineDelimiter;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.tonewedge.core.quantity.Temperature;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.standards.comparison.Figure;
import org.tonewedge.standards.comparison.StripComparison;
import org.tonewedge.standards.comparison.StripFigures;
import org.tonewedge.standards.film.Iso6Contrast;
import org.tonewedge.standards.film.IsoSpeed;

/** The table of a comparison: its columns, its rows and the notes for what is missing. */
final class ComparisonCsv {

    /** Columns that hold a figure, in their order in the table. */
    private static final List<String> FIGURES = List.of(
            "base_fog",
            "d_max",
            "log_h_m",
            "speed_exact",
            "stops_vs_box",
            "stops_vs_reference",
            "delta_d_1_30",
            "average_gradient",
            "contrast_index",
            "gamma",
            "toe_length",
            "straight_line_length",
            "shoulder_start_density",
            "print_stops_vs_reference");

    static final List<String> COLUMNS = List.of(
            "strip",
            "film",
            "developer",
            "minutes",
            "celsius",
            "base_fog",
            "d_max",
            "log_h_m",
            "speed_exact",
            "speed_iso",
            "speed_degrees",
            "stops_vs_box",
            "stops_vs_reference",
            "delta_d_1_30",
            "contrast_condition",
            "average_gradient",
            "contrast_index",
            "gamma",
            "toe_length",
            "straight_line_length",
            "shoulder_start_density",
            "print_stops_vs_reference",
            "notes");

    /** Columns that are empty where the figure they are made of is missing. */
    private static final Map<String, List<String>> MADE_OF =
            Map.of("speed_exact", List.of("speed_iso", "speed_degrees"), "delta_d_1_30", List.of("contrast_condition"));

    private static final int MOST_STOPS_FROM_BOX = 4;
    /** A difference of base plus fog that moves a speed by about a tenth of a stop. */
    private static final double BASE_DIFFERENCE = 0.01;

    private ComparisonCsv() {}

    static void write(List<StripComparison> rows, Fits fits, Path file) throws IOException {
        try (CsvWriter csv = CsvWriter.builder().lineDelimiter(LineDelimiter.LF).build(file, StandardCharsets.UTF_8)) {
            csv.writeRecord(COLUMNS);
            for (StripComparison row : rows) {
                csv.writeRecord(byColumn(row, fits).values());
            }
        } catch (UncheckedIOException e) {
            throw e.getCause();
        }
    }

    /** The fields of one row, numbers in full precision, in the order of {@link #COLUMNS}. */
    static Map<String, String> byColumn(StripComparison row, Fits fits) {
        Map<String, String> fields = new LinkedHashMap<>();
        COLUMNS.forEach(column -> fields.put(column, ""));
        Strip strip = row.figures().strip();
        fields.put("strip", strip.id());
        fields.put("film", strip.film());
        strip.processing().developer().ifPresent(developer -> fields.put("developer", developer));
        strip.processing().time().ifPresent(time -> fields.put("minutes", number(time.toMillis() / 60_000.0)));
        strip.processing()
                .temperature()
                .map(Temperature::celsius)
                .ifPresent(celsius -> fields.put("celsius", number(celsius)));
        figures(row).forEach((column, figure) -> figure.value().ifPresent(value -> fields.put(column, number(value))));
        roundedSpeed(row).ifPresent(rounded -> {
            fields.put("speed_iso", number(rounded.arithmetic()).replaceAll("\\.0$", ""));
            fields.put("speed_degrees", Integer.toString(rounded.degrees()));
        });
        row.figures()
                .iso6Contrast()
                .filter(found -> found.verdict() != Iso6Contrast.Verdict.NOT_MEASURED)
                .ifPresent(found ->
                        fields.put("contrast_condition", found.verdict().name().toLowerCase(Locale.ROOT)));
        fields.put("notes", String.join(" | ", notes(row, fits)));
        return fields;
    }

    /** The rounded speed; nothing without a speed, or if it lies off the nominal scale. */
    static Optional<IsoSpeed> roundedSpeed(StripComparison row) {
        return row.figures().iso6Speed().flatMap(speed -> IsoSpeed.nearestOnScale(speed.exact()));
    }

    /** The figures of a row by column. */
    static Map<String, Figure> figures(StripComparison row) {
        StripFigures own = row.figures();
        List<Figure> figures = List.of(
                own.basePlusFog(),
                own.maximumDensity(),
                absoluteSpeedPoint(own),
                own.exactSpeed(),
                own.stopsFromBoxSpeed(),
                row.stopsFromReference(),
                own.contrastOver130(),
                own.averageGradient(),
                own.contrastIndex(),
                own.gamma(),
                own.toeLength(),
                own.straightLineLength(),
                own.shoulderStartDensity(),
                row.printStopsFromReference());
        Map<String, Figure> byColumn = new LinkedHashMap<>();
        for (int i = 0; i < FIGURES.size(); i++) {
            byColumn.put(FIGURES.get(i), figures.get(i));
        }
        return byColumn;
    }

    private static Figure absoluteSpeedPoint(StripFigures own) {
        return own.strip().axis().isAbsolute()
                        || own.speedPointLogExposure().value().isEmpty()
                ? own.speedPointLogExposure()
                : Figure.missing("exposures are relative; stops_vs_reference compares the speed points");
    }

    /** Why figures are missing, and what to look at; columns with one reason share a note. */
    static List<String> notes(StripComparison row, Fits fits) {
        Map<String, List<String>> columnsByReason = new LinkedHashMap<>();
        figures(row).forEach((column, figure) -> {
            if (figure.value().isEmpty()) {
                List<String> columns = columnsByReason.computeIfAbsent(figure.reason(), reason -> new ArrayList<>());
                columns.add(column);
                columns.addAll(MADE_OF.getOrDefault(column, List.of()));
            }
        });
        List<String> notes = new ArrayList<>();
        columnsByReason.forEach((reason, columns) -> notes.add(String.join(", ", columns) + ": " + reason));
        row.figures().findings().stream()
                .map(finding -> finding.message())
                .filter(message -> !columnsByReason.containsKey(message))
                .forEach(notes::add);
        notes.addAll(fits.notes(row.figures().strip()));
        doubts(row.figures(), notes);
        if (row.figures().iso6Speed().isPresent() && roundedSpeed(row).isEmpty()) {
            notes.add("speed_iso, speed_degrees: the exact speed is outside the scale of nominal speeds, 0.8/0° to"
                    + " 12500/42°; check the unit of the exposures, lux seconds");
        }
        row.figures()
                .iso6Speed()
                .filter(speed -> !speed.conditionsMet())
                .filter(speed -> speed.contrast().contrast().isPresent())
                .ifPresent(speed -> notes.add(
                        "speed_iso: not an ISO speed; " + speed.conditions().get(0)));
        return notes;
    }

    /** What is there but hard to believe, and what the reader of the row should know about its figures. */
    private static void doubts(StripFigures figures, List<String> notes) {
        figures.stopsFromBoxSpeed().value().ifPresent(stops -> {
            if (Math.abs(stops) > MOST_STOPS_FROM_BOX) {
                notes.add("stops_vs_box: more than " + MOST_STOPS_FROM_BOX
                        + " stops from the box speed; are the exposures"
                        + " log10 of lux seconds, and is the box speed right?");
            }
        });
        figures.curve().ifPresent(curve -> {
            double own = curve.basePlusFog().value();
            double read = figures.basePlusFog().value().orElse(Double.NaN);
            if (!(Math.abs(own - read) <= BASE_DIFFERENCE)) {
                notes.add("figures of the curve are counted from a fitted base plus fog of " + curve.basePlusFog()
                        + (Double.isNaN(read) ? ", since none was read" : ", not from the readings"));
            }
        });
    }

    /** Whether the strip gave no curve, or its curve no speed point: then it had no result. */
    static boolean hasResult(StripComparison row) {
        return row.figures().speedPointLogExposure().value().isPresent();
    }

    private static String number(double value) {
        return Double.toString(value + 0.0);
    }
}
