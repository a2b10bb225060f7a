// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.tone;

import java.util.Objects;
import org.tonewedge.core.curve.AnatomyCriterion;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.CurveAnatomy;
import org.tonewedge.core.curve.CurvePoint;
import org.tonewedge.core.curve.CurveRegion;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.curve.NotDeterminableException.Reason;
import org.tonewedge.core.internal.MethodFigures;
import org.tonewedge.core.quantity.DensityDifference;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.LogExposure;

/**
 * The useful stretch of a film's curve, such as 2.4 log units: its log exposure range and density range, and the
 * latitude that it leaves for a subject.
 *
 * <p>You decide what is useful, by the factory method you call. The usual choice is {@link #of UsefulRange.of}: from 0.10 above base
 * plus fog to the end of the shoulder.
 *
 * <p>Immutable and thread safe.
 *
 * @param thinEnd the point of least useful density
 * @param denseEnd the point of greatest useful density
 * @param completeness whether the measured range shows the whole useful stretch
 */
public record UsefulRange(CurvePoint thinEnd, CurvePoint denseEnd, Completeness completeness) {

    /** Whether the measured range shows the whole useful stretch. */
    public enum Completeness {
        /** Both ends lie within the measured range. */
        WHOLE,
        /** The film is useful beyond the measured range: the useful range is at least this long. */
        AT_LEAST
    }

    private static final DensityDifference SPEED_POINT = DensityDifference.of(MethodFigures.SPEED_POINT);

    /**
     * Checks the ends.
     *
     * @param thinEnd the point of least useful density
     * @param denseEnd the point of greatest useful density
     * @param completeness whether the measured range shows the whole stretch
     * @throws IllegalArgumentException if the dense end is not denser than the thin end
     */
    public UsefulRange {
        Objects.requireNonNull(completeness, "completeness");
        if (denseEnd.density().compareTo(thinEnd.density()) <= 0) {
            throw new IllegalArgumentException("the dense end of a useful range must be denser than its thin end, were "
                    + denseEnd + " and " + thinEnd);
        }
    }

    /**
     * Returns the range from 0.10 above base plus fog to the end of the shoulder, by the default
     * {@link AnatomyCriterion}.
     *
     * @param film the film's curve
     * @return the range
     * @throws NotDeterminableException if the curve does not reach 0.10 above base plus fog, or is too short to be
     *     divided into parts
     * @source the thin end is the speed point of ISO 6:1993, as summarised in an encyclopedia; the dense end is common
     *     practice, no source
     */
    public static UsefulRange of(CharacteristicCurve film) {
        Objects.requireNonNull(film, "film");
        CurveAnatomy anatomy = CurveAnatomy.of(film);
        CurvePoint thin = film.pointAbove(SPEED_POINT);
        CurvePoint dense = last(anatomy).denseEnd();
        if (dense.density().compareTo(thin.density()) <= 0) {
            throw new NotDeterminableException(
                    Reason.UNSUITABLE_CURVE,
                    film.name() + ": the curve ends its shoulder at " + dense
                            + ", before it is 0.10 denser than base plus fog; the film has no useful range");
        }
        return new UsefulRange(thin, dense, completeness(shoulderIsWhole(anatomy)));
    }

    /**
     * Returns the range from the beginning of the toe to the end of the shoulder.
     *
     * @param film the film's curve
     * @param criterion the rule that finds them
     * @return the range
     * @throws NotDeterminableException if the curve is too short to be divided into parts
     */
    public static UsefulRange byAnatomy(CharacteristicCurve film, AnatomyCriterion criterion) {
        Objects.requireNonNull(film, "film");
        CurveAnatomy anatomy = CurveAnatomy.of(film, criterion);
        CurveRegion first = anatomy.toe().orElse(anatomy.straightLine());
        boolean toeIsWhole = anatomy.toe().map(CurveRegion::isComplete).orElse(false);
        return new UsefulRange(
                first.thinEnd(), last(anatomy).denseEnd(), completeness(toeIsWhole && shoulderIsWhole(anatomy)));
    }

    private static CurveRegion last(CurveAnatomy anatomy) {
        return anatomy.shoulder().orElse(anatomy.straightLine());
    }

    private static boolean shoulderIsWhole(CurveAnatomy anatomy) {
        return anatomy.shoulder().map(CurveRegion::isComplete).orElse(false);
    }

    private static Completeness completeness(boolean whole) {
        return whole ? Completeness.WHOLE : Completeness.AT_LEAST;
    }

    /**
     * Returns the range between two densities.
     *
     * @param film the film's curve
     * @param thin the least useful density above base plus fog
     * @param dense the greatest useful density above base plus fog
     * @return the range
     * @throws IllegalArgumentException if the second is not greater than the first
     * @throws NotDeterminableException if the curve does not reach one of them
     */
    public static UsefulRange betweenDensities(
            CharacteristicCurve film, DensityDifference thin, DensityDifference dense) {
        Objects.requireNonNull(thin, "thin");
        Objects.requireNonNull(dense, "dense");
        return new UsefulRange(film.pointAbove(thin), film.pointAbove(dense), Completeness.WHOLE);
    }

    /**
     * Returns the useful log exposure range.
     *
     * @return the interval between the ends, above 0
     */
    public ExposureInterval logExposureRange() {
        double range = denseEnd.logExposure().minus(thinEnd.logExposure()).logUnits();
        return ExposureInterval.ofLogUnits(Math.abs(range));
    }

    /**
     * Returns the density range of the useful stretch.
     *
     * @return the density of the dense end less that of the thin end
     */
    public DensityDifference densityRange() {
        return denseEnd.density().minus(thinEnd.density());
    }

    /**
     * Returns the exposure latitude for a subject: how much the exposure may vary while the subject stays on the useful
     * stretch.
     *
     * @param subjectRange the log exposure range of the subject's image, 0 or more
     * @return the useful range minus that of the subject; negative if the subject does not fit
     * @throws IllegalArgumentException if the range of the subject is negative
     */
    public ExposureInterval latitude(ExposureInterval subjectRange) {
        if (subjectRange.logUnits() < 0) {
            throw new IllegalArgumentException(
                    "the log exposure range of a subject must be 0 or more, was " + subjectRange);
        }
        return logExposureRange().minus(subjectRange);
    }

    /**
     * Returns the exposure latitude of a subject placed on the curve.
     *
     * @param darkest the exposure of its darkest tone that matters
     * @param lightest the exposure of its lightest
     * @return how far the exposure may be lowered and raised
     * @throws IllegalArgumentException if the lightest is below the darkest, or an exposure is on another axis
     */
    public ExposureLatitude latitude(LogExposure darkest, LogExposure lightest) {
        Objects.requireNonNull(darkest, "darkest");
        if (lightest.isBelow(darkest)) {
            throw new IllegalArgumentException(
                    "the lightest tone must have more exposure than the darkest, were " + lightest + " and " + darkest);
        }
        LogExposure thin = thinEnd.logExposure();
        LogExposure dense = denseEnd.logExposure();
        LogExposure lower = thin.isBelow(dense) ? thin : dense;
        LogExposure upper = thin.isBelow(dense) ? dense : thin;
        return new ExposureLatitude(darkest.minus(lower), upper.minus(lightest));
    }
}
