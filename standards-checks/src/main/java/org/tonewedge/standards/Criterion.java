// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards;

import org.tonewedge.core.internal.Checks;

/**
 * A published rule, such as the speed point of ISO 6:1993: its name and its source.
 *
 * @param name the rule in words
 * @param source the standard with clause and year, or the paper; with a remark if the clause itself was not read
 */
public record Criterion(String name, String source) {

    /**
     * Checks both texts.
     *
     * @param name the rule in words
     * @param source where it is written
     * @throws IllegalArgumentException if a text is blank
     */
    public Criterion {
        name = Checks.notBlank("name of a criterion", name);
        source = Checks.notBlank("source of a criterion", source);
    }

    /**
     * Returns the rule with its source.
     *
     * @return name and source
     */
    @Override
    public String toString() {
        return name + " (" + source + ")";
    }
}
