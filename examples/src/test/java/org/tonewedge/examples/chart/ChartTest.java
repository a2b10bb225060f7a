// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.chart;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.Color;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.File;
import java.io.IOException;
import java.io.InterruptedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.regex.Pattern;
import java.util.stream.IntStream;
import javax.imageio.ImageIO;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A chart is right in its files: places, letters, colours, and nothing of the machine in it. */
class ChartTest {

    private static final Set<ChartFiles.Format> BOTH = EnumSet.allOf(ChartFiles.Format.class);

    @TempDir
    private Path folder;

    private static Chart chart(String title) {
        Plot plot = new Plot(Axis.of("log H", -3, 0, 0.5), Axis.of("density", 0, 2, 0.5), 300, 200);
        plot.line(new double[] {-3, 0}, new double[] {0, 2}, Line.solid(Color.BLUE, 2));
        plot.points(new double[] {-1.5}, new double[] {1}, Symbol.TRIANGLE, 4, Color.RED, true);
        plot.upwardInterval(-1, 0.5, 1.5, Line.solid(Color.RED, 1));
        return new Chart(title, "", plot, List.of(LegendItem.line(title, Line.dashed(Color.BLUE, 2))));
    }

    private static String svg(Chart chart) throws Exception {
        String svg = chart.drawing().svg();
        DocumentBuilderFactory.newInstance()
                .newDocumentBuilder()
                .parse(new ByteArrayInputStream(svg.getBytes(StandardCharsets.UTF_8)));
        return svg;
    }

    /** A viewer without the font of charts would draw wider letters. */
    @Test
    void legendsKeepTheirWidthInAnyFont() throws Exception {
        Plot plot = new Plot(Axis.of("log H", -3, 0, 0.5), Axis.of("density", 0, 2, 0.5), 300, 200);
        Line line = Line.solid(Color.BLUE, 2);
        String svg = svg(new Chart(
                "A",
                "",
                plot,
                List.of(
                        LegendItem.line("reference", line),
                        LegendItem.line("WWWWWWWW", line),
                        LegendItem.line("i", line))));
        double end = 0;
        for (String label : List.of("reference", "WWWWWWWW", "i")) {
            var text = Pattern.compile(
                            "<text x=\"([\\d.]+)\"[^>]* textLength=\"([\\d.]+)\" lengthAdjust=\"spacingAndGlyphs\""
                                    + "[^>]*>" + label + "<")
                    .matcher(svg);
            assertTrue(text.find(), svg);
            double x = Double.parseDouble(text.group(1));
            assertTrue(x > end + 20, label + " at " + x + " after " + end);
            end = x + Double.parseDouble(text.group(2));
        }
    }

    @Test
    void aTextAtTheRightSideIsNotCutOff() throws Exception {
        Plot plot = new Plot(Axis.of("log H", -3, 0, 0.5), Axis.of("density", 0, 2, 0.5), 300, 200);
        plot.text("a long text", -2, 1, 7, 0, Anchor.START, Color.RED);
        plot.text("another text", -0.1, 1, 7, 0, Anchor.START, Color.RED);
        String svg = svg(new Chart("A", "", plot, List.of()));
        assertFalse(
                Pattern.compile("text-anchor[^>]*>a long text<").matcher(svg).find(), svg);
        assertTrue(
                Pattern.compile("text-anchor=\"end\"[^>]*>another text<")
                        .matcher(svg)
                        .find(),
                svg);
    }

    @Test
    void theAreaOfDataHasItsSizeAndValuesTheirPlace() throws Exception {
        String svg = svg(chart("A"));
        var clip = Pattern.compile("<rect x=\"([\\d.]+)\" y=\"([\\d.]+)\" width=\"300\" height=\"200\"/></clipPath>")
                .matcher(svg);
        assertTrue(clip.find(), svg);
        double left = Double.parseDouble(clip.group(1));
        double top = Double.parseDouble(clip.group(2));
        String diagonal = "M" + SvgText.number(left) + "," + SvgText.number(top + 200) + "L"
                + SvgText.number(left + 300) + "," + SvgText.number(top);
        assertTrue(svg.contains(diagonal), () -> diagonal + " in " + svg);
    }

    @Test
    void anyTextMakesWellFormedFiles() throws Exception {
        for (String title :
                List.of("<b>&\"'", "bell \u0007 and \ud800 alone", "x".repeat(10_000), "\u6e05\u6d41", "")) {
            Chart chart = chart(title);
            svg(chart);
            Drawing drawing = chart.drawing();
            assertTrue(drawing.image(1).getWidth() < 500, "a long name does not widen the chart");
        }
    }

    @Test
    void numbersAndAxesKnowNoLocale() {
        Locale before = Locale.getDefault();
        try {
            Locale.setDefault(Locale.GERMANY);
            String german = chart("A").drawing().svg();
            Locale.setDefault(Locale.forLanguageTag("ar-EG-u-nu-arab"));
            String arabic = chart("A").drawing().svg();
            Locale.setDefault(Locale.ROOT);
            assertEquals(chart("A").drawing().svg(), german);
            assertEquals(german, arabic);
            assertTrue(german.contains(">\u22122.5<"), german);
        } finally {
            Locale.setDefault(before);
        }
    }

    @Test
    void ticksLieInsideAndLabelsDoNotTouch() {
        assertEquals(List.of(-1.0, -0.5, 0.0, 0.5), Axis.of("", -1.2, 0.7, 0.5).ticks());
        assertEquals(List.of(0.0, 0.5, 1.0), Axis.of("", 1.0, 0.0, 0.5).ticks());
        assertEquals("0.02", Axis.round("", -0.05, 0.05).label().apply(0.02));
        // labels of 15 pixels fit every 1.5th tick of 10 pixels and every 15th of 1, rounded up to 1, 2 or 5 times a
        // power of 10
        assertEquals(2, Axis.of("", 0, 10, 1).labelEvery(15, 100));
        assertEquals(20, Axis.of("", 0, 1000, 1).labelEvery(15, 1000));
    }

    @Test
    void theImageShowsTheMarks() {
        Drawing drawing = new Drawing("marks", 20, 20);
        drawing.area(new double[] {0, 10, 10, 0}, new double[] {0, 0, 10, 10}, Color.BLUE);
        drawing.points(new double[] {15}, new double[] {15}, Symbol.CIRCLE, 3, Color.RED, true);
        drawing.line(new double[] {15, 15}, new double[] {0, 8}, Line.solid(Color.GREEN, 2));
        BufferedImage image = drawing.image(1);
        assertEquals(Color.BLUE.getRGB(), image.getRGB(5, 5));
        assertEquals(Color.RED.getRGB(), image.getRGB(15, 15));
        assertEquals(Color.GREEN.getRGB(), image.getRGB(15, 4));
        assertEquals(Color.WHITE.getRGB(), image.getRGB(5, 15));
    }

    @Test
    void pngGivesThePixelsBack() throws IOException {
        BufferedImage few = new BufferedImage(40, 30, BufferedImage.TYPE_INT_RGB);
        BufferedImage many = new BufferedImage(80, 80, BufferedImage.TYPE_INT_RGB);
        for (int x = 0; x < 80; x++) {
            for (int y = 0; y < 80; y++) {
                many.setRGB(x, y, ((x * 3) << 16) | ((y * 3) << 8) | ((x * y) & 0xff));
                if (x < 40 && y < 30) {
                    few.setRGB(x, y, ((x % 10) << 20) | 0x1234);
                }
            }
        }
        for (BufferedImage image : List.of(few, many)) {
            ByteArrayOutputStream bytes = new ByteArrayOutputStream();
            new PngImage(image).write(bytes, List.of(Color.WHITE));
            BufferedImage back = ImageIO.read(new ByteArrayInputStream(bytes.toByteArray()));
            for (int i = 0; i < image.getWidth() * image.getHeight(); i++) {
                int x = i % image.getWidth();
                int y = i / image.getWidth();
                assertEquals(image.getRGB(x, y), back.getRGB(x, y), x + "," + y);
            }
        }
    }

    /**
     * Thinning by Douglas and Peucker keeps every left-out point within the tolerance of the line, which is upwards as much more
     * as the line is longer than its horizontal part: the logistic is steepest in its middle, 100 / (4 · 60 · 0.4) = 1.042.
     */
    @Test
    void thinningLeavesNoVisibleDifference() {
        double[] xs = IntStream.rangeClosed(0, 1000).mapToDouble(i -> i * 0.4).toArray();
        double[] ys = IntStream.rangeClosed(0, 1000)
                .mapToDouble(i -> 100 / (1 + Math.exp(-(i - 500) / 60.0)))
                .toArray();
        boolean[] kept = Thinning.kept(xs, ys, 0.06);
        double[] keptXs = Thinning.select(xs, kept);
        double[] keptYs = Thinning.select(ys, kept);
        assertTrue(keptXs.length < 60, () -> keptXs.length + " points");
        int segment = 0;
        for (int i = 0; i < xs.length; i++) {
            while (keptXs[segment + 1] < xs[i]) {
                segment++;
            }
            double share = (xs[i] - keptXs[segment]) / (keptXs[segment + 1] - keptXs[segment]);
            double onLine = keptYs[segment] + share * (keptYs[segment + 1] - keptYs[segment]);
            assertEquals(ys[i], onLine, 0.06 * Math.hypot(1, 1.042), "at " + xs[i]);
        }
    }

    @Test
    void onlyTheFormatsAskedForAreWritten() throws IOException {
        new ChartFiles(folder.resolve("none"), Set.of()).write(chart("A"), "a");
        new ChartFiles(folder, Set.of(ChartFiles.Format.SVG)).write(chart("A"), "a");
        assertFalse(Files.exists(folder.resolve("none")));
        assertTrue(Files.exists(folder.resolve("a.svg")));
        assertFalse(Files.exists(folder.resolve("a.png")));
    }

    @Test
    void allChartsAreWrittenAndAFaultOfOneIsTold() throws IOException {
        List<String> names = IntStream.range(0, 20).mapToObj(i -> "c" + i).toList();
        ChartFiles files = new ChartFiles(folder, BOTH);
        files.writeAll(
                names,
                name -> name,
                ChartTest::chart,
                name -> {},
                () -> Files.writeString(folder.resolve("other.txt"), "other work"));
        assertEquals(41, filesWritten());
        assertThrows(
                IllegalStateException.class,
                () -> files.writeAll(
                        names,
                        name -> name,
                        name -> {
                            throw new IllegalStateException(name);
                        },
                        name -> {},
                        () -> {}));
    }

    @Test
    void nothingIsWrittenAnyLongerOnceTheOtherWorkHasFailed() throws Exception {
        List<String> names = IntStream.range(0, 200).mapToObj(i -> "c" + i).toList();
        CountDownLatch begun = new CountDownLatch(1);
        IOException failed = assertThrows(
                IOException.class,
                () -> new ChartFiles(folder, BOTH)
                        .writeAll(
                                names,
                                name -> name,
                                name -> {
                                    begun.countDown();
                                    return chart(name);
                                },
                                name -> {},
                                () -> {
                                    await(begun);
                                    throw new IOException("the disk is full");
                                }));
        assertEquals("the disk is full", failed.getMessage());
        long written = filesWritten();
        assertTrue(written < 400, written + " files");
        Thread.sleep(100);
        assertEquals(written, filesWritten());
    }

    /** An interrupt ends the work, but only after the charts that are being drawn. */
    @Test
    void anInterruptedWorkWaitsForItsCharts() {
        CountDownLatch begun = new CountDownLatch(1);
        AtomicInteger drawing = new AtomicInteger();
        assertThrows(
                InterruptedIOException.class,
                () -> new ChartFiles(folder, BOTH)
                        .writeAll(
                                List.of("a", "b", "c", "d", "e"),
                                name -> name,
                                name -> {
                                    drawing.incrementAndGet();
                                    begun.countDown();
                                    long end = System.nanoTime() + TimeUnit.MILLISECONDS.toNanos(100);
                                    while (System.nanoTime() < end) {
                                        Thread.onSpinWait();
                                    }
                                    drawing.decrementAndGet();
                                    return chart(name);
                                },
                                name -> {},
                                () -> {
                                    await(begun);
                                    Thread.currentThread().interrupt();
                                }));
        assertTrue(Thread.interrupted());
        assertEquals(0, drawing.get());
    }

    private static void await(CountDownLatch latch) {
        try {
            assertTrue(latch.await(1, TimeUnit.MINUTES));
        } catch (InterruptedException e) {
            throw new IllegalStateException(e);
        }
    }

    private long filesWritten() throws IOException {
        try (var written = Files.list(folder)) {
            return written.count();
        }
    }

    /** Draws charts with a title; run in a process of its own. */
    public static final class Draw {

        private Draw() {}

        /**
         * Draws.
         *
         * @param args the folder and the title
         */
        public static void main(String[] args) throws IOException {
            System.setProperty("java.awt.headless", "true");
            ChartFiles files = new ChartFiles(Path.of(args[0]), BOTH);
            for (int i = 0; i < 3; i++) {
                files.write(chart(args[1]), "plain-" + i);
            }
        }
    }

    /**
     * The platform's fonts are looked up by its font manager; how often that was begun is counted by the classes loaded.
     */
    @Test
    void noChartLooksForAnInstalledFont() throws Exception {
        assertEquals(List.of(), fontManagersOf("Ambergrove 100 \u2212 \u0394D \u00bd"));
        assertFalse(fontManagersOf("\u6e05\u6d41").isEmpty(), "letters that the embedded font lacks");
    }

    private List<String> fontManagersOf(String title) throws Exception {
        Path log = folder.resolve("loaded.txt");
        Path java = Path.of(System.getProperty("java.home"), "bin", "java");
        String path = String.join(
                File.pathSeparator,
                rootOf(ChartTest.class),
                rootOf(Chart.class),
                System.getProperty("jdk.module.path", ""),
                System.getProperty("java.class.path"));
        Process process = new ProcessBuilder(
                        java.toString(),
                        "-Xlog:class+load",
                        "-Dfile.encoding=UTF-8",
                        "-cp",
                        path,
                        Draw.class.getName(),
                        folder.toString(),
                        title)
                .redirectErrorStream(true)
                .redirectOutput(log.toFile())
                .start();
        assertEquals(0, process.waitFor(), () -> log.toString());
        assertTrue(Files.exists(folder.resolve("plain-2.png")));
        try (var lines = Files.lines(log)) {
            return lines.filter(line -> line.matches(".*sun\\.(font|awt)\\.\\w*Font(Manager|Configuration)[ $].*"))
                    .toList();
        }
    }

    /** The folder that a class was compiled into. */
    private static String rootOf(Class<?> type) throws Exception {
        String file = type.getName().replace('.', '/') + ".class";
        Path path = Path.of(type.getResource("/" + file).toURI());
        for (int i = 0; i < Path.of(file).getNameCount(); i++) {
            path = path.getParent();
        }
        return path.toString();
    }
}
