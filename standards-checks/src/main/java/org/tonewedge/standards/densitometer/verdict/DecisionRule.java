// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.verdict;

import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;

/**
 * How the uncertainty of the comparison counts in a verdict. Let e be the error of a step, T the tolerance, U the
 * expanded uncertainty (k = 2) of the error and w the guard band. A step passes if |e| ≤ T − w, fails if |e| &gt; T +
 * w, and is undecided between.
 *
 * <p>Immutable and thread safe.
 *
 * <p>A step thus passes by guarded acceptance and fails by guarded rejection; what neither decides is called undecided. The
 * binary rule of guarded acceptance alone would reject it.
 *
 * @source guarded acceptance and guarded rejection: JCGM 106:2012, 8.3.2 and 8.3.3 (clauses from memory); a statement that is
 *     not binary, with the zones from T − w to T and from T to T + w between pass and fail: ILAC-G8:09/2019 (read in a
 *     secondary source, a calibration laboratory's page on its decision rules); that simple acceptance needs U ≤ T/2 is the
 *     project's own rule
 */
public final class DecisionRule {

    /** The error alone counts, w = 0, if U is at most half of the tolerance; otherwise w = U. */
    public static final DecisionRule SIMPLE_ACCEPTANCE = new DecisionRule(0);

    /** The expanded uncertainty is the guard band, w = U. */
    public static final DecisionRule GUARDED_ACCEPTANCE = new DecisionRule(1);

    private static final double MOST_SHARE = 0.5;

    private final double share;

    private DecisionRule(double share) {
        this.share = share;
    }

    /**
     * Returns a rule with a guard band that you choose.
     *
     * @param share the guard band as a fraction of the expanded uncertainty, w / U, above 0 and up to 3
     * @return the rule
     * @throws IllegalArgumentException if the share is out of range
     */
    public static DecisionRule ofGuardBand(double share) {
        Checks.positive("guard band as a share of the expanded uncertainty", share);
        return new DecisionRule(Checks.within("guard band as a share of the expanded uncertainty", share, 0, 3, ""));
    }

    /**
     * Returns the guard band.
     *
     * @param allowed the tolerance T
     * @param expanded the expanded uncertainty U of the error
     * @return w
     * @units density
     */
    public double guardBand(double allowed, double expanded) {
        if (share > 0) {
            return share * expanded;
        }
        return expanded > MOST_SHARE * allowed ? expanded : 0;
    }

    StepOutcome decide(double error, double allowed, double expanded) {
        double guard = guardBand(allowed, expanded);
        double size = Math.abs(error);
        if (size > allowed + guard) {
            return StepOutcome.FAIL;
        }
        return size <= allowed - guard ? StepOutcome.PASS : StepOutcome.UNDECIDED;
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof DecisionRule rule && rule.share == share;
    }

    @Override
    public int hashCode() {
        return Double.hashCode(share);
    }

    /**
     * Returns the rule in words.
     *
     * @return for example {@code the error alone counts}
     */
    @Override
    public String toString() {
        if (share == 0) {
            return "the error alone counts";
        }
        return share == 1
                ? "error and expanded uncertainty together count"
                : "guard band of " + Figures.plain(share) + " times the expanded uncertainty";
    }
}
