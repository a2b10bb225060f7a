// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import java.io.InvalidObjectException;
import java.io.ObjectInputStream;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Objects;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.internal.SerialForms;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.LogExposure;

/**
 * A step tablet, such as one with 21 steps 0.15 apart: a row of known densities through which a strip is exposed.
 *
 * <p>Step 1 is the clear end, the step of least density, and densities rise with the step number. A step's number is
 * not its density. The exposure behind step i is log H<sub>i</sub> = log H<sub>0</sub> − D<sub>i</sub>, where
 * H<sub>0</sub> is the exposure without the tablet and D<sub>i</sub> the density of the step.
 *
 * <p>A {@linkplain #calibrated calibrated} tablet has the densities of its certificate, with their uncertainty. A
 * {@linkplain #nominal nominal} tablet has those that its maker prints on the box; real tablets miss them by up to a
 * tenth of a stop at the clear end and a third of a stop at the dense end.
 *
 * <p>Immutable and thread safe.
 *
 * @source 21 steps of 0.15 (a range of 1024 to 1, 3.01 log units): US Army lesson SS0514, secondary; tolerance of
 *     uncalibrated tablets: common practice, no source
 */
public final class StepTablet implements Serializable {

    private static final long serialVersionUID = 1;

    /** The greatest density that a {@link Density} can be. */
    private static final double MOST = 10;

    private final String name;
    private final List<Step> steps;
    private final boolean calibrated;

    /**
     * One step of a tablet.
     *
     * @param number the number of the step, 1 at the clear end
     * @param density its density, certified or nominal
     * @param standardUncertainty the standard uncertainty (k = 1) of the density; 0 if it is not stated
     */
    public record Step(int number, Density density, double standardUncertainty) implements Serializable {

        /**
         * Checks the number and the uncertainty.
         *
         * @param number the number of the step, 1 or more
         * @param density its density
         * @param standardUncertainty the standard uncertainty, 0 to 1
         * @throws IllegalArgumentException if a number is out of range
         */
        public Step {
            Objects.requireNonNull(density, "density");
            if (number < 1) {
                throw new IllegalArgumentException("step number must be 1 or more, was " + number);
            }
            Checks.within("standard uncertainty of step " + number, standardUncertainty, 0, 1, "");
        }
    }

    private StepTablet(String name, List<Step> steps, boolean calibrated) {
        this.name = name;
        this.steps = steps;
        this.calibrated = calibrated;
    }

    /**
     * Returns a tablet with the densities of its certificate, but not their uncertainties.
     *
     * @param name the tablet's name or serial number
     * @param densities the densities from step 1, the clear end, upwards
     * @return the tablet
     * @throws IllegalArgumentException if there are fewer than two steps, or the densities do not rise; the message
     *     names the step
     */
    public static StepTablet calibrated(String name, double... densities) {
        return calibrated(name, 0, densities);
    }

    /**
     * Returns a tablet with the densities of its certificate.
     *
     * @param name the tablet's name or serial number
     * @param standardUncertainty the standard uncertainty (k = 1) of every step; a certificate usually states the
     *     expanded uncertainty, U = 2 u
     * @param densities the densities from step 1, the clear end, upwards
     * @return the tablet
     * @throws IllegalArgumentException if there are fewer than two steps, or the densities do not rise; the message
     *     names the step
     */
    public static StepTablet calibrated(String name, double standardUncertainty, double[] densities) {
        double[] uncertainties = new double[densities.length];
        Arrays.fill(uncertainties, standardUncertainty);
        return calibrated(name, densities, uncertainties);
    }

    /**
     * Returns a tablet with the densities of its certificate and the uncertainty of each.
     *
     * @param name the tablet's name or serial number
     * @param densities the densities from step 1, the clear end, upwards
     * @param standardUncertainties the standard uncertainty (k = 1) of each step
     * @return the tablet
     * @throws IllegalArgumentException if there are fewer than two steps, the two arrays differ in length, or the
     *     densities do not rise; the message names the step
     */
    public static StepTablet calibrated(String name, double[] densities, double[] standardUncertainties) {
        return of(name, densities, standardUncertainties, true);
    }

    private static StepTablet of(String name, double[] densities, double[] standardUncertainties, boolean calibrated) {
        String checkedName = Checks.notBlank("name of a step tablet", name);
        if (densities.length < 2) {
            throw new IllegalArgumentException(
                    "step tablet " + checkedName + " must have at least 2 steps, had " + densities.length);
        }
        if (densities.length != standardUncertainties.length) {
            throw new IllegalArgumentException("step tablet " + checkedName + " has " + densities.length
                    + " densities but " + standardUncertainties.length + " uncertainties");
        }
        List<Step> steps = new ArrayList<>(densities.length);
        for (int i = 0; i < densities.length; i++) {
            if (i > 0 && !(densities[i] > densities[i - 1])) {
                throw new IllegalArgumentException("step tablet " + checkedName + ": the density of step " + (i + 1)
                        + " must be above that of step " + i + ", was " + Figures.plain(densities[i]) + " after "
                        + Figures.plain(densities[i - 1])
                        + "; list the steps from the clear end, and look for swapped steps");
            }
            steps.add(new Step(i + 1, Density.of(densities[i]), standardUncertainties[i]));
        }
        return new StepTablet(checkedName, List.copyOf(steps), calibrated);
    }

    /**
     * Returns a tablet with equal nominal increments, such as 21 steps of 0.15, 11 of 0.30 or 31 of 0.10.
     *
     * @param steps the number of steps, at least 2
     * @param clearest the nominal density of step 1; real tablets begin at their base, about 0.05
     * @param increment the nominal density from step to step, above 0
     * @return the tablet, which is not calibrated
     * @throws IllegalArgumentException if a number is out of range or the densest step passes density 10
     * @source usual increments 0.15 (verified, secondary), 0.30 and 0.10 (from memory); base about 0.05 (from memory)
     */
    public static StepTablet nominal(int steps, Density clearest, double increment) {
        if (steps < 2) {
            throw new IllegalArgumentException("a step tablet must have at least 2 steps, was " + steps);
        }
        Checks.positive("density increment of a step tablet", increment);
        Checks.within(
                "density of step " + steps + " of a step tablet",
                clearest.value() + (steps - 1) * increment,
                clearest.value(),
                MOST,
                "are the steps in stops? A stop is a density of 0.301");
        List<Step> made = new ArrayList<>(steps);
        for (int i = 0; i < steps; i++) {
            made.add(new Step(i + 1, Density.of(clearest.value() + i * increment), 0));
        }
        return new StepTablet(
                "nominal tablet of " + steps + " steps " + Figures.plain(increment) + " apart",
                List.copyOf(made),
                false);
    }

    /**
     * Returns the tablet's name.
     *
     * @return the name or serial number
     */
    public String name() {
        return name;
    }

    /**
     * Returns the steps from the clear end.
     *
     * @return all steps, step 1 first
     */
    public List<Step> steps() {
        return steps;
    }

    /**
     * Tells whether the densities come from a certificate.
     *
     * @return false for a nominal tablet
     */
    public boolean isCalibrated() {
        return calibrated;
    }

    /**
     * Returns the exposures under the tablet, in the order in which the steps of the strip are read.
     *
     * @param withoutTablet the exposure the film would receive without the tablet
     * @param order the end at which reading begins
     * @return one exposure for each step: log H<sub>0</sub> − D<sub>i</sub>
     */
    public ExposureSeries exposedAt(LogExposure withoutTablet, ReadingOrder order) {
        Objects.requireNonNull(order, "order");
        List<LogExposure> exposures = new ArrayList<>(steps.size());
        for (Step step : steps) {
            exposures.add(withoutTablet.minus(
                    ExposureInterval.ofLogUnits(step.density().value())));
        }
        if (order == ReadingOrder.FROM_DENSE_END) {
            Collections.reverse(exposures);
        }
        return ExposureSeries.of(exposures);
    }

    /**
     * Returns the tablet in words.
     *
     * @return its name, number of steps and density range
     */
    @Override
    public String toString() {
        return name + " (" + steps.size() + " steps, " + steps.get(0).density() + " to "
                + steps.get(steps.size() - 1).density() + ")";
    }

    /**
     * Compares by value.
     *
     * @param other any object
     * @return true if the other is equal in all that it was made of
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof StepTablet that
                && Objects.equals(name, that.name)
                && Objects.equals(steps, that.steps)
                && calibrated == that.calibrated;
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(name, steps, calibrated);
    }

    private Object writeReplace() {
        return new SerialForm(
                name,
                steps.stream().mapToDouble(step -> step.density().value()).toArray(),
                steps.stream().mapToDouble(Step::standardUncertainty).toArray(),
                calibrated);
    }

    private void readObject(ObjectInputStream stream) throws InvalidObjectException {
        throw SerialForms.forged();
    }

    /** The value as it is written; never compared. */
    @SuppressWarnings("ArrayRecordComponent")
    private record SerialForm(String name, double[] densities, double[] standardUncertainties, boolean isCalibrated)
            implements Serializable {

        private Object readResolve() throws InvalidObjectException {
            return SerialForms.made(() -> of(name, densities, standardUncertainties, isCalibrated));
        }
    }
}
