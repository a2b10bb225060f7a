// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.exposure;

import java.util.List;
import java.util.Locale;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.curve.NotDeterminableException.Reason;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.Recorded;
import org.tonewedge.core.quantity.ResultRecord;
import org.tonewedge.core.strip.StepTablet;
import org.tonewedge.fitting.numeric.LinearFit;

/**
 * The flare of a camera, from a backlit step tablet photographed on a film whose curve is known from a strip that was exposed
 * in contact:
 *
 * <pre>{@code
 * CameraFlare flare = CameraFlare.of(tablet, logExposuresOfTheSteps);
 * flare.flare(); // such as 0.010 of the light of the bare source
 * flare.addedBehind(2.0); // how much more than its density says step D 2.0 got
 * }</pre>
 *
 * <p>Behind a step of density D the film gets H = H<sub>0</sub> (10<sup>−D</sup> + f): the light through the step, and an even
 * veil f, a part of the exposure of the bare source. Turn the density of each step on the negative into log H by the curve,
 * from the clear end; both parameters follow by least squares of log H. Steps off the measured curve are left out of the
 * call together with their step of the tablet.
 *
 * <p>The standard uncertainties are those stated for the exposures, or where none is stated the scatter about the fit. Not
 * included is that of the curve, whose error is common to all steps and moves H<sub>0</sub> alone. Flare depends on what lies
 * about the tablet: a black mask has less of it than a bright window.
 *
 * <p>Immutable and thread safe.
 *
 * @source additive veiling illuminance: common practice, no source
 */
public final class CameraFlare implements Recorded {

    private static final int FEWEST_STEPS = 4;
    private static final int PASSES = 60;
    /** The least flare that noise may show, as a part of the light behind the densest step. */
    private static final double LOWEST = -0.9;

    private static final double HIGHEST = 2;
    /** How near the last flare must be to the one that its line asks for; at the limits it is not. */
    private static final double SETTLED = 1e-6;

    private final double logOpen;
    private final double flare;
    private final double[][] cofactors;
    private final double scale;
    private final double degreesOfFreedom;

    private CameraFlare(double logOpen, double flare, LinearFit fit, double scale, double degreesOfFreedom) {
        this.logOpen = logOpen;
        this.flare = flare;
        this.scale = scale;
        this.degreesOfFreedom = degreesOfFreedom;
        cofactors = new double[][] {{fit.cofactor(0, 0), fit.cofactor(0, 1)}, {fit.cofactor(1, 0), fit.cofactor(1, 1)}};
    }

    /**
     * Determines the flare.
     *
     * @param tablet the tablet that was photographed
     * @param logExposures the log exposure behind each step, from the clear end, with its standard uncertainty or 0 for all
     * @return the flare
     * @throws IllegalArgumentException if there is not one exposure for each step, or some state an uncertainty and others
     *     none
     * @throws NotDeterminableException if there are fewer than four steps, or they do not tell flare from light
     */
    public static CameraFlare of(StepTablet tablet, List<Estimate> logExposures) {
        if (tablet.steps().size() != logExposures.size()) {
            throw new IllegalArgumentException(tablet.name() + " has "
                    + tablet.steps().size() + " steps, but " + logExposures.size() + " exposures were given");
        }
        double[] densities = tablet.steps().stream()
                .mapToDouble(step -> step.density().value())
                .toArray();
        if (densities.length < FEWEST_STEPS) {
            throw new NotDeterminableException(
                    Reason.TOO_FEW_READINGS,
                    "flare needs " + FEWEST_STEPS + " steps or more, had " + densities.length
                            + "; photograph a tablet with more steps on the measured curve");
        }
        double[] y = logExposures.stream().mapToDouble(Estimate::value).toArray();
        return fit(densities, y, StatedWeights.of(logExposures), StatedWeights.areStated(logExposures));
    }

    private static CameraFlare fit(double[] densities, double[] y, double[] weights, boolean stated) {
        double least = Math.pow(10, -densities[densities.length - 1]);
        double flare = 0;
        double[][] rows = new double[y.length][];
        double[] left = new double[y.length];
        LinearFit fit;
        double wanted;
        double step;
        int passes = 0;
        do {
            linearise(densities, y, flare, rows, left);
            fit = linear(rows, left, weights);
            wanted = flare + fit.parameter(1);
            double next =
                    Math.max(flare + 0.5 * (LOWEST * least - flare), Math.min(flare + HIGHEST * least + flare, wanted));
            step = next - flare;
            flare = next;
            passes++;
        } while (passes < PASSES && Math.abs(step) > 1e-12 * (flare + least));
        if (!(flare < HIGHEST && Math.abs(wanted - flare) <= SETTLED * (Math.abs(flare) + least))) {
            throw new NotDeterminableException(
                    Reason.CONTRADICTORY_READINGS,
                    "the exposures do not follow the tablet with an even veil of light: flare of "
                            + Figures.plain(flare)
                            + "; look for swapped steps, or for a curve that is not that of this film");
        }
        int degrees = y.length - 2;
        return new CameraFlare(
                fit.parameter(0),
                flare,
                fit,
                stated ? 1 : fit.weightedSquares() / degrees,
                stated ? Double.POSITIVE_INFINITY : degrees);
    }

    /** Log exposures less log light, which the source and a change of the flare must explain. */
    private static void linearise(double[] densities, double[] y, double flare, double[][] rows, double[] left) {
        for (int i = 0; i < rows.length; i++) {
            double light = Math.pow(10, -densities[i]) + flare;
            rows[i] = new double[] {1, 1 / (Math.log(10) * light)};
            left[i] = y[i] - Math.log10(light);
        }
    }

    private static LinearFit linear(double[][] rows, double[] y, double[] weights) {
        try {
            return LinearFit.of(rows, y, weights);
        } catch (ArithmeticException e) {
            throw new NotDeterminableException(
                    Reason.TOO_FEW_READINGS,
                    "the steps are too alike to tell flare from light; photograph a tablet of a greater range");
        }
    }

    /**
     * Returns the flare.
     *
     * @return f, as a part of the exposure of the bare source; noise alone may make it slightly negative
     */
    public Estimate flare() {
        return Estimate.of(flare, Math.sqrt(scale * cofactors[1][1]), degreesOfFreedom);
    }

    /**
     * Returns the exposure of the bare source without flare.
     *
     * @return log H<sub>0</sub>
     */
    public Estimate logExposureOfSource() {
        return Estimate.of(logOpen, Math.sqrt(scale * cofactors[0][0]), degreesOfFreedom);
    }

    /**
     * Returns how much more exposure than the tablet says the film got behind a density: what to add to log H<sub>0</sub> − D.
     *
     * @param density the density of a step, or of any subject relative to the source
     * @return log<sub>10</sub> (1 + f 10<sup>D</sup>)
     * @throws IllegalArgumentException if the density is not from 0 to 10
     * @throws NotDeterminableException if the flare is negative by noise and leaves no light there
     */
    public ExposureInterval addedBehind(double density) {
        Checks.within("density of the tablet", density, 0, 10, "");
        double light = 1 + flare * Math.pow(10, density);
        if (!(light > 0)) {
            throw new NotDeterminableException(
                    Reason.UNSUITABLE_CURVE,
                    "the flare of " + Figures.plain(flare) + " is negative by noise and leaves no light behind density "
                            + Figures.plain(density));
        }
        return ExposureInterval.ofLogUnits(Math.log10(light));
    }

    /**
     * Returns the log exposure behind a density, flare included.
     *
     * @param density the density of a step, or of any subject relative to the source
     * @return log H<sub>0</sub> + log<sub>10</sub> (10<sup>−D</sup> + f)
     * @throws IllegalArgumentException if the density is not from 0 to 10
     * @throws NotDeterminableException if the flare is negative by noise and leaves no light there
     */
    public Estimate exposureOf(double density) {
        double value = logOpen - density + addedBehind(density).logUnits();
        double by = 1 / (Math.log(10) * (Math.pow(10, -density) + flare));
        double variance = cofactors[0][0] + 2 * by * cofactors[0][1] + by * by * cofactors[1][1];
        return Estimate.of(value, Math.sqrt(Math.max(0, scale * variance)), degreesOfFreedom);
    }

    /**
     * Returns the flare in words.
     *
     * @return the part, and in per cent
     */
    @Override
    public String toString() {
        return String.format(Locale.ROOT, "flare of %.2g %% of the exposure of the source", 100 * flare);
    }

    /**
     * Returns the flare as named values: {@code flare}, as a part of the exposure of the bare source, and
     * {@code log_exposure_of_source}.
     *
     * @return the records
     */
    @Override
    public List<ResultRecord> records() {
        return List.of(
                ResultRecord.ofEstimate("flare", flare(), ""),
                ResultRecord.ofEstimate("log_exposure_of_source", logExposureOfSource(), "log10"));
    }
}
