// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.verdict;

/** How much a finding matters compared with the tolerance. */
public enum Severity {

    /** Worth knowing; the densitometer is as good as required. */
    NOTE,

    /** The effect takes more than half of the tolerance, or weakens the evidence of the check. */
    WARNING,

    /** The effect alone exceeds the tolerance, or the densities cannot be believed; the check fails. */
    FAULT
}
