// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.radiography;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.Gradient;
import org.tonewedge.standards.Condition;

/**
 * The classes of industrial film systems, by their gradients at densities 2.0 and 4.0 above base plus fog and their
 * granularity σ<sub>D</sub> at 2.0: G<sub>2</sub>, G<sub>4</sub> and G<sub>2</sub>/σ<sub>D</sub> are at least, and
 * σ<sub>D</sub> is at most, what the table says.
 *
 * <table>
 * <caption>Limits of the classes</caption>
 * <tr><th>class</th><th>G<sub>2</sub></th><th>G<sub>4</sub></th><th>G<sub>2</sub>/σ<sub>D</sub></th><th>σ<sub>D</sub></th></tr>
 * <tr><td>Special</td><td>4.5</td><td>7.5</td><td>300</td><td>0.018</td></tr>
 * <tr><td>I</td><td>4.1</td><td>6.8</td><td>150</td><td>0.028</td></tr>
 * <tr><td>II</td><td>3.8</td><td>6.4</td><td>120</td><td>0.032</td></tr>
 * <tr><td>III</td><td>3.5</td><td>5.0</td><td>100</td><td>0.039</td></tr>
 * <tr><td>W-A</td><td>3.8</td><td>5.7</td><td>135</td><td>0.027</td></tr>
 * <tr><td>W-B</td><td>3.5</td><td>5.0</td><td>110</td><td>0.032</td></tr>
 * <tr><td>W-C</td><td>none</td><td>none</td><td>80</td><td>0.039</td></tr>
 * </table>
 *
 * @source ASTM E1815-08 (2013), table 1 (verified in a copy). The gradients printed for W-C, "less than 3.5" and "less
 *     than 5.0", set no lower limit.
 */
public enum IndustrialFilmClass {
    /** Class Special, with its limits in the table above. */
    SPECIAL(4.5, 7.5, 300, 0.018),
    /** Class I, with its limits in the table above. */
    I(4.1, 6.8, 150, 0.028),
    /** Class II, with its limits in the table above. */
    II(3.8, 6.4, 120, 0.032),
    /** Class III, with its limits in the table above. */
    III(3.5, 5.0, 100, 0.039),
    /** Class W-A, with its limits in the table above. */
    W_A(3.8, 5.7, 135, 0.027),
    /** Class W-B, with its limits in the table above. */
    W_B(3.5, 5.0, 110, 0.032),
    /** Class W-C, with its limits in the table above. */
    W_C(0, 0, 80, 0.039);

    private final double gradientAt2;
    private final double gradientAt4;
    private final double gradientOverGranularity;
    private final double granularity;

    IndustrialFilmClass(double gradientAt2, double gradientAt4, double gradientOverGranularity, double granularity) {
        this.gradientAt2 = gradientAt2;
        this.gradientAt4 = gradientAt4;
        this.gradientOverGranularity = gradientOverGranularity;
        this.granularity = granularity;
    }

    /**
     * Returns the conditions that this class sets for a film system, and whether they are met.
     *
     * @param at2 the gradient at 2.0 above base plus fog
     * @param at4 the gradient at 4.0 above base plus fog
     * @param standardDeviation the granularity σ<sub>D</sub> at 2.0, above 0
     * @return the four conditions
     * @throws IllegalArgumentException if the granularity is not a finite number above 0
     */
    public List<Condition> conditions(Gradient at2, Gradient at4, double standardDeviation) {
        double ratio = at2.value() / Checks.positive("granularity", standardDeviation);
        return List.of(
                limit("gradient at 2.0 at least ", gradientAt2, at2.value(), at2.value() >= gradientAt2),
                limit("gradient at 4.0 at least ", gradientAt4, at4.value(), at4.value() >= gradientAt4),
                limit(
                        "gradient over granularity at least ",
                        gradientOverGranularity,
                        ratio,
                        ratio >= gradientOverGranularity),
                limit("granularity at most ", granularity, standardDeviation, standardDeviation <= granularity));
    }

    private static Condition limit(String what, double limit, double found, boolean met) {
        String requirement = what + Figures.plain(limit);
        return met
                ? Condition.met(requirement, "found " + Figures.plain(found))
                : Condition.notMet(
                        requirement, "found " + Figures.plain(found), "the film system belongs to another class");
    }

    /**
     * Returns the best of the classes Special, I, II and III to which a film system belongs.
     *
     * @param at2 the gradient at 2.0 above base plus fog
     * @param at4 the gradient at 4.0 above base plus fog
     * @param standardDeviation the granularity σ<sub>D</sub> at 2.0, above 0
     * @return the class; empty if the system meets none
     * @throws IllegalArgumentException if the granularity is not a finite number above 0
     */
    public static Optional<IndustrialFilmClass> of(Gradient at2, Gradient at4, double standardDeviation) {
        return Stream.of(SPECIAL, I, II, III)
                .filter(candidate -> candidate.conditions(at2, at4, standardDeviation).stream()
                        .allMatch(Condition::isMet))
                .findFirst();
    }
}
