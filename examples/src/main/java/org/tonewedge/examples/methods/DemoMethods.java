// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.methods;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Random;

/**
 * Makes the demo tables of {@link MethodsProgram}. Nothing in them was measured: each comes from a formula with seeded noise,
 * whose truth its method states.
 */
public final class DemoMethods {

    private static final long SEED = 20_261_126;
    private static final String INVENTED = "# invented demo readings; nothing here was measured\n";

    private final Random random = new Random(SEED);

    private DemoMethods() {}

    /**
     * Writes the demo files.
     *
     * @param args the directory they go to
     * @throws IOException if a file cannot be written
     */
    public static void main(String[] args) throws IOException {
        write(Path.of(args.length > 0 ? args[0] : "examples/demo/methods"));
    }

    static void write(Path directory) throws IOException {
        Files.createDirectories(directory);
        DemoMethods demo = new DemoMethods();
        Files.writeString(directory.resolve("filters.csv"), demo.filters());
        Files.writeString(directory.resolve("spectrogram.csv"), demo.spectrogram());
        Files.writeString(directory.resolve("callier.csv"), demo.callier());
        Files.writeString(directory.resolve("tinted-bases.csv"), tintedBases());
        Files.writeString(directory.resolve("reciprocity.csv"), demo.reciprocity());
        Files.writeString(directory.resolve("flare.csv"), demo.flare());
        Files.writeString(directory.resolve("shadow-frames.csv"), demo.shadowFrames());
        Files.writeString(directory.resolve("control-strips.csv"), demo.controlStrips());
    }

    private double noise(double deviation) {
        return deviation * random.nextGaussian();
    }

    private static double curve(double logExposure) {
        return 0.25 + 0.3 * Math.log1p(Math.exp((logExposure + 2.2) / 0.45));
    }

    /** A yellow filter of factor 2 and a red one of factor 8. */
    private String filters() {
        StringBuilder text = new StringBuilder("strip,film,log_exposure,density\n");
        String[] strips = {"no filter", "yellow", "red"};
        double[] factors = {1, 2, 8};
        for (int strip = 0; strip < strips.length; strip++) {
            text.append(format("%s,Alder Demo 100,,0.25%n", strips[strip]));
            for (int step = 0; step < 28; step++) {
                double log = -3.4 + 0.15 * step;
                text.append(format(
                        "%s,Alder Demo 100,%.2f,%.3f%n",
                        strips[strip], log, curve(log - Math.log10(factors[strip])) + noise(0.002)));
            }
        }
        return text.toString();
    }

    /** A film that is most sensitive at 540 nm and falls steeply beyond 640 nm. */
    private String spectrogram() {
        StringBuilder text = new StringBuilder(INVENTED + "wavelength,wedge_density,u,relative_energy\n");
        for (int nm = 400; nm <= 680; nm += 20) {
            double energy = Math.pow(10, (nm - 560) / 400.0);
            double sensitivity = -Math.pow((nm - 540) / 220.0, 2) - Math.log1p(Math.exp((nm - 650) / 15.0));
            text.append(
                    format("%d,%.3f,0.02,%.3f%n", nm, 3.0 + sensitivity + Math.log10(energy) + noise(0.01), energy));
        }
        return text.toString();
    }

    /** Q is 1.32. */
    private String callier() {
        StringBuilder text = new StringBuilder(INVENTED + "place,diffuse,specular\nbase,0.25,0.26\n");
        for (int i = 1; i <= 8; i++) {
            double net = 0.2 * i;
            text.append(format("%d,%.3f,%.3f%n", i, 0.25 + net, 0.26 + 1.32 * net + noise(0.008)));
        }
        return text.toString();
    }

    /** Two films of alike visual base, one of them tinted. */
    private static String tintedBases() {
        return INVENTED + "film,response,density\n"
                + "Alder Demo 100,visual,0.25\nAlder Demo 100,status_m_blue,0.27\n"
                + "Birch Demo 400,visual,0.28\nBirch Demo 400,status_m_blue,0.46\n";
    }

    /** Schwarzschild's exponent is 0.86. */
    private String reciprocity() {
        StringBuilder text = new StringBuilder(INVENTED + "seconds,log_exposure,u\n");
        for (double seconds : new double[] {1, 3, 10, 30, 100, 300}) {
            text.append(format("%.0f,%.3f,0.01%n", seconds, -1.20 + 0.14 * Math.log10(seconds) + noise(0.01)));
        }
        return text.toString();
    }

    /** The flare is 0.012 of the bare source. */
    private String flare() {
        StringBuilder text = new StringBuilder(INVENTED + "density,log_exposure,u\n");
        for (int i = 0; i < 12; i++) {
            double density = 0.05 + 0.25 * i;
            text.append(format(
                    "%.2f,%.3f,0.01%n", density, -0.5 + Math.log10(Math.pow(10, -density) + 0.012) + noise(0.01)));
        }
        return text.toString();
    }

    /** The shadow reaches 0.10 at an index of 160 and of 250. */
    private String shadowFrames() {
        StringBuilder text = new StringBuilder(INVENTED + "film,exposure_index,net_density,u,box_speed\n");
        for (int index : new int[] {400, 320, 250, 200, 160, 125, 100}) {
            text.append(format(
                    "Alder Demo 200,%d,%.3f,0.004,200%n",
                    index, 0.10 + 0.18 * Math.log10(160.0 / index) + noise(0.002)));
        }
        for (int index : new int[] {800, 400, 200, 100}) {
            text.append(format(
                    "Birch Demo 400,%d,%.3f,0.004,400%n",
                    index, 0.10 + 0.20 * Math.log10(250.0 / index) + noise(0.002)));
        }
        return text.toString();
    }

    /** Sound runs, then a developer that loses strength from run 15 on. */
    private String controlStrips() {
        StringBuilder text =
                new StringBuilder(INVENTED + "run,base_plus_fog,speed_point,high_step\nreference,0.280,0.720,1.350\n");
        for (int run = 1; run <= 18; run++) {
            double weak = 0.02 * Math.max(0, run - 14);
            double common = noise(0.012);
            text.append(format(
                    "%d,%.3f,%.3f,%.3f%n",
                    run,
                    0.280 + noise(0.004),
                    0.720 + common - weak,
                    1.350 + 1.5 * common - 2.2 * weak + noise(0.008)));
        }
        return text.toString();
    }

    private static String format(String pattern, Object... values) {
        return String.format(Locale.ROOT, pattern.replace("%n", "\n"), values);
    }
}
