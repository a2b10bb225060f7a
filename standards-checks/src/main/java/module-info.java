// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
/**
 * Published methods that read a figure off a characteristic curve, each as a small class named after its standard or its
 * author.
 *
 * <p>Every method returns a {@link org.tonewedge.standards.Determination}: the figure, the points it was read at, the
 * criterion with its source, and whether the method's own conditions were met. Beside them,
 * {@link org.tonewedge.standards.densitometer.verdict} tells whether the densitometer behind the readings may be trusted.
 */
module org.tonewedge.standards {
    requires transitive org.tonewedge.core;
    requires org.tonewedge.fitting;

    exports org.tonewedge.standards;
    exports org.tonewedge.standards.comparison;
    exports org.tonewedge.standards.film;
    exports org.tonewedge.standards.contrast;
    exports org.tonewedge.standards.densitometer.input;
    exports org.tonewedge.standards.densitometer.summary;
    exports org.tonewedge.standards.densitometer.verdict;
    exports org.tonewedge.standards.densitometer.calibration;
    exports org.tonewedge.standards.densitometer.control;
    exports org.tonewedge.standards.densitometer.agreement;
    exports org.tonewedge.standards.colour;
    exports org.tonewedge.standards.paper;
    exports org.tonewedge.standards.density;
    exports org.tonewedge.standards.exchange;
    exports org.tonewedge.standards.radiography;
    exports org.tonewedge.standards.exposure;
    exports org.tonewedge.standards.detail;
}
