// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.awt.image.Raster;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ForkJoinPool;
import java.util.regex.Pattern;
import java.util.stream.DoubleStream;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.CurveForm;
import org.tonewedge.core.curve.CurveTable;
import org.tonewedge.core.curve.InverseCurveTable;
import org.tonewedge.core.curve.OutsideSamples;
import org.tonewedge.core.curve.SampleCounts;
import org.tonewedge.core.quantity.CameraSetting;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.DensityDifference;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.quantity.ResultRecord;
import org.tonewedge.core.quantity.Temperature;
import org.tonewedge.core.scan.ScanCodeTable;
import org.tonewedge.core.scan.ScanEncoding;
import org.tonewedge.core.strip.Bracket;
import org.tonewedge.core.strip.BracketTable;
import org.tonewedge.core.strip.ExposureSeries;
import org.tonewedge.core.strip.ReadingOrder;
import org.tonewedge.core.strip.ReadingsTable;
import org.tonewedge.core.strip.Repeatability;
import org.tonewedge.core.strip.StepTablet;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.core.tone.CameraExposure;
import org.tonewedge.core.tone.DensityImage;
import org.tonewedge.core.tone.Granularity;
import org.tonewedge.core.tone.GranularityMethod;
import org.tonewedge.core.tone.Printing;
import org.tonewedge.core.tone.ReproducedTone;
import org.tonewedge.core.tone.ShadowMatch;
import org.tonewedge.core.tone.SubjectTone;
import org.tonewedge.core.tone.ToneReproduction;
import org.tonewedge.fitting.development.ContrastMeasure;
import org.tonewedge.fitting.development.ContrastTarget;
import org.tonewedge.fitting.development.DevelopmentSeries;
import org.tonewedge.fitting.development.PlannedDevelopment;
import org.tonewedge.fitting.development.PredictedTime;
import org.tonewedge.fitting.parametric.CurveFamily;
import org.tonewedge.fitting.parametric.CurveFits;
import org.tonewedge.fitting.parametric.CurveModel;
import org.tonewedge.fitting.parametric.FittedCurve;
import org.tonewedge.fitting.parametric.FittedModel;
import org.tonewedge.fitting.parametric.ModelComparison;
import org.tonewedge.fitting.parametric.ModelFit;
import org.tonewedge.fitting.spline.SmoothingSpline;
import org.tonewedge.fitting.spline.SplineFit;
import org.tonewedge.standards.ReadingUncertainty;
import org.tonewedge.standards.colour.ColourCurves;
import org.tonewedge.standards.comparison.FilmComparison;
import org.tonewedge.standards.comparison.StripComparison;
import org.tonewedge.standards.contrast.AverageGradient;
import org.tonewedge.standards.contrast.ContrastIndex;
import org.tonewedge.standards.densitometer.input.DensitometerLogReader;
import org.tonewedge.standards.densitometer.input.LogLayout;
import org.tonewedge.standards.densitometer.input.LogTally;
import org.tonewedge.standards.densitometer.summary.RunningSummary;
import org.tonewedge.standards.exposure.FocalPlaneExposure;
import org.tonewedge.standards.film.Iso2240;
import org.tonewedge.standards.film.Iso5800;
import org.tonewedge.standards.film.Iso5800Speed;
import org.tonewedge.standards.film.Iso6;
import org.tonewedge.standards.film.Iso6Speed;
import org.tonewedge.standards.paper.Iso6846;
import org.tonewedge.standards.paper.PaperGrade;

/**
 * What somebody who knows only the Javadoc wants to do, each in at most twelve lines: where one takes more, something is
 * missing in the library. Expected numbers are those of the formulas that made the demo readings, where not stated otherwise.
 */
class TasksTest {

    private static final int MOST_LINES = 12;
    private static final Path DEMO = ProjectFiles.demoStrips().getParent();

    @TempDir
    Path scratch;

    private static ReadingsTable films() throws IOException {
        return ReadingsTable.read(DEMO.resolve("strips.csv"));
    }

    private static Strip paper() throws IOException {
        return ReadingsTable.read(DEMO.resolve("paper.csv")).strip("P2");
    }

    @Test
    void everyTaskIsShort() throws IOException {
        String source = Files.readString(
                ProjectFiles.root().resolve("examples/src/test/java/org/tonewedge/examples/TasksTest.java"));
        List<String> tasks = Pattern.compile("\n    void task\\w+\\(.*?\\{\n(.*?)\n    }\n", Pattern.DOTALL)
                .matcher(source)
                .results()
                .map(task -> task.group(1))
                .toList();
        assertEquals(20, tasks.size());
        tasks.forEach(task -> assertTrue(task.lines().count() <= MOST_LINES, task));
    }

    @Test
    void task01StripFromTwoArrays() {
        double[] logExposures = {-3.0, -2.5, -2.0, -1.5, -1.0};
        double[] densities = {0.22, 0.35, 0.62, 0.95, 1.28};
        Strip strip = Strip.builder("A1")
                .basePlusFog(0.20, 0.21)
                .readings(ExposureSeries.ofLogLuxSeconds(logExposures), densities)
                .build();
        assertEquals(5, strip.steps().size());
    }

    /**
     * Steps of 0.15 span 20 times that. At the clear end H = q L t / N² with q = π/4 · 0.9 · 0.98 · cos⁴ 10° = 0.65157 (ISO
     * 12232:2006), 5.0904 lux seconds, less the density of 0.05 there: log H 0.65675, by hand.
     */
    @Test
    void task02TabletAndCameraToExposures() {
        StepTablet tablet = StepTablet.nominal(21, Density.of(0.05), 0.15);
        LogExposure open =
                FocalPlaneExposure.withDefaults().exposure(CameraSetting.of(8, Duration.ofMillis(500)), 1000);
        ExposureSeries exposures = tablet.exposedAt(open, ReadingOrder.FROM_CLEAR_END);
        assertEquals(0.65675, exposures.exposures().get(0).value(), 1e-5);
        assertEquals(0.65675 - 3, exposures.exposures().get(20).value(), 1e-5);
    }

    /**
     * R00 was made a tenth of a stop slower than 125, which is 116.6 and rounds to 125; its contrast by {@code demo_truth.py}
     * (SciPy 1.17.1), of which the readings are off by up to 0.01.
     */
    @Test
    void task03SpeedAndContrast() throws IOException {
        CharacteristicCurve curve = CharacteristicCurve.through(films().strip("R00"));
        Iso6Speed speed = Iso6.withDefaults().determine(curve);
        assertEquals(125, speed.rounded().arithmetic());
        assertTrue(speed.conditionsMet());
        assertEquals(
                0.648, ContrastIndex.withDefaults().determine(curve).gradient().value(), 0.01);
        assertEquals(
                0.642,
                AverageGradient.withDefaults().determine(curve).gradient().value(),
                0.01);
    }

    /** R00 was made with base plus fog of 0.24. */
    @Test
    void task04FitWithBands() throws IOException {
        FittedCurve fit = CurveFits.toeShoulder(films().strip("R00"));
        assertTrue(fit.confidenceBand(LogExposure.ofLogLuxSeconds(-1), 0.95).width()
                < fit.predictionBand(LogExposure.ofLogLuxSeconds(-1), 0.95).width());
        Estimate base = fit.estimate(curve -> curve.basePlusFog().value());
        assertEquals(0.24, base.value(), 3 * base.standardUncertainty());
        assertTrue(base.standardUncertainty() > 0 && base.standardUncertainty() < 0.01);
        assertTrue(fit.interval(curve -> curve.maximumDensity().value(), 0.95).width() > 0);
    }

    /** S12 was made as the difference of two soft ramps, which is the family of toe and shoulder; weights are parts of one. */
    @Test
    void task05FamiliesCompared() throws IOException {
        ModelComparison comparison = CurveFits.compare(films().strip("S12"));
        assertEquals(CurveFamily.TOE_SHOULDER, comparison.best().family());
        assertEquals(
                1,
                comparison.candidates().stream()
                        .filter(candidate -> candidate.fit().isPresent())
                        .mapToDouble(ModelComparison.Candidate::weight)
                        .sum(),
                1e-9);
    }

    /** The density of R00 by {@code demo_truth.py}. */
    @Test
    void task06SplineWithStatedRepeatability() throws IOException {
        SplineFit fit =
                SmoothingSpline.withDefaults().with(Repeatability.of(0.01)).fit(films().strip("R00"));
        Estimate density = fit.densityAt(LogExposure.ofLogLuxSeconds(-1));
        assertTrue(density.standardUncertainty() < 0.01);
        assertEquals(1.0755, density.value(), 3 * density.standardUncertainty());
    }

    @Test
    void task07ImageThroughACurve() throws IOException {
        CurveTable table = CurveTable.of(CharacteristicCurve.through(films().strip("R00")));
        float[] image = new float[24_000_000];
        Arrays.fill(image, -1f);
        table.conversion().withExecutor(ForkJoinPool.commonPool()).convert(image, image);
        assertEquals(table.density(-1), image[23_999_999], 1e-6);
        short[] scan = new short[1_000_000];
        ScanEncoding encoding = ScanEncoding.ofDensitySteps(Density.of(0), 0.0001, ScanEncoding.HIGHEST_16_BIT);
        ScanCodeTable.densities(encoding).conversion().convert(scan, new float[scan.length]);
    }

    @Test
    void task08ScanToSceneExposureOutsideMarked() throws IOException {
        CharacteristicCurve curve = CharacteristicCurve.through(films().strip("R00"));
        float[] densities = {0.3f, 0.8f, 4.0f};
        float[] logExposures = new float[3];
        SampleCounts counts = InverseCurveTable.ofSteepestBranch(curve)
                .conversion()
                .with(OutsideSamples.MARK_AS_NAN)
                .convert(densities, logExposures);
        assertEquals(1, counts.above());
        assertTrue(Float.isNaN(logExposures[2]));
        assertEquals(0.8, curve.density(logExposures[1]), 1e-4);
    }

    /** The speed of R00 by {@code demo_truth.py}. */
    @Test
    void task09CriterionOfOnesOwn() throws IOException {
        Estimate speed = ReadingUncertainty.of(Repeatability.of(0.01))
                .estimate(
                        films().strip("R00"),
                        curve -> 1
                                / curve.pointAbove(DensityDifference.of(0.3))
                                        .logExposure()
                                        .exposure());
        assertEquals(62.90, speed.value(), 3 * speed.standardUncertainty());
    }

    /** The curve from a paper lies 0.10 above base plus fog at x = ½ ln(0.1/1.7): S = 0.8/10^x = 20.878 (ISO 6:1993). */
    @Test
    void task10CurveOfOnesOwn() throws IOException {
        Strip strip = films().strip("R00");
        FittedModel fit = ModelFit.of(new Straight()).fit(part(strip, -1.6, -0.6));
        assertTrue(fit.parameter("gamma").standardUncertainty() < 0.02);
        assertTrue(fit.weightBeside(CurveFits.toeShoulder(part(strip, -1.6, -0.6))) > 0.01);
        CurveForm published = CurveForm.of(x -> 0.2 + 1.8 / (1 + Math.exp(-2 * x)), x -> {
            double e = Math.exp(-2 * x);
            return 3.6 * e / ((1 + e) * (1 + e));
        });
        LogExposure low = LogExposure.ofLogLuxSeconds(-3);
        CharacteristicCurve read =
                CharacteristicCurve.of("from a paper", published, low, LogExposure.ofLogLuxSeconds(1), Density.of(0.2));
        assertEquals(20.878, Iso6.withDefaults().determine(read).exact(), 0.001);
    }

    /** 8.147 minutes by {@code demo_truth.py}; times are rounded to 5 seconds. */
    @Test
    void task11TimeForContrastAt22Degrees() throws IOException {
        List<Strip> strips = ReadingsTable.read(DEMO.resolve("development.csv")).strips();
        PredictedTime time = DevelopmentSeries.of(strips)
                .contrast(ContrastMeasure.RISE_OVER_130)
                .best()
                .timeFor(ContrastTarget.isoContrastCondition(), Temperature.ofCelsius(22));
        assertTime(8.147, time);
    }

    private static void assertTime(double minutes, PredictedTime found) {
        double u = found.standardUncertainty().orElseThrow().toMillis() / 1000.0;
        assertEquals(60 * minutes, (double) found.time().toSeconds(), 3 * u + 2.5);
    }

    /** N, N+1 and N+2 by {@code demo_truth.py}; the strips were not exposed far enough for N−1 and N−2. */
    @Test
    void task12Expansions() throws IOException {
        List<Strip> strips = ReadingsTable.read(DEMO.resolve("development.csv")).strips();
        List<PlannedDevelopment> plan = DevelopmentSeries.of(strips)
                .expansions(
                        ContrastTarget.isoContrastCondition(),
                        ExposureInterval.ofStops(7),
                        List.of(Temperature.ofCelsius(20)))
                .developments();
        assertTrue(plan.get(0).time().isEmpty() && plan.get(1).time().isEmpty());
        assertTime(9.311, plan.get(2).time().orElseThrow());
        assertTime(11.033, plan.get(3).time().orElseThrow());
        assertTime(14.430, plan.get(4).time().orElseThrow());
    }

    /**
     * The logistic paper of the demo reaches 0.04 (ISO 6846) where p = 0.02 and nine tenths of its range where p = 0.9: R =
     * (ln 9 + ln 49) / 4.4 = 1.38. The negative's range of 1.05 is within that of grade 2, 0.95 to 1.15.
     */
    @Test
    void task13PaperRangeAndGrade() throws IOException {
        CharacteristicCurve paper = CharacteristicCurve.through(paper());
        assertEquals(
                PaperGrade.GRADE_1, Iso6846.withDefaults().range(paper).grade().orElseThrow());
        DensityDifference negative = Density.of(1.35).minus(Density.of(0.30));
        assertEquals(
                PaperGrade.GRADE_2,
                PaperGrade.of(ExposureInterval.ofLogUnits(negative.value())).orElseThrow());
    }

    /** The metered tone by {@code demo_truth.py}: D 0.946 on the film, 0.457 on the paper; flare of 0.02 adds log 1.02. */
    @Test
    void task14ToneReproductionAsArrays() throws IOException {
        CharacteristicCurve film = CharacteristicCurve.through(films().strip("R00"));
        CharacteristicCurve paper = CharacteristicCurve.through(paper());
        LogExposure metered = LogExposure.ofLogLuxSeconds(-1.2);
        CameraExposure camera = CameraExposure.metered(metered).withFlare(0.02);
        Printing printing = Printing.matching(Density.of(0.8), paper, Density.of(0.7));
        List<ReproducedTone> tones = ToneReproduction.of(camera, film, printing, paper)
                .tones(SubjectTone.between(SubjectTone.ofStops(-2), SubjectTone.ofStops(2), 33));
        double[] print =
                tones.stream().mapToDouble(tone -> tone.printDensity().value()).toArray();
        assertEquals(-1.2 + Math.log10(1.02), tones.get(16).filmExposure().value(), 1e-12);
        assertEquals(0.946, tones.get(16).negativeDensity().value(), 0.01);
        assertEquals(0.457, print[16], 0.02);
    }

    /**
     * Codes of 6000 in 60,000 are D 1; their scatter of 150 is 0.0109 in density, and 4 µm / √(π 48² / 4) µm of that through an
     * aperture of 48 µm: 0.00102. In 1.6 mm square there are 33² such apertures, from which it scatters by 2 %.
     */
    @Test
    void task15GranularityOfARegionOfATiff() throws IOException {
        BufferedImage scan = ImageIO.read(grainyTiff().toFile());
        Raster region = scan.getData(new java.awt.Rectangle(100, 100, 400, 400));
        int[] codes = region.getSamples(100, 100, 400, 400, 0, (int[]) null);
        double[] densities = new double[codes.length];
        ScanCodeTable.densities(ScanEncoding.ofTransmittanceSteps(0, 60_000, 65_535))
                .convert(codes, densities);
        Granularity grain = GranularityMethod.withDefaults().determine(DensityImage.of(densities, 400, 4));
        assertEquals(1, grain.meanDensity().value(), 0.01);
        assertEquals(0.00102, grain.standardDeviation().value(), 0.0001);
    }

    /** The curves of S02 and R00 have the reference's shadow density 0.708 stop apart: {@code demo_truth.py} (SciPy 1.17.1). */
    @Test
    void task16FrameOfEqualShadowDensity() throws IOException {
        BracketTable frames = BracketTable.read(DEMO.resolve("frames.csv"));
        Bracket reference = frames.bracket("Ostwick Reference 125");
        ShadowMatch match = ShadowMatch.of(frames.bracket("Bellmarsh 400"), "shadow", reference, "metered");
        assertEquals("+2/3", match.frame().label());
        assertEquals(0.708, match.interval().stops(), 0.05);
    }

    @Test
    void task17LiveStreamUntilTheTabletIsComplete() throws IOException {
        StepTablet tablet = StepTablet.calibrated("three steps", 0.05, 0.50, 0.95);
        LogLayout layout = LogLayout.parse("comma step=1 density=2");
        List<String> events = new ArrayList<>();
        RunningSummary running = RunningSummary.of(layout, tablet, ReadingOrder.FROM_CLEAR_END, 1);
        LogTally tally = DensitometerLogReader.of(layout)
                .read(
                        live(),
                        running.andThen(reading -> events.add(reading.toString()))
                                .until(running::isComplete));
        assertEquals(4, events.size());
        assertEquals(3, running.summary(tally).densities().size());
    }

    /** S01 was made 0.4 stop slower than 100: 75.79. As JSON: the program under {@code examples/consumer}, which {@code PublishedJarsIT} runs. */
    @Test
    void task18ResultsAsDataStripsAsKeys() throws IOException {
        Map<Strip, List<ResultRecord>> results = new HashMap<>();
        for (StripComparison row :
                FilmComparison.of(films().strips().subList(0, 3), "R00").rows()) {
            results.put(row.figures().strip(), row.records());
        }
        List<ResultRecord> found = results.get(films().strip("S01"));
        ResultRecord speed = found.stream()
                .filter(each -> each.name().equals("speed_exact"))
                .findFirst()
                .orElseThrow();
        Estimate estimate = speed.estimate().orElseThrow();
        assertEquals(75.79, estimate.value(), 3 * estimate.standardUncertainty());
    }

    /**
     * The least density read is 0.17180; 0.20 and 2.00 above it the logistic lies at log H −0.34563 and −1.40957, and S is 10
     * over the geometric mean of both exposures: 75.44, by hand. (ISO 2240:2003, from memory as {@link Iso2240} states.)
     */
    @Test
    void task19SpeedOfASlideFilm() {
        double[] logExposures =
                DoubleStream.iterate(-3, x -> x + 0.15).limit(24).toArray();
        double[] densities = Arrays.stream(logExposures)
                .map(x -> 0.15 + 3.1 / (1 + Math.exp(3 * (x + 1.2))))
                .toArray();
        Strip strip = Strip.builder("slide")
                .readings(ExposureSeries.ofLogLuxSeconds(logExposures), densities)
                .basePlusFog(3.25)
                .build();
        CharacteristicCurve curve = CharacteristicCurve.through(strip);
        assertEquals(75.44, Iso2240.withDefaults().determine(curve).exact(), 0.1);
    }

    /** The speed of the three layers by {@code demo_truth.py}. */
    @Test
    void task20SpeedOfAColourNegativeFilm() throws IOException {
        List<Strip> channels = List.of(films().strip("R00"), films().strip("S01"), films().strip("S02"));
        Iso5800Speed speed = ReadingUncertainty.of(Repeatability.of(0.01))
                .determine(
                        channels,
                        curves -> Iso5800.withDefaults()
                                .determine(new ColourCurves(curves.get(0), curves.get(1), curves.get(2))));
        Estimate exact = speed.exactEstimate().orElseThrow();
        assertEquals(103.98, exact.value(), 3 * exact.standardUncertainty());
    }

    /** A straight line on base plus fog of 0. */
    static final class Straight implements CurveModel {

        @Override
        public String name() {
            return "straight line";
        }

        @Override
        public List<String> parameters() {
            return List.of("density at zero", "gamma");
        }

        @Override
        public double density(double x, double[] p) {
            return p[0] + p[1] * x;
        }

        @Override
        public double gradient(double x, double[] p) {
            return p[1];
        }

        @Override
        public void derivatives(double x, double[] p, double[] derivatives) {
            derivatives[0] = 1;
            derivatives[1] = x;
        }

        @Override
        public double basePlusFog(double[] parameters) {
            return 0;
        }

        @Override
        public double[] start(double[] logExposures, double[] densities) {
            return new double[] {1, 1};
        }
    }

    private static Strip part(Strip strip, double from, double to) {
        Strip.Builder part = Strip.builder(strip.id());
        strip.steps().stream()
                .filter(step ->
                        step.exposure().value() >= from && step.exposure().value() <= to)
                .forEach(step -> part.reading(step.exposure(), step.density()));
        return part.build();
    }

    /** An even grey of density 1 with noise, 600 by 600 pixels of 16 bits. */
    private Path grainyTiff() throws IOException {
        BufferedImage image = new BufferedImage(600, 600, BufferedImage.TYPE_USHORT_GRAY);
        java.util.Random random = new java.util.Random(1);
        for (int y = 0; y < 600; y++) {
            for (int x = 0; x < 600; x++) {
                image.getRaster().setSample(x, y, 0, (int) (6000 + 150 * random.nextGaussian()));
            }
        }
        Path file = scratch.resolve("grain.tif");
        assertTrue(ImageIO.write(image, "tiff", file.toFile()));
        return file;
    }

    /** A stream that fails where somebody reads on after the tablet is complete. */
    private static InputStream live() {
        byte[] lines = "1,0.051\n1,0.052\n2,0.498\n3,0.953\n".getBytes(StandardCharsets.US_ASCII);
        return new ByteArrayInputStream(lines) {
            @Override
            public synchronized int read(byte[] into, int offset, int length) {
                if (available() == 0) {
                    throw new IllegalStateException("read beyond the last step");
                }
                return super.read(into, offset, Math.min(length, 8));
            }
        };
    }
}
