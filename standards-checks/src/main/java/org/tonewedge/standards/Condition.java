// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards;

import java.util.Objects;
import org.tonewedge.core.internal.Checks;

/**
 * A condition that a method sets for its own result, and whether it was met. An example is the contrast that ISO 6
 * requires of the strip from which a speed is read.
 *
 * @param requirement what the method asks for
 * @param found what was found
 * @param isMet whether the condition was met
 * @param remedy what to change so that it is met; empty if it was met
 */
public record Condition(String requirement, String found, boolean isMet, String remedy) {

    /**
     * Checks the texts.
     *
     * @param requirement what the method asks for
     * @param found what was found
     * @param isMet whether the condition was met
     * @param remedy what to change; empty exactly if the condition was met
     * @throws IllegalArgumentException if a text is blank, or a remedy is missing or not needed
     */
    public Condition {
        Objects.requireNonNull(found, "found");
        requirement = Checks.notBlank("requirement of a condition", requirement);
        found = Checks.notBlank("finding of a condition", found);
        if (isMet != remedy.isBlank()) {
            throw new IllegalArgumentException(
                    "a condition needs a remedy exactly if it was not met, had \"" + remedy + '"');
        }
    }

    /**
     * Returns a condition that was met.
     *
     * @param requirement what the method asks for
     * @param found what was found
     * @return the condition
     * @throws IllegalArgumentException if a text is blank
     */
    public static Condition met(String requirement, String found) {
        Objects.requireNonNull(found, "found");
        return new Condition(requirement, found, true, "");
    }

    /**
     * Returns a condition that was not met.
     *
     * @param requirement what the method asks for
     * @param found what was found
     * @param remedy what to change
     * @return the condition
     * @throws IllegalArgumentException if a text is blank
     */
    public static Condition notMet(String requirement, String found, String remedy) {
        Objects.requireNonNull(found, "found");
        return new Condition(requirement, found, false, remedy);
    }

    /**
     * Returns the condition in words.
     *
     * @return what was required, what was found and, if the condition was not met, what to change
     */
    @Override
    public String toString() {
        return requirement + ": " + found + (isMet ? "" : "; " + remedy);
    }
}
