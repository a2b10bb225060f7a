package org.tonewedge.standards.comparison;

import java.util.EnumMap;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import org.tonewedge.core.quantity.CoverageInterval;

/**
 * How often the 95 % interval of a figure contains the truth, on simulated pairs of strips. Run by hand; the results stand
 * in {@link CurveDrawing}.
 *
 * <pre>{@code
 * java … org.tonewedge.standards.comparison.FigureCoverage 10000 21 0.01
 * }</pre>
 */
final class FigureCoverage {

    private static final double CONFIDENCE = 0.95;

    private final CurveDrawing drawing;
    private final Map<FilmFigure, int[]> found = new EnumMap<>(FilmFigure.class);
    private int pairs;
    private int shouldersInvented;
    private int shouldersShown;

    private FigureCoverage(CurveDrawing drawing) {
        this.drawing = drawing;
        for (FilmFigure figure : FilmFigure.values()) {
            found.put(figure, new int[2]);
        }
    }

    static FigureCoverage of(CurveDrawing drawing, int pairs, int steps, double error, long seed) {
        FigureCoverage coverage = new FigureCoverage(drawing);
        Random random = new Random(seed);
        for (int i = 0; i < pairs; i++) {
            coverage.add(steps, error, random);
        }
        return coverage;
    }

    private void add(int steps, double error, Random random) {
        SimulatedFilm film = SimulatedFilm.withShoulder(random);
        SimulatedFilm reference = SimulatedFilm.withoutShoulder(random);
        StripComparison truth = StripComparison.of(film.truth(), reference.truth());
        StripFigures readReference = StripFigures.of(reference.strip("R", steps, error, random), drawing);
        StripComparison read =
                StripComparison.of(StripFigures.of(film.strip("S", steps, error, random), drawing), readReference);
        pairs++;
        for (FilmFigure figure : FilmFigure.values()) {
            read.get(figure).estimate().ifPresent(estimate -> {
                Figure exact = truth.get(figure);
                double value = exact.value().orElseThrow(() -> new IllegalStateException(figure + " " + exact));
                CoverageInterval interval = estimate.interval(CONFIDENCE);
                found.get(figure)[0]++;
                found.get(figure)[1] += interval.lower() <= value && value <= interval.upper() ? 1 : 0;
            });
        }
        shouldersShown += has(read.figures()) ? 1 : 0;
        shouldersInvented += has(readReference) ? 1 : 0;
    }

    private static boolean has(StripFigures figures) {
        return figures.get(FilmFigure.SHOULDER_START_DENSITY).value().isPresent();
    }

    /** The part of the intervals that contain the truth. */
    double coverage(FilmFigure figure) {
        int[] counts = found.get(figure);
        return (double) counts[1] / counts[0];
    }

    /** The part of the pairs in which the figure was given with an uncertainty. */
    double given(FilmFigure figure) {
        return (double) found.get(figure)[0] / pairs;
    }

    /** The part of the strips without a shoulder on which one was named. */
    double shouldersInvented() {
        return (double) shouldersInvented / pairs;
    }

    /** The part of the strips with a shoulder on which it was named. */
    double shouldersShown() {
        return (double) shouldersShown / pairs;
    }

    /** Prints the table of a drawing. */
    public static void main(String[] args) {
        int pairs = Integer.parseInt(args[0]);
        int steps = Integer.parseInt(args[1]);
        double error = Double.parseDouble(args[2]);
        for (CurveDrawing drawing : new CurveDrawing[] {
            CurveDrawing.fitted(), CurveDrawing.spline(error), CurveDrawing.throughReadings(error)
        }) {
            if (args.length > 3 && !drawing.toString().startsWith(args[3])) {
                continue;
            }
            FigureCoverage coverage = of(drawing, pairs, steps, error, 11);
            System.out.printf(
                    Locale.ROOT,
                    "%s, %d pairs, %d steps, error %.3f: shoulders shown %.3f, invented %.3f%n",
                    drawing,
                    pairs,
                    steps,
                    error,
                    coverage.shouldersShown(),
                    coverage.shouldersInvented());
            coverage.found.forEach((figure, counts) -> System.out.printf(
                    Locale.ROOT,
                    "  %-26s given %.3f, coverage %.3f%n",
                    figure.id(),
                    coverage.given(figure),
                    coverage.coverage(figure)));
        }
    }
}
