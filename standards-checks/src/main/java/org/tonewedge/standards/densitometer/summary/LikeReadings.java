// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.summary;

import org.tonewedge.core.strip.ReadingOrder;
import org.tonewedge.core.strip.StepTablet;

/**
 * How often each step was read before the next one, and from which end, as the readings themselves show it: readings of one
 * step are alike, and nearer to its density than to that of its mirror image. So a log without step numbers that was read
 * otherwise than stated can be refused, before each reading is compared with the wrong step.
 */
final class LikeReadings {

    private static final int MOST = 100;
    /** Readings of one step differ by less than this share of the mean distance of two steps. */
    private static final double NEAR = 0.5;
    /** So many groups must have one size; at the dense end several steps may read alike. */
    private static final double MOST_GROUPS = 0.75;

    /** Nearly all readings are those of the other end; a sign or a scale that is wrong turns about half of them over. */
    private static final double MOST_MIRRORED = 0.9;

    private final StepTablet tablet;
    private final int steps;
    private final double near;
    private final int towardsDense;
    private final long[] groups = new long[MOST + 1];
    private double before = Double.NaN;
    private int size;
    private long backwards;
    private long mirrored;
    private long sided;

    LikeReadings(StepTablet tablet, ReadingOrder order) {
        this.tablet = tablet;
        steps = tablet.steps().size();
        double span = tablet.steps().get(steps - 1).density().value()
                - tablet.steps().get(0).density().value();
        near = NEAR * span / Math.max(1, steps - 1);
        towardsDense = order == ReadingOrder.FROM_DENSE_END ? -1 : 1;
    }

    /** Adds a reading beyond the range, denser than all that can be read: steps that read so are alike. */
    void addBeyondRange(int step) {
        add(step, Double.MAX_VALUE, true);
    }

    /** Adds a reading; one that is no plausible density, such as a transmittance in percent, speaks for no other end. */
    void add(int step, double density, boolean plausible) {
        double own = certified(step);
        double mirror = certified(steps - 1 - step);
        if (own != mirror) {
            double middle = (own + mirror) / 2;
            sided++;
            mirrored += plausible && (mirror > own ? density > middle : density < middle) ? 1 : 0;
        }
        if (Math.abs(density - before) < near) {
            size = Math.min(MOST, size + 1);
        } else {
            groups[size]++;
            size = 1;
            backwards += towardsDense * (density - before) < 0 ? 1 : 0;
        }
        before = density;
    }

    private double certified(int step) {
        return tablet.steps().get(step).density().value();
    }

    /** Whether the readings are those of a tablet read from its other end. */
    boolean isFromOtherEnd() {
        return sided > 0 && mirrored >= MOST_MIRRORED * sided;
    }

    /**
     * How often each step was read in turn: the size of three quarters of the groups, if it divides the readings into
     * whole passes, of which each but the first begins by going back; 0 if the readings do not show it.
     */
    int inTurn(long readings) {
        groups[size]++;
        long all = 0;
        int usual = 1;
        for (int i = 1; i < MOST; i++) {
            all += groups[i];
            usual = groups[i] > groups[usual] ? i : usual;
        }
        all += groups[MOST];
        boolean isUsual = groups[usual] >= MOST_GROUPS * all;
        groups[size]--;
        long pass = (long) usual * steps;
        return isUsual && readings % pass == 0 && backwards == readings / pass - 1 ? usual : 0;
    }
}
