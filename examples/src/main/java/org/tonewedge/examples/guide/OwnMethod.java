// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.guide;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.CurvePoint;
import org.tonewedge.core.quantity.DensityDifference;
import org.tonewedge.core.strip.ReadingsTable;
import org.tonewedge.core.strip.Repeatability;
import org.tonewedge.examples.command.Terminal;
import org.tonewedge.standards.Criterion;
import org.tonewedge.standards.Evidence;
import org.tonewedge.standards.FigureDetermination;
import org.tonewedge.standards.ReadingUncertainty;

/** A method of your own: the exposure at 0.60 above base plus fog, with its evidence and its uncertainty. */
public final class OwnMethod {

    private OwnMethod() {}

    private static final Criterion CRITERION = new Criterion("middle tone, 0.60 above base plus fog", "my own");

    /** The result: a figure with its evidence. */
    private record MiddleTone(double figure, Evidence evidence) implements FigureDetermination<MiddleTone> {

        static MiddleTone determine(CharacteristicCurve curve) {
            CurvePoint point = curve.pointAbove(DensityDifference.of(0.60));
            return new MiddleTone(point.logExposure().value(), Evidence.of(CRITERION, List.of(point), List.of()));
        }

        @Override
        public MiddleTone withUncertainty(double standardUncertainty, double degreesOfFreedom) {
            return new MiddleTone(figure, evidence.withUncertainty(standardUncertainty, degreesOfFreedom));
        }
    }

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
     * Prints the figure with its uncertainty, and as data.
     *
     * @param args the folder of the demo data
     * @throws IOException if a file cannot be read
     */
    public static void run(String[] args) throws IOException {
        Path demo = Path.of(args[0]);
        ReadingsTable table = ReadingsTable.read(demo.resolve("strips.csv"));
        MiddleTone found =
                ReadingUncertainty.of(Repeatability.of(0.01)).determine(table.strip("R00"), MiddleTone::determine);
        System.out.println(found.estimate().orElseThrow());
        found.records().forEach(System.out::println);
    }
}
