// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards;

import java.util.ArrayList;
import java.util.List;
import org.tonewedge.core.curve.CurvePoint;
import org.tonewedge.core.quantity.ResultRecord;

/** What every determination has, as records. */
final class DeterminationRecords {

    private DeterminationRecords() {}

    static List<ResultRecord> of(Determination determination) {
        List<ResultRecord> records = new ArrayList<>();
        records.add(ResultRecord.ofText("criterion", determination.criterion().name()));
        records.add(ResultRecord.ofText("source", determination.criterion().source()));
        int number = 1;
        for (CurvePoint point : determination.points()) {
            String name = "point." + number++;
            records.add(ResultRecord.ofNumber(
                    name + ".log_exposure",
                    point.logExposure().value(),
                    "log10 " + point.logExposure().axis()));
            records.add(ResultRecord.ofNumber(name + ".density", point.density().value(), "density"));
        }
        number = 1;
        for (Condition condition : determination.conditions()) {
            String name = "condition." + number++;
            records.add(ResultRecord.ofText(name, condition.requirement()));
            records.add(ResultRecord.ofText(name + ".found", condition.found()));
            records.add(ResultRecord.ofText(name + ".met", Boolean.toString(condition.isMet())));
        }
        records.add(ResultRecord.ofText("conditions_met", Boolean.toString(determination.conditionsMet())));
        return List.copyOf(records);
    }
}
