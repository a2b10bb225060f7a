// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.chart;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.InterruptedIOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;
import java.util.function.Function;

/** Writes charts to a folder in the formats asked for. Thread safe. */
public final class ChartFiles {

    /** Pixels of an image for each unit of the drawing, enough for print at 300 dots per inch and 10 cm width. */
    private static final int SCALE = 2;

    /** A kind of file. */
    public enum Format {
        /** Lines and letters, for pages and print. */
        SVG,
        /** Pixels, for where SVG is not taken. */
        PNG;

        /**
         * Returns the ending of its files.
         *
         * @return for example {@code svg}
         */
        public String ending() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    private final Path folder;
    private final Set<Format> formats;

    /**
     * Begins to write charts.
     *
     * @param folder where the files go; made where it is not there
     * @param formats the kinds of file for each chart
     */
    public ChartFiles(Path folder, Set<Format> formats) {
        this.folder = folder;
        this.formats = Set.copyOf(formats);
    }

    /**
     * Loads what charts need, above all their letters, on a thread of its own, so that the first chart need not wait for it.
     * Call it where a program begins, before it reads its input.
     */
    public static void prepare() {
        System.setProperty("java.awt.headless", "true");
        Thread loading = new Thread(ChartFiles::drawForNobody, "charts");
        loading.setDaemon(true);
        // What fails here fails again with the first chart, and is told then.
        loading.setUncaughtExceptionHandler((thread, failure) -> {});
        loading.start();
    }

    private static void drawForNobody() {
        Axis axis = Axis.of("log H", 0, 1, 0.5);
        Plot plot = new Plot(axis, axis, 10, 10);
        double[] ends = {0, 1};
        plot.line(ends, ends, Line.solid(ChartStyle.INK, 1));
        plot.points(ends, ends, Symbol.CIRCLE, 1, ChartStyle.INK, false);
        Drawing drawing = new Chart("", "", plot, List.of()).drawing();
        drawing.svg();
        try {
            new PngImage(drawing.image(1)).write(OutputStream.nullOutputStream(), drawing.colours());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /**
     * Returns the kinds of file written for each chart.
     *
     * @return the formats
     */
    public Set<Format> formats() {
        return formats;
    }

    /**
     * Writes a chart.
     *
     * @param chart the chart
     * @param name the file name without its ending
     * @throws IOException if a file cannot be written
     */
    public void write(Chart chart, String name) throws IOException {
        if (formats.isEmpty()) {
            return;
        }
        Files.createDirectories(folder);
        Drawing drawing = chart.drawing();
        if (formats.contains(Format.SVG)) {
            Files.writeString(folder.resolve(name + ".svg"), drawing.svg());
        }
        if (formats.contains(Format.PNG)) {
            try (OutputStream out = new BufferedOutputStream(Files.newOutputStream(folder.resolve(name + ".png")))) {
                new PngImage(drawing.image(SCALE)).write(out, drawing.colours());
            }
        }
    }

    /**
     * Writes a picture in greys of 16 bits, if PNG is asked for.
     *
     * @param width its width
     * @param height its height
     * @param codes its greys, row by row
     * @param name the file name with its ending
     * @throws IOException if the file cannot be written
     */
    public void writeGrey(int width, int height, char[] codes, String name) throws IOException {
        if (formats.contains(Format.PNG)) {
            Files.createDirectories(folder);
            try (OutputStream out = new BufferedOutputStream(Files.newOutputStream(folder.resolve(name)))) {
                PngImage.writeGrey(width, height, codes, out);
            }
        }
    }

    /** Work that needs no chart. */
    @FunctionalInterface
    public interface Work {

        /**
         * Does the work.
         *
         * @throws IOException if a file cannot be written
         */
        void run() throws IOException;
    }

    /**
     * Writes a chart for each item on all cores while this thread does other work; as many charts are in memory as there are
     * cores.
     *
     * @param <T> what a chart is drawn of
     * @param items the items
     * @param name the file name of an item's chart without its ending
     * @param chart draws an item's chart; called by several threads
     * @param done told of each chart written; called by several threads
     * @param meanwhile the other work
     * @throws IOException if a file cannot be written; charts not yet begun are left out, and no thread writes any longer
     */
    public <T> void writeAll(
            List<T> items, Function<T, String> name, Function<T, Chart> chart, Consumer<T> done, Work meanwhile)
            throws IOException {
        if (formats.isEmpty()) {
            meanwhile.run();
            return;
        }
        ExecutorService workers =
                Executors.newFixedThreadPool(Runtime.getRuntime().availableProcessors());
        try {
            List<Future<?>> running = new ArrayList<>();
            for (T item : items) {
                running.add(workers.submit(() -> {
                    write(chart.apply(item), name.apply(item));
                    done.accept(item);
                    return null;
                }));
            }
            meanwhile.run();
            for (Future<?> one : running) {
                await(one);
            }
        } finally {
            stop(workers);
        }
    }

    /** Waits for the charts that are being written, whose folder may be taken away next: an interrupt does not end it. */
    private static void stop(ExecutorService workers) {
        workers.shutdownNow();
        boolean interrupted = Thread.interrupted();
        boolean ended = false;
        while (!ended) {
            try {
                // A chart takes less than a second.
                ended = workers.awaitTermination(1, TimeUnit.MINUTES);
            } catch (InterruptedException e) {
                interrupted = true;
            }
        }
        if (interrupted) {
            Thread.currentThread().interrupt();
        }
    }

    private static void await(Future<?> one) throws IOException {
        try {
            one.get();
        } catch (ExecutionException e) {
            if (e.getCause() instanceof IOException failed) {
                throw failed;
            } else if (e.getCause() instanceof RuntimeException failed) {
                throw failed;
            } else if (e.getCause() instanceof Error failed) {
                throw failed;
            }
            throw new IllegalStateException(e.getCause());
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new InterruptedIOException("interrupted while drawing");
        }
    }
}
