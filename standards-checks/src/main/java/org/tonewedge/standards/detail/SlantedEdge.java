package org.tonewedge.standards.detail;

import java.util.function.DoubleUnaryOperator;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.tone.DensityImage;

/**
 * Sharpness by the edge-based spatial frequency response (e-SFR): a straight edge between a light and a dark area, tilted
 * by a few degrees against the pixels of the scan, is read at four times the pitch of the scan, and the Fourier transform of
 * its slope is the modulation transfer.
 *
 * <pre>{@code
 * EdgeResponse edge = SlantedEdge.withDefaults().determineInExposure(image, curve);
 * System.out.println(edge.modulationTransfer().mtf50());
 * }</pre>
 *
 * <p><b>In what the edge is read.</b> A film is sharp in three senses that differ where its curve bends: in the exposure it
 * received ({@link #determineInExposure}; densities are turned back through the film's curve, and adjacency effects of
 * development show as a modulation above 1), in its densities ({@link #determineInDensity}), and in the light that passes it
 * ({@link #determineInTransmittance}). What is measured includes the scanner; take it out with
 * {@link ModulationTransfer#dividedBy} where its own is known.
 *
 * <p><b>Steps.</b>
 *
 * <ol>
 *   <li>The place of the edge in each row (or column; the steeper way is taken), then a straight line through them. The
 *       standard takes centroids of the slope; here each row is shifted by least squares to the mean edge, which noise
 *       disturbs less.
 *   <li>Each pixel falls into one of the bins a quarter of a pixel wide, by its distance from the line, at a right angle.
 *   <li>The differences of neighbouring bins, times a window. The standard's Hamming window narrows a wide edge; the window
 *       here is 1 over three times the distance within which the edge comes to 5 % of its ends, and falls off as a cosine
 *       beyond.
 *   <li>The modulus of the Fourier transform over that at frequency 0, divided by what the differences and the bins
 *       themselves pass, (sin πfd / πfd)<sup>2</sup> for bins of width d. The standard divides by the part of the
 *       differences.
 *   <li>The power of the noise is subtracted from the squared modulus, since noise adds to it on the average.
 * </ol>
 *
 * <p><b>Uncertainty.</b> Rows are gathered into up to {@value #MOST_BLOCKS} neighbouring blocks; each block's departure from
 * the mean edge enters with a random factor of standard deviation 1 ({@value #ALTERNATIVES} drawings, a bootstrap over rows
 * that grain larger than a row does not deceive). It covers noise and grain, not an edge that was itself unsharp, the pitch,
 * or a wrong curve.
 *
 * <p><b>Needs</b> a tilt that carries the edge over at least one pixel, ten rows, and room on both sides; see the errors.
 *
 * <p>Immutable and thread safe; each {@code with…} method returns a changed copy.
 *
 * @source ISO 12233:2014, 6.2.4 and 6.2.5 (bins, differences, window, transform, correction), as quoted on a page of a
 *     standards dealer; the standard itself was not at hand. Wild bootstrap: common practice, no source
 */
public final class SlantedEdge {

    static final int ALTERNATIVES = 200;
    static final int MOST_BLOCKS = 48;

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
     * Returns a copy whose drawings begin elsewhere; the same seed gives the same uncertainty.
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
     * @throws NotDeterminableException if there is no edge that stands out of the noise, it is tilted by less than a pixel
     *     over the image or by more than 45°, or the image is too small for it
     */
    public EdgeResponse determineInDensity(DensityImage image) {
        return determine(image, DoubleUnaryOperator.identity(), DoubleUnaryOperator.identity());
    }

    /**
     * Reads an edge in transmittances.
     *
     * @param image the densities about the edge
     * @return the response
     * @throws NotDeterminableException as {@link #determineInDensity} does
     */
    public EdgeResponse determineInTransmittance(DensityImage image) {
        return determine(image, density -> Math.pow(10, -density), DoubleUnaryOperator.identity());
    }

    /**
     * Reads an edge in the exposures behind it: bins of equal distance are averaged in density and turned back through the
     * curve.
     *
     * @param image the densities about the edge, of the kind the curve was read in
     * @param curve the characteristic curve of the film
     * @return the response
     * @throws NotDeterminableException as {@link #determineInDensity} does, and if the curve cannot be turned back at a
     *     density of the edge; the message says which and what to do
     */
    public EdgeResponse determineInExposure(DensityImage image, CharacteristicCurve curve) {
        return determine(image, DoubleUnaryOperator.identity(), density -> {
            try {
                return Math.pow(10, curve.logExposure(density));
            } catch (NotDeterminableException e) {
                throw new NotDeterminableException("the edge has a density that the curve of " + curve.name()
                        + " does not give back (" + e.getMessage()
                        + "); expose the edge so that both sides lie on the measured curve");
            }
        });
    }

    private EdgeResponse determine(DensityImage image, DoubleUnaryOperator ofPixel, DoubleUnaryOperator ofBin) {
        Checks.positive("pitch in micrometres", image.pitch());
        double[] values = new double[image.width() * image.height()];
        for (int i = 0; i < values.length; i++) {
            values[i] = ofPixel.applyAsDouble(image.density(i % image.width(), i / image.width()));
        }
        return new EdgeReading(values, image.width(), image.pitch(), ofBin, seed).response();
    }
}
