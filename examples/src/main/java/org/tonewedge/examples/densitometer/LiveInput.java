// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.densitometer;

import java.io.IOException;
import java.io.InputStream;
import java.time.Duration;
import java.util.Arrays;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.function.Supplier;

/**
 * A stream that may never end of itself, such as a serial device: it also ends when nothing came for a while, or when it is
 * told to. Another thread reads ahead; nothing is sought, and no more than a few blocks are kept.
 */
final class LiveInput extends InputStream {

    /** Why the stream ended. */
    enum Ending {
        NOT_YET,
        END_OF_STREAM,
        IDLE,
        STOPPED
    }

    private static final int BLOCK = 4096;
    private static final int MOST_BLOCKS = 64;
    private static final long SLICE = 20;
    private static final long SAME_SIGNAL = 300;
    private static final byte[] END = {};

    private final BlockingQueue<byte[]> blocks = new ArrayBlockingQueue<>(MOST_BLOCKS);
    private final Supplier<Duration> patience;
    private byte[] block = {};
    private int position;
    private volatile Throwable failure;
    private volatile boolean stopped;
    private volatile Ending ending = Ending.NOT_YET;

    /** The source is opened by the other thread, too. The patience is how long to wait for the next byte; it is asked for again and again. */
    LiveInput(Source source, Supplier<Duration> patience) {
        this.patience = patience;
        Thread reader = new Thread(() -> readAhead(source), "densitometer log");
        reader.setDaemon(true);
        reader.start();
    }

    /** Opens what is read; a pipe may not open before someone writes to it. */
    interface Source {

        InputStream open() throws IOException;
    }

    private void readAhead(Source opened) {
        byte[] read = new byte[BLOCK];
        try {
            InputStream source = opened.open();
            for (int count = source.read(read, 0, BLOCK); count >= 0; count = source.read(read, 0, BLOCK)) {
                if (count > 0) {
                    blocks.put(Arrays.copyOf(read, count));
                }
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        } catch (IOException | RuntimeException e) {
            failure = e;
        }
        try {
            blocks.put(END);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    /** Ends the stream now; what was not read yet is left. */
    void stop() {
        stopped = true;
    }

    Ending ending() {
        return ending;
    }

    /** Whether all that came so far was handed on. */
    boolean isDrained() {
        return blocks.isEmpty();
    }

    @Override
    public int read() throws IOException {
        byte[] one = new byte[1];
        return read(one, 0, 1) < 0 ? -1 : one[0] & 0xFF;
    }

    @Override
    public int read(byte[] target, int offset, int length) throws IOException {
        if (length == 0) {
            return 0;
        }
        if (position == block.length && !advance()) {
            return -1;
        }
        int count = Math.min(length, block.length - position);
        System.arraycopy(block, position, target, offset, count);
        position += count;
        return count;
    }

    private boolean advance() throws IOException {
        if (ending != Ending.NOT_YET) {
            return false;
        }
        long since = System.nanoTime();
        byte[] next = null;
        while (next == null) {
            if (stopped) {
                ending = Ending.STOPPED;
                return false;
            }
            try {
                next = blocks.poll(SLICE, TimeUnit.MILLISECONDS);
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
                ending = Ending.STOPPED;
                return false;
            }
            if (next == null && System.nanoTime() - since > patience.get().toNanos()) {
                ending = Ending.IDLE;
                return false;
            }
        }
        if (next == END) {
            ending = isStoppedToo() ? Ending.STOPPED : Ending.END_OF_STREAM;
            rethrow();
            return false;
        }
        block = next;
        position = 0;
        return true;
    }

    /** A signal that ends a pipeline ends the program that writes to it, too, often a little earlier. */
    private boolean isStoppedToo() {
        for (long waited = 0; waited < SAME_SIGNAL && !stopped; waited += SLICE) {
            try {
                Thread.sleep(SLICE);
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
                return true;
            }
        }
        return stopped;
    }

    private void rethrow() throws IOException {
        Throwable thrown = failure;
        // A pseudo-terminal whose other end was closed reads as an input error; that is its end of stream.
        if (thrown instanceof IOException io && !String.valueOf(io.getMessage()).contains("Input/output error")) {
            throw io;
        }
        if (thrown instanceof RuntimeException fault) {
            throw fault;
        }
    }
}
