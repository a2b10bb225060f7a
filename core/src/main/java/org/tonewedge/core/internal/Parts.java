// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.internal;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import java.util.concurrent.Executor;

/** Runs work over many samples in parts, on the caller's thread or on those of an executor. */
public final class Parts {

    /** Large enough that a task outweighs its start, small enough for hundreds of tasks in an image. */
    private static final int PART = 1 << 16;

    /**
     * Work on the samples from one number to another.
     *
     * @param <T> what comes of it
     */
    @FunctionalInterface
    public interface Part<T> {

        /**
         * Does the work.
         *
         * @param from the first sample
         * @param to the sample after the last
         * @return what comes of it
         */
        T run(int from, int to);
    }

    private Parts() {}

    /**
     * Runs all parts and waits for them.
     *
     * @param <T> what comes of a part
     * @param count how many samples there are
     * @param executor runs the parts; null for the caller's thread
     * @param part the work
     * @return what came of each part, in their order
     */
    public static <T> List<T> run(int count, Executor executor, Part<T> part) {
        if (executor == null || count <= PART) {
            return List.of(part.run(0, count));
        }
        List<CompletableFuture<T>> tasks = new ArrayList<>();
        for (long from = 0; from < count; from += PART) {
            int start = (int) from;
            int end = (int) Math.min(from + PART, count);
            tasks.add(CompletableFuture.supplyAsync(() -> part.run(start, end), executor));
        }
        return tasks.stream().map(Parts::join).toList();
    }

    /**
     * Returns the first sample that a search finds, whichever thread comes upon it.
     *
     * @param count how many samples there are
     * @param executor runs the parts; null for the caller's thread
     * @param search returns the first sample found in a part, −1 if there is none
     * @return its number, −1 if there is none
     */
    public static int first(int count, Executor executor, Part<Integer> search) {
        return run(count, executor, search).stream()
                .filter(found -> found >= 0)
                .findFirst()
                .orElse(-1);
    }

    private static <T> T join(CompletableFuture<T> task) {
        try {
            return task.join();
        } catch (CompletionException e) {
            if (e.getCause() instanceof RuntimeException cause) {
                throw cause;
            }
            throw e;
        }
    }
}
