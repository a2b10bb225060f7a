// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.verdict;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.tonewedge.standards.densitometer.input.DensitometerLogReader;
import org.tonewedge.standards.densitometer.input.LineKind;
import org.tonewedge.standards.densitometer.input.LogLayout;
import org.tonewedge.standards.densitometer.input.LogTally;
import org.tonewedge.standards.densitometer.summary.ReadingsSummary;

/**
 * A log of 32 MB, of which 8 MB may be kept: about four bytes of each reading. A log of 1 GB goes through the program in 32 MB of heap (51 s on
 * a busy machine of two cores):
 *
 * <pre>
 * yes "$(cat examples/demo/densitometer/healthy.log)" | head -c 1G | java -Xmx32m \
 *     -cp examples/target/tonewedge-examples-all.jar org.tonewedge.examples.densitometer.DensitometerCheckProgram - \
 *     --tablet examples/demo/densitometer/tablet.csv \
 *     --layout "keys step=step milliseconds=ms temperature=temp density=d decimals=3"
 * </pre>
 */
class LogStreamingTest {

    private static final long MEGABYTES = 32;
    private static final long MOST_KEPT = 8L << 20;

    /** Passes over the tablet, made as they are read, with a boot message before each. */
    private static final class EndlessLog extends InputStream {

        private final byte[] pass;
        private long left;
        private int position;

        EndlessLog(long bytes) {
            StringBuilder text = new StringBuilder("boot: ready\r\n");
            for (int step = 1; step <= 21; step++) {
                text.append("step=").append(step).append(" D=").append(String.format("%.2f", 0.05 + 0.15 * (step - 1)));
                text.append("\r\n");
            }
            pass = text.toString().replace(',', '.').getBytes(StandardCharsets.US_ASCII);
            left = bytes / pass.length * pass.length;
        }

        long passes() {
            return left / pass.length;
        }

        @Override
        public int read() {
            byte[] one = new byte[1];
            return read(one, 0, 1) < 0 ? -1 : one[0];
        }

        @Override
        public int read(byte[] target, int offset, int length) {
            if (left == 0) {
                return -1;
            }
            int count = Math.min(length, pass.length - position);
            System.arraycopy(pass, position, target, offset, count);
            position = (position + count) % pass.length;
            left -= count;
            return count;
        }
    }

    private static long used() {
        System.gc();
        Runtime runtime = Runtime.getRuntime();
        return runtime.totalMemory() - runtime.freeMemory();
    }

    @Test
    @Tag("slow")
    void keepsNoMoreOfALongLogThanOfAShortOne() throws IOException {
        LogLayout layout = LogLayout.parse("keys step=step density=d decimals=2");
        DensitometerLogReader reader = DensitometerLogReader.of(layout);
        EndlessLog log = new EndlessLog(MEGABYTES << 20);
        long passes = log.passes();
        long before = used();
        long[] most = new long[1];
        long[] readings = new long[1];

        LogTally tally = reader.read(log, reading -> {
            if (++readings[0] % 1_000_000 == 0) {
                most[0] = Math.max(most[0], used());
            }
        });
        assertEquals(21 * passes, tally.count(LineKind.READING));
        assertEquals(passes, tally.count(LineKind.MESSAGE));
        assertTrue(most[0] - before < MOST_KEPT, "kept " + (most[0] - before) + " bytes");

        ReadingsSummary summary = ReadingsSummary.read(new EndlessLog(MEGABYTES << 20), layout, Logs.TABLET);
        long after = used();
        assertEquals(21, summary.printed().size());
        assertTrue(after - before < MOST_KEPT, "kept " + (after - before) + " bytes of the summary");
    }
}
