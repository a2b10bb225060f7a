// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.detail;

import java.util.Objects;
import java.util.function.DoubleUnaryOperator;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.tone.DensityImage;

/**
 * Sharpness by the edge-based spatial frequency response (e-SFR). A straight edge between a light and a dark area is
 * tilted by a few degrees relative to the pixels of the scan. It is read at a quarter of the pitch of the scan, and the
 * Fourier transform of its slope is the modulation transfer.
 *
 * <pre>{@code
 * EdgeResponse edge = SlantedEdge.withDefaults().determineInExposure(image, curve);
 * System.out.println(edge.modulationTransfer().mtf50());
 * }</pre>
 *
 * <p><b>In which quantity the edge is read.</b> The sharpness of a film can be measured in three quantities, which
 * differ if its curve is not straight. {@link #determineInExposure determineInExposure} reads the exposure received: densities are
 * converted back through the film's curve, and adjacency effects of development show as a modulation above 1.
 * {@link #determineInDensity determineInDensity} reads densities. {@link #determineInTransmittance determineInTransmittance} reads the light transmitted. The
 * result includes the scanner; if its own modulation transfer is known, remove it with
 * {@link EdgeResponse#modulationTransferWithout EdgeResponse.modulationTransferWithout}.
 *
 * <p><b>Steps.</b>
 *
 * <ol>
 *   <li>The position of the edge is found in each row (or column, whichever crosses the edge more steeply), then a
 *       straight line is fitted to the positions. The standard uses centroids of the slope; here each row is shifted by
 *       least squares onto the mean edge, which noise disturbs less.
 *   <li>Each pixel falls into one of the bins, a quarter of a pixel wide, by its distance from the line, measured at a
 *       right angle.
 *   <li>The differences of neighbouring bins are multiplied by a window. The standard's Hamming window makes a wide
 *       edge look narrower. The window here is 1 over three times the distance within which the edge comes to within 5
 *       % of its ends, and falls off as a cosine beyond. Where light spreads plainly farther, as by halation or adjacency
 *       effects, the window is wider: up to where the mean profile lies within a thousandth of the height of its ends, or
 *       within the noise that the blocks of rows show. What is cut off is therefore lost in noise, and the uncertainty does not include it.
 *   <li>The modulus of the Fourier transform is divided by that at frequency 0, and by what the differences and the
 *       bins themselves transmit, (sin πfd / πfd)<sup>2</sup> for bins of width d. The standard divides only by the
 *       part due to the differences.
 *   <li>The power of the noise is subtracted from the squared modulus, because noise adds to it on average.
 * </ol>
 *
 * <p><b>Uncertainty.</b> Rows are grouped into up to {@value #MOST_BLOCKS} blocks of neighbours. Each block's departure
 * from the mean edge is added with a random factor of standard deviation 1 ({@value #ALTERNATIVES} drawings). Where grain
 * spans rows, blocks vary together, and the departures are enlarged. With the correlations ρ(r) of pixels r rows apart at the same
 * distance from the edge, the variance of the mean of n rows is 1 + 2 Σ (1 − r/n) ρ(r) times that of independent rows; the
 * departures are multiplied by the root of this factor for many rows over that for the rows of a block. ρ counts up to the first
 * distance at which it is below 0.05, a limit of the project's own, or below twice its scatter in independent pixels, and up to a
 * quarter of the rows. The mean of each row on either side is left out of ρ, so that light that falls off along the edge is not
 * taken for grain; departures of single pixels below 0.003 of the height of the edge are not either. The degrees of freedom are
 * at most those of the rows divided by the factor, but at least those of three. The uncertainty covers noise and grain, but not
 * an unsharp original edge, the pitch, or a wrong curve.
 *
 * <p>Of 1,000 simulated edges each, 1 pixel wide, of 120 rows at 5°, in grain of 0.05 of the step that white noise averaged
 * with Gaussian weights makes, 95 % intervals contained MTF50 in so many per cent ({@code EdgeSimulation grain 1000 120} in the
 * tests; the second row with {@code LEAST_GRAIN} in {@code EdgeReading} set to 1). In grain of 3 and 6 pixels, 2 and 22 edges
 * gave none:
 *
 * <pre>
 * size of the grain, pixels     0     1     2     3     6
 * as it is                   95.9  95.1  96.2  96.3  94.3
 * blocks as independent      95.9  89.2  79.6  74.5  58.7
 * </pre>
 *
 * <p><b>Faint edges.</b> Of 300 simulated edges each, 1 pixel wide, of 120 rows at 5°, on the straight line of a film of gamma
 * 0.65, so many gave MTF50 in exposure; then the bias, the scatter and the mean u of those, in per cent of the truth, and how many
 * of a hundred intervals contained it ({@code EdgeSimulation faint 300} in the tests):
 *
 * <pre>
 * grain in density            contrast in log H
 *                       0.05                   0.1                    0.2
 * 0.005 of single px    300 +0.3  6.9  6.6 96  300  0.0  3.3  3.1 94  300  0.0  1.7  1.6 93
 * 0.015 of single px     27 −11  10.6 11.0 74  288 +0.4  9.9 10.9 94  300 +0.1  5.3  5.0 94
 * 0.005 of 2 px         283 −2.5  6.0  6.1 97  300 −0.6  2.5  2.6 97  300 −0.1  1.3  1.3 96
 * 0.015 of 2 px           3 −13  17.9 10.9     170 −3.8  8.5 10.3 98  294 −1.4  4.5  4.5 96
 * </pre>
 *
 * <p>Where noise makes most edges refuse, those that do not are the blurred ones by chance: their MTF50 is too low. The result notes
 * it if the step over the scatter of single pixels, times the root of the rows, is below 40, a limit of the project's own. It is
 * 24 in the two cells of 27 and 3 edges and above 45 in the others.
 *
 * <p><b>Requirements.</b> The tilt must move the edge over at least one pixel, and the region needs ten rows and room
 * on both sides; see the exceptions.
 *
 * <p>Immutable and thread safe; each {@code with…} method returns a changed copy.
 *
 * @source ISO 12233:2014, 6.2.4 and 6.2.5 (bins, differences, window, transform, correction), as quoted on a page of a
 * standards dealer; the standard itself was not available. Wild bootstrap: common practice, no source. Variance of the mean
 * of correlated observations: textbooks of time series, from memory
 */
public final class SlantedEdge {

    static final int ALTERNATIVES = 200;
    static final int MOST_BLOCKS = 48;

    private static final double LN_10 = Math.log(10);

    private static final SlantedEdge DEFAULTS = new SlantedEdge(1);

    private final long seed;

    private SlantedEdge(long seed) {
        this.seed = seed;
    }

    /**
     * Returns the method with its defaults.
     *
     * @return the method
     */
    public static SlantedEdge withDefaults() {
        return DEFAULTS;
    }

    /**
     * Returns a copy with another seed for its drawings; the same seed gives the same uncertainty.
     *
     * @param other the seed
     * @return the copy
     */
    public SlantedEdge withSeed(long other) {
        return new SlantedEdge(other);
    }

    /**
     * Reads an edge in densities.
     *
     * @param image the densities about the edge
     * @return the response
     * @throws NotDeterminableException if no edge stands out of the noise, the edge is tilted by less than a pixel over
     *     the image or by more than 45°, or the image is too small for it
     */
    public EdgeResponse determineInDensity(DensityImage image) {
        return determine(image, DoubleUnaryOperator.identity(), DoubleUnaryOperator.identity(), Light.OF_DENSITY);
    }

    /**
     * Reads an edge in transmittances.
     *
     * @param image the densities about the edge
     * @return the response
     * @throws NotDeterminableException as {@link #determineInDensity determineInDensity} does
     */
    public EdgeResponse determineInTransmittance(DensityImage image) {
        return determine(image, density -> Math.exp(-LN_10 * density), DoubleUnaryOperator.identity(), Light.ITSELF);
    }

    /**
     * Reads an edge in the exposures that produced it: bins of equal distance are averaged in density and converted
     * back through the curve.
     *
     * @param image the densities around the edge, of the same kind as those of the curve
     * @param curve the characteristic curve of the film
     * @return the response
     * @throws NotDeterminableException as {@link #determineInDensity determineInDensity} does, and if the curve cannot be turned back at a
     *     density of the edge; the message says which and what to do
     */
    public EdgeResponse determineInExposure(DensityImage image, CharacteristicCurve curve) {
        Objects.requireNonNull(curve, "curve");
        DoubleUnaryOperator exposure = density -> {
            try {
                return Math.pow(10, curve.logExposure(density));
            } catch (NotDeterminableException e) {
                throw new NotDeterminableException("the edge has a density that the curve of " + curve.name()
                        + " does not give back (" + e.getMessage()
                        + "); expose the edge so that both sides lie on the measured curve");
            }
        };
        return determine(image, DoubleUnaryOperator.identity(), exposure, Light.through(curve));
    }

    private EdgeResponse determine(
            DensityImage image, DoubleUnaryOperator ofPixel, DoubleUnaryOperator ofBin, Light light) {
        Checks.positive("pitch in micrometres", image.pitch());
        double[] values = image.densities();
        for (int i = 0; i < values.length; i++) {
            values[i] = ofPixel.applyAsDouble(values[i]);
        }
        return new EdgeReading(values, image.width(), image.pitch(), ofBin, light, seed).response();
    }

    /**
     * Compares by value.
     *
     * @param other any object
     * @return true if the other is equal in all that it was made of
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof SlantedEdge that && seed == that.seed;
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(seed);
    }

    /**
     * Returns what this is, in words that may change.
     *
     * @return its name and seed
     */
    @Override
    public String toString() {
        return "slanted edge, seed " + seed;
    }
}
