// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.densitometer;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.Locale;
import java.util.Random;

/**
 * Makes the demo logs: an invented tablet read by three invented homebrew densitometers, one healthy, one with stray light
 * and one with a fault in its firmware's arithmetic; and readings for calibrating, for a control chart and for a comparison
 * of two instruments. Nothing in them was measured; the readings come from a formula with
 * seeded noise.
 */
public final class DemoLogs {

    private static final long SEED = 20_261_125;
    private static final int STEPS = 21;
    private static final int RUNS = 3;
    private static final int REPEATS = 3;
    private static final double OPEN_COUNTS = 48_000;
    private static final double DARK_COUNTS = 260;

    private final Random random = new Random(SEED);

    private DemoLogs() {}

    /**
     * Writes the demo files.
     *
     * @param args the directory they go to
     * @throws IOException if a file cannot be written
     */
    public static void main(String[] args) throws IOException {
        write(Path.of(args.length > 0 ? args[0] : "examples/demo/densitometer"));
    }

    static void write(Path directory) throws IOException {
        Files.createDirectories(directory);
        DemoLogs logs = new DemoLogs();
        write(directory, "tablet.csv", logs.certificate());
        write(directory, "healthy.log", logs.healthy());
        write(directory, "stray-light.csv", logs.strayLight());
        write(directory, "firmware-fault.tsv", logs.firmwareFault());
        write(directory, "calibration-points.csv", logs.calibrationPoints());
        write(directory, "check-piece.csv", logs.checkPiece());
        write(directory, "two-instruments.csv", logs.twoInstruments());
    }

    private static void write(Path directory, String name, String text) throws IOException {
        Files.write(directory.resolve(name), text.getBytes(StandardCharsets.ISO_8859_1));
    }

    private static double certified(int step) {
        return Math.rint((0.052 + 0.15 * (step - 1) + 0.006 * Math.sin(2.4 * step)) * 1000) / 1000;
    }

    /** The density the tablet has in truth: within the uncertainty of its certificate. */
    private static double truth(int step) {
        return certified(step) + 0.0025 * Math.sin(5.1 * step);
    }

    private String certificate() {
        StringBuilder text = new StringBuilder(
                "# An invented tablet; nothing here was measured\nstep,density,expanded_uncertainty,coverage_factor\n");
        for (int step = 1; step <= STEPS; step++) {
            text.append(format("%d,%.3f,0.006,2%n", step, certified(step)));
        }
        return text.toString();
    }

    /** Pairs of key and value, with the noise a serial line has: boot messages, a half line, a marker, foreign bytes. */
    private String healthy() {
        StringBuilder text = new StringBuilder("boot: homebrew densitometer (invented demo log)\r\nlamp: on\r\n\r\n");
        double milliseconds = 4200;
        for (int run = 0; run < RUNS; run++) {
            text.append("zero: ok\r\n");
            for (int step = 1; step <= STEPS; step++) {
                for (int repeat = 0; repeat < REPEATS; repeat++) {
                    milliseconds += 2400 + random.nextInt(300);
                    double density = truth(step) + 0.002 + 0.0015 * random.nextGaussian();
                    double celsius = 22.0 + 0.6 * Math.sin(milliseconds / 60_000) + 0.05 * random.nextGaussian();
                    String line = format("step=%d D=%.3f temp=%.1f ms=%.0f", step, density, celsius, milliseconds);
                    if (run == 1 && step == 7 && repeat == 1) {
                        line = line.substring(0, 10);
                    } else if (run == 2 && step == 12 && repeat == 0) {
                        line = line.substring(0, 9) + "\u00FF\u00FE" + line.substring(9);
                    }
                    text.append(line).append("\r\n");
                }
            }
        }
        return text.toString();
    }

    /** Columns without a header; the detector sees 0.0004 of the lamp past the sample. */
    private String strayLight() {
        StringBuilder text = new StringBuilder("# invented demo log\n");
        for (int run = 1; run <= RUNS; run++) {
            for (int step = 1; step <= STEPS; step++) {
                for (int repeat = 0; repeat < REPEATS; repeat++) {
                    double seen = -Math.log10(Math.pow(10, -truth(step)) + 0.0004);
                    text.append(format("%d,%.3f%n", step, seen + 0.0015 * random.nextGaussian()));
                }
            }
        }
        return text.toString();
    }

    /** Columns with a header; sound optics, but the firmware forgets to subtract the dark counts from the sample. */
    private String firmwareFault() {
        StringBuilder text = new StringBuilder("# invented demo log\nstep\tsample\tdark\topen\tdensity\n");
        for (int run = 1; run <= RUNS; run++) {
            for (int step = 1; step <= STEPS; step++) {
                for (int repeat = 0; repeat < REPEATS; repeat++) {
                    double light = OPEN_COUNTS * Math.pow(10, -truth(step));
                    long sample = Math.round(DARK_COUNTS + light + (1 + 0.002 * light) * 0.5 * random.nextGaussian());
                    long dark = Math.round(DARK_COUNTS);
                    long open = Math.round(DARK_COUNTS + OPEN_COUNTS);
                    double printed = Math.log10((double) (open - dark) / sample);
                    text.append(format("%d\t%d\t%d\t%d\t%.3f%n", step, sample, dark, open, printed));
                }
            }
        }
        return text.toString();
    }

    /** An open gate and three steps, read five times each by an instrument with stray light and a slope of 1.02. */
    private String calibrationPoints() {
        StringBuilder text =
                new StringBuilder("# invented demo readings\npoint,density,expanded_uncertainty,sample,dark,open\n");
        for (int step : new int[] {0, 4, 11, 21}) {
            for (int repeat = 0; repeat < REPEATS + 2; repeat++) {
                double truth = step == 0 ? 0 : truth(step);
                double light = OPEN_COUNTS * Math.pow(Math.pow(10, -truth) + 2e-4, 1.02);
                text.append(format(
                        "%s,%.3f,%s,%d,%.0f,%.0f%n",
                        step == 0 ? "open gate" : "step " + step,
                        step == 0 ? 0 : certified(step),
                        step == 0 ? "0" : "0.006",
                        Math.round(DARK_COUNTS + light + (1 + 0.002 * light) * 0.5 * random.nextGaussian()),
                        DARK_COUNTS,
                        DARK_COUNTS + OPEN_COUNTS));
            }
        }
        return text.toString();
    }

    /** One piece of film read three times a week; after 24 weeks the lamp begins to age. */
    private String checkPiece() {
        StringBuilder text = new StringBuilder("# invented demo readings of one check piece\ndate,reading\n");
        LocalDate day = LocalDate.of(2026, 1, 5);
        for (int week = 0; week < 30; week++) {
            double session = 1.502 + 0.002 * random.nextGaussian() + 0.0016 * Math.max(0, week - 23);
            for (int repeat = 0; repeat < REPEATS; repeat++) {
                text.append(format("%s,%.3f%n", day.plusWeeks(week), session + 0.001 * random.nextGaussian()));
            }
        }
        return text.toString();
    }

    /** The tablet read by two instruments, the second of which reads 0.4 % higher. */
    private String twoInstruments() {
        StringBuilder text = new StringBuilder("# invented demo readings\nsample,first,second\n");
        for (int step = 1; step <= STEPS; step++) {
            for (int repeat = 0; repeat < 2; repeat++) {
                text.append(format(
                        "step %d,%.3f,%.3f%n",
                        step,
                        truth(step) + 0.003 * random.nextGaussian(),
                        1.004 * truth(step) + 0.002 + 0.003 * random.nextGaussian()));
            }
        }
        return text.toString();
    }

    private static String format(String pattern, Object... values) {
        return String.format(Locale.ROOT, pattern.replace("%n", "\n"), values);
    }
}
