// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import org.tonewedge.core.quantity.DensityGeometry;
import org.tonewedge.core.quantity.SpectralResponse;
import org.tonewedge.core.quantity.Temperature;

/** What tables and grids say of a strip beside its readings: the word, and the text that is read back to the same. */
enum StripField {
    FILM(StripAssembly.FILM, true, strip -> Optional.of(strip.film())),
    DEVELOPER(StripAssembly.DEVELOPER, true, strip -> strip.processing().developer()),
    MINUTES(
            StripAssembly.MINUTES,
            true,
            strip -> strip.processing().time().map(Processing::minutes).map(String::valueOf)),
    CELSIUS(
            StripAssembly.CELSIUS,
            true,
            strip -> strip.processing().temperature().map(Temperature::celsius).map(String::valueOf)),
    BOX_SPEED(
            StripAssembly.BOX_SPEED,
            true,
            strip -> strip.boxSpeed().isPresent()
                    ? Optional.of(String.valueOf(strip.boxSpeed().getAsDouble()))
                    : Optional.empty()),
    ILLUMINANT(StripAssembly.ILLUMINANT, false, strip -> strip.testConditions().illuminant()),
    EXPOSURE_SECONDS(
            StripAssembly.EXPOSURE_SECONDS,
            false,
            strip -> strip.testConditions()
                    .exposureTime()
                    .map(TestConditions::seconds)
                    .map(String::valueOf)),
    HOLD_MINUTES(
            StripAssembly.HOLD_MINUTES,
            false,
            strip -> strip.testConditions().hold().map(TestConditions::minutes).map(String::valueOf)),
    STORAGE(StripAssembly.STORAGE, false, strip -> strip.testConditions().storage()),
    DENSITY_RESPONSE(
            StripAssembly.DENSITY_RESPONSE,
            false,
            strip -> strip.densityResponse().map(SpectralResponse::description)),
    DENSITY_GEOMETRY(
            StripAssembly.DENSITY_GEOMETRY,
            false,
            strip -> strip.densityGeometry().map(DensityGeometry::description));

    private final String word;
    private final boolean always;

    @SuppressWarnings("ImmutableEnumChecker") // functions without state
    private final Function<Strip, Optional<String>> text;

    StripField(String word, boolean always, Function<Strip, Optional<String>> text) {
        this.word = word;
        this.always = always;
        this.text = text;
    }

    /** The fields that are written for strips: what few state only where a strip does. */
    static List<StripField> of(List<Strip> strips) {
        return Arrays.stream(values())
                .filter(field -> field.always
                        || strips.stream().anyMatch(strip -> !field.of(strip).isEmpty()))
                .toList();
    }

    boolean isNumber() {
        return StripAssembly.DESCRIPTIONS.indexOf(word) >= StripAssembly.LABELS;
    }

    String word() {
        return word;
    }

    /** The text; empty where the strip does not state it. */
    String of(Strip strip) {
        return text.apply(strip).orElse("");
    }
}
