// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.comparison;

import java.util.EnumMap;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Random;
import org.tonewedge.core.quantity.CoverageInterval;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.strip.Repeatability;

/**
 * How often the 95 % interval of a figure contains the truth, on simulated pairs of strips. Run by hand; the results stand
 * in {@link CurveDrawing}.
 *
 * <pre>{@code
 * java … org.tonewedge.standards.comparison.FigureCoverage 10000 21 0.01 fitted TWO_LAYERS
 * }</pre>
 */
final class FigureCoverage {

    private static final double CONFIDENCE = 0.95;
    /** So many films are set beside each reference. */
    private static final int FILMS = 5;

    private final CurveDrawing drawing;
    private final SimulatedFilm.Shape shape;
    private final Map<FilmFigure, Tally> found = new EnumMap<>(FilmFigure.class);
    private StripFigures trueReference;
    private StripFigures reference;
    private int references;
    private int pairs;
    private int shouldersInvented;
    private int shouldersShown;

    /** What is counted of one figure. */
    private static final class Tally {
        private int asked;
        private int invented;
        private int given;
        private int contained;
        private double error;
    }

    private FigureCoverage(CurveDrawing drawing, SimulatedFilm.Shape shape) {
        this.drawing = drawing;
        this.shape = shape;
        for (FilmFigure figure : FilmFigure.values()) {
            found.put(figure, new Tally());
        }
    }

    static FigureCoverage of(
            CurveDrawing drawing, SimulatedFilm.Shape shape, int pairs, int steps, double error, long seed) {
        FigureCoverage coverage = new FigureCoverage(drawing, shape);
        Random random = new Random(seed);
        for (int i = 0; i < pairs; i++) {
            coverage.add(steps, error, random);
        }
        return coverage;
    }

    private void add(int steps, double error, Random random) {
        if (pairs % FILMS == 0) {
            SimulatedFilm film = SimulatedFilm.withoutShoulder(random);
            trueReference = film.truth();
            reference = StripFigures.of(film.strip("R", steps, error, random), drawing);
            references++;
            shouldersInvented += has(reference) ? 1 : 0;
        }
        SimulatedFilm film = shape.film(random);
        StripComparison truth = StripComparison.of(film.truth(), trueReference);
        StripComparison read =
                StripComparison.of(StripFigures.of(film.strip("S", steps, error, random), drawing), reference);
        pairs++;
        for (FilmFigure figure : FilmFigure.values()) {
            OptionalDouble exact = truth.get(figure).value();
            if (exact.isEmpty()) {
                found.get(figure).invented += read.get(figure).value().isPresent() ? 1 : 0;
            } else {
                count(found.get(figure), exact.getAsDouble(), read.get(figure).estimate());
            }
        }
        shouldersShown += has(read.figures()) ? 1 : 0;
    }

    private static void count(Tally tally, double exact, Optional<Estimate> read) {
        tally.asked++;
        read.ifPresent(estimate -> {
            CoverageInterval interval = estimate.interval(CONFIDENCE);
            tally.given++;
            tally.contained += interval.lower() <= exact && exact <= interval.upper() ? 1 : 0;
            tally.error += estimate.value() - exact;
        });
    }

    private static boolean has(StripFigures figures) {
        return figures.get(FilmFigure.SHOULDER_START_DENSITY).value().isPresent();
    }

    /** The part of the intervals that contain the truth. */
    double coverage(FilmFigure figure) {
        Tally tally = found.get(figure);
        return (double) tally.contained / tally.given;
    }

    /** The part of the pairs whose true curves have the figure in which it was given with an uncertainty. */
    double given(FilmFigure figure) {
        Tally tally = found.get(figure);
        return (double) tally.given / tally.asked;
    }

    /** The part of all pairs in which the figure was given although the true curve does not have it. */
    double invented(FilmFigure figure) {
        return (double) found.get(figure).invented / pairs;
    }

    /** How far the figure is off on average. */
    double bias(FilmFigure figure) {
        Tally tally = found.get(figure);
        return tally.error / tally.given;
    }

    /** The part of the references, which have no shoulder, on which one was named. */
    double shouldersInvented() {
        return (double) shouldersInvented / references;
    }

    /** The part of the strips on which a shoulder was named. */
    double shouldersShown() {
        return (double) shouldersShown / pairs;
    }

    /**
     * Prints the tables.
     *
     * @param args the number of pairs, the steps of a strip, the standard deviation of a reading, the name of a drawing, a
     *     shape, and perhaps the seed
     */
    public static void main(String[] args) {
        int pairs = Integer.parseInt(args[0]);
        int steps = Integer.parseInt(args[1]);
        double error = Double.parseDouble(args[2]);
        SimulatedFilm.Shape shape = SimulatedFilm.Shape.valueOf(args[4]);
        CurveDrawing drawing = switch (args[3]) {
            case "fitted" -> CurveDrawing.fitted();
            case "spline" -> CurveDrawing.spline(Repeatability.of(error));
            case "through" -> CurveDrawing.throughReadings(Repeatability.of(error));
            default -> throw new IllegalArgumentException("no drawing is called " + args[3]);
        };
        FigureCoverage coverage =
                of(drawing, shape, pairs, steps, error, args.length > 5 ? Long.parseLong(args[5]) : 11);
        System.out.printf(
                Locale.ROOT,
                "%s %s, %d pairs, %d steps, error %.3f: shoulders shown %.3f, invented %.3f%n",
                shape,
                drawing,
                pairs,
                steps,
                error,
                coverage.shouldersShown(),
                coverage.shouldersInvented());
        for (FilmFigure figure : FilmFigure.values()) {
            if (coverage.found.get(figure).invented > 0) {
                System.out.printf(Locale.ROOT, "  %-26s invented %.3f%n", figure.id(), coverage.invented(figure));
            }
            if (coverage.found.get(figure).given > 0) {
                System.out.printf(
                        Locale.ROOT,
                        "  %-26s given %.3f, coverage %.3f, bias %+.4f%n",
                        figure.id(),
                        coverage.given(figure),
                        coverage.coverage(figure),
                        coverage.bias(figure));
            }
        }
    }
}
