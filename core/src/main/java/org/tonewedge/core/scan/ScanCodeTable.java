// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.scan;

import java.util.Arrays;
import org.tonewedge.core.curve.InverseCurveTable;
import org.tonewedge.core.curve.OutsideMeasuredRangeException;

/**
 * The meaning of every code of a scan in one look-up: its density, or the log exposure that a curve gives for that
 * density.
 *
 * <pre>{@code
 * ScanEncoding encoding = ScanEncoding.ofDensitySteps(Density.of(0), 0.0001, ScanEncoding.HIGHEST_16_BIT);
 * ScanCodeTable.densities(encoding).convert(codes, densities);
 * ScanCodeTable.logExposures(encoding, InverseCurveTable.of(curve)).convert(codes, logExposures);
 * }</pre>
 *
 * <p>Arrays of {@code short} contain unsigned codes, as 16-bit image files do. Immutable and thread safe.
 */
public final class ScanCodeTable {

    private final String meaning;
    private final ScanEncoding encoding;
    /** The value of each 16-bit code; NaN where there is none. */
    private final double[] values;
    /** Whether every 16-bit code has a value. */
    private final boolean complete;

    private ScanCodeTable(String meaning, ScanEncoding encoding, double[] values) {
        this.meaning = meaning;
        this.encoding = encoding;
        this.values = values;
        complete = Arrays.stream(values).noneMatch(Double::isNaN);
    }

    /**
     * Returns the table that turns codes into densities.
     *
     * @param encoding what the codes mean
     * @return the table
     */
    public static ScanCodeTable densities(ScanEncoding encoding) {
        return new ScanCodeTable("density", encoding, densityOfEachCode(encoding));
    }

    /**
     * Returns the table that turns codes into log exposures.
     *
     * @param encoding what the codes mean
     * @param inverse the inverse of the curve; a code whose density it does not cover is refused when it is read
     * @return the table
     */
    public static ScanCodeTable logExposures(ScanEncoding encoding, InverseCurveTable inverse) {
        double[] values = densityOfEachCode(encoding);
        for (int code = 0; code < values.length; code++) {
            values[code] = inverse.covers(values[code]) ? inverse.logExposure(values[code]) : Double.NaN;
        }
        return new ScanCodeTable(
                "log exposure on the curve of " + inverse.curve().name(), encoding, values);
    }

    private static double[] densityOfEachCode(ScanEncoding encoding) {
        double[] values = new double[ScanEncoding.HIGHEST_16_BIT + 1];
        Arrays.fill(values, Double.NaN);
        for (int code = 0; code <= encoding.highestCode(); code++) {
            values[code] = encoding.densityOrNaN(code);
        }
        return values;
    }

    /**
     * Tells whether a code has a value.
     *
     * @param code the code
     * @return false if {@link #value} refuses it
     */
    public boolean covers(int code) {
        return code >= 0 && code < values.length && !Double.isNaN(values[code]);
    }

    /**
     * Returns the value of a code.
     *
     * @param code the code
     * @return its density, or log exposure
     * @throws OutsideMeasuredRangeException if the code has no value
     */
    public double value(int code) {
        if (!covers(code)) {
            throw refused("", code);
        }
        return values[code];
    }

    /**
     * Writes the values of many codes given as unsigned 16-bit numbers. Allocates nothing.
     *
     * @param codes the code of each sample, unsigned
     * @param results receives one value for each
     * @throws IllegalArgumentException if the arrays differ in length
     * @throws OutsideMeasuredRangeException if a code has no value; the message gives the index of the sample, and nothing
     *     is written
     */
    public void convert(short[] codes, double[] results) {
        requireRoom(codes.length, results.length);
        double[] table = values;
        if (!complete) {
            for (int i = 0; i < codes.length; i++) {
                requireValue(i, codes[i] & 0xFFFF);
            }
        }
        for (int i = 0; i < codes.length; i++) {
            results[i] = table[codes[i] & 0xFFFF];
        }
    }

    /**
     * Writes the values of many codes given as characters, which are unsigned 16-bit numbers. Allocates nothing.
     *
     * @param codes the code of each sample
     * @param results receives one value for each
     * @throws IllegalArgumentException if the arrays differ in length
     * @throws OutsideMeasuredRangeException if a code has no value; the message gives the index of the sample, and nothing
     *     is written
     */
    public void convert(char[] codes, double[] results) {
        requireRoom(codes.length, results.length);
        double[] table = values;
        if (!complete) {
            for (int i = 0; i < codes.length; i++) {
                requireValue(i, codes[i]);
            }
        }
        for (int i = 0; i < codes.length; i++) {
            results[i] = table[codes[i]];
        }
    }

    /**
     * Writes the values of many codes. Allocates nothing.
     *
     * @param codes the code of each sample
     * @param results receives one value for each
     * @throws IllegalArgumentException if the arrays differ in length
     * @throws OutsideMeasuredRangeException if a code has no value; the message gives the index of the sample, and nothing
     *     is written
     */
    public void convert(int[] codes, double[] results) {
        requireRoom(codes.length, results.length);
        double[] table = values;
        for (int i = 0; i < codes.length; i++) {
            requireValue(i, codes[i]);
        }
        for (int i = 0; i < codes.length; i++) {
            results[i] = table[codes[i]];
        }
    }

    /**
     * Returns the table as a conversion of the codes of an image: arrays and buffers, in part, on an executor, with codes
     * that have no value refused, marked or taken to the nearest code that has one.
     *
     * @return the conversion, which refuses codes without a value
     */
    public CodeConversion conversion() {
        return CodeConversion.of(this);
    }

    /** Whether every 16-bit code has a value. */
    boolean isComplete() {
        return complete;
    }

    /** The value of each 16-bit code; NaN where there is none. Not to be changed. */
    double[] values() {
        return values;
    }

    private void requireRoom(int codes, int results) {
        if (codes != results) {
            throw new IllegalArgumentException(codes + " codes but room for " + results + " results");
        }
    }

    private void requireValue(int index, int code) {
        if (!covers(code)) {
            throw refused("sample " + index + ": ", code);
        }
    }

    OutsideMeasuredRangeException refused(String sample, int code) {
        return new OutsideMeasuredRangeException(
                sample + "code " + code + " has no " + meaning + " (" + encoding
                        + "): look for a wrong encoding, or convert with OutsideSamples.MARK_AS_NAN and leave such samples out");
    }

    /**
     * Returns the table in words.
     *
     * @return what the values are, and the encoding
     */
    @Override
    public String toString() {
        return "table of codes to " + meaning + " (" + encoding + ")";
    }
}
