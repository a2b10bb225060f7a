// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.spline;

/**
 * How the smoothing of a spline is chosen from the readings themselves.
 *
 * <p>N readings, residual sum of squares RSS over all of them (repeats included), effective degrees of freedom df; B =
 * R + λQ<sup>T</sup>W<sup>−1</sup>Q is the banded matrix of {@link SmoothingSpline}, z the second divided differences
 * Q<sup>T</sup>y of the n step means.
 */
public enum SmoothingCriterion {

    /**
     * The least N RSS / (N − 1.2 df)<sup>2</sup>: cross-validation in which each degree of freedom costs a fifth more,
     * so that noise is not taken for shape. On simulated strips of 21 and 31 steps it comes closer to the truth than
     * plain cross-validation, and its standard errors are honest. The factor was chosen on strips of the kind in
     * {@code SimulatedStripsTest}.
     *
     * <p>Source: Y.-J. Kim and C. Gu, Smoothing spline Gaussian regression: more scalable computation via efficient
     * approximation, Journal of the Royal Statistical Society B 66 (2004) 337–356, who suggest a factor of 1.4 (citation
     * from memory).
     */
    PENALISED_CROSS_VALIDATION,

    /**
     * The least N RSS / (N − df)<sup>2</sup>: an estimate of the error in predicting an omitted reading. With few
     * readings it sometimes takes noise for shape and smooths too little.
     *
     * <p>Source: P. Craven and G. Wahba, Smoothing noisy data with spline functions, Numerische Mathematik 31 (1979)
     * 377–403 (citation from memory).
     */
    GENERALISED_CROSS_VALIDATION,

    /**
     * The greatest restricted likelihood of the spline, seen as a random curve (an integrated Wiener process about an
     * unknown straight line) plus noise: the least (N − 2) log s<sup>2</sup> + log |B| − (n − 2) log λ, where
     * s<sup>2</sup> is (λ z<sup>T</sup>B<sup>−1</sup>z + RSS within steps) / (N − 2). Such a random curve bends equally
     * everywhere, but a characteristic curve does not: on short strips with little noise this criterion hardly smooths
     * at all.
     *
     * <p>Source: G. Wahba, A comparison of GCV and GML for choosing the smoothing parameter in the generalized spline
     * smoothing problem, Annals of Statistics 13 (1985) 1378–1402 (citation from memory).
     */
    RESTRICTED_MAXIMUM_LIKELIHOOD,

    /**
     * The least RSS / σ<sup>2</sup> + 2 df, an unbiased estimate of the error of the curve if the standard deviation σ
     * of a reading is known. It needs a stated repeatability.
     *
     * <p>Source: P. Craven and G. Wahba (1979), as above, after C. L. Mallows.
     */
    UNBIASED_RISK
}
