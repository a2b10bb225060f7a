// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.methods;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;

/**
 * What a question is asked of.
 *
 * @param file the table
 * @param reference the strip or film that others are set beside
 * @param frame the frame whose patches are compared
 * @param density the density above base plus fog at which exposures are compared
 * @param uncertainty the standard uncertainty of each log exposure, or of each density where densities are compared
 * @param noise constant and slope of the noise against density; empty if not stated
 * @param baseline how many of the first runs set the limits; 0 for the limits by default
 */
record MethodInput(
        Path file,
        Optional<String> reference,
        Optional<String> frame,
        double density,
        double uncertainty,
        List<Double> noise,
        int baseline) {}
