// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.internal;

/** A curve that is a cubic between any two neighbouring joints, with a continuous gradient. */
public interface Jointed {

    /**
     * Returns the joints.
     *
     * @return where one cubic ends and the next begins, rising
     */
    double[] joints();
}
