// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.comparison;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.tonewedge.standards.SystematicUncertainty;

/**
 * How a figure scatters from strip to strip of a film, apart from the stated errors that several strips have in common. An error
 * in common does not show among the strips that share it, so the scatter is that within groups of strips with the same common
 * errors, and what they contribute to the mean is told beside it. An error of a single strip shows in its group's scatter, or is
 * told as well if the strip is alone in its group.
 *
 * @param variance the pooled variance within groups, or of all strips if each is a group of its own
 * @param degreesOfFreedom of the variance
 * @param common what stated errors contribute to the mean of all strips
 */
record StripScatter(double variance, int degreesOfFreedom, SystematicUncertainty common) {

    static StripScatter of(List<Figure> given) {
        Map<String, Long> strips = given.stream()
                .flatMap(figure -> contributions(figure).keySet().stream())
                .collect(Collectors.groupingBy(source -> source, LinkedHashMap::new, Collectors.counting()));
        Map<Set<String>, List<Figure>> groups = given.stream()
                .collect(Collectors.groupingBy(
                        figure -> contributions(figure).keySet().stream()
                                .filter(source -> strips.get(source) > 1)
                                .collect(Collectors.toSet()),
                        LinkedHashMap::new,
                        Collectors.toList()));
        boolean isWithin = groups.size() < given.size();
        List<List<Figure>> parts = isWithin ? List.copyOf(groups.values()) : List.of(given);
        Map<String, Double> common = new LinkedHashMap<>();
        for (List<Figure> part : parts) {
            for (Figure figure : part) {
                contributions(figure).forEach((source, contribution) -> {
                    if (strips.get(source) > 1 || part.size() == 1) {
                        common.merge(source, contribution / given.size(), Double::sum);
                    }
                });
            }
        }
        int degrees = given.size() - parts.size();
        double squares = parts.stream().mapToDouble(StripScatter::squares).sum();
        return new StripScatter(squares / degrees, degrees, SystematicUncertainty.ofContributions(common));
    }

    private static Map<String, Double> contributions(Figure figure) {
        return figure.statedErrors().contributions();
    }

    private static double squares(List<Figure> figures) {
        double mean = figures.stream()
                .mapToDouble(figure -> figure.value().orElseThrow())
                .average()
                .orElseThrow();
        return figures.stream()
                .mapToDouble(figure -> figure.value().orElseThrow() - mean)
                .map(deviation -> deviation * deviation)
                .sum();
    }
}
