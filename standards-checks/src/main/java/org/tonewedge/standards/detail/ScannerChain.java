// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.detail;

import java.util.Arrays;
import java.util.function.DoubleUnaryOperator;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.curve.NotDeterminableException.Reason;

/**
 * Takes a scanner out of an edge that was read in another quantity than transmittance. The scanner blurs transmittance, which
 * is a bent function of exposure and of density, so the modulation transfers of film and scanner do not simply multiply. The
 * whole chain is therefore computed: an edge blurred by a film of two parameters, turned into transmittance, blurred by the
 * scanner and read as the scan was. The parameters are fitted to what was measured; then the ratio of the fitted film to the
 * quotient of the chain and the scanner tells how far the quotient of what was measured is off. It varies slowly with the shape
 * of the film, so that two parameters and one step from there towards the shape measured suffice; what that misses is in the
 * uncertainty. Not thread safe.
 */
final class ScannerChain {

    private static final int ITERATIONS = 40;
    private static final double CLOSE = 1e-3;
    private static final double STEP = 0.02;
    private static final double MOST_CHANGE = 0.3;
    /** How peaked a spread is, the shape parameter of {@link Film}: where to start, and its limits. */
    private static final double START_PEAKED = 0.3;

    private static final double LEAST_PEAKED = -1;
    private static final double MOST_PEAKED = 3;
    /** A shape parameter so close to 0 is that of a Gaussian spread. */
    private static final double GAUSSIAN = 1e-6;
    /** A film that passes more than this where the scanner ends, and is corrected there by more, is refused. */
    private static final double MOST_PASSED = 0.3;

    private static final double MOST_CORRECTED = 0.3;
    /**
     * The standard uncertainty of the correction because a film has more than two parameters, as a part of its logarithm: by
     * the simulations in {@link EdgeResponse#modulationTransferWithout EdgeResponse.modulationTransferWithout}: of a spread that is peaked or Gaussian, and of one with
     * as broad a top as {@link #BROAD} tells. A broad spread may be cut off sharply, as by a slit; its transfer then changes its
     * sign, which the modulus does not show.
     */
    private static final double OF_SHAPE = 0.1;

    private static final double OF_BROAD_SHAPE = 0.25;
    /** The shape parameter of a film that scatter does not make of a Gaussian spread, and that of a slit. */
    private static final double NOT_BROAD = -0.2;

    private static final double BROAD = -0.5;

    /** Places for each period of the highest frequency measured; a sharp film has more beyond it. */
    private static final int FINENESS = 8;
    /** The transfers of film and scanner are continued to at most so many times that frequency. */
    private static final double BEYOND = 3;
    /** Above such a modulation of film and scanner a departure from the film of two parameters is seen. */
    private static final double LEAST_SEEN = 0.1;

    /** Below such a modulation the correction of a lower frequency is kept. */
    private static final double LEAST = 0.02;

    private final double[] frequencies;
    private final ScannedEdge edge;
    private final double spacing;
    private final int half;
    /** The line spread of the scanner, by places from its centre on. */
    private final double[] scannerSpread;

    private final double[] scannerAt;
    private double[] chain;
    private double[] factors;
    private double ofShape;
    private final double[][] chainBy;
    private final double[][] factorsBy;

    /** The chain for frequencies that are evenly spaced from 0. */
    ScannerChain(double[] frequencies, ModulationTransfer scanner, ScannedEdge edge) {
        this.frequencies = frequencies;
        this.edge = edge;
        scannerAt = Arrays.stream(frequencies).map(f -> scanner.at(f).value()).toArray();
        chainBy = new double[2][frequencies.length];
        factorsBy = new double[2][frequencies.length];
        double interval = frequencies[1] - frequencies[0];
        double end = frequencies[frequencies.length - 1];
        double highest = Math.max(end, Math.min(BEYOND * end, scanner.highestFrequency()));
        spacing = 1 / (FINENESS * highest);
        half = (int) Math.ceil(0.5 / interval / spacing);
        scannerSpread = spread(
                Math.min(highest, scanner.highestFrequency()),
                f -> scanner.at(Math.max(f, scanner.lowestFrequency())).value());
    }

    /** The line spread of a transfer that is even and ends at a frequency, by places from its centre on; its sum is 1. */
    private double[] spread(double end, DoubleUnaryOperator transfer) {
        double interval = 0.5 * (frequencies[1] - frequencies[0]);
        int count = (int) (end / interval);
        double[] spread = new double[half + 1];
        for (int j = 0; j <= count; j++) {
            double value = transfer.applyAsDouble(Math.min(end, j * interval)) * (j == 0 ? 0.5 : 1);
            double turn = 2 * Math.PI * j * interval * spacing;
            double twice = 2 * Math.cos(turn);
            double before = Math.cos(turn);
            double now = 1;
            for (int k = 0; k <= half; k++) {
                spread[k] += value * now;
                double next = twice * now - before;
                before = now;
                now = next;
            }
        }
        double sum = 2 * Arrays.stream(spread).sum() - spread[0];
        for (int k = 0; k <= half; k++) {
            spread[k] /= sum;
        }
        return spread;
    }

    /**
     * Fits the film.
     *
     * @param measured the modulation transfer of film and scanner at the frequencies
     * @throws NotDeterminableException if no film was found, or it is too sharp for the scanner
     */
    void fit(double[] measured) {
        double[] film = startingFrom(measured);
        double moved = Double.POSITIVE_INFINITY;
        for (int i = 0; i < ITERATIONS && moved >= CLOSE; i++) {
            atFilm(film);
            double[] change = change(measured, chain);
            double peaked = between(LEAST_PEAKED, film[1] + between(-MOST_CHANGE, change[1], MOST_CHANGE), MOST_PEAKED);
            double wider = peaked == film[1] ? changeOfHalf(measured) : change[0];
            moved = Math.hypot(wider, peaked - film[1]);
            film[0] *= Math.exp(between(-MOST_CHANGE, wider, MOST_CHANGE));
            film[1] = peaked;
        }
        if (!(moved < CLOSE)) {
            throw new NotDeterminableException(
                    Reason.UNSUITABLE_IMAGE,
                    "the scanner cannot be taken out of this edge: what was measured does not look like light spread in a"
                            + " film (no such film was found in " + ITERATIONS
                            + " iterations); see whether curve, scanner and"
                            + " image belong together, and take a longer or cleaner edge");
        }
        atFilm(film);
        double broad = between(0, (film[1] - NOT_BROAD) / (BROAD - NOT_BROAD), 1);
        ofShape = OF_SHAPE + broad * (OF_BROAD_SHAPE - OF_SHAPE);
        refine(Film.of(film), measured);
        double end = frequencies[frequencies.length - 1];
        double passed = Film.of(film).at(end);
        double bent = factors[factors.length - 1];
        if (passed > MOST_PASSED && Math.abs(bent - 1) > MOST_CORRECTED) {
            throw new NotDeterminableException(
                    Reason.UNSUITABLE_IMAGE,
                    "the scanner cannot be taken out of an edge of such contrast: it passes too little of what so sharp a film"
                            + " does; scan finer, or take an edge of less contrast");
        }
    }

    /** The factors of a film of any shape: the one that was found, times what was measured over what its chain gives. */
    private void refine(Film film, double[] measured) {
        double[] left = new double[frequencies.length];
        double kept = 1;
        for (int j = 0; j < left.length; j++) {
            kept = measured[j] > LEAST_SEEN && chain[j] > LEAST_SEEN ? measured[j] / chain[j] : kept;
            left[j] = kept;
        }
        DoubleUnaryOperator refined = f -> film.at(f) * interpolated(left, f);
        factors = factors(refined, chain(refined));
    }

    /** Values at the frequencies, on straight lines; the last one beyond. */
    private double interpolated(double[] values, double frequency) {
        double place = frequency / (frequencies[1] - frequencies[0]);
        int low = (int) Math.min(place, values.length - 1.0);
        return low == values.length - 1 ? values[low] : values[low] + (place - low) * (values[low + 1] - values[low]);
    }

    private static double between(double low, double value, double high) {
        return Math.max(low, Math.min(high, value));
    }

    /** The chain, the factors and their changes with the parameters. */
    private void atFilm(double[] film) {
        chain = chain(Film.of(film)::at);
        factors = factors(Film.of(film)::at, chain);
        for (int k = 0; k < 2; k++) {
            double[] beside =
                    k == 0 ? new double[] {film[0] * Math.exp(STEP), film[1]} : new double[] {film[0], film[1] + STEP};
            double[] other = chain(Film.of(beside)::at);
            double[] otherFactors = factors(Film.of(beside)::at, other);
            for (int j = 0; j < frequencies.length; j++) {
                chainBy[k][j] = (other[j] - chain[j]) / STEP;
                factorsBy[k][j] = (otherFactors[j] - factors[j]) / STEP;
            }
        }
    }

    /** The changes of the parameters by which the chain comes closest to other values, by least squares. */
    private double[] change(double[] values, double[] from) {
        double aa = 0;
        double ab = 0;
        double bb = 0;
        double ay = 0;
        double by = 0;
        for (int j = 0; j < values.length; j++) {
            double left = values[j] - from[j];
            aa += chainBy[0][j] * chainBy[0][j];
            ab += chainBy[0][j] * chainBy[1][j];
            bb += chainBy[1][j] * chainBy[1][j];
            ay += chainBy[0][j] * left;
            by += chainBy[1][j] * left;
        }
        double determinant = aa * bb - ab * ab;
        return new double[] {(bb * ay - ab * by) / determinant, (aa * by - ab * ay) / determinant};
    }

    /** The change of the first parameter alone, where the other is at its limit. */
    private double changeOfHalf(double[] values) {
        double aa = 0;
        double ay = 0;
        for (int j = 0; j < values.length; j++) {
            aa += chainBy[0][j] * chainBy[0][j];
            ay += chainBy[0][j] * (values[j] - chain[j]);
        }
        return ay / aa;
    }

    /** The factor by which the film's transfer differs from the quotient, for each frequency. */
    double[] factors() {
        return factors.clone();
    }

    /**
     * The factors, to first order, had other values been measured, and the film another shape.
     *
     * @param shape how far the shape departs from one of two parameters, as a standard normal deviate
     */
    double[] factors(double[] measured, double[] other, double shape) {
        double[] change = change(other, measured);
        double[] found = new double[factors.length];
        Arrays.setAll(
                found,
                j -> Math.max(0, factors[j] + factorsBy[0][j] * change[0] + factorsBy[1][j] * change[1])
                        * Math.pow(factors[j], ofShape * shape));
        return found;
    }

    private double[] factors(DoubleUnaryOperator film, double[] ofChain) {
        double[] found = new double[frequencies.length];
        double kept = 1;
        for (int j = 0; j < found.length; j++) {
            double plain = film.applyAsDouble(frequencies[j]) * scannerAt[j];
            kept = plain > LEAST && ofChain[j] > LEAST ? plain / ofChain[j] : kept;
            found[j] = kept;
        }
        return found;
    }

    /** Half the modulation at the frequency where film and scanner have it, and a shape between the two in closed form. */
    private double[] startingFrom(double[] measured) {
        int j = 0;
        while (j < measured.length - 1 && measured[j] > 0.5) {
            j++;
        }
        return new double[] {Math.max(frequencies[1], frequencies[j]), START_PEAKED};
    }

    /**
     * A film: (1 + (2<sup>p</sup> − 1) (f / half)²)<sup>−1/p</sup>. An exponential spread has p = 1, a Gaussian one p towards 0;
     * below 0 the transfer falls from a broad top, as that of a slit or beside adjacency effects.
     */
    private record Film(double half, double peaked) {

        static Film of(double[] parameters) {
            return new Film(parameters[0], parameters[1]);
        }

        double at(double frequency) {
            double square = Math.pow(frequency / half, 2);
            return Math.abs(peaked) < GAUSSIAN
                    ? Math.pow(2, -square)
                    : Math.pow(Math.max(0, 1 + (Math.pow(2, peaked) - 1) * square), -1 / peaked);
        }
    }

    /** The modulation transfer that the chain gives for a film. */
    private double[] chain(DoubleUnaryOperator film) {
        double[] spread = spread(BEYOND * frequencies[frequencies.length - 1], film);
        int size = 2 * half + 1;
        double[] transmittances = new double[size];
        double value = 0;
        for (int k = 0; k < size; k++) {
            value += spread[Math.abs(k - half)];
            double middle = value - 0.5 * spread[Math.abs(k - half)];
            transmittances[k] =
                    edge.light().toTransmittance().applyAsDouble(edge.from() + (edge.to() - edge.from()) * middle);
        }
        double[] slopes = new double[size];
        for (int k = 1; k < size; k++) {
            slopes[k] = transmittances[k] - transmittances[k - 1];
        }
        double[] read = new double[size];
        double sum = transmittances[0];
        for (int k = 0; k < size; k++) {
            for (int j = Math.max(0, k - half); j <= Math.min(size - 1, k + half); j++) {
                sum += slopes[j] * scannerSpread[Math.abs(k - j)];
            }
            read[k] = edge.light().fromTransmittance().applyAsDouble(sum);
        }
        return transfer(read);
    }

    /** The modulus of the transform of the differences, in the window of the reading, as a part of that at frequency 0. */
    private double[] transfer(double[] read) {
        int size = read.length;
        double level = 0.5 * (read[0] + read[size - 1]);
        double rise = Math.signum(read[size - 1] - read[0]);
        int above = 1;
        while (above < size - 1 && rise * (read[above] - level) < 0) {
            above++;
        }
        double centre = above - (read[above] - level) / (read[above] - read[above - 1]);
        double[] slopes = new double[size];
        double whole = 0;
        for (int k = 1; k < size; k++) {
            slopes[k] = (read[k] - read[k - 1]) * edge.window((k - 0.5 - centre) * spacing);
            whole += slopes[k];
        }
        double[] found = new double[frequencies.length];
        for (int j = 0; j < found.length; j++) {
            double turn = 2 * Math.PI * frequencies[j] * spacing;
            double re = 0;
            double im = 0;
            for (int k = 1; k < size; k++) {
                if (slopes[k] != 0) {
                    re += slopes[k] * Math.cos(turn * (k - centre));
                    im += slopes[k] * Math.sin(turn * (k - centre));
                }
            }
            double part = 0.5 * turn;
            double passed = part == 0 ? 1 : Math.sin(part) / part;
            found[j] = Math.hypot(re, im) / Math.abs(whole) / passed;
        }
        return found;
    }
}
