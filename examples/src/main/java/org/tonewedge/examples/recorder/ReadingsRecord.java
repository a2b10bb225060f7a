// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.recorder;

import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.CsvRecord;
import de.siegmar.fastcsv.writer.CsvWriter;
import de.siegmar.fastcsv.writer.LineDelimiter;
import java.io.Closeable;
import java.io.IOException;
import java.io.StringWriter;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;

/**
 * The table of readings taken so far, on disk: a row is there, through every cache, before the call that adds it returns.
 * A row cut short by a loss of power is taken away when the record is opened again. Not thread safe.
 */
final class ReadingsRecord implements Closeable {

    /** The step of a base-plus-fog reading. */
    static final int BASE_PLUS_FOG = 0;

    /** One reading on disk: where its row begins, and what it says. */
    private record Entry(long start, String strip, int step, String density) {}

    private final RecorderPlan plan;
    private final FileChannel file;
    private final List<Entry> entries = new ArrayList<>();

    private ReadingsRecord(RecorderPlan plan, FileChannel file) {
        this.plan = plan;
        this.file = file;
    }

    /** Opens a record, or begins it. */
    static ReadingsRecord open(Path path, RecorderPlan plan) throws IOException {
        FileChannel file =
                FileChannel.open(path, StandardOpenOption.CREATE, StandardOpenOption.READ, StandardOpenOption.WRITE);
        ReadingsRecord opened = new ReadingsRecord(plan, file);
        try {
            opened.lock(path);
            opened.load(path);
        } catch (IOException | IllegalArgumentException e) {
            file.close();
            throw e;
        }
        return opened;
    }

    private void lock(Path path) throws IOException {
        FileLock held;
        try {
            held = file.tryLock();
        } catch (OverlappingFileLockException e) {
            held = null;
        }
        if (held == null) {
            throw new IllegalArgumentException("another recorder writes to " + path + "; end it first");
        }
    }

    private void load(Path path) throws IOException {
        byte[] bytes = Files.readAllBytes(path);
        int whole = bytes.length;
        while (whole > 0 && bytes[whole - 1] != '\n') {
            whole--;
        }
        String header = row(header());
        String text = new String(bytes, 0, whole, StandardCharsets.UTF_8);
        String all = new String(bytes, StandardCharsets.UTF_8);
        if (text.isEmpty() && header.startsWith(all)) {
            file.truncate(0);
            append(header);
            return;
        }
        if (!text.startsWith(header)) {
            throw new IllegalArgumentException(path + " is not the record of this plan: it begins with \""
                    + all.lines()
                            .findFirst()
                            .map(line -> line.substring(0, Math.min(80, line.length())))
                            .orElse("")
                    + "\" and not with \"" + header.strip() + "\"; give another --out");
        }
        file.truncate(whole);
        long start = header.getBytes(StandardCharsets.UTF_8).length;
        try (CsvReader<CsvRecord> rows = CsvReader.builder().ofCsvRecord(text.substring(header.length()))) {
            for (CsvRecord row : rows) {
                List<String> fields = row.getFields();
                entries.add(entry(start, fields, path));
                start += row(fields).getBytes(StandardCharsets.UTF_8).length;
            }
        }
        if (start != whole) {
            throw new IllegalArgumentException(path + " was changed by another program; record to a new file");
        }
        file.position(whole);
    }

    private Entry entry(long start, List<String> fields, Path path) {
        try {
            String step = fields.get(fields.size() - 2);
            return new Entry(
                    start,
                    fields.get(plan.columns().indexOf("strip")),
                    step.isEmpty() ? BASE_PLUS_FOG : Integer.parseInt(step),
                    fields.get(fields.size() - 1));
        } catch (NumberFormatException | IndexOutOfBoundsException e) {
            throw new IllegalArgumentException(path + " was changed by another program; record to a new file", e);
        }
    }

    private List<String> header() {
        List<String> header = new ArrayList<>(plan.columns());
        header.add("step");
        header.add("density");
        return header;
    }

    private static String row(List<String> fields) {
        StringWriter text = new StringWriter();
        CsvWriter.builder()
                .bufferSize(0)
                .lineDelimiter(LineDelimiter.LF)
                .build(text)
                .writeRecord(fields);
        return text.toString();
    }

    private void append(String row) throws IOException {
        ByteBuffer bytes = ByteBuffer.wrap(row.getBytes(StandardCharsets.UTF_8));
        file.position(file.size());
        while (bytes.hasRemaining()) {
            file.write(bytes);
        }
        file.force(true);
    }

    /** Adds a reading; it is on disk when this returns. */
    void add(int strip, int step, String density) throws IOException {
        List<String> fields = new ArrayList<>(plan.strips().get(strip));
        fields.add(step == BASE_PLUS_FOG ? "" : String.valueOf(step));
        fields.add(density);
        entries.add(new Entry(file.size(), plan.id(strip), step, density));
        append(row(fields));
    }

    /** Takes the last reading back; false if there is none. */
    boolean undo() throws IOException {
        if (entries.isEmpty()) {
            return false;
        }
        file.truncate(entries.remove(entries.size() - 1).start);
        file.force(true);
        return true;
    }

    /** The readings of a step of a strip, in the order in which they were taken. */
    List<String> readings(int strip, int step) {
        return entries.stream()
                .filter(entry -> entry.step == step && entry.strip.equals(plan.id(strip)))
                .map(Entry::density)
                .toList();
    }

    @Override
    public void close() throws IOException {
        file.close();
    }
}
