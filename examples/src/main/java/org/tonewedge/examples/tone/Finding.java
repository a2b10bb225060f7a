// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.tone;

import java.util.Optional;
import java.util.function.Function;
import java.util.function.Supplier;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.examples.page.Cell;

/**
 * A figure, or the reason why there is none.
 *
 * <p>Immutable and thread safe if the figure is.
 *
 * @param <T> the figure
 */
final class Finding<T> {

    private final T figure;
    private final String reason;

    private Finding(T figure, String reason) {
        this.figure = figure;
        this.reason = reason;
    }

    /** A figure, or the reason given by the exception that tells why it cannot be determined. */
    static <T> Finding<T> of(Supplier<T> figure) {
        try {
            return new Finding<>(figure.get(), "");
        } catch (NotDeterminableException e) {
            return missing(e.getMessage());
        }
    }

    /** A figure, or the reason where it is null. */
    static <T> Finding<T> ofNullable(T figure, String reason) {
        return figure == null ? missing(reason) : new Finding<>(figure, "");
    }

    static <T> Finding<T> missing(String reason) {
        return new Finding<>(null, reason);
    }

    Optional<T> figure() {
        return Optional.ofNullable(figure);
    }

    /** Why there is no figure; empty if there is one. */
    String reason() {
        return reason;
    }

    /** A figure that follows from this one; missing for the same reason. */
    <U> Finding<U> map(Function<T, U> next) {
        return figure == null ? missing(reason) : new Finding<>(next.apply(figure), "");
    }

    /** The cell of a figure; without one an empty cell with the reason. */
    Cell cell(Function<T, Cell> shown) {
        return figure == null ? Cell.missing(reason) : shown.apply(figure);
    }
}
