// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.io.InvalidObjectException;
import java.io.NotSerializableException;
import java.io.ObjectInputStream;
import java.io.ObjectOutputStream;
import java.io.ObjectStreamConstants;
import java.io.Serializable;
import java.nio.ByteBuffer;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.tonewedge.core.curve.CurvePoint;
import org.tonewedge.core.quantity.CameraSetting;
import org.tonewedge.core.quantity.CoverageInterval;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.DensityDifference;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.ExposureAxis;
import org.tonewedge.core.quantity.ExposureInterval;
import org.tonewedge.core.quantity.Gradient;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.quantity.ResultRecord;
import org.tonewedge.core.quantity.SpectralResponse;
import org.tonewedge.core.quantity.Temperature;
import org.tonewedge.core.quantity.TransmissionGeometry;

/** Values that a data-processing engine ships come back equal, and only if their factories would make them. */
class SerialFormsTest {

    private static final double MARK = 0.73519;

    static List<Serializable> values() {
        LogExposure exposure = LogExposure.ofLogLuxSeconds(-2.1);
        return List.of(
                Density.of(0.42),
                DensityDifference.of(0.1),
                exposure,
                new LogExposure(-1, ExposureAxis.relativeTo("frame 1")),
                ExposureInterval.ofStops(1.0 / 3),
                Gradient.of(0.62),
                Estimate.of(61.7, 1.7),
                Estimate.of(61.7, 1.7, 4),
                new CoverageInterval(1, 2, 0.95),
                Temperature.ofCelsius(20),
                CameraSetting.of(8, Duration.ofMillis(8)),
                ExposureAxis.LUX_SECONDS,
                ExposureAxis.relativeTo("frame 1"),
                new CurvePoint(exposure, Density.of(0.3)),
                ResultRecord.ofEstimate("speed", Estimate.of(61.7, 1.7, 4), ""),
                ResultRecord.ofNumber("gamma", 0.62, ""),
                ResultRecord.ofText("family", "TOE_SHOULDER"),
                ResultRecord.ofText("remark", ""),
                ResultRecord.ofMissing("speed_point", "log10 lx s", "not reached"),
                Processing.unknown(),
                processing(),
                TestConditions.notStated(),
                conditions(),
                ExposureSeries.ofLogLuxSeconds(-1, -3, -2),
                StepTablet.nominal(21, Density.of(0.05), 0.15),
                StepTablet.calibrated("T 7", new double[] {0.05, 0.21}, new double[] {0.002, 0.003}),
                new StepTablet.Step(3, Density.of(0.35), 0.004),
                new ExposedStep(exposure, List.of(Density.of(0.31), Density.of(0.33))),
                Strip.builder("bare").reading(exposure, Density.of(0.5)).build(),
                strip());
    }

    private static Processing processing() {
        return Processing.unknown()
                .withDeveloper("invented 1+1")
                .withTime(Duration.ofSeconds(450))
                .withTemperature(Temperature.ofCelsius(20.5))
                .withAgitation("10 s a minute");
    }

    private static TestConditions conditions() {
        return TestConditions.notStated()
                .withIlluminant("daylight")
                .withExposureTime(Duration.ofMillis(10))
                .withHold(Duration.ofHours(2))
                .withStorage("sealed");
    }

    private static Strip strip() {
        LogExposure known = LogExposure.ofLogLuxSeconds(-2);
        return Strip.builder("S07")
                .film("invented film")
                .processing(processing())
                .testConditions(conditions())
                .boxSpeed(125)
                .densityResponse(SpectralResponse.STATUS_M_BLUE)
                .densityGeometry(TransmissionGeometry.SPECULAR)
                .origin("strips.csv, lines 2 to 9")
                .basePlusFog(0.21, 0.23)
                .readings(ExposureSeries.ofLogLuxSeconds(-1, -2, -3, -2), 1.4, MARK, 0.3, 0.71)
                .exposureError("lamp", 0.02)
                .exposureError("step 2", known, 0.01)
                .build();
    }

    @ParameterizedTest
    @MethodSource("values")
    void aValueComesBackEqual(Serializable value) throws Exception {
        Object back = read(written(value));
        assertEquals(value, back);
        assertEquals(value.hashCode(), back.hashCode());
        assertEquals(value.toString(), back.toString());
    }

    @Test
    void aStripKeepsWhatEqualityLeavesOut() throws Exception {
        Strip back = (Strip) read(written(strip()));
        assertEquals(Optional.of("strips.csv, lines 2 to 9"), back.origin());
        assertEquals(strip().steps(), back.steps());
        assertEquals(strip().withStatedError("lamp", 1), back.withStatedError("lamp", 1));
        assertEquals(strip().withStatedError("step 2", 1), back.withStatedError("step 2", 1));
        assertSame(ExposureAxis.LUX_SECONDS, back.axis());
    }

    @Test
    void anErrorOfDensitiesGoesAlongIfItsFunctionDoes() throws Exception {
        Strip.Builder builder = Strip.builder("S08").reading(LogExposure.ofLogLuxSeconds(-1), Density.of(0.5));
        builder.densityError("correction", (DoubleUnaryOperator & Serializable) density -> 0.01 * density);
        Strip back = (Strip) read(written(builder.build()));
        assertEquals(
                0.505,
                back.withStatedError("correction", 1).steps().get(0).density().value(),
                1e-12);
        builder.densityError("correction", density -> 0.01 * density);
        Strip local = builder.build();
        NotSerializableException refused = assertThrows(NotSerializableException.class, () -> written(local));
        assertTrue(refused.getMessage().contains("strip 'S08'"), refused.getMessage());
        assertTrue(refused.getMessage().contains("'correction'"), refused.getMessage());
    }

    /** The marked density is overwritten in the stream. */
    @ParameterizedTest
    @ValueSource(doubles = {Double.NaN, -3, 400})
    void aForgedDensityIsRefused(double forged) throws Exception {
        for (Serializable value : List.of(
                Density.of(MARK),
                strip(),
                StepTablet.calibrated("T 7", 0.05, MARK),
                new ExposedStep(LogExposure.ofLogLuxSeconds(-1), List.of(Density.of(MARK))))) {
            byte[] stream = written(value);
            assertNotEquals(0, replaced(stream, MARK, forged));
            assertThrows(InvalidObjectException.class, () -> read(stream), value.toString());
        }
    }

    @Test
    void partsThatDoNotFitAreRefused() throws Exception {
        byte[] falling = written(StepTablet.calibrated("T 7", 0.05, MARK));
        replaced(falling, MARK, 0.01);
        assertThrows(InvalidObjectException.class, () -> read(falling));
        byte[] infinite = written(ResultRecord.ofNumber("gamma", MARK, ""));
        replaced(infinite, MARK, Double.POSITIVE_INFINITY);
        assertThrows(InvalidObjectException.class, () -> read(infinite));
    }

    /** A stream that contains the class itself, without its checked parts. */
    @ParameterizedTest
    @ValueSource(
            classes = {
                Strip.class,
                StepTablet.class,
                ExposureSeries.class,
                Processing.class,
                TestConditions.class,
                ExposureAxis.class,
                ResultRecord.class
            })
    void theClassItselfIsRefused(Class<?> type) throws Exception {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        DataOutputStream stream = new DataOutputStream(bytes);
        stream.writeShort(ObjectStreamConstants.STREAM_MAGIC);
        stream.writeShort(ObjectStreamConstants.STREAM_VERSION);
        stream.writeByte(ObjectStreamConstants.TC_OBJECT);
        stream.writeByte(ObjectStreamConstants.TC_CLASSDESC);
        stream.writeUTF(type.getName());
        stream.writeLong(1);
        stream.writeByte(ObjectStreamConstants.SC_SERIALIZABLE);
        stream.writeShort(0);
        stream.writeByte(ObjectStreamConstants.TC_ENDBLOCKDATA);
        stream.writeByte(ObjectStreamConstants.TC_NULL);
        InvalidObjectException refused = assertThrows(InvalidObjectException.class, () -> read(bytes.toByteArray()));
        assertTrue(refused.getMessage().contains("serial form"), refused.getMessage());
    }

    private static byte[] written(Serializable value) throws IOException {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try (ObjectOutputStream stream = new ObjectOutputStream(bytes)) {
            stream.writeObject(value);
        }
        return bytes.toByteArray();
    }

    private static Object read(byte[] stream) throws IOException, ClassNotFoundException {
        try (ObjectInputStream in = new ObjectInputStream(new ByteArrayInputStream(stream))) {
            return in.readObject();
        }
    }

    /** Overwrites a number wherever it stands; returns how often. */
    private static int replaced(byte[] stream, double from, double to) {
        ByteBuffer bytes = ByteBuffer.wrap(stream);
        int count = 0;
        for (int i = 0; i + Double.BYTES <= stream.length; i++) {
            if (bytes.getLong(i) == Double.doubleToRawLongBits(from)) {
                bytes.putDouble(i, to);
                count++;
            }
        }
        return count;
    }
}
