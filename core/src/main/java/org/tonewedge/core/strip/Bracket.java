// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Objects;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.stream.Stream;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.ExposureAxis;
import org.tonewedge.core.quantity.LogExposure;

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

    private Bracket(String film, List<Density> basePlusFogReadings, List<Frame> frames) {
        this.film = film;
        this.basePlusFogReadings = basePlusFogReadings;
        this.frames = frames;
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
                frames.stream().sorted(Comparator.comparing(Frame::exposure)).toList());
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
        return strip;
    }

    /**
     * Returns the repeatability of the readings, pooled over all repeat readings.
     *
     * @return the experimental standard deviation of a single reading, or empty if no reading was repeated
     * @source pooled experimental variance: JCGM 100:2008, 4.2.4
     */
    public OptionalDouble repeatability() {
        List<List<Density>> repeats = Stream.concat(
                        Stream.of(basePlusFogReadings),
                        frames.stream()
                                .flatMap(frame -> frame.readings().stream().map(PatchReading::readings)))
                .toList();
        int degrees = repeats.stream().mapToInt(readings -> readings.size() - 1).sum();
        if (degrees == 0) {
            return OptionalDouble.empty();
        }
        double squares =
                repeats.stream().mapToDouble(ExposedStep::squaresAboutMean).sum();
        return OptionalDouble.of(Math.sqrt(squares / degrees));
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
                && Objects.equals(frames, that.frames);
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
