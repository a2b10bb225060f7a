// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.guide;

import java.io.IOException;
import java.nio.file.Path;
import org.tonewedge.core.curve.CurveAnatomy;
import org.tonewedge.core.quantity.DensityDifference;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.strip.ReadingsTable;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.examples.command.Terminal;
import org.tonewedge.fitting.parametric.CurveFamily;
import org.tonewedge.fitting.parametric.CurveFit;
import org.tonewedge.fitting.parametric.CurveFits;
import org.tonewedge.fitting.parametric.FittedCurve;
import org.tonewedge.fitting.parametric.RobustLoss;

/** A curve fitted to noisy readings, its uncertainty, and the readings it distrusts. */
public final class FitAStrip {

    private FitAStrip() {}

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
     * Prints what the README shows.
     *
     * @param args the folder of the demo data
     * @throws IOException if a file cannot be read
     */
    public static void run(String[] args) throws IOException {
        Path demo = Path.of(args[0]);
        Strip strip = ReadingsTable.read(demo.resolve("strips.csv")).strip("S23");
        FittedCurve fit =
                CurveFit.of(CurveFamily.TOE_SHOULDER).with(RobustLoss.TUKEY).fit(strip);
        Estimate speedPoint = fit.estimate(curve ->
                curve.pointAbove(DensityDifference.of(0.10)).logExposure().value());
        System.out.println("log H of the speed point " + speedPoint);
        System.out.println("gamma "
                + fit.estimate(curve ->
                        CurveAnatomy.of(curve).requireStraightLine().gamma().value()));
        fit.outliers().forEach(System.out::println);
        System.out.println(CurveFits.compare(strip).best().family());
    }
}
