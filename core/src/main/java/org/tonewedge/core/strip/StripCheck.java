package org.tonewedge.core.strip;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.quantity.Density;

/**
 * Looks over the readings of a negative strip before a curve is drawn: densities that fall where they must rise, a strip
 * read backwards, steps below base plus fog, repeats that disagree. It finds and names; it changes nothing.
 *
 * <p>Differences up to the tolerance are taken as noise. The default of 0.05 is three and a half times the spread of a
 * difference of two readings that repeat to 0.01; common practice, no source.
 *
 * <p>Immutable and thread safe; {@code with…} returns a changed copy.
 */
public final class StripCheck {

    private static final StripCheck DEFAULTS = new StripCheck(0.05);

    private final double tolerance;

    private StripCheck(double tolerance) {
        this.tolerance = tolerance;
    }

    /**
     * Returns the check with its default tolerance of 0.05.
     *
     * @return the check
     */
    public static StripCheck withDefaults() {
        return DEFAULTS;
    }

    /**
     * Returns a copy with another tolerance.
     *
     * @param density the greatest difference of density that is taken as noise, from 0 to 1
     * @return the copy
     * @throws IllegalArgumentException if the tolerance is out of range
     */
    public StripCheck withTolerance(double density) {
        return new StripCheck(Checks.within("tolerance of a strip check", density, 0, 1, ""));
    }

    /**
     * Looks over a strip.
     *
     * @param strip a strip of a negative material
     * @return what was found, by rising exposure; empty if nothing was
     */
    public List<StripFinding> check(Strip strip) {
        List<StripFinding> found = new ArrayList<>();
        List<ExposedStep> steps = strip.steps();
        Optional<Density> base = strip.basePlusFog();
        int falls = 0;
        for (int i = 0; i < steps.size(); i++) {
            ExposedStep step = steps.get(i);
            checkRepeats(strip, step, found);
            if (base.isPresent() && base.get().minus(step.density()).value() > tolerance) {
                found.add(new StripFinding(
                        StripFinding.Kind.BELOW_BASE_PLUS_FOG,
                        step.exposure(),
                        strip + ": " + step.density() + " at " + step.exposure() + " is below base plus fog, "
                                + base.get() + "; read base plus fog again, on the same strip"));
            }
            if (i > 0 && steps.get(i - 1).density().minus(step.density()).value() > tolerance) {
                falls++;
                found.add(falls(strip, steps.get(i - 1), step));
            }
        }
        if (steps.size() > 2 && falls > (steps.size() - 1) / 2) {
            found.clear();
            found.add(new StripFinding(
                    StripFinding.Kind.RUNS_BACKWARDS,
                    steps.get(0).exposure(),
                    strip + ": density falls with exposure, from "
                            + steps.get(0).density() + " at "
                            + steps.get(0).exposure() + " to "
                            + steps.get(steps.size() - 1).density() + " at "
                            + steps.get(steps.size() - 1).exposure()
                            + "; was the tablet read from the wrong end, or is this a reversal material?"));
        }
        return List.copyOf(found);
    }

    private void checkRepeats(Strip strip, ExposedStep step, List<StripFinding> found) {
        Density thinnest = step.readings().stream().min(Density::compareTo).orElseThrow();
        Density densest = step.readings().stream().max(Density::compareTo).orElseThrow();
        if (densest.minus(thinnest).value() > tolerance) {
            found.add(new StripFinding(
                    StripFinding.Kind.REPEATS_DISAGREE,
                    step.exposure(),
                    strip + ": repeat readings at " + step.exposure() + " run from " + thinnest + " to " + densest
                            + "; read the step again"));
        }
    }

    private static StripFinding falls(Strip strip, ExposedStep before, ExposedStep step) {
        return new StripFinding(
                StripFinding.Kind.DENSITY_FALLS,
                step.exposure(),
                strip + ": density falls from " + before.density() + " at " + before.exposure() + " to "
                        + step.density() + " at " + step.exposure()
                        + "; look for dust or a finger mark there, or for swapped steps");
    }
}
