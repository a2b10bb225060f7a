// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.zip.CRC32;
import java.util.zip.Deflater;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.tonewedge.examples.comparison.FilmComparisonProgram;

/** A spreadsheet of some megabytes that unpacks to one gigabyte ends in a message, in a machine with little memory. */
class LargeSheetTest {

    private static final String HEAP = "-Xmx40m";
    private static final int BLOCK = 1 << 20;
    private static final int BLOCKS = 1 << 10;

    @TempDir
    Path folder;

    /** A part of an archive: its name, its bytes packed, and what it unpacks to. */
    @SuppressWarnings("ArrayRecordComponent") // written once, never compared
    private record Part(String name, byte[] packed, long size, long crc) {

        static Part of(String name, String text) throws IOException {
            byte[] bytes = text.getBytes(StandardCharsets.UTF_8);
            CRC32 crc = new CRC32();
            crc.update(bytes);
            ByteArrayOutputStream out = new ByteArrayOutputStream();
            pack(bytes, out);
            end(out);
            return new Part(name, out.toByteArray(), bytes.length, crc.getValue());
        }

        /** A gigabyte of one row over and over: a packed block that refers to nothing before it can be repeated. */
        static Part ofGigabyte(String name, String begin, String row) throws IOException {
            ByteArrayOutputStream out = new ByteArrayOutputStream();
            pack(begin.getBytes(StandardCharsets.UTF_8), out);
            ByteArrayOutputStream block = new ByteArrayOutputStream();
            pack(row.repeat(BLOCK / row.length()).getBytes(StandardCharsets.UTF_8), block);
            for (int i = 0; i < BLOCKS; i++) {
                block.writeTo(out);
            }
            end(out);
            return new Part(name, out.toByteArray(), (long) BLOCKS * BLOCK, 0);
        }

        private static void pack(byte[] bytes, OutputStream out) throws IOException {
            Deflater deflater = new Deflater(Deflater.BEST_COMPRESSION, true);
            deflater.setInput(bytes);
            byte[] buffer = new byte[BLOCK];
            for (int n = 1; n > 0; ) {
                n = deflater.deflate(buffer, 0, buffer.length, Deflater.FULL_FLUSH);
                out.write(buffer, 0, n);
                n = n < buffer.length ? 0 : n;
            }
            deflater.end();
        }

        /** An empty last block (RFC 1951, 3.2.6). */
        private static void end(OutputStream out) throws IOException {
            out.write(new byte[] {3, 0});
        }

        /** What stands in front of the part and again in the directory (APPNOTE.TXT, 4.3.7 and 4.3.12). */
        private byte[] header(boolean inDirectory, int offset) {
            byte[] nameBytes = name.getBytes(StandardCharsets.UTF_8);
            ByteBuffer header = ByteBuffer.allocate((inDirectory ? 46 : 30) + nameBytes.length)
                    .order(ByteOrder.LITTLE_ENDIAN);
            header.putInt(inDirectory ? 0x02014b50 : 0x04034b50);
            if (inDirectory) {
                header.putShort((short) 20);
            }
            header.putShort((short) 20).putShort((short) 0).putShort((short) 8).putInt(0);
            header.putInt((int) crc).putInt(packed.length).putInt((int) size);
            header.putShort((short) nameBytes.length).putShort((short) 0);
            if (inDirectory) {
                header.put(new byte[10]).putInt(offset);
            }
            return header.put(nameBytes).array();
        }
    }

    private Path archive(String name, Part... parts) throws IOException {
        Path file = folder.resolve(name);
        ByteArrayOutputStream directory = new ByteArrayOutputStream();
        try (OutputStream out = Files.newOutputStream(file)) {
            int offset = 0;
            for (Part part : parts) {
                byte[] header = part.header(false, 0);
                out.write(header);
                out.write(part.packed);
                directory.write(part.header(true, offset));
                offset += header.length + part.packed.length;
            }
            out.write(directory.toByteArray());
            out.write(ByteBuffer.allocate(22)
                    .order(ByteOrder.LITTLE_ENDIAN)
                    .putInt(0x06054b50)
                    .putInt(0)
                    .putShort((short) parts.length)
                    .putShort((short) parts.length)
                    .putInt(directory.size())
                    .putInt(offset)
                    .putShort((short) 0)
                    .array());
        }
        assertTrue(Files.size(file) < 16 << 20, "packed " + Files.size(file));
        return file;
    }

    private void refused(Path file, String part) throws IOException, InterruptedException {
        Processes.Result ended = Processes.run(
                folder,
                folder,
                "java",
                HEAP,
                "-XX:+UseSerialGC",
                "-XX:TieredStopAtLevel=1",
                "-cp",
                Processes.testPath(),
                FilmComparisonProgram.class.getName(),
                file.toString(),
                "--reference",
                "A",
                "--out",
                folder.resolve("out").toString());
        assertEquals(2, ended.status(), ended.errors());
        assertTrue(
                ended.errors()
                        .contains("film-comparison: " + file.getFileName() + ": its part " + part
                                + " unpacks to more than 32 MB; keep only the readings in the file"),
                ended.errors());
    }

    @Test
    void anXlsxSheet() throws IOException, InterruptedException {
        refused(
                archive(
                        "large.xlsx",
                        Part.of(
                                "xl/workbook.xml",
                                "<workbook xmlns:r=\"http://schemas.openxmlformats.org/officeDocument/2006/relationships\">"
                                        + "<sheets><sheet name=\"one\" r:id=\"r1\"/></sheets></workbook>"),
                        Part.of(
                                "xl/_rels/workbook.xml.rels",
                                "<Relationships><Relationship Id=\"r1\" Target=\"one.xml\"/></Relationships>"),
                        Part.ofGigabyte(
                                "xl/one.xml",
                                "<worksheet><sheetData>",
                                "<row><c><v>0.42</v></c><c><v>1</v></c></row>")),
                "xl/one.xml");
    }

    @Test
    void anOdsSheet() throws IOException, InterruptedException {
        refused(
                archive(
                        "large.ods",
                        Part.of("mimetype", "application/vnd.oasis.opendocument.spreadsheet"),
                        Part.ofGigabyte(
                                "content.xml",
                                "<o:document-content xmlns:o=\"urn:oasis:names:tc:opendocument:xmlns:office:1.0\""
                                        + " xmlns:t=\"urn:oasis:names:tc:opendocument:xmlns:table:1.0\"><o:body>"
                                        + "<o:spreadsheet><t:table t:name=\"one\">",
                                "<t:table-row><t:table-cell/></t:table-row>")),
                "content.xml");
    }
}
