package org.tonewedge.standards.film;

import java.util.List;
import java.util.Objects;
import org.tonewedge.core.curve.AnatomyCriterion;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.CurveAnatomy;
import org.tonewedge.core.curve.CurveRegion;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.standards.Criterion;
import org.tonewedge.standards.Evidence;
import org.tonewedge.standards.internal.Absolute;

/**
 * The inertia of Hurter and Driffield: the exposure at which the straight line of the curve, continued downwards, meets
 * base plus fog, and the plate speeds that are a {@link PlateSpeed constant} divided by it.
 *
 * <p>Where a model with a straight line was fitted, it is the line of the model: on a fitted equation of 1890 the inertia is
 * that of the equation. Else the chord between the ends of the straight part is continued, because errors of readings bend
 * the longest base least. It is flatter than the line, so that inertia comes out too low where a curve is nowhere quite
 * straight: the equation of 1890, drawn without its model, gives speeds 33, 41, 53 and 82 % above 34 / i with an opacity of
 * 10<sup>6</sup>, 10<sup>4</sup>, 1000 and 120 ({@code SpeedCriteriaTest}); fit it. A line that would have to be continued
 * by more than its own length is refused: readings that scatter by 0.01 break it early, and so short a line points anywhere.
 *
 * <p>Immutable and thread safe; {@code with…} returns a changed copy.
 *
 * @source inertia as the intercept of the straight line: H. E. Ives, Airplane Photography (1920), and an encyclopedia's
 *     article on film speed citing Allbright, Journal of Photographic Science 39 (1991) 95 (verified)
 */
public final class Inertia {

    private static final Inertia DEFAULTS = new Inertia(AnatomyCriterion.withDefaults());

    private final AnatomyCriterion straightLine;

    private Inertia(AnatomyCriterion straightLine) {
        this.straightLine = straightLine;
    }

    /**
     * Returns the method with the default criterion of the straight line.
     *
     * @return the method
     */
    public static Inertia withDefaults() {
        return DEFAULTS;
    }

    /**
     * Returns a copy with another criterion of the straight line.
     *
     * @param criterion the criterion
     * @return the copy
     */
    public Inertia withStraightLine(AnatomyCriterion criterion) {
        return new Inertia(Objects.requireNonNull(criterion, "criterion"));
    }

    /**
     * Returns the inertia of a curve, on an absolute or a relative axis.
     *
     * @param curve the curve of a negative material, which rises
     * @return where its straight line meets base plus fog
     * @throws NotDeterminableException if the curve shows no rising straight line, or one shorter than the way from it to
     *     base plus fog
     */
    public LogExposure inertia(CharacteristicCurve curve) {
        return intercept(curve, parts(curve));
    }

    /**
     * Returns the Hurter and Driffield speed of a curve, 34 / i.
     *
     * @param curve a curve on the absolute exposure axis
     * @return the speed; its points are the ends of the straight line
     * @throws IllegalArgumentException if the curve's exposures are relative
     * @throws NotDeterminableException if the curve shows no rising straight line, or one shorter than the way from it to
     *     base plus fog
     */
    public SpeedReading determine(CharacteristicCurve curve) {
        CurveAnatomy parts = parts(Absolute.luxSeconds(curve, "a speed by inertia"));
        CurveRegion line = parts.straightLine();
        Criterion criterion = new Criterion(
                "Hurter and Driffield: 34 / inertia, where the straight line meets base plus fog",
                "Hurter and Driffield 1890, through Martin 1919 and Ives 1920");
        return new SpeedReading(
                PlateSpeed.HURTER_DRIFFIELD.of(intercept(curve, parts)),
                Evidence.of(criterion, List.of(line.thinEnd(), line.denseEnd()), List.of()));
    }

    private CurveAnatomy parts(CharacteristicCurve curve) {
        CurveAnatomy parts = CurveAnatomy.of(curve, straightLine);
        if (!(parts.gamma().value() > 0)) {
            throw new NotDeterminableException(
                    curve.name() + ": inertia needs a straight line that rises, this one has a gradient of "
                            + Figures.plain(parts.gamma().value()) + "; it is not a negative material");
        }
        return parts;
    }

    private static LogExposure intercept(CharacteristicCurve curve, CurveAnatomy parts) {
        LogExposure inertia = parts.straightLineAt(curve.basePlusFog());
        double length = parts.straightLine().length().logUnits();
        double continued =
                parts.straightLine().thinEnd().logExposure().minus(inertia).logUnits();
        if (continued > length) {
            throw new NotDeterminableException(curve.name() + ": the straight line is " + Figures.plain(length)
                    + " log units long and would have to be continued by " + Figures.plain(continued)
                    + " to base plus fog, more than its own length; readings that scatter break it early: fit a curve"
                    + " to them, or change the criterion of the straight line");
        }
        return inertia;
    }
}
