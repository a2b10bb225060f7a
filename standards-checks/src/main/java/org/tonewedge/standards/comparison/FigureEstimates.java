// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.comparison;

import java.util.IdentityHashMap;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.ToDoubleFunction;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.FigureEstimator;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.curve.NotDeterminableException.Reason;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.standards.SystematicUncertainty;

/** All figures of one strip with their uncertainties. Each of the curves needed is read once, for all figures. */
final class FigureEstimates {

    /** An interval of this confidence leaves 5 % on either side. */
    private static final double ONE_SIDED_95 = 0.90;

    private final StripReading reading;
    private final Optional<DrawnCurve> drawn;
    private final IdentityHashMap<CharacteristicCurve, StripReading> readings = new IdentityHashMap<>();
    private final Map<String, Beside> stated = new LinkedHashMap<>();

    FigureEstimates(StripReading reading, Optional<DrawnCurve> drawn) {
        this.reading = reading;
        this.drawn = drawn;
        drawn.ifPresent(curve -> {
            readings.put(curve.curve(), reading);
            reading.strip()
                    .statedErrors()
                    .forEach(source -> stated.put(source, Beside.of(reading.strip(), curve, source)));
        });
    }

    Figure of(FilmFigure figure) {
        Figure own = fromReadings(figure);
        if (own.value().isEmpty() || stated.isEmpty()) {
            return own;
        }
        try {
            return own.withStatedErrors(statedErrors(figure, own.value().getAsDouble()));
        } catch (NotDeterminableException e) {
            return Figure.missing(e.getMessage());
        }
    }

    /** Half of what the figure changes between one standard uncertainty more and less, by source. */
    private SystematicUncertainty statedErrors(FilmFigure figure, double value) {
        Map<String, Double> contributions = new LinkedHashMap<>();
        stated.forEach((source, beside) -> {
            OptionalDouble above = beside.above().read(figure).value();
            OptionalDouble below = beside.below().read(figure).value();
            if (above.isEmpty() && below.isEmpty()) {
                throw new NotDeterminableException(
                        Reason.UNCERTAINTY_UNKNOWN,
                        reading.strip() + ": " + figure.heading()
                                + " cannot be read with the stated error of " + source
                                + " added, so its uncertainty is not known: "
                                + beside.above().read(figure).reason());
            }
            double step = above.isPresent() && below.isPresent() ? 0.5 : 1;
            contributions.put(source, step * (above.orElse(value) - below.orElse(value)));
        });
        return SystematicUncertainty.ofContributions(contributions);
    }

    /** The strip read with one stated error more and less. */
    private record Beside(StripReading above, StripReading below) {

        static Beside of(Strip strip, DrawnCurve drawn, String source) {
            return new Beside(moved(strip, drawn, source, 1), moved(strip, drawn, source, -1));
        }

        private static StripReading moved(Strip strip, DrawnCurve drawn, String source, double by) {
            Strip moved = strip.withStatedError(source, by);
            return new StripReading(moved, Optional.of(drawn), () -> drawn.again(moved));
        }
    }

    private Figure fromReadings(FilmFigure figure) {
        Figure read = reading.read(figure);
        if (read.value().isEmpty() || !figure.isReadOffCurve() || drawn.isEmpty()) {
            return read;
        }
        if (figure.isOfAnatomy()) {
            Optional<String> unresolved = reading.anatomy().flatMap(drawn.get()::unresolved);
            if (unresolved.isPresent()) {
                return Figure.missing(reading.strip() + ": " + unresolved.get());
            }
        }
        Optional<FigureEstimator> estimator = drawn.get().estimator();
        if (estimator.isEmpty()) {
            return read;
        }
        try {
            for (CurveEnd end : figure.mustShow()) {
                requireShown(end, estimator.get());
            }
            ToDoubleFunction<CharacteristicCurve> readOff = on(other -> value(other.read(figure)));
            return Figure.of(estimator.get().estimate(readOff))
                    .withDisagreement(drawn.get().disagreement(readOff));
        } catch (NotDeterminableException e) {
            return Figure.missing(e.getMessage());
        }
    }

    private void requireShown(CurveEnd end, FigureEstimator estimator) {
        Estimate share = estimator.estimate(on(end::share));
        if (!(share.interval(ONE_SIDED_95).upper() < end.level())) {
            throw new NotDeterminableException(
                    Reason.UNSUITABLE_CURVE,
                    reading.strip() + ": the readings do not show " + end.part()
                            + " at 95 %; the gradient at the " + end.where() + " end is " + share
                            + " of the greatest, and must be below " + Figures.plain(end.level()) + ": "
                            + end.remedy());
        }
    }

    private ToDoubleFunction<CharacteristicCurve> on(ToDoubleFunction<StripReading> figure) {
        return curve -> figure.applyAsDouble(
                readings.computeIfAbsent(curve, other -> new StripReading(reading.strip(), drawn, () -> other)));
    }

    private static double value(Figure figure) {
        return figure.value().orElseThrow(() -> new NotDeterminableException(figure.reason()));
    }
}
