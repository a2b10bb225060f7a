// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards;

import java.util.ArrayList;
import java.util.List;

/** All rows of the verification table. */
final class PublishedChecks {

    private PublishedChecks() {}

    static List<VerificationRow> rows() {
        List<VerificationRow> rows = new ArrayList<>();
        rows.addAll(MethodChecks.rows());
        rows.addAll(FilmChecks.rows());
        rows.addAll(ContrastChecks.rows());
        rows.addAll(ExposureChecks.rows());
        rows.addAll(DensityChecks.rows());
        return List.copyOf(rows);
    }
}
