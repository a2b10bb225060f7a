// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.verdict;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.SplittableRandom;
import java.util.function.ToDoubleFunction;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.CurveAnatomy;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.internal.StudentT;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.DensityDifference;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.strip.Repeatability;
import org.tonewedge.core.strip.StepTablet;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.fitting.parametric.CurveFamily;
import org.tonewedge.fitting.parametric.CurveFit;
import org.tonewedge.fitting.parametric.CurveFitException;
import org.tonewedge.fitting.parametric.ParametricForm;
import org.tonewedge.fitting.parametric.StripFit;
import org.tonewedge.standards.SystematicUncertainty;
import org.tonewedge.standards.densitometer.input.DensitometerInputException;
import org.tonewedge.standards.densitometer.summary.ReadingsSummary;

/**
 * Instruments whose detector has noise in transmittance, which grows in density as 10<sup>D</sup>, are calibrated by a tablet
 * of few steps; then their readings and the figures of a film read with them are corrected and compared with the truth.
 * {@link #main} prints what {@link DensityCorrection} tells.
 */
final class CorrectionSimulation {

    static final double[] DENSITIES = {0.3, 0.9, 1.5, 2.1, 2.7, 2.9};

    private static final double BASE = 0.25;
    private static final double LOWEST = -3;
    private static final Bend NONE = new Bend(0, 1);

    /** The shoulder begins within the readings; the greatest density is about 2.8. */
    private static final ParametricForm FILM = CurveFamily.TOE_SHOULDER.form(BASE, 1.35, -2.2, 0.18, -0.3, 0.15);

    private final int[] told = new int[DENSITIES.length];
    private final int[] held = new int[DENSITIES.length];
    private final int[][] figures = new int[Figure.values().length][6];
    /** By figure the sums of u², and of what it would be without the third and further errors of the calibration. */
    private final double[][] squares = new double[Figure.values().length][2];

    private int withoutCorrection;
    private int followed;

    private CorrectionSimulation() {}

    private enum Figure {
        SPEED_POINT(c -> c.pointAbove(DensityDifference.of(0.10)).logExposure().value()),
        GAMMA(c -> CurveAnatomy.of(c).requireStraightLine().gamma().value()),
        SHOULDER_START(c -> CurveAnatomy.of(c)
                .shoulder()
                .orElseThrow(() -> new NotDeterminableException("no shoulder"))
                .thinEnd()
                .density()
                .value()),
        GREATEST_DENSITY(c -> c.density(c.highestExposure().value()));

        @SuppressWarnings("ImmutableEnumChecker") // without state
        private final ToDoubleFunction<CharacteristicCurve> reading;

        Figure(ToDoubleFunction<CharacteristicCurve> reading) {
            this.reading = reading;
        }
    }

    /** A sine of a size, of so many half waves from D 0 to 3. */
    private record Bend(double size, int halves) {}

    /** How the instrument reads: light that leaks in, an offset, a slope, a bend, noise, and that of its detector. */
    private record Instrument(double noise, Bend bend, double leak, Random random) {

        double read(double density) {
            double seen = seen(density);
            return 0.02
                    + 0.98 * seen
                    + bend.size * Math.sin(bend.halves * Math.PI * seen / 3)
                    + deviationAt(density) * random.nextGaussian();
        }

        private double seen(double density) {
            return leak == 0 ? density : SimulatedDensitometer.leaking(leak).applyAsDouble(density);
        }

        double deviationAt(double density) {
            return Math.hypot(0.0007, noise * Math.pow(10, seen(density)) / Math.log(10));
        }

        /** What a reading scatters once it is corrected. */
        double correctedDeviationAt(double density) {
            return deviationAt(density) / 0.98 * Math.pow(10, density - seen(density));
        }
    }

    static CorrectionSimulation of(int cases, int steps, double noise, boolean common, boolean strips, long seed) {
        return of(cases, steps, noise, NONE, 0, common, strips, seed);
    }

    /** Of instruments that a whole wave bends, those that are corrected by a line, with strips. */
    static CorrectionSimulation ofWave(int cases, int steps, double noise, double size, long seed) {
        return of(cases, steps, noise, new Bend(size, 2), 0, false, true, seed);
    }

    /** Of instruments with a leak, those that are corrected by a line with a leak, with strips. */
    static CorrectionSimulation ofLeak(int cases, int steps, double noise, double leak, long seed) {
        return of(cases, steps, noise, NONE, leak, false, true, seed);
    }

    /** With a bend or a leak, only those instruments count that are corrected by a line, or a line with a leak. */
    private static CorrectionSimulation of(
            int cases, int steps, double noise, Bend bend, double leak, boolean common, boolean strips, long seed) {
        CorrectionSimulation simulation = new CorrectionSimulation();
        SplittableRandom seeds = new SplittableRandom(seed); // neighbouring seeds of Random begin alike
        for (int i = 0; i < cases; i++) {
            simulation.add(steps, noise, bend, leak, common, strips, seeds.nextLong());
        }
        return simulation;
    }

    @SuppressWarnings("EnumOrdinal") // counts are arrays by figure
    private void add(int steps, double noise, Bend bend, double leak, boolean common, boolean strips, long seed) {
        double[] densities = new double[steps];
        Arrays.setAll(densities, i -> 0.05 + 3.0 * i / (steps - 1));
        StepTablet tablet = StepTablet.calibrated("tablet", 0.005, densities);
        SimulatedDensitometer detector = new SimulatedDensitometer(seed);
        Instrument instrument = new Instrument(noise, bend, leak, detector.random);
        detector.noise = 0;
        detector.optics = instrument::read;
        DensityCorrection correction;
        try {
            StepTablet certified = common ? detector.shifted(tablet) : detector.certified(tablet);
            correction = DensityCorrection.of(ReadingsSummary.of(certified, detector.read(tablet)));
        } catch (DensitometerInputException e) {
            withoutCorrection++;
            return;
        }
        CorrectionKind kind = leak == 0 ? CorrectionKind.OFFSET_AND_SLOPE : CorrectionKind.OFFSET_SLOPE_AND_LEAK;
        if ((bend.size != 0 || leak != 0) && correction.kind() != kind) {
            followed++;
            return;
        }
        for (int d = 0; d < DENSITIES.length; d++) {
            try {
                Estimate corrected = correction.correct(Density.of(instrument.read(DENSITIES[d])));
                told[d]++;
                held[d] += Math.abs(corrected.value() - DENSITIES[d]) <= corrected.expandedUncertainty(2) ? 1 : 0;
            } catch (NotDeterminableException | IllegalArgumentException e) {
                // beyond the tablet
            }
        }
        if (strips) {
            CharacteristicCurve truth = CharacteristicCurve.of(
                    "film",
                    FILM,
                    LogExposure.ofLogLuxSeconds(LOWEST),
                    LogExposure.ofLogLuxSeconds(0),
                    Density.of(BASE));
            Strip.Builder strip = Strip.builder("film");
            try {
                for (int i = 0; i < 3; i++) {
                    strip.basePlusFog(correction
                            .correct(Density.of(instrument.read(BASE)))
                            .value());
                }
                for (int i = 0; i <= 20; i++) {
                    double x = LOWEST + 0.15 * i;
                    strip.reading(
                            LogExposure.ofLogLuxSeconds(x),
                            Density.of(correction
                                    .correct(Density.of(instrument.read(FILM.density(x))))
                                    .value()));
                }
            } catch (NotDeterminableException e) {
                return;
            }
            correction.forReadings("densitometer").commonErrors().forEach(strip::densityError);
            // the noise of the detector is known to whoever reads the dense end several times
            Repeatability varying = Repeatability.of(instrument::correctedDeviationAt);
            CurveFit fit = CurveFit.of(CurveFamily.TOE_SHOULDER);
            count(truth, strip.build(), fit, 0);
            count(truth, strip.build(), fit.with(varying), 3);
        }
    }

    @SuppressWarnings("EnumOrdinal") // counts are arrays by figure
    private void count(CharacteristicCurve truth, Strip strip, CurveFit options, int at) {
        StripFit fit;
        try {
            fit = StripFit.of(strip, options);
        } catch (CurveFitException e) {
            return;
        }
        for (Figure figure : Figure.values()) {
            try {
                double value = figure.reading.applyAsDouble(truth);
                Estimate own = fit.estimate(figure.reading);
                SystematicUncertainty common = SystematicUncertainty.of(
                        List.of(strip),
                        strips -> figure.reading.applyAsDouble(
                                StripFit.of(strips.get(0), options).curve()));
                int[] counts = figures[figure.ordinal()];
                counts[at]++;
                counts[at + 1] += own.interval(0.95).contains(value) ? 1 : 0;
                Estimate both = both(own, common);
                counts[at + 2] += both.interval(0.95).contains(value) ? 1 : 0;
                if (at > 0) {
                    double all = both.standardUncertainty() * both.standardUncertainty();
                    squares[figure.ordinal()][0] += all;
                    squares[figure.ordinal()][1] += all - unresolved(common);
                }
            } catch (NotDeterminableException | IllegalArgumentException e) {
                // not told
            }
        }
    }

    /** The variance that a line's calibration has from its third error on: that of the deviation from the line. */
    private static double unresolved(SystematicUncertainty common) {
        return common.contributions().entrySet().stream()
                .filter(entry -> entry.getKey().matches("calibration of densitometer, error ([3-9]|\\d\\d)"))
                .mapToDouble(entry -> entry.getValue() * entry.getValue())
                .sum();
    }

    /** Own and common uncertainty together, as figures have them; the common one counts as certain. */
    private static Estimate both(Estimate own, SystematicUncertainty common) {
        double together = Math.hypot(own.standardUncertainty(), common.standardUncertainty());
        double share = own.standardUncertainty() / together;
        return Estimate.of(own.value(), together, StudentT.besideStated(own.degreesOfFreedom(), share * share));
    }

    double coverage(int density) {
        return held[density] / (double) told[density];
    }

    @SuppressWarnings("EnumOrdinal") // counts are arrays by figure
    double coverageOfGamma() {
        int[] counts = figures[Figure.GAMMA.ordinal()];
        return counts[5] / (double) counts[3];
    }

    /** The same by the intervals of the fit alone. */
    @SuppressWarnings("EnumOrdinal") // counts are arrays by figure
    double coverageOfGammaByFit() {
        int[] counts = figures[Figure.GAMMA.ordinal()];
        return counts[4] / (double) counts[3];
    }

    /**
     * Prints the tables.
     *
     * @param args the number of instruments, the steps of the tablet, the noise of the detector in transmittance; then perhaps
     *     "common", for a certificate of which all densities have the same error, "strips", and "bend=0.016,2" for a
     *     sine of that size and so many half waves, where only instruments count that a line corrects nonetheless, and
     *     "leak=0.0003" for light that leaks in, where only those count that are corrected for a leak
     */
    @SuppressWarnings("EnumOrdinal") // counts are arrays by figure
    public static void main(String[] args) {
        int cases = Integer.parseInt(args[0]);
        List<String> options = List.of(args).subList(3, args.length);
        boolean strips = options.contains("strips");
        Bend bend = NONE;
        double leak = 0;
        for (String option : options) {
            String[] parts = option.split("[=,]", -1);
            if (parts[0].equals("bend")) {
                bend = new Bend(Double.parseDouble(parts[1]), Integer.parseInt(parts[2]));
            } else if (parts[0].equals("leak")) {
                leak = Double.parseDouble(parts[1]);
            }
        }
        CorrectionSimulation simulation = of(
                cases,
                Integer.parseInt(args[1]),
                Double.parseDouble(args[2]),
                bend,
                leak,
                options.contains("common"),
                strips,
                100_000);
        int corrected = cases - simulation.withoutCorrection - simulation.followed;
        StringBuilder line = new StringBuilder(Arrays.toString(args));
        line.append(" without correction ")
                .append(simulation.withoutCorrection)
                .append(", followed ")
                .append(simulation.followed)
                .append(";");
        for (int d = 0; d < DENSITIES.length; d++) {
            line.append(String.format(
                    Locale.ROOT,
                    " D %.1f told %.3f held %.3f",
                    DENSITIES[d],
                    simulation.told[d] / (double) corrected,
                    simulation.coverage(d)));
        }
        System.out.println(line);
        if (strips) {
            for (Figure figure : Figure.values()) {
                int[] c = simulation.figures[figure.ordinal()];
                System.out.printf(
                        Locale.ROOT,
                        "  %-17s from residuals: told %.3f, contained %.3f, with common errors %.3f;"
                                + " varying: told %.3f, contained %.3f, with common errors %.3f;"
                                + " u %.4f, without the deviation from a line %.4f%n",
                        figure,
                        c[0] / (double) corrected,
                        c[1] / (double) c[0],
                        c[2] / (double) c[0],
                        c[3] / (double) corrected,
                        c[4] / (double) c[3],
                        c[5] / (double) c[3],
                        Math.sqrt(simulation.squares[figure.ordinal()][0] / c[3]),
                        Math.sqrt(simulation.squares[figure.ordinal()][1] / c[3]));
            }
        }
    }
}
