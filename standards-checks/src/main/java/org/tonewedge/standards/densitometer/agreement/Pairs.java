// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.agreement;

import java.util.Comparator;
import java.util.stream.IntStream;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.standards.densitometer.summary.ArithmeticFault;

/** Checks of paired readings. */
final class Pairs {

    private Pairs() {}

    static void check(double[] first, double[] second, int fewest) {
        if (first.length != second.length) {
            throw new IllegalArgumentException(
                    "each sample needs a reading of both instruments, were " + first.length + " and " + second.length);
        }
        if (first.length < fewest) {
            throw new IllegalArgumentException(
                    "there must be " + fewest + " samples or more, were " + first.length + "; read more steps");
        }
        for (int i = 0; i < first.length; i++) {
            Checks.finite("first instrument's reading of sample " + (i + 1), first[i]);
            Checks.finite("second instrument's reading of sample " + (i + 1), second[i]);
        }
        checkUnit("second", second, "first", first);
        checkUnit("first", first, "second", second);
    }

    private static void checkUnit(String name, double[] printed, String other, double[] densities) {
        ArithmeticFault.ofUnit(densities, printed).ifPresent(fault -> {
            int furthest = IntStream.range(0, printed.length)
                    .boxed()
                    .max(Comparator.comparingDouble(i -> Math.abs(printed[i] - densities[i])))
                    .orElseThrow();
            throw new IllegalArgumentException(name + " instrument's reading of sample " + (furthest + 1) + " is "
                    + Figures.plain(printed[furthest]) + ", the " + other + " instrument's "
                    + Figures.plain(densities[furthest]) + ": " + fault.suspicion() + "; " + fault.remedy());
        });
    }

    static double mean(double[] values) {
        double sum = 0;
        for (double value : values) {
            sum += value;
        }
        return sum / values.length;
    }
}
