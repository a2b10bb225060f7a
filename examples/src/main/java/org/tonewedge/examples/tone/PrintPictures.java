// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.tone;

import java.util.OptionalDouble;

/**
 * What pictures of prints show, and how.
 *
 * @param scene the subject
 * @param viewingFlare light that the surface of the print reflects, as a part of the white
 * @param enlargement how many times the film is enlarged for simulated grain; nothing for no grain
 */
record PrintPictures(Scene scene, double viewingFlare, OptionalDouble enlargement) {

    /** The invented scene without flare and grain. */
    static PrintPictures usual() {
        return new PrintPictures(Scene.invented(), 0, OptionalDouble.empty());
    }
}
