// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;

/** Fields of a table that cannot be used, gathered so that one run names them all, or the first {@value #MOST}. */
final class BadFields {

    /** Where so many are bad, one change usually mends them all. */
    static final int MOST = 20;

    private final List<ReadingsException> faults = new ArrayList<>();

    void add(ReadingsException fault) {
        faults.add(fault);
    }

    /** Whether there is more than will be named, so that reading on is of no use. */
    boolean isFull() {
        return faults.size() > MOST;
    }

    /** Throws the first fault, which also says where the others are; does nothing if there is none. */
    void refuse() {
        if (faults.isEmpty()) {
            return;
        }
        ReadingsException first = faults.get(0);
        boolean inSeveralColumns =
                faults.stream().map(ReadingsException::column).distinct().count() > 1;
        throw faults.size() == 1
                ? first
                : first.followedBy("look also at "
                        + faults.subList(1, Math.min(faults.size(), MOST)).stream()
                                .map(fault -> fault.placeAndValue(inSeveralColumns))
                                .collect(Collectors.joining(", "))
                        + (isFull() ? ", …" : ""));
    }
}
