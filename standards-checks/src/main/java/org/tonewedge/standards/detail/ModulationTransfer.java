// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.detail;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Random;
import java.util.function.DoubleBinaryOperator;
import java.util.function.IntFunction;
import java.util.function.Supplier;
import java.util.function.ToDoubleFunction;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.curve.NotDeterminableException.Reason;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.Recorded;
import org.tonewedge.core.quantity.ResultRecord;

/**
 * The modulation transfer function (MTF) of a film, a lens, a scanner or a chain of them: the fraction of the
 * modulation of a fine sinusoidal pattern that it transmits, as a function of spatial frequency, such as 0.5 at 42
 * cycles per millimetre.
 *
 * <p>Between the given frequencies it is interpolated linearly. In addition to the values it contains equally likely
 * alternatives from the bootstrap of the measurement. Their standard deviation is the standard uncertainty of
 * everything that is read off the function; that of a frequency is the deviation of the modulation there over its slope.
 *
 * <p>The functions of successive steps are multiplied, {@link #times times}; a step is removed by division,
 * {@link #dividedBy dividedBy}.
 *
 * <p>Immutable and thread safe.
 *
 * @units cycles per millimetre for frequencies; modulation is a ratio
 * @source definition: ISO 12233:2014, 6.2.5 (as quoted on a page of a standards dealer) for the edge method; product of
 *     the steps: convolution theorem
 */
public final class ModulationTransfer implements Recorded {

    private static final int ALTERNATIVES = 200;
    /** The fraction of the alternatives that may miss a crossing before it counts as not determined. */
    private static final double MOST_MISSED = 0.025;
    /** How uncertain a modulation and its frequency may be, as a part of themselves, to count as determined. */
    private static final double MOST_UNCERTAIN = 0.25;
    /** A rise by less counts as rounding. */
    private static final double RISE = 0.005;

    private static final double SIGNIFICANT = 3;
    private static final double ABOVE = 1.4;
    private static final double BELOW = 0.6;

    private final double[] frequencies;
    private final double[] modulations;
    /** One row for each alternative; none if the values are exact. */
    private final double[][] alternatives;
    /** Those of the standard uncertainties. */
    private final double degreesOfFreedom;

    private ModulationTransfer(
            double[] frequencies, double[] modulations, double[][] alternatives, double degreesOfFreedom) {
        this.frequencies = frequencies;
        this.modulations = modulations;
        this.alternatives = alternatives;
        this.degreesOfFreedom = degreesOfFreedom;
    }

    /** Takes over the arrays of a measurement of so many independent parts. */
    static ModulationTransfer measured(double[] frequencies, double[] modulations, double[][] alternatives, int parts) {
        // Both the parts and the drawings are samples: their relative variances 2/n add.
        double degrees = 1 / (1.0 / Math.max(1, parts - 1) + 1.0 / (alternatives.length - 1));
        return new ModulationTransfer(frequencies, modulations, alternatives, degrees);
    }

    /**
     * Returns a modulation transfer from a table of values that count as exact, such as those of a data sheet.
     *
     * @param frequencies two or more frequencies in rising order, 0 or above, in cycles per millimetre
     * @param modulations the modulation at each frequency, 0 or above
     * @return the modulation transfer
     * @throws IllegalArgumentException if the arrays differ in length, there are fewer than two frequencies, they do not
     *     rise, or a value is negative or not finite
     */
    public static ModulationTransfer of(double[] frequencies, double[] modulations) {
        Objects.requireNonNull(modulations, "modulations");
        check(frequencies, modulations);
        return new ModulationTransfer(
                frequencies.clone(), modulations.clone(), new double[0][], Double.POSITIVE_INFINITY);
    }

    /**
     * Returns a modulation transfer from a table of values with independent standard uncertainties.
     *
     * @param frequencies two or more frequencies in rising order, 0 or above, in cycles per millimetre
     * @param modulations the modulation at each frequency, 0 or above
     * @param standardUncertainties the standard uncertainty of each modulation, 0 or above
     * @return the modulation transfer
     * @throws IllegalArgumentException if the arrays differ in length, there are fewer than two frequencies, they do not
     *     rise, or a value is negative or not finite
     */
    public static ModulationTransfer of(double[] frequencies, double[] modulations, double[] standardUncertainties) {
        Objects.requireNonNull(modulations, "modulations");
        Objects.requireNonNull(standardUncertainties, "standardUncertainties");
        check(frequencies, modulations);
        check(frequencies, standardUncertainties);
        Random random = new Random(1);
        double[][] alternatives = new double[ALTERNATIVES][frequencies.length];
        for (double[] alternative : alternatives) {
            for (int i = 0; i < alternative.length; i++) {
                alternative[i] = modulations[i] + standardUncertainties[i] * random.nextGaussian();
            }
        }
        return new ModulationTransfer(frequencies.clone(), modulations.clone(), alternatives, ALTERNATIVES - 1);
    }

    private static void check(double[] frequencies, double[] values) {
        if (frequencies.length != values.length || frequencies.length < 2) {
            throw new IllegalArgumentException(
                    "a modulation transfer needs two or more frequencies with one value each," + " were "
                            + frequencies.length + " and " + values.length);
        }
        for (int i = 0; i < frequencies.length; i++) {
            Checks.within("frequency in cycles per millimetre", frequencies[i], 0, 1e6, "");
            Checks.within(
                    "modulation at " + Figures.plain(frequencies[i]) + " cycles per millimetre", values[i], 0, 10, "");
            if (i > 0 && !(frequencies[i] > frequencies[i - 1])) {
                throw new IllegalArgumentException("frequencies must rise, was " + frequencies[i] + " after "
                        + frequencies[i - 1] + "; sort the table");
            }
        }
    }

    /**
     * Returns the lowest frequency.
     *
     * @return cycles per millimetre
     */
    public double lowestFrequency() {
        return frequencies[0];
    }

    /**
     * Returns the highest frequency.
     *
     * @return cycles per millimetre
     */
    public double highestFrequency() {
        return frequencies[frequencies.length - 1];
    }

    /**
     * Returns the frequencies at which the function is known, for plotting.
     *
     * @return a copy, rising, in cycles per millimetre
     */
    public double[] frequencies() {
        return frequencies.clone();
    }

    /**
     * Returns the modulation at a frequency.
     *
     * @param frequency the frequency in cycles per millimetre, within the known range
     * @return the modulation; its uncertainty is 0 if the values are exact
     * @throws IllegalArgumentException if the frequency lies outside the known range
     */
    public Estimate at(double frequency) {
        Checks.within(
                "frequency in cycles per millimetre",
                frequency,
                lowestFrequency(),
                highestFrequency(),
                "the function is not known beyond");
        return estimate(values -> interpolated(values, frequency));
    }

    /**
     * Returns the lowest frequency at which the modulation falls to a stated value. If noise makes the values go up and
     * down, the falling function closest to them by least squares is used, up to the first rise that is not noise.
     *
     * @param modulation the modulation, above 0
     * @return the frequency in cycles per millimetre
     * @throws IllegalArgumentException if the modulation is not above 0
     * @throws NotDeterminableException if the function, or more than one in forty of its alternatives, does not fall to it
     *     within the frequencies known, or the modulation or the frequency is uncertain by more than a quarter of itself
     * @source pool-adjacent-violators algorithm for isotonic regression: common practice, no source
     */
    public Estimate frequencyAt(double modulation) {
        Checks.positive("modulation", modulation);
        double[] deviations = deviations();
        int start = startOfFall(deviations);
        int end = endOfFall(deviations, start);
        double value = crossing(falling(modulations, start, end), modulation);
        if (Double.isNaN(value)) {
            throw new NotDeterminableException(
                    Reason.UNSUITABLE_IMAGE,
                    "the modulation does not fall to " + Figures.plain(modulation) + " between "
                            + shown(lowestFrequency()) + " and " + shown(highestFrequency())
                            + " cycles per millimetre; scan finer, or ask for a higher modulation");
        }
        if (alternatives.length == 0) {
            return Estimate.of(value, 0);
        }
        double uncertainty = interpolated(deviations, value);
        double ofFrequency = uncertainty / steepness(modulation, start, end);
        long missed = Arrays.stream(alternatives)
                .filter(values -> Double.isNaN(crossing(falling(values, start, end), modulation)))
                .count();
        if (missed > MOST_MISSED * alternatives.length
                || uncertainty > MOST_UNCERTAIN * modulation
                || ofFrequency > MOST_UNCERTAIN * value) {
            throw new NotDeterminableException(
                    Reason.UNSUITABLE_IMAGE,
                    "where the modulation falls to " + Figures.plain(modulation)
                            + " is lost in noise: at " + shown(value) + " cycles per millimetre it is uncertain by "
                            + shown(uncertainty) + "; take a longer or cleaner edge");
        }
        return Estimate.of(value, ofFrequency, degreesOfFreedom);
    }

    /**
     * How fast the function falls about a modulation: the line through its values from the last above {@value #ABOVE} times
     * the modulation to the first below {@value #BELOW} times, over four frequencies at least.
     */
    private double steepness(double modulation, int start, int end) {
        double[] falling = falling(modulations, start, end);
        int first = 0;
        int last = 0;
        for (int i = 0; i <= end; i++) {
            first = falling[i] >= ABOVE * modulation ? i : first;
            last = falling[i] >= BELOW * modulation ? i : last;
        }
        last = Math.min(end, Math.max(last + 1, first + 3));
        first = Math.max(0, Math.min(first, last - 3));
        double count = last - first + 1.0;
        double x = 0;
        double y = 0;
        for (int i = first; i <= last; i++) {
            x += frequencies[i] / count;
            y += modulations[i] / count;
        }
        double squares = 0;
        double products = 0;
        for (int i = first; i <= last; i++) {
            squares += (frequencies[i] - x) * (frequencies[i] - x);
            products += (frequencies[i] - x) * (modulations[i] - y);
        }
        if (!(products < 0)) {
            throw new NotDeterminableException(
                    Reason.UNSUITABLE_IMAGE,
                    "the modulation does not fall where it passes " + Figures.plain(modulation)
                            + "; take a longer or cleaner edge");
        }
        return -products / squares;
    }

    /**
     * Returns the frequency at which half of the modulation remains.
     *
     * @return the frequency in cycles per millimetre
     * @throws NotDeterminableException as {@link #frequencyAt} does
     */
    public Estimate mtf50() {
        return frequencyAt(0.5);
    }

    /**
     * Returns the frequency at which a tenth of the modulation remains.
     *
     * @return the frequency in cycles per millimetre
     * @throws NotDeterminableException as {@link #frequencyAt} does
     */
    public Estimate mtf10() {
        return frequencyAt(0.1);
    }

    /**
     * Returns the modulation transfer of this step followed by another, over the frequencies that both know.
     *
     * @param other the other step, with frequencies in the same plane
     * @return the product
     * @throws IllegalArgumentException if fewer than two frequencies of this step lie within those of the other
     */
    public ModulationTransfer times(ModulationTransfer other) {
        return combined(other, highestFrequency(), (a, b) -> a * b);
    }

    /**
     * Removes another step, such as the scanner from film and scanner. The result ends where the removed step transmits
     * less than a stated floor, because noise is divided by it too.
     *
     * <p>Both functions must be of one quantity. A scanner blurs transmittance: divided out of an edge in exposure or density
     * it leaves the film too sharp at edges of high contrast. {@link EdgeResponse#modulationTransferWithout EdgeResponse.modulationTransferWithout} is right for every
     * quantity.
     *
     * @param other the step to remove, with frequencies in the same plane
     * @param floor the least modulation of that step to divide by, above 0 and at most 1, such as 0.1
     * @return the quotient
     * @throws IllegalArgumentException if the floor is out of range, or fewer than two frequencies are left
     * @source convolution theorem
     */
    public ModulationTransfer dividedBy(ModulationTransfer other, double floor) {
        Checks.within("floor", floor, Double.MIN_VALUE, 1, "");
        double end = other.lowestFrequency();
        for (int i = 0; i < other.frequencies.length && other.modulations[i] >= floor; i++) {
            end = other.frequencies[i];
        }
        return combined(other, end, (a, b) -> a / b);
    }

    private ModulationTransfer combined(ModulationTransfer other, double highest, DoubleBinaryOperator combine) {
        double[] common = Arrays.stream(frequencies)
                .filter(f -> f >= other.lowestFrequency() && f <= other.highestFrequency() && f <= highest)
                .toArray();
        if (common.length < 2) {
            throw new IllegalArgumentException(
                    "the two functions share too few frequencies: " + this + " and " + other);
        }
        int count = Math.max(alternatives.length, other.alternatives.length);
        double[][] drawn = new double[count][];
        for (int b = 0; b < count; b++) {
            // The next one of the other: two edges read with one seed were drawn with the same factors.
            drawn[b] = combined(common, alternative(b), other, other.alternative(b + 1), combine);
        }
        return new ModulationTransfer(
                common,
                combined(common, modulations, other, other.modulations, combine),
                drawn,
                Math.min(degreesOfFreedom, other.degreesOfFreedom));
    }

    private double[] combined(
            double[] common,
            double[] values,
            ModulationTransfer other,
            double[] otherValues,
            DoubleBinaryOperator combine) {
        return Arrays.stream(common)
                .map(f -> combine.applyAsDouble(interpolated(values, f), other.interpolated(otherValues, f)))
                .toArray();
    }

    private double[] alternative(int b) {
        return alternatives.length == 0 ? modulations : alternatives[b % alternatives.length];
    }

    /**
     * Returns this function in a plane at another scale: in a print enlarged tenfold, 50 cycles per millimetre on the
     * film become 5 on the paper.
     *
     * @param magnification lengths in that plane divided by lengths here, above 0
     * @return the function of frequencies in that plane
     * @throws IllegalArgumentException if the magnification is not above 0
     */
    public ModulationTransfer magnified(double magnification) {
        Checks.positive("magnification", magnification);
        return new ModulationTransfer(
                Arrays.stream(frequencies).map(f -> f / magnification).toArray(),
                modulations,
                alternatives,
                degreesOfFreedom);
    }

    /** This function and its alternatives, each times its own factor for each frequency. */
    ModulationTransfer scaled(double[] factors, IntFunction<double[]> ofAlternative) {
        double[][] drawn = new double[alternatives.length][];
        Arrays.setAll(drawn, b -> product(alternatives[b], ofAlternative.apply(b)));
        return new ModulationTransfer(frequencies, product(modulations, factors), drawn, degreesOfFreedom);
    }

    /** An alternative at other frequencies. */
    double[] alternativeAt(int index, double[] at) {
        double[] values = alternative(index);
        return Arrays.stream(at).map(f -> interpolated(values, f)).toArray();
    }

    private static double[] product(double[] a, double[] b) {
        double[] product = new double[a.length];
        Arrays.setAll(product, i -> a[i] * b[i]);
        return product;
    }

    /** A figure of the function, with its standard deviation among the alternatives. */
    Estimate estimate(ToDoubleFunction<double[]> figure) {
        return Estimate.of(
                figure.applyAsDouble(modulations),
                deviation(Arrays.stream(alternatives).mapToDouble(figure).toArray()),
                degreesOfFreedom);
    }

    /** A value of one row of alternatives between its frequencies. */
    double valueAt(double[] values, double frequency) {
        return interpolated(values, frequency);
    }

    private double[] deviations() {
        double[] deviations = new double[frequencies.length];
        for (int i = 0; i < deviations.length; i++) {
            int at = i;
            deviations[i] = deviation(Arrays.stream(alternatives)
                    .mapToDouble(values -> values[at])
                    .toArray());
        }
        return deviations;
    }

    /**
     * The position of the least value before the function first rises by more than noise; its last frequency if it
     * never does.
     */
    private int endOfFall(double[] deviations, int start) {
        int least = start;
        for (int i = least; i < modulations.length; i++) {
            if (modulations[i] <= modulations[least]) {
                least = i;
            } else if (modulations[i] - modulations[least] > RISE + SIGNIFICANT * deviations[i]) {
                return least;
            }
        }
        return modulations.length - 1;
    }

    /**
     * The position of the value that is surely greatest: where its lower limit is. Noise at high frequencies may exceed 1, and the
     * function does not fall from there.
     */
    private int startOfFall(double[] deviations) {
        int greatest = 0;
        double limit = Double.NEGATIVE_INFINITY;
        for (int i = 0; i < modulations.length; i++) {
            double lower = modulations[i] - SIGNIFICANT * deviations[i];
            if (lower > limit) {
                limit = lower;
                greatest = i;
            }
        }
        return greatest;
    }

    /** The function that falls from a start to an end and is closest to the values by least squares. */
    private static double[] falling(double[] values, int start, int end) {
        double[] means = new double[values.length];
        int[] sizes = new int[values.length];
        int pools = 0;
        for (int i = start; i <= end; i++) {
            means[pools] = values[i];
            sizes[pools] = 1;
            while (pools > 0 && means[pools] > means[pools - 1]) {
                int size = sizes[pools - 1] + sizes[pools];
                means[pools - 1] = (means[pools - 1] * sizes[pools - 1] + means[pools] * sizes[pools]) / size;
                sizes[pools - 1] = size;
                pools--;
            }
            pools++;
        }
        double[] fitted = Arrays.copyOf(values, end + 1);
        int at = start;
        for (int pool = 0; pool < pools; pool++) {
            Arrays.fill(fitted, at, at + sizes[pool], means[pool]);
            at += sizes[pool];
        }
        return fitted;
    }

    private double interpolated(double[] values, double frequency) {
        int found = Arrays.binarySearch(frequencies, frequency);
        if (found >= 0) {
            return values[found];
        }
        int above = Math.min(frequencies.length - 1, Math.max(1, -found - 1));
        double part = (frequency - frequencies[above - 1]) / (frequencies[above] - frequencies[above - 1]);
        return (1 - part) * values[above - 1] + part * values[above];
    }

    /** The frequency where values first fall to a modulation; NaN if they do not. */
    private double crossing(double[] values, double modulation) {
        for (int i = 1; i < values.length; i++) {
            if (values[i] <= modulation && values[i - 1] > modulation) {
                double part = (values[i - 1] - modulation) / (values[i - 1] - values[i]);
                return frequencies[i - 1] + part * (frequencies[i] - frequencies[i - 1]);
            }
        }
        return Double.NaN;
    }

    private static double deviation(double[] values) {
        if (values.length < 2) {
            return 0;
        }
        double mean = Arrays.stream(values).average().orElseThrow();
        return Math.sqrt(Arrays.stream(values).map(v -> (v - mean) * (v - mean)).sum() / (values.length - 1));
    }

    private static String shown(double frequency) {
        return String.format(Locale.ROOT, "%.4g", frequency);
    }

    /**
     * Returns the function in words.
     *
     * @return its range of frequencies, and its modulation at the ends
     */
    @Override
    public String toString() {
        return String.format(
                Locale.ROOT,
                "modulation transfer from %.2f at %.4g to %.2f at %.4g cycles per millimetre",
                modulations[0],
                lowestFrequency(),
                modulations[modulations.length - 1],
                highestFrequency());
    }

    /**
     * Returns the function as named values: {@code mtf50} and {@code mtf10} in cycles per millimetre, or why they are not
     * determined, then {@code point.N.frequency} and {@code point.N.modulation} in the order of {@link #frequencies()}.
     *
     * @return the records
     */
    @Override
    public List<ResultRecord> records() {
        List<ResultRecord> records = new ArrayList<>();
        records.add(crossing("mtf50", this::mtf50));
        records.add(crossing("mtf10", this::mtf10));
        int number = 1;
        for (double frequency : frequencies) {
            String name = "point." + number++;
            records.add(ResultRecord.ofNumber(name + ".frequency", frequency, "cycles/mm"));
            records.add(ResultRecord.ofEstimate(name + ".modulation", at(frequency), ""));
        }
        return List.copyOf(records);
    }

    private static ResultRecord crossing(String name, Supplier<Estimate> frequency) {
        try {
            return ResultRecord.ofEstimate(name, frequency.get(), "cycles/mm");
        } catch (NotDeterminableException e) {
            return ResultRecord.ofMissing(name, "cycles/mm", e.getMessage());
        }
    }
}
