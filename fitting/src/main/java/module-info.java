// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
/** Splines, toe-shoulder models and development models fitted to strips. */
@SuppressWarnings("module") // the qualified export names a module that is compiled after this one
module org.tonewedge.fitting {
    requires transitive org.tonewedge.core;

    exports org.tonewedge.fitting.development;
    exports org.tonewedge.fitting.parametric;
    exports org.tonewedge.fitting.spline;
    exports org.tonewedge.fitting.numeric to
            org.tonewedge.standards;
}
