// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.parametric;

import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.ExposureAxis;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.strip.ExposedStep;
import org.tonewedge.core.strip.Repeatability;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.fitting.internal.Readings;
import org.tonewedge.fitting.numeric.Distributions;

/** The input of a fit: readings with their name, axis and repeatability. */
final class FitInput {

    private static final int FALLING_PARTS = 3;
    private static final double LEAST_RANGE = 0.05;

    /**
     * The shortest range of exposures, in log units, over which a curve has a shape to fit: the shortest distance from
     * toe to shoulder.
     */
    private static final double LEAST_EXPOSURE_RANGE = 0.1;

    private final String name;
    private final ExposureAxis axis;
    /** Empty if it comes from the residuals. */
    private final Optional<Repeatability> repeatability;

    private final Readings readings;
    private final double knownVariance;
    private final double knownFreedom;

    private FitInput(
            String name,
            ExposureAxis axis,
            Optional<Repeatability> repeatability,
            double[] logExposures,
            double[] densities) {
        this.name = name;
        this.axis = axis;
        this.repeatability = repeatability;
        double[] weights = new double[densities.length];
        if (isStated()) {
            knownVariance = 1;
            knownFreedom = repeatability.get().degreesOfFreedom();
            readings = new Readings(logExposures, densities, weights);
            weighByStatedRepeatability(weights);
        } else {
            Arrays.fill(weights, 1);
            readings = new Readings(logExposures, densities, weights);
            if (repeatability.isPresent()) {
                int freedom = densities.length - readings.levels();
                if (freedom == 0) {
                    throw new CurveFitException(
                            FitFailure.TOO_FEW_READINGS,
                            name + " has no repeat readings to take the repeatability from: read steps or base plus fog"
                                    + " more than once, or state the repeatability");
                }
                knownVariance = scatter(0) / freedom;
                knownFreedom = freedom;
                if (knownVariance == 0) {
                    throw new CurveFitException(
                            FitFailure.TOO_FEW_READINGS,
                            name
                                    + ": all repeat readings are equal, so they say nothing about the repeatability: read more"
                                    + " decimals, or state the repeatability");
                }
            } else {
                knownVariance = Double.NaN;
                knownFreedom = Double.NaN;
            }
        }
    }

    static FitInput of(Strip strip, Optional<Repeatability> repeatability) {
        List<ExposedStep> steps = strip.steps();
        int exposed = steps.stream().mapToInt(step -> step.readings().size()).sum();
        double[] x = new double[exposed];
        double[] d = new double[exposed + strip.basePlusFogReadings().size()];
        int i = 0;
        for (ExposedStep step : steps) {
            for (Density reading : step.readings()) {
                x[i] = step.exposure().value();
                d[i++] = reading.value();
            }
        }
        for (Density reading : strip.basePlusFogReadings()) {
            d[i++] = reading.value();
        }
        return new FitInput(strip.toString(), strip.axis(), repeatability, x, d);
    }

    /** Makes the input from readings in any order; the arrays are copied and checked. */
    static FitInput of(
            String name,
            ExposureAxis axis,
            double[] logExposures,
            double[] densities,
            double[] basePlusFog,
            Optional<Repeatability> repeatability) {
        int exposed = logExposures.length;
        if (densities.length != exposed) {
            throw new IllegalArgumentException(name + ": " + exposed + " log exposures but " + densities.length
                    + " densities; give one density for each exposure");
        }
        boolean sorted = true;
        for (int i = 0; i < exposed; i++) {
            checkReading(name, i, logExposures[i], densities[i]);
            sorted &= i == 0 || logExposures[i] >= logExposures[i - 1];
        }
        double[] x = logExposures.clone();
        double[] d = Arrays.copyOf(densities, exposed + basePlusFog.length);
        if (!sorted) {
            Integer[] order = new Integer[exposed];
            Arrays.setAll(order, i -> i);
            Arrays.sort(order, Comparator.comparingDouble(i -> logExposures[i]));
            for (int i = 0; i < exposed; i++) {
                x[i] = logExposures[order[i]];
                d[i] = densities[order[i]];
            }
        }
        double step = exposed > 0 ? x[0] : 0;
        for (int i = 0; i < exposed; i++) {
            step = x[i] - step > Strip.SAME_EXPOSURE ? x[i] : step;
            x[i] = step; // repeats of one step
        }
        for (int i = 0; i < basePlusFog.length; i++) {
            checkReading(name, exposed + i, 0, basePlusFog[i]);
            d[exposed + i] = basePlusFog[i];
        }
        return new FitInput(name, axis, repeatability, x, d);
    }

    /** The limits of {@link LogExposure} and {@link Density}, with the place of the reading. */
    private static void checkReading(String name, int index, double logExposure, double density) {
        if (!(Math.abs(logExposure) <= 20 && density >= -0.2 && density <= 10)) {
            String reading = name + ", reading " + (index + 1) + ": ";
            Checks.within(reading + "log exposure", logExposure, -20, 20, "give the decimal logarithm of the exposure");
            Checks.within(reading + "density", density, -0.2, 10, "give the gross density");
        }
    }

    /** Whether there are more readings than parameters, and enough different exposures. */
    boolean hasEnoughFor(CurveFamily family) {
        int fitted = family.kind().shape().size() + 2;
        return count(family) > fitted && levels(family) >= fitted && readings.exposed() >= 2;
    }

    private int count(CurveFamily family) {
        return family.kind().shape().reachesBase() ? readings.size() : readings.exposed();
    }

    private int levels(CurveFamily family) {
        return readings.levels() - (count(family) < readings.size() ? 1 : 0);
    }

    /** Refuses readings that no rising curve can be fitted to. */
    void requireFittable(CurveFamily family) {
        if (!hasEnoughFor(family)) {
            int fitted = family.kind().shape().size() + 2;
            int count = count(family);
            int levels = levels(family);
            throw new CurveFitException(
                    FitFailure.TOO_FEW_READINGS,
                    name + ": " + Figures.counted(count, "reading") + " at "
                            + (count > readings.exposed()
                                    ? Figures.counted(levels, "level") + ", base plus fog among them,"
                                    : Figures.counted(levels, "exposure"))
                            + " are too few for the " + fitted
                            + " parameters of a curve (" + family + "): read at least " + (fitted + 1)
                            + " steps, or fit a family with fewer parameters");
        }
        double[] d = readings.densities();
        int exposed = readings.exposed();
        double reach = readings.logExposures()[exposed - 1] - readings.logExposures()[0];
        if (reach < LEAST_EXPOSURE_RANGE) {
            throw new CurveFitException(
                    FitFailure.EXPOSURES_TOO_CLOSE,
                    name + ": exposures run over only " + Figures.plain(reach) + " log units, from " + lowest() + " to "
                            + highest() + ", less than the " + LEAST_EXPOSURE_RANGE
                            + " that a curve needs: check that the exposures are logarithms of the right base, or expose steps"
                            + " farther apart");
        }
        double least = Double.POSITIVE_INFINITY;
        double greatest = Double.NEGATIVE_INFINITY;
        for (int i = 0; i < exposed; i++) {
            least = d[i] < least ? d[i] : least;
            greatest = d[i] > greatest ? d[i] : greatest;
        }
        if (greatest - least < LEAST_RANGE) {
            throw new CurveFitException(
                    FitFailure.NO_CONTRAST,
                    name + ": densities run from " + least + " to " + greatest
                            + " only; check that the strip was exposed and developed, and that steps were not read twice");
        }
        int part = Math.max(1, exposed / FALLING_PARTS);
        double low = 0;
        double high = 0;
        for (int i = 0; i < part; i++) {
            low += d[i];
            high += d[exposed - 1 - i];
        }
        low /= part;
        high /= part;
        if (high <= low) {
            throw new CurveFitException(
                    FitFailure.FALLING_STRIP,
                    name + ": density falls with exposure, from " + low + " to " + high
                            + "; these families rise. For a reversal material use a monotone cubic or a smoothing spline;"
                            + " otherwise check the order in which the steps were read");
        }
    }

    /**
     * Weighs each reading at the mean of its step, so that a reading that is low by chance does not count more for it.
     */
    private void weighByStatedRepeatability(double[] weights) {
        double[] d = readings.densities();
        for (int start = 0, end; start < d.length; start = end) {
            end = endOfLevel(start);
            double deviation = deviationAt(mean(d, start, end));
            Arrays.fill(weights, start, end, 1 / (deviation * deviation));
        }
    }

    /** Whether the repeatability is known before the readings are. */
    boolean isStated() {
        return repeatability.isPresent() && repeatability.get().isKnown();
    }

    /** The stated repeatability at a density. */
    double deviationAt(double density) {
        double deviation;
        try {
            deviation = repeatability.orElseThrow().standardDeviationAt(Density.of(density));
        } catch (IllegalArgumentException e) {
            throw new IllegalArgumentException(name + ": " + e.getMessage(), e);
        }
        return Checks.positive(name + ": repeatability at density " + density, deviation);
    }

    private int endOfLevel(int start) {
        int end = start + 1;
        while (end < readings.size() && isSameLevel(start, end)) {
            end++;
        }
        return end;
    }

    /** The mean, counted from the first value: exactly that value if all are equal. */
    private static double mean(double[] values, int from, int to) {
        double mean = 0;
        for (int i = from; i < to; i++) {
            mean += (values[i] - values[from]) / (to - from);
        }
        return values[from] + mean;
    }

    /** The sum of squares of readings, from an index on, about the means of their exposures. */
    private double scatter(int from) {
        double[] d = readings.densities();
        double total = 0;
        for (int start = from, end; start < d.length; start = end) {
            end = endOfLevel(start);
            double mean = mean(d, start, end);
            for (int i = start; i < end; i++) {
                total += readings.weights()[i] * (d[i] - mean) * (d[i] - mean);
            }
        }
        return total;
    }

    boolean isSameLevel(int i, int j) {
        int exposed = readings.exposed();
        return i >= exposed ? j >= exposed : j < exposed && readings.logExposures()[i] == readings.logExposures()[j];
    }

    /** The weighted scatter of the unexposed readings about their mean. */
    double basePlusFogScatter() {
        return scatter(readings.exposed());
    }

    int basePlusFogReadings() {
        return readings.size() - readings.exposed();
    }

    /** The mean of the unexposed readings, if there are any; their median for a robust loss. */
    Optional<Density> basePlusFog(RobustLoss loss) {
        if (basePlusFogReadings() == 0) {
            return Optional.empty();
        }
        double[] d = readings.densities();
        return Optional.of(Density.of(
                loss == RobustLoss.NONE
                        ? mean(d, readings.exposed(), d.length)
                        : Distributions.ofSample(Arrays.copyOfRange(d, readings.exposed(), d.length), 0.5)));
    }

    /** The variance of {@link #basePlusFog(RobustLoss)} if readings have variance 1. */
    double basePlusFogVariance(RobustLoss loss) {
        double weight = 0;
        for (int i = readings.exposed(); i < readings.size(); i++) {
            weight += readings.weights()[i];
        }
        // A median of more than two normal readings varies more than their mean: π/2 times as much when they are many.
        return (loss == RobustLoss.NONE || basePlusFogReadings() <= 2 ? 1 : 0.5 * Math.PI) / weight;
    }

    String name() {
        return name;
    }

    /** The unit of weighted residuals: with a stated repeatability they are multiples of it. */
    String unitOfResiduals() {
        return isStated() ? "" : "density";
    }

    /** Where the repeatability comes from, in words. */
    String repeatability() {
        return repeatability.map(Repeatability::toString).orElse("the residuals");
    }

    Readings readings() {
        return readings;
    }

    double knownVariance() {
        return knownVariance;
    }

    /** Whether the other has the same readings, weighed in the same way. */
    boolean isSameAs(FitInput other) {
        return axis.equals(other.axis)
                && Double.compare(knownVariance, other.knownVariance) == 0
                && Arrays.equals(readings.logExposures(), other.readings.logExposures())
                && Arrays.equals(readings.densities(), other.readings.densities())
                && Arrays.equals(readings.weights(), other.readings.weights());
    }

    boolean isVarianceKnown() {
        return !Double.isNaN(knownVariance);
    }

    double knownFreedom() {
        return knownFreedom;
    }

    LogExposure exposure(int index) {
        return new LogExposure(readings.logExposures()[index], axis);
    }

    LogExposure lowest() {
        return exposure(0);
    }

    LogExposure highest() {
        return exposure(readings.exposed() - 1);
    }

    /** The same input with other readings: the same number, and the same variance if it is known. */
    FitInput with(Readings others) {
        return new FitInput(this, others);
    }

    private FitInput(FitInput like, Readings readings) {
        name = like.name;
        axis = like.axis;
        repeatability = like.repeatability;
        knownVariance = like.knownVariance;
        knownFreedom = like.knownFreedom;
        this.readings = readings;
    }
}
