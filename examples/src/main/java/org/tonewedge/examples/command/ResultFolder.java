// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.command;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.file.DirectoryNotEmptyException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Consumer;
import java.util.stream.Stream;

/**
 * Writes the results of one run to a directory: all of them or none.
 *
 * <p>Results are first written to a folder inside the directory, {@value #UNFINISHED}, and moved when all are there. A
 * manifest beside them, such as {@code film-comparison.sha256}, lists each with its SHA-256 in the form that {@code
 * sha256sum --check} reads. By it the next run knows what an earlier one wrote and replaces exactly that, stale plots
 * included. A file of anyone else, an earlier result that was changed since, and an input of the run are refused by name
 * and stay as they are.
 *
 * <p>A run that ends early, by a full disk or a kill, leaves the earlier results: if it was moving files at that moment,
 * the next run moves them back first. Not thread safe; a lock keeps a second run out of the directory.
 */
final class ResultFolder implements AutoCloseable {

    /** Where results are until all are there. */
    static final String UNFINISHED = ".unfinished-results";

    private static final String NEW = "new";
    private static final String OLD = "old";
    /** Lists the files being moved; it is there exactly while they are. */
    private static final String MOVING = "moving";

    private static final String LOCK = "lock";
    private static final int BUFFER = 1 << 16;

    private final Path directory;
    private final String manifest;
    private final List<Path> inputs;
    private final Consumer<Path> beforeMove;
    private final boolean made;
    private final FileChannel lock;

    private ResultFolder(Path directory, String program, List<Path> inputs, Consumer<Path> beforeMove)
            throws IOException {
        this.directory = directory;
        this.manifest = program + ".sha256";
        this.inputs = inputs;
        this.beforeMove = beforeMove;
        made = !Files.isDirectory(directory);
        Files.createDirectories(directory);
        Files.createDirectories(unfinished());
        lock = locked(unfinished().resolve(LOCK));
        try {
            moveBack();
            delete(unfinished().resolve(NEW));
            delete(unfinished().resolve(OLD));
            Files.createDirectory(unfinished().resolve(NEW));
        } catch (IOException e) {
            lock.close();
            throw e;
        }
    }

    /**
     * Opens a directory for the results of a program.
     *
     * @param directory the directory; made if it is not there
     * @param program the name of the program
     * @param inputs the files that the run reads
     * @return the folder, to be closed
     * @throws IOException if the directory cannot be written to
     * @throws IllegalArgumentException if another run is writing to it
     */
    static ResultFolder open(Path directory, String program, List<Path> inputs) throws IOException {
        return open(directory, program, inputs, file -> {});
    }

    /** For tests: tells of every move before it is made. */
    static ResultFolder open(Path directory, String program, List<Path> inputs, Consumer<Path> beforeMove)
            throws IOException {
        return new ResultFolder(directory, program, inputs, beforeMove);
    }

    /** Where the results are to be written. */
    Path unpublished() {
        return unfinished().resolve(NEW);
    }

    /** Puts the results in their place and takes those of the run before away. */
    void publish() throws IOException {
        Map<String, String> results = digests(unpublished());
        Map<String, String> earlier = earlier();
        for (String name : results.keySet()) {
            refuseInTheWay(name, earlier);
        }
        Path list = directory.resolve(manifest);
        if (earlier.isEmpty() && Files.exists(list, LinkOption.NOFOLLOW_LINKS)) {
            throw inTheWay(list, "it is not a list of results");
        }
        writeManifest(results, unpublished().resolve(manifest));
        results.put(manifest, "");
        earlier.put(manifest, "");
        // Nothing was touched so far. From here on a run that ends early is undone, by itself or by the next.
        Path announced = Files.write(unfinished().resolve(MOVING + ".part"), results.keySet());
        Files.move(announced, unfinished().resolve(MOVING), StandardCopyOption.ATOMIC_MOVE);
        try {
            moveAll(results.keySet(), earlier);
        } catch (IOException e) {
            moveBack();
            throw e;
        }
        Files.delete(unfinished().resolve(MOVING));
        removeEmptyFolders(earlier);
    }

    private void moveAll(Set<String> results, Map<String, String> earlier) throws IOException {
        for (String name : earlier.keySet()) {
            if (results.contains(name) || isOurs(name, earlier)) {
                move(directory.resolve(name), unfinished().resolve(OLD).resolve(name));
            }
        }
        for (String name : results) {
            move(unpublished().resolve(name), directory.resolve(name));
        }
    }

    /** Ends the run; results that were not published are gone. */
    @Override
    public void close() throws IOException {
        boolean published = !Files.exists(unfinished().resolve(MOVING));
        if (published) {
            delete(unfinished().resolve(NEW));
            delete(unfinished().resolve(OLD));
        }
        lock.close();
        if (published) {
            Files.deleteIfExists(unfinished().resolve(LOCK));
            deleteIfEmpty(unfinished());
            if (made) {
                deleteIfEmpty(directory);
            }
        }
    }

    private Path unfinished() {
        return directory.resolve(UNFINISHED);
    }

    private FileChannel locked(Path file) throws IOException {
        FileChannel channel = FileChannel.open(file, StandardOpenOption.CREATE, StandardOpenOption.WRITE);
        FileLock held;
        try {
            held = channel.tryLock();
        } catch (OverlappingFileLockException e) {
            held = null;
        }
        if (held == null) {
            channel.close();
            throw new IllegalArgumentException(
                    "another run is writing to " + directory + "; wait until it ends, or give another --out");
        }
        return channel;
    }

    /** Undoes the moves of a run that ended among them. */
    private void moveBack() throws IOException {
        Path moving = unfinished().resolve(MOVING);
        if (!Files.exists(moving)) {
            return;
        }
        for (String name : Files.readAllLines(moving)) {
            Path result = unpublished().resolve(name);
            if (!Files.exists(result) && Files.exists(directory.resolve(name))) {
                move(directory.resolve(name), result);
            }
        }
        Path old = unfinished().resolve(OLD);
        for (String name : files(old)) {
            move(old.resolve(name), directory.resolve(name));
        }
        Files.delete(moving);
    }

    private void move(Path from, Path to) throws IOException {
        if (Files.exists(from, LinkOption.NOFOLLOW_LINKS)) {
            beforeMove.accept(from);
            Files.createDirectories(to.getParent());
            Files.move(from, to, StandardCopyOption.ATOMIC_MOVE);
        }
    }

    private void refuseInTheWay(String name, Map<String, String> earlier) throws IOException {
        Path place = directory.resolve(name);
        for (Path folder = place.getParent(); !folder.equals(directory); folder = folder.getParent()) {
            if (Files.exists(folder, LinkOption.NOFOLLOW_LINKS)
                    && !Files.isDirectory(folder, LinkOption.NOFOLLOW_LINKS)) {
                throw inTheWay(folder, "a folder of results must go there");
            }
        }
        if (!Files.exists(place, LinkOption.NOFOLLOW_LINKS)) {
            return;
        }
        for (Path input : inputs) {
            if (Files.exists(input) && Files.exists(place) && Files.isSameFile(input, place)) {
                throw inTheWay(place, "it is an input of this run");
            }
        }
        if (!earlier.containsKey(name)) {
            throw inTheWay(place, "no earlier run of this program wrote it");
        }
        if (!isOurs(name, earlier)) {
            throw inTheWay(place, "it was changed since an earlier run wrote it");
        }
    }

    private static IllegalArgumentException inTheWay(Path file, String why) {
        return new IllegalArgumentException("nothing was written: " + file + " is in the way, " + why
                + "; move it elsewhere, or give another --out");
    }

    /** Whether a file is as an earlier run left it. */
    private boolean isOurs(String name, Map<String, String> earlier) throws IOException {
        Path file = directory.resolve(name);
        return Files.isRegularFile(file, LinkOption.NOFOLLOW_LINKS)
                && digest(file).equals(earlier.get(name));
    }

    /** What an earlier run wrote: the digest of each file by its name; nothing if there was none. */
    private Map<String, String> earlier() throws IOException {
        Map<String, String> earlier = new TreeMap<>();
        Path list = directory.resolve(manifest);
        if (Files.isRegularFile(list, LinkOption.NOFOLLOW_LINKS)) {
            for (String line : Files.readAllLines(list)) {
                if (!line.matches("[0-9a-f]{64}  \\S.*") || leads(line.substring(66))) {
                    throw inTheWay(list, "it is not a list of results");
                }
                earlier.put(line.substring(66), line.substring(0, 64));
            }
        }
        return earlier;
    }

    /** Whether a name leads out of the directory. */
    private boolean leads(String name) {
        Path base = directory.toAbsolutePath().normalize();
        Path file = base.resolve(name).normalize();
        return file.equals(base) || !file.startsWith(base);
    }

    private static void writeManifest(Map<String, String> results, Path file) throws IOException {
        Files.write(
                file,
                results.entrySet().stream()
                        .map(result -> result.getValue() + "  " + result.getKey())
                        .toList());
    }

    private static Map<String, String> digests(Path folder) throws IOException {
        Map<String, String> digests = new TreeMap<>();
        for (String name : files(folder)) {
            digests.put(name, digest(folder.resolve(name)));
        }
        return digests;
    }

    private static String digest(Path file) throws IOException {
        MessageDigest sha256;
        try {
            sha256 = MessageDigest.getInstance("SHA-256");
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java has SHA-256", e);
        }
        try (var bytes = Files.newInputStream(file)) {
            byte[] buffer = new byte[BUFFER];
            for (int n = bytes.read(buffer); n >= 0; n = bytes.read(buffer)) {
                sha256.update(buffer, 0, n);
            }
        }
        return HexFormat.of().formatHex(sha256.digest());
    }

    /** The files in a folder and below it, by their names from there with slashes. */
    private static List<String> files(Path folder) throws IOException {
        if (!Files.isDirectory(folder)) {
            return List.of();
        }
        try (Stream<Path> all = Files.walk(folder)) {
            return all.filter(file -> !Files.isDirectory(file, LinkOption.NOFOLLOW_LINKS))
                    .map(file -> folder.relativize(file).toString().replace('\\', '/'))
                    .sorted()
                    .toList();
        } catch (UncheckedIOException e) {
            throw e.getCause();
        }
    }

    private void removeEmptyFolders(Map<String, String> earlier) throws IOException {
        for (String name : earlier.keySet()) {
            Path folder = directory.resolve(name).getParent();
            while (!folder.equals(directory)) {
                deleteIfEmpty(folder);
                folder = folder.getParent();
            }
        }
    }

    private static void deleteIfEmpty(Path folder) throws IOException {
        try {
            Files.deleteIfExists(folder);
        } catch (DirectoryNotEmptyException e) {
            // Others' files are in it.
        }
    }

    private static void delete(Path folder) throws IOException {
        if (!Files.isDirectory(folder, LinkOption.NOFOLLOW_LINKS)) {
            return;
        }
        try (Stream<Path> all = Files.walk(folder)) {
            for (Path file : all.sorted((one, other) -> other.compareTo(one)).toList()) {
                Files.delete(file);
            }
        } catch (UncheckedIOException e) {
            throw e.getCause();
        }
    }
}
