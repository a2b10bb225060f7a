// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.tone;

import java.util.Collection;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.function.Supplier;

/** What could not be determined, each with the reason and told once. Not thread safe. */
final class Notices {

    private final Set<String> notices = new LinkedHashSet<>();

    /** Determines a figure; if it cannot be had, a notice says of what, and why. */
    <T> Finding<T> determine(String what, Supplier<T> figure) {
        Finding<T> finding = Finding.of(figure);
        if (finding.figure().isEmpty()) {
            notices.add(what + ": " + finding.reason());
        }
        return finding;
    }

    void add(String notice) {
        notices.add(notice);
    }

    void addAll(Collection<String> more) {
        notices.addAll(more);
    }

    List<String> all() {
        return List.copyOf(notices);
    }
}
