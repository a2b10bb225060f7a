// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.detail;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.curve.NotDeterminableException.Reason;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.scan.ScanCodeTable;
import org.tonewedge.core.scan.ScanRegion;
import org.tonewedge.core.scan.ScanRows;

/**
 * Finds the steps of a tablet, or of a strip exposed through one, in a rough box on a scan.
 *
 * <pre>{@code
 * List<ScanRegion> steps = StepFinder.of(21).find(scan, box, densities);
 * List<PatchGrid.Area> read = PatchGrid.readEach(scan, steps, densities);
 * }</pre>
 *
 * <p>The steps are of equal width and lie in a row along the longer side of the box, which includes all of them and
 * little else. Steps so unequal that a region would plainly reach beyond its step are refused.
 *
 * <p>The medians across the middle half of the box make a profile; the row of equal steps is the one that leaves the
 * least squares if each step, and what lies before the first and behind the last, has a density of its own. Regions
 * leave out {@value #MARGIN} of each step at either end, and a quarter of the box along its long sides.
 *
 * <p>A row that could as well begin one step earlier or later is refused: an unexposed end of the film looks like the
 * step beside it. The box may then be drawn exactly and read with {@link PatchGrid}.
 *
 * <p>Immutable and thread safe.
 *
 * @source least squares of a function that is constant by pieces: common practice, no source
 */
public final class StepFinder {

    /** The part of a step that is left out at either end. */
    public static final double MARGIN = 0.2;

    /** The least part of the box, along it, that the steps must fill. */
    private static final double LEAST_FILLED = 0.6;

    /** The part of a step beside each boundary that does not count, when rows are tried. */
    private static final double BOUNDARY = 0.15;

    /** The same when the best row is put in its exact place. */
    private static final double NARROW = 0.03;

    private static final int MOST_PLACES = 6000;
    private static final int MOST_SAMPLES = 64;
    private static final double WIDTH_RATIO = 1.004;
    private static final double START_STEP = 0.1;
    private static final int REFINEMENTS = 5;
    /** A row at another place must leave so much more. */
    private static final double CLEARLY_WORSE = 1.3;

    /** How far a row may lie off and count as the same place, in steps. */
    private static final double SAME_PLACE = 0.6;

    /** What is left of a true row of steps, as a part of the usual difference between neighbours. */
    private static final double MOST_LEFT = 0.2;

    /** A region reaches into the next step if its last places lie so far towards it, as a part of the difference. */
    private static final double REACHED = 0.5;

    private static final int FEWEST_REACHED = 2;

    /** A step must differ from what lies beside it by so many times the scatter of places: noise hardly is half of it. */
    private static final double MOST_NOISE = 8;

    private static final double LEAST_RANGE = 0.1;
    private static final int FEWEST_PLACES = 6;
    private static final double MIDDLE = 0.5;

    private final int steps;

    private StepFinder(int steps) {
        this.steps = steps;
    }

    /**
     * Returns a finder of so many steps.
     *
     * @param steps the number of steps, from 3 to 200
     * @return the finder
     * @throws IllegalArgumentException if the number is out of range
     */
    public static StepFinder of(int steps) {
        return new StepFinder((int) Checks.within("number of steps", steps, 3, 200, ""));
    }

    /**
     * Finds the steps.
     *
     * @param scan the scan
     * @param box a rough box about the steps
     * @param densities the density of each code; a proportional one will do
     * @return the inner part of each step, from the left or from the top
     * @throws NotDeterminableException if no row of so many steps stands out, their widths differ too much, or the row
     *     could as well lie one step further
     * @throws IOException if the scan cannot be read
     */
    public List<ScanRegion> find(ScanRows scan, ScanRegion box, ScanCodeTable densities) throws IOException {
        boolean lying = box.width() >= box.height();
        int length = lying ? box.width() : box.height();
        int thinning = (length + MOST_PLACES - 1) / MOST_PLACES;
        double[] profile = profile(scan, box, densities, lying, thinning);
        Row found = new Search(profile).best();
        List<ScanRegion> regions = new ArrayList<>();
        for (int k = 0; k < steps; k++) {
            int from = (int) Math.ceil((found.start + (k + MARGIN) * found.width) * thinning);
            int to = (int) Math.floor((found.start + (k + 1 - MARGIN) * found.width) * thinning);
            int quarter = (lying ? box.height() : box.width()) / 4;
            regions.add(
                    lying
                            ? new ScanRegion(box.x() + from, box.y() + quarter, to - from, box.height() - 2 * quarter)
                            : new ScanRegion(box.x() + quarter, box.y() + from, box.width() - 2 * quarter, to - from));
        }
        return List.copyOf(regions);
    }

    /** Medians across the middle half of the box, at every n-th place along it. */
    private static double[] profile(ScanRows scan, ScanRegion box, ScanCodeTable densities, boolean lying, int thinning)
            throws IOException {
        int depth = lying ? box.height() : box.width();
        int quarter = depth / 4;
        int middle = depth - 2 * quarter;
        int apart = (middle + MOST_SAMPLES - 1) / MOST_SAMPLES;
        int samples = (middle + apart - 1) / apart;
        int places = ((lying ? box.width() : box.height()) + thinning - 1) / thinning;
        double[][] seen = new double[places][samples];
        scan.read(box, (y, codes) -> {
            int row = y - box.y();
            int along = lying ? row - quarter : row;
            int every = lying ? apart : thinning;
            if (along < 0 || along % every != 0 || along / every >= (lying ? samples : places)) {
                return;
            }
            for (int i = 0; i < (lying ? places : samples); i++) {
                int code = codes[lying ? i * thinning : quarter + i * apart];
                double density = densities.covers(code) ? densities.value(code) : Double.NaN;
                seen[lying ? i : along / every][lying ? along / every : i] = density;
            }
        });
        double[] profile = new double[places];
        for (int i = 0; i < places; i++) {
            double[] known =
                    Arrays.stream(seen[i]).filter(d -> !Double.isNaN(d)).toArray();
            profile[i] = 2 * known.length > samples ? PatchPixels.median(known) : Double.NaN;
        }
        double most = Arrays.stream(profile).filter(Double::isFinite).max().orElse(0);
        return Arrays.stream(profile).map(d -> Double.isNaN(d) ? most : d).toArray(); // black is denser than all
    }

    /** A row of steps, its lengths in places of the profile, and the mean square it leaves. */
    private record Row(double start, double width, double left) {}

    private final class Search {

        private final int places;
        private final double[] sums;
        private final double[] squares;

        Search(double[] profile) {
            places = profile.length;
            sums = new double[places + 1];
            squares = new double[places + 1];
            double mean = Arrays.stream(profile).average().orElse(0);
            for (int i = 0; i < places; i++) {
                double value = profile[i] - mean;
                sums[i + 1] = sums[i] + value;
                squares[i + 1] = squares[i] + value * value;
            }
        }

        Row best() {
            double narrowest = LEAST_FILLED * places / steps;
            if (narrowest < FEWEST_PLACES) {
                throw new NotDeterminableException(
                        Reason.UNSUITABLE_IMAGE,
                        "a box of " + places + " pixels is too short for " + steps + " steps, which need "
                                + FEWEST_PLACES + " pixels each; scan finer, or draw a longer box");
            }
            List<Row> rows = new ArrayList<>();
            for (double width = places / (double) steps; width >= narrowest; width /= WIDTH_RATIO) {
                for (double start = 0; start + steps * width <= places + 1e-9; start += START_STEP * width) {
                    rows.add(row(start, width, steps, BOUNDARY));
                }
            }
            Row best = rows.get(0);
            for (Row row : rows) {
                best = row.left < best.left ? row : best;
            }
            best = refined(best);
            check(best, rows);
            return best;
        }

        private Row refined(Row coarse) {
            Row best = row(coarse.start, coarse.width, steps, NARROW);
            double byStart = START_STEP * coarse.width;
            double byWidth = (WIDTH_RATIO - 1) * coarse.width;
            for (int i = 0; i < REFINEMENTS; i++) {
                Row middle = best;
                for (int a = -2; a <= 2; a++) {
                    for (int b = -2; b <= 2; b++) {
                        double start = middle.start + a * byStart;
                        double width = middle.width + b * byWidth;
                        if (start >= 0 && start + steps * width <= places) {
                            Row row = row(start, width, steps, NARROW);
                            best = row.left < best.left ? row : best;
                        }
                    }
                }
                byStart /= 2;
                byWidth /= 2;
            }
            return row(best.start, best.width, steps, BOUNDARY);
        }

        private void check(Row best, List<Row> rows) {
            double[] means = new double[steps];
            double changes = 0;
            for (int k = 0; k < steps; k++) {
                int from = (int) Math.ceil(best.start + (k + BOUNDARY) * best.width);
                int to = (int) Math.floor(best.start + (k + 1 - BOUNDARY) * best.width);
                means[k] = (sums[to] - sums[from]) / (to - from);
                changes += k == 0 ? 0 : Math.pow(means[k] - means[k - 1], 2);
            }
            double usual = Math.sqrt(changes / (steps - 1));
            double range = Arrays.stream(means).max().orElseThrow()
                    - Arrays.stream(means).min().orElseThrow();
            if (!(range > LEAST_RANGE && Math.sqrt(best.left) < MOST_LEFT * usual)) {
                throw new NotDeterminableException(
                        Reason.UNSUITABLE_IMAGE,
                        "no row of " + steps
                                + " equal steps was found in the box: the best leaves "
                                + Figures.plain(Math.sqrt(best.left))
                                + " where neighbours differ by " + Figures.plain(usual)
                                + "; check the number of steps, and draw the box close around them");
            }
            for (double start : new double[] {best.start - best.width, best.start}) {
                if (start >= 0
                        && start + (steps + 1) * best.width <= places
                        && CLEARLY_WORSE * row(start, best.width, steps + 1, BOUNDARY).left < best.left) {
                    throw new NotDeterminableException(
                            Reason.UNSUITABLE_IMAGE,
                            "one more step seems to lie beside the " + steps
                                    + " that were looked for, or one is twice as wide; check the number of steps");
                }
            }
            checkWidths(best, means, Math.max(MOST_LEFT * usual, MOST_NOISE * noise(best)));
            double end = best.start + steps * best.width;
            for (Row row : rows) {
                boolean elsewhere = Math.abs(row.start - best.start) > SAME_PLACE * best.width
                        || Math.abs(row.start + steps * row.width - end) > SAME_PLACE * best.width;
                if (elsewhere && row.left < CLEARLY_WORSE * best.left) {
                    throw new NotDeterminableException(
                            Reason.UNSUITABLE_IMAGE,
                            "the " + steps
                                    + " steps could as well begin elsewhere in the box, since what lies beside them looks like one"
                                    + " more step; draw the box exactly around the steps, or read it as a chart of 1 by "
                                    + steps);
                }
            }
        }

        /** No region may reach into what lies beside its step, as far as that differs. */
        private void checkWidths(Row best, double[] means, double least) {
            double[] all = new double[steps + 2];
            System.arraycopy(means, 0, all, 1, steps);
            all[0] = mean(0, (int) Math.floor(best.start - BOUNDARY * best.width), means[0]);
            all[steps + 1] =
                    mean((int) Math.ceil(best.start + (steps + BOUNDARY) * best.width), places, means[steps - 1]);
            for (int k = 1; k <= steps; k++) {
                int from = (int) Math.ceil(best.start + (k - 1 + MARGIN) * best.width);
                int to = (int) Math.floor(best.start + (k - MARGIN) * best.width);
                for (int beside = k - 1; beside <= k + 1; beside += 2) {
                    double difference = all[beside] - all[k];
                    int last = beside < k ? from : to - FEWEST_REACHED;
                    double reached = mean(last, last + FEWEST_REACHED, all[k]) - all[k];
                    if (Math.abs(difference) > least && reached / difference > REACHED) {
                        throw new NotDeterminableException(
                                Reason.UNSUITABLE_IMAGE,
                                "the " + steps + " steps are not of equal width: "
                                        + (beside < 1 || beside > steps ? "what lies beside them" : "step " + beside)
                                        + " reaches into the place of step " + k
                                        + "; draw a box around the steps of one width at a time, or read regions that"
                                        + " you mark by hand");
                    }
                }
            }
        }

        /** The standard deviation of the places in the middle half of a step, as the median step has it. */
        private double noise(Row row) {
            double[] variances = new double[steps];
            for (int k = 0; k < steps; k++) {
                int from = (int) Math.ceil(row.start + (k + MIDDLE / 2) * row.width);
                int to = (int) Math.floor(row.start + (k + 1 - MIDDLE / 2) * row.width);
                double sum = sums[to] - sums[from];
                double left = squares[to] - squares[from] - sum * sum / (to - from);
                variances[k] = Math.max(0, left) / (to - from - 1);
            }
            return Math.sqrt(PatchPixels.median(variances));
        }

        private double mean(int from, int to, double otherwise) {
            return to - from < FEWEST_REACHED ? otherwise : (sums[to] - sums[from]) / (to - from);
        }

        private Row row(double start, double width, int count, double boundary) {
            double left = 0;
            double counted = 0;
            for (int k = -1; k <= count; k++) {
                int from = k < 0 ? 0 : (int) Math.ceil(start + (k + boundary) * width);
                int to = k == count ? places : (int) Math.floor(start + (k + 1 - boundary) * width);
                if (to - from > 1) {
                    double sum = sums[to] - sums[from];
                    left += squares[to] - squares[from] - sum * sum / (to - from);
                    counted += to - from;
                }
            }
            return new Row(start, width, Math.max(0, left) / counted);
        }
    }

    /**
     * Returns what this is, in words that may change.
     *
     * @return the number of steps
     */
    @Override
    public String toString() {
        return "finder of " + steps + " steps";
    }
}
