// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards;

import static org.tonewedge.standards.VerificationRow.Group.ARITHMETIC;
import static org.tonewedge.standards.VerificationRow.OWN_ARITHMETIC;
import static org.tonewedge.standards.VerificationRow.Status.COMPUTED;
import static org.tonewedge.standards.VerificationRow.Status.DERIVED;
import static org.tonewedge.standards.VerificationRow.Status.MEMORY;
import static org.tonewedge.standards.VerificationRow.Status.VERIFIED;
import static org.tonewedge.standards.VerificationRow.in;
import static org.tonewedge.standards.VerificationRow.number;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import org.tonewedge.core.quantity.CameraSetting;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.tone.PrintExposure;
import org.tonewedge.core.tone.SchwarzschildExponent;
import org.tonewedge.standards.exposure.ExposureMeter;
import org.tonewedge.standards.exposure.FocalPlaneExposure;
import org.tonewedge.standards.exposure.Iso12232;
import org.tonewedge.standards.exposure.Reciprocity;

/** Exposure in the camera, meters, reciprocity and the change of exposure between densities. */
final class ExposureChecks {

    private static final String LIBRARY = "general-purpose imaging library, after ISO 12232:2006";
    private static final String METER_LIBRARY = "general-purpose imaging library, after ISO 2720:1974";

    private ExposureChecks() {}

    static List<VerificationRow> rows() {
        List<VerificationRow> rows = new ArrayList<>();
        rows.addAll(in(ARITHMETIC, ExposureChecks::camera));
        rows.addAll(in(ARITHMETIC, ExposureChecks::meter));
        rows.addAll(in(ARITHMETIC, ExposureChecks::reciprocity));
        rows.addAll(in(ARITHMETIC, ExposureChecks::changes));
        return rows;
    }

    private static void camera(List<VerificationRow> rows) {
        FocalPlaneExposure camera = FocalPlaneExposure.withDefaults();
        CameraSetting eight = CameraSetting.of(8, Duration.ofMillis(4));
        LogExposure exposure = camera.exposure(eight, 4000);
        LogExposure withFlare = camera.withFlare(0.0015).exposure(eight, 4000);
        String setting = "4000 cd/m&#178;, f/8, 1/250 s";
        rows.add(number(
                "FocalPlaneExposure, q",
                LIBRARY,
                VERIFIED,
                "T 0.9, v 0.98, 10&#176;",
                "0.6515748",
                1e-7,
                camera::factor));
        rows.add(number(
                "FocalPlaneExposure",
                LIBRARY,
                VERIFIED,
                setting + ", flare 0.0015",
                "0.1643937",
                1e-7,
                withFlare::exposure));
        rows.add(number("FocalPlaneExposure", LIBRARY, VERIFIED, setting, "0.1628937", 1e-7, exposure::exposure));
        rows.add(number(
                "Iso12232, exposure index",
                LIBRARY,
                VERIFIED,
                "mean exposure 0.1628937086212269",
                "61.3897251",
                1e-7,
                () -> Iso12232.exposureIndex(LogExposure.ofLuxSeconds(0.1628937086212269))));
        rows.add(number(
                "Iso12232, saturation",
                LIBRARY,
                VERIFIED,
                setting + ", S 400, flare 0.0015: H S / 78",
                "0.8430446",
                1e-7,
                () -> 400 / Iso12232.saturationSpeed(withFlare)));
    }

    private static void meter(List<VerificationRow> rows) {
        ExposureMeter meter = ExposureMeter.withDefaults();
        CameraSetting oneSecond = CameraSetting.of(8, Duration.ofSeconds(1));
        rows.add(number(
                "ExposureMeter, exposure value",
                METER_LIBRARY,
                VERIFIED,
                "0.125 cd/m&#178;, S 100",
                "0",
                1e-9,
                () -> meter.exposureValueOfLuminance(0.125, 100)));
        rows.add(number(
                "ExposureMeter, exposure value",
                METER_LIBRARY,
                VERIFIED,
                "2.5 lx, S 100",
                "0",
                1e-9,
                () -> meter.exposureValueOfIlluminance(2.5, 100)));
        rows.add(number(
                "ExposureMeter, luminance",
                METER_LIBRARY,
                VERIFIED,
                "f/8, 1 s, S 100",
                "8",
                1e-9,
                () -> meter.luminance(oneSecond, 100)));
        rows.add(number(
                "ExposureMeter, illuminance",
                METER_LIBRARY,
                VERIFIED,
                "f/8, 1 s, S 100",
                "160",
                1e-9,
                () -> meter.illuminance(oneSecond, 100)));
        rows.add(number(
                "ExposureMeter, exposure value at speed 100",
                METER_LIBRARY,
                VERIFIED,
                "f/8, 1/250 s, S 400",
                "11.9657842",
                1e-7,
                () -> ExposureMeter.exposureValueAtSpeed100(CameraSetting.of(8, Duration.ofMillis(4)), 400)));
        rows.add(number(
                "ExposureMeter, metered tone",
                "general-purpose imaging library: 0.6515748 K / S",
                DERIVED,
                "S 125",
                "0.06515748",
                1e-8,
                () -> meter.meteredTone(125, FocalPlaneExposure.withDefaults()).exposure()));
    }

    private static void reciprocity(List<VerificationRow> rows) {
        String source = OWN_ARITHMETIC + ", Python 3: ";
        rows.add(number(
                "Reciprocity, additive",
                source + "t + A * t ** 1.62; the exponent is common practice, no source",
                MEMORY,
                "A 0.001766, 960 s",
                "1079.7485041",
                1e-6,
                () -> corrected(
                        Reciprocity.additive(0.001766, Duration.ofSeconds(80), Duration.ofSeconds(1920)), 960)));
        rows.add(number(
                "Reciprocity, power law",
                source + "a * t ** b",
                COMPUTED,
                "a 0.72538, b 1.06559, 960 s",
                "1092.5566892",
                1e-6,
                () -> corrected(
                        Reciprocity.power(0.72538, 1.06559, Duration.ofSeconds(80), Duration.ofSeconds(1920)), 960)));
    }

    private static void changes(List<VerificationRow> rows) {
        rows.add(number(
                "PrintExposure",
                "Mees, The Fundamentals of Photography (1920/21)",
                VERIFIED,
                "density 0.30",
                "2",
                0.005,
                () -> PrintExposure.forBasePlusFog(Density.of(0.30), Density.of(0))
                        .ratio()));
        rows.add(number(
                "Reciprocity, Schwarzschild",
                "t to the power 1/p",
                MEMORY,
                "p 0.86, 10 s",
                "14.548",
                0.0005,
                () -> corrected(
                        Reciprocity.schwarzschild(SchwarzschildExponent.of(0.86), Duration.ofSeconds(100)), 10)));
    }

    private static double corrected(Reciprocity law, int seconds) {
        return law.correctedTime(Duration.ofSeconds(seconds)).toNanos() / 1e9;
    }
}
