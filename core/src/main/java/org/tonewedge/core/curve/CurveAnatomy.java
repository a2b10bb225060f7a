// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.curve;

import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import org.tonewedge.core.curve.NotDeterminableException.Reason;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.Gradient;
import org.tonewedge.core.quantity.LogExposure;

/**
 * The parts of a characteristic curve by a stated {@link AnatomyCriterion}: how long its toe, straight line and shoulder
 * are, and the gamma of the straight line.
 *
 * <p>A part that lies wholly outside the measured range is absent; a part that lies partly outside is marked as not
 * complete.
 *
 * <p>A curve drawn through its readings follows every reading error, which ends the straight line too early. With
 * errors of 0.005 on 31 steps the straight line comes out about 0.08 log units too short. A fitted curve has no such
 * bias; {@code AnatomyOfReadingsTest} in the examples simulates both.
 *
 * <p><b>Gamma</b> is the gradient of the straight line: of the steepest chord over three tenths of the straight part,
 * which is the greatest gradient sustained over that span. It is read in the same way off every curve, whatever its
 * form, so that films fitted by different models can be compared. Its bias against the greatest gradient at a point is
 * −0.7 % on a sigmoid of any contrast, −1 % where the window is long beside the straight part, less on a curve with a
 * straighter middle ({@code GammaBiasTest}). The {@linkplain CurveForm#straightLine() line of a model} with toe and
 * shoulder is steeper if the two run together, because the curve nowhere reaches it. The readings of such strips
 * determine the model's gradient poorly. A curve drawn through readings with errors, without a fit, makes gamma too steep.
 *
 * <p>A curve whose gradient still rises at the dense end of the readings has not reached its straight line: where no
 * shoulder begins within the readings, the gradient over the last three tenths of the steep part exceeds that over the
 * three tenths before by more than 1 %. Then gamma is only the greatest gradient sustained up to the last reading, and the
 * end of the toe is not known; {@link #requireStraightLine()} refuses such a curve. Use it for fitted curves: the error of a
 * single reading can make a curve through its readings seem to rise.
 *
 * <p>The threshold of 1 % is the bias that gamma may have. Near it, noise decides, and it errs towards refusing: a refused
 * gamma is missed, a wrong one is not seen. Simulated were 10,000 strips of long toes whose true gradient rises by at most
 * 1 %, and 10,000 upswept ones, each of 21 steps, fitted by toe, straight line and shoulder ({@code StraightLineSimulation}
 * in the tests of the fitting module):
 *
 * <pre>
 * standard deviation of a reading          0.005   0.01   0.02
 * straight, but refused, %                   8.7   16.5   27.1
 * upswept, but gamma given, %                0.2    0.6    3.9
 * the two with a threshold of 2 %         0, 7.2   0, 8.8   1.2, 14.7
 * the two if only a rise shown at 95 %
 * to be more than 1 % is refused        0.2, 3.2   0.4, 8.6   0.7, 30.4
 * of those refused, a smoothing spline
 * gives gamma of, %                    48.7, 1.2  45.8, 4.0  42.2,  7.8
 * </pre>
 *
 * <p>The remedy is to expose and read further steps. Without them a monotone smoothing spline, which assumes no family, finds
 * the end of nearly half of the refused straight strips straight; an average gradient needs no straight line.
 *
 * <p>Falling curves have the same parts: the toe is always at the thin end, the shoulder at the dense end.
 *
 * <p>Immutable and thread safe.
 */
public final class CurveAnatomy {

    private static final double ROUNDING = 1e-9;

    /** The span over which gamma is sustained, as a fraction of the straight line. */
    private static final double SUSTAINED = 0.3;

    /** A straight line may rise by this fraction from one such span to the next: the greatest bias of gamma. */
    private static final double STRAIGHT = 0.01;

    private final AnatomyCriterion criterion;
    private final CurveRegion toe;
    private final CurveRegion straightLine;
    private final CurveRegion shoulder;
    private final Gradient greatestGradient;
    private final CharacteristicCurve curve;
    /** The line whose gradient is gamma. */
    private final StraightLine line;
    /** By how much, as a fraction, the gradient still rises at the dense end; 0 if the straight line is reached. */
    private final double stillRising;

    private CurveAnatomy(
            CharacteristicCurve curve,
            AnatomyCriterion criterion,
            CurveRegion toe,
            CurveRegion straightLine,
            CurveRegion shoulder,
            Gradient greatestGradient,
            StraightLine line,
            double stillRising) {
        this.curve = curve;
        this.line = line;
        this.stillRising = stillRising;
        this.criterion = criterion;
        this.toe = toe;
        this.straightLine = straightLine;
        this.shoulder = shoulder;
        this.greatestGradient = greatestGradient;
    }

    /**
     * Divides a curve by the default criterion.
     *
     * @param curve the curve
     * @return its parts
     * @throws NotDeterminableException as {@link #of(CharacteristicCurve, AnatomyCriterion)} does
     */
    public static CurveAnatomy of(CharacteristicCurve curve) {
        return of(curve, AnatomyCriterion.withDefaults());
    }

    /**
     * Divides a curve by a criterion.
     *
     * @param curve the curve
     * @param criterion the rule
     * @return its parts
     * @throws NotDeterminableException if the measured range is not longer than the window, or the density rises by
     *     less than 0.10 over it or falls back by more than 0.05
     */
    public static CurveAnatomy of(CharacteristicCurve curve, AnatomyCriterion criterion) {
        // A falling curve is read from its other end, so that the thin end is always on the left.
        double sign = curve.direction() == CurveDirection.RISING ? 1 : -1;
        CurveForm form = sign > 0 ? curve.form() : ShiftedForm.mirrored(curve.form());
        double a = sign * curve.lowestExposure().value();
        double b = sign * curve.highestExposure().value();
        double left = Math.min(a, b);
        double right = Math.max(a, b);
        double window = criterion.window().logUnits();
        if (!(right - left > window)) {
            throw new NotDeterminableException(
                    Reason.TOO_FEW_READINGS,
                    curve.name() + ": the measured range is no longer than the window of " + criterion.window()
                            + " over which its gradient is averaged; read more steps or narrow the window");
        }
        if (curve.greatestReversal() > AnatomyCriterion.GREATEST_REVERSAL) {
            throw new NotDeterminableException(
                    Reason.UNSUITABLE_CURVE,
                    curve.name() + ": density turns back by "
                            + Figures.plain(curve.greatestReversal())
                            + "; look for dust or swapped steps, or restrict a reversing curve to one branch");
        }
        double rise = form.density(right) - form.density(left);
        if (!(rise >= AnatomyCriterion.LEAST_RISE - ROUNDING)) {
            throw new NotDeterminableException(
                    Reason.UNSUITABLE_CURVE,
                    curve.name() + ": density rises by only " + Figures.plain(rise)
                            + " over the measured range, less than " + Figures.plain(AnatomyCriterion.LEAST_RISE)
                            + "; a curve without contrast has no toe and no straight line: read a strip with more exposure");
        }
        GradientSearch scan = GradientSearch.of(form, window, left + window / 2, right - window / 2);
        double steepest = scan.steepest();
        double greatest = scan.gradient(steepest);
        double lineLevel = criterion.straightLineFraction() * greatest;
        double endLevel = criterion.endFraction() * greatest;
        double lineFrom = scan.fallsBelow(lineLevel, steepest, -1);
        double lineTo = scan.fallsBelow(lineLevel, steepest, 1);
        Cutter cutter = new Cutter(curve, sign, left, right);
        CurveRegion straight = cutter.cut(CurveRegion.Kind.STRAIGHT_LINE, lineFrom, lineTo);
        double from = Double.isNaN(lineFrom) ? left : lineFrom;
        double rising = Double.isNaN(lineTo) ? riseAtEnd(form, from, right) : 0;
        CurveRegion toe = Double.isNaN(lineFrom)
                ? null
                : cutter.cut(CurveRegion.Kind.TOE, scan.fallsBelow(endLevel, lineFrom, -1), lineFrom, rising == 0);
        CurveRegion shoulder = Double.isNaN(lineTo)
                ? null
                : cutter.cut(CurveRegion.Kind.SHOULDER, lineTo, scan.fallsBelow(endLevel, lineTo, 1));
        StraightLine line = steepestChord(scan, form, sign, from, Double.isNaN(lineTo) ? right : lineTo);
        return new CurveAnatomy(curve, criterion, toe, straight, shoulder, Gradient.of(sign * greatest), line, rising);
    }

    /** By how much, as a fraction, the gradient rises over the last two sustained spans; 0 if that is nothing. */
    private static double riseAtEnd(CurveForm form, double from, double to) {
        double span = SUSTAINED * (to - from);
        double last = form.density(to) - form.density(to - span);
        double before = form.density(to - span) - form.density(to - 2 * span);
        double rise = last / before - 1;
        return rise > STRAIGHT ? rise : 0;
    }

    /** The steepest chord over a part of the straight line, through its middle; the thin end of the form is on the left. */
    private static StraightLine steepestChord(
            GradientSearch whole, CurveForm form, double sign, double from, double to) {
        double half = 0.5 * SUSTAINED * (to - from);
        GradientSearch scan = whole.ofPart(2 * half, from + half, to - half);
        double middle = scan.steepest();
        return new StraightLine(
                sign * middle,
                0.5 * (form.density(middle + half) + form.density(middle - half)),
                sign * scan.gradient(middle));
    }

    /** Makes regions of a curve; an end that was not found is the end of the measured range. */
    private record Cutter(CharacteristicCurve curve, double sign, double left, double right) {

        CurveRegion cut(CurveRegion.Kind kind, double from, double to) {
            return cut(kind, from, to, true);
        }

        CurveRegion cut(CurveRegion.Kind kind, double from, double to, boolean whole) {
            boolean complete = whole && !Double.isNaN(from) && !Double.isNaN(to);
            return new CurveRegion(
                    kind, point(Double.isNaN(from) ? left : from), point(Double.isNaN(to) ? right : to), complete);
        }

        private CurvePoint point(double x) {
            return curve.pointAt(new LogExposure(sign * x, curve.axis()));
        }
    }

    /**
     * Returns the criterion by which the curve was divided.
     *
     * @return the criterion
     */
    public AnatomyCriterion criterion() {
        return criterion;
    }

    /**
     * Returns the toe.
     *
     * @return the toe, or nothing if the straight line begins at the end of the measured range
     */
    public Optional<CurveRegion> toe() {
        return Optional.ofNullable(toe);
    }

    /**
     * Returns the straight line.
     *
     * @return the straight line
     */
    public CurveRegion straightLine() {
        return straightLine;
    }

    /**
     * Returns the shoulder.
     *
     * @return the shoulder, or nothing if the straight line runs to the end of the measured range
     */
    public Optional<CurveRegion> shoulder() {
        return Optional.ofNullable(shoulder);
    }

    /**
     * Tells whether the readings reach the straight line.
     *
     * @return false if the gradient still rises by more than 1 % at the dense end, as this class explains
     */
    public boolean reachesStraightLine() {
        return stillRising == 0;
    }

    /**
     * Refuses a curve that does not reach its straight line, since its gamma and the end of its toe are unknown.
     *
     * @return these parts
     * @throws NotDeterminableException if {@link #reachesStraightLine()} is false; the message names the last reading
     */
    public CurveAnatomy requireStraightLine() {
        if (!reachesStraightLine()) {
            CurvePoint end = straightLine.denseEnd();
            throw new NotDeterminableException(
                    Reason.UNSUITABLE_CURVE,
                    curve.name() + ": the gradient still rises at the last reading, "
                            + end.density() + " at " + end.logExposure() + ": over the last "
                            + Figures.plain(SUSTAINED * straightLine.length().logUnits()) + " log units it is "
                            // Rounded up, so that it never reads as the 1 % that is allowed.
                            + String.format(Locale.ROOT, "%.1f", Math.ceil(1000 * stillRising) / 10)
                            + " % more than over those before, and 1 % is allowed. Gamma and the end of the toe are"
                            + " therefore unknown: expose and read further steps; or, if a family was fitted, draw a"
                            + " smoothing spline, which may find the end straight; or use an average gradient");
        }
        return this;
    }

    /**
     * Returns gamma, the gradient of the straight line as this class defines it.
     *
     * @return gamma; negative for a falling curve
     * @source gamma as ΔD/Δlog H of the straight-line part: US Navy NAVEDTRA 14208, Photography (Advanced), chapter 2; the
     *     span over which it is sustained is common practice, no source
     */
    public Gradient gamma() {
        return Gradient.of(line.gradient());
    }

    /**
     * Returns the exposure at which the straight line whose gradient is {@link #gamma()}, continued either way, has a
     * density. At the density of base plus fog this is the inertia. The farther the line is continued, the more an
     * error of its gradient counts.
     *
     * @param density the density
     * @return the exposure, which may lie outside the measured range
     */
    public LogExposure straightLineAt(Density density) {
        return new LogExposure(line.logExposureAt(density.value()), curve.axis());
    }

    /**
     * Returns the greatest gradient of the curve, averaged over the window.
     *
     * @return the gradient; negative for a falling curve
     */
    public Gradient greatestGradient() {
        return greatestGradient;
    }

    /**
     * Returns the parts in words.
     *
     * @return the length of each part and gamma
     */
    @Override
    public String toString() {
        return "toe " + length(toe) + ", straight line " + length(straightLine) + ", shoulder " + length(shoulder)
                + ", gamma " + Figures.plain(line.gradient());
    }

    private static String length(CurveRegion part) {
        if (part == null) {
            return "not seen";
        }
        return (part.isComplete() ? "" : "at least ")
                + Figures.plain(part.length().logUnits());
    }

    /**
     * Compares by value.
     *
     * @param other any object
     * @return true if the other is equal in all that it was made of
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof CurveAnatomy that
                && Objects.equals(criterion, that.criterion)
                && Objects.equals(curve, that.curve);
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(criterion, curve);
    }
}
