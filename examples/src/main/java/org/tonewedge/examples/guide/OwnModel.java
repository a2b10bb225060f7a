// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.guide;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.tonewedge.core.strip.ReadingsTable;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.examples.command.Terminal;
import org.tonewedge.fitting.parametric.CurveFits;
import org.tonewedge.fitting.parametric.CurveModel;
import org.tonewedge.fitting.parametric.FittedModel;
import org.tonewedge.fitting.parametric.ModelFit;
import org.tonewedge.standards.film.Iso6;

/** A formula of your own, fitted to a strip, read by a published method and set beside the library's model. */
public final class OwnModel {

    private OwnModel() {}

    /** D = B + R (2/π) atan(e^z), z = (x − m)/w: the Gudermannian function, another sigmoid. */
    private static final class Gudermannian implements CurveModel {

        @Override
        public String name() {
            return "Gudermannian";
        }

        @Override
        public List<String> parameters() {
            return List.of("base plus fog", "range", "middle", "width");
        }

        @Override
        public double density(double x, double[] p) {
            return p[3] > 0 ? p[0] + p[1] * 2 / Math.PI * Math.atan(Math.exp((x - p[2]) / p[3])) : Double.NaN;
        }

        @Override
        public double gradient(double x, double[] p) {
            return p[1] / (Math.PI * p[3] * Math.cosh((x - p[2]) / p[3]));
        }

        @Override
        public void derivatives(double x, double[] p, double[] derivatives) {
            derivatives[0] = 1;
            derivatives[1] = 2 / Math.PI * Math.atan(Math.exp((x - p[2]) / p[3]));
            derivatives[2] = -gradient(x, p);
            derivatives[3] = -gradient(x, p) * (x - p[2]) / p[3];
        }

        @Override
        public double[] start(double[] logExposures, double[] densities) {
            int last = densities.length - 1;
            double middle = 0.5 * (logExposures[0] + logExposures[last]);
            return new double[] {densities[0], Math.max(0.1, densities[last] - densities[0]), middle, 0.5};
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
     * Prints the fit, the speed read off its curve, and how much the readings prefer it.
     *
     * @param args the folder of the demo data
     * @throws IOException if a file cannot be read
     */
    public static void run(String[] args) throws IOException {
        Path demo = Path.of(args[0]);
        Strip strip = ReadingsTable.read(demo.resolve("strips.csv")).strip("S12");
        FittedModel fit = ModelFit.of(new Gudermannian()).fit(strip);
        System.out.println(fit.parameter("range"));
        System.out.println(Iso6.withDefaults().determine(fit.curve()));
        System.out.printf("%.3f%n", fit.weightBeside(CurveFits.toeShoulder(strip)));
    }
}
