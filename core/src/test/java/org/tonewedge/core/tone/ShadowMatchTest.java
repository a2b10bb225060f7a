// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.tone;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.tonewedge.core.tone.Brackets.curve;
import static org.tonewedge.core.tone.Brackets.line;
import static org.tonewedge.core.tone.Brackets.shadows;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.tonewedge.core.curve.AmbiguousDensityException;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.FigureEstimator;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.curve.OutsideMeasuredRangeException;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.DensityDifference;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.ResultRecord;
import org.tonewedge.core.strip.Bracket;
import org.tonewedge.core.strip.Frame;
import org.tonewedge.core.strip.Repeatability;

class ShadowMatchTest {

    /** Seven frames a third of a stop apart on a straight line of 0.06 density per stop, 0.30 at the metered exposure. */
    private final Bracket bracket = shadows("Quay", 0.22, 7, 1 / 3.0, stops -> 0.30 + 0.06 * stops);

    @Test
    void choosesTheNearestFrameAndReadsTheExactExposure() {
        // 0.335 lies 0.035 above the metered frame: 0.035 / 0.06 = 0.5833 stop; the nearest frame is +2/3 with 0.34.
        ShadowMatch match = ShadowMatch.of(bracket, "shadow", DensityDifference.of(0.335));

        assertEquals("f5", match.frame().label());
        assertEquals(0.005, match.residual().value(), 1e-12);
        assertEquals(ShadowMatch.Verdict.ENCLOSED, match.verdict());
        assertEquals(0.035 / 0.06, match.interval().stops(), 1e-9);
        assertEquals("frame 'f5' at +2/3 stop, ΔD +0.005 from the reference", match.toString());
    }

    @Test
    void countsFromTheReferenceFrameAndAboveEachBasePlusFog() {
        Bracket reference = shadows("Moor", 0.40, 3, 1, stops -> 0.33 + 0.05 * stops);

        ShadowMatch match = ShadowMatch.of(bracket, "shadow", reference, "f2");

        // The reference at +1 stop has 0.38: this film needs (0.38 − 0.30) / 0.06 = 1.3333 stop, a third more.
        assertEquals(0.38, match.target().value(), 1e-12);
        assertEquals(4 / 3.0, match.frame().exposure().stops() + 1 / 3.0, 1e-9);
        assertThrows(OutsideMeasuredRangeException.class, match::interval);
        assertEquals(ShadowMatch.Verdict.MORE_EXPOSURE_NEEDED, match.verdict());
        assertEquals(
                1 / 3.0,
                match.along(line(0.22, 0.06 / Math.log10(2), 0, 0, 20 * Math.log10(2)))
                        .interval()
                        .stops(),
                1e-9);
    }

    @Test
    void tellsWhichWayToExtendABracketThatDoesNotReach() {
        ShadowMatch dense = ShadowMatch.of(bracket, "shadow", DensityDifference.of(0.10));

        assertEquals(ShadowMatch.Verdict.LESS_EXPOSURE_NEEDED, dense.verdict());
        assertEquals("f0", dense.frame().label());
        assertEquals(0.14, dense.residual().value(), 1e-12);
        String message = assertThrows(OutsideMeasuredRangeException.class, dense::exactExposure)
                .getMessage();
        assertTrue(message.contains("film 'Quay'") && message.contains("'f0'"), message);
        assertTrue(message.contains("frames with less exposure"), message);
    }

    @Test
    void givesTheUncertaintyOfTheInterval() {
        ShadowMatch match = ShadowMatch.of(bracket, "shadow", DensityDifference.of(0.335));

        // Shadow and base plus fog were read once each: u(D) = 0.01 √2; 0.06 density per stop.
        Estimate stops = match.stops(Repeatability.of(0.01));
        assertEquals(0.035 / 0.06, stops.value(), 1e-9);
        assertEquals(0.01 * Math.sqrt(2) / 0.06, stops.standardUncertainty(), 1e-9);

        // Against a reference frame both of its readings enter too.
        Estimate against = ShadowMatch.of(bracket, "shadow", bracket, "f4").stops(Repeatability.of(0.01));
        assertEquals(0.01 * Math.sqrt(4) / 0.06, against.standardUncertainty(), 1e-9);
    }

    /** The curve D = 0.22 + 0.1 x², of gradient 0.2 x: the frame lies at x = 1, the density wanted at x = 3. */
    @Test
    void countsAFrameInTheToeByTheGradientThere() {
        CharacteristicCurve film = curve(x -> 0.22 + 0.1 * x * x, x -> 0.2 * x, 0.22, 0.1, 4);
        Bracket thin = shadows("Quay", 0.22, 1, 1, stops -> 0.1);
        Bracket reference = shadows("Moor", 0.40, 1, 1, stops -> 0.9);

        Estimate stops =
                ShadowMatch.of(thin, "shadow", reference, "f0").along(film).stops(Repeatability.of(0.01));

        assertEquals(2 / Math.log10(2), stops.value(), 1e-9);
        double ofFrame = 0.01 * Math.sqrt(2) / 0.2;
        double ofWanted = 0.01 * Math.sqrt(2) / 0.6;
        assertEquals(Math.hypot(ofFrame, ofWanted) / Math.log10(2), stops.standardUncertainty(), 1e-9);
    }

    /** Along a line of gradient g the way from the frame to the wanted density is ΔD/g, so an error of g gives ΔD u(g)/g². */
    @Test
    void countsTheErrorOfTheCurve() {
        double gradient = 0.6;
        FigureEstimator ofCurve = figure -> Estimate.of(
                figure.applyAsDouble(line(0.22, gradient, 0, 0, 6)),
                Math.abs(figure.applyAsDouble(line(0.22, gradient + 1e-6, 0, 0, 6))
                                - figure.applyAsDouble(line(0.22, gradient - 1e-6, 0, 0, 6)))
                        / 2e-6
                        * 0.03);
        ShadowMatch match = ShadowMatch.of(
                shadows("Quay", 0.22, 1, 1, stops -> 0.1), "shadow", shadows("Moor", 0.40, 1, 1, stops -> 0.7), "f0");
        Repeatability repeatability = Repeatability.of(0.01);

        Estimate stops = match.along(line(0.22, gradient, 0, 0, 6), ofCurve).stops(repeatability);

        double exact =
                match.along(line(0.22, gradient, 0, 0, 6)).stops(repeatability).standardUncertainty();
        double fromCurve = 0.6 * 0.03 / (gradient * gradient) / Math.log10(2);
        assertEquals(Math.hypot(exact, fromCurve), stops.standardUncertainty(), 1e-6);
    }

    /**
     * D = 0.22 + 0.1 (s + 2)² over stops s, wanted at s = 0. The mean slope of a stop on either side is that in the
     * middle, 0.4 a stop; the outer frames lie at the ends.
     */
    @Test
    void takesTheGradientFromFramesOnBothSides() {
        Bracket frames = shadows("Quay", 0.22, 7, 1 / 3.0, stops -> 0.1 * (stops + 2) * (stops + 2));

        Estimate stops =
                ShadowMatch.of(frames, "shadow", DensityDifference.of(0.4)).stops(Repeatability.of(0.01));

        assertEquals(0, stops.value(), 1e-9);
        assertEquals(0.01 * Math.sqrt(2) / 0.4, stops.standardUncertainty(), 1e-9);
    }

    /** The reference was read once: u(D) = 0.01 √2 = 0.0141, so that 0.071 is thick enough and 0.070 is not. */
    @Test
    void aShadowThatIsHardlyDenserThanTheBaseGivesNoInterval() {
        Bracket frames = Brackets.readTimes(shadows("Quay", 0.22, 7, 1 / 3.0, stops -> 0.10 + 0.05 * stops), 4);
        Repeatability repeatability = Repeatability.of(0.01);
        ShadowMatch thick = ShadowMatch.of(frames, "shadow", shadows("Moor", 0.40, 1, 1, stops -> 0.071), "f0");
        assertEquals(
                0.01 * Math.sqrt(2 + 2 / 4.0) / 0.05, thick.stops(repeatability).standardUncertainty(), 1e-9);

        ShadowMatch thin = ShadowMatch.of(frames, "shadow", shadows("Moor", 0.40, 1, 1, stops -> 0.070), "f0");

        NotDeterminableException e = assertThrows(NotDeterminableException.class, () -> thin.stops(repeatability));
        assertEquals(NotDeterminableException.Reason.UNCERTAINTY_UNKNOWN, e.reason());
        assertTrue(e.getMessage().contains("the shadow wanted is 0.070 ± 0.014 above base plus fog"), e.getMessage());
        assertEquals(-0.6, thin.interval().stops(), 1e-9);
    }

    @Test
    void theRecordsSayThatAShadowIsTooThin() {
        Bracket frames = Bracket.of(
                "Quay",
                List.of(Density.of(0.20), Density.of(0.24)),
                shadows("Quay", 0.22, 7, 1 / 3.0, stops -> 0.10 + 0.05 * stops).frames());
        ShadowMatch match = ShadowMatch.of(frames, "shadow", DensityDifference.of(0.10));
        String reason = assertThrows(NotDeterminableException.class, () -> match.stops(Repeatability.fromRepeats()))
                .getMessage();

        assertTrue(reason.contains("the shadow of frame 'f3' is 0.100 ± 0.035 above base plus fog, too thin"), reason);
        assertEquals(ResultRecord.ofMissing("interval", "stops", reason), record(match, "interval"));
    }

    @Test
    void refusesToInterpolateOnOneFrame() {
        Bracket single = shadows("Quay", 0.22, 1, 1, stops -> 0.30);
        ShadowMatch match = ShadowMatch.of(single, "shadow", DensityDifference.of(0.30));

        assertEquals(0, match.residual().value(), 1e-12);
        assertThrows(NotDeterminableException.class, match::exactExposure);
    }

    @Test
    void refusesShadowsThatTurnBack() {
        Bracket turning = shadows("Quay", 0.22, 5, 1, stops -> 0.30 - 0.02 * stops * stops);

        assertThrows(
                AmbiguousDensityException.class,
                ShadowMatch.of(turning, "shadow", DensityDifference.of(0.25))::exactExposure);
    }

    /** The exposures of two frames are exchanged; the wanted density is then reached three times. */
    @Test
    void twoSwappedFramesAreNamed() {
        Bracket right = shadows("Quay", 0.22, 5, 1, stops -> 0.4 + 0.2 * stops);
        List<Frame> frames = new ArrayList<>(right.frames());
        Frame second = frames.get(1);
        Frame third = frames.get(2);
        frames.set(1, new Frame(second.label(), third.exposure(), second.readings()));
        frames.set(2, new Frame(third.label(), second.exposure(), third.readings()));
        Bracket swapped = Bracket.of("Quay", right.basePlusFogReadings(), frames);
        assertEquals(List.of(), right.doubts());
        String doubt = "bracket on film 'Quay': patch 'shadow' is thinner on frame '" + second.label()
                + "' than on frame '" + third.label() + "', which had less exposure; with frames '" + third.label()
                + "' and '" + second.label() + "' exchanged, no density falls: are they swapped?";
        assertEquals(List.of(doubt), swapped.doubts());
        AmbiguousDensityException e = assertThrows(
                AmbiguousDensityException.class,
                ShadowMatch.of(swapped, "shadow", DensityDifference.of(0.25))::exactExposure);
        assertEquals(doubt, e.getMessage());
    }

    /** A frame taken twice: exchanged with itself it cures nothing, and both stand beside the frames around them. */
    @Test
    void framesOfOneExposureAreNoSwap() {
        Bracket right = shadows("Quay", 0.22, 5, 1, stops -> 0.4 + 0.2 * stops);
        List<Frame> frames = new ArrayList<>(right.frames());
        Frame third = frames.get(2);
        Frame last = frames.get(4);
        frames.add(new Frame("again", third.exposure(), third.readings()));
        assertEquals(
                List.of(),
                Bracket.of("Quay", right.basePlusFogReadings(), frames).doubts());
        // One of the twins was read in place of the last frame, and the last in its place.
        frames.set(4, new Frame(last.label(), last.exposure(), third.readings()));
        frames.set(5, new Frame("again", third.exposure(), last.readings()));
        List<String> doubts =
                Bracket.of("Quay", right.basePlusFogReadings(), frames).doubts();
        assertEquals(1, doubts.size());
        assertTrue(
                doubts.get(0)
                        .endsWith("; with frames 'again' and '" + last.label()
                                + "' exchanged, no density falls: are they swapped?"),
                doubts::toString);
    }

    /** One spoiled frame is no swap: no exchange of two frames lets all densities rise. */
    @Test
    void aSpoiledFrameIsNotToldAsASwap() {
        Bracket spoiled = shadows("Quay", 0.22, 5, 1, stops -> 0.4 + 0.1 * stops + (stops == 0 ? 0.35 : 0));
        assertEquals(1, spoiled.doubts().size());
        assertTrue(spoiled.doubts().get(0).endsWith("; look for swapped frames, dust or a finger mark"));
    }

    /** Frames a stop apart, entered as 0.3: film of a gradient of 0.6 rises by 0.18 per stop, which is 0.6 per 0.3. */
    @Test
    void logarithmsInPlaceOfStopsAreTold() {
        Bracket logarithms = shadows("Quay", 0.22, 5, 0.3, entered -> 0.6 + 0.6 * entered);
        assertEquals(1, logarithms.doubts().size());
        assertTrue(
                logarithms
                        .doubts()
                        .get(0)
                        .endsWith("' rises by 0.60 per stop from frame '"
                                + logarithms.frames().get(0).label() + "' to frame '"
                                + logarithms.frames().get(4).label()
                                + "', as on very steep film alone; are the stops logarithms? Divide them by 0.301"),
                logarithms.doubts()::toString);
        assertEquals(
                List.of(),
                shadows("Quay", 0.22, 5, 1, stops -> 0.8 + 0.35 * stops - 0.1).doubts());
    }

    @Test
    void framesThinnerThanTheBaseAskForTheBase() {
        Bracket other = Bracket.of(
                "Quay",
                List.of(Density.of(1.3)),
                shadows("Quay", 0.22, 5, 1, stops -> 0.4 + 0.1 * stops).frames());
        assertEquals(
                List.of(
                        "bracket on film 'Quay': base plus fog, D 1.30, is denser than 5 readings on 5 frames, frame '"
                                + other.frames().get(0).label()
                                + "' the first, down to D 0.42; was it read on another film? Read an unexposed part of this one"),
                other.doubts());
        ShadowMatch match = ShadowMatch.of(other, "shadow", DensityDifference.of(0.25));
        String message = assertThrows(OutsideMeasuredRangeException.class, match::exactExposure)
                .getMessage();
        assertTrue(message.contains("thinner than base plus fog, D 1.30, which was perhaps read on another"), message);
        assertFalse(message.contains("expose frames"), message);
    }

    @Test
    void namesAPatchThatIsNotThere() {
        assertThrows(IllegalArgumentException.class, () -> ShadowMatch.of(bracket, "sky", DensityDifference.of(0.30)));
        assertEquals(ExposureInterval.ZERO, bracket.frame("f3").exposure());
    }

    /** The mean of four readings has half the uncertainty of one (JCGM 100:2008, 4.2.3). */
    @Test
    void fourReadingsHalveTheUncertainty() {
        Bracket repeated = Brackets.readTimes(bracket, 4);
        assertEquals(
                ShadowMatch.of(bracket, "shadow", bracket, "f4")
                                .stops(Repeatability.of(0.01))
                                .standardUncertainty()
                        / 2,
                ShadowMatch.of(repeated, "shadow", repeated, "f4")
                        .stops(Repeatability.of(0.01))
                        .standardUncertainty(),
                1e-12);
    }

    @Test
    void theRecordsTellTheFrameAndTheInterval() {
        ShadowMatch match = ShadowMatch.of(bracket, "shadow", DensityDifference.of(0.335));

        assertEquals(ResultRecord.ofNumber("interval", match.interval().stops(), "stops"), record(match, "interval"));
        assertEquals(ResultRecord.ofText("frame", "f5"), record(match, "frame"));
        assertEquals(ResultRecord.ofNumber("residual", match.residual().value(), "density"), record(match, "residual"));
    }

    @Test
    void theRecordsSayWhyThereIsNoInterval() {
        ShadowMatch dense = ShadowMatch.of(bracket, "shadow", DensityDifference.of(0.10));
        String reason = assertThrows(OutsideMeasuredRangeException.class, dense::interval)
                .getMessage();

        assertEquals(ResultRecord.ofMissing("interval", "stops", reason), record(dense, "interval"));
        assertEquals(ResultRecord.ofText("verdict", "LESS_EXPOSURE_NEEDED"), record(dense, "verdict"));
    }

    private static ResultRecord record(ShadowMatch match, String name) {
        return match.records().stream()
                .filter(each -> each.name().equals(name))
                .findFirst()
                .orElseThrow();
    }
}
