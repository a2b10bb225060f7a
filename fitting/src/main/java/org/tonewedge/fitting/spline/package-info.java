/**
 * Smoothing splines: a curve through a strip's readings that owes its shape to them alone and smooths their noise as
 * much as they call for.
 *
 * <p>Enter at {@link org.tonewedge.fitting.spline.SmoothingSpline}; its result is a
 * {@link org.tonewedge.fitting.spline.SplineFit}.
 *
 * <pre>{@code
 * SplineFit fit = SmoothingSpline.withDefaults().withShape(SplineShape.MONOTONE).fit(strip);
 * CharacteristicCurve curve = fit.curve();
 * Estimate density = fit.densityAt(LogExposure.ofLogLuxSeconds(-1.2)); // with its standard uncertainty
 * }</pre>
 *
 * <p>A fit takes a few microseconds. {@code mvn -B -Pbenchmark -pl fitting -am verify -DskipTests
 * -Dmaven.javadoc.skip=true} measures it beside R's smooth.spline, where R is installed, and prints the ratios.
 *
 * <p>All types are immutable and thread safe.
 */
package org.tonewedge.fitting.spline;
