/** Splines, toe-shoulder models and development models fitted to strips. */
module org.tonewedge.fitting {
    requires transitive org.tonewedge.core;
    requires commons.math3;
    requires ejml.core;
    requires ejml.ddense;

    exports org.tonewedge.fitting.development;
    exports org.tonewedge.fitting.parametric;
    exports org.tonewedge.fitting.spline;
}
