package org.tonewedge.examples.comparison;

import de.siegmar.fastcsv.writer.CsvWriter;
import de.siegmar.fastcsv.writer.LineDelimiter;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.fitting.parametric.FittedCurve;
import org.tonewedge.standards.comparison.Figure;
import org.tonewedge.standards.comparison.FilmComparison;
import org.tonewedge.standards.comparison.FilmFigure;
import org.tonewedge.standards.comparison.StripComparison;
import org.tonewedge.standards.comparison.StripFigures;
import org.tonewedge.standards.film.Iso6;

/** The uncertainties of fitted figures: one row for each strip and figure. */
final class UncertaintyCsv {

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
        for (FilmFigure figure : FilmFigure.values()) {
            if (figure.isReadOffCurve()
                    && !figure.isBesideReference()
                    && row.get(figure).value().isPresent()) {
                Estimate estimate = fit.estimate(curve -> readOff(row.figures().strip(), curve, figure));
                write(csv, row, figure.id(), estimate, fit.coverageFactor(CONFIDENCE));
            }
        }
    }

    /** The two fits are independent; the greater of their coverage factors is taken. Nothing for the reference itself. */
    private static void writeStopsFromReference(
            CsvWriter csv, StripComparison row, FittedCurve fit, StripFigures reference, Fits fits) {
        Figure stops = row.get(FilmFigure.STOPS_FROM_REFERENCE);
        Strip other = reference.strip();
        if (stops.value().isEmpty()
                || fits.of(other).isEmpty()
                || row.figures().strip().equals(other)) {
            return;
        }
        FittedCurve otherFit = fits.of(other).orElseThrow();
        double own = fit.estimate(UncertaintyCsv::speedPoint).standardUncertainty();
        double others = otherFit.estimate(UncertaintyCsv::speedPoint).standardUncertainty();
        double uncertainty =
                ExposureInterval.ofLogUnits(Math.hypot(own, others)).stops();
        write(
                csv,
                row,
                FilmFigure.STOPS_FROM_REFERENCE.id(),
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

    private static double speedPoint(CharacteristicCurve curve) {
        return Iso6.withDefaults().contrast(curve).speedPoint().logExposure().value();
    }

    /** A figure of a strip, read off another curve. */
    private static double readOff(Strip strip, CharacteristicCurve curve, FilmFigure figure) {
        Figure found = StripFigures.of(strip, same -> curve).get(figure);
        return found.value().orElseThrow(() -> new NotDeterminableException(found.reason()));
    }
}
