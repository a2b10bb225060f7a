// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import java.io.InvalidObjectException;
import java.io.NotSerializableException;
import java.io.ObjectInputStream;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.function.DoubleUnaryOperator;
import java.util.function.UnaryOperator;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.SerialForms;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.DensityGeometry;
import org.tonewedge.core.quantity.ExposureAxis;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.quantity.SpectralResponse;

/**
 * One piece of film or paper, such as strip 7: its exposures, the densities read on it, its unexposed base-plus-fog
 * readings and its processing.
 *
 * <p>Readings are gross densities and may be given in any order. {@link #steps()} returns them by rising exposure;
 * readings at one exposure (to within {@link #SAME_EXPOSURE}) belong to one step. A strip is not judged here: one whose
 * densities fall, or that has no base-plus-fog reading, is kept as it was read. A method that needs more says so.
 *
 * <p>Immutable and thread safe; compared by value. Serialisable, unless an error of its densities is stated by a function
 * that is not; such a function is equal only to itself, also after the strip is read back.
 */
public final class Strip implements Serializable {

    private static final long serialVersionUID = 1;

    /**
     * Log exposures closer than this belong to the same step, read more than once: no tablet has steps so close, and
     * computed exposures may differ in their last digits.
     */
    public static final double SAME_EXPOSURE = 1e-6;

    private final String id;
    private final String film;
    private final Processing processing;
    private final TestConditions testConditions;
    private final OptionalDouble boxSpeed;
    private final SpectralResponse densityResponse;
    private final DensityGeometry densityGeometry;
    private final String origin;
    private final List<Density> basePlusFogReadings;
    /** The readings by rising exposure, as plain numbers, because a table may have millions. */
    private final double[] exposures;

    private final double[] densities;
    /** Made when first asked for; two threads that ask at the same time make equal lists. */
    private List<ExposedStep> steps;

    private final ExposureAxis axis;
    private final Map<String, double[]> exposureErrors;
    private final Map<String, DoubleUnaryOperator> densityErrors;

    private Strip(Builder builder) {
        id = builder.id;
        film = builder.film;
        processing = builder.processing;
        testConditions = builder.testConditions;
        boxSpeed = builder.boxSpeed;
        densityResponse = builder.densityResponse;
        densityGeometry = builder.densityGeometry;
        origin = builder.origin;
        basePlusFogReadings = List.copyOf(builder.basePlusFog);
        axis = builder.axis;
        double[][] sorted = builder.sorted();
        exposures = sorted[0];
        densities = sorted[1];
        exposureErrors = builder.errors.isEmpty() ? Map.of() : builder.errorsOf(steps());
        densityErrors = builder.densityErrors.isEmpty()
                ? Map.of()
                : Collections.unmodifiableMap(new LinkedHashMap<>(builder.densityErrors));
    }

    /**
     * Begins a new strip.
     *
     * @param id the identifier of the piece, unique in a comparison
     * @return a builder that collects the readings
     * @throws IllegalArgumentException if the identifier is blank or contains a control character
     */
    public static Builder builder(String id) {
        Objects.requireNonNull(id, "id");
        return new Builder(Checks.label("strip identifier", id));
    }

    /**
     * Returns the identifier.
     *
     * @return the identifier
     */
    public String id() {
        return id;
    }

    /**
     * Returns the label of the film.
     *
     * @return the label; the identifier if none was given
     */
    public String film() {
        return film;
    }

    /**
     * Returns how the strip was processed.
     *
     * @return the processing, parts of which may be unknown
     */
    public Processing processing() {
        return processing;
    }

    /**
     * Returns the conditions of the test that readings do not show.
     *
     * @return the conditions, each of which may be not stated
     */
    public TestConditions testConditions() {
        return testConditions;
    }

    /**
     * Returns the speed printed on the film's box.
     *
     * @return the arithmetic speed, or empty if it was not given
     */
    public OptionalDouble boxSpeed() {
        return boxSpeed;
    }

    /**
     * Returns the spectral response by which the densities were read.
     *
     * @return the response, such as visual, or nothing if it is not stated
     */
    public Optional<SpectralResponse> densityResponse() {
        return Optional.ofNullable(densityResponse);
    }

    /**
     * Returns the geometry in which the densities were read.
     *
     * @return the geometry, such as diffuse, or nothing if it is not stated
     */
    public Optional<DensityGeometry> densityGeometry() {
        return Optional.ofNullable(densityGeometry);
    }

    /**
     * Returns where the readings come from, for messages.
     *
     * @return for example {@code readings.csv, lines 2 to 25}; empty if the strip was built in code
     */
    public Optional<String> origin() {
        return Optional.ofNullable(origin);
    }

    /**
     * Returns the axis of the exposures.
     *
     * @return the axis
     */
    public ExposureAxis axis() {
        return axis;
    }

    /**
     * Returns the exposed steps in order of rising exposure.
     *
     * @return the steps, at least one
     */
    public List<ExposedStep> steps() {
        List<ExposedStep> made = steps;
        if (made == null) {
            made = makeSteps();
            steps = made;
        }
        return made;
    }

    private List<ExposedStep> makeSteps() {
        List<ExposedStep> made = new ArrayList<>();
        List<Density> repeats = new ArrayList<>();
        double exposure = exposures[0];
        for (int i = 0; i < exposures.length; i++) {
            repeats.add(Density.of(densities[i]));
            if (i + 1 == exposures.length || exposures[i + 1] - exposure > SAME_EXPOSURE) {
                made.add(new ExposedStep(new LogExposure(exposure, axis), repeats));
                repeats.clear();
                exposure = i + 1 == exposures.length ? exposure : exposures[i + 1];
            }
        }
        return List.copyOf(made);
    }

    /**
     * Returns the readings on the unexposed, processed part.
     *
     * @return the gross densities; empty if none was read
     */
    public List<Density> basePlusFogReadings() {
        return basePlusFogReadings;
    }

    /**
     * Returns base plus fog: the mean density of the unexposed, processed part of the film.
     *
     * @return the density, or empty if none was read
     */
    public Optional<Density> basePlusFog() {
        return basePlusFogReadings.isEmpty() ? Optional.empty() : Optional.of(ExposedStep.mean(basePlusFogReadings));
    }

    /**
     * Returns the names of the stated errors: sources of uncertainty besides the scatter of the readings. Examples are
     * the strip's exposure as a whole, a step of the tablet, or the correction of the densitometer. Different sources
     * are independent. Errors with the same name are the same error in every strip; a step of a tablet, for example,
     * has the same error for all films exposed through it.
     *
     * @return the names of the sources; empty if none was stated
     */
    public Set<String> statedErrors() {
        Set<String> sources = new LinkedHashSet<>(exposureErrors.keySet());
        sources.addAll(densityErrors.keySet());
        return Collections.unmodifiableSet(sources);
    }

    /**
     * Returns the strip as it would be with one of its stated errors present. The change this makes to a figure is the
     * standard uncertainty that the source contributes to it.
     *
     * @param source the name of the source; a name that the strip does not have changes nothing
     * @param standardUncertainties the size of the error in standard uncertainties, usually 1
     * @return the strip with its exposures or densities changed
     * @source JCGM 100:2008, 5.1.3 note 2: the contribution of an input, found by varying it by its uncertainty
     */
    public Strip withStatedError(String source, double standardUncertainties) {
        Objects.requireNonNull(source, "source");
        double[] ofExposures = exposureErrors.get(source);
        DoubleUnaryOperator ofDensity = densityErrors.get(source);
        if (ofExposures == null && ofDensity == null) {
            return this;
        }
        UnaryOperator<Density> moved = density -> ofDensity == null
                ? density
                : Density.of(density.value() + standardUncertainties * ofDensity.applyAsDouble(density.value()));
        Builder copy = described();
        basePlusFogReadings.forEach(density -> copy.basePlusFog.add(moved.apply(density)));
        for (int i = 0; i < steps().size(); i++) {
            ExposedStep step = steps().get(i);
            double by = ofExposures == null ? 0 : standardUncertainties * ofExposures[i];
            LogExposure at = new LogExposure(step.exposure().value() + by, axis);
            step.readings().forEach(density -> copy.reading(at, moved.apply(density)));
        }
        return copy.build();
    }

    /**
     * Returns this strip on another axis, by means of one exposure known on both. This is how relative exposures are
     * anchored to lux seconds. Errors stated of the strip stay with it.
     *
     * @param known an exposure on the axis of this strip
     * @param same the same exposure on the new axis
     * @return the strip on the new axis
     * @throws IllegalArgumentException if the known exposure is on another axis, or an exposure leaves the range of
     *     {@link LogExposure}
     */
    public Strip anchored(LogExposure known, LogExposure same) {
        axis.requireSame(known.axis(), "anchor " + this);
        double shift = same.value() - known.value();
        Builder copy = described();
        copy.basePlusFog.addAll(basePlusFogReadings);
        for (ExposedStep step : steps()) {
            LogExposure at = new LogExposure(step.exposure().value() + shift, same.axis());
            step.readings().forEach(density -> copy.reading(at, density));
        }
        exposureErrors.forEach(copy::errorsOfSteps);
        copy.densityErrors.putAll(densityErrors);
        return copy.build();
    }

    /** A copy without its readings and stated errors. */
    private Builder described() {
        Builder copy = new Builder(id);
        copy.film = film;
        copy.processing = processing;
        copy.testConditions = testConditions;
        copy.boxSpeed = boxSpeed;
        copy.densityResponse = densityResponse;
        copy.densityGeometry = densityGeometry;
        copy.origin = origin;
        return copy;
    }

    /**
     * Compares by value: identifier, film, processing, box speed, kind of density, readings and stated errors; where the
     * readings stand in a file does not count. Errors of the densities are functions, equal where they are the same object.
     *
     * @param other any object
     * @return true if the other is an equal strip
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof Strip that
                && id.equals(that.id)
                && film.equals(that.film)
                && processing.equals(that.processing)
                && testConditions.equals(that.testConditions)
                && boxSpeed.equals(that.boxSpeed)
                && densityResponse == that.densityResponse
                && Objects.equals(densityGeometry, that.densityGeometry)
                && axis.equals(that.axis)
                && basePlusFogReadings.equals(that.basePlusFogReadings)
                && Arrays.equals(exposures, that.exposures)
                && Arrays.equals(densities, that.densities)
                && exposureErrors.keySet().equals(that.exposureErrors.keySet())
                && exposureErrors.entrySet().stream()
                        .allMatch(error -> Arrays.equals(error.getValue(), that.exposureErrors.get(error.getKey())))
                && densityErrors.equals(that.densityErrors);
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(id, film, Arrays.hashCode(exposures), Arrays.hashCode(densities));
    }

    /**
     * Returns the name of the strip, for messages.
     *
     * @return for example {@code strip 'S07' (readings.csv, lines 2 to 25)}
     */
    @Override
    public String toString() {
        return "strip '" + Checks.shortened(id) + "'" + (origin == null ? "" : " (" + origin + ")");
    }

    private Object writeReplace() throws NotSerializableException {
        for (Map.Entry<String, DoubleUnaryOperator> error : densityErrors.entrySet()) {
            if (!(error.getValue() instanceof Serializable)) {
                throw new NotSerializableException(this + ": the function of its stated error '" + error.getKey()
                        + "' is not serialisable; state it as (DoubleUnaryOperator & Serializable)");
            }
        }
        return new SerialForm(
                id,
                film,
                processing,
                testConditions,
                boxSpeed.stream().toArray(),
                densityResponse,
                densityGeometry,
                origin,
                axis,
                basePlusFogReadings.stream().mapToDouble(Density::value).toArray(),
                exposures,
                densities,
                new LinkedHashMap<>(exposureErrors),
                new LinkedHashMap<>(densityErrors));
    }

    private void readObject(ObjectInputStream stream) throws InvalidObjectException {
        throw SerialForms.forged();
    }

    /** The value as it is written; never compared. */
    @SuppressWarnings("ArrayRecordComponent")
    private record SerialForm(
            String id,
            String film,
            Processing processing,
            TestConditions testConditions,
            double[] boxSpeed,
            SpectralResponse densityResponse,
            DensityGeometry densityGeometry,
            String origin,
            ExposureAxis axis,
            double[] basePlusFog,
            double[] exposures,
            double[] densities,
            Map<String, double[]> exposureErrors,
            Map<String, DoubleUnaryOperator> densityErrors)
            implements Serializable {

        private Object readResolve() throws InvalidObjectException {
            return SerialForms.made(() -> strip());
        }

        private Strip strip() {
            if (exposures.length != densities.length) {
                throw new IllegalArgumentException("strip '" + id + "': " + exposures.length + " exposures but "
                        + densities.length + " densities");
            }
            Builder made = builder(id)
                    .film(film)
                    .processing(processing)
                    .testConditions(testConditions)
                    .basePlusFog(basePlusFog);
            for (double speed : boxSpeed) {
                made.boxSpeed(speed);
            }
            if (densityResponse != null) {
                made.densityResponse(densityResponse);
            }
            if (densityGeometry != null) {
                made.densityGeometry(densityGeometry);
            }
            if (origin != null) {
                made.origin(origin);
            }
            for (int i = 0; i < exposures.length; i++) {
                made.reading(new LogExposure(exposures[i], axis), Density.of(densities[i]));
            }
            int steps = exposureErrors.isEmpty() ? 0 : made.build().steps().size();
            exposureErrors.forEach((source, sizes) -> {
                if (sizes.length != steps) {
                    throw new IllegalArgumentException("strip '" + id + "': " + steps + " steps but " + sizes.length
                            + " errors of '" + source + "'");
                }
                made.errorsOfSteps(source, sizes);
            });
            densityErrors.forEach(made::densityError);
            return made.build();
        }
    }

    /**
     * Collects the readings of a strip. Not thread safe; {@link #build()} may be called more than once.
     */
    public static final class Builder {

        /** Enough for most strips. */
        private static final int FEW = 24;

        private final String id;
        private String film;
        private Processing processing = Processing.unknown();
        private TestConditions testConditions = TestConditions.notStated();
        private OptionalDouble boxSpeed = OptionalDouble.empty();
        private SpectralResponse densityResponse;
        private DensityGeometry densityGeometry;
        private String origin;
        private ExposureAxis axis;
        private final List<Density> basePlusFog = new ArrayList<>();
        // Plain arrays: a scan or a long log may hold millions of readings.
        private double[] exposures = new double[FEW];
        private double[] densities = new double[FEW];
        private int readings;
        private final Map<String, StatedError> errors = new LinkedHashMap<>();
        private final Map<String, DoubleUnaryOperator> densityErrors = new LinkedHashMap<>();

        private Builder(String id) {
            this.id = id;
            this.film = id;
        }

        /**
         * Names the film.
         *
         * @param label the film in the tester's words
         * @return this builder
         * @throws IllegalArgumentException if the label is blank or has a control character
         */
        public Builder film(String label) {
            Objects.requireNonNull(label, "label");
            film = Checks.label("film of strip '" + Checks.shortened(id) + "'", label);
            return this;
        }

        /**
         * States how the strip was processed.
         *
         * @param how the processing
         * @return this builder
         */
        public Builder processing(Processing how) {
            Objects.requireNonNull(how, "how");
            processing = how;
            return this;
        }

        /**
         * States the conditions of the test that readings do not show.
         *
         * @param conditions the conditions
         * @return this builder
         */
        public Builder testConditions(TestConditions conditions) {
            testConditions = Objects.requireNonNull(conditions, "conditions");
            return this;
        }

        /**
         * States the speed printed on the box.
         *
         * @param arithmetic the arithmetic speed, above 0 and at most 1,000,000
         * @return this builder
         * @throws IllegalArgumentException if the speed is out of range
         */
        public Builder boxSpeed(double arithmetic) {
            String name = "box speed of strip '" + Checks.shortened(id) + "'";
            boxSpeed = OptionalDouble.of(Checks.within(name, Checks.positive(name, arithmetic), 0, 1_000_000, ""));
            return this;
        }

        /**
         * States the spectral response by which the densities were read.
         *
         * @param response the response
         * @return this builder
         */
        public Builder densityResponse(SpectralResponse response) {
            densityResponse = Objects.requireNonNull(response, "response");
            return this;
        }

        /**
         * States the geometry in which the densities were read.
         *
         * @param geometry the geometry
         * @return this builder
         */
        public Builder densityGeometry(DensityGeometry geometry) {
            densityGeometry = Objects.requireNonNull(geometry, "geometry");
            return this;
        }

        /**
         * States where the readings come from.
         *
         * @param where the place, such as {@code readings.csv, lines 2 to 25}
         * @return this builder
         */
        public Builder origin(String where) {
            Objects.requireNonNull(where, "where");
            origin = Checks.notBlank("origin of strip '" + Checks.shortened(id) + "'", where);
            return this;
        }

        /**
         * Adds readings of the unexposed, processed part of the film.
         *
         * @param grossDensities one or more densities
         * @return this builder
         * @throws IllegalArgumentException if a density is out of range
         */
        public Builder basePlusFog(double... grossDensities) {
            Objects.requireNonNull(grossDensities, "grossDensities");
            for (double density : grossDensities) {
                basePlusFog.add(Density.of(density));
            }
            return this;
        }

        /**
         * Adds one reading.
         *
         * @param exposure the exposure of the step
         * @param density the gross density read there
         * @return this builder
         * @throws IllegalArgumentException if the exposure is not on the axis of earlier readings
         */
        public Builder reading(LogExposure exposure, Density density) {
            if (axis == null) {
                axis = exposure.axis();
            }
            if (!axis.equals(exposure.axis())) {
                axis.requireSame(exposure.axis(), "put readings in one strip ('" + Checks.shortened(id) + "')");
            }
            if (readings == exposures.length) {
                exposures = Arrays.copyOf(exposures, readings + readings / 2);
                densities = Arrays.copyOf(densities, readings + readings / 2);
            }
            exposures[readings] = exposure.value();
            densities[readings++] = density.value();
            return this;
        }

        /**
         * Adds one reading for each exposure of a series.
         *
         * @param series the exposures in the order of reading
         * @param grossDensities the densities in the same order
         * @return this builder
         * @throws IllegalArgumentException if the numbers of exposures and densities differ, a density is out of range,
         *     or the series is not on the axis of earlier readings
         */
        public Builder readings(ExposureSeries series, double... grossDensities) {
            if (series.size() != grossDensities.length) {
                throw new IllegalArgumentException(
                        "strip '" + Checks.shortened(id) + "': " + series.size() + " exposures but "
                                + grossDensities.length
                                + " densities; read every step once, or add repeat readings as a second set");
            }
            for (int i = 0; i < grossDensities.length; i++) {
                reading(series.exposures().get(i), Density.of(grossDensities[i]));
            }
            return this;
        }

        /**
         * States an uncertainty of the strip's exposure as a whole, such as that of the lamp or the shutter.
         *
         * @param source the name of the source; strips that share the error give the same name
         * @param standardUncertainty the standard uncertainty (k = 1), 0 to 1
         * @return this builder
         * @throws IllegalArgumentException if the uncertainty is out of range
         * @units log units
         */
        public Builder exposureError(String source, double standardUncertainty) {
            Objects.requireNonNull(source, "source");
            errors.put(source, StatedError.ofStrip(checkedError(source, standardUncertainty)));
            return this;
        }

        /**
         * States an uncertainty in the exposure of one step, such as that of the tablet's density there.
         *
         * @param source the name of the source; strips that share the error give the same name
         * @param step the exposure of the step; no effect if the strip was not read there
         * @param standardUncertainty the standard uncertainty (k = 1), 0 to 1
         * @return this builder
         * @throws IllegalArgumentException if the uncertainty is out of range
         * @units log units
         */
        public Builder exposureError(String source, LogExposure step, double standardUncertainty) {
            Objects.requireNonNull(source, "source");
            errors.put(source, StatedError.at(step.value(), checkedError(source, standardUncertainty)));
            return this;
        }

        /**
         * States an uncertainty that all densities of the strip share, such as that of the densitometer's correction.
         *
         * @param source the name of the source; strips that share the error give the same name
         * @param standardUncertainty what one standard uncertainty (k = 1) of the source adds to a density, as a function of
         *     the density; its sign may change with density
         * @return this builder
         */
        public Builder densityError(String source, DoubleUnaryOperator standardUncertainty) {
            Objects.requireNonNull(source, "source");
            Objects.requireNonNull(standardUncertainty, "standardUncertainty");
            densityErrors.put(source, standardUncertainty);
            return this;
        }

        /** The errors of an equal strip, step by step. */
        private void errorsOfSteps(String source, double[] sizes) {
            for (double size : sizes) {
                checkedError(source, size);
            }
            errors.put(source, StatedError.ofSteps(sizes.clone()));
        }

        private static double checkedError(String source, double standardUncertainty) {
            return Checks.within("standard uncertainty of " + Checks.shortened(source), standardUncertainty, 0, 1, "");
        }

        /** How one standard uncertainty of each source moves the steps. */
        private Map<String, double[]> errorsOf(List<ExposedStep> sorted) {
            Map<String, double[]> found = new LinkedHashMap<>();
            errors.forEach((source, error) -> {
                double[] moved = new double[sorted.size()];
                boolean any = false;
                for (int i = 0; i < moved.length; i++) {
                    moved[i] = error.of(i, sorted.get(i).exposure().value());
                    any |= moved[i] > 0;
                }
                if (any) {
                    found.put(source, moved);
                }
            });
            return Collections.unmodifiableMap(found);
        }

        /** An error of exposures, in log units. */
        private interface StatedError {

            /** The error of a step by its index and log exposure. */
            double of(int step, double exposure);

            static StatedError ofStrip(double size) {
                return (step, exposure) -> size;
            }

            static StatedError at(double known, double size) {
                return (step, exposure) -> Math.abs(exposure - known) <= SAME_EXPOSURE ? size : 0;
            }

            static StatedError ofSteps(double[] sizes) {
                return (step, exposure) -> sizes[step];
            }
        }

        /**
         * Builds the strip.
         *
         * @return the strip
         * @throws IllegalArgumentException if no exposed reading was added
         */
        public Strip build() {
            if (readings == 0) {
                throw new IllegalArgumentException(
                        "strip '" + Checks.shortened(id) + "'" + (origin == null ? "" : " (" + origin + ")")
                                + " has no exposed reading; a strip needs steps with a known exposure");
            }
            return new Strip(this);
        }

        /** How many readings of exposed steps were added. */
        int readings() {
            return readings;
        }

        /** Whether a reading from the given one on, in the order of adding, is at an exposure of one before it. */
        boolean repeatsFrom(int first) {
            double[] before = Arrays.copyOf(exposures, first);
            Arrays.sort(before);
            return Arrays.stream(exposures, first, readings).anyMatch(x -> Arrays.binarySearch(before, x) >= 0);
        }

        /** The readings by rising exposure, those at one exposure in the order in which they were added. */
        private double[][] sorted() {
            double[][] sorted = {Arrays.copyOf(exposures, readings), Arrays.copyOf(densities, readings)};
            if (!isSorted()) {
                Integer[] order = new Integer[readings];
                Arrays.setAll(order, i -> i);
                Arrays.sort(order, Comparator.comparingDouble(i -> exposures[i]));
                for (int i = 0; i < readings; i++) {
                    sorted[0][i] = exposures[order[i]];
                    sorted[1][i] = densities[order[i]];
                }
            }
            return sorted;
        }

        private boolean isSorted() {
            for (int i = 1; i < readings; i++) {
                if (exposures[i] < exposures[i - 1]) {
                    return false;
                }
            }
            return true;
        }
    }
}
