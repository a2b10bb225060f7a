// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.comparison;

import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.SplittableRandom;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.strip.ExposedStep;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.standards.comparison.FilmFigure;
import org.tonewedge.standards.comparison.StripFigures;

/**
 * How often {@link CommonCause} takes right exposures for logarithms of millilux seconds, and how often it finds such
 * logarithms: the demo films, exposed and read again with other errors, at other speeds and without a box speed. The
 * figures of {@link CommonCause} are printed by
 *
 * <pre>{@code
 * mvn -q test-compile && java -cp <class path of the tests of examples> org.tonewedge.examples.comparison.MilliluxSimulation 76
 * }</pre>
 */
final class MilliluxSimulation {

    private static final double[] SPEEDS = {0.40, 0.45, 0.50, 0.55, 0.60, 0.80, 25, 400};
    private static final double MILLI = 1000;

    private MilliluxSimulation() {}

    /** A strip at another exposure and without its box speed. */
    static Strip moved(Strip strip, double logUnits) {
        Strip.Builder moved = Strip.builder(strip.id());
        strip.basePlusFogReadings().forEach(density -> moved.basePlusFog(density.value()));
        for (ExposedStep step : strip.steps()) {
            for (Density density : step.readings()) {
                moved.reading(step.exposure().plus(ExposureInterval.ofLogUnits(logUnits)), density);
            }
        }
        return moved.build();
    }

    private static OptionalDouble speed(Strip strip) {
        return StripFigures.of(strip).get(FilmFigure.EXACT_SPEED).value();
    }

    /**
     * Prints for each speed how many strips are suspected with right exposures, and with exposures in millilux seconds.
     *
     * @param arguments the number of strips at each speed
     */
    public static void main(String... arguments) {
        int strips = Integer.parseInt(arguments[0]);
        List<Strip> films = DemoStrips.strips().stream()
                .filter(strip -> speed(strip).isPresent())
                .toList();
        SplittableRandom seeds = new SplittableRandom(1);
        for (double speed : SPEEDS) {
            int right = 0;
            int milli = 0;
            for (int i = 0; i < strips; i++) {
                Strip film = films.get(i % films.size());
                double slower = Math.log10(speed(film).orElseThrow() / speed);
                Strip read = DemoStrips.again(film.id(), seeds.nextLong());
                right += CommonCause.looksMilliluxSeconds(StripFigures.of(moved(read, slower))) ? 1 : 0;
                milli += CommonCause.looksMilliluxSeconds(StripFigures.of(moved(read, slower + Math.log10(MILLI))))
                        ? 1
                        : 0;
            }
            System.out.printf(
                    Locale.ROOT,
                    "speed %.2f: of %d strips %d suspected if right, %d if in millilux seconds%n",
                    speed,
                    strips,
                    right,
                    milli);
        }
    }
}
