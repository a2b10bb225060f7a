// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import java.util.Collection;
import java.util.Collections;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.stream.Stream;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.DensityGeometry;
import org.tonewedge.core.quantity.ExposureAxis;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.quantity.SpectralResponse;

/**
 * A bracketed series of camera frames of one subject on one film, such as seven frames a third of a stop apart.
 *
 * <p>The spacing is free: each frame states its exposure, counted from the metered exposure.
 *
 * <p>Immutable and thread safe.
 */
public final class Bracket {

    /** The axis of frame exposures: the logarithm of exposure, counted from the metered exposure. */
    public static final ExposureAxis METERED = ExposureAxis.relativeTo("the metered exposure");

    private final String film;
    private final List<Density> basePlusFogReadings;
    private final List<Frame> frames;
    private final SpectralResponse densityResponse;
    private final DensityGeometry densityGeometry;
    /** Base plus fog by responses other than that of the frames. */
    private final Map<SpectralResponse, List<Density>> otherBasePlusFog;

    private Bracket(
            String film,
            List<Density> basePlusFogReadings,
            List<Frame> frames,
            SpectralResponse densityResponse,
            DensityGeometry densityGeometry,
            Map<SpectralResponse, List<Density>> otherBasePlusFog) {
        this.film = film;
        this.basePlusFogReadings = basePlusFogReadings;
        this.frames = frames;
        this.densityResponse = densityResponse;
        this.densityGeometry = densityGeometry;
        this.otherBasePlusFog = otherBasePlusFog;
    }

    /**
     * Returns a series of frames.
     *
     * @param film the name of the film, in the tester's words
     * @param basePlusFogReadings the gross densities read on unexposed, processed film, one or more
     * @param frames the frames, in any order, one or more
     * @return the series, by rising exposure
     * @throws IllegalArgumentException if the film is blank or contains a control character, base plus fog or frames
     *     are missing, or two frames have the same label
     */
    public static Bracket of(String film, List<Density> basePlusFogReadings, List<Frame> frames) {
        String name = Checks.label("film of a bracket", film);
        if (basePlusFogReadings.isEmpty()) {
            throw new IllegalArgumentException("the bracket on film '" + name + "' has no base-plus-fog reading;"
                    + " read an unexposed, processed part of the film");
        }
        if (frames.isEmpty()) {
            throw new IllegalArgumentException("the bracket on film '" + name + "' has no frame; read at least one");
        }
        Set<String> labels = new HashSet<>();
        for (Frame frame : frames) {
            if (!labels.add(frame.label())) {
                throw new IllegalArgumentException("the bracket on film '" + name + "' has two frames with the label '"
                        + frame.label() + "'; give them different labels");
            }
        }
        return new Bracket(
                name,
                List.copyOf(basePlusFogReadings),
                frames.stream().sorted(Comparator.comparing(Frame::exposure)).toList(),
                null,
                null,
                Map.of());
    }

    /**
     * Returns a copy that states by which spectral response its densities were read.
     *
     * @param response the response
     * @return the copy
     * @throws IllegalArgumentException if base plus fog was added by this response already
     */
    public Bracket with(SpectralResponse response) {
        Objects.requireNonNull(response, "response");
        requireOther(response, otherBasePlusFog.keySet());
        return new Bracket(film, basePlusFogReadings, frames, response, densityGeometry, otherBasePlusFog);
    }

    /**
     * Returns a copy that states the geometry in which its densities were read.
     *
     * @param geometry the geometry
     * @return the copy
     */
    public Bracket with(DensityGeometry geometry) {
        Objects.requireNonNull(geometry, "geometry");
        return new Bracket(film, basePlusFogReadings, frames, densityResponse, geometry, otherBasePlusFog);
    }

    /**
     * Returns a copy with base plus fog read by another response too, such as the one closest to that of paper.
     *
     * @param response a response other than that of the frames
     * @param readings the gross densities, one or more
     * @return the copy
     * @throws IllegalArgumentException if there is no reading, or base plus fog by this response is there
     */
    public Bracket withBasePlusFog(SpectralResponse response, List<Density> readings) {
        Objects.requireNonNull(response, "response");
        if (readings.isEmpty()) {
            throw new IllegalArgumentException(
                    this + ": base plus fog by " + response.description() + " needs a reading, had none");
        }
        requireOther(response, otherBasePlusFog.keySet());
        requireOther(response, densityResponse().stream().toList());
        Map<SpectralResponse, List<Density>> all = new EnumMap<>(SpectralResponse.class);
        all.putAll(otherBasePlusFog);
        all.put(response, List.copyOf(readings));
        return new Bracket(
                film, basePlusFogReadings, frames, densityResponse, densityGeometry, Collections.unmodifiableMap(all));
    }

    private void requireOther(SpectralResponse response, Collection<SpectralResponse> known) {
        if (known.contains(response)) {
            throw new IllegalArgumentException(this + " has base plus fog by " + response.description()
                    + " already; give all readings by one response together");
        }
    }

    /**
     * Returns the film.
     *
     * @return its label
     */
    public String film() {
        return film;
    }

    /**
     * Returns the readings on unexposed, processed film.
     *
     * @return the gross densities, at least one
     */
    public List<Density> basePlusFogReadings() {
        return basePlusFogReadings;
    }

    /**
     * Returns base plus fog.
     *
     * @return the mean density of unexposed, processed film
     */
    public Density basePlusFog() {
        return ExposedStep.mean(basePlusFogReadings);
    }

    /**
     * Returns the spectral response by which the frames were read.
     *
     * @return the response, or nothing if it is not stated
     */
    public Optional<SpectralResponse> densityResponse() {
        return Optional.ofNullable(densityResponse);
    }

    /**
     * Returns the geometry in which the frames were read.
     *
     * @return the geometry, or nothing if it is not stated
     */
    public Optional<DensityGeometry> densityGeometry() {
        return Optional.ofNullable(densityGeometry);
    }

    /**
     * Returns base plus fog by response.
     *
     * @return its mean density by each response at hand, that of the frames among them if it is stated
     */
    public Map<SpectralResponse, Density> basePlusFogByResponse() {
        Map<SpectralResponse, Density> means = new EnumMap<>(SpectralResponse.class);
        otherBasePlusFog.forEach((response, readings) -> means.put(response, ExposedStep.mean(readings)));
        densityResponse().ifPresent(response -> means.put(response, basePlusFog()));
        return Collections.unmodifiableMap(means);
    }

    /** The readings of base plus fog by responses other than that of the frames. */
    Map<SpectralResponse, List<Density>> otherBasePlusFog() {
        return otherBasePlusFog;
    }

    /**
     * Returns the frames.
     *
     * @return the frames in order of rising exposure, at least one
     */
    public List<Frame> frames() {
        return frames;
    }

    /**
     * Returns one frame.
     *
     * @param label its label
     * @return the frame
     * @throws IllegalArgumentException if there is no such frame; the message lists the frames there are
     */
    public Frame frame(String label) {
        Objects.requireNonNull(label, "label");
        return frames.stream()
                .filter(frame -> frame.label().equals(label))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException(this + " has no frame '" + label + "'; it has "
                        + String.join(", ", frames.stream().map(Frame::label).toList())));
    }

    /**
     * Returns the readings of one patch through the series as a strip: its density against the exposure of each frame.
     *
     * @param patch the label of the patch, read on every frame
     * @return the strip, on the axis {@link #METERED}
     * @throws IllegalArgumentException if a frame lacks the patch
     */
    public Strip stripOf(String patch) {
        Objects.requireNonNull(patch, "patch");
        Strip.Builder strip = strip("patch '" + patch + "'");
        for (Frame frame : frames) {
            LogExposure exposure = new LogExposure(frame.exposure().logUnits(), METERED);
            frame.reading(patch).readings().forEach(density -> strip.reading(exposure, density));
        }
        return strip.build();
    }

    /**
     * Returns the neutral scale of one frame as a strip: its density against the logarithm of reflectance.
     *
     * @param frame the label of the frame
     * @return the strip, on an axis whose zero is a perfect white on that frame
     * @throws IllegalArgumentException if there is no such frame or it has no neutral patch of known reflectance
     */
    public Strip neutralScale(String frame) {
        Objects.requireNonNull(frame, "frame");
        ExposureAxis axis = ExposureAxis.relativeTo("a perfect white");
        Strip.Builder strip = strip("neutral scale of frame '" + frame + "'");
        for (PatchReading neutral : frame(frame).neutrals()) {
            double reflectance = neutral.patch().reflectance().orElseThrow();
            neutral.readings()
                    .forEach(density -> strip.reading(new LogExposure(Math.log10(reflectance), axis), density));
        }
        return strip.build();
    }

    private Strip.Builder strip(String what) {
        Strip.Builder strip = Strip.builder(film + ", " + what).film(film);
        basePlusFogReadings.forEach(density -> strip.basePlusFog(density.value()));
        densityResponse().ifPresent(strip::densityResponse);
        densityGeometry().ifPresent(strip::densityGeometry);
        return strip;
    }

    /**
     * Returns the repeatability of the readings, pooled over all repeat readings.
     *
     * @return the experimental standard deviation of a single reading, or empty if no reading was repeated
     * @source pooled experimental variance: JCGM 100:2008, 4.2.4 and the note to H.3.6 (clauses from memory)
     */
    public OptionalDouble repeatability() {
        List<List<Density>> repeats = repeats();
        return Repeatability.freedom(repeats) == 0
                ? OptionalDouble.empty()
                : OptionalDouble.of(Repeatability.pooledDeviation(repeats));
    }

    /**
     * Returns what a person should look at before the frames are used: patches of a negative that become thinner from one
     * frame to the next of more exposure, with the two frames that seem swapped, patches thinner than base plus fog, and a
     * patch that rises by more than 0.36 per stop over half a stop or more, as it does if logarithms are entered as stops.
     * Differences of density up to 0.05 count as noise; common practice, no source.
     *
     * @return the doubts in words, which may change; empty if there are none
     */
    public List<String> doubts() {
        return FrameOrder.doubts(this);
    }

    /** The readings of each patch and of base plus fog. */
    List<List<Density>> repeats() {
        return Stream.concat(
                        Stream.of(basePlusFogReadings),
                        frames.stream()
                                .flatMap(frame -> frame.readings().stream().map(PatchReading::readings)))
                .toList();
    }

    /**
     * Returns the series by name, for messages.
     *
     * @return for example {@code bracket on film 'Harbour 100'}
     */
    @Override
    public String toString() {
        return "bracket on film '" + film + "'";
    }

    /**
     * Compares by value.
     *
     * @param other any object
     * @return true if the other is equal in all that it was made of
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof Bracket that
                && Objects.equals(film, that.film)
                && Objects.equals(basePlusFogReadings, that.basePlusFogReadings)
                && Objects.equals(frames, that.frames)
                && densityResponse == that.densityResponse
                && Objects.equals(densityGeometry, that.densityGeometry)
                && otherBasePlusFog.equals(that.otherBasePlusFog);
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(film, basePlusFogReadings, frames);
    }
}
