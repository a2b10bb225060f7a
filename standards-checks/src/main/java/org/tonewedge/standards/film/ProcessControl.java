// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.film;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.standards.densitometer.control.ControlChart;
import org.tonewedge.standards.densitometer.control.ControlPoint;
import org.tonewedge.standards.densitometer.control.ControlRule;

/**
 * Control of a development process by strips: each run develops one of a batch of strips that were exposed alike, and its
 * base plus fog, speed point and contrast are set beside those of a reference strip.
 *
 * <pre>{@code
 * ProcessControl control = ProcessControl.against(ControlReading.of(0.28, 0.72, 1.35));
 * control.judge(readings).forEach(System.out::println);
 * }</pre>
 *
 * <p>The speed point is the density of one step a little above the toe, the contrast the difference between a step on the
 * upper straight line and it. A run beyond its limits is out of control. So is the last of eight runs on one side of
 * the reference, and the last of six that rise or fall from run to run, even within the limits.
 *
 * <table>
 * <caption>Limits by default, either side</caption>
 * <tr><td>base plus fog</td><td>0.03</td></tr>
 * <tr><td>speed point</td><td>0.06</td></tr>
 * <tr><td>contrast</td><td>0.08</td></tr>
 * </table>
 *
 * <p>Better limits come from one's own process, {@link #withLimitsFrom withLimitsFrom}: three standard deviations, from the mean difference
 * of neighbouring runs over 1.128. With them, and nothing wrong, one run in 370 lies beyond a limit of one parameter.
 *
 * <p>Immutable and thread safe.
 *
 * @source limits by default, speed and contrast points: common practice, no source, no published rules were read; three
 *     standard deviations, 1.128 for ranges of two, runs and trends: control charts for individuals, from memory
 */
public final class ProcessControl {

    private static final double DEVIATIONS = 3;

    private final ControlReading reference;
    private final Map<Parameter, Double> limits;

    private ProcessControl(ControlReading reference, Map<Parameter, Double> limits) {
        this.reference = reference;
        this.limits = new EnumMap<>(limits);
    }

    /** What is controlled. */
    public enum Parameter {
        /** Base plus fog. */
        BASE_PLUS_FOG("base plus fog"),
        /** The density of the speed point. */
        SPEED_POINT("speed point"),
        /** The difference between the high step and the speed point. */
        CONTRAST("contrast");

        private final String words;

        Parameter(String words) {
            this.words = words;
        }

        private double of(ControlReading reading) {
            return switch (this) {
                case BASE_PLUS_FOG -> reading.basePlusFog();
                case SPEED_POINT -> reading.speedPoint();
                case CONTRAST -> reading.contrast();
            };
        }
    }

    /**
     * The readings of a control strip.
     *
     * @param basePlusFog the density of the unexposed film
     * @param speedPoint the gross density of the step of the speed point
     * @param highStep the gross density of the step on the upper straight line
     */
    public record ControlReading(double basePlusFog, double speedPoint, double highStep) {

        /**
         * Checks the readings.
         *
         * @param basePlusFog the density of the unexposed film
         * @param speedPoint the gross density of the step of the speed point, no less than base plus fog
         * @param highStep the gross density of the high step, above the speed point
         * @throws IllegalArgumentException if a density is out of range or out of order
         */
        public ControlReading {
            Checks.within("base plus fog of a control strip", basePlusFog, 0, 4, "");
            Checks.within("speed point of a control strip", speedPoint, basePlusFog, 6, "look for swapped steps");
            if (!(highStep > speedPoint && highStep <= 6)) {
                throw new IllegalArgumentException("the high step of a control strip must be above its speed point "
                        + Figures.plain(speedPoint) + " and at most 6, was " + highStep + ": look for swapped steps");
            }
        }

        /**
         * Returns readings.
         *
         * @param basePlusFog the density of the unexposed film
         * @param speedPoint the gross density of the step of the speed point
         * @param highStep the gross density of the high step
         * @return the readings
         * @throws IllegalArgumentException as the constructor does
         */
        public static ControlReading of(double basePlusFog, double speedPoint, double highStep) {
            return new ControlReading(basePlusFog, speedPoint, highStep);
        }

        /**
         * Returns the contrast.
         *
         * @return the difference of the high step and the speed point
         */
        public double contrast() {
            return highStep - speedPoint;
        }
    }

    /**
     * Returns a control with the limits of the table above.
     *
     * @param reference the readings of the reference strip
     * @return the control
     */
    public static ProcessControl against(ControlReading reference) {
        Objects.requireNonNull(reference, "reference");
        return new ProcessControl(reference, limits(0.03, 0.06, 0.08));
    }

    /**
     * Returns a copy with other limits.
     *
     * @param basePlusFog how far base plus fog may lie from the reference, above 0
     * @param speedPoint how far the speed point may
     * @param contrast how far the contrast may
     * @return the copy
     * @throws IllegalArgumentException if a limit is not above 0
     */
    public ProcessControl withLimits(double basePlusFog, double speedPoint, double contrast) {
        return new ProcessControl(
                reference,
                limits(
                        Checks.positive("limit of base plus fog", basePlusFog),
                        Checks.positive("limit of the speed point", speedPoint),
                        Checks.positive("limit of the contrast", contrast)));
    }

    private static Map<Parameter, Double> limits(double basePlusFog, double speedPoint, double contrast) {
        return Map.of(
                Parameter.BASE_PLUS_FOG, basePlusFog, Parameter.SPEED_POINT, speedPoint, Parameter.CONTRAST, contrast);
    }

    /**
     * Returns a copy with limits of three standard deviations, from runs in which nothing was wrong.
     *
     * @param runs ten runs or more, in the order of their days
     * @return the copy
     * @throws IllegalArgumentException if there are fewer than ten runs, or a parameter never varies
     */
    public ProcessControl withLimitsFrom(List<ControlReading> runs) {
        if (runs.size() < ControlChart.FEWEST_SESSIONS) {
            throw new IllegalArgumentException("limits need " + ControlChart.FEWEST_SESSIONS + " runs at least, had "
                    + runs.size() + "; keep the limits by default until then");
        }
        Map<Parameter, Double> found = new EnumMap<>(Parameter.class);
        for (Parameter parameter : Parameter.values()) {
            double[] values = runs.stream().mapToDouble(parameter::of).toArray();
            if (Arrays.stream(values).distinct().count() == 1) {
                throw new IllegalArgumentException(
                        "the " + parameter.words + " never varies; state limits with withLimits");
            }
            found.put(parameter, DEVIATIONS * ControlChart.fromBaseline(values).deviation());
        }
        return new ProcessControl(reference, found);
    }

    /**
     * Returns the limit of a parameter.
     *
     * @param parameter the parameter
     * @return how far it may lie from the reference
     */
    public double limit(Parameter parameter) {
        Objects.requireNonNull(parameter, "parameter");
        return limits.get(parameter);
    }

    /**
     * Judges runs.
     *
     * @param runs the readings of the control strips, in the order of their days
     * @return what is out of control, by run; empty if nothing is
     */
    public List<Alarm> judge(List<ControlReading> runs) {
        Map<Parameter, List<ControlPoint>> points = new EnumMap<>(Parameter.class);
        for (Parameter parameter : Parameter.values()) {
            ControlChart chart = ControlChart.of(parameter.of(reference), limit(parameter) / DEVIATIONS)
                    .withMultiple(DEVIATIONS);
            points.put(
                    parameter,
                    chart.watch(runs.stream().mapToDouble(parameter::of).toArray()));
        }
        List<Alarm> alarms = new ArrayList<>();
        for (int i = 0; i < runs.size(); i++) {
            for (Parameter parameter : Parameter.values()) {
                ControlPoint point = points.get(parameter).get(i);
                double departure = point.value() - parameter.of(reference);
                int run = i + 1;
                cause(point.signals()).ifPresent(cause -> alarms.add(new Alarm(run, parameter, departure, cause)));
            }
        }
        return List.copyOf(alarms);
    }

    private static Optional<Cause> cause(Set<ControlRule> signals) {
        if (signals.contains(ControlRule.BEYOND_LIMITS)) {
            return Optional.of(Cause.BEYOND_LIMIT);
        }
        if (signals.contains(ControlRule.EIGHT_ON_ONE_SIDE)) {
            return Optional.of(Cause.SHIFT);
        }
        return signals.contains(ControlRule.TREND) ? Optional.of(Cause.TREND) : Optional.empty();
    }

    /** Why a run is out of control. */
    public enum Cause {
        /** The parameter lies beyond its limit. */
        BEYOND_LIMIT("beyond the limit"),
        /** Too many runs in a row lie on one side. */
        SHIFT("the last of 8 runs on one side of the reference"),
        /** Too many runs in a row rise, or fall. */
        TREND("the last of 6 runs that drift one way");

        private final String words;

        Cause(String words) {
            this.words = words;
        }
    }

    /**
     * A parameter of a run that is out of control.
     *
     * @param run the number of the run, from 1
     * @param parameter the parameter
     * @param departure the parameter less that of the reference
     * @param cause why
     */
    public record Alarm(int run, Parameter parameter, double departure, Cause cause) {
        /**
         * Checks that nothing is missing.
         *
         * @param run the number of the run, from 1
         * @param parameter the parameter
         * @param departure the parameter less that of the reference
         * @param cause why
         */
        public Alarm {
            Objects.requireNonNull(parameter, "parameter");
            Objects.requireNonNull(cause, "cause");
        }

        /**
         * Returns the alarm in words.
         *
         * @return the run, the parameter, by how much and why
         */
        @Override
        public String toString() {
            return String.format(
                    Locale.ROOT,
                    "run %d: %s %+.3f from the reference, %s",
                    run,
                    parameter.words,
                    departure,
                    cause.words);
        }
    }

    /**
     * Returns the speed of a run against the reference, where the gradient at the speed point is known.
     *
     * @param run the readings of the run
     * @param gradient the gradient of the reference at the speed point, above 0
     * @return the difference of net densities of the speed point over the gradient; positive for a faster process
     * @throws IllegalArgumentException if the gradient is not above 0
     */
    public ExposureInterval speedChange(ControlReading run, double gradient) {
        Checks.positive("gradient at the speed point", gradient);
        double net = run.speedPoint() - run.basePlusFog();
        return ExposureInterval.ofLogUnits((net - (reference.speedPoint() - reference.basePlusFog())) / gradient);
    }

    /**
     * Returns the control in words.
     *
     * @return the reference and the limits
     */
    @Override
    public String toString() {
        return reference + ", limits " + limits;
    }
}
