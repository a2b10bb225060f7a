package org.tonewedge.standards.comparison;

import java.util.IdentityHashMap;
import java.util.Optional;
import java.util.function.ToDoubleFunction;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.Estimate;

/** All figures of one strip with their uncertainties. Each of the curves needed is read once, for all figures. */
final class FigureEstimates {

    /** An interval of this confidence leaves 5 % on either side. */
    private static final double ONE_SIDED_95 = 0.90;

    private final StripReading reading;
    private final Optional<DrawnCurve> drawn;
    private final IdentityHashMap<CharacteristicCurve, StripReading> readings = new IdentityHashMap<>();

    FigureEstimates(StripReading reading, Optional<DrawnCurve> drawn) {
        this.reading = reading;
        this.drawn = drawn;
        drawn.ifPresent(curve -> readings.put(curve.curve(), reading));
    }

    Figure of(FilmFigure figure) {
        Figure read = figure.read(reading);
        if (read.value().isEmpty() || !figure.isReadOffCurve() || drawn.isEmpty()) {
            return read;
        }
        if (figure.isOfAnatomy()) {
            Optional<String> unresolved = reading.anatomy().flatMap(drawn.get()::unresolved);
            if (unresolved.isPresent()) {
                return Figure.missing(reading.strip() + ": " + unresolved.get());
            }
        }
        Optional<DrawnCurve.Estimator> estimator = drawn.get().estimator();
        if (estimator.isEmpty()) {
            return read;
        }
        try {
            for (CurveEnd end : figure.mustShow()) {
                requireShown(end, estimator.get());
            }
            return Figure.of(estimator.get().estimate(on(other -> value(figure.read(other)))));
        } catch (NotDeterminableException e) {
            return Figure.missing(e.getMessage());
        }
    }

    private void requireShown(CurveEnd end, DrawnCurve.Estimator estimator) {
        Estimate share = estimator.estimate(on(end::share));
        if (!(share.interval(ONE_SIDED_95).upper() < end.level())) {
            throw new NotDeterminableException(reading.strip() + ": the readings do not show " + end.part()
                    + " at 95 %; the gradient at the " + end.where() + " end is " + share
                    + " of the greatest, and must be below " + Figures.plain(end.level()) + ": "
                    + end.remedy());
        }
    }

    private ToDoubleFunction<CharacteristicCurve> on(ToDoubleFunction<StripReading> figure) {
        return curve -> figure.applyAsDouble(
                readings.computeIfAbsent(curve, other -> new StripReading(reading.strip(), () -> other)));
    }

    private static double value(Figure figure) {
        return figure.value().orElseThrow(() -> new NotDeterminableException(figure.reason()));
    }
}
