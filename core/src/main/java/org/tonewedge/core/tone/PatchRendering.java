// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.tone;

import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import java.util.stream.IntStream;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.FigureEstimator;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.EstimateFormat;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.Recorded;
import org.tonewedge.core.quantity.ResultRecord;
import org.tonewedge.core.strip.Bracket;
import org.tonewedge.core.strip.Patch;
import org.tonewedge.core.strip.PatchGroup;
import org.tonewedge.core.strip.PatchReading;
import org.tonewedge.core.strip.Repeatability;

/**
 * A film's colour response in monochrome: how much lighter or darker each coloured patch of a frame is rendered than a
 * neutral of the same reflectance.
 *
 * <p>There are two methods:
 *
 * <ul>
 *   <li>{@link #throughCurve throughCurve} reads the effective exposure of each patch from its density above base plus fog through
 *       the film's own curve. It compares that with the exposure of a neutral of the same reflectance, interpolated
 *       linearly in log reflectance between the neutral patches of the frame. The result is a difference of exposure at
 *       the film; camera flare affects neutral and coloured patches alike.
 *   <li>{@link #onFrame onFrame} needs no curve. On the neutral scale of the frame, by a monotone cubic of density over log
 *       reflectance, it finds the reflectance of the neutral that has the density of the patch. The result is a
 *       difference between effective and true reflectance at the subject.
 * </ul>
 *
 * <p>Both give 0 for a neutral patch, and both give the same figure without flare.
 *
 * <p>Uncertainties come from the repeatability of the readings by the law of propagation. The neutral patches enter
 * every result of a frame, and so does base plus fog if the film's curve is read; group means treat these as common
 * errors. The errors of the curve are another part, if you say how well it is known: they are not the same for a patch
 * and for neutrals of other densities. On the frame alone, the difference between two monotone cubics through the neutral
 * patches tells how far interpolation between them may be off; 1.7 of it counts as a standard uncertainty. Of 95 % intervals
 * of patches, groups and pairs on simulated frames, 94.3 to 95.1 % then hold the truth at normal exposure, and 93.7 to 95.0 %
 * with 0.45 log units less; without it, 89 to 91 % with less ({@code ToneSimulation 2000 2} and {@code 2000 2 0.45} in the
 * tests of the examples). The 1.7 was chosen by such simulations, no other source.
 *
 * <p>A patch that cannot be judged, because its reflectance is missing or outside the scale, is named in
 * {@link #refusals()}.
 *
 * <p>Immutable, and thread safe if the estimator of the curve is.
 *
 * @source law of propagation of uncertainty: JCGM 100:2008, 5.1.2; the two methods are common practice, no source
 */
public final class PatchRendering implements Recorded {

    private final String film;
    private final NeutralScale scale;
    /** The part of the curve in the uncertainties; null if there is none or it is taken as exact. */
    private final FigureEstimator ofCurve;

    private final Repeatability repeatability;
    private final Density basePlusFog;
    /** The coloured patches in the order read, judged or not. */
    private final List<Patch> read;

    private final List<RenderedPatch> patches;
    private final Map<Patch, Deviation> deviations = new LinkedHashMap<>();
    private final Map<Patch, String> refusals = new LinkedHashMap<>();

    private PatchRendering(
            Bracket bracket, String frame, NeutralScale scale, FigureEstimator ofCurve, Repeatability repeatability) {
        this.film = bracket.film();
        this.scale = scale;
        this.ofCurve = ofCurve;
        this.repeatability = repeatability.over(bracket);
        this.basePlusFog = bracket.basePlusFog();
        read = bracket.frame(frame).colours().stream().map(PatchReading::patch).toList();
        List<RenderedPatch> rendered = new ArrayList<>();
        for (PatchReading reading : bracket.frame(frame).colours()) {
            try {
                NeutralScale.Position place = scale.place(reading);
                Deviation deviation = Deviation.of(
                        place,
                        variance(reading.density(), reading.readings().size()),
                        curve -> NeutralScale.throughCurve(bracket, frame, curve)
                                .place(reading)
                                .lighterBy());
                Estimate curvePart = curvePart(deviation);
                rendered.add(new RenderedPatch(
                        reading.patch(), reading.density(), place.effective(), inStops(deviation, curvePart)));
                deviations.put(reading.patch(), deviation.withCurvePart(curvePart.standardUncertainty()));
            } catch (NotDeterminableException e) {
                refusals.put(reading.patch(), e.getMessage());
            }
        }
        patches = List.copyOf(rendered);
    }

    /** The variance of the mean of readings of a density. */
    private double variance(Density density, int readings) {
        double deviation = repeatability.standardDeviationAt(density);
        return deviation * deviation / readings;
    }

    /** What the errors of the curve add to a result, in stops, as the uncertainty of 0. */
    private Estimate curvePart(Deviation deviation) {
        if (ofCurve == null) {
            return Estimate.of(0, 0);
        }
        try {
            Estimate stops = ofCurve.estimate(curve -> ExposureInterval.ofLogUnits(deviation.along.applyAsDouble(curve))
                    .stops());
            return Estimate.of(0, stops.standardUncertainty(), stops.degreesOfFreedom());
        } catch (NotDeterminableException e) {
            if (deviation.mostCurvePart == Double.POSITIVE_INFINITY) {
                throw e;
            }
            return Estimate.of(0, deviation.mostCurvePart);
        }
    }

    private Estimate inStops(Deviation deviation) {
        return inStops(deviation, curvePart(deviation));
    }

    private Estimate inStops(Deviation deviation, Estimate curvePart) {
        double variance = deviation.ownVariance;
        for (int i = 0; i < deviation.toScale.size(); i++) {
            double change = deviation.toScale.get(i);
            variance += change * change * variance(scale.neutral(i).density(), scale.readings(i));
        }
        variance +=
                deviation.toBasePlusFog * deviation.toBasePlusFog * variance(basePlusFog, scale.basePlusFogReadings());
        Estimate readings = Estimate.of(
                ExposureInterval.ofLogUnits(deviation.lighterBy).stops(),
                ExposureInterval.ofLogUnits(Math.sqrt(variance)).stops(),
                repeatability.degreesOfFreedom());
        double interpolation = Math.sqrt(deviation.toInterpolation.stream()
                .mapToDouble(part -> part * part)
                .sum());
        Estimate exactCurve = interpolation == 0
                ? readings
                : readings.minus(Estimate.of(
                        0, ExposureInterval.ofLogUnits(interpolation).stops()));
        return ofCurve == null ? exactCurve : exactCurve.minus(curvePart);
    }

    /**
     * A result in log units, with the variance of its own readings, its dependence on what all results share, and the
     * result along other curves. The parts of the curve in the patches of a mean or a difference may cancel, but never come
     * to more than their sum, in stops.
     */
    private record Deviation(
            double lighterBy,
            double ownVariance,
            List<Double> toScale,
            double toBasePlusFog,
            List<Double> toInterpolation,
            ToDoubleFunction<CharacteristicCurve> along,
            double mostCurvePart) {

        static Deviation of(
                NeutralScale.Position place, double varianceOfDensity, ToDoubleFunction<CharacteristicCurve> along) {
            return new Deviation(
                    place.lighterBy(),
                    place.toDensity() * place.toDensity() * varianceOfDensity,
                    place.toScale(),
                    place.toBasePlusFog(),
                    place.toInterpolation(),
                    along,
                    Double.POSITIVE_INFINITY);
        }

        Deviation withCurvePart(double stops) {
            return new Deviation(lighterBy, ownVariance, toScale, toBasePlusFog, toInterpolation, along, stops);
        }

        static Deviation mean(List<Deviation> members) {
            int count = members.size();
            return new Deviation(
                    members.stream().mapToDouble(Deviation::lighterBy).sum() / count,
                    members.stream().mapToDouble(Deviation::ownVariance).sum() / (count * count),
                    mean(members, Deviation::toScale),
                    members.stream().mapToDouble(Deviation::toBasePlusFog).sum() / count,
                    mean(members, Deviation::toInterpolation),
                    curve -> members.stream()
                                    .mapToDouble(member -> member.along.applyAsDouble(curve))
                                    .sum()
                            / count,
                    members.stream().mapToDouble(Deviation::mostCurvePart).sum() / count);
        }

        private static List<Double> mean(List<Deviation> members, Function<Deviation, List<Double>> parts) {
            return IntStream.range(0, parts.apply(members.get(0)).size())
                    .mapToObj(i -> members.stream()
                                    .mapToDouble(member -> parts.apply(member).get(i))
                                    .sum()
                            / members.size())
                    .toList();
        }

        private static List<Double> minus(List<Double> own, List<Double> other) {
            return IntStream.range(0, own.size())
                    .mapToObj(i -> own.get(i) - other.get(i))
                    .toList();
        }

        Deviation minus(Deviation other) {
            return new Deviation(
                    lighterBy - other.lighterBy,
                    ownVariance + other.ownVariance,
                    minus(toScale, other.toScale),
                    toBasePlusFog - other.toBasePlusFog,
                    minus(toInterpolation, other.toInterpolation),
                    curve -> along.applyAsDouble(curve) - other.along.applyAsDouble(curve),
                    mostCurvePart + other.mostCurvePart);
        }
    }

    /**
     * Two colours of which a film lightens one as it darkens the other.
     *
     * @param one the first colour
     * @param other the complementary colour
     */
    public record ComplementaryPair(PatchGroup one, PatchGroup other) {
        /**
         * Checks that nothing is missing.
         *
         * @param one the first colour
         * @param other the complementary colour
         */
        public ComplementaryPair {
            Objects.requireNonNull(one, "one");
            Objects.requireNonNull(other, "other");
        }

        /** Red and cyan, green and magenta, blue and yellow. */
        public static final List<ComplementaryPair> ALL = List.of(
                new ComplementaryPair(PatchGroup.RED, PatchGroup.CYAN),
                new ComplementaryPair(PatchGroup.GREEN, PatchGroup.MAGENTA),
                new ComplementaryPair(PatchGroup.BLUE, PatchGroup.YELLOW));
    }

    /**
     * Returns how much lighter one colour of each complementary pair is rendered than the other. The neutral patches, which
     * both colours share, all but cancel out, so that a pair is known better than either colour.
     *
     * @return the mean of the first group less that of the second; only pairs of which both have a judged patch
     * @units stops
     */
    public Map<ComplementaryPair, Estimate> pairs() {
        return pairsAmong(deviations.keySet());
    }

    private Map<ComplementaryPair, Estimate> pairsAmong(Set<Patch> chosen) {
        Map<ComplementaryPair, Estimate> differences = new LinkedHashMap<>();
        for (ComplementaryPair pair : ComplementaryPair.ALL) {
            List<Deviation> ones = members(pair.one(), chosen);
            List<Deviation> others = members(pair.other(), chosen);
            if (!ones.isEmpty() && !others.isEmpty()) {
                differences.put(pair, inStops(Deviation.mean(ones).minus(Deviation.mean(others))));
            }
        }
        return Collections.unmodifiableMap(differences);
    }

    private List<Deviation> members(PatchGroup group, Set<Patch> chosen) {
        return deviations.entrySet().stream()
                .filter(entry -> entry.getKey().group() == group && chosen.contains(entry.getKey()))
                .map(Map.Entry::getValue)
                .toList();
    }

    /**
     * Returns how the contrasts of complementary colours differ from those on a reference film, over the patches that both
     * films have.
     *
     * @param reference the rendering on the reference film, made in the same way
     * @return the difference of the first colour and the second, less that on the reference film
     * @throws IllegalArgumentException if the two films have no patch in common
     * @units stops
     */
    public Map<ComplementaryPair, Estimate> pairsAgainst(PatchRendering reference) {
        Set<Patch> common = common(reference);
        Map<ComplementaryPair, Estimate> references = reference.pairsAmong(common);
        Map<ComplementaryPair, Estimate> differences = new LinkedHashMap<>();
        pairsAmong(common).forEach((pair, own) -> differences.put(pair, own.minus(references.get(pair))));
        return Collections.unmodifiableMap(differences);
    }

    /**
     * Returns in plain words which complementary colours a film sets apart otherwise than the reference film does, where
     * that is significant.
     *
     * @param reference the rendering on the reference film, made in the same way
     * @return a sentence for each pair whose difference exceeds its expanded uncertainty (k = 2)
     * @throws IllegalArgumentException if the two films have no patch in common
     */
    public List<String> findingsAgainst(PatchRendering reference) {
        List<String> findings = new ArrayList<>();
        pairsAgainst(reference).forEach((pair, stops) -> {
            Shade shade = Shade.of(stops);
            if (shade != Shade.ALIKE) {
                findings.add(String.format(
                        Locale.ROOT,
                        "%s renders %s %s against %s than %s does, by %s stop.",
                        film,
                        pair.one().label(),
                        shade == Shade.LIGHTER ? "lighter" : "darker",
                        pair.other().label(),
                        reference.film,
                        EstimateFormat.withDefaults()
                                .withDigits(1)
                                .format(Estimate.of(Math.abs(stops.value()), stops.expandedUncertainty(2)))));
            }
        });
        return List.copyOf(findings);
    }

    /**
     * Judges the patches of a frame through the film's own curve, which is taken as exact.
     *
     * <p>Uncertainties are then too small for a drawn curve. In 4,000 simulated tests with errors of 0.01 and each patch read
     * twice, 95 % intervals hold the truth in 84 to 86 % along a curve through the readings of 21 steps and in 94 to 95 %
     * along a fit of them; with each patch read ten times, in 62 to 66 % and in 91 to 92 %. {@link
     * #throughCurve(Bracket, String, CharacteristicCurve, FigureEstimator, Repeatability) With the errors of the fit} it is
     * 97 and 98 %, and {@linkplain #onFrame on the frame alone} 95 and 94 to 95 % ({@code ToneSimulation 4000 2} and
     * {@code 4000 10} in the tests of the examples; a slice is a test).
     *
     * @param bracket the series
     * @param frame the label of the frame, with at least two neutral patches of known reflectance
     * @param curve a characteristic curve of the film, developed as the frame was
     * @param repeatability the standard deviation of a single density reading, stated or from the repeat readings of
     *     the series
     * @return the rendering, in stops at the film
     * @throws IllegalArgumentException if there is no such frame, or the repeatability must come from repeat readings
     *     and there are none or all are equal
     * @throws NotDeterminableException if the neutral scale is too short or leaves the curve
     */
    public static PatchRendering throughCurve(
            Bracket bracket, String frame, CharacteristicCurve curve, Repeatability repeatability) {
        Objects.requireNonNull(frame, "frame");
        Objects.requireNonNull(repeatability, "repeatability");
        Objects.requireNonNull(curve, "curve");
        return new PatchRendering(
                bracket, frame, NeutralScale.throughCurve(bracket, frame, curve), null, repeatability);
    }

    /**
     * Judges the patches of a frame through the film's own curve, and counts the errors of the curve.
     *
     * @param bracket the series
     * @param frame the label of the frame, with at least two neutral patches of known reflectance
     * @param curve a characteristic curve of the film, developed as the frame was
     * @param ofCurve how well the curve is known, such as {@code fit::estimate}; a patch for which it gives no uncertainty
     *     is refused
     * @param repeatability the standard deviation of a single density reading, stated or from the repeat readings of
     *     the series
     * @return the rendering, in stops at the film
     * @throws IllegalArgumentException if there is no such frame, or the repeatability must come from repeat readings
     *     and there are none or all are equal
     * @throws NotDeterminableException if the neutral scale is too short or leaves the curve
     */
    public static PatchRendering throughCurve(
            Bracket bracket,
            String frame,
            CharacteristicCurve curve,
            FigureEstimator ofCurve,
            Repeatability repeatability) {
        Objects.requireNonNull(frame, "frame");
        Objects.requireNonNull(repeatability, "repeatability");
        Objects.requireNonNull(curve, "curve");
        Objects.requireNonNull(ofCurve, "ofCurve");
        return new PatchRendering(
                bracket, frame, NeutralScale.throughCurve(bracket, frame, curve), ofCurve, repeatability);
    }

    /**
     * Judges the patches of a frame by the frame's own neutral scale alone.
     *
     * @param bracket the series
     * @param frame the label of the frame, with at least {@value CharacteristicCurve#FEWEST_STEPS} neutral patches of
     *     known reflectance
     * @param repeatability the standard deviation of a single density reading, stated or from the repeat readings of
     *     the series
     * @return the rendering, in stops of reflectance at the subject
     * @throws IllegalArgumentException if there is no such frame, or the repeatability must come from repeat readings
     *     and there are none or all are equal
     * @throws NotDeterminableException if the neutral scale is too short
     */
    public static PatchRendering onFrame(Bracket bracket, String frame, Repeatability repeatability) {
        Objects.requireNonNull(frame, "frame");
        Objects.requireNonNull(repeatability, "repeatability");
        return new PatchRendering(bracket, frame, NeutralScale.alone(bracket, frame), null, repeatability);
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
     * Returns the patches that were judged.
     *
     * @return the coloured patches, in the order read
     */
    public List<RenderedPatch> patches() {
        return patches;
    }

    /**
     * Returns one patch.
     *
     * @param label its label
     * @return how it was rendered
     * @throws IllegalArgumentException if the patch was not judged; the message lists the patches that were, or says
     *     why this one was not
     */
    public RenderedPatch patch(String label) {
        Objects.requireNonNull(label, "label");
        return patches.stream()
                .filter(rendered -> rendered.patch().label().equals(label))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException(refusals.entrySet().stream()
                        .filter(refusal -> refusal.getKey().label().equals(label))
                        .map(Map.Entry::getValue)
                        .findFirst()
                        .orElseGet(() -> "film '" + film + "' has no coloured patch '" + label + "'; it has "
                                + String.join(
                                        ", ",
                                        patches.stream()
                                                .map(rendered ->
                                                        rendered.patch().label())
                                                .toList()))));
    }

    /**
     * Returns the mean of each group.
     *
     * @return how many stops lighter than a neutral of the same reflectance, in the order of {@link PatchGroup}; only
     *     groups with a judged patch
     * @units stops
     */
    public Map<PatchGroup, Estimate> groups() {
        return groupsAmong(deviations.keySet());
    }

    private Map<PatchGroup, Estimate> groupsAmong(Set<Patch> chosen) {
        Map<PatchGroup, List<Deviation>> byGroup = new EnumMap<>(PatchGroup.class);
        deviations.forEach((patch, deviation) -> {
            if (chosen.contains(patch)) {
                byGroup.computeIfAbsent(patch.group(), group -> new ArrayList<>())
                        .add(deviation);
            }
        });
        Map<PatchGroup, Estimate> means = new EnumMap<>(PatchGroup.class);
        byGroup.forEach((group, members) -> means.put(group, inStops(Deviation.mean(members))));
        return Collections.unmodifiableMap(means);
    }

    /**
     * Returns the patches that could not be judged.
     *
     * @return each patch with the reason and what to do
     */
    public Map<Patch, String> refusals() {
        return Collections.unmodifiableMap(refusals);
    }

    /**
     * Compares the patches with the same patches on a reference film.
     *
     * @param reference the rendering on the reference film, made in the same way
     * @return the difference for each patch that both films have, in the order of this rendering
     * @throws IllegalArgumentException if the two films have no patch in common
     */
    public List<PatchDifference> against(PatchRendering reference) {
        Set<Patch> common = common(reference);
        return patches.stream()
                .map(RenderedPatch::patch)
                .filter(common::contains)
                .map(patch -> new PatchDifference(
                        patch,
                        inStops(deviations.get(patch)).minus(reference.inStops(reference.deviations.get(patch)))))
                .toList();
    }

    /**
     * Compares the groups with those of a reference film, over the patches that both films have.
     *
     * @param reference the rendering on the reference film, made in the same way
     * @return how many stops lighter than on the reference film, in the order of {@link PatchGroup}
     * @throws IllegalArgumentException if the two films have no patch in common
     * @units stops
     */
    public Map<PatchGroup, Estimate> groupsAgainst(PatchRendering reference) {
        Set<Patch> common = common(reference);
        Map<PatchGroup, Estimate> references = reference.groupsAmong(common);
        Map<PatchGroup, Estimate> differences = new EnumMap<>(PatchGroup.class);
        groupsAmong(common).forEach((group, mean) -> differences.put(group, mean.minus(references.get(group))));
        return Collections.unmodifiableMap(differences);
    }

    private Set<Patch> common(PatchRendering reference) {
        Set<Patch> common = new HashSet<>(deviations.keySet());
        common.retainAll(reference.deviations.keySet());
        if (common.isEmpty()) {
            throw new IllegalArgumentException("films '" + film + "' and '" + reference.film
                    + "' have no coloured patch in common; use the same labels, groups and reflectances for both");
        }
        return common;
    }

    /**
     * Returns what this is, in words that may change.
     *
     * @return the film and the number of patches
     */
    @Override
    public String toString() {
        return film + ": patches rendered " + patches.size() + ", refused " + refusals.size();
    }

    /**
     * Returns the rendering as named values: {@code film}; for each coloured patch in the order read {@code patch.N},
     * {@code .group} and {@code .stops}, positive for lighter, with {@code .density} and {@code .log_effective} if it was judged; the mean of each
     * group, such as {@code group.red}; each pair, such as {@code pair.red.cyan}. The stops of a patch that could not be
     * judged are missing, with the reason.
     *
     * @return the records
     */
    @Override
    public List<ResultRecord> records() {
        List<ResultRecord> records = new ArrayList<>();
        records.add(ResultRecord.ofText("film", film));
        int number = 1;
        for (Patch patch : read) {
            String name = "patch." + number++;
            records.add(ResultRecord.ofText(name, patch.label()));
            records.add(ResultRecord.ofText(name + ".group", patch.group().label()));
            if (refusals.containsKey(patch)) {
                records.add(ResultRecord.ofMissing(name + ".stops", "stops", refusals.get(patch)));
            } else {
                RenderedPatch rendered = patch(patch.label());
                records.add(ResultRecord.ofEstimate(name + ".stops", rendered.stops(), "stops"));
                records.add(ResultRecord.ofNumber(
                        name + ".density", rendered.density().value(), "density"));
                records.add(ResultRecord.ofNumber(
                        name + ".log_effective",
                        rendered.effective().value(),
                        "log10 " + rendered.effective().axis()));
            }
        }
        groups().forEach((group, stops) ->
                records.add(ResultRecord.ofEstimate("group." + named(group), stops, "stops")));
        pairs().forEach((pair, stops) -> records.add(
                ResultRecord.ofEstimate("pair." + named(pair.one()) + "." + named(pair.other()), stops, "stops")));
        return List.copyOf(records);
    }

    private static String named(PatchGroup group) {
        return group.name().toLowerCase(Locale.ROOT);
    }
}
