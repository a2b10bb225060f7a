// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.methods;

import java.io.IOException;
import java.math.BigDecimal;
import java.time.Duration;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.DoubleUnaryOperator;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.DensityDifference;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.SpectralResponse;
import org.tonewedge.core.strip.Bracket;
import org.tonewedge.core.strip.BracketTable;
import org.tonewedge.core.strip.ReadingsTable;
import org.tonewedge.core.strip.Repeatability;
import org.tonewedge.core.strip.StepTablet;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.core.tone.PatchRendering;
import org.tonewedge.examples.command.NumberTable;
import org.tonewedge.fitting.parametric.StripFit;
import org.tonewedge.standards.density.CallierFactor;
import org.tonewedge.standards.density.PrintingChannel;
import org.tonewedge.standards.detail.ScannedRange;
import org.tonewedge.standards.exposure.CameraFlare;
import org.tonewedge.standards.exposure.FilterFactor;
import org.tonewedge.standards.exposure.PersonalExposureIndex;
import org.tonewedge.standards.exposure.PersonalExposureIndex.ShadowFrame;
import org.tonewedge.standards.exposure.ReciprocityFit;
import org.tonewedge.standards.exposure.ReciprocityFit.TimedExposure;
import org.tonewedge.standards.exposure.SensitivityCurve;
import org.tonewedge.standards.exposure.SensitivityCurve.WedgeReading;
import org.tonewedge.standards.film.ProcessControl;
import org.tonewedge.standards.film.ProcessControl.ControlReading;

/** Reads each table, asks the library and words the answer. */
final class Answers {

    private static final String STOPS = "stops";
    private static final String LOG = "log10";
    private static final double HIGHER = 0.6;
    private static final double DEEP = 1.0;
    private static final int[] SERIES = {1, 2, 5};

    private Answers() {}

    private static Estimate exact(double value) {
        return Estimate.of(value, 0);
    }

    private static Strip reference(MethodInput input, ReadingsTable table) {
        return input.reference()
                .map(table::strip)
                .orElseGet(() -> table.strips().get(0));
    }

    /** The name of a constant in words. */
    private static String words(Enum<?> constant) {
        return constant.name().toLowerCase(Locale.ROOT).replace('_', ' ');
    }

    static void filterFactor(MethodInput input, MethodAnswer answer) throws IOException {
        ReadingsTable table = ReadingsTable.read(input.file());
        Strip without = reference(input, table);
        CharacteristicCurve bare = CharacteristicCurve.through(without);
        DensityDifference low = DensityDifference.of(input.density());
        DensityDifference high = DensityDifference.of(input.density() + HIGHER);
        for (Strip strip : table.strips()) {
            if (strip.id().equals(without.id())) {
                continue;
            }
            CharacteristicCurve filtered = CharacteristicCurve.through(strip);
            Map<DensityDifference, FilterFactor> factors = new LinkedHashMap<>();
            for (DensityDifference density : List.of(low, high)) {
                String at = String.format(Locale.ROOT, "at D %.2f above base plus fog", density.value());
                answer.add(strip.id(), "filter factor", "ratio", at, () -> {
                    FilterFactor factor = FilterFactor.at(density, bare, filtered, input.uncertainty());
                    factors.put(density, factor);
                    return factor.factor();
                });
                if (factors.containsKey(density)) {
                    answer.add(
                            strip.id(),
                            "exposure",
                            STOPS,
                            at,
                            () -> factors.get(density).stops());
                }
            }
            if (factors.size() == 2 && factors.get(low).changesWithDensity(factors.get(high))) {
                answer.find(strip.id()
                        + ": the factor changes with density, as the strip with the filter has another contrast;"
                        + " take the factor of the tone that matters");
            }
        }
        answer.holds("without a filter: strip " + without.id() + "; strips developed together; the light of the test");
        answer.holds(
                input.uncertainty() == 0
                        ? "the uncertainty of the exposures is not stated (--uncertainty), so none is given"
                        : "standard uncertainty of each log exposure: " + input.uncertainty());
    }

    static void colourPairs(MethodInput input, MethodAnswer answer) throws IOException {
        BracketTable table = BracketTable.read(input.file());
        String frame = input.frame()
                .orElseThrow(() -> new IllegalArgumentException(
                        "colour-pairs needs --frame, the label of the frame whose patches are compared"));
        Bracket first = input.reference().isPresent()
                ? table.bracket(input.reference().get())
                : table.brackets().get(0);
        double repeatability = input.uncertainty() > 0
                ? input.uncertainty()
                : first.repeatability().orElse(0);
        PatchRendering reference = PatchRendering.onFrame(first, frame, Repeatability.of(repeatability));
        for (Bracket bracket : table.brackets()) {
            PatchRendering film;
            try {
                film = PatchRendering.onFrame(bracket, frame, Repeatability.of(repeatability));
            } catch (NotDeterminableException | IllegalArgumentException e) {
                answer.addMissing(bracket.film(), "complementary pairs", STOPS, e.getMessage());
                continue;
            }
            film.pairs()
                    .forEach((pair, stops) -> answer.add(
                            film.film(),
                            pair.one().label() + " against " + pair.other().label(),
                            STOPS,
                            "positive: " + pair.one().label() + " is lighter",
                            () -> stops));
            if (!film.film().equals(reference.film())) {
                film.pairsAgainst(reference)
                        .forEach((pair, stops) -> answer.add(
                                film.film(),
                                pair.one().label() + " against " + pair.other().label() + ", from the reference",
                                STOPS,
                                () -> stops));
                film.findingsAgainst(reference).forEach(answer::find);
            }
        }
        answer.holds("frame " + frame + "; reference " + reference.film()
                + "; patches against the neutral scale of the frame");
        answer.holds("repeatability of one density reading: " + String.format(Locale.ROOT, "%.4f", repeatability));
    }

    static void spectrogram(MethodInput input, MethodAnswer answer) throws IOException {
        NumberTable table = NumberTable.read(input.file(), List.of("wavelength", "wedge_density", "u"));
        boolean energies = table.has("relative_energy");
        List<WedgeReading> readings = new ArrayList<>();
        for (NumberTable.Row row : table.rows()) {
            readings.add(new WedgeReading(
                    table.number(row, "wavelength"),
                    Estimate.of(table.number(row, "wedge_density"), table.number(row, "u")),
                    energies ? table.number(row, "relative_energy") : 1));
        }
        SensitivityCurve curve = SensitivityCurve.of(readings);
        for (WedgeReading reading : readings) {
            answer.add(
                    String.format(Locale.ROOT, "%.0f nm", reading.wavelength()),
                    "log sensitivity",
                    LOG,
                    () -> curve.logSensitivity(reading.wavelength()));
        }
        answer.add("film", "wavelength of the greatest sensitivity", "nm", () -> exact(curve.peakWavelength()));
        answer.add(
                "film",
                "sensitive up to",
                "nm",
                "where the sensitivity has fallen to a tenth",
                () -> exact(curve.cutOff(DEEP)));
        answer.holds(
                energies
                        ? "energies of the source as stated: the curve is that of the film"
                        : "no energies of the source stated: the curve is that of film and light together");
    }

    static void callier(MethodInput input, MethodAnswer answer) throws IOException {
        NumberTable table = NumberTable.read(input.file(), List.of("place", "diffuse", "specular"));
        List<CallierFactor.Pair> pairs = new ArrayList<>();
        CallierFactor.Pair base = null;
        for (NumberTable.Row row : table.rows()) {
            CallierFactor.Pair pair = new CallierFactor.Pair(
                    Density.of(table.number(row, "diffuse")), Density.of(table.number(row, "specular")));
            if (table.text(row, "place").equalsIgnoreCase("base")) {
                base = pair;
            } else {
                pairs.add(pair);
            }
        }
        if (base == null) {
            throw new IllegalArgumentException(
                    input.file() + ": there is no place named base; add a row with the readings of base plus fog");
        }
        CallierFactor found = CallierFactor.measured(pairs, base.diffuse(), base.specular());
        answer.add("film", "Callier's factor Q", "ratio", found::factor);
        answer.add("film", "scatter about it", "density", () -> exact(found.scatter()));
        Density clear = base.diffuse();
        for (CallierFactor.Pair pair : pairs) {
            answer.add(
                    String.format(Locale.ROOT, "D %.2f diffuse", pair.diffuse().value()),
                    "density in the beam",
                    "density",
                    () -> found.projected(pair.diffuse(), clear));
        }
        DensityDifference difference = DensityDifference.of(input.density());
        double stops = found.printExposure(difference).stops();
        Estimate factor = found.factor();
        answer.add(
                String.format(Locale.ROOT, "D %.2f denser", input.density()),
                "print exposure",
                STOPS,
                "with a condenser, as diffuse densities are read",
                () -> Estimate.of(stops, stops * factor.standardUncertainty() / factor.value()));
        answer.holds("net densities; one factor for the range of the pairs, the film and its development");
    }

    private static SpectralResponse response(NumberTable table, NumberTable.Row row) {
        try {
            return SpectralResponse.of(table.text(row, "response"));
        } catch (IllegalArgumentException e) {
            throw table.refused(row, e.getMessage());
        }
    }

    static void printingChannel(MethodInput input, MethodAnswer answer) throws IOException {
        NumberTable table = NumberTable.read(input.file(), List.of("film", "response", "density"));
        Map<String, Map<SpectralResponse, Density>> films = new LinkedHashMap<>();
        for (NumberTable.Row row : table.rows()) {
            Density before = films.computeIfAbsent(
                            table.text(row, "film"), key -> new EnumMap<>(SpectralResponse.class))
                    .put(response(table, row), Density.of(table.number(row, "density")));
            if (before != null) {
                throw table.refused(row, "the film has this response twice; enter one density for each");
            }
        }
        String first = input.reference().orElse(films.keySet().iterator().next());
        if (!films.containsKey(first)) {
            throw new IllegalArgumentException("there is no film '" + first + "' in " + input.file() + "; it has "
                    + String.join(", ", films.keySet()));
        }
        PrintingChannel reference = PrintingChannel.closest(films.get(first));
        films.forEach((film, readings) -> {
            PrintingChannel channel = PrintingChannel.closest(readings);
            String by = channel.response().description();
            answer.add(
                    film,
                    "density for the print",
                    "density",
                    "read by " + by,
                    () -> exact(channel.density().value()));
            if (!film.equals(first)) {
                answer.add(film, "print exposure from " + first, STOPS, () -> {
                    if (channel.response() != reference.response()) {
                        throw new NotDeterminableException("the reference was read by "
                                + reference.response().description() + "; read both films by one response");
                    }
                    return exact(channel.printExposure(reference).stops());
                });
            }
            channel.finding().ifPresent(finding -> answer.find(film + ": " + finding));
        });
        answer.holds("no uncertainty is stated for the readings; base plus fog, or one tone of each negative");
    }

    static void reciprocity(MethodInput input, MethodAnswer answer) throws IOException {
        NumberTable table = NumberTable.read(input.file(), List.of("seconds", "log_exposure", "u"));
        List<TimedExposure> exposures = new ArrayList<>();
        double longest = 0;
        double shortest = Double.POSITIVE_INFINITY;
        for (NumberTable.Row row : table.rows()) {
            double seconds = table.number(row, "seconds");
            if (!(seconds > 0 && seconds < 1e7)) {
                throw table.refused(row, "seconds must be above 0 and below 10 000 000, was " + seconds);
            }
            longest = Math.max(longest, seconds);
            shortest = Math.min(shortest, seconds);
            exposures.add(new TimedExposure(
                    time(seconds), Estimate.of(table.number(row, "log_exposure"), table.number(row, "u"))));
        }
        ReciprocityFit power = ReciprocityFit.schwarzschild(exposures);
        answer.add("Schwarzschild", "exponent p", "", power::exponent);
        power.probability()
                .ifPresent(
                        chance -> answer.add("Schwarzschild", "probability of such a misfit", "", () -> exact(chance)));
        if (!power.isSignificant()) {
            answer.find("no failure of reciprocity shows between the shortest and the longest time");
        }
        addTimes("Schwarzschild", power, shortest, longest, answer);
        if (power.lacksFit()) {
            answer.find(
                    "Schwarzschild's law does not fit these exposures: the loss of speed is not one power of the time; use the curved law, or more times");
        }
        try {
            ReciprocityFit catenary = ReciprocityFit.catenary(exposures);
            catenary.probability()
                    .ifPresent(chance ->
                            answer.add("curved law", "probability of such a misfit", "", () -> exact(chance)));
            addTimes("curved law", catenary, shortest, longest, answer);
        } catch (NotDeterminableException e) {
            answer.holds(
                    "no curved law (Kron and Halm's catenary), which has its best time within or near those tested: "
                            + e.getMessage());
        }
        answer.holds(String.format(
                Locale.ROOT,
                "the meter is taken to be right at %s s; strips developed together; one density",
                BigDecimal.valueOf(shortest).stripTrailingZeros().toPlainString()));
    }

    /** Corrected times for 1, 2, 5, 10 … seconds, as far as the strips go. */
    private static void addTimes(
            String form, ReciprocityFit fit, double shortest, double longest, MethodAnswer answer) {
        for (int decade = -3; Math.pow(10, decade) <= longest; decade++) {
            for (int digit : SERIES) {
                double metered =
                        BigDecimal.valueOf(digit).scaleByPowerOfTen(decade).doubleValue();
                if (metered < shortest || metered > longest) {
                    continue;
                }
                try {
                    // The meter is right at the shortest time.
                    Estimate corrected =
                            metered == shortest ? Estimate.of(metered, 0) : fit.correctedSeconds(time(metered));
                    answer.add(
                            form, "corrected time for " + seconds(metered) + " s by the meter", "s", () -> corrected);
                } catch (IllegalArgumentException e) {
                    return; // longer than the strips
                }
            }
        }
    }

    private static Duration time(double seconds) {
        return Duration.ofNanos(Math.round(1e9 * seconds));
    }

    private static String seconds(double time) {
        return time >= 1 ? Long.toString(Math.round(time)) : String.format(Locale.ROOT, "1/%d", Math.round(1 / time));
    }

    static void cameraFlare(MethodInput input, MethodAnswer answer) throws IOException {
        NumberTable table = NumberTable.read(input.file(), List.of("density", "log_exposure", "u"));
        List<NumberTable.Row> rows = table.rows();
        double[] densities =
                rows.stream().mapToDouble(row -> table.number(row, "density")).toArray();
        List<Estimate> exposures = rows.stream()
                .map(row -> Estimate.of(table.number(row, "log_exposure"), table.number(row, "u")))
                .toList();
        CameraFlare found =
                CameraFlare.of(StepTablet.calibrated(String.valueOf(input.file().getFileName()), densities), exposures);
        answer.add("camera", "flare", "part of the bare source", found::flare);
        answer.add("camera", "log exposure of the bare source", LOG, found::logExposureOfSource);
        for (double density : densities) {
            answer.add(
                    String.format(Locale.ROOT, "D %.2f", density),
                    "light added by flare",
                    STOPS,
                    () -> exact(found.addedBehind(density).stops()));
        }
        answer.holds(
                "an even veil; it depends on what lies about the tablet; the error of the film's curve is not included");
    }

    static void personalIndex(MethodInput input, MethodAnswer answer) throws IOException {
        NumberTable table = NumberTable.read(input.file(), List.of("film", "exposure_index", "net_density", "u"));
        Map<String, List<ShadowFrame>> films = new LinkedHashMap<>();
        Map<String, Double> boxes = new LinkedHashMap<>();
        for (NumberTable.Row row : table.rows()) {
            String film = table.text(row, "film");
            films.computeIfAbsent(film, key -> new ArrayList<>())
                    .add(new ShadowFrame(
                            table.number(row, "exposure_index"),
                            Estimate.of(table.number(row, "net_density"), table.number(row, "u"))));
            if (table.has("box_speed") && !table.field(row, "box_speed").isEmpty()) {
                boxes.put(film, table.number(row, "box_speed"));
            }
        }
        films.forEach((film, frames) -> {
            List<PersonalExposureIndex> found = new ArrayList<>();
            answer.add(film, "personal exposure index", "", () -> {
                found.add(PersonalExposureIndex.withDefaults().determine(frames));
                return found.get(0).exposureIndex();
            });
            if (!found.isEmpty() && boxes.containsKey(film)) {
                Estimate index = found.get(0).exposureIndex();
                answer.add(
                        film,
                        "from the speed on the box",
                        STOPS,
                        () -> Estimate.of(
                                found.get(0).comparedWith(boxes.get(film)).stops(),
                                index.standardUncertainty() / index.value() / Math.log(2)));
            }
        });
        answer.holds(
                "shadow frame four stops below the meter, at D 0.10 above base plus fog; this camera, meter and developer");
        answer.holds("shutter and aperture from frame to frame are not included; repeat frames show them");
    }

    static void processControl(MethodInput input, MethodAnswer answer) throws IOException {
        NumberTable table = NumberTable.read(input.file(), List.of("run", "base_plus_fog", "speed_point", "high_step"));
        List<String> names = new ArrayList<>();
        List<ControlReading> readings = new ArrayList<>();
        for (NumberTable.Row row : table.rows()) {
            names.add(table.text(row, "run"));
            readings.add(ControlReading.of(
                    table.number(row, "base_plus_fog"),
                    table.number(row, "speed_point"),
                    table.number(row, "high_step")));
        }
        List<ControlReading> runs = readings.subList(1, readings.size());
        if (runs.isEmpty() || input.baseline() > runs.size()) {
            throw new IllegalArgumentException(
                    input.file() + ": " + runs.size()
                            + " runs follow the reference; --baseline may be no more than the runs, and one run at least is needed");
        }
        ControlReading reference = readings.get(0);
        ProcessControl control = ProcessControl.against(reference);
        if (input.baseline() > 0) {
            control = control.withLimitsFrom(runs.subList(0, input.baseline()));
        }
        ProcessControl chosen = control;
        for (int i = 0; i < runs.size(); i++) {
            ControlReading run = runs.get(i);
            Map<ProcessControl.Parameter, Double> departures = new EnumMap<>(ProcessControl.Parameter.class);
            departures.put(
                    ProcessControl.Parameter.BASE_PLUS_FOG, difference(run.basePlusFog(), reference.basePlusFog()));
            departures.put(ProcessControl.Parameter.SPEED_POINT, difference(run.speedPoint(), reference.speedPoint()));
            departures.put(ProcessControl.Parameter.CONTRAST, difference(run.contrast(), reference.contrast()));
            String name = names.get(i + 1);
            departures.forEach((figure, departure) -> answer.add(
                    name,
                    words(figure) + ", from the reference",
                    "density",
                    String.format(Locale.ROOT, "limit ±%.3f", chosen.limit(figure)),
                    () -> exact(departure)));
        }
        chosen.judge(runs)
                .forEach(alarm -> answer.find("run " + names.get(alarm.run())
                        + alarm.toString().substring(alarm.toString().indexOf(':'))));
        if (answer.findings().isEmpty()) {
            answer.find("the process is in control");
        }
        answer.holds("reference: " + names.get(0));
        answer.holds(
                input.baseline() > 0
                        ? "limits: three standard deviations of the first " + input.baseline() + " runs"
                        : "limits by default (common practice, no source); --baseline N takes them from the first N runs");
    }

    /** A difference of densities without what binary fractions leave over where it is zero. */
    private static double difference(double one, double other) {
        return Math.rint(1e6 * (one - other)) / 1e6;
    }

    static void scannedRange(MethodInput input, MethodAnswer answer) throws IOException {
        if (input.noise().size() != 2) {
            throw new IllegalArgumentException(
                    "scanned-range needs --noise A,B, such as 0.004,0.002: the standard deviation"
                            + " of density A + B x density, as measured on even areas");
        }
        DoubleUnaryOperator noise =
                density -> input.noise().get(0) + input.noise().get(1) * Math.max(0, density);
        ReadingsTable table = ReadingsTable.read(input.file());
        Strip first = reference(input, table);
        ScannedRange.Method method = ScannedRange.withDefaults();
        // Fitted: a gradient through the readings follows their noise, which moves the ends by half a stop.
        ScannedRange reference = method.determine(StripFit.of(first).curve(), noise);
        for (Strip strip : table.strips()) {
            List<ScannedRange> found = new ArrayList<>();
            answer.add(strip.id(), "range", STOPS, strip.film(), () -> {
                found.add(method.determine(StripFit.of(strip).curve(), noise));
                return exact(found.get(0).width().stops());
            });
            if (!found.isEmpty() && found.get(0).isLowerBound()) {
                answer.holds(strip.id() + ": the readings end before the range does, which is wider");
            }
            if (!found.isEmpty() && !strip.id().equals(first.id())) {
                answer.add(
                        strip.id(),
                        "speed for the scanner, from " + first.id(),
                        STOPS,
                        () -> exact(found.get(0).speedAgainst(reference).stops()));
            }
        }
        answer.holds("noise " + input.noise().get(0) + " + " + input.noise().get(1)
                + " x density; a third of a stop counts as told apart at three times its noise (the project's own)");
    }
}
