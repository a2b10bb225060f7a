// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.exposure;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.OptionalInt;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.curve.NotDeterminableException.Reason;
import org.tonewedge.core.curve.OutsideMeasuredRangeException;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.DensityDifference;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.Recorded;
import org.tonewedge.core.quantity.ResultRecord;

/**
 * One's own exposure index: the setting of one's own meter at which a shadow frame, an even surface metered and given four
 * stops less, reaches a stated density with one's own camera, lens, developer and habits.
 *
 * <pre>{@code
 * PersonalExposureIndex index = PersonalExposureIndex.withDefaults().determine(List.of(
 *         ShadowFrame.of(400, 0.04), ShadowFrame.of(200, 0.08), ShadowFrame.of(100, 0.14)));
 * index.exposureIndex(); // 159
 * }</pre>
 *
 * <p>Between the two frames on either side of the density the setting runs straight against the density, on a logarithmic
 * scale; beyond the frames it is refused. The standard uncertainty includes those of the two densities, not that of shutter
 * and aperture from frame to frame: repeat frames show it.
 *
 * <p>Immutable and thread safe.
 *
 * @source shadow frame four stops below the meter at 0.10 above base plus fog: common practice, no source
 */
public final class PersonalExposureIndex implements Recorded {

    /** The usual density of the shadow frame above base plus fog. */
    public static final DensityDifference USUAL_DENSITY = DensityDifference.of(0.10);

    private final Estimate logIndex;
    private final DensityDifference density;

    private PersonalExposureIndex(Estimate logIndex, DensityDifference density) {
        this.logIndex = logIndex;
        this.density = density;
    }

    /**
     * Returns the method at the usual density.
     *
     * @return the method
     */
    public static Method withDefaults() {
        return new Method(USUAL_DENSITY);
    }

    /** The method: what is looked for. Immutable and thread safe. */
    public static final class Method {

        private final DensityDifference density;

        private Method(DensityDifference density) {
            this.density = density;
        }

        /**
         * Returns what this is, in words that may change.
         *
         * @return the density of the shadow
         */
        @Override
        public String toString() {
            return "personal exposure index at " + density + " above base plus fog";
        }

        /**
         * Returns a copy for another density.
         *
         * @param aboveBasePlusFog the density of the shadow frame, above 0
         * @return the copy
         * @throws IllegalArgumentException if the density is not above 0
         */
        public Method withDensity(DensityDifference aboveBasePlusFog) {
            Checks.positive("density of the shadow frame", aboveBasePlusFog.value());
            return new Method(aboveBasePlusFog);
        }

        /**
         * Determines the index.
         *
         * @param frames two or more frames, each at a setting of its own
         * @return the index
         * @throws IllegalArgumentException if two frames have one setting
         * @throws NotDeterminableException if there are fewer than two frames, all lie on one side of the density, or
         *     densities do not fall as the index rises
         */
        public PersonalExposureIndex determine(List<ShadowFrame> frames) {
            Objects.requireNonNull(frames, "frames");
            List<ShadowFrame> sorted = new ArrayList<>(frames);
            sorted.sort(Comparator.comparingDouble(ShadowFrame::exposureIndex));
            double wanted = density.value();
            OptionalInt found = OptionalInt.empty();
            for (int i = 1; i < sorted.size(); i++) {
                if (sorted.get(i).exposureIndex() == sorted.get(i - 1).exposureIndex()) {
                    throw new IllegalArgumentException("two frames have the exposure index "
                            + Figures.plain(sorted.get(i).exposureIndex()) + "; give the mean of their densities");
                }
                boolean before = sorted.get(i - 1).netDensity().value() >= wanted;
                boolean after = sorted.get(i).netDensity().value() >= wanted;
                if (before != after) {
                    if (found.isPresent() || after) {
                        throw new NotDeterminableException(
                                Reason.CONTRADICTORY_READINGS,
                                "the densities of the shadow frames do not fall as the exposure index rises: " + sorted
                                        + "; look for swapped frames, or read them again");
                    }
                    found = OptionalInt.of(i);
                }
            }
            int at = found.orElseThrow(() -> new OutsideMeasuredRangeException("no two frames lie on either side of "
                    + density + " above base plus fog: " + sorted + "; expose more frames"));
            return new PersonalExposureIndex(between(sorted.get(at - 1), sorted.get(at)), density);
        }

        private Estimate between(ShadowFrame slower, ShadowFrame faster) {
            double range = faster.netDensity().value() - slower.netDensity().value();
            double part = (density.value() - slower.netDensity().value()) / range;
            double from = Math.log10(slower.exposureIndex());
            double span = Math.log10(faster.exposureIndex()) - from;
            double uncertainty = Math.abs(span / range)
                    * Math.hypot(
                            (1 - part) * slower.netDensity().standardUncertainty(),
                            part * faster.netDensity().standardUncertainty());
            double degrees = Math.min(
                    slower.netDensity().degreesOfFreedom(), faster.netDensity().degreesOfFreedom());
            return Estimate.of(from + part * span, uncertainty, degrees);
        }
    }

    /**
     * A shadow frame.
     *
     * @param exposureIndex what the meter was set to, above 0
     * @param netDensity its density above base plus fog
     */
    public record ShadowFrame(double exposureIndex, Estimate netDensity) {

        /**
         * Checks the parts.
         *
         * @param exposureIndex what the meter was set to, from 0.1 to 1 000 000
         * @param netDensity its density above base plus fog, from −0.5 to 10
         * @throws IllegalArgumentException if a number is out of range
         */
        public ShadowFrame {
            Checks.within("exposure index", exposureIndex, 0.1, 1e6, "");
            Checks.within("net density of a shadow frame", netDensity.value(), -0.5, 10, "");
        }

        /**
         * Returns a frame whose density counts as exact.
         *
         * @param exposureIndex what the meter was set to
         * @param netDensity its density above base plus fog
         * @return the frame
         * @throws IllegalArgumentException if a number is out of range
         */
        public static ShadowFrame of(double exposureIndex, double netDensity) {
            return new ShadowFrame(exposureIndex, Estimate.of(netDensity, 0));
        }

        /**
         * Returns the frame in words.
         *
         * @return its setting and density
         */
        @Override
        public String toString() {
            return "EI " + Figures.plain(exposureIndex) + " D " + Figures.plain(netDensity.value());
        }
    }

    /**
     * Returns the index.
     *
     * @return the setting of the meter, before rounding to a mark of its scale
     */
    public Estimate exposureIndex() {
        double value = Math.pow(10, logIndex.value());
        return Estimate.of(value, value * Math.log(10) * logIndex.standardUncertainty(), logIndex.degreesOfFreedom());
    }

    /**
     * Returns how far the index lies from the speed on the box.
     *
     * @param boxSpeed the arithmetic speed on the box, above 0
     * @return negative where the film needs more exposure than its box says
     * @throws IllegalArgumentException if the speed is not above 0
     */
    public ExposureInterval comparedWith(double boxSpeed) {
        return ExposureInterval.ofLogUnits(logIndex.value() - Math.log10(Checks.positive("box speed", boxSpeed)));
    }

    /**
     * Returns the index in words.
     *
     * @return the setting and the density it is for
     */
    @Override
    public String toString() {
        return String.format(
                Locale.ROOT, "exposure index %.3g for %s", exposureIndex().value(), density);
    }

    /**
     * Returns the index as named values: the {@code density} of the shadow frame above base plus fog, {@code exposure_index},
     * and its logarithm {@code log_exposure_index}.
     *
     * @return the records
     */
    @Override
    public List<ResultRecord> records() {
        return List.of(
                ResultRecord.ofNumber("density", density.value(), "density"),
                ResultRecord.ofEstimate("exposure_index", exposureIndex(), ""),
                ResultRecord.ofEstimate("log_exposure_index", logIndex, "log10"));
    }
}
