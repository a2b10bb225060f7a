package org.tonewedge.standards.densitometer.summary;

import java.util.OptionalDouble;
import org.tonewedge.standards.densitometer.input.RawCounts;

/**
 * A fault in a firmware's computation of density from counts, told by what the printed densities are when computed anew.
 *
 * <p>With the net counts s = S − k of the sample and o = O − k<sub>O</sub> of the open gate, and r = g t the ratio of gains
 * and times, the right density is log<sub>10</sub> (o r / s).
 */
public enum ArithmeticFault {

    /** ln instead of log<sub>10</sub>: the density is 2.303 times too large. */
    NATURAL_LOGARITHM("the natural logarithm is used", "use log10, or divide by ln 10 = 2.302585") {
        @Override
        double formula(RawCounts counts) {
            return Math.log(10) * counts.density();
        }
    },

    /** log<sub>2</sub> instead of log<sub>10</sub>: the density is 3.322 times too large. */
    BINARY_LOGARITHM("the logarithm to base 2 is used", "use log10, or multiply by log10(2) = 0.301030") {
        @Override
        double formula(RawCounts counts) {
            return counts.density() / Math.log10(2);
        }
    },

    /** The logarithm of the transmittance without its minus sign. */
    SIGN_REVERSED(
            "the sign is reversed", "density is the logarithm of open gate over sample, not of sample over open gate") {
        @Override
        double formula(RawCounts counts) {
            return -counts.density();
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
        double formula(RawCounts counts) {
            return 2 - Math.log10(Math.floor(100 * Math.pow(10, -counts.density())));
        }
    },

    /** The whole part of the density. */
    WHOLE_DENSITY("the density is cut to a whole number", "keep the density as float") {
        @Override
        double formula(RawCounts counts) {
            double density = counts.density();
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

    /** The right density, its last decimals cut off instead of rounded. */
    DECIMALS_CUT_OFF("the last decimal is cut off, not rounded", "add half a unit of the last decimal before cutting"),

    /** The right density up to a highest one, which is printed for all denser samples. */
    RANGE_CLIPPED("densities above a limit are printed as the limit", "print an overrange marker instead"),

    /** The right density but for less than 1 % of the readings. */
    STRAY_READINGS("a few readings differ from their counts", "look for lines damaged on their way, or for a race"),

    /** None of the above. */
    UNEXPLAINED(
            "the printed densities do not follow from the counts in any way that is known here",
            "test the computation with golden vectors of counts and density");

    private final String words;
    private final String remedy;

    ArithmeticFault(String words, String remedy) {
        this.words = words;
        this.remedy = remedy;
    }

    private static double ratio(RawCounts counts) {
        return counts.gainRatio() * counts.timeRatio();
    }

    /** What a firmware with this fault prints before rounding; NaN where it has no formula or the formula no value. */
    double formula(RawCounts counts) {
        return Double.NaN;
    }

    /**
     * Returns what a firmware with this fault prints before rounding.
     *
     * @param counts what was counted
     * @return the number it prints, which may be infinite; nothing where the fault has no formula of its own
     */
    public OptionalDouble printed(RawCounts counts) {
        double printed = formula(counts);
        return Double.isNaN(printed) ? OptionalDouble.empty() : OptionalDouble.of(printed);
    }

    /**
     * Returns the fault in words.
     *
     * @return for example {@code the natural logarithm is used}
     */
    public String words() {
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
