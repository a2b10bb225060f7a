package org.tonewedge.examples.comparison;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.fitting.parametric.CurveFamily;
import org.tonewedge.fitting.parametric.CurveFit;
import org.tonewedge.fitting.parametric.FittedCurve;
import org.tonewedge.fitting.parametric.RobustLoss;

/** The fits of a comparison by strip; empty where curves are drawn through the readings. */
final class Fits {

    private static final CurveFit FIT = CurveFit.of(CurveFamily.TOE_SHOULDER).with(RobustLoss.TUKEY);

    private final Map<String, FittedCurve> fits = new LinkedHashMap<>();

    /** Fits a strip, keeps the fit and returns its curve. */
    CharacteristicCurve draw(Strip strip) {
        FittedCurve fit = FIT.fit(strip);
        fits.put(strip.id(), fit);
        return fit.curve();
    }

    boolean isEmpty() {
        return fits.isEmpty();
    }

    Optional<FittedCurve> of(Strip strip) {
        return Optional.ofNullable(fits.get(strip.id()));
    }

    /** What the fit of a strip has to say: readings it distrusts, parts the strip does not show. */
    List<String> notes(Strip strip) {
        List<String> notes = new ArrayList<>();
        of(strip).ifPresent(fit -> {
            fit.distrusted().forEach(reading -> notes.add("distrusted: " + reading));
            fit.notes().forEach(note -> notes.add("fit: " + note));
        });
        return notes;
    }
}
