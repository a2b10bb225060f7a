package org.tonewedge.fitting.development;

import java.time.Duration;
import org.tonewedge.core.internal.Checks;

/**
 * Development by inspection of the first image: the whole time is the time at which the image first shows, times a factor
 * of the developer; temperature is in the first time. Example: first image at 15 s, factor 7: 1 min 45 s. For plates and
 * papers developed under a safelight; not for films developed in the dark.
 *
 * @source Modern Photography in Theory and Practice, chapter VII (factorial development)
 */
public final class FactorialDevelopment {

    private FactorialDevelopment() {}

    /**
     * Returns the whole time of development.
     *
     * @param firstImage the time from the start until the image first shows, above 0
     * @param factor the factor of the developer, at least 1
     * @return firstImage × factor
     * @throws IllegalArgumentException if the time is not above 0 or the factor is not a finite number of at least 1
     */
    public static Duration time(Duration firstImage, double factor) {
        Checks.within("factor of the developer", factor, 1, 1000, "");
        double minutes = Checks.positive("time of the first image in minutes", DevelopmentTimes.minutes(firstImage));
        return DevelopmentTimes.ofMinutes(minutes * factor);
    }
}
