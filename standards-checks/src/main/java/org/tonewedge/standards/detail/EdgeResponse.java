// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.detail;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.curve.NotDeterminableException.Reason;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.Estimate;

/**
 * How an edge was recorded on film: its profile at right angles to it, its modulation transfer, its width and its
 * acutance.
 *
 * <p>Immutable and thread safe.
 */
public final class EdgeResponse {

    /** The gradient at which the edge begins and ends, for its acutance. */
    public static final double USUAL_END_GRADIENT = 0.005;

    private static final int SPAN = 4;

    private final ModulationTransfer modulationTransfer;
    private final ScannedEdge edge;
    private final double angle;
    private final double width;
    private final double[] places;
    private final double[] profile;
    private final double[][] departures;
    private final List<String> notes;

    EdgeResponse(
            ModulationTransfer modulationTransfer,
            ScannedEdge edge,
            double angle,
            double width,
            double[] places,
            double[] profile,
            double[][] departures,
            List<String> notes) {
        this.modulationTransfer = modulationTransfer;
        this.edge = edge;
        this.angle = angle;
        this.width = width;
        this.places = places;
        this.profile = profile;
        this.departures = departures;
        this.notes = List.copyOf(notes);
    }

    /**
     * Returns the modulation transfer.
     *
     * @return up to one cycle per pixel, or six cycles over the width of the edge if that is less
     */
    public ModulationTransfer modulationTransfer() {
        return modulationTransfer;
    }

    /**
     * Returns the modulation transfer of the film without the scanner. Of an edge read in transmittance it is the
     * quotient of both. The result ends where the scanner transmits less than a stated floor, because noise is divided
     * by it too.
     *
     * <p>A scanner blurs transmittance, which is a bent function of exposure and of density: the quotient then shows
     * the film of the second row of the table below 16 % too sharp. The whole chain is therefore computed: a film of
     * two parameters blurs an edge, which is turned into transmittance, blurred by the scanner and read back. The film
     * is fitted to what was measured, and multiplied by what was measured over what its chain gives, so that it may
     * have any shape. The quotient is corrected by how far it is off on the edge computed with that film.
     *
     * <p>One such step does not lead to every shape, and more of them lead no nearer. Therefore the correction has a
     * standard uncertainty of a tenth of its logarithm, by judgement, from the last eight rows: no film of two
     * parameters has these spreads. Halation spreads a tenth of the light five times as wide; adjacency effects raise
     * the modulation to 1.09 by a negative lobe five times as wide as the core. A slit cuts its spread off sharply, so
     * that its transfer changes its sign, which the modulus does not show, and the correction is biased. Where the film
     * that was fitted has as broad a top as a slit, the uncertainty is therefore a quarter of the logarithm. It is too
     * great for exponential spreads and for adjacency effects. Take an edge of no more than 1.0 in log H.
     *
     * <p>Simulated edges, 50 for each row, of halation 300: a curve of greatest gradient 0.64, a scanner of Gaussian
     * spread of 0.9 pixels, itself measured on a blade, noise of 0.01 in density; MTF50 in per cent, the edges refused
     * as a number ({@code ScannedFilm 50} and {@code ScannedFilm 300 0.3,1.0,1.5 HALATION} in the tests of this
     * module). A coverage of 95 % shows as 88 to 100 % of 50 edges by chance.
     *
     * <table>
     * <caption>MTF50 of the film alone</caption>
     * <tr><th>spread in the film, pixels</th><th>range of log H</th><th>bias</th><th>scatter</th><th>u
     * stated</th><th>coverage</th><th>refused</th></tr>
     * <tr><td>Gaussian, 1.2</td><td>0.3</td><td>0.0</td><td>3.6</td><td>3.2</td><td>94</td><td>0</td></tr>
     * <tr><td></td><td>1.0</td><td>0.0</td><td>2.0</td><td>2.0</td><td>92</td><td>0</td></tr>
     * <tr><td></td><td>1.5</td><td>+0.1</td><td>2.4</td><td>2.5</td><td>98</td><td>0</td></tr>
     * <tr><td>exponential, 0.8</td><td>0.3</td><td>+4.0</td><td>9.0</td><td>8.9</td><td>100</td><td>14</td></tr>
     * <tr><td></td><td>1.0</td><td>+0.8</td><td>3.6</td><td>5.4</td><td>100</td><td>0</td></tr>
     * <tr><td></td><td>1.5</td><td>+0.6</td><td>3.8</td><td>6.3</td><td>100</td><td>4</td></tr>
     * <tr><td>halation, 1.1</td><td>0.3</td><td>+1.1</td><td>5.0</td><td>4.6</td><td>94</td><td>1</td></tr>
     * <tr><td></td><td>1.0</td><td>+0.9</td><td>3.9</td><td>3.6</td><td>93</td><td>0</td></tr>
     * <tr><td></td><td>1.5</td><td>+1.4</td><td>4.3</td><td>4.2</td><td>94</td><td>0</td></tr>
     * <tr><td>adjacency, 1.2</td><td>0.3</td><td>+0.1</td><td>3.5</td><td>3.9</td><td>96</td><td>1</td></tr>
     * <tr><td></td><td>1.0</td><td>+0.4</td><td>2.8</td><td>5.1</td><td>100</td><td>0</td></tr>
     * <tr><td>slit, 4</td><td>0.3</td><td>+0.1</td><td>2.9</td><td>2.4</td><td>92</td><td>0</td></tr>
     * <tr><td></td><td>1.0</td><td>+2.0</td><td>1.7</td><td>2.9</td><td>98</td><td>0</td></tr>
     * <tr><td></td><td>1.5</td><td>+4.8</td><td>2.3</td><td>4.7</td><td>96</td><td>1</td></tr>
     * </table>
     *
     * @param scanner the modulation transfer of the scanner, such as that of a blade read {@linkplain
     *     SlantedEdge#determineInTransmittance in transmittance}
     * @param floor the least modulation of the scanner to divide by, above 0 and at most 1, such as 0.1
     * @return the modulation transfer of the film, in the quantity of this edge; its uncertainty includes that of the
     *     scanner
     * @throws IllegalArgumentException if the floor is out of range, or fewer than two frequencies are left
     * @throws NotDeterminableException if the film is so sharp beside the scanner, and the contrast of the edge so
     *     high, that the correction depends on frequencies which the scanner does not pass, or if the fit of the film
     *     does not converge
     * @source convolution theorem; the correction is the project's own
     */
    public ModulationTransfer modulationTransferWithout(ModulationTransfer scanner, double floor) {
        return edge.without(modulationTransfer, scanner, floor);
    }

    /**
     * Returns the tilt of the edge relative to the pixels.
     *
     * @return from 0 to 45
     * @units degrees
     */
    public double angle() {
        return angle;
    }

    /**
     * Returns the width of the edge.
     *
     * @return the distance from 5 % to 95 % of its height
     * @units micrometres
     */
    public double width() {
        return width;
    }

    /**
     * Returns the distances from the edge at which the {@linkplain #profile() profile} was read.
     *
     * @return a copy, rising from below 0, a quarter of the pitch apart
     * @units micrometres
     */
    public double[] places() {
        return places.clone();
    }

    /**
     * Returns the profile of the edge, in the quantity in which it was read: the mean of each quarter of a pixel.
     *
     * @return a copy
     */
    public double[] profile() {
        return profile.clone();
    }

    /**
     * Returns what you should know about this edge.
     *
     * @return remarks; none as a rule
     */
    public List<String> notes() {
        return notes;
    }

    /**
     * Returns the acutance, with ends at {@value #USUAL_END_GRADIENT} per micrometre.
     *
     * @return the acutance
     * @throws NotDeterminableException as {@link #acutance(double)} does
     */
    public Estimate acutance() {
        return acutance(USUAL_END_GRADIENT);
    }

    /**
     * Returns the acutance of an edge read in densities: the mean squared gradient over the edge, divided by the
     * density difference between its ends, A = Σ (ΔD/Δx)<sup>2</sup> / (N · DS). The gradient is taken over one pixel,
     * and the mean square of its noise is subtracted.
     *
     * @param endGradient the gradient below which the edge ends, above 0, per micrometre
     * @return the acutance, per square micrometre
     * @throws IllegalArgumentException if the end gradient is not above 0
     * @throws NotDeterminableException if the gradient nowhere exceeds the end gradient
     * @source mean squared rate of change of density divided by the density difference: an encyclopedia article and a
     *     dictionary entry on acutance; the end gradient of 0.005 per micrometre from memory
     */
    public Estimate acutance(double endGradient) {
        Checks.positive("end gradient per micrometre", endGradient);
        double[] slopes = slopes(profile);
        int steepest = 0;
        for (int k = 0; k < slopes.length; k++) {
            steepest = Math.abs(slopes[k]) > Math.abs(slopes[steepest]) ? k : steepest;
        }
        if (!(Math.abs(slopes[steepest]) > endGradient)) {
            throw new NotDeterminableException(
                    Reason.UNSUITABLE_IMAGE,
                    "the gradient of the edge is nowhere above " + Figures.plain(endGradient)
                            + " per micrometre; state a lower end gradient");
        }
        int low = steepest;
        int high = steepest;
        while (low > 0 && Math.abs(slopes[low - 1]) > endGradient) {
            low--;
        }
        while (high + 1 < slopes.length && Math.abs(slopes[high + 1]) > endGradient) {
            high++;
        }
        double noise = 0;
        for (double[] departure : departures) {
            noise += squares(slopes(departure), low, high);
        }
        double value = acutance(profile, low, high, noise);
        Random random = new Random(1);
        double[] found = new double[SlantedEdge.ALTERNATIVES];
        for (int a = 0; a < found.length; a++) {
            double[] other = profile.clone();
            for (double[] departure : departures) {
                double factor = random.nextGaussian();
                for (int k = 0; k < other.length; k++) {
                    other[k] += factor * departure[k];
                }
            }
            found[a] = acutance(other, low, high, 2 * noise);
        }
        double mean = Arrays.stream(found).average().orElseThrow();
        double variance = Arrays.stream(found).map(f -> (f - mean) * (f - mean)).sum() / (found.length - 1);
        return Estimate.of(value, Math.sqrt(variance));
    }

    private double acutance(double[] densities, int low, int high, double noise) {
        double difference = Math.abs(densities[high + SPAN] - densities[low]);
        return (squares(slopes(densities), low, high) - noise) / (high - low + 1) / difference;
    }

    /** Differences over one pixel, per micrometre. */
    private double[] slopes(double[] of) {
        double[] slopes = new double[of.length - SPAN];
        for (int k = 0; k < slopes.length; k++) {
            slopes[k] = (of[k + SPAN] - of[k]) / (places[k + SPAN] - places[k]);
        }
        return slopes;
    }

    private static double squares(double[] of, int low, int high) {
        double sum = 0;
        for (int k = low; k <= high; k++) {
            sum += of[k] * of[k];
        }
        return sum;
    }

    /**
     * Returns the response in words.
     *
     * @return its tilt and width, and its modulation transfer
     */
    @Override
    public String toString() {
        return String.format(Locale.ROOT, "edge of %.3g µm at %.1f°, %s", width, angle, modulationTransfer);
    }
}
