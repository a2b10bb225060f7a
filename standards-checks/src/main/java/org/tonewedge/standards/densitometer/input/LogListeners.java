// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.input;

import java.util.Objects;
import java.util.function.BooleanSupplier;

/** Two listeners as one, with a condition to stop. */
final class LogListeners implements LogListener {

    private final LogListener first;
    private final LogListener second;
    private final BooleanSupplier done;

    LogListeners(LogListener first, LogListener second, BooleanSupplier done) {
        this.first = first;
        this.second = Objects.requireNonNull(second, "next");
        this.done = Objects.requireNonNull(done, "done");
    }

    @Override
    public void accept(LogReading reading) {
        first.accept(reading);
        second.accept(reading);
    }

    @Override
    public void acceptImplausible(LogReading reading) {
        first.acceptImplausible(reading);
        second.acceptImplausible(reading);
    }

    @Override
    public void refuse(long line, LineKind kind, int step) {
        first.refuse(line, kind, step);
        second.refuse(line, kind, step);
    }

    @Override
    public boolean wantsMore() {
        return !done.getAsBoolean() && first.wantsMore() && second.wantsMore();
    }
}
