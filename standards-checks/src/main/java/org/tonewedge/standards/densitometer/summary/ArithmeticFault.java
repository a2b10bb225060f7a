// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.summary;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.tonewedge.standards.densitometer.input.RawCounts;

/**
 * A fault in a firmware's computation of density from counts. It is recognised by comparing the printed densities with
 * recomputed ones.
 *
 * <p>With the net counts s = S − k of the sample and o = O − k<sub>O</sub> of the open gate, and r = g t the ratio of
 * gains and times, the correct density is log<sub>10</sub> (o r / s).
 */
public enum ArithmeticFault {

    /** ln instead of log<sub>10</sub>: the density is 2.303 times too large. */
    NATURAL_LOGARITHM("the natural logarithm is used", "use log10, or divide by ln 10 = 2.302585") {
        @Override
        double ofDensity(double density) {
            return Math.log(10) * density;
        }
    },

    /** log<sub>2</sub> instead of log<sub>10</sub>: the density is 3.322 times too large. */
    BINARY_LOGARITHM("the logarithm to base 2 is used", "use log10, or multiply by log10(2) = 0.301030") {
        @Override
        double ofDensity(double density) {
            return density / Math.log10(2);
        }
    },

    /** The logarithm of the transmittance without its minus sign. */
    SIGN_REVERSED(
            "the sign is reversed", "density is the logarithm of open gate over sample, not of sample over open gate") {
        @Override
        double ofDensity(double density) {
            return -density;
        }
    },

    /** log<sub>10</sub> (O r / S): no dark counts are subtracted. */
    DARK_NOT_SUBTRACTED("the dark counts are not subtracted", "subtract the dark counts from sample and open gate") {
        @Override
        double formula(RawCounts counts) {
            return Math.log10(counts.openGate() * ratio(counts) / counts.sample());
        }
    },

    /** log<sub>10</sub> (o r / S): the dark counts are subtracted from the open gate alone. */
    DARK_NOT_SUBTRACTED_FROM_SAMPLE(
            "the dark counts are not subtracted from the sample", "subtract the dark counts from the sample too") {
        @Override
        double formula(RawCounts counts) {
            return Math.log10((counts.openGate() - counts.openGateDark()) * ratio(counts) / counts.sample());
        }
    },

    /** log<sub>10</sub> (O r / s): the dark counts are subtracted from the sample alone. */
    DARK_NOT_SUBTRACTED_FROM_OPEN_GATE(
            "the dark counts are not subtracted from the open gate",
            "subtract the dark counts from the open gate too") {
        @Override
        double formula(RawCounts counts) {
            return Math.log10(counts.openGate() * ratio(counts) / (counts.sample() - counts.dark()));
        }
    },

    /** log<sub>10</sub> of the whole part of o r / s. */
    INTEGER_DIVISION("open gate is divided by sample as whole numbers", "convert the counts to float before dividing") {
        @Override
        double formula(RawCounts counts) {
            return Math.log10(Math.floor(
                    (counts.openGate() - counts.openGateDark()) * ratio(counts) / (counts.sample() - counts.dark())));
        }
    },

    /** 2 − log<sub>10</sub> of the whole part of the transmittance in per cent. */
    WHOLE_PERCENT(
            "the transmittance is cut to whole per cent before the logarithm", "keep the transmittance as float") {
        @Override
        double ofDensity(double density) {
            return 2 - Math.log10(Math.floor(100 * Math.pow(10, -density)));
        }
    },

    /** The whole part of the density. */
    WHOLE_DENSITY("the density is cut to a whole number", "keep the density as float") {
        @Override
        double ofDensity(double density) {
            return density < 0 ? Math.ceil(density) : Math.floor(density);
        }
    },

    /** log<sub>10</sub> (o t / s): the gains are left out. */
    GAIN_IGNORED("the gain is left out", "divide the net counts by their gain") {
        @Override
        double formula(RawCounts counts) {
            return counts.density() - Math.log10(counts.gainRatio());
        }
    },

    /** log<sub>10</sub> (o g / s): the integration times are left out. */
    INTEGRATION_TIME_IGNORED("the integration time is left out", "divide the net counts by their integration time") {
        @Override
        double formula(RawCounts counts) {
            return counts.density() - Math.log10(counts.timeRatio());
        }
    },

    /** log<sub>10</sub> (o / s): gains and integration times are left out. */
    GAIN_AND_TIME_IGNORED(
            "gain and integration time are left out", "divide the net counts by their gain and integration time") {
        @Override
        double formula(RawCounts counts) {
            return counts.density() - Math.log10(ratio(counts));
        }
    },

    /** The transmittance in per cent, 100 · 10<sup>−D</sup>. */
    PERCENT_TRANSMITTANCE("the transmittance in per cent is printed for the density", "print 2 - log10 of it") {
        @Override
        double ofDensity(double density) {
            return 100 * Math.pow(10, -density);
        }
    },

    /** The transmittance, 10<sup>−D</sup>. */
    TRANSMITTANCE("the transmittance is printed for the density", "print -log10 of it") {
        @Override
        double ofDensity(double density) {
            return Math.pow(10, -density);
        }
    },

    /** The opacity, 10<sup>D</sup>. */
    OPACITY("the opacity is printed for the density", "print log10 of it") {
        @Override
        double ofDensity(double density) {
            return Math.pow(10, density);
        }
    },

    /** A hundred times the density. */
    TIMES_HUNDRED("the density times 100 is printed", "divide by 100, or move the decimal point") {
        @Override
        double ofDensity(double density) {
            return 100 * density;
        }
    },

    /** A thousand times the density. */
    TIMES_THOUSAND("the density times 1000 is printed", "divide by 1000, or move the decimal point") {
        @Override
        double ofDensity(double density) {
            return 1000 * density;
        }
    },

    /** The absolute value of the density, without its sign. */
    SIGN_LOST("the sign of negative densities is lost", "print the sign; %d.%d loses it between -1 and 0") {
        @Override
        double ofDensity(double density) {
            return Math.abs(density);
        }
    },

    /** Two decimals printed as a whole number without a leading zero, so that 1.05 becomes 1.5. */
    DECIMALS_NOT_PADDED("decimals are printed without leading zeros (1.5 for 1.05)", "print them as %d.%02d") {
        @Override
        double ofDensity(double density) {
            return withoutZeros(density, 100);
        }
    },

    /** Three decimals printed as a whole number without leading zeros, so that 1.005 becomes 1.5. */
    THREE_DECIMALS_NOT_PADDED("decimals are printed without leading zeros (1.5 for 1.005)", "print them as %d.%03d") {
        @Override
        double ofDensity(double density) {
            return withoutZeros(density, 1000);
        }
    },

    /** Hundredths of density stored in 8 bits. */
    OVERFLOW_8_BIT("hundredths of density overflow 8 bits, so that 2.56 becomes 0", "keep them in 16 bits or more") {
        @Override
        double ofDensity(double density) {
            return Math.floorMod(Math.round(100 * density), 256) / 100.0;
        }
    },

    /** Hundredths of density stored in 8 bits with a sign. */
    OVERFLOW_SIGNED_8_BIT(
            "hundredths of density overflow 8 bits with a sign, so that 1.28 becomes -1.28",
            "keep them in 16 bits or more") {
        @Override
        double ofDensity(double density) {
            return (byte) Math.round(100 * density) / 100.0;
        }
    },

    /** Ten-thousandths of density stored in 16 bits with a sign. */
    OVERFLOW_SIGNED_16_BIT(
            "ten-thousandths of density overflow 16 bits with a sign, so that 3.2768 becomes -3.2768",
            "keep them in 32 bits") {
        @Override
        double ofDensity(double density) {
            return (short) Math.round(10_000 * density) / 10_000.0;
        }
    },

    /** o r stored in 16 bits before it is divided by s. */
    OVERFLOW_16_BIT("open gate times gain and time overflows 16 bits", "compute in 32 bits or in float") {
        @Override
        double formula(RawCounts counts) {
            double product = (counts.openGate() - counts.openGateDark()) * ratio(counts);
            return Math.log10(Math.floorMod(Math.round(product), 65_536) / (counts.sample() - counts.dark()));
        }
    },

    /** log<sub>10</sub> (o r / (S − k<sub>O</sub>)): the dark counts of the open gate are subtracted from the sample. */
    DARK_OF_OTHER_GAIN(
            "the dark counts of the open gate's gain are subtracted from the sample",
            "read the dark at the gain and time of the sample") {
        @Override
        double formula(RawCounts counts) {
            return Math.log10((counts.openGate() - counts.openGateDark())
                    * ratio(counts)
                    / (counts.sample() - counts.openGateDark()));
        }
    },

    /** log<sub>10</sub> ((O − 2 k<sub>O</sub>) r / (S − 2 k)). */
    DARK_SUBTRACTED_TWICE("the dark counts are subtracted twice", "subtract them once") {
        @Override
        double formula(RawCounts counts) {
            return Math.log10((counts.openGate() - 2 * counts.openGateDark())
                    * ratio(counts)
                    / (counts.sample() - 2 * counts.dark()));
        }
    },

    /** log<sub>10</sub> (o r / (S − 2 k)). */
    DARK_SUBTRACTED_TWICE_FROM_SAMPLE("the dark counts are subtracted twice from the sample", "subtract them once") {
        @Override
        double formula(RawCounts counts) {
            return Math.log10((counts.openGate() - counts.openGateDark())
                    * ratio(counts)
                    / (counts.sample() - 2 * counts.dark()));
        }
    },

    /** The ratio of gains differs from the one in the log, by the same factor in all readings at one gain. */
    GAIN_TABLE_WRONG(
            "the firmware computes with gains that differ from those in the log",
            "correct the table of gains in the firmware"),

    /** The correct density with its last decimals cut off instead of rounded. */
    DECIMALS_CUT_OFF("the last decimal is cut off, not rounded", "add half a unit of the last decimal before cutting"),

    /** The correct density up to a limit, which is printed for all denser samples. */
    RANGE_CLIPPED("densities above a limit are printed as the limit", "print an overrange marker instead"),

    /** The correct density except for less than 1 % of the readings. */
    STRAY_READINGS(
            "a few readings differ from their counts",
            "look for lines damaged in transmission, or for a race condition"),

    /** None of the above. */
    UNEXPLAINED(
            "the printed densities do not follow from the counts in any known way",
            "test the computation with golden vectors of counts and density");

    /** The faults by which every number is in another unit. */
    private static final List<ArithmeticFault> OF_UNIT =
            List.of(PERCENT_TRANSMITTANCE, TRANSMITTANCE, OPACITY, TIMES_HUNDRED, TIMES_THOUSAND);

    /** Instruments that both print densities differ by less than this times 1 + D. */
    private static final double SOUND = 0.2;

    private static final double MOST = 0.9;
    private static final double FINEST_UNIT = 1e-6;

    private final String words;
    private final String remedy;

    ArithmeticFault(String words, String remedy) {
        this.words = words;
        this.remedy = remedy;
    }

    private static double ratio(RawCounts counts) {
        return counts.gainRatio() * counts.timeRatio();
    }

    private static double withoutZeros(double density, int units) {
        long rounded = Math.round(Math.abs(density) * units);
        long decimals = rounded % units;
        int digits = Long.toString(decimals).length();
        return Math.signum(density) * (Math.floorDiv(rounded, units) + decimals / Math.pow(10, digits));
    }

    /**
     * The number that a firmware with this fault prints, before rounding; NaN if the fault has no formula or the
     * formula no value.
     */
    double formula(RawCounts counts) {
        return ofDensity(counts.density());
    }

    /** The number printed for a density, before rounding; NaN if the fault depends on more than the density. */
    double ofDensity(double density) {
        return Double.NaN;
    }

    /** Whether the fault has a formula at all; where the formula has no value, the firmware may print anything. */
    boolean hasFormula() {
        return switch (this) {
            case GAIN_TABLE_WRONG, DECIMALS_CUT_OFF, RANGE_CLIPPED, STRAY_READINGS, UNEXPLAINED -> false;
            default -> true;
        };
    }

    /**
     * Returns the number that a firmware with this fault prints for a density, before rounding.
     *
     * @param density the correct density
     * @return the number it prints, which may be infinite; empty if that depends on more than the density
     */
    public OptionalDouble printed(double density) {
        return known(ofDensity(density));
    }

    /**
     * Returns the number that a firmware with this fault prints, before rounding.
     *
     * @param counts what was counted
     * @return the number it prints, which may be infinite; empty if the fault has no formula
     */
    public OptionalDouble printed(RawCounts counts) {
        return known(formula(counts));
    }

    private static OptionalDouble known(double printed) {
        return Double.isNaN(printed) ? OptionalDouble.empty() : OptionalDouble.of(printed);
    }

    /**
     * Finds the wrong unit of the numbers that one of two instruments printed: by {@link #ofUnit(double[], double[],
     * double) ofUnit} with 0.2 for each unit of 1 + D, by which instruments may differ that both print densities.
     *
     * @param densities the densities by one instrument, or a certificate
     * @param printed the numbers of the other, in the same order
     * @return the wrong unit; empty if the numbers are densities, or nothing can be told
     * @throws IllegalArgumentException if there are not as many numbers as densities
     */
    public static Optional<ArithmeticFault> ofUnit(double[] densities, double[] printed) {
        return ofUnit(densities, printed, SOUND);
    }

    /**
     * Finds the wrong unit of printed numbers, such as transmittance, from the densities of the same samples by another
     * instrument or a certificate.
     *
     * <p>A unit is named if it explains nine of ten numbers to within {@code allowed} (1 + D) and no more than half of
     * them are densities to within 0.2 (1 + D). Numbers that are printed too coarsely to tell, 0 among them, are left
     * out; they must be fewer than half. Numbers that are all equal tell no unit, but for a single one. The limits are the project's own.
     *
     * @param densities the densities
     * @param printed the numbers printed for them, in the same order
     * @param allowed how far the instruments may differ, for each unit of 1 + D
     * @return the wrong unit; empty if the numbers are densities, or nothing can be told
     * @throws IllegalArgumentException if there are not as many numbers as densities
     */
    public static Optional<ArithmeticFault> ofUnit(double[] densities, double[] printed, double allowed) {
        if (densities.length != printed.length) {
            throw new IllegalArgumentException(
                    "each density needs a printed number, were " + densities.length + " and " + printed.length);
        }
        double unit = unit(printed);
        double rounding = (unit + unit(densities)) / 2;
        int sound = 0;
        for (int i = 0; i < printed.length; i++) {
            sound += Math.abs(printed[i] - densities[i]) <= SOUND * (1 + Math.abs(densities[i])) + rounding ? 1 : 0;
        }
        boolean isDensity = 2 * sound > printed.length;
        boolean isStuck =
                printed.length > 1 && Arrays.stream(printed).distinct().count() == 1;
        return OF_UNIT.stream()
                .filter(fault -> !isDensity && !isStuck && fault.explains(densities, printed, allowed, unit))
                .findFirst();
    }

    private boolean explains(double[] densities, double[] printed, double allowed, double unit) {
        int fine = 0;
        int explained = 0;
        for (int i = 0; i < printed.length; i++) {
            double off = allowed * (1 + Math.abs(densities[i]));
            double one = ofDensity(densities[i] - off);
            double other = ofDensity(densities[i] + off);
            double lowest = Math.min(one, other) - unit / 2;
            double highest = Math.max(one, other) + unit / 2;
            if (Math.abs(one - other) > unit && printed[i] != 0) {
                fine++;
                explained += printed[i] >= lowest && printed[i] <= highest ? 1 : 0;
            }
        }
        return 2 * fine > printed.length && explained >= MOST * fine;
    }

    /** The last decimal of printed numbers, 1 at most. */
    private static double unit(double... printed) {
        double unit = 1;
        for (double value : printed) {
            while (unit > FINEST_UNIT && Math.abs(value / unit - Math.rint(value / unit)) > FINEST_UNIT) {
                unit /= 10;
            }
        }
        return unit;
    }

    /**
     * Returns the suspicion that the fault is behind printed numbers, in words.
     *
     * @return for example {@code the printed numbers are those of a firmware in which the transmittance is printed for the
     *     density (TRANSMITTANCE)}
     */
    public String suspicion() {
        return "the printed numbers are those of a firmware in which " + words + " (" + this + ")";
    }

    /**
     * Returns the fault in words.
     *
     * @return for example {@code the natural logarithm is used}
     */
    public String description() {
        return words;
    }

    /**
     * Returns what to do about it.
     *
     * @return the remedy in words
     */
    public String remedy() {
        return remedy;
    }
}
