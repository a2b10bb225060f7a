// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.paper;

import java.util.Optional;
import org.tonewedge.core.quantity.ExposureInterval;

/**
 * The contrast grades of papers, by their log exposure range: six grades from 0.50 to 1.70, and a seventh that a draft
 * added below.
 *
 * <p>A grade includes its lower limit and ends just below its upper limit. ISO 6846 itself defines no grades; makers'
 * grades differ.
 *
 * @source ANSI PH2.2-1966 as reported in the Focal Encyclopedia of Photography, page 679: six grades, the limits 0.50 and
 *     1.70 and the labels of the outer two; grade 6 from 0.35 to 0.50 in an unreleased draft of 1978 (verified,
 *     secondary). The limits between the grades and the other labels from memory.
 */
public enum PaperGrade {
    /** Grade 0, very soft: 1.40 to 1.70. */
    GRADE_0(0, "very soft", 1.40, 1.70),
    /** Grade 1, soft: 1.15 to 1.40. */
    GRADE_1(1, "soft", 1.15, 1.40),
    /** Grade 2, medium: 0.95 to 1.15. */
    GRADE_2(2, "medium", 0.95, 1.15),
    /** Grade 3, hard: 0.80 to 0.95. */
    GRADE_3(3, "hard", 0.80, 0.95),
    /** Grade 4, very hard: 0.65 to 0.80. */
    GRADE_4(4, "very hard", 0.65, 0.80),
    /** Grade 5, extra hard: 0.50 to 0.65. */
    GRADE_5(5, "extra hard", 0.50, 0.65),
    /** Grade 6 of the draft, without a label: 0.35 to 0.50. */
    GRADE_6(6, "", 0.35, 0.50);

    private static final double ROUNDING = 1e-9;

    private final int number;
    private final String label;
    private final double from;
    private final double to;

    PaperGrade(int number, String label, double from, double to) {
        this.number = number;
        this.label = label;
        this.from = from;
        this.to = to;
    }

    /**
     * Returns the grade of a log exposure range.
     *
     * @param range the log exposure range of the paper
     * @return the grade; empty if the range is below 0.35, or is 1.70 or more
     */
    public static Optional<PaperGrade> of(ExposureInterval range) {
        for (PaperGrade grade : values()) {
            if (range.logUnits() >= grade.from - ROUNDING && range.logUnits() < grade.to - ROUNDING) {
                return Optional.of(grade);
            }
        }
        return Optional.empty();
    }

    /**
     * Returns the least range of the grade.
     *
     * @return the lower limit, which belongs to the grade
     */
    public ExposureInterval lowestRange() {
        return ExposureInterval.ofLogUnits(from);
    }

    /**
     * Returns the range at which the next softer grade begins.
     *
     * @return the upper limit, which does not belong to the grade
     */
    public ExposureInterval highestRange() {
        return ExposureInterval.ofLogUnits(to);
    }

    /**
     * Returns the grade as printed on a box.
     *
     * @return for example {@code grade 2 (medium)}
     */
    @Override
    public String toString() {
        return "grade " + number + (label.isEmpty() ? "" : " (" + label + ")");
    }
}
