// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.internal;

/**
 * The search of a least-squares fit, in stages, each from where the last one ended: plainly, from softer starts if that
 * ended in a corner, and with a {@link SoftnessPenalty} if a softness is all but undetermined.
 */
final class PlainSearch {

    private static final double[] SOFTER_STARTS = {0.1, 0.2, 0.4};

    private PlainSearch() {}

    static ShapeMinimum run(
            ShapeMinimiser minimiser, ShapeProblem problem, FitSettings settings, double[] start, Effort effort) {
        ShapeMinimum found = minimiser.minimise(problem, start, effort);
        if (!settings.penalised()) {
            return isStuck(found) ? fromSofterStarts(minimiser, found, start, effort) : found;
        }
        double variance = found.readingVariance(settings.knownVariance());
        if (!found.isSoftnessOpen(variance, settings.knownVariance().isPresent())) {
            return found;
        }
        ShapeProblem penalised = found.problem().penalised(SoftnessPenalty.of(problem.kind(), variance));
        return minimiser
                .minimise(penalised, found.isConverged() ? found.shape() : start, effort)
                .after(found);
    }

    private static boolean isStuck(ShapeMinimum found) {
        ShapeKind kind = found.problem().kind();
        for (int k = 0; k < found.held().length; k++) {
            if ((kind.isSoftness(k) || kind.isRun(k)) && found.held()[k]) {
                return true;
            }
        }
        return kind.hasSoftness() && !found.isConverged();
    }

    /** Searches from softer starts too, and returns the least of all. */
    private static ShapeMinimum fromSofterStarts(
            ShapeMinimiser minimiser, ShapeMinimum first, double[] start, Effort effort) {
        ShapeKind kind = first.problem().kind();
        ShapeMinimum best = first;
        ShapeMinimum last = first;
        for (double softness : SOFTER_STARTS) {
            double[] softer = start.clone();
            for (int k = 0; k < softer.length; k++) {
                if (kind.isSoftness(k)) {
                    softer[k] = Math.log(softness);
                }
            }
            last = minimiser.minimise(last.problem(), softer, effort).after(last);
            if (last.isConverged() && (last.sumOfSquares() < best.sumOfSquares() || !best.isConverged())) {
                best = last;
            }
        }
        return best;
    }
}
