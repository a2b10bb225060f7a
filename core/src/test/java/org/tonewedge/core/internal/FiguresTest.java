// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.internal;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.text.DecimalFormat;
import java.text.DecimalFormatSymbols;
import java.util.Locale;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/** Figures against the platform's decimal format, which rounds exact binary values half to even. */
class FiguresTest {

    private static final DecimalFormat PLAIN = format("0.00##");
    private static final DecimalFormat SIGNED = format("+0.00##;\u22120.00##");

    private static DecimalFormat format(String pattern) {
        DecimalFormatSymbols symbols = DecimalFormatSymbols.getInstance(Locale.ROOT);
        symbols.setMinusSign('\u2212');
        return new DecimalFormat(pattern, symbols);
    }

    @Test
    void oneThingIsCountedInTheSingular() {
        assertEquals("0 strips", Figures.counted(0, "strip"));
        assertEquals("1 strip", Figures.counted(1, "strip"));
        assertEquals("2 strips", Figures.counted(2, "strip"));
    }

    @Test
    @Tag("slow")
    void figuresAreThoseOfThePlatform() {
        Random random = new Random(1);
        for (int i = 0; i < 100_000; i++) {
            checkOne(i, random);
        }
    }

    private static void checkOne(int i, Random random) {
        double size = Math.pow(10, random.nextInt(12) - 5);
        // Every third has few decimals, so that ties of the fifth come up.
        double value = (random.nextDouble() - 0.5) * size;
        check(i % 3 == 0 ? Math.rint(value * 1e5) / 1e5 : value);
    }

    /** Values at the limits of the forms, and two thousand of those above. */
    @Test
    void figuresAtTheLimitsAreThoseOfThePlatform() {
        Random random = new Random(2);
        for (int i = 0; i < 2000; i++) {
            checkOne(i, random);
        }
        for (double value : new double[] {
            0,
            -0.0,
            5e-5,
            -5e-5,
            4.999e-5,
            0.5,
            1,
            99_999.999_95,
            1e5,
            99_999.999_949_999,
            1e15,
            1.5e300,
            0.10005,
            2.00015
        }) {
            check(value);
            check(-value);
        }
    }

    private static void check(double value) {
        assertEquals(normal(PLAIN.format(value)), Figures.plain(value), () -> "plain " + value);
        assertEquals(normal(SIGNED.format(value)), Figures.signed(value), () -> "signed " + value);
    }

    /** No sign belongs to a zero. */
    private static String normal(String text) {
        return text.equals("\u22120.00") || text.equals("+0.00") ? "0.00" : text;
    }
}
