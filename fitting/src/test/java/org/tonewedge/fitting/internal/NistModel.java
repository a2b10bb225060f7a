// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.internal;

import java.util.LinkedHashMap;
import java.util.Map;

/** The models of NIST's 27 nonlinear regression problems; parameters are counted from 0, so b[0] is NIST's b1. */
@FunctionalInterface
interface NistModel {

    double value(double[] b, double[] x);

    /** All models by the name of their data set. */
    static Map<String, NistModel> all() {
        Map<String, NistModel> models = new LinkedHashMap<>();
        models.put("Misra1a", (b, x) -> b[0] * (1 - Math.exp(-b[1] * x[0])));
        models.put("Chwirut2", (b, x) -> Math.exp(-b[0] * x[0]) / (b[1] + b[2] * x[0]));
        models.put("Chwirut1", (b, x) -> Math.exp(-b[0] * x[0]) / (b[1] + b[2] * x[0]));
        models.put("Lanczos3", NistModel::exponentials);
        models.put("Gauss1", NistModel::peaks);
        models.put("Gauss2", NistModel::peaks);
        models.put("DanWood", (b, x) -> b[0] * Math.pow(x[0], b[1]));
        models.put("Misra1b", (b, x) -> b[0] * (1 - Math.pow(1 + b[1] * x[0] / 2, -2)));
        models.put("Kirby2", (b, x) -> polynomial(x[0], b[0], b[1], b[2]) / polynomial(x[0], 1, b[3], b[4]));
        models.put("Hahn1", (b, x) -> polynomial(x[0], b[0], b[1], b[2], b[3]) / polynomial(x[0], 1, b[4], b[5], b[6]));
        models.put("Nelson", (b, x) -> b[0] - b[1] * x[0] * Math.exp(-b[2] * x[1]));
        models.put("MGH17", (b, x) -> b[0] + b[1] * Math.exp(-x[0] * b[3]) + b[2] * Math.exp(-x[0] * b[4]));
        models.put("Lanczos1", NistModel::exponentials);
        models.put("Lanczos2", NistModel::exponentials);
        models.put("Gauss3", NistModel::peaks);
        models.put("Misra1c", (b, x) -> b[0] * (1 - Math.pow(1 + 2 * b[1] * x[0], -0.5)));
        models.put("Misra1d", (b, x) -> b[0] * b[1] * x[0] / (1 + b[1] * x[0]));
        models.put("Roszman1", (b, x) -> b[0] - b[1] * x[0] - Math.atan(b[2] / (x[0] - b[3])) / Math.PI);
        models.put("ENSO", NistModel::cycles);
        models.put("MGH09", (b, x) -> b[0] * (x[0] * x[0] + x[0] * b[1]) / polynomial(x[0], b[3], b[2], 1));
        models.put(
                "Thurber", (b, x) -> polynomial(x[0], b[0], b[1], b[2], b[3]) / polynomial(x[0], 1, b[4], b[5], b[6]));
        models.put("BoxBOD", (b, x) -> b[0] * (1 - Math.exp(-b[1] * x[0])));
        models.put("Rat42", (b, x) -> b[0] / (1 + Math.exp(b[1] - b[2] * x[0])));
        models.put("MGH10", (b, x) -> b[0] * Math.exp(b[1] / (x[0] + b[2])));
        models.put("Eckerle4", (b, x) -> b[0] / b[1] * Math.exp(-0.5 * square((x[0] - b[2]) / b[1])));
        models.put("Rat43", (b, x) -> b[0] / Math.pow(1 + Math.exp(b[1] - b[2] * x[0]), 1 / b[3]));
        models.put("Bennett5", (b, x) -> b[0] * Math.pow(b[1] + x[0], -1 / b[2]));
        return models;
    }

    private static double exponentials(double[] b, double[] x) {
        return b[0] * Math.exp(-b[1] * x[0]) + b[2] * Math.exp(-b[3] * x[0]) + b[4] * Math.exp(-b[5] * x[0]);
    }

    private static double peaks(double[] b, double[] x) {
        return b[0] * Math.exp(-b[1] * x[0])
                + b[2] * Math.exp(-square((x[0] - b[3]) / b[4]))
                + b[5] * Math.exp(-square((x[0] - b[6]) / b[7]));
    }

    private static double cycles(double[] b, double[] x) {
        return b[0] + cycle(x[0], 12, b[1], b[2]) + cycle(x[0], b[3], b[4], b[5]) + cycle(x[0], b[6], b[7], b[8]);
    }

    private static double cycle(double x, double period, double cosine, double sine) {
        double angle = 2 * Math.PI * x / period;
        return cosine * Math.cos(angle) + sine * Math.sin(angle);
    }

    private static double polynomial(double x, double... factors) {
        double value = 0;
        for (int i = factors.length - 1; i >= 0; i--) {
            value = value * x + factors[i];
        }
        return value;
    }

    private static double square(double value) {
        return value * value;
    }
}
