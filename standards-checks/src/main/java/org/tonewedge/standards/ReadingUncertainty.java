// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Random;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.curve.NotDeterminableException.Reason;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.internal.StudentT;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.strip.ExposedStep;
import org.tonewedge.core.strip.Repeatability;
import org.tonewedge.core.strip.Strip;

/**
 * How much a determination varies with the repeatability of the densitometer. Every reading of a strip, including those
 * of base plus fog, is drawn many times from a normal distribution about the value read. Each time the curve is drawn
 * and the method applied again. The standard deviation of the figures is their standard uncertainty.
 *
 * <pre>{@code
 * Iso6Speed speed = ReadingUncertainty.of(Repeatability.of(0.01)).
 *         determine(strip, Iso6.withDefaults()::determine);
 * speed.estimate(); // the logarithmic speed with its standard uncertainty, in degrees
 * }</pre>
 *
 * <p>You can add an uncertainty of the exposure that all steps share, such as that of the lamp. Not included are the
 * tablet's own densities, development and the evenness of the film.
 *
 * <p>A drawn strip may fail to give the figure: two close steps change places, a reading falls below the least possible
 * {@link Density}, or the method refuses the curve with any exception of its own. Up to one draw in twenty may fail and
 * is left out; with more, the figure is refused. A fit fails less often than the curve through the readings.
 *
 * <p>Defaults: 1000 draws, seed 1, the monotone cubic through the readings. Equal settings give equal results. Immutable
 * and thread safe if the curve function is; each {@code with…} method returns a changed copy.
 *
 * @source JCGM 101:2008, Propagation of distributions using a Monte Carlo method, clauses 7.2 to 7.6
 */
public final class ReadingUncertainty {

    /** One in this many draws may fail. */
    private static final int DRAWS_FOR_EACH_FAILURE = 20;

    private final Repeatability repeatability;
    private final double exposureUncertainty;
    private final int draws;
    private final long seed;
    private final Function<Strip, CharacteristicCurve> curve;

    private ReadingUncertainty(
            Repeatability repeatability,
            double exposureUncertainty,
            int draws,
            long seed,
            Function<Strip, CharacteristicCurve> curve) {
        this.repeatability = repeatability;
        this.exposureUncertainty = exposureUncertainty;
        this.draws = draws;
        this.seed = seed;
        this.curve = curve;
    }

    /**
     * Returns the uncertainty for a repeatability.
     *
     * <p>{@link Repeatability#fromRepeats()} is pooled over all steps and the base plus fog of the strips from which a
     * figure is read together. The figure then has as many degrees of freedom as the repeat readings, so that its interval
     * is honest even if these are few. Two readings of base plus fog and no other repeat readings give 1 degree of
     * freedom, and a 95 % interval of ± 12.7 standard uncertainties.
     *
     * <p>Readings whose standard deviation s has ν degrees of freedom follow Student's t distribution, scaled by s. For
     * ν up to 2 that distribution has no standard deviation. The draws are therefore normal with s, which gives the
     * standard uncertainty, and t enters with the interval; for a figure that is linear in the readings the result is
     * the same. The uncertainty of the exposure counts as exactly known: the degrees of freedom
     * are divided by the share of the readings in the variance, or by its square root if the readings have only 1 degree of
     * freedom. Welch and Satterthwaite divide by the square of the share, which leaves intervals too narrow.
     *
     * <table>
     * <caption>Share of 95 % intervals of the speed point that contain the true one: 10,000 strips of 21 steps, repeat
     * readings of base plus fog only ({@code RepeatCoverage} in the test sources)</caption>
     * <tr><th scope="col">Readings of base plus fog</th><th scope="col">Coverage</th>
     * <th scope="col">With 1.96 in place of t</th></tr>
     * <tr><td>2</td><td>95.0 %</td><td>68.7 %</td></tr>
     * <tr><td>3</td><td>95.1 %</td><td>80.7 %</td></tr>
     * <tr><td>5</td><td>94.3 %</td><td>87.0 %</td></tr>
     * <tr><td>10</td><td>94.3 %</td><td>90.8 %</td></tr>
     * </table>
     *
     * @param repeatability the standard deviation of a single reading, stated or from repeat readings
     * @return the source of uncertainty
     * @source JCGM 101:2008, 6.4.9; the project's own for the degrees of freedom beside an uncertainty of the exposure
     */
    public static ReadingUncertainty of(Repeatability repeatability) {
        Objects.requireNonNull(repeatability, "repeatability");
        return new ReadingUncertainty(repeatability, 0, 1000, 1, CharacteristicCurve::through);
    }

    /**
     * Returns a copy that also varies the exposure of all steps together.
     *
     * @param standardUncertainty the standard uncertainty of the common exposure, from 0 to 1 log unit
     * @return the copy
     * @throws IllegalArgumentException if the uncertainty is out of range
     */
    public ReadingUncertainty withExposureUncertainty(ExposureInterval standardUncertainty) {
        double logUnits =
                Checks.within("uncertainty of the exposure in log units", standardUncertainty.logUnits(), 0, 1, "");
        return new ReadingUncertainty(repeatability, logUnits, draws, seed, curve);
    }

    /**
     * Returns a copy with another number of draws.
     *
     * @param number the number, from 100 to 1,000,000
     * @return the copy
     * @throws IllegalArgumentException if the number is out of range
     */
    public ReadingUncertainty withDraws(int number) {
        return new ReadingUncertainty(
                repeatability,
                exposureUncertainty,
                (int) Checks.within("number of draws", number, 100, 1_000_000, ""),
                seed,
                curve);
    }

    /**
     * Returns a copy with another seed.
     *
     * @param number the seed of the random numbers
     * @return the copy
     */
    public ReadingUncertainty withSeed(long number) {
        return new ReadingUncertainty(repeatability, exposureUncertainty, draws, number, curve);
    }

    /**
     * Returns a copy that draws another kind of curve, for example a fit.
     *
     * @param drawn makes a curve of a strip
     * @return the copy
     */
    public ReadingUncertainty withCurve(Function<Strip, CharacteristicCurve> drawn) {
        return new ReadingUncertainty(
                repeatability, exposureUncertainty, draws, seed, Objects.requireNonNull(drawn, "drawn"));
    }

    /**
     * Applies a method to a strip and attaches the uncertainty of its figure.
     *
     * @param strip the strip as it was read
     * @param method the method, such as {@code Iso6.withDefaults()::determine}
     * @param <D> the kind of determination
     * @return the determination of the strip as it was read, with its uncertainty
     * @throws NotDeterminableException if the strip does not give the figure, or more than one draw in twenty does not
     * @throws IllegalArgumentException if the repeatability must come from repeat readings and the strip has none, or
     *     all are equal
     */
    public <D extends FigureDetermination<D>> D determine(Strip strip, Function<CharacteristicCurve, D> method) {
        Objects.requireNonNull(strip, "strip");
        return determine(List.of(strip), curves -> method.apply(curves.get(0)));
    }

    /**
     * Applies a method to several strips together, such as a development series, and attaches the uncertainty of its
     * figure.
     *
     * @param strips the strips as they were read
     * @param method the method; it receives one curve for each strip, in their order
     * @param <D> the kind of determination
     * @return the determination of the strips as they were read, with its uncertainty
     * @throws NotDeterminableException if the strips do not give the figure, or more than one draw in twenty does not
     * @throws IllegalArgumentException if the repeatability must come from repeat readings and the strips have none, or
     *     all are equal
     */
    public <D extends FigureDetermination<D>> D determine(
            List<Strip> strips, Function<List<CharacteristicCurve>, D> method) {
        D asRead = method.apply(strips.stream().map(curve).toList());
        Spread spread = spread(strips, curves -> method.apply(curves).figure());
        return asRead.withUncertainty(spread.standardUncertainty(), spread.degreesOfFreedom());
    }

    /**
     * Returns any figure of a curve with its uncertainty.
     *
     * @param strip the strip as it was read
     * @param figure reads the figure off a curve; a figure that is not finite counts as not given
     * @return the figure of the strip as it was read, with its standard uncertainty
     * @throws NotDeterminableException if the strip does not give the figure, or more than one draw in twenty does not
     * @throws IllegalArgumentException if the repeatability must come from repeat readings and the strip has none, or
     *     all are equal
     */
    public Estimate estimate(Strip strip, ToDoubleFunction<CharacteristicCurve> figure) {
        double value = finite(strip.toString(), figure.applyAsDouble(curve.apply(strip)));
        Spread spread =
                spread(List.of(strip), curves -> finite("a drawn " + strip, figure.applyAsDouble(curves.get(0))));
        return Estimate.of(value, spread.standardUncertainty(), spread.degreesOfFreedom());
    }

    private static double finite(String strip, double value) {
        if (!Double.isFinite(value)) {
            throw new NotDeterminableException(
                    Reason.UNSUITABLE_CURVE,
                    strip + ": the figure is " + value
                            + ", not a finite number: correct the function that reads it off the"
                            + " curve, or read a strip that gives it");
        }
        return value;
    }

    /** The spread of a figure over the draws, and the degrees of freedom of that spread. */
    private record Spread(double standardUncertainty, double degreesOfFreedom) {}

    private Spread spread(List<Strip> strips, ToDoubleFunction<List<CharacteristicCurve>> figure) {
        Random random = new Random(seed);
        Repeatability known = repeatability.over(strips);
        int count = 0;
        double[] values = new double[draws];
        double[] shifts = new double[draws];
        RuntimeException firstFailure = null;
        for (int draw = 0; draw < draws; draw++) {
            ExposureInterval shift = ExposureInterval.ofLogUnits(exposureUncertainty * random.nextGaussian());
            try {
                List<Strip> drawn = new ArrayList<>(strips.size());
                for (Strip strip : strips) {
                    drawn.add(redrawn(strip, known, random));
                }
                values[count] = figure.applyAsDouble(drawn.stream()
                        .map(strip -> curve.apply(strip).shiftedBy(shift))
                        .toList());
                shifts[count] = shift.logUnits();
                count++;
            } catch (NotDeterminableException | IllegalArgumentException e) {
                firstFailure = firstFailure == null ? e : firstFailure;
            }
        }
        if ((draws - count) * DRAWS_FOR_EACH_FAILURE > draws) {
            throw new NotDeterminableException(
                    Reason.UNCERTAINTY_UNKNOWN,
                    (draws - count) + " of " + draws
                            + " strips drawn within " + known + " do not give the figure, the first because: "
                            + firstFailure.getMessage());
        }
        double variance = covariance(values, values, count);
        double freedom =
                StudentT.besideStated(known.degreesOfFreedom(), shareOfReadings(values, shifts, count, variance));
        return new Spread(Math.sqrt(variance), freedom);
    }

    /** The share of the variance that remains for the readings after the common exposure. */
    private double shareOfReadings(double[] values, double[] shifts, int count, double variance) {
        if (exposureUncertainty == 0 || variance == 0) {
            return 1;
        }
        double together = covariance(values, shifts, count);
        double ofExposure = covariance(shifts, shifts, count);
        return Math.max(0, 1 - together * together / (ofExposure * variance));
    }

    private static double covariance(double[] a, double[] b, int count) {
        double meanOfA = 0;
        double meanOfB = 0;
        for (int i = 0; i < count; i++) {
            meanOfA += a[i] / count;
            meanOfB += b[i] / count;
        }
        double sum = 0;
        for (int i = 0; i < count; i++) {
            sum += (a[i] - meanOfA) * (b[i] - meanOfB);
        }
        return sum / (count - 1);
    }

    private static Strip redrawn(Strip strip, Repeatability known, Random random) {
        Strip.Builder builder = Strip.builder(strip.id())
                .film(strip.film())
                .processing(strip.processing())
                .basePlusFog(strip.basePlusFogReadings().stream()
                        .mapToDouble(reading -> redrawn(reading, known, random).value())
                        .toArray());
        strip.origin().ifPresent(builder::origin);
        for (ExposedStep step : strip.steps()) {
            for (Density reading : step.readings()) {
                builder.reading(step.exposure(), redrawn(reading, known, random));
            }
        }
        return builder.build();
    }

    private static Density redrawn(Density reading, Repeatability known, Random random) {
        return Density.of(reading.value() + known.standardDeviationAt(reading) * random.nextGaussian());
    }

    /**
     * Returns what this is, in words that may change.
     *
     * @return its sources and the draws
     */
    @Override
    public String toString() {
        return "uncertainty of readings by " + repeatability + ", exposure " + Figures.plain(exposureUncertainty)
                + " log units, " + draws + " draws, seed " + seed;
    }
}
