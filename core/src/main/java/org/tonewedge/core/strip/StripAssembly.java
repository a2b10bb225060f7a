// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.quantity.CameraSetting;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.DensityGeometry;
import org.tonewedge.core.quantity.ExposureAxis;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.quantity.SpectralResponse;
import org.tonewedge.core.quantity.Temperature;
import org.tonewedge.core.strip.UnusableInputException.Fault;

/** What a table states about one strip, collected in any order; every value keeps its place. */
final class StripAssembly {

    static final String FILM = "film";
    static final String DEVELOPER = "developer";
    static final String ILLUMINANT = "illuminant";
    static final String STORAGE = "storage";
    static final String DENSITY_RESPONSE = "density_response";
    static final String DENSITY_GEOMETRY = "density_geometry";
    static final String CORRECT_THE_NAME = "correct the name, or leave the field empty";
    static final String EXPOSURE_SECONDS = "exposure_seconds";
    static final String HOLD_MINUTES = "hold_minutes";
    static final String MINUTES = "minutes";
    static final String CELSIUS = "celsius";
    static final String BOX_SPEED = "box_speed";
    static final String EXPOSURE = "exposure";
    static final String LUX = "lux";
    static final String SECONDS = "seconds";
    static final String F_NUMBER = "f_number";
    static final String LUMINANCE = "luminance";
    static final String FLARE = "flare";
    static final String EXPOSURE_UNCERTAINTY = "exposure_uncertainty";
    static final String READ_FROM = "read_from";

    /** The columns that describe a strip, not a reading; a strip states each in one way. */
    static final List<String> DESCRIPTIONS = List.of(
            FILM,
            DEVELOPER,
            ILLUMINANT,
            STORAGE,
            DENSITY_RESPONSE,
            DENSITY_GEOMETRY,
            EXPOSURE_SECONDS,
            HOLD_MINUTES,
            MINUTES,
            CELSIUS,
            BOX_SPEED,
            EXPOSURE,
            LUX,
            SECONDS,
            F_NUMBER,
            LUMINANCE,
            FLARE,
            EXPOSURE_UNCERTAINTY,
            READ_FROM);

    private static final Map<String, Integer> INDICES = indices();

    /** The number of descriptions that are labels; the others are numbers, except {@link #READ_FROM}. */
    static final int LABELS = 6;

    private static final double MOST_LUX = 1e9;
    private static final double MOST_SECONDS = 1e6;
    private static final double MOST_MINUTES = 1e8;

    /** The place of a value: its row, the index of its column, and the column's name in messages. */
    record Place(long row, int column, String name) {}

    /** A description as stated. */
    private record Stated(String text, Place place) {}

    private record StepReading(String step, Place place, Density density) {}

    private final ReadingsReader reader;
    private final RowSource source;
    private final ExposureScale scale;
    private final String id;
    private final Strip.Builder builder;
    /** By the index of each; empty until something is stated. */
    private Stated[] descriptions = {};

    private final List<StepReading> steps = new ArrayList<>();
    private Processing processing = Processing.unknown();
    private TestConditions conditions = TestConditions.notStated();

    private static Map<String, Integer> indices() {
        Map<String, Integer> indices = new HashMap<>();
        for (int i = 0; i < DESCRIPTIONS.size(); i++) {
            indices.put(DESCRIPTIONS.get(i), i);
        }
        return indices;
    }

    StripAssembly(ReadingsReader reader, RowSource source, ExposureScale scale, String id, Place place) {
        this.reader = reader;
        this.source = source;
        this.scale = scale;
        this.id = id;
        try {
            builder = Strip.builder(id);
        } catch (IllegalArgumentException e) {
            throw fault(Fault.OUT_OF_RANGE, place, id, e.getMessage(), "type the label again");
        }
    }

    Strip.Builder builder() {
        return builder;
    }

    /** Whether a description already has this text, or none is given. */
    boolean isDescribed(int what, String text) {
        Stated before = stated(what);
        return text.isEmpty() || (before != null && before.text.equals(text));
    }

    /** States a description, by its index in {@link #DESCRIPTIONS}. */
    void describe(int what, String text, Place place) {
        Stated before = stated(what);
        if (before != null && !isSame(what, text, before.text)) {
            throw fault(
                    Fault.CONTRADICTION,
                    place,
                    text,
                    "strip '" + Checks.shortened(id) + "' has \"" + Checks.shortened(text) + "\" here but \""
                            + Checks.shortened(before.text) + "\" in "
                            + source.place(before.place.row, before.place.column),
                    "make them agree, or give the second piece of film its own identifier");
        }
        if (before == null) {
            if (descriptions.length == 0) {
                descriptions = new Stated[DESCRIPTIONS.size()];
            }
            descriptions[what] = new Stated(text, place);
        }
    }

    private boolean isSame(int what, String one, String other) {
        try {
            return one.equals(other) || meaning(what, one).equals(meaning(what, other));
        } catch (IllegalArgumentException e) {
            return false; // told with its place when the strip is built, or as a contradiction
        }
    }

    /** What a text means: a name may be written in capitals or not, a number in several ways. */
    private Object meaning(int what, String text) {
        String word = DESCRIPTIONS.get(what);
        return switch (word) {
            case DENSITY_RESPONSE -> SpectralResponse.of(text);
            case DENSITY_GEOMETRY -> DensityGeometry.of(text);
            default -> what < LABELS ? text : (Object) number(word, text);
        };
    }

    /** The value of a description: a speed may be 100 or 100/21°, a time 8.5 or 8:30. */
    private double number(String what, String text) {
        char mark = source.decimalMark();
        return switch (what) {
            case MINUTES -> Numerals.minutes(text, mark);
            case SECONDS, EXPOSURE_SECONDS -> Numerals.seconds(text, mark);
            case BOX_SPEED -> Numerals.speed(text, mark);
            default -> Numerals.number(text, mark);
        };
    }

    /** Adds a reading of a step of the tablet, or of a frame of a bracket. */
    void step(String step, Place place, Density density) {
        steps.add(new StepReading(step, place, density));
    }

    /** How many readings of exposed steps were added. */
    int exposedReadings() {
        return scale.isIndirect() ? steps.size() : builder.readings();
    }

    boolean statesExposure() {
        return stated(EXPOSURE) != null || stated(LUX) != null || stated(F_NUMBER) != null;
    }

    /** Builds the strip; steps are placed by the exposure that the strip states, or on the relative axis. */
    Strip build(ExposureAxis relative, String origin, Place last) {
        describeBuilder();
        builder.origin(origin);
        if (scale.isIndirect()) {
            placeSteps(relative, last);
        }
        try {
            return builder.build();
        } catch (IllegalArgumentException e) {
            throw fault(
                    Fault.MISSING,
                    last,
                    "",
                    e.getMessage(),
                    "enter the exposure of each step; leave it empty for base plus fog only");
        }
    }

    private void describeBuilder() {
        for (int i = 0; i < descriptions.length; i++) {
            Stated stated = descriptions[i];
            if (stated != null) {
                String what = DESCRIPTIONS.get(i);
                // take() needs a function, which costs a fresh process about a millisecond
                try {
                    describeBuilder(what, stated.text);
                } catch (IllegalArgumentException e) {
                    throw fault(what, stated, e);
                }
            }
        }
        builder.processing(processing);
        builder.testConditions(conditions);
        if (reader.correction().isPresent()) {
            reader.correction().get().commonErrors().forEach(builder::densityError);
        }
    }

    private void describeBuilder(String what, String text) {
        switch (what) {
            case FILM -> builder.film(text);
            case DEVELOPER -> processing = processing.withDeveloper(text);
            case ILLUMINANT -> conditions = conditions.withIlluminant(text);
            case STORAGE -> conditions = conditions.withStorage(text);
            case DENSITY_RESPONSE -> builder.densityResponse(SpectralResponse.of(text));
            case DENSITY_GEOMETRY -> builder.densityGeometry(DensityGeometry.of(text));
            case EXPOSURE_SECONDS -> exposureTime(what, text);
            case SECONDS -> {
                // Where the exposure is given by its seconds, they are the exposure time.
                if (stated(EXPOSURE_SECONDS) == null) {
                    exposureTime(what, text);
                }
            }
            case HOLD_MINUTES ->
                conditions = conditions.withHold(Duration.ofMillis(
                        Math.round(60_000 * Checks.within(what, number(what, text), 0, MOST_MINUTES, ""))));
            case MINUTES -> processing = processing.withMinutes(number(what, text));
            case CELSIUS -> processing = processing.withTemperature(Temperature.ofCelsius(number(what, text)));
            case BOX_SPEED -> builder.boxSpeed(number(what, text));
            case EXPOSURE_UNCERTAINTY ->
                builder.exposureError(
                        "exposure of strip '" + id + "'",
                        Checks.within("uncertainty of exposure", number(what, text), 0, 1, ""));
            default -> {
                // a part of the exposure of all steps
            }
        }
    }

    private void exposureTime(String what, String text) {
        conditions = conditions.withExposureTime(Duration.ofNanos(Math.round(
                1e9 * Checks.within(what, Checks.positive(what, number(what, text)), 0, MOST_SECONDS, ""))));
    }

    private void placeSteps(ExposureAxis relative, Place last) {
        LogExposure zero = statesExposure() ? statedExposure() : new LogExposure(0, relative);
        if (scale == ExposureScale.STEP && reader.tablet().isEmpty()) {
            throw fault(
                    Fault.MISSING,
                    steps.isEmpty() ? last : steps.get(0).place,
                    "",
                    "the table gives step numbers but no tablet is stated",
                    "state the tablet: its certificate, or its nominal densities");
        }
        for (StepReading reading : steps) {
            try {
                builder.reading(exposure(zero, reading), reading.density);
            } catch (Numerals.NotANumber e) {
                throw fault(Fault.BAD_NUMBER, reading.place, reading.step, e.getMessage(), e.remedy());
            } catch (IllegalArgumentException e) {
                throw fault(Fault.OUT_OF_RANGE, reading.place, reading.step, e.getMessage(), "correct the step");
            }
        }
        if (scale == ExposureScale.STEP) {
            StepTablet tablet = reader.tablet().orElseThrow();
            for (StepTablet.Step step : tablet.steps()) {
                if (step.standardUncertainty() > 0) {
                    builder.exposureError(
                            "step " + step.number() + " of tablet " + tablet.name(),
                            behind(zero, step),
                            step.standardUncertainty());
                }
            }
        }
    }

    private LogExposure exposure(LogExposure zero, StepReading reading) {
        if (scale == ExposureScale.STOPS) {
            return zero.plus(ExposureInterval.ofStops(Numerals.stops(reading.step, source.decimalMark())));
        }
        List<StepTablet.Step> known = reader.tablet().orElseThrow().steps();
        double number = Numerals.number(reading.step, source.decimalMark());
        if (!(number >= 1 && number <= known.size() && number == Math.rint(number))) {
            throw new IllegalArgumentException("step must be a whole number from 1 to " + known.size()
                    + ", the steps of " + reader.tablet().orElseThrow() + ", was " + Checks.shortened(reading.step));
        }
        int index = (int) number - 1;
        return behind(zero, known.get(readFromDenseEnd() ? known.size() - 1 - index : index));
    }

    private static LogExposure behind(LogExposure zero, StepTablet.Step step) {
        return zero.minus(ExposureInterval.ofLogUnits(step.density().value()));
    }

    private boolean readFromDenseEnd() {
        Stated from = stated(READ_FROM);
        if (from == null || from.text.equalsIgnoreCase("clear")) {
            return false;
        }
        if (!from.text.equalsIgnoreCase("dense")) {
            throw fault(
                    Fault.UNKNOWN_NAME,
                    from.place,
                    from.text,
                    '"' + Checks.shortened(from.text) + "\" is not an end of a tablet",
                    "enter clear where step 1 is the clear end, dense where it is the dense end");
        }
        return true;
    }

    /** The exposure without the tablet, or of the frame at 0 stops. */
    private LogExposure statedExposure() {
        Stated camera = stated(F_NUMBER);
        Stated lux = stated(LUX);
        Stated log = stated(EXPOSURE);
        if ((camera == null ? 0 : 1) + (lux == null ? 0 : 1) + (log == null ? 0 : 1) > 1) {
            Stated second = camera == null ? lux : camera;
            throw fault(
                    Fault.CONTRADICTION,
                    second.place,
                    second.text,
                    "the exposure of strip '" + Checks.shortened(id) + "' is stated in two ways",
                    "keep one: exposure (log H), lux and seconds, or f_number, seconds and luminance");
        }
        LogExposure[] exposure = new LogExposure[1];
        if (log != null) {
            take(EXPOSURE, (what, text) -> exposure[0] = LogExposure.ofLogLuxSeconds(number(what, text)));
        } else if (lux != null) {
            double seconds = number(SECONDS, lux, MOST_SECONDS);
            double illuminance = number(LUX, lux, MOST_LUX);
            exposure[0] = LogExposure.ofLuxSeconds(illuminance * seconds);
        } else {
            double seconds = number(SECONDS, camera, MOST_SECONDS);
            double luminance = number(LUMINANCE, camera, MOST_LUX);
            double fNumber = number(F_NUMBER, camera, 1000);
            exposure[0] = reader.cameraExposure()
                    .orElseThrow(() -> fault(
                            Fault.MISSING,
                            camera.place,
                            camera.text,
                            "this program does not compute exposures from camera settings",
                            "enter the log exposure at the film"))
                    .exposure(CameraSetting.of(fNumber, Duration.ofNanos(Math.round(seconds * 1e9))), luminance);
        }
        Stated flare = stated(FLARE);
        if (flare != null) {
            take(
                    FLARE,
                    (what, text) -> exposure[0] = exposure[0].plus(ExposureInterval.ofLogUnits(Math.log10(
                            1 + Checks.within("flare as a fraction of the exposure", number(what, text), 0, 1, "")))));
        }
        return exposure[0];
    }

    private double number(String what, Stated owner, double most) {
        if (stated(what) == null) {
            throw fault(
                    Fault.MISSING,
                    owner.place,
                    owner.text,
                    "strip '" + Checks.shortened(id) + "' states " + owner.place.name + " without " + what,
                    "state both");
        }
        double[] number = new double[1];
        take(
                what,
                (name, text) ->
                        number[0] = Checks.within(name, Checks.positive(name, number(name, text)), 0, most, ""));
        return number[0];
    }

    private Stated stated(String what) {
        return stated(INDICES.get(what));
    }

    private Stated stated(int what) {
        return descriptions.length == 0 ? null : descriptions[what];
    }

    private interface Taker {
        void take(String what, String text);
    }

    /** Passes on a description, if it is stated; what is refused is told with its place. */
    private void take(String what, Taker taker) {
        Stated stated = stated(what);
        if (stated != null) {
            try {
                taker.take(what, stated.text);
            } catch (IllegalArgumentException e) {
                throw fault(what, stated, e);
            }
        }
    }

    /** What is refused of a description, with its place. */
    private ReadingsException fault(String what, Stated stated, IllegalArgumentException refusal) {
        if (refusal instanceof Numerals.NotANumber notANumber) {
            return fault(Fault.BAD_NUMBER, stated.place, stated.text, notANumber.getMessage(), notANumber.remedy());
        }
        boolean isName = what.equals(DENSITY_RESPONSE) || what.equals(DENSITY_GEOMETRY);
        return fault(
                isName ? Fault.UNKNOWN_NAME : Fault.OUT_OF_RANGE,
                stated.place,
                stated.text,
                refusal.getMessage(),
                isName
                        ? CORRECT_THE_NAME
                        : INDICES.get(what) < LABELS
                                ? "type the label again"
                                : "correct the value or leave out the row");
    }

    ReadingsException fault(Fault kind, Place place, String value, String fault, String remedy) {
        return new ReadingsException(
                kind,
                source.name(),
                place.row,
                source.place(place.row, place.column),
                place.name,
                value,
                fault,
                remedy);
    }
}
