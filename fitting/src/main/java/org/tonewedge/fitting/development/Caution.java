// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.development;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;

/**
 * What to keep in mind about a time or temperature of development. The figures in the texts are common practice, no
 * source.
 */
public enum Caution {
    /** The time lies outside those tested. */
    EXTRAPOLATED("This time or temperature lies outside those tested. Do not rely on it: develop a test strip there."),
    /** The time is short. */
    SHORT_TIME(
            "In less than 4 minutes development easily becomes uneven; a lower temperature or a weaker developer gives more time."),
    /** A prediction must be confirmed. */
    CONFIRM("A predicted time is a starting point: confirm it with a test strip before you develop film that matters."),
    /** The time is valid only under the tested conditions. */
    SAME_CONDITIONS(
            "It is valid only for this film, developer, dilution, volume, vessel and agitation. Keep the developer within"
                    + " 0.5 °C of the temperature given, and the other baths close to it."),
    /** Darkroom chemicals. */
    CHEMICALS(
            "Read the safety data sheet of every chemical. Wear gloves and eye protection, ventilate the room, keep baths"
                    + " away from food and children, and dispose of them by local rules.");

    private static final Duration SHORT = Duration.ofMinutes(4);

    private final String text;

    Caution(String text) {
        this.text = text;
    }

    /**
     * Returns the caution in words.
     *
     * @return one or two sentences
     */
    public String description() {
        return text;
    }

    static List<Caution> of(Duration shortest, Scope scope) {
        List<Caution> cautions = new ArrayList<>();
        if (scope == Scope.EXTRAPOLATED) {
            cautions.add(EXTRAPOLATED);
        }
        if (shortest.compareTo(SHORT) < 0) {
            cautions.add(SHORT_TIME);
        }
        cautions.addAll(List.of(CONFIRM, SAME_CONDITIONS, CHEMICALS));
        return List.copyOf(cautions);
    }

    static String words(List<Caution> cautions) {
        return String.join("\n", cautions.stream().map(Caution::description).toList());
    }
}
