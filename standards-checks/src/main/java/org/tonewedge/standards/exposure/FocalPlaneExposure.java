// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.exposure;

import java.util.Objects;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.CameraSetting;
import org.tonewedge.core.quantity.LogExposure;

/**
 * The exposure that a camera gives the film, from the luminance of the subject:
 *
 * <p>H = q L t F² / (N² i²) + H<sub>f</sub>, &nbsp; q = (π / 4) T v cos<sup>4</sup> θ,
 *
 * <p>with luminance L in cd/m², time t in seconds, f-number N, focal length F, distance i of the film from the lens,
 * transmittance T and vignetting factor v of the lens, angle θ of the image point from the axis, and flare H<sub>f</sub>.
 * Focused at infinity, F = i.
 *
 * <p>Defaults: T 0.9, v 0.98, θ 10°, no flare, focused at infinity; then q is 0.652.
 *
 * <p>Immutable and thread safe; each {@code with…} method returns a changed copy.
 *
 * @source ISO 12232:2006 as implemented in a general-purpose imaging library (verified, secondary)
 */
public final class FocalPlaneExposure {

    private static final FocalPlaneExposure DEFAULTS = new FocalPlaneExposure(0.9, 0.98, 10, 0, 0);

    private final double transmittance;
    private final double vignetting;
    private final double angleDegrees;
    private final double flare;
    private final double magnification;

    private FocalPlaneExposure(
            double transmittance, double vignetting, double angleDegrees, double flare, double magnification) {
        this.transmittance = transmittance;
        this.vignetting = vignetting;
        this.angleDegrees = angleDegrees;
        this.flare = flare;
        this.magnification = magnification;
    }

    /**
     * Returns the method with its defaults.
     *
     * @return the method
     */
    public static FocalPlaneExposure withDefaults() {
        return DEFAULTS;
    }

    /**
     * Returns a copy for a lens with another transmittance.
     *
     * @param ofLens the transmittance, above 0 and at most 1
     * @return the copy
     * @throws IllegalArgumentException if the transmittance is out of range
     */
    public FocalPlaneExposure withTransmittance(double ofLens) {
        return new FocalPlaneExposure(
                fraction("transmittance of the lens", ofLens), vignetting, angleDegrees, flare, magnification);
    }

    /**
     * Returns a copy for a lens with another vignetting factor.
     *
     * @param factor the factor, above 0 and at most 1
     * @return the copy
     * @throws IllegalArgumentException if the factor is out of range
     */
    public FocalPlaneExposure withVignetting(double factor) {
        return new FocalPlaneExposure(
                transmittance, fraction("vignetting factor", factor), angleDegrees, flare, magnification);
    }

    /**
     * Returns a copy for another place in the frame.
     *
     * @param degrees the angle of the image point from the axis, from 0 to below 90
     * @return the copy
     * @throws IllegalArgumentException if the angle is out of range
     */
    public FocalPlaneExposure withAngle(double degrees) {
        return new FocalPlaneExposure(
                transmittance,
                vignetting,
                Checks.within("angle from the axis in degrees", degrees, 0, Math.nextDown(90.0), ""),
                flare,
                magnification);
    }

    /**
     * Returns a copy with flare.
     *
     * @param luxSeconds the exposure that flare adds everywhere, 0 or more
     * @return the copy
     * @throws IllegalArgumentException if the exposure is out of range
     */
    public FocalPlaneExposure withFlare(double luxSeconds) {
        return new FocalPlaneExposure(
                transmittance,
                vignetting,
                angleDegrees,
                Checks.within("flare in lux seconds", luxSeconds, 0, Double.MAX_VALUE, ""),
                magnification);
    }

    /**
     * Returns a copy for a camera focused at a finite distance.
     *
     * @param imageOverSubject the size of the image divided by that of the subject, 0 or more; i = F (1 + m)
     * @return the copy
     * @throws IllegalArgumentException if the magnification is out of range
     */
    public FocalPlaneExposure withMagnification(double imageOverSubject) {
        return new FocalPlaneExposure(
                transmittance,
                vignetting,
                angleDegrees,
                flare,
                Checks.within("magnification", imageOverSubject, 0, 1000, ""));
    }

    private static double fraction(String name, double value) {
        return Checks.within(name, value, Double.MIN_VALUE, 1, "");
    }

    /**
     * Returns the factor q from luminance to exposure.
     *
     * @return (π / 4) T v cos<sup>4</sup> θ
     */
    public double factor() {
        return Math.PI / 4 * transmittance * vignetting * Math.pow(Math.cos(Math.toRadians(angleDegrees)), 4);
    }

    /**
     * Returns the exposure of the film.
     *
     * @param setting the time, and the f-number marked for infinity
     * @param luminance the luminance of the subject in cd/m², above 0
     * @return the exposure on the absolute axis
     * @throws IllegalArgumentException if the luminance is not a finite number above 0
     */
    public LogExposure exposure(CameraSetting setting, double luminance) {
        double effective = setting.fNumber() * (1 + magnification);
        return LogExposure.ofLuxSeconds(factor()
                        * Checks.positive("luminance in cd/m²", luminance)
                        * setting.seconds()
                        / (effective * effective)
                + flare);
    }

    /**
     * Compares by value.
     *
     * @param other any object
     * @return true if the other is equal in all that it was made of
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof FocalPlaneExposure that
                && Double.compare(transmittance, that.transmittance) == 0
                && Double.compare(vignetting, that.vignetting) == 0
                && Double.compare(angleDegrees, that.angleDegrees) == 0
                && Double.compare(flare, that.flare) == 0
                && Double.compare(magnification, that.magnification) == 0;
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(transmittance, vignetting, angleDegrees, flare, magnification);
    }

    /**
     * Returns what this is, in words that may change.
     *
     * @return its options
     */
    @Override
    public String toString() {
        return "lens of transmittance " + Figures.plain(transmittance) + ", vignetting " + Figures.plain(vignetting)
                + ", "
                + Figures.plain(angleDegrees) + " degrees off axis, flare " + Figures.plain(flare) + ", magnification "
                + Figures.plain(magnification);
    }
}
