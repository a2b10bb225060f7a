// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.detail;

import java.io.ByteArrayOutputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.stream.IntStream;
import java.util.zip.CRC32;
import java.util.zip.Deflater;
import java.util.zip.DeflaterOutputStream;

/**
 * Reads a chart off a scan of 100 megapixels in a small heap. Run by hand, in the folder examples after the tests were
 * compiled, on the class path of the tests:
 *
 * <pre>{@code
 * java -Xmx64m -cp … org.tonewedge.examples.detail.LargeScanMemory /tmp/large
 * }</pre>
 *
 * <p>The pixels alone would fill 200 MB. It prints "status 0, 100 megapixels twice in 27.5 s, in a heap of 64 MB" on a busy
 * machine of two cores, of which the second reading is by corners.
 */
final class LargeScanMemory {

    private static final int WIDTH = 12_000;
    private static final int HEIGHT = 8_334;
    private static final int COLUMNS = 6;
    private static final int ROWS = 4;

    private static final double[] LIGHT = IntStream.range(0, ROWS * COLUMNS)
            .mapToDouble(patch -> Math.pow(10, -0.1 * (patch + 1)))
            .toArray();

    private LargeScanMemory() {}

    public static void main(String[] args) throws IOException {
        Path folder = Files.createDirectories(Path.of(args[0]));
        Path file = folder.resolve("large.png");
        write(file);
        PrintWriter console = new PrintWriter(System.out, true, StandardCharsets.UTF_8);
        long begin = System.nanoTime();
        int status = DetailProgram.run(
                new String[] {
                    file.toString(),
                    "--pixels-per-mm=200",
                    "--chart=chart=0,0," + WIDTH + "," + HEIGHT + "/" + ROWS + "x" + COLUMNS,
                    "--chart=turned=500,100,11900,400,11500,8200,100,7900/4x6",
                    "--no-plots",
                    "--out=" + folder.resolve("out")
                },
                console,
                console);
        double seconds = (System.nanoTime() - begin) / 1e9;
        console.printf(
                Locale.ROOT,
                "status %d, %d megapixels twice in %.1f s, in a heap of %d MB%n",
                status,
                (long) WIDTH * HEIGHT / 1_000_000,
                seconds,
                Runtime.getRuntime().maxMemory() >> 20);
    }

    /** A PNG file of 16-bit grey, row by row: density 0.1 to 2.4 in steps of 0.1. */
    private static void write(Path file) throws IOException {
        try (OutputStream out = Files.newOutputStream(file)) {
            out.write(new byte[] {(byte) 0x89, 'P', 'N', 'G', '\r', '\n', 0x1A, '\n'});
            ByteArrayOutputStream head = new ByteArrayOutputStream();
            DataOutputStream fields = new DataOutputStream(head);
            fields.writeInt(WIDTH);
            fields.writeInt(HEIGHT);
            fields.write(new byte[] {16, 0, 0, 0, 0});
            chunk(out, "IHDR", head.toByteArray());
            ByteArrayOutputStream packed = new ByteArrayOutputStream();
            DeflaterOutputStream deflater = new DeflaterOutputStream(packed, new Deflater(1));
            byte[] line = new byte[1 + 2 * WIDTH];
            for (int y = 0; y < HEIGHT; y++) {
                for (int x = 0; x < WIDTH; x++) {
                    int patch = y * ROWS / HEIGHT * COLUMNS + x * COLUMNS / WIDTH;
                    int code = (int) Math.rint(65_535 * LIGHT[patch]) + (x * 31 + y * 17) % 3 - 1;
                    line[1 + 2 * x] = (byte) (code >> 8);
                    line[2 + 2 * x] = (byte) code;
                }
                deflater.write(line);
                if (packed.size() > 1 << 20) {
                    chunk(out, "IDAT", packed.toByteArray());
                    packed.reset();
                }
            }
            deflater.finish();
            chunk(out, "IDAT", packed.toByteArray());
            chunk(out, "IEND", new byte[0]);
        }
    }

    private static void chunk(OutputStream out, String type, byte[] content) throws IOException {
        byte[] name = type.getBytes(StandardCharsets.US_ASCII);
        CRC32 sum = new CRC32();
        sum.update(name);
        sum.update(content);
        DataOutputStream fields = new DataOutputStream(out);
        fields.writeInt(content.length);
        fields.write(name);
        fields.write(content);
        fields.writeInt((int) sum.getValue());
    }
}
