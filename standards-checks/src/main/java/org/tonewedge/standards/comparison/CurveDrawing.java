// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.comparison;

import java.util.Objects;
import java.util.function.Function;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.strip.Repeatability;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.fitting.parametric.CurveFamily;
import org.tonewedge.fitting.parametric.CurveFit;
import org.tonewedge.fitting.parametric.RobustLoss;

/**
 * How the curve of a strip is drawn, and hence how well its figures are known.
 *
 * <table>
 * <caption>Three ways to draw a curve</caption>
 * <tr><th>drawing</th><th>curve</th><th>uncertainties from</th></tr>
 * <tr><td>{@link #fitted()}, the default</td><td>toe, straight line and shoulder, fitted to all readings with a robust
 * loss; where it does not follow them, the family that does, or a monotone smoothing spline
 * ({@link org.tonewedge.fitting.parametric.StripFit})</td><td>the scatter of the readings about the curve, and how far a
 * smoothing spline of the same readings, which assumes no family, disagrees on the figure</td></tr>
 * <tr><td>{@link #spline(Repeatability)}</td><td>a monotone smoothing spline, for curves of no known family</td><td>the stated
 * repeatability, and how far smoothing may bend the figure</td></tr>
 * <tr><td>{@link #throughReadings(Repeatability)}</td><td>the monotone cubic through the readings</td><td>the stated
 * repeatability; gamma and the lengths of the parts are given only if the readings resolve them</td></tr>
 * </table>
 *
 * <p>How often 95 % intervals contained the truth, and how far the figure was off on average, on 10,000 simulated strips
 * of each shape with 21 steps over 3.9 log units, two readings of base plus fog and reading errors of 0.01, where a figure
 * was given ({@code FigureCoverage 10000 21 0.01 fitted FAMILY} of the tests, and {@code TWO_LAYERS} and {@code UPSWEPT} in
 * its place; 500 strips of the family drawn by a spline). The fit does not know the shape, so an interval that holds for two
 * layers is wider than the family alone would need; hence the 97 to 98 % there. Toe length was given for 87 % of the strips of
 * the family and 84 % of those of two layers. An upswept curve has no straight line: gamma and toe length were refused for
 * 98.2 % of such strips. A shoulder was named on all strips of the family, on 98.7 % of those of two layers and on none
 * of the references, which have none.
 *
 * <table>
 * <caption>Coverage and bias</caption>
 * <tr><th>figure</th><th>fitted, of the family</th><th>fitted, two layers</th><th>fitted, upswept</th><th>spline</th></tr>
 * <tr><td>log H of the speed point</td><td>97.0 %, −0.002</td><td>97.5 %, −0.008</td><td>95.5 %, −0.029</td><td>96.4 %</td></tr>
 * <tr><td>stops from the reference</td><td>97.5 %, +0.004</td><td>97.7 %, +0.024</td><td>96.5 %, +0.095</td><td>96.8 %</td></tr>
 * <tr><td>ΔD over 1.30</td><td>97.0 %, −0.001</td><td>97.4 %, −0.003</td><td>96.1 %, −0.022</td><td>95.4 %</td></tr>
 * <tr><td>average gradient</td><td>97.7 %, −0.001</td><td>97.3 %, −0.005</td><td>96.1 %, −0.015</td><td>96.6 %</td></tr>
 * <tr><td>contrast index</td><td>97.8 %, 0.000</td><td>96.9 %, −0.003</td><td>96.8 %, −0.011</td><td>95.8 %</td></tr>
 * <tr><td>gamma</td><td>98.1 %, +0.003</td><td>96.2 %, −0.036</td><td>refused</td><td>100.0 %</td></tr>
 * <tr><td>toe length</td><td>97.7 %, +0.001</td><td>94.2 %, −0.144</td><td>refused</td><td>95.2 %</td></tr>
 * <tr><td>length of the straight line</td><td>97.5 %, −0.007</td><td>95.2 %, +0.218</td><td>–</td><td>94.6 %</td></tr>
 * <tr><td>density where the shoulder begins</td><td>97.6 %, −0.002</td><td>97.1 %, +0.019</td><td>–</td><td>96.0 %</td></tr>
 * </table>
 *
 * <p>Immutable and thread safe.
 */
public final class CurveDrawing {

    /** 0.01, which is assumed if none is stated (common practice, no source). */
    public static final Repeatability USUAL_REPEATABILITY = Repeatability.of(0.01);

    private static final CurveFit FIT = CurveFit.of(CurveFamily.TOE_SHOULDER).with(RobustLoss.TUKEY);

    private static final CurveDrawing FITTED = new CurveDrawing("fitted", strip -> DrawnCurve.fitted(strip, FIT));

    private final String name;
    private final Function<Strip, DrawnCurve> drawing;

    private CurveDrawing(String name, Function<Strip, DrawnCurve> drawing) {
        this.name = name;
        this.drawing = drawing;
    }

    /**
     * Returns the default: toe, straight line and shoulder, fitted with a loss that gives little weight to readings far
     * off the curve and names them. Where that curve does not follow the readings, the family that does takes its place, or
     * a monotone smoothing spline; {@link StripFigures#verdict()} tells. A strip that none of them follows gets no curve.
     *
     * @return the drawing
     */
    public static CurveDrawing fitted() {
        return FITTED;
    }

    /**
     * Returns the monotone smoothing spline, smoothed as much as the repeatability of the readings requires.
     *
     * @param repeatability the standard deviation of a reading, above 0
     * @return the drawing
     */
    public static CurveDrawing spline(Repeatability repeatability) {
        Objects.requireNonNull(repeatability, "repeatability");
        return new CurveDrawing("spline", strip -> DrawnCurve.spline(strip, repeatability));
    }

    /**
     * Returns the monotone cubic through the readings. A strip whose density falls, or whose steps crowd together, by
     * more than noise gets no curve. Gamma, toe, straight line and shoulder are read off the gradient, which every
     * reading error changes. They are given only if two standard deviations of the gradient over one stop are at most 2
     * % of the greatest gradient; for a gradient of 0.6 that requires a repeatability of 0.0013. With a repeatability
     * of 0 the readings are taken as exact. Intervals of speed and contrast are somewhat too narrow: 95 % intervals hold for 91
     * to 95 % of strips (see the table of the package); those of {@link #fitted()} do not have this fault.
     *
     * @param repeatability the standard deviation of a reading, 0 or more
     * @return the drawing
     */
    public static CurveDrawing throughReadings(Repeatability repeatability) {
        Objects.requireNonNull(repeatability, "repeatability");
        return new CurveDrawing("through readings", strip -> DrawnCurve.throughReadings(strip, repeatability));
    }

    /**
     * Returns a drawing that you define; its figures have no uncertainties.
     *
     * @param curve makes the curve of a strip; may throw {@link NotDeterminableException} or
     *     {@link IllegalArgumentException}, whose message becomes the reason why figures are missing
     * @return the drawing
     */
    public static CurveDrawing of(Function<Strip, CharacteristicCurve> curve) {
        Objects.requireNonNull(curve, "curve");
        return new CurveDrawing("caller's own", strip -> DrawnCurve.exact(strip, curve));
    }

    DrawnCurve draw(Strip strip) {
        return drawing.apply(strip);
    }

    /**
     * Returns the drawing in words.
     *
     * @return its name
     */
    @Override
    public String toString() {
        return name;
    }
}
