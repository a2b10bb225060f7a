// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.exposure;

import java.util.Objects;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.quantity.CameraSetting;
import org.tonewedge.core.quantity.LogExposure;

/**
 * The camera setting that an exposure meter gives, by its calibration constants:
 *
 * <p>reflected light N² / t = L S / K, &nbsp; incident light N² / t = E S / C,
 *
 * <p>with luminance L in cd/m², illuminance E in lux, arithmetic speed S, f-number N and time t in seconds. The
 * exposure value, log<sub>2</sub>(N² / t), is that of a {@link CameraSetting}.
 *
 * <p>Defaults: K 12.5, C 250. Immutable and thread safe; each {@code with…} method returns a changed copy.
 *
 * @source ISO 2720:1974, formulas and ranges of the constants as carried by a general-purpose imaging library and an
 *     encyclopedia's article on light meters (verified, secondary); K 12.5 and C 250 as constants in common use
 *     (verified, secondary)
 */
public final class ExposureMeter {

    private static final ExposureMeter DEFAULTS = new ExposureMeter(12.5, 250);

    private final double reflected;
    private final double incident;

    private ExposureMeter(double reflected, double incident) {
        this.reflected = reflected;
        this.incident = incident;
    }

    /**
     * Returns a meter with K 12.5 and C 250.
     *
     * @return the meter
     */
    public static ExposureMeter withDefaults() {
        return DEFAULTS;
    }

    /**
     * Returns a copy with another constant for reflected light.
     *
     * @param constant K, from 10.6 to 14: the range of ISO 2720 and the 14 that some makers use
     * @return the copy
     * @throws IllegalArgumentException if the constant is out of range
     */
    public ExposureMeter withReflectedConstant(double constant) {
        return new ExposureMeter(Checks.within("meter constant K", constant, 10.6, 14, ""), incident);
    }

    /**
     * Returns a copy with another constant for incident light.
     *
     * @param constant C, from 240 to 400 for a flat receptor, from 320 to 540 for a hemispherical one
     * @return the copy
     * @throws IllegalArgumentException if the constant is not from 240 to 540
     */
    public ExposureMeter withIncidentConstant(double constant) {
        return new ExposureMeter(reflected, Checks.within("meter constant C", constant, 240, 540, ""));
    }

    /**
     * Returns the exposure value at speed 100 that is equivalent to a setting at another speed.
     *
     * @param setting the setting of the camera
     * @param speed the arithmetic speed, above 0
     * @return log<sub>2</sub>(N² / t) − log<sub>2</sub>(S / 100)
     * @throws IllegalArgumentException if the speed is not a finite number above 0
     */
    public static double exposureValueAtSpeed100(CameraSetting setting, double speed) {
        return setting.exposureValue() - binaryLogarithm(speed(speed) / 100);
    }

    /**
     * Returns the exposure value for a luminance.
     *
     * @param luminance the luminance in cd/m², above 0
     * @param speed the arithmetic speed, above 0
     * @return log<sub>2</sub>(L S / K)
     * @throws IllegalArgumentException if a number is not a finite number above 0
     */
    public double exposureValueOfLuminance(double luminance, double speed) {
        return binaryLogarithm(Checks.positive("luminance in cd/m²", luminance) * speed(speed) / reflected);
    }

    /**
     * Returns the exposure value for an illuminance.
     *
     * @param illuminance the illuminance in lux, above 0
     * @param speed the arithmetic speed, above 0
     * @return log<sub>2</sub>(E S / C)
     * @throws IllegalArgumentException if a number is not a finite number above 0
     */
    public double exposureValueOfIlluminance(double illuminance, double speed) {
        return binaryLogarithm(Checks.positive("illuminance in lux", illuminance) * speed(speed) / incident);
    }

    /**
     * Returns the luminance for which the meter gives a setting.
     *
     * @param setting the setting of the camera
     * @param speed the arithmetic speed, above 0
     * @return K N² / (t S)
     * @throws IllegalArgumentException if the speed is not a finite number above 0
     * @units cd/m²
     */
    public double luminance(CameraSetting setting, double speed) {
        return reflected * setting.fNumber() * setting.fNumber() / setting.seconds() / speed(speed);
    }

    /**
     * Returns the illuminance for which the meter gives a setting.
     *
     * @param setting the setting of the camera
     * @param speed the arithmetic speed, above 0
     * @return C N² / (t S)
     * @throws IllegalArgumentException if the speed is not a finite number above 0
     * @units lux
     */
    public double illuminance(CameraSetting setting, double speed) {
        return incident * setting.fNumber() * setting.fNumber() / setting.seconds() / speed(speed);
    }

    /**
     * Returns the exposure of the film where the subject has the metered luminance, q K / S: about 8 / S, ten times the
     * speed point of ISO 6.
     *
     * @param speed the arithmetic speed set on the meter, above 0
     * @param camera the camera, for its factor q
     * @return the exposure on the absolute axis
     * @throws IllegalArgumentException if the speed is not a finite number above 0
     * @source by substitution: H = q L t / N² in the camera, N² / t = L S / K by the meter
     */
    public LogExposure meteredTone(double speed, FocalPlaneExposure camera) {
        return LogExposure.ofLuxSeconds(camera.factor() * reflected / speed(speed));
    }

    private static double speed(double speed) {
        return Checks.positive("arithmetic speed", speed);
    }

    private static double binaryLogarithm(double value) {
        return Math.log(value) / Math.log(2);
    }

    /**
     * Compares by value.
     *
     * @param other any object
     * @return true if the other is equal in all that it was made of
     */
    @Override
    public boolean equals(Object other) {
        return other instanceof ExposureMeter that
                && Double.compare(reflected, that.reflected) == 0
                && Double.compare(incident, that.incident) == 0;
    }

    /**
     * Returns a hash of the value.
     *
     * @return the hash
     */
    @Override
    public int hashCode() {
        return Objects.hash(reflected, incident);
    }

    /**
     * Returns what this is, in words that may change.
     *
     * @return the constants
     */
    @Override
    public String toString() {
        return "meter with K " + Figures.plain(reflected) + " and C " + Figures.plain(incident);
    }
}
