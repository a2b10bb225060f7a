// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.methods;

import java.io.IOException;
import java.util.Arrays;
import java.util.Locale;

/** A question, with the table that answers it. */
enum MethodQuestion {
    /** How much more exposure a filter needs. */
    FILTER_FACTOR(
            "Filter factors",
            "a readings table: the strip without a filter (--reference, default the first), then one for each filter",
            Answers::filterFactor,
            "--reference --density --uncertainty"),
    /** Which colours a film renders lighter than their complementary ones. */
    COLOUR_PAIRS(
            "Complementary colours",
            "a table of frames with patches, with --frame and --reference",
            Answers::colourPairs,
            "--reference --frame --uncertainty"),
    /** What a film is sensitive to. */
    SPECTROGRAM(
            "Spectral sensitivity by a wedge spectrogram",
            "columns wavelength (nm), wedge_density, u, and relative_energy if the source is known",
            Answers::spectrogram,
            ""),
    /** How much denser the enlarger sees a negative. */
    CALLIER(
            "Callier's factor",
            "columns place, diffuse, specular; the place base is base plus fog",
            Answers::callier,
            "--density"),
    /** What paper sees of a tinted base. */
    PRINTING_CHANNEL(
            "Base plus fog as paper sees it",
            "columns film, response (visual, type_2, status_m_blue …), density; --reference for the print exposure",
            Answers::printingChannel,
            "--reference"),
    /** How long exposures fail. */
    RECIPROCITY(
            "Reciprocity",
            "columns seconds, log_exposure (that gives one density), u (0 where not known)",
            Answers::reciprocity,
            ""),
    /** How much flare the camera adds. */
    CAMERA_FLARE(
            "Flare of a camera",
            "columns density (of the steps of the tablet photographed), log_exposure (by the film's curve), u",
            Answers::cameraFlare,
            ""),
    /** What to set one's own meter to. */
    PERSONAL_INDEX(
            "Personal exposure index",
            "columns film, exposure_index, net_density (of the shadow frame), u; box_speed if wanted",
            Answers::personalIndex,
            ""),
    /** Whether the development is in control. */
    PROCESS_CONTROL(
            "Control of a development process",
            "columns run, base_plus_fog, speed_point, high_step; the first row is the reference strip",
            Answers::processControl,
            "--baseline"),
    /** What a scanner tells apart. */
    SCANNED_RANGE(
            "Range of a scanned negative",
            "a readings table, with --noise A,B for a noise of A + B x density, and --reference (default the first)",
            Answers::scannedRange,
            "--reference --noise");

    private final String title;
    private final String table;

    /** The options that the question has a use for, with blanks between. */
    private final String options;

    @SuppressWarnings("ImmutableEnumChecker") // a method without state
    private final Answering answering;

    /** Answers from the input. */
    private interface Answering {

        void answer(MethodInput input, MethodAnswer answer) throws IOException;
    }

    MethodQuestion(String title, String table, Answering answering, String options) {
        this.title = title;
        this.table = table;
        this.answering = answering;
        this.options = options;
    }

    String title() {
        return title;
    }

    /** What the input is. */
    String table() {
        return table;
    }

    /** Refuses an option that would change nothing. */
    void requireUseOf(String option) {
        if (!Arrays.asList(options.split(" ", -1)).contains(option)) {
            throw new IllegalArgumentException(word() + " has no use for " + option
                    + (options.isEmpty() ? "" : "; it takes " + options.replace(" ", ", ")) + ": leave it out");
        }
    }

    /** The name on the command line and of the files. */
    String word() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    MethodAnswer answer(MethodInput input) throws IOException {
        MethodAnswer answer = new MethodAnswer();
        answering.answer(input, answer);
        return answer;
    }
}
