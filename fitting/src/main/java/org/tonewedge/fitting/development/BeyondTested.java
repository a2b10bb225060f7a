// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.development;

/** What is done with a question beyond the tested times and temperatures. */
enum BeyondTested {
    /** It is refused. */
    REFUSE,
    /** It is answered by the model, and the answer is flagged as extrapolated. An interpolation still refuses. */
    FLAG
}
