// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.development;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.function.ToDoubleFunction;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.DevelopmentTimes;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.Recorded;
import org.tonewedge.core.quantity.ResultRecord;
import org.tonewedge.core.quantity.Temperature;

/**
 * Contrast as a function of time and temperature, fitted to strips. It gives the contrast for a time, and the time for
 * a contrast, with uncertainty.
 *
 * <p>A time counts as tested if its equivalent at the reference temperature lies between the shortest and longest times
 * tested. Beyond the tested times and temperatures the fit refuses to answer, unless {@link #withExtrapolation()}
 * allows it.
 *
 * <p>If the model was {@linkplain DevelopmentSeries#contrast chosen}, the uncertainty of a contrast or a time includes
 * that of the choice: how far the predictions of the other models differ, weighted by the evidence. The uncertainties
 * of the model's constants apply as if the model were certain.
 *
 * <p>A question without a temperature applies to the temperature of the strips, provided that it is the same for all.
 *
 * <p>Immutable and thread safe.
 *
 * @source S. T. Buckland, K. P. Burnham and N. H. Augustin, Model selection: an integral part of inference, Biometrics 53
 *     (1997), 603–618, for the uncertainty of the choice (from memory)
 */
public final class ContrastFit implements Recorded {

    private final ContrastModel model;
    /** How the contrasts were read; null if that is not known. */
    private final ContrastMeasure measure;

    private final ResponseFit fit;
    private final BeyondTested beyond;
    /** The models among which this one was chosen, without itself; empty if it was not chosen. */
    private final List<ContrastFit> rivals;

    ContrastFit(ContrastModel model, ContrastMeasure measure, ResponseFit fit, BeyondTested beyond) {
        this(model, measure, fit, beyond, List.of());
    }

    private ContrastFit(
            ContrastModel model,
            ContrastMeasure measure,
            ResponseFit fit,
            BeyondTested beyond,
            List<ContrastFit> rivals) {
        this.model = model;
        this.measure = measure;
        this.fit = fit;
        this.beyond = beyond;
        this.rivals = rivals;
    }

    /** The same fit as the best of several; the uncertainties of its predictions include that of the choice. */
    ContrastFit chosenAmong(List<ContrastFit> fits) {
        return new ContrastFit(
                model,
                measure,
                fit,
                beyond,
                fits.stream().filter(other -> other != this).toList());
    }

    /**
     * Returns this fit with answers beyond the tested times and temperatures too. They come from the model and are
     * flagged as extrapolated; an interpolation still refuses.
     *
     * @return a copy
     */
    public ContrastFit withExtrapolation() {
        return with(BeyondTested.FLAG);
    }

    ContrastFit with(BeyondTested other) {
        return new ContrastFit(model, measure, fit, other, rivals);
    }

    ContrastModel model() {
        return model;
    }

    /**
     * Returns the name of the model.
     *
     * @return for example {@code exponential approach to a ceiling}
     */
    public String modelName() {
        return model.toString();
    }

    /**
     * Returns how the contrasts were read. Only targets with this measure can be asked for.
     *
     * @return the measure
     */
    public ContrastMeasure measure() {
        return Objects.requireNonNull(measure, "the measure of a fit");
    }

    /**
     * Returns the contrasts to which the model was fitted.
     *
     * @return the contrasts
     */
    public List<DevelopedFigure> contrasts() {
        return fit.figures();
    }

    /**
     * Returns the temperature at which rate and induction time are stated: the tested temperature nearest to the mean.
     *
     * @return the temperature, or empty if the temperature of the strips is not known
     */
    public Optional<Temperature> referenceTemperature() {
        return Optional.ofNullable(fit.warp().reference());
    }

    /**
     * Returns the shortest tested time, at the reference temperature.
     *
     * @return the time, or its equivalent if the strip was developed at another temperature
     */
    public Duration shortestTested() {
        return DevelopmentTimes.ofMinutes(fit.shortest());
    }

    /**
     * Returns the longest tested time, at the reference temperature.
     *
     * @return the time, or its equivalent if the strip was developed at another temperature
     */
    public Duration longestTested() {
        return DevelopmentTimes.ofMinutes(fit.longest());
    }

    /**
     * Returns the ceiling of contrast, C<sub>∞</sub>.
     *
     * @return the ceiling; empty for models without one
     */
    public Optional<PredictedFigure> ceiling() {
        return isExponential() ? Optional.of(fit.predict(p -> p[0], Scope.TESTED)) : Optional.empty();
    }

    /**
     * Returns the rate k at the reference temperature.
     *
     * @return the rate; empty for models without one
     * @units 1/min
     */
    public Optional<PredictedFigure> ratePerMinute() {
        return isExponential() ? Optional.of(fit.predict(p -> p[1], Scope.TESTED)) : Optional.empty();
    }

    /**
     * Returns the induction time t<sub>0</sub> at the reference temperature. If it is fixed at 0 it has no uncertainty.
     *
     * @return the time; empty for models without one
     * @units minutes
     */
    public Optional<PredictedFigure> inductionMinutes() {
        return model == ContrastModel.EXPONENTIAL_WITH_INDUCTION
                ? Optional.of(fit.predict(p -> p[2], Scope.TESTED))
                : Optional.empty();
    }

    private boolean isExponential() {
        return model == ContrastModel.EXPONENTIAL || model == ContrastModel.EXPONENTIAL_WITH_INDUCTION;
    }

    /**
     * Returns the law of temperature.
     *
     * @return the law, fitted or stated; empty if the strips have one temperature and no law was stated
     */
    public Optional<TemperatureLaw> temperatureLaw() {
        return Optional.ofNullable(fit.law());
    }

    /** That law if its parameter is greater by its standard uncertainty; the law itself if it is stated, or null. */
    TemperatureLaw temperatureLawOff() {
        return fit.lawOff();
    }

    /**
     * Returns the temperature coefficient at the reference temperature, with its uncertainty.
     *
     * @param kelvins the number of degrees, above 0; 10 for Q<sub>10</sub>
     * @return the factor by which the rate grows; empty without a law
     * @throws IllegalArgumentException as {@link TemperatureLaw#coefficient TemperatureLaw.coefficient} does
     */
    public Optional<PredictedFigure> temperatureCoefficient(double kelvins) {
        return temperatureLaw()
                .map(law -> fit.predict(
                        p -> fit.warp().law(p).coefficient(kelvins, fit.warp().reference()), Scope.TESTED));
    }

    /**
     * Returns Akaike's criterion, which compares models of the same strips.
     *
     * @return χ² + 2 p with stated uncertainties, otherwise AICc; less is better; infinite if there are too few strips
     */
    public double informationCriterion() {
        return fit.criterion();
    }

    /**
     * Returns the sum of squared residuals, each divided by its uncertainty if uncertainties were stated.
     *
     * @return the sum
     */
    public double residualSumOfSquares() {
        return fit.sumOfSquares();
    }

    /**
     * Returns the number of strips minus the number of parameters.
     *
     * @return 0 or more
     */
    public int degreesOfFreedom() {
        return fit.residualFreedom();
    }

    /**
     * Returns what you should know before you use the fit.
     *
     * @return sentences; may be empty
     */
    public List<String> notes() {
        List<String> notes = new ArrayList<>(fit.notes());
        if (fit.covariance().isEmpty()) {
            notes.add(
                    "There are as many parameters as strips and no stated uncertainties, so the uncertainty of a prediction is"
                            + " not known.");
        }
        if (fit.residualFreedom() == 0 && model != ContrastModel.MONOTONE_INTERPOLATION) {
            notes.add(
                    "The model passes through all strips, so they cannot show whether it is right: develop one more.");
        }
        if (model == ContrastModel.EXPONENTIAL_WITH_INDUCTION && fit.isHeld(2)) {
            notes.add("The strips show no induction time; it is fixed at 0, without an uncertainty.");
        }
        return List.copyOf(notes);
    }

    /**
     * Returns the contrast after a time, at the temperature of the strips.
     *
     * @param time the time of development
     * @return the contrast
     * @throws DevelopmentException if the time was not tested, or strips were developed at several temperatures
     */
    public PredictedFigure contrastAfter(Duration time) {
        return contrast(time, null);
    }

    /**
     * Returns the contrast after a time at a temperature.
     *
     * @param time the time of development
     * @param at the temperature
     * @return the contrast
     * @throws DevelopmentException if the time or the temperature was not tested, or the temperature of the strips is
     *     not known
     */
    public PredictedFigure contrastAfter(Duration time, Temperature at) {
        return contrast(time, Objects.requireNonNull(at, "at"));
    }

    private PredictedFigure contrast(Duration time, Temperature at) {
        double minutes = Checks.positive("time of development in minutes", DevelopmentTimes.minutes(time));
        return withChoice(
                fit.at(minutes, at, beyond, effective()), other -> other.value(minutes, fit.temperatureOf(at)));
    }

    private PredictedFigure withChoice(PredictedFigure prediction, ToDoubleFunction<ResponseFit> predictionOf) {
        return fit.withChoice(
                prediction,
                rivals.stream()
                        .filter(rival ->
                                !(prediction.isExtrapolated() && rival.model == ContrastModel.MONOTONE_INTERPOLATION))
                        .map(rival -> rival.fit)
                        .toList(),
                predictionOf);
    }

    /** An interpolation does not answer beyond the tested times; a temperature law holds for it as for any model. */
    private BeyondTested effective() {
        return model == ContrastModel.MONOTONE_INTERPOLATION ? BeyondTested.REFUSE : beyond;
    }

    /**
     * Returns the time for a contrast, at the temperature of the strips.
     *
     * @param target the contrast wanted, in the measure of this fit
     * @return the time, with its uncertainty and cautions
     * @throws IllegalArgumentException if the target has another measure
     * @throws DevelopmentException if the target is above the ceiling or outside the tested times, or strips were developed
     *     at several temperatures
     */
    public PredictedTime timeFor(ContrastTarget target) {
        return time(valueOf(target), null);
    }

    /**
     * Returns the time for a contrast at a temperature.
     *
     * @param target the contrast wanted, in the measure of this fit
     * @param at the temperature
     * @return the time, with its uncertainty and cautions
     * @throws IllegalArgumentException if the target has another measure
     * @throws DevelopmentException if the target is above the ceiling or outside the tested times, the temperature was
     *     not tested, or the temperature of the strips is not known
     */
    public PredictedTime timeFor(ContrastTarget target, Temperature at) {
        Objects.requireNonNull(at, "at");
        return timeFor(valueOf(target), at);
    }

    /** The value of a target with the same measure; a contrast read in another way is another quantity. */
    private double valueOf(ContrastTarget target) {
        if (!target.measure().equals(measure)) {
            throw new IllegalArgumentException("this fit is for " + measure + ", the target is for " + target.measure()
                    + ", " + target + ": contrasts read in different ways do not mix; fit the contrasts by "
                    + target.measure() + ", or state a target by " + measure);
        }
        return target.value();
    }

    PredictedTime timeFor(double contrast) {
        return time(contrast, null);
    }

    PredictedTime timeFor(double contrast, Temperature at) {
        return time(contrast, Objects.requireNonNull(at, "at"));
    }

    private PredictedTime time(double contrast, Temperature named) {
        Checks.positive("target contrast", contrast);
        Temperature at = fit.temperatureOf(named);
        Scope scope = fit.scopeOf(at, beyond);
        double minutes = fit.response().inverse(parameters(), contrast);
        if (!(minutes > 0) || Double.isInfinite(minutes)) {
            throw unreached(contrast);
        }
        String question = "contrast " + Figures.plain(contrast) + " needs a time that was not tested: ";
        Scope asked = scope.and(fit.scopeOf(minutes, at, effective(), question));
        return new PredictedTime(
                withChoice(fit.logMinutesFor(contrast, at, asked), other -> other.logMinutes(contrast, at)), at);
    }

    private double[] parameters() {
        double[] p = new double[fit.response().size()];
        for (int j = 0; j < p.length; j++) {
            p[j] = fit.parameter(j);
        }
        return p;
    }

    private DevelopmentException unreached(double contrast) {
        String target = "contrast " + Figures.plain(contrast);
        Optional<PredictedFigure> ceiling = ceiling();
        if (ceiling.isPresent()) {
            return new DevelopmentException(
                    DevelopmentFailure.ABOVE_CEILING,
                    target + " lies above the ceiling of " + ceiling.get()
                            + ": no development reaches it, however long; choose a lower contrast or a more"
                            + " active developer");
        }
        return new DevelopmentException(
                DevelopmentFailure.OUTSIDE_TESTED_TIMES,
                target + " is not between the contrasts of the strips, " + ResponseFit.names(fit.figures())
                        + ": develop a strip "
                        + (contrast
                                        > fit.figures().stream()
                                                .mapToDouble(DevelopedFigure::value)
                                                .max()
                                                .orElseThrow()
                                ? "longer"
                                : "for less time"));
    }

    /**
     * Returns the time at another temperature that gives the same contrast.
     *
     * @param time the time
     * @param from its temperature
     * @param to the other temperature
     * @return the equivalent time, including the uncertainty of the law
     * @throws DevelopmentException if there is no law, or the time or a temperature was not tested
     */
    public PredictedTime equivalentTime(Duration time, Temperature from, Temperature to) {
        Objects.requireNonNull(from, "from");
        Objects.requireNonNull(to, "to");
        if (fit.law() == null) {
            throw new DevelopmentException(
                    DevelopmentFailure.TEMPERATURE_UNKNOWN,
                    "the strips say nothing about temperature: develop strips at two temperatures, or state a law");
        }
        double minutes = Checks.positive("time of development in minutes", DevelopmentTimes.minutes(time));
        Scope scope = fit.scopeOf(from, beyond)
                .and(fit.scopeOf(to, beyond))
                .and(fit.scopeOf(fit.equivalentMinutes(minutes, from), from, effective(), ""));
        return new PredictedTime(
                fit.predict(p -> Math.log(minutes * fit.warp().law(p).rateRatio(to, from)), scope), to);
    }

    /**
     * Returns the times for a contrast over a range of temperatures.
     *
     * @param target the contrast wanted, in the measure of this fit
     * @param coolest the first temperature
     * @param warmest the last temperature, not below the first
     * @param stepKelvins the step between temperatures, above 0
     * @return the table; temperatures beyond those tested are refused or flagged, as for any question
     * @throws IllegalArgumentException if the target has another measure, the step is not above 0, or the last
     *     temperature is below the first
     * @throws DevelopmentException as {@link #timeFor(ContrastTarget, Temperature)} does
     */
    public TimeTemperatureTable timeTemperatureTable(
            ContrastTarget target, Temperature coolest, Temperature warmest, double stepKelvins) {
        Objects.requireNonNull(coolest, "coolest");
        Objects.requireNonNull(warmest, "warmest");
        return timeTemperatureTable(valueOf(target), coolest, warmest, stepKelvins);
    }

    TimeTemperatureTable timeTemperatureTable(
            double contrast, Temperature coolest, Temperature warmest, double stepKelvins) {
        Checks.positive("step of temperature", stepKelvins);
        if (warmest.compareTo(coolest) < 0) {
            throw new IllegalArgumentException("the last temperature of a table must not be below the first, was "
                    + DevelopmentTimes.inWords(warmest) + " after " + DevelopmentTimes.inWords(coolest));
        }
        List<PredictedTime> times = new ArrayList<>();
        long steps = Math.round(Math.floor((warmest.celsius() - coolest.celsius()) / stepKelvins + 1e-9));
        for (long i = 0; i <= steps; i++) {
            times.add(timeFor(contrast, Temperature.ofCelsius(coolest.celsius() + i * stepKelvins)));
        }
        return new TimeTemperatureTable(contrast, times);
    }

    /** The contrast after a time that is known to be tested, or flagged, before it was rounded. */
    PredictedFigure unguarded(PredictedTime time) {
        return withChoice(
                fit.unguarded(time),
                other -> other.value(
                        DevelopmentTimes.minutes(time.time()),
                        time.temperature().orElse(null)));
    }

    /**
     * Returns the fit in words.
     *
     * @return the model and its constants
     */
    @Override
    public String toString() {
        return model
                + ceiling().map(ceiling -> "; ceiling " + ceiling).orElse("")
                + ratePerMinute().map(rate -> "; rate " + rate + " per minute").orElse("")
                + inductionMinutes()
                        .map(time -> "; induction time " + time + " minutes")
                        .orElse("")
                + temperatureLaw().map(law -> "; " + law).orElse("");
    }

    /**
     * Returns the fit as named values: {@code model} and {@code measure}, the constants {@code ceiling}, {@code rate},
     * {@code induction_time} and {@code q10} of a temperature coefficient, each with its uncertainty or the reason why the fit
     * has none; the {@code reference_temperature} and the tested times; the {@code criterion} and the
     * {@code degrees_of_freedom}; the notes.
     *
     * @return the records
     */
    @Override
    public List<ResultRecord> records() {
        List<ResultRecord> records = new ArrayList<>();
        records.add(ResultRecord.ofText("model", model.name()));
        if (measure != null) {
            records.add(ResultRecord.ofText("measure", measure.label()));
        }
        String none = "the model, " + model + ", has none";
        records.add(record("ceiling", ceiling(), measure == null ? "" : measure.unit(), none));
        records.add(record("rate", ratePerMinute(), "1/min", none));
        records.add(record("induction_time", inductionMinutes(), "min", none));
        records.add(recordOfQ10());
        referenceTemperature()
                .ifPresent(at -> records.add(ResultRecord.ofNumber("reference_temperature", at.celsius(), "°C")));
        records.add(ResultRecord.ofNumber("shortest_tested", shortestTested().toNanos() / 1e9, "s"));
        records.add(ResultRecord.ofNumber("longest_tested", longestTested().toNanos() / 1e9, "s"));
        records.add(recordOfCriterion());
        records.add(ResultRecord.ofNumber("degrees_of_freedom", degreesOfFreedom(), ""));
        int number = 1;
        for (String note : notes()) {
            records.add(ResultRecord.ofText("note." + number++, note));
        }
        return List.copyOf(records);
    }

    private static ResultRecord record(String name, Optional<PredictedFigure> figure, String unit, String reason) {
        return figure.map(found -> found.record(name, unit))
                .orElseGet(() -> ResultRecord.ofMissing(name, unit, reason));
    }

    private ResultRecord recordOfQ10() {
        try {
            return record(
                    "q10",
                    temperatureCoefficient(10),
                    "",
                    "the strips say nothing about temperature: develop strips at two temperatures, or state a law");
        } catch (IllegalArgumentException e) {
            return ResultRecord.ofMissing("q10", "", e.getMessage());
        }
    }

    ResultRecord recordOfCriterion() {
        double criterion = informationCriterion();
        return Double.isInfinite(criterion)
                ? ResultRecord.ofMissing("criterion", "", "too few strips for a criterion: develop more strips")
                : ResultRecord.ofNumber("criterion", criterion, "");
    }
}
