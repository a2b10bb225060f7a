// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.film;

import java.util.ArrayList;
import java.util.List;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.ResultRecord;

/**
 * A speed by a standard whose speeds are printed on boxes, so that it can be rounded to one of them and compared with
 * one. Speeds by other criteria have their own scales and are not an {@code IsoFilmSpeed}.
 *
 * <p>It may carry the name of its standard only if {@link #conditionsMet()}.
 *
 * @param <D> the speed itself
 */
public interface IsoFilmSpeed<D extends IsoFilmSpeed<D>> extends FilmSpeed<D> {

    /**
     * Returns the nominal speed nearest to the exact speed.
     *
     * @return the rounded speed, arithmetic and in degrees
     * @throws IllegalArgumentException if the exact speed is outside the scale of {@link IsoSpeed};
     *     {@link IsoSpeed#nearestOnScale(double)} of {@link #exact()} returns empty instead
     */
    default IsoSpeed rounded() {
        return IsoSpeed.nearest(exact());
    }

    /**
     * Returns how far the film is from a stated speed, such as that on its box.
     *
     * @param speed the stated arithmetic speed, above 0
     * @return positive if the film is faster than stated, negative if it is slower
     * @throws IllegalArgumentException if the speed is not a finite number above 0
     */
    default ExposureInterval comparedWith(double speed) {
        return ExposureInterval.ofRatio(exact()).minus(ExposureInterval.ofRatio(speed));
    }

    /**
     * Returns the speed as named values: {@code nominal_speed} and {@code nominal_degrees} where the scale has them, and
     * what every speed has.
     *
     * @return the records
     */
    @Override
    default List<ResultRecord> records() {
        List<ResultRecord> records = new ArrayList<>();
        IsoSpeed.nearestOnScale(exact()).ifPresent(nominal -> {
            records.add(ResultRecord.ofNumber("nominal_speed", nominal.arithmetic(), "1/(lx·s)"));
            records.add(ResultRecord.ofNumber("nominal_degrees", nominal.degrees(), "degrees"));
        });
        records.addAll(FilmSpeed.super.records());
        return List.copyOf(records);
    }
}
