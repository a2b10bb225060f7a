// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.quantity;

import java.util.List;

/**
 * A result that can be written down as named values, in a fixed order: determinations, fits, comparisons and verdicts.
 *
 * <p>Implementations are immutable and thread safe.
 */
public interface Recorded {

    /**
     * Returns the result as named values.
     *
     * @return the records, in a fixed order, names without repetition
     */
    List<ResultRecord> records();
}
