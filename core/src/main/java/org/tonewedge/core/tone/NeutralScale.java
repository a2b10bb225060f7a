// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.tone;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.MonotoneCubic;
import org.tonewedge.core.curve.MonotoneSlopes;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.curve.NotDeterminableException.Reason;
import org.tonewedge.core.curve.OutsideMeasuredRangeException;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.strip.Bracket;
import org.tonewedge.core.strip.Patch;
import org.tonewedge.core.strip.PatchReading;
import org.tonewedge.core.strip.Strip;

/** The neutral patches of one frame, by which a coloured patch is judged. */
abstract class NeutralScale {

    private static final int FEWEST = 2;

    private final String name;
    private final List<PatchReading> neutrals;
    private final double[] logReflectances;
    private final int basePlusFogReadings;

    private NeutralScale(Bracket bracket, String frame) {
        name = bracket + ", frame '" + frame + "'";
        basePlusFogReadings = bracket.basePlusFogReadings().size();
        neutrals = bracket.frame(frame).neutrals().stream()
                .sorted(Comparator.comparingDouble(NeutralScale::logReflectance))
                .toList();
        logReflectances =
                neutrals.stream().mapToDouble(NeutralScale::logReflectance).toArray();
        if (neutrals.size() < FEWEST) {
            throw new NotDeterminableException(
                    Reason.TOO_FEW_READINGS,
                    name + " has " + neutrals.size()
                            + " neutral patches of known reflectance; a scale needs at least " + FEWEST
                            + ", darker and lighter than the colours to be judged");
        }
        for (int i = 1; i < neutrals.size(); i++) {
            if (logReflectances[i] == logReflectances[i - 1]) {
                throw new NotDeterminableException(
                        Reason.CONTRADICTORY_READINGS,
                        name + ": the neutral patches '"
                                + neutrals.get(i - 1).patch().label() + "' and '"
                                + neutrals.get(i).patch().label()
                                + "' have the same reflectance; enter repeat readings as readings of one patch");
            }
        }
    }

    private static double logReflectance(PatchReading reading) {
        return Math.log10(reading.patch().reflectance().orElseThrow());
    }

    /** A scale read through the film's own curve: effective exposures are compared. */
    static NeutralScale throughCurve(Bracket bracket, String frame, CharacteristicCurve curve) {
        return new ThroughCurve(bracket, frame, curve);
    }

    /** A scale read by itself: effective reflectances are compared. */
    static NeutralScale alone(Bracket bracket, String frame) {
        return new Alone(bracket, frame);
    }

    int size() {
        return neutrals.size();
    }

    PatchReading neutral(int index) {
        return neutrals.get(index);
    }

    /** The number of readings of a neutral patch. */
    int readings(int index) {
        return neutrals.get(index).readings().size();
    }

    /** The number of base-plus-fog readings. */
    int basePlusFogReadings() {
        return basePlusFogReadings;
    }

    /** Where a patch lies and how far it is from the neutral of the same reflectance. */
    abstract Position place(PatchReading patch);

    /**
     * A place on the scale.
     *
     * @param effective where the density of the patch lies
     * @param lighterBy log units above the neutral of the same reflectance
     * @param toDensity the change of lighterBy with the density of the patch
     * @param toScale the change of lighterBy with the density of each neutral
     * @param toBasePlusFog the change of lighterBy with base plus fog
     * @param toInterpolation the standard uncertainty of lighterBy from each interval between neutrals, with the sign of the
     *     change by another cubic
     */
    record Position(
            LogExposure effective,
            double lighterBy,
            double toDensity,
            List<Double> toScale,
            double toBasePlusFog,
            List<Double> toInterpolation) {}

    double logReflectanceOf(PatchReading reading) {
        Patch patch = reading.patch();
        if (patch.reflectance().isEmpty()) {
            throw new NotDeterminableException(
                    Reason.TOO_FEW_READINGS,
                    name + ": patch '" + patch.label()
                            + "' has no reflectance; measure it and enter it in the column reflectance");
        }
        return logReflectance(reading);
    }

    /** The weights of linear interpolation between the neutrals at a log reflectance. */
    double[] weights(double at, Patch patch) {
        int last = logReflectances.length - 1;
        if (!(at >= logReflectances[0] && at <= logReflectances[last])) {
            throw new OutsideMeasuredRangeException(name + ": patch '" + patch.label() + "' has a reflectance of "
                    + Figures.plain(Math.pow(10, at)) + ", outside the neutral scale, "
                    + Figures.plain(Math.pow(10, logReflectances[0])) + " to "
                    + Figures.plain(Math.pow(10, logReflectances[last]))
                    + "; photograph a darker and a lighter neutral");
        }
        int found = Arrays.binarySearch(logReflectances, at);
        double[] weights = new double[logReflectances.length];
        if (found >= 0) {
            weights[found] = 1;
            return weights;
        }
        int upper = -found - 1;
        double fraction = (at - logReflectances[upper - 1]) / (logReflectances[upper] - logReflectances[upper - 1]);
        weights[upper - 1] = 1 - fraction;
        weights[upper] = fraction;
        return weights;
    }

    /** The change of exposure per unit of density. */
    private double perDensity(CharacteristicCurve curve, LogExposure at, PatchReading reading) {
        double gradient = curve.gradientAt(at).value();
        if (gradient == 0) {
            throw new NotDeterminableException(
                    Reason.UNSUITABLE_CURVE,
                    name + ", patch '" + reading.patch().label() + "': " + curve.name()
                            + " is level there, so its density does not give an exposure; choose a frame of more exposure");
        }
        return 1 / gradient;
    }

    private static final class ThroughCurve extends NeutralScale {

        private final CharacteristicCurve curve;
        private final Density basePlusFog;

        ThroughCurve(Bracket bracket, String frame, CharacteristicCurve curve) {
            super(bracket, frame);
            this.curve = curve;
            basePlusFog = bracket.basePlusFog();
        }

        /** The exposure that gives the density above base plus fog. */
        private LogExposure exposure(PatchReading reading) {
            try {
                return curve.pointAbove(reading.density().minus(basePlusFog)).logExposure();
            } catch (NotDeterminableException e) {
                throw new NotDeterminableException(
                        super.name + ", patch '" + reading.patch().label() + "': " + e.getMessage());
            }
        }

        @Override
        Position place(PatchReading patch) {
            double[] weights = weights(logReflectanceOf(patch), patch.patch());
            LogExposure effective = exposure(patch);
            double expected = 0;
            List<Double> toScale = new ArrayList<>();
            for (int i = 0; i < weights.length; i++) {
                // Neutrals without weight do not matter and may lie beyond the curve.
                double change = 0;
                if (weights[i] > 0) {
                    PatchReading neutral = neutral(i);
                    LogExposure exposure = exposure(neutral);
                    expected += weights[i] * exposure.value();
                    change = -weights[i] * super.perDensity(curve, exposure, neutral);
                }
                toScale.add(change);
            }
            double perDensity = super.perDensity(curve, effective, patch);
            // Every density is counted from base plus fog.
            double toBasePlusFog = -perDensity
                    - toScale.stream().mapToDouble(Double::doubleValue).sum();
            return new Position(effective, effective.value() - expected, perDensity, toScale, toBasePlusFog, List.of());
        }
    }

    private static final class Alone extends NeutralScale {

        /** A change of a neutral's density that changes the cubic in proportion. */
        private static final double SMALL = 1e-5;
        /**
         * The standard uncertainty of interpolation in differences of two monotone cubics; set so that intervals of underexposed
         * frames hold the truth in simulation, no source.
         */
        private static final double IN_DIFFERENCES = 1.7;

        private final CharacteristicCurve scale;
        private final double[] x;
        private final double[] densities;

        Alone(Bracket bracket, String frame) {
            super(bracket, frame);
            Strip strip = bracket.neutralScale(frame);
            scale = CharacteristicCurve.through(strip);
            x = strip.steps().stream()
                    .mapToDouble(step -> step.exposure().value())
                    .toArray();
            densities = strip.steps().stream()
                    .mapToDouble(step -> step.density().value())
                    .toArray();
        }

        /** How the density of the scale at a place follows that of a neutral patch. */
        private double byNeutral(int index, double at) {
            return (densityWith(index, SMALL, at) - densityWith(index, -SMALL, at)) / (2 * SMALL);
        }

        private double densityWith(int index, double change, double at) {
            double[] changed = densities.clone();
            changed[index] += change;
            return MonotoneCubic.through(x, changed, MonotoneSlopes.FRITSCH_CARLSON)
                    .density(at);
        }

        /** Patches in one interval between neutrals share its error; those of different intervals are independent. */
        private List<Double> byInterpolation(LogExposure effective, double perDensity) {
            double at = effective.value();
            double difference = MonotoneCubic.through(x, densities, MonotoneSlopes.FRITSCH_BUTLAND)
                            .density(at)
                    - MonotoneCubic.through(x, densities, MonotoneSlopes.FRITSCH_CARLSON)
                            .density(at);
            int last = x.length - 2;
            return IntStream.rangeClosed(0, last)
                    .mapToObj(i -> (i == 0 || at > x[i]) && (i == last || at <= x[i + 1])
                            ? IN_DIFFERENCES * difference * perDensity
                            : 0)
                    .toList();
        }

        @Override
        Position place(PatchReading patch) {
            double actual = logReflectanceOf(patch);
            LogExposure effective = scale.logExposureAt(patch.density());
            double perDensity = super.perDensity(scale, effective, patch);
            List<Double> toScale = IntStream.range(0, size())
                    .mapToObj(i -> -byNeutral(i, effective.value()) * perDensity)
                    .toList();
            return new Position(
                    effective,
                    effective.value() - actual,
                    perDensity,
                    toScale,
                    0,
                    byInterpolation(effective, perDensity));
        }
    }
}
