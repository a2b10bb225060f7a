// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.detail;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.OptionalDouble;
import org.tonewedge.core.curve.OutsideMeasuredRangeException;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.scan.ScanCodeTable;
import org.tonewedge.core.scan.ScanEncoding;
import org.tonewedge.core.strip.StepTablet;
import org.tonewedge.standards.densitometer.input.DensitometerInputException;
import org.tonewedge.standards.densitometer.input.LogReading;
import org.tonewedge.standards.densitometer.input.RawCounts;
import org.tonewedge.standards.densitometer.summary.ReadingsSummary;
import org.tonewedge.standards.densitometer.verdict.DensityCorrection;

/**
 * A scanner as a densitometer: what its codes mean in density, by a step tablet with a certificate that lies on the scan, or
 * on another scan at the same settings.
 *
 * <pre>{@code
 * ScanEncoding nominal = ScanEncoding.ofTransmittanceSteps(0, 65_535, 65_535);
 * ScanCodeTable codes = ScanCodeTable.densities(nominal);
 * List<PatchGrid.Area> steps = PatchGrid.readEach(scan, StepFinder.of(21).find(scan, box, codes), codes);
 * ScanCalibration calibration = ScanCalibration.of(tablet, steps);
 * ScanCodeTable densities = ScanCodeTable.densities(calibration.encoding(nominal));
 * }</pre>
 *
 * <p>Nominal densities, −log<sub>10</sub> of the code over that of the open gate, are corrected as those of a
 * densitometer: by a line, a line and a leak (flare, or a wrong dark code), or a monotone table where codes are not
 * proportional to light; see {@link DensityCorrection}. The parts of each step serve as repeat readings. Beyond the steps of
 * the tablet there is no density.
 *
 * <p>Flare from bright surroundings depends on what lies about the film; the correction holds where the tablet lay in
 * surroundings like those of the film.
 *
 * <p>Immutable and thread safe.
 *
 * @source scanner as densitometer: common practice, no source
 */
public final class ScanCalibration {

    private static final double OPEN = 1e6;
    private static final double SMALL = 1e-3;

    private final StepTablet tablet;
    private final DensityCorrection correction;

    private ScanCalibration(StepTablet tablet, DensityCorrection correction) {
        this.tablet = tablet;
        this.correction = correction;
    }

    /**
     * Calibrates a scanner.
     *
     * @param tablet the tablet with the densities of its certificate
     * @param steps its steps in nominal densities, from either end
     * @return the calibration, in the simplest form that fits
     * @throws IllegalArgumentException if the tablet has no certificate, or another number of steps
     * @throws DensitometerInputException if the steps allow no correction; the message says why
     */
    public static ScanCalibration of(StepTablet tablet, List<PatchGrid.Area> steps) {
        if (!tablet.isCalibrated()) {
            throw new IllegalArgumentException("a " + tablet.name()
                    + " cannot calibrate a scanner, since real steps depart from their nominal densities; take one with a"
                    + " certificate, or the densities that a trusted densitometer reads on this one");
        }
        if (steps.size() != tablet.steps().size()) {
            throw new IllegalArgumentException(
                    tablet.name() + " has " + tablet.steps().size() + " steps, but " + steps.size() + " were read");
        }
        List<PatchGrid.Area> fromClearEnd = new ArrayList<>(steps);
        if (steps.get(0).density().value()
                > steps.get(steps.size() - 1).density().value()) {
            Collections.reverse(fromClearEnd);
        }
        return new ScanCalibration(tablet, DensityCorrection.of(ReadingsSummary.of(tablet, readings(fromClearEnd))));
    }

    /** Each part of a step is a reading of it; a run goes over all steps. */
    private static List<LogReading> readings(List<PatchGrid.Area> steps) {
        List<LogReading> readings = new ArrayList<>();
        int most = steps.stream().mapToInt(step -> step.blocks().length).max().orElseThrow();
        for (int run = 0; run < Math.max(1, most); run++) {
            for (int i = 0; i < steps.size(); i++) {
                double[] parts = steps.get(i).blocks();
                if (run < parts.length || (run == 0 && parts.length == 0)) {
                    double nominal = parts.length == 0 ? steps.get(i).density().value() : parts[run];
                    readings.add(LogReading.of(RawCounts.of(OPEN * Math.pow(10, -nominal), 0, OPEN))
                            .withStep(i + 1)
                            .withRun("part " + (run + 1)));
                }
            }
        }
        return readings;
    }

    /**
     * Returns the correction of nominal densities.
     *
     * @return the correction
     */
    public DensityCorrection correction() {
        return correction;
    }

    /**
     * Returns a patch in densities.
     *
     * @param nominal the patch in nominal densities
     * @return the patch with its density corrected; its uncertainty and its degrees of freedom include the calibration
     * @throws OutsideMeasuredRangeException if the patch is lighter or denser than the tablet
     */
    public PatchGrid.Area corrected(PatchGrid.Area nominal) {
        double at = nominal.density().value();
        Estimate density = correction.correct(Density.of(at));
        double step = at + SMALL <= correction.highestReading() ? SMALL : -SMALL;
        double steepness = (correction.correct(Density.of(at + step)).value() - density.value()) / step;
        Estimate own = Estimate.of(
                0,
                nominal.estimate().standardUncertainty() * Math.abs(steepness),
                nominal.estimate().degreesOfFreedom());
        return nominal.with(density.minus(own), Math.abs(steepness));
    }

    /**
     * Returns what codes mean, corrected.
     *
     * @param nominal the encoding in which the steps of the tablet were read
     * @return the encoding of true densities; codes beyond the tablet have none
     */
    public ScanEncoding encoding(ScanEncoding nominal) {
        ScanCodeTable codes = ScanCodeTable.densities(nominal);
        return ScanEncoding.measured("by the tablet " + tablet.name(), nominal.highestCode(), code -> {
            double reading = codes.covers(code) ? codes.value(code) : Double.NaN;
            return reading >= correction.lowestReading() && reading <= correction.highestReading()
                    ? OptionalDouble.of(correction.correct(Density.of(reading)).value())
                    : OptionalDouble.empty();
        });
    }

    /**
     * Returns the calibration in words.
     *
     * @return the correction and the tablet
     */
    @Override
    public String toString() {
        return correction + ", by " + tablet;
    }
}
