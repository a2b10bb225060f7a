// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.internal;

import java.util.OptionalDouble;

/**
 * What a fit takes for granted.
 *
 * @param loss how residuals count
 * @param knownVariance the variance of a reading of weight 1; empty if it is to be taken from the residuals
 * @param penalised whether softnesses may be held near usual ones where they are undetermined
 * @param leastOffset the least offset allowed
 */
public record FitSettings(Loss loss, OptionalDouble knownVariance, boolean penalised, double leastOffset) {}
