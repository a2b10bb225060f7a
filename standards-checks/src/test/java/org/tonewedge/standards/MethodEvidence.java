// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards;

import java.util.List;

/**
 * What the results of methods are compared with, beside the rows of the verification table.
 *
 * @param methods the classes
 * @param published the published results of the methods, or {@link #NONE}
 * @param others what else they are compared with
 */
record MethodEvidence(List<String> methods, String published, String others) {

    static final String NONE = "no published result found";

    private static final String FIGURES = "rows below, by SciPy and mpmath";

    private static MethodEvidence of(String methods, String published, String others) {
        return new MethodEvidence(List.of(methods.split(" ", -1)), published, others);
    }

    static List<MethodEvidence> all() {
        return List.of(
                of("Iso6 Iso5800 Iso2240 Iso6846", NONE, FIGURES + "; straight lines by hand"),
                of("FractionalGradient AverageGradient ContrastIndex RadiographicGradient", NONE, FIGURES),
                of("DeltaX", NONE + "; coefficients from memory", FIGURES),
                of("Inertia", NONE, "closed form of the law of 1890; straight lines by hand"),
                of("PlateSpeed", "a table of 1919, in the rows below", ""),
                of("HistoricalScale", "definitions, in the rows below; that of GOST from memory", ""),
                of("SpeedMean ProcessControl", NONE, "by hand"),
                of("PaperGrade", "outer limits, in the rows below; the others from memory", ""),
                of("RadiographicSpeed", "a speed of 200 for 5 &#181;Gy, in the rows below", FIGURES),
                of("DentalSpeedGroup IndustrialFilmClass", "limits, in the rows below", ""),
                of("FocalPlaneExposure Iso12232 ExposureMeter", "examples of a library, in the rows below", "by hand"),
                of("CameraFlare ReciprocityFit", NONE, "least squares by SciPy and NumPy"),
                of("Reciprocity FilterFactor SensitivityCurve PersonalExposureIndex StopScale", NONE, "by hand"),
                of(
                        "CallierFactor MultichannelStrip PrintingChannel",
                        NONE,
                        "by hand; products of ISO 5-3 summed in Python"),
                of("SlantedEdge EdgeResponse", NONE, "closed forms; a second program in Python on the same pixels"),
                of(
                        "ModulationTransfer NoiseSpectrum PatchGrid PrintGraininess PrintSharpness ResolvingPower TargetModulation",
                        NONE,
                        "closed forms; NumPy and SciPy"),
                of("ScanCalibration ScannedRange StepFinder", NONE, "simulated scans; by hand"),
                of("LimitsOfAgreement", "two meters of Bland and Altman (1986), from secondary sources", "NumPy"),
                of("DemingRegression", NONE, "orthogonal distance regression by SciPy"),
                of(
                        "ControlChart",
                        "run lengths of a statistical system&#8217;s manual and of Champ and Woodall",
                        "NumPy"),
                of("DensitometerCalibration", NONE, "by hand; simulated instruments"),
                of(
                        "CertificateComparison DensityCorrection DensitometerCheck",
                        "lines and parabolas of NIST: Norris, Pontius, line widths",
                        "simulated instruments"),
                of("ReadingsSummary RunningSummary", "variances of NIST: SiRstv, AtmWtAg", "by hand"),
                of("ReadingUncertainty SystematicUncertainty", NONE, "straight lines by hand; simulated strips"));
    }

    /** The table as HTML. */
    static String html() {
        StringBuilder html = new StringBuilder("<h2>What each method is compared with</h2>\n<table border=\"1\">\n"
                + "<caption>What each method is compared with</caption>\n<thead>\n<tr><th scope=\"col\">Method</th>"
                + "<th scope=\"col\">Published results</th><th scope=\"col\">Other comparisons</th></tr>\n"
                + "</thead>\n<tbody>\n");
        for (MethodEvidence evidence : all()) {
            html.append("<tr><td>").append(String.join(", ", evidence.methods));
            html.append("</td><td>").append(evidence.published);
            html.append("</td><td>").append(evidence.others).append("</td></tr>\n");
        }
        return html.append("</tbody>\n</table>\n").toString();
    }
}
