package org.tonewedge.examples.comparison;

import de.siegmar.fastcsv.writer.CsvWriter;
import de.siegmar.fastcsv.writer.LineDelimiter;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.function.ToDoubleFunction;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.fitting.parametric.FittedCurve;
import org.tonewedge.standards.comparison.Figure;
import org.tonewedge.standards.comparison.FilmComparison;
import org.tonewedge.standards.comparison.StripComparison;
import org.tonewedge.standards.comparison.StripFigures;

/** The uncertainties of fitted figures: one row for each strip and figure. */
final class UncertaintyCsv {

    /** Figures that are read off the curve alone; base plus fog and greatest density are read on the strip. */
    private static final List<String> FIGURES = List.of(
            "log_h_m",
            "speed_exact",
            "delta_d_1_30",
            "average_gradient",
            "contrast_index",
            "gamma",
            "toe_length",
            "straight_line_length",
            "shoulder_start_density");

    private static final double CONFIDENCE = 0.95;

    private UncertaintyCsv() {}

    static void write(FilmComparison comparison, Fits fits, Path file) throws IOException {
        try (CsvWriter csv = CsvWriter.builder().lineDelimiter(LineDelimiter.LF).build(file, StandardCharsets.UTF_8)) {
            csv.writeRecord("strip", "figure", "value", "standard_uncertainty", "lower_95", "upper_95");
            for (StripComparison row : comparison.rows()) {
                fits.of(row.figures().strip()).ifPresent(fit -> writeStrip(csv, row, fit));
            }
        } catch (UncheckedIOException e) {
            throw e.getCause();
        }
    }

    private static void writeStrip(CsvWriter csv, StripComparison row, FittedCurve fit) {
        Map<String, Figure> figures = ComparisonCsv.figures(row);
        for (String name : FIGURES) {
            if (figures.get(name).value().isEmpty()) {
                continue;
            }
            ToDoubleFunction<CharacteristicCurve> figure = curve -> readOff(row, curve, name);
            Estimate estimate = fit.estimate(figure);
            double half = fit.coverageFactor(CONFIDENCE) * estimate.standardUncertainty();
            csv.writeRecord(
                    row.figures().strip().id(),
                    name,
                    Double.toString(estimate.value()),
                    Double.toString(estimate.standardUncertainty()),
                    Double.toString(estimate.value() - half),
                    Double.toString(estimate.value() + half));
        }
    }

    /** A figure of the row's strip, read off another curve. */
    private static double readOff(StripComparison row, CharacteristicCurve curve, String name) {
        StripFigures figures = StripFigures.of(row.figures().strip(), strip -> curve);
        Figure figure =
                ComparisonCsv.figures(StripComparison.of(figures, figures)).get(name);
        return figure.value().orElseThrow(() -> new NotDeterminableException(figure.reason()));
    }
}
