package org.tonewedge.examples.comparison;

import de.siegmar.fastcsv.writer.CsvWriter;
import de.siegmar.fastcsv.writer.LineDelimiter;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.strip.Strip;
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
            "stops_vs_box",
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
                fits.of(row.figures().strip()).ifPresent(fit -> {
                    writeFigures(csv, row, fit);
                    writeStopsFromReference(csv, row, fit, comparison.reference(), fits);
                });
            }
        } catch (UncheckedIOException e) {
            throw e.getCause();
        }
    }

    private static void writeFigures(CsvWriter csv, StripComparison row, FittedCurve fit) {
        Map<String, Figure> figures = ComparisonCsv.figures(row);
        for (String name : FIGURES) {
            if (figures.get(name).value().isPresent()) {
                Estimate estimate = fit.estimate(curve -> readOff(row, curve, name));
                write(csv, row, name, estimate, fit.coverageFactor(CONFIDENCE));
            }
        }
    }

    /** The two fits are independent; the greater of their coverage factors is taken. Nothing for the reference itself. */
    private static void writeStopsFromReference(
            CsvWriter csv, StripComparison row, FittedCurve fit, StripFigures reference, Fits fits) {
        Figure stops = row.stopsFromReference();
        Strip other = reference.strip();
        if (stops.value().isEmpty()
                || fits.of(other).isEmpty()
                || row.figures().strip().equals(other)) {
            return;
        }
        FittedCurve otherFit = fits.of(other).orElseThrow();
        double own =
                fit.estimate(curve -> speedPoint(row.figures().strip(), curve)).standardUncertainty();
        double others = otherFit.estimate(curve -> speedPoint(other, curve)).standardUncertainty();
        double uncertainty =
                ExposureInterval.ofLogUnits(Math.hypot(own, others)).stops();
        write(
                csv,
                row,
                "stops_vs_reference",
                Estimate.of(stops.value().getAsDouble(), uncertainty),
                Math.max(fit.coverageFactor(CONFIDENCE), otherFit.coverageFactor(CONFIDENCE)));
    }

    private static void write(
            CsvWriter csv, StripComparison row, String name, Estimate estimate, double coverageFactor) {
        double half = coverageFactor * estimate.standardUncertainty();
        csv.writeRecord(
                row.figures().strip().id(),
                name,
                Double.toString(estimate.value()),
                Double.toString(estimate.standardUncertainty()),
                Double.toString(estimate.value() - half),
                Double.toString(estimate.value() + half));
    }

    private static double speedPoint(Strip strip, CharacteristicCurve curve) {
        return found(StripFigures.of(strip, same -> curve).speedPointLogExposure());
    }

    /** A figure of the row's strip, read off another curve. */
    private static double readOff(StripComparison row, CharacteristicCurve curve, String name) {
        StripFigures figures = StripFigures.of(row.figures().strip(), strip -> curve);
        return found(ComparisonCsv.figures(StripComparison.of(figures, figures)).get(name));
    }

    private static double found(Figure figure) {
        return figure.value().orElseThrow(() -> new NotDeterminableException(figure.reason()));
    }
}
