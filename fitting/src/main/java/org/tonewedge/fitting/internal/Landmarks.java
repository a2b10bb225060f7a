// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.internal;

/** Where a search for a curve starts: the steepest part of the readings and where its line meets their extremes. */
final class Landmarks {

    private static final double LEAST_GAP = 1e-3;
    /** A window narrower than this part of the readings has no slope that its sums could tell. */
    private static final double LEAST_WINDOW = 1e-6;

    private static final double SHARPEST_START = 0.12;
    private static final double SOFTEST_START = 0.4;

    private final Readings readings;
    /** The least density: that of the unexposed readings, if there are any. */
    double least;

    double greatest;
    double steepest;
    /** Where the line of the steepest part meets the least and the greatest density. */
    double foot;

    double top;

    private Landmarks(Readings readings) {
        this.readings = readings;
    }

    static Landmarks of(Readings readings) {
        Landmarks landmarks = new Landmarks(readings);
        landmarks.findExtremes();
        landmarks.findSteepest();
        return landmarks;
    }

    private void findExtremes() {
        double[] d = readings.densities();
        int exposed = readings.exposed();
        least = Double.POSITIVE_INFINITY;
        greatest = Double.NEGATIVE_INFINITY;
        for (int i = 0; i < exposed; i++) {
            least = d[i] < least ? d[i] : least;
            greatest = d[i] > greatest ? d[i] : greatest;
        }
        if (exposed < d.length) {
            double sum = 0;
            for (int i = exposed; i < d.length; i++) {
                sum += d[i];
            }
            least = Math.min(sum / (d.length - exposed), greatest - LEAST_GAP);
        }
    }

    /** The window of a quarter of the readings whose least-squares line is steepest, by sums that move along with it. */
    private void findSteepest() {
        double[] x = readings.logExposures();
        double[] d = readings.densities();
        int exposed = readings.exposed();
        int window = Math.min(exposed, Math.max(3, exposed / 4));
        double middle = 0.5 * (x[0] + x[exposed - 1]);
        double narrow = LEAST_WINDOW * (x[exposed - 1] - x[0]);
        double sumX = 0;
        double sumD = 0;
        double sumXX = 0;
        double sumXD = 0;
        steepest = 0;
        double middleX = 0;
        double middleD = 0;
        for (int last = 0; last < exposed; last++) {
            double entering = x[last] - middle;
            sumX += entering;
            sumD += d[last];
            sumXX += entering * entering;
            sumXD += entering * d[last];
            int first = last - window + 1;
            if (first < 0) {
                continue;
            }
            if (x[last] - x[first] > narrow) { // repeats of one step have no slope
                double slope = (window * sumXD - sumX * sumD) / (window * sumXX - sumX * sumX);
                if (slope > steepest) {
                    steepest = slope;
                    middleX = middle + sumX / window;
                    middleD = sumD / window;
                }
            }
            double leaving = x[first] - middle;
            sumX -= leaving;
            sumD -= d[first];
            sumXX -= leaving * leaving;
            sumXD -= leaving * d[first];
        }
        if (steepest > 0) {
            foot = middleX - (middleD - least) / steepest;
            top = Math.max(middleX + (greatest - middleD) / steepest, foot + LEAST_GAP);
        }
    }

    /**
     * The softness of the toe: a soft ramp encloses the area π² s²/6 with its own straight lines, and the readings below
     * the middle give the area.
     */
    double toeSoftness() {
        return softness(1, firstAbove(), -1);
    }

    /** The softness of the shoulder, likewise. */
    double shoulderSoftness() {
        return softness(firstAbove(), readings.exposed(), 1);
    }

    /** The first reading that, with the one before, has its middle above that of the line. */
    private int firstAbove() {
        double[] x = readings.logExposures();
        int i = 1;
        while (i < x.length && x[i] + x[i - 1] < foot + top) {
            i++;
        }
        return i;
    }

    /** The softness by the area from the reading before one index to the reading before another. */
    private double softness(int from, int to, int side) {
        double[] x = readings.logExposures();
        double[] d = readings.densities();
        double area = 0;
        double gapBefore = broken(x[from - 1]) - d[from - 1];
        for (int i = from; i < to; i++) {
            double gap = broken(x[i]) - d[i];
            area += 0.5 * (x[i] - x[i - 1]) * (gap + gapBefore);
            gapBefore = gap;
        }
        double squared = 6 / (Math.PI * Math.PI) * side * area / steepest;
        return Math.max(SHARPEST_START, Math.min(Math.sqrt(Math.max(squared, 0)), SOFTEST_START * run()));
    }

    private double broken(double x) {
        double line = least + steepest * (x - foot);
        return line < least ? least : line > greatest ? greatest : line;
    }

    double run() {
        return top - foot;
    }
}
