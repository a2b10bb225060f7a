// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

/** The end of the step tablet at which the reading of a strip begins. */
public enum ReadingOrder {

    /** Step 1 first: the step that lay under the clear end of the tablet and received the most exposure. */
    FROM_CLEAR_END,

    /** The last step first: the one that lay under the dense end of the tablet and received the least exposure. */
    FROM_DENSE_END
}
