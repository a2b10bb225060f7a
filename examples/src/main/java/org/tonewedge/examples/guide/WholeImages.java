// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.guide;

import java.io.IOException;
import java.nio.file.Path;
import java.util.concurrent.ForkJoinPool;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.InverseCurveTable;
import org.tonewedge.core.curve.OutsideSamples;
import org.tonewedge.core.curve.SampleConversion;
import org.tonewedge.core.curve.SampleCounts;
import org.tonewedge.core.strip.ReadingsTable;
import org.tonewedge.examples.command.Terminal;

/** A scan of a negative turned into the exposures of the scene, in place and on all processors. */
public final class WholeImages {

    private WholeImages() {}

    /**
     * Runs the program on a terminal, where signs that it lacks are spelt.
     *
     * @param args the folder of the demo data
     * @throws IOException if a file cannot be read
     */
    public static void main(String[] args) throws IOException {
        Terminal.spellOut();
        run(args);
    }

    /**
     * Prints what became of the samples.
     *
     * @param args the folder of the demo data
     * @throws IOException if a file cannot be read
     */
    public static void run(String[] args) throws IOException {
        Path demo = Path.of(args[0]);
        CharacteristicCurve curve = CharacteristicCurve.through(
                ReadingsTable.read(demo.resolve("strips.csv")).strip("R00"));
        InverseCurveTable table = InverseCurveTable.ofSteepestBranch(curve);
        float[] image = new float[1_000_000];
        for (int i = 0; i < image.length; i++) {
            image[i] = i * 2e-6f; // densities from 0 to 2
        }
        SampleConversion conversion = table.conversion().with(OutsideSamples.MARK_AS_NAN);
        SampleCounts counts = conversion.withExecutor(ForkJoinPool.commonPool()).convert(image, image);
        System.out.println(counts);
        System.out.println(table.lowestDensity() + " to " + table.highestDensity());
    }
}
