// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.paper;

import java.util.Objects;
import java.util.Optional;
import org.tonewedge.core.curve.CurvePoint;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.strip.TestConditions;
import org.tonewedge.standards.Evidence;
import org.tonewedge.standards.FigureDetermination;

/**
 * The range of a paper by {@link Iso6846}, such as ISO R110. The {@link #figure()} is the log exposure range.
 *
 * <p>Immutable and thread safe.
 */
public final class Iso6846Range implements FigureDetermination<Iso6846Range> {

    /** No paper has a range of so many log units; the softest grade ends at 1.70. Common practice, no source. */
    private static final double LONGEST = 2;

    private final Evidence evidence;
    private final TestConditions conditions;

    Iso6846Range(Evidence evidence) {
        this(evidence, TestConditions.notStated());
    }

    private Iso6846Range(Evidence evidence, TestConditions conditions) {
        this.evidence = evidence;
        this.conditions = conditions;
    }

    /**
     * Returns point T, at the highlights.
     *
     * @return the point 0.04 above base plus fog
     */
    public CurvePoint toe() {
        return points().get(0);
    }

    /**
     * Returns point S, at the shadows.
     *
     * @return the point at 0.90 of the greatest density
     */
    public CurvePoint shoulder() {
        return points().get(1);
    }

    /**
     * Returns the log exposure range.
     *
     * @return the interval from T to S; a negative with this density range prints well
     */
    public ExposureInterval logExposureRange() {
        return shoulder().logExposure().minus(toe().logExposure());
    }

    /**
     * Returns the log exposure range as a number.
     *
     * @return log<sub>10</sub> H<sub>S</sub> − log<sub>10</sub> H<sub>T</sub>
     * @units log units
     */
    @Override
    public double figure() {
        return logExposureRange().logUnits();
    }

    /**
     * Returns the ISO range.
     *
     * @return R, 100 times the log exposure range rounded to the nearest ten; a half rounds up
     */
    public int isoRange() {
        // The billionth keeps sums such as 1.15 that binary fractions miss on their side of the half.
        return (int) Math.floor(figure() * 10 + 0.5 + 1e-9) * 10;
    }

    /**
     * Returns the contrast grade that corresponds to this range by common practice.
     *
     * @return the grade; empty if no grade has such a range
     */
    public Optional<PaperGrade> grade() {
        return PaperGrade.of(logExposureRange());
    }

    @Override
    public Evidence evidence() {
        return evidence;
    }

    @Override
    public Iso6846Range withUncertainty(double standardUncertainty, double degreesOfFreedom) {
        return new Iso6846Range(evidence.withUncertainty(standardUncertainty, degreesOfFreedom), conditions);
    }

    /**
     * Returns a copy that records the conditions of the test that a curve cannot show.
     *
     * @param ofTest the conditions, such as those of the {@linkplain org.tonewedge.core.strip.Strip#testConditions() strip}
     * @return the copy
     */
    public Iso6846Range with(TestConditions ofTest) {
        return new Iso6846Range(evidence, Objects.requireNonNull(ofTest, "ofTest"));
    }

    /**
     * Returns the conditions of the test that a curve cannot show, as far as they were stated.
     *
     * @return the conditions; by default none is stated
     */
    public TestConditions testConditions() {
        return conditions;
    }

    /**
     * Returns the range as printed on a box.
     *
     * @return for example {@code ISO R110, grade 2 (medium)}; if the greatest density was not reached, without the name
     *     ISO and with the reason; a range of 2 log units or more, which no paper has, with the grade that it has if the
     *     exposures were entered in stops
     */
    @Override
    public String toString() {
        String text = "R" + isoRange()
                + grade().map(grade -> ", " + grade).orElseGet(() -> ", no grade has this range" + inStops());
        return (conditionsMet()
                        ? "ISO " + text
                        : text + ", not an ISO range (" + conditions().get(0) + ")") + " (" + conditions + ")";
    }

    /** Stops entered as log exposures make a range 3.3 times as long, longer than that of any paper. */
    private String inStops() {
        if (figure() < LONGEST) {
            return "";
        }
        return PaperGrade.of(ExposureInterval.ofStops(figure()))
                .map(grade -> "; if the log exposures are stops, it is that of " + grade + ": multiply them by 0.301")
                .orElse("");
    }

    @Override
    public String unit() {
        return "log10";
    }

    /**
     * Compares by value.
     *
     * @param other any object
     * @return true if the other is equal in all that it was made of
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof Iso6846Range that && Objects.equals(evidence, that.evidence);
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(evidence);
    }
}
