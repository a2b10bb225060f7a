package org.tonewedge.standards.exposure;

import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.internal.Figures;
import org.tonewedge.core.strip.StepTablet;
import org.tonewedge.standards.Condition;
import org.tonewedge.standards.density.DensityKind;
import org.tonewedge.standards.density.TransmissionGeometry;

/**
 * The calibration certificate of a step tablet: its densities, of what kind they are, their expanded uncertainty and the
 * date, such as "23 steps, diffuse visual, U = 0.006 (k = 2)".
 *
 * @param name the tablet's name or number
 * @param issued the date of the calibration
 * @param kind geometry and spectral response of the densities
 * @param densities the certified densities, rising, two or more
 * @param expandedUncertainty the expanded uncertainty U of each density, 0 or more
 * @param coverageFactor the factor k that U was stated with, usually 2
 */
public record TabletCertificate(
        String name,
        LocalDate issued,
        DensityKind<TransmissionGeometry> kind,
        List<Double> densities,
        double expandedUncertainty,
        double coverageFactor) {

    private static final int YEARS_OF_USE = 4;

    /**
     * Checks the numbers and copies the list.
     *
     * @param name the tablet's name or number
     * @param issued the date of the calibration
     * @param kind geometry and spectral response of the densities
     * @param densities the certified densities, rising, two or more
     * @param expandedUncertainty the expanded uncertainty, 0 or more
     * @param coverageFactor the coverage factor, above 0
     * @throws IllegalArgumentException if the name is blank, the densities do not rise or an uncertainty is out of range
     */
    public TabletCertificate {
        Checks.within("expanded uncertainty of tablet " + name, expandedUncertainty, 0, 1, "");
        Checks.positive("coverage factor of tablet " + name, coverageFactor);
        densities = List.copyOf(densities);
        tablet(name, densities, expandedUncertainty / coverageFactor);
    }

    /**
     * Returns the tablet with its standard uncertainty, U / k.
     *
     * @return the calibrated tablet
     */
    public StepTablet tablet() {
        return tablet(name, densities, expandedUncertainty / coverageFactor);
    }

    private static StepTablet tablet(String name, List<Double> densities, double standardUncertainty) {
        double[] values = densities.stream().mapToDouble(Double::doubleValue).toArray();
        double[] uncertainties = new double[values.length];
        Arrays.fill(uncertainties, standardUncertainty);
        return StepTablet.calibrated(name, values, uncertainties);
    }

    /**
     * Tells whether the tablet may still be used.
     *
     * @param firstUse the day it was first used
     * @param today the day to judge for
     * @return a condition that is met until four years after first use
     * @source ASTM E1079-97: replace the tablet four years from first use (verified, secondary)
     */
    public Condition age(LocalDate firstUse, LocalDate today) {
        LocalDate end = firstUse.plusYears(YEARS_OF_USE);
        String requirement = "tablet used for at most " + YEARS_OF_USE + " years";
        String found = "first used " + firstUse + ", due " + end;
        return today.isAfter(end)
                ? Condition.notMet(requirement, found, "replace the tablet or have it calibrated again")
                : Condition.met(requirement, found);
    }

    /**
     * Returns the certificate in words.
     *
     * @return name, steps, kind and uncertainty
     */
    @Override
    public String toString() {
        return name + ": " + densities.size() + " steps, " + kind + ", U " + Figures.plain(expandedUncertainty)
                + " (k = " + Figures.plain(coverageFactor) + "), " + issued;
    }
}
