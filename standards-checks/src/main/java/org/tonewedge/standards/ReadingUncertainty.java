package org.tonewedge.standards;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.strip.ExposedStep;
import org.tonewedge.core.strip.Strip;

/**
 * How much the repeatability of the densitometer lets a determination vary: every reading of a strip, those of base plus
 * fog among them, is drawn anew from a normal distribution about what was read, the curve is drawn again and the method
 * applied again, many times; the standard deviation of the figures is their standard uncertainty.
 *
 * <pre>{@code
 * Iso6Speed speed = ReadingUncertainty.ofRepeatability(0.01).determine(strip, Iso6.withDefaults()::determine);
 * speed.estimate(); // the logarithmic speed with its standard uncertainty, in degrees
 * }</pre>
 *
 * <p>An uncertainty of the exposure that all steps share, such as that of the lamp, can be added. What is not in it: the
 * tablet's own densities, development and the film's evenness.
 *
 * <p>A drawn strip may fail to give the figure, as when two close steps change places, a reading falls below what a
 * {@link Density} can be, or the method refuses the curve by any exception of its own. Up to one draw in twenty may, and is
 * left out; more, and the figure is refused. A fit instead of the curve through the readings fails less.
 *
 * <p>Defaults: 1000 draws, seed 1, the monotone cubic through the readings. Equal settings give equal results. Immutable
 * and thread safe if the curve function is; each {@code with…} method returns a changed copy.
 *
 * @source JCGM 101:2008, Propagation of distributions using a Monte Carlo method, clauses 7.2 to 7.6
 */
public final class ReadingUncertainty {

    /** One in this many draws may fail. */
    private static final int DRAWS_FOR_EACH_FAILURE = 20;

    /** The standard deviation of one reading; empty to take it from the repeats of each strip. */
    private final OptionalDouble repeatability;

    private final double exposureUncertainty;
    private final int draws;
    private final long seed;
    private final Function<Strip, CharacteristicCurve> curve;

    private ReadingUncertainty(
            OptionalDouble repeatability,
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
     * Returns the uncertainty from a stated repeatability.
     *
     * @param standardDeviation the standard deviation of a single reading, from 0 to 1
     * @return the source of uncertainty
     * @throws IllegalArgumentException if the standard deviation is out of range
     */
    public static ReadingUncertainty ofRepeatability(double standardDeviation) {
        return new ReadingUncertainty(
                OptionalDouble.of(Checks.within("repeatability of a reading", standardDeviation, 0, 1, "")),
                0,
                1000,
                1,
                CharacteristicCurve::through);
    }

    /**
     * Returns the uncertainty from the repeat readings of each strip, pooled over its steps and base plus fog.
     *
     * @return the source of uncertainty
     */
    public static ReadingUncertainty fromRepeats() {
        return new ReadingUncertainty(OptionalDouble.empty(), 0, 1000, 1, CharacteristicCurve::through);
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
     * @param number the number, from 100 to 1 000 000
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
     * @param <D> the determination
     * @return the determination of the strip as it was read, with its uncertainty
     * @throws NotDeterminableException if the strip does not give the figure, or more than one draw in twenty does not
     * @throws IllegalArgumentException if the repeatability is to come from repeats and the strip has none
     */
    public <D extends FigureDetermination<D>> D determine(Strip strip, Function<CharacteristicCurve, D> method) {
        return determine(List.of(strip), curves -> method.apply(curves.get(0)));
    }

    /**
     * Applies a method to several strips together, such as a development series, and attaches the uncertainty of its
     * figure.
     *
     * @param strips the strips as they were read
     * @param method the method; gets one curve for each strip, in their order
     * @param <D> the determination
     * @return the determination of the strips as they were read, with its uncertainty
     * @throws NotDeterminableException if the strips do not give the figure, or more than one draw in twenty does not
     * @throws IllegalArgumentException if the repeatability is to come from repeats and a strip has none
     */
    public <D extends FigureDetermination<D>> D determine(
            List<Strip> strips, Function<List<CharacteristicCurve>, D> method) {
        D asRead = method.apply(strips.stream().map(curve).toList());
        double deviation =
                standardDeviation(strips, curves -> method.apply(curves).figure());
        return asRead.withUncertainty(deviation);
    }

    /**
     * Returns any figure of a curve with its uncertainty.
     *
     * @param strip the strip as it was read
     * @param figure reads the figure off a curve
     * @return the figure of the strip as it was read, with its standard uncertainty
     * @throws NotDeterminableException if the strip does not give the figure, or more than one draw in twenty does not
     * @throws IllegalArgumentException if the repeatability is to come from repeats and the strip has none
     */
    public Estimate estimate(Strip strip, ToDoubleFunction<CharacteristicCurve> figure) {
        return Estimate.of(
                figure.applyAsDouble(curve.apply(strip)),
                standardDeviation(List.of(strip), curves -> figure.applyAsDouble(curves.get(0))));
    }

    private double standardDeviation(List<Strip> strips, ToDoubleFunction<List<CharacteristicCurve>> figure) {
        Random random = new Random(seed);
        double[] deviations = strips.stream()
                .mapToDouble(strip -> repeatability.orElseGet(() -> pooled(strip)))
                .toArray();
        int count = 0;
        double mean = 0;
        double squares = 0;
        RuntimeException firstFailure = null;
        for (int draw = 0; draw < draws; draw++) {
            ExposureInterval shift = ExposureInterval.ofLogUnits(exposureUncertainty * random.nextGaussian());
            try {
                List<Strip> drawn = new ArrayList<>(strips.size());
                for (int i = 0; i < strips.size(); i++) {
                    drawn.add(redrawn(strips.get(i), deviations[i], random));
                }
                double value = figure.applyAsDouble(drawn.stream()
                        .map(strip -> curve.apply(strip).movedBy(shift))
                        .toList());
                count++;
                double step = value - mean;
                mean += step / count;
                squares += step * (value - mean);
            } catch (NotDeterminableException | IllegalArgumentException e) {
                firstFailure = firstFailure == null ? e : firstFailure;
            }
        }
        if ((draws - count) * DRAWS_FOR_EACH_FAILURE > draws) {
            throw new NotDeterminableException((draws - count) + " of " + draws
                    + " strips drawn within the repeatability of "
                    + Figures.plain(deviations[0]) + " do not give the figure, the first because: "
                    + firstFailure.getMessage());
        }
        return Math.sqrt(squares / (count - 1));
    }

    private static Strip redrawn(Strip strip, double deviation, Random random) {
        Strip.Builder builder = Strip.builder(strip.id())
                .film(strip.film())
                .processing(strip.processing())
                .basePlusFog(strip.basePlusFogReadings().stream()
                        .mapToDouble(
                                reading -> redrawn(reading, deviation, random).value())
                        .toArray());
        strip.origin().ifPresent(builder::origin);
        for (ExposedStep step : strip.steps()) {
            for (Density reading : step.readings()) {
                builder.reading(step.exposure(), redrawn(reading, deviation, random));
            }
        }
        return builder.build();
    }

    private static Density redrawn(Density reading, double deviation, Random random) {
        return Density.of(reading.value() + deviation * random.nextGaussian());
    }

    /** The standard deviation of one reading, pooled over everything the strip was read at more than once. */
    private static double pooled(Strip strip) {
        double squares = 0;
        int freedom = 0;
        for (ExposedStep step : strip.steps()) {
            squares += squaresAboutMean(step.readings());
            freedom += step.readings().size() - 1;
        }
        List<Density> base = strip.basePlusFogReadings();
        if (!base.isEmpty()) {
            squares += squaresAboutMean(base);
            freedom += base.size() - 1;
        }
        if (freedom == 0) {
            throw new IllegalArgumentException(strip
                    + " has no repeat readings; read some steps again, or state the repeatability of the densitometer");
        }
        return Math.sqrt(squares / freedom);
    }

    private static double squaresAboutMean(List<Density> readings) {
        double mean = readings.stream().mapToDouble(Density::value).average().orElseThrow();
        return readings.stream()
                .mapToDouble(reading -> (reading.value() - mean) * (reading.value() - mean))
                .sum();
    }
}
