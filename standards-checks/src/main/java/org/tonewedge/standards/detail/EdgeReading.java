// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.detail;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.curve.NotDeterminableException.Reason;
import org.tonewedge.core.internal.Figures;

/**
 * The evaluation of one edge, from pixels to its response; the documentation of {@link SlantedEdge} describes the
 * steps.
 */
final class EdgeReading {

    /** The number of bins for each pixel. */
    private static final int OVERSAMPLING = 4;

    private static final int FEWEST_ROWS = 10;
    private static final int FEWEST_COLUMNS = 12;
    private static final int MOST_ROWS_FOR_PAIRS = 160;
    private static final int REFINEMENTS = 6;
    private static final double END_PART = 0.05;
    /** The window is flat over this many times the distance in which the edge comes to within 5 % of its ends. */
    private static final double FLAT = 3;

    private static final double FALL = 1.6;
    /** The window grows while the mean beyond it plainly departs from the end by more than this part of the height of the edge. */
    private static final double LEAST_TAIL = 0.001;

    private static final int FREQUENCIES = 160;
    /** The highest frequency, in cycles over the width from 5 % to 95 %. */
    private static final double MOST_CYCLES = 6;

    /** So many pixels tell their scatter well. */
    private static final long ENOUGH_FOR_SCATTER = 100_000;

    /** Rows are correlated up to the first distance at which they are by less. */
    private static final double LEAST_CORRELATION = 0.05;
    /** What departs less from the mean edge, as a part of its height, is not grain: bins do not follow the edge exactly. */
    private static final double LEAST_GRAIN = 0.003;
    /** Fewer independent rows leave no interval. */
    private static final double FEWEST_INDEPENDENT = 3;

    private static final double LEAST_SIGNAL = 6;
    /** The step over the scatter of single pixels, times the root of the rows, below which an edge is faint. */
    private static final double FAINT = 40;

    private static final double CURVED = 0.1;
    private static final double SIGNIFICANT = 4;

    private final double[] values;
    private final int rows;
    private final int columns;
    private final double pitch;
    private final DoubleUnaryOperator ofBin;
    private final Light light;
    private final long seed;
    private final List<String> notes = new ArrayList<>();

    /** The edge is at column offset + slope · row. */
    private double offset;

    private double slope;
    /** The component at right angles to the edge of a step of one column. */
    private double cosine;

    /** How far each row lies beside the line, in pixels. */
    private double[] beside;

    /** Bins from −half to half. */
    private int half;
    /** The farthest bin from the edge in which it still rises. */
    private int steep;

    private double[] edge;
    private double[] counts;

    /** The rows that tell as much as one row would if all were independent. */
    private double rowsTogether = 1;

    EdgeReading(double[] pixels, int width, double pitch, DoubleUnaryOperator ofBin, Light light, long seed) {
        int height = pixels.length / width;
        this.pitch = pitch;
        this.ofBin = ofBin;
        this.light = light;
        this.seed = seed;
        boolean upright = change(pixels, width, height, 1, width) >= change(pixels, height, width, width, 1);
        values = upright ? pixels : transposed(pixels, width);
        columns = upright ? width : height;
        rows = upright ? height : width;
        if (rows < FEWEST_ROWS || columns < FEWEST_COLUMNS) {
            throw new NotDeterminableException(
                    Reason.UNSUITABLE_IMAGE,
                    "an edge needs at least " + FEWEST_ROWS + " rows of " + FEWEST_COLUMNS + " pixels across it, were "
                            + rows + " of " + columns + "; take a larger region");
        }
    }

    /** The mean change from the first eighth of lines of pixels to the last, by the steps within a line and to the next. */
    private static double change(double[] pixels, int length, int lines, int within, int toNext) {
        double sum = 0;
        int part = Math.max(1, length / 8);
        for (int line = 0; line < lines; line++) {
            for (int i = 0; i < part; i++) {
                sum += pixels[line * toNext + (length - 1 - i) * within] - pixels[line * toNext + i * within];
            }
        }
        return Math.abs(sum) / (lines * (double) part);
    }

    private static double[] transposed(double[] pixels, int width) {
        int height = pixels.length / width;
        double[] turned = new double[pixels.length];
        for (int i = 0; i < pixels.length; i++) {
            turned[i % width * height + i / width] = pixels[i];
        }
        return turned;
    }

    EdgeResponse response() {
        findLine();
        gather(Integer.MAX_VALUE);
        double change = refine();
        for (int i = 1; i < REFINEMENTS && change >= 1e-4; i++) {
            gather(steep + 4 * OVERSAMPLING); // what lies farther from the edge does not move it
            change = refine();
        }
        noteCurvature();
        gather(Integer.MAX_VALUE);
        return transformed();
    }

    /** A first line, through the position in each row where the sum of departures from the row's mean is greatest. */
    private void findLine() {
        int step = Math.max(1, rows / MOST_ROWS_FOR_PAIRS);
        int gathered = rows / step;
        double[] places = new double[gathered];
        double[] profile = new double[columns];
        for (int k = 0; k < gathered; k++) {
            Arrays.fill(profile, 0);
            for (int row = k * step; row < (k + 1) * step; row++) {
                for (int i = 0; i < columns; i++) {
                    profile[i] += values[row * columns + i];
                }
            }
            places[k] = placeOfStep(profile);
        }
        List<Double> slopes = new ArrayList<>();
        for (int i = 0; i < gathered; i++) {
            for (int j = i + Math.max(1, gathered / 8); j < gathered; j++) {
                slopes.add((places[j] - places[i]) / ((j - i) * (double) step));
            }
        }
        slope = median(slopes.stream().mapToDouble(Double::doubleValue).toArray());
        double[] offsets = new double[gathered];
        for (int k = 0; k < gathered; k++) {
            offsets[k] = places[k] - slope * (k * step + 0.5 * (step - 1));
        }
        offset = median(offsets);
        setCosine();
    }

    private static double placeOfStep(double[] profile) {
        double mean = Arrays.stream(profile).average().orElseThrow();
        double sum = 0;
        double greatest = 0;
        int place = 0;
        for (int i = 0; i + 1 < profile.length; i++) {
            sum += profile[i] - mean;
            if (Math.abs(sum) > greatest) {
                greatest = Math.abs(sum);
                place = i;
            }
        }
        return place + 0.5;
    }

    private static double median(double[] all) {
        Arrays.sort(all);
        return 0.5 * (all[all.length / 2] + all[(all.length - 1) / 2]);
    }

    private void setCosine() {
        cosine = 1 / Math.sqrt(1 + slope * slope);
        if (Math.abs(slope) > 1.02) {
            throw new NotDeterminableException(
                    Reason.UNSUITABLE_IMAGE,
                    "the edge is tilted by more than 45°; take a region in which it runs from"
                            + " one side to the opposite one");
        }
        double last = offset + slope * (rows - 1);
        if (Math.min(offset, last) < 3 || Math.max(offset, last) > columns - 4) {
            throw new NotDeterminableException(
                    Reason.UNSUITABLE_IMAGE,
                    "the edge leaves the region: it runs from column " + Math.round(offset)
                            + " to column " + Math.round(last) + " of " + columns
                            + "; take a region with room on both sides of it");
        }
    }

    /** The distance of a pixel from the edge, in bins. */
    private double place(int row, int column) {
        return (column - offset - slope * row) * cosine * OVERSAMPLING;
    }

    private int bin(int row, int column) {
        return (int) Math.rint(place(row, column));
    }

    /** The first column of a row that may fall into a bin. */
    private int columnFrom(int row, int bin) {
        return (int) Math.max(0, Math.floor(offset + slope * row + (bin - 1) / (cosine * OVERSAMPLING)));
    }

    /** The column after the last of a row that may fall into a bin. */
    private int columnTo(int row, int bin) {
        return (int) Math.min(columns, Math.ceil(offset + slope * row + (bin + 1) / (cosine * OVERSAMPLING)) + 1);
    }

    /** The mean edge at a place counted from its first bin. */
    private double expected(double place) {
        int low = Math.max(0, Math.min(edge.length - 2, (int) Math.floor(place)));
        return edge[low] + (place - low) * (edge[low + 1] - edge[low]);
    }

    /** The mean edge, by bins up to a farthest, each brought from the mean place of its pixels to its centre. */
    private void gather(int farthest) {
        double last = offset + slope * (rows - 1);
        int reach = (int) Math.min(farthest, columns * cosine * OVERSAMPLING);
        double[] sums = new double[2 * reach + 1];
        double[] found = new double[2 * reach + 1];
        double[] places = new double[2 * reach + 1];
        for (int row = 0; row < rows; row++) {
            int to = columnTo(row, reach);
            for (int i = columnFrom(row, -reach); i < to; i++) {
                double place = place(row, i);
                int bin = (int) Math.rint(place);
                int k = bin + reach;
                if (k >= 0 && k <= 2 * reach) {
                    sums[k] += values[row * columns + i];
                    places[k] += place - bin;
                    found[k]++;
                }
            }
        }
        double room = Math.min(Math.min(offset, last), columns - 1 - Math.max(offset, last));
        double usual = rows / (double) OVERSAMPLING;
        half = 0;
        for (int k = 0; k <= reach; k++) {
            boolean thin = around(found, reach + k) < 0.3 * usual || around(found, reach - k) < 0.3 * usual;
            if (thin && k > room * cosine * OVERSAMPLING) {
                break;
            }
            half = k;
        }
        edge = new double[2 * half + 1];
        counts = Arrays.copyOfRange(found, reach - half, reach + half + 1);
        for (int k = 0; k < edge.length; k++) {
            edge[k] = sums[k + reach - half] / counts[k]; // NaN where no pixel fell
        }
        fillGaps();
        double[] uncentred = edge.clone();
        for (int k = 1; k + 1 < edge.length; k++) {
            if (counts[k] > 0) {
                double off = places[k + reach - half] / counts[k];
                edge[k] -= off * 0.5 * (uncentred[k + 1] - uncentred[k - 1]);
            }
        }
    }

    /** The mean count of the bins of the pixel around one bin. */
    private static double around(double[] found, int k) {
        double sum = 0;
        int n = 0;
        for (int j = Math.max(0, k - 2); j <= Math.min(found.length - 1, k + 1); j++) {
            sum += found[j];
            n++;
        }
        return sum / n;
    }

    private void fillGaps() {
        int empty = 0;
        int longest = 0;
        int run = 0;
        for (double count : counts) {
            run = count == 0 ? run + 1 : 0;
            empty += count == 0 ? 1 : 0;
            longest = Math.max(longest, run);
        }
        if (longest >= OVERSAMPLING || empty > 0.5 * counts.length) {
            throw new NotDeterminableException(
                    Reason.UNSUITABLE_IMAGE,
                    "the edge is parallel to the rows of pixels: its places in the rows leave "
                            + empty + " of " + counts.length
                            + " quarter-pixel bins empty; tilt it by 3 to 10 degrees, or take more rows");
        }
        int before = -1;
        for (int k = 0; k < edge.length; k++) {
            if (counts[k] == 0) {
                continue;
            }
            for (int j = before + 1; j < k; j++) {
                double part = before < 0 ? 1 : (j - before) / (double) (k - before);
                edge[j] = before < 0 ? edge[k] : (1 - part) * edge[before] + part * edge[k];
            }
            before = k;
        }
        for (int j = before + 1; j < edge.length; j++) {
            edge[j] = edge[before];
        }
    }

    /**
     * Shifts each row onto the mean edge by least squares and fits the line again; returns the greatest change in
     * pixels.
     */
    private double refine() {
        double[] slopes = new double[edge.length];
        double steepest = 0;
        for (int k = OVERSAMPLING; k + OVERSAMPLING < edge.length; k++) {
            double sum = 0;
            for (int j = 1; j <= OVERSAMPLING; j++) {
                sum += edge[k + j] - edge[k - j];
            }
            slopes[k] = sum / (OVERSAMPLING * (OVERSAMPLING + 1.0)) * OVERSAMPLING; // per pixel, a wide difference
            steepest = Math.max(steepest, Math.abs(slopes[k]));
        }
        steep = 0;
        for (int k = 0; k < slopes.length; k++) {
            slopes[k] = Math.abs(slopes[k]) > 0.3 * steepest ? slopes[k] : 0;
            steep = slopes[k] == 0 ? steep : Math.max(steep, Math.abs(k - half));
        }
        double[] shifts = new double[rows];
        double[] weights = new double[rows];
        for (int row = 0; row < rows; row++) {
            double above = 0;
            double below = 0;
            int to = columnTo(row, steep);
            for (int i = columnFrom(row, -steep); i < to; i++) {
                int k = bin(row, i) + half;
                if (k >= 0 && k < edge.length && slopes[k] != 0) {
                    double left = values[row * columns + i] - expected(place(row, i) + half);
                    above -= left * slopes[k];
                    below += slopes[k] * slopes[k];
                }
            }
            weights[row] = below;
            shifts[row] = below > 0 ? Math.max(-2, Math.min(2, above / below)) / cosine : 0;
        }
        double[] line = weightedLine(shifts, weights);
        beside = new double[rows];
        Arrays.setAll(beside, row -> shifts[row] - line[0] - line[1] * row);
        offset += line[0];
        slope += line[1];
        setCosine();
        return Math.max(Math.abs(line[0]), Math.abs(line[0] + line[1] * (rows - 1)));
    }

    private static double[] weightedLine(double[] y, double[] w) {
        double s = 0;
        double sx = 0;
        double sy = 0;
        double sxx = 0;
        double sxy = 0;
        for (int i = 0; i < y.length; i++) {
            s += w[i];
            sx += w[i] * i;
            sy += w[i] * y[i];
            sxx += w[i] * i * i;
            sxy += w[i] * i * y[i];
        }
        double determinant = s * sxx - sx * sx;
        if (!(determinant > 0)) {
            throw new NotDeterminableException(
                    Reason.UNSUITABLE_IMAGE, "no edge was found in the region; place it across one");
        }
        double b = (s * sxy - sx * sy) / determinant;
        return new double[] {(sy - b * sx) / s, b};
    }

    private void noteCurvature() {
        double up = 0;
        double norm = 0;
        double squares = 0;
        for (int row = 0; row < rows; row++) {
            double x = 2.0 * row / (rows - 1) - 1;
            double bow = x * x - 1.0 / 3;
            up += bow * beside[row];
            norm += bow * bow;
            squares += beside[row] * beside[row];
        }
        double height = up / norm;
        double uncertainty = Math.sqrt(squares / (rows - 3) / norm);
        if (Math.abs(height) > CURVED && Math.abs(height) > SIGNIFICANT * uncertainty) {
            notes.add("the edge is curved by " + Figures.plain(Math.abs(height))
                    + " pixels, which blurs the mean edge; take a shorter region");
        }
    }

    private EdgeResponse transformed() {
        int bins = edge.length;
        double[] read = new double[bins];
        double[] scale = new double[bins];
        double low = endMean(0, bins / 8 + 1);
        double high = endMean(bins - bins / 8 - 1, bins);
        double small = Math.abs(high - low) * 1e-4;
        for (int k = 0; k < bins; k++) {
            read[k] = ofBin.applyAsDouble(edge[k]);
            scale[k] = slopeOfBin(edge[k], small, edge[k] < 0.5 * (low + high));
        }
        double scatter = pixelScatter();
        double ends = Math.abs(high - low);
        if (!(ends > LEAST_SIGNAL * scatter / Math.sqrt(Math.max(1, rows * (half / (4.0 * OVERSAMPLING))))
                && ends > 1e-9)) {
            throw new NotDeterminableException(
                    Reason.UNSUITABLE_IMAGE,
                    "no edge stands out of the noise: the sides differ by "
                            + Figures.plain(ends) + ", single pixels scatter by " + Figures.plain(scatter)
                            + "; place the region across an edge");
        }
        if (ends * Math.sqrt(rows) < FAINT * scatter) {
            notes.add("the edge is faint: single pixels scatter by " + Figures.plain(scatter / ends)
                    + " of its step over "
                    + rows
                    + " rows; MTF50 then tends to be too low, by more than its interval says; take a longer edge,"
                    + " or one of more contrast");
        }
        double from = mean(read, 0, bins / 8 + 1);
        double to = mean(read, bins - bins / 8 - 1, bins);
        double[] smooth = smoothed(read);
        double centre = crossing(smooth, 0.5 * (from + to), half);
        double near = half - crossing(smooth, from + END_PART * (to - from), half);
        double far = crossing(smooth, to - END_PART * (to - from), half) - half;
        near += centre - half;
        far -= centre - half;
        double width = near + far; // in bins
        double reach = Math.min(centre, bins - 1 - centre);
        double widest = Math.max(Math.max(near, far), OVERSAMPLING);
        if (!(reach > FALL * widest)) {
            throw new NotDeterminableException(
                    Reason.UNSUITABLE_IMAGE,
                    "the edge is too wide for the region: it takes "
                            + Figures.plain(width / OVERSAMPLING) + " pixels from 5 % to 95 % where "
                            + Figures.plain(reach / OVERSAMPLING)
                            + " are free on its narrower side; take a region that is three times wider");
        }
        double flat = FLAT * widest;
        double[][] departures = departures(scale, scatter > LEAST_GRAIN * ends);
        while (FALL * (flat + widest) <= reach && hasTail(read, departures, centre, flat, flat + widest)) {
            flat += widest;
        }
        if (flat > FLAT * widest
                && FALL * (flat + widest) > reach
                && hasTail(read, departures, centre, flat, Math.min(flat + widest, reach))) {
            notes.add(
                    "the sides of the edge are not level up to the end of the region: light spreads wider than that, or the"
                            + " scan is lit unevenly; check the lighting, and take a wider region");
        }
        double outer = FALL * flat;
        if (outer > reach) {
            outer = reach;
            flat = reach / FALL;
            if (flat < 2 * widest) {
                notes.add("the region ends close to the edge, which makes a wide edge look sharper; take a wider one");
            }
        }
        return new Transform(read, departures, centre, flat, outer, width).response(from, to);
    }

    /**
     * Whether the mean between two distances from the edge, on either side, is plainly not that of the end of the profile. Blocks
     * of rows tell how uncertain it is, as neighbouring pixels share their noise and dust lies in few blocks.
     */
    private static boolean hasTail(double[] read, double[][] departures, double centre, double near, double far) {
        int end = read.length / 8 + 1;
        double height = Math.abs(mean(read, 0, end) - mean(read, read.length - end, read.length));
        for (int side = -1; side <= 1; side += 2) {
            double tail = Math.abs(besideEnd(read, centre, near, far, side));
            double variance = 0;
            for (double[] departure : departures) {
                double ofBlock = besideEnd(departure, centre, near, far, side);
                variance += ofBlock * ofBlock;
            }
            if (tail > LEAST_TAIL * height && tail > SIGNIFICANT * Math.sqrt(variance)) {
                return true;
            }
        }
        return false;
    }

    /** The mean between two distances on one side of the edge, less that of the end of this side. */
    private static double besideEnd(double[] of, double centre, double near, double far, int side) {
        double sum = 0;
        int count = 0;
        for (int k = (int) Math.ceil(near); k < far; k++) {
            sum += of[(int) Math.rint(centre + side * k)];
            count++;
        }
        int end = of.length / 8 + 1;
        int begin = side < 0 ? 0 : of.length - end;
        return sum / count - mean(of, begin, begin + end);
    }

    /**
     * What each block of rows adds to the mean edge beyond its share, by bins. Where grain spans rows, blocks vary together; what
     * that adds to the variance of the mean is made good in each block.
     */
    private double[][] departures(double[] scale, boolean grainy) {
        int blocks = Math.min(SlantedEdge.MOST_BLOCKS, rows);
        double[] correlations = grainy ? correlationsAlongEdge() : new double[0];
        rowsTogether = together(correlations, Double.POSITIVE_INFINITY);
        double more = Math.sqrt(rowsTogether / together(correlations, rows / (double) blocks));
        double[][] sums = new double[blocks][edge.length];
        for (int row = 0; row < rows; row++) {
            double[] of = sums[(int) ((long) row * blocks / rows)];
            int to = columnTo(row, half);
            for (int i = columnFrom(row, -half); i < to; i++) {
                int k = bin(row, i) + half;
                if (k >= 0 && k < edge.length && counts[k] > 1) {
                    double freed = Math.sqrt(counts[k] / (counts[k] - 1));
                    double left = values[row * columns + i] - expected(place(row, i) + half);
                    of[k] += more * left * freed * scale[k] / counts[k];
                }
            }
        }
        return sums;
    }

    /**
     * The factor by which the variance of the mean of so many rows exceeds that of independent ones: 1 + 2 Σ (1 − r/n) ρ(r) over
     * distances r below n.
     */
    private static double together(double[] correlations, double count) {
        double sum = 1;
        for (int r = 1; r <= correlations.length && r < count; r++) {
            sum += 2 * (1 - r / count) * correlations[r - 1];
        }
        return sum;
    }

    /**
     * The correlations of departures from the mean edge at the same distance from the edge, one row apart, two rows and so on up
     * to where they end. The mean of a row on either side is left out: a row of another brightness is as sharp.
     */
    private double[] correlationsAlongEdge() {
        int stride = (int) Math.max(1, (long) rows * columns / ENOUGH_FOR_SCATTER);
        int reach = half / OVERSAMPLING / stride;
        double[][] left = new double[rows][2 * reach + 1];
        int count = 0;
        for (int row = 0; row < rows; row++) {
            for (int d = -reach; d <= reach; d++) {
                int column = (int) Math.rint(offset + slope * row + d * stride / cosine);
                boolean within = column >= 0 && column < columns;
                int k = within ? bin(row, column) + half : -1;
                boolean isRead = k >= 0 && k < edge.length && counts[k] > 1;
                left[row][d + reach] =
                        isRead ? values[row * columns + column] - expected(place(row, column) + half) : Double.NaN;
                count += isRead ? 1 : 0;
            }
            centre(left[row], 0, reach);
            centre(left[row], reach, 2 * reach + 1);
        }
        double squares = Arrays.stream(left)
                .flatMapToDouble(Arrays::stream)
                .map(d -> d * d)
                .sum();
        double least = Math.max(LEAST_CORRELATION, 2 / Math.sqrt(count));
        double[] found = new double[rows / 4];
        for (int r = 1; r <= found.length; r++) {
            double products = 0;
            for (int row = 0; row + r < rows; row++) {
                for (int d = 0; d < left[row].length; d++) {
                    products += left[row][d] * left[row + r][d];
                }
            }
            double correlation = products / squares * rows / (rows - r);
            if (!(correlation > least)) {
                return Arrays.copyOf(found, r - 1);
            }
            found[r - 1] = correlation;
        }
        return found;
    }

    /** Subtracts the mean of a part from its numbers; what is no number becomes 0. */
    private static void centre(double[] of, int begin, int end) {
        double mean = Arrays.stream(of, begin, end)
                .filter(d -> !Double.isNaN(d))
                .average()
                .orElse(0);
        for (int k = begin; k < end; k++) {
            of[k] = Double.isNaN(of[k]) ? 0 : of[k] - mean;
        }
    }

    /** How the value of a bin changes with its mean density, by a one-sided difference. */
    private double slopeOfBin(double value, double small, boolean up) {
        double step = up ? small : -small;
        return (ofBin.applyAsDouble(value + step) - ofBin.applyAsDouble(value)) / step;
    }

    private double endMean(int begin, int end) {
        return mean(edge, begin, end);
    }

    private static double mean(double[] of, int begin, int end) {
        return Arrays.stream(of, begin, end).average().orElseThrow();
    }

    private double pixelScatter() {
        double sum = 0;
        long n = 0;
        int step = (int) Math.max(1, (long) rows * columns / ENOUGH_FOR_SCATTER);
        for (int row = 0; row < rows; row += step) {
            for (int i = 0; i < columns; i++) {
                int k = bin(row, i) + half;
                if (k >= 0 && k < edge.length && counts[k] > 1) {
                    double left = values[row * columns + i] - expected(place(row, i) + half);
                    sum += left * left * counts[k] / (counts[k] - 1);
                    n++;
                }
            }
        }
        return Math.sqrt(sum / Math.max(1, n));
    }

    /** Means over one pixel. */
    private static double[] smoothed(double[] of) {
        double[] means = new double[of.length];
        int reach = OVERSAMPLING / 2;
        for (int k = 0; k < of.length; k++) {
            means[k] = mean(of, Math.max(0, k - reach), Math.min(of.length, k + reach + 1));
        }
        return means;
    }

    /** The position closest to a given one where values cross a level. */
    private static double crossing(double[] of, double level, int about) {
        for (int d = 0; d < of.length; d++) {
            for (int k : new int[] {about - d, about + d}) {
                if (k >= 0 && k + 1 < of.length && (of[k] - level) * (of[k + 1] - level) <= 0 && of[k] != of[k + 1]) {
                    return k + (level - of[k]) / (of[k + 1] - of[k]);
                }
            }
        }
        throw new NotDeterminableException(
                Reason.UNSUITABLE_IMAGE, "the edge does not reach its ends within the region; take a wider one");
    }

    /** The transform of the windowed slope, and its alternatives. */
    private final class Transform {

        private final double[] read;
        private final double[][] departures;
        private final double centre;
        private final double flat;
        private final double outer;
        private final double width;
        private final int first;
        private final int last;
        private final double[] frequencies = new double[FREQUENCIES + 1];
        private final double[][] real;
        private final double[][] imaginary;

        Transform(double[] read, double[][] ofBlocks, double centre, double flat, double outer, double width) {
            this.read = read;
            this.centre = centre;
            this.flat = flat;
            this.outer = outer;
            this.width = width;
            first = (int) Math.max(0, Math.floor(centre - outer));
            last = (int) Math.min(read.length - 1, Math.ceil(centre + outer));
            departures = Arrays.stream(ofBlocks)
                    .map(all -> Arrays.copyOfRange(all, first, last + 1))
                    .toArray(double[][]::new);
            double highest = Math.min(1, MOST_CYCLES * OVERSAMPLING / width);
            real = new double[FREQUENCIES + 1][last - first + 1];
            imaginary = new double[FREQUENCIES + 1][last - first + 1];
            for (int j = 0; j <= FREQUENCIES; j++) {
                frequencies[j] = highest * j / FREQUENCIES;
                weigh(2 * Math.PI * frequencies[j] / OVERSAMPLING, real[j], imaginary[j]);
            }
        }

        /**
         * The transform of the slope as a weight for each bin: what the bin adds to the difference before it minus what
         * it takes from the one after it. A rotation carries the wave from bin to bin.
         */
        private void weigh(double step, double[] re, double[] im) {
            double turnCos = Math.cos(step);
            double turnSin = Math.sin(step);
            double cos = Math.cos(step * (first - 0.5 - centre));
            double sin = Math.sin(step * (first - 0.5 - centre));
            double before = 0;
            for (int k = first; k <= last; k++) {
                double nextCos = cos * turnCos - sin * turnSin;
                double nextSin = sin * turnCos + cos * turnSin;
                double after = k == last ? 0 : ScannedEdge.window(k + 0.5 - centre, flat, outer);
                re[k - first] = before * cos - after * nextCos;
                im[k - first] = after * nextSin - before * sin;
                before = after;
                cos = nextCos;
                sin = nextSin;
            }
        }

        EdgeResponse response(double from, double to) {
            int blocks = departures.length;
            double[] re = new double[FREQUENCIES + 1];
            double[] im = new double[FREQUENCIES + 1];
            double[][] reOf = new double[blocks][FREQUENCIES + 1];
            double[][] imOf = new double[blocks][FREQUENCIES + 1];
            double[] noise = new double[FREQUENCIES + 1];
            for (int j = 0; j <= FREQUENCIES; j++) {
                for (int k = first; k <= last; k++) {
                    re[j] += real[j][k - first] * read[k];
                    im[j] += imaginary[j][k - first] * read[k];
                }
                for (int b = 0; b < blocks; b++) {
                    double sumRe = 0;
                    double sumIm = 0;
                    double[] of = departures[b];
                    for (int k = 0; k < of.length; k++) {
                        sumRe += real[j][k] * of[k];
                        sumIm += imaginary[j][k] * of[k];
                    }
                    reOf[b][j] = sumRe;
                    imOf[b][j] = sumIm;
                    noise[j] += sumRe * sumRe + sumIm * sumIm;
                }
            }
            double[] values = modulations(re, im, noise, 1);
            double[][] alternatives = new double[SlantedEdge.ALTERNATIVES][];
            Random random = new Random(seed);
            for (int a = 0; a < alternatives.length; a++) {
                double[] oneRe = re.clone();
                double[] oneIm = im.clone();
                for (int b = 0; b < blocks; b++) {
                    double factor = random.nextGaussian();
                    for (int j = 0; j <= FREQUENCIES; j++) {
                        oneRe[j] += factor * reOf[b][j];
                        oneIm[j] += factor * imOf[b][j];
                    }
                }
                alternatives[a] = modulations(oneRe, oneIm, noise, 2);
            }
            double perMillimetre = 1000 / pitch;
            double[] scaled =
                    Arrays.stream(frequencies).map(f -> f * perMillimetre).toArray();
            double[] places = new double[last - first + 1];
            double[] spread = Arrays.copyOfRange(read, first, last + 1);
            for (int k = 0; k < places.length; k++) {
                places[k] = (k + first - centre) * pitch / OVERSAMPLING;
            }
            return new EdgeResponse(
                    ModulationTransfer.measured(scaled, values, alternatives, (int)
                            Math.min(blocks, Math.max(FEWEST_INDEPENDENT, rows / rowsTogether))),
                    new ScannedEdge(
                            from, to, flat * pitch / OVERSAMPLING / 1000, outer * pitch / OVERSAMPLING / 1000, light),
                    Math.toDegrees(Math.atan(Math.abs(slope))),
                    width * pitch / OVERSAMPLING,
                    places,
                    spread,
                    departures,
                    notes);
        }

        private double[] modulations(double[] re, double[] im, double[] noise, int shares) {
            double[] found = new double[FREQUENCIES + 1];
            double whole = Math.hypot(re[0], im[0]);
            for (int j = 0; j <= FREQUENCIES; j++) {
                double power = re[j] * re[j] + im[j] * im[j] - (j == 0 ? 0 : shares * noise[j]);
                double part = Math.PI * frequencies[j] / OVERSAMPLING;
                double passed = part == 0 ? 1 : Math.sin(part) / part;
                found[j] = Math.sqrt(Math.max(0, power)) / whole / (passed * passed);
            }
            return found;
        }
    }
}
