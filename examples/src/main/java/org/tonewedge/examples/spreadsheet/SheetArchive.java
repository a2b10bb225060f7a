// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.spreadsheet;

import java.io.Closeable;
import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Optional;
import java.util.zip.ZipEntry;
import java.util.zip.ZipException;
import java.util.zip.ZipFile;
import javax.xml.stream.XMLInputFactory;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;
import org.tonewedge.core.strip.ReadingsException;
import org.tonewedge.core.strip.UnusableInputException.Fault;

/** The parts of a spreadsheet file, as XML; refuses parts that unpack to more than a table of readings can need. */
final class SheetArchive implements Closeable {

    /** Some 300,000 cells of XLSX; a table of 1,000 strips of 50 steps needs a tenth. */
    private static final long MOST_BYTES = 32L << 20;

    private final String name;
    private final ZipFile zip;

    private SheetArchive(String name, ZipFile zip) {
        this.name = name;
        this.zip = zip;
    }

    static SheetArchive open(Path file) throws IOException {
        String name = String.valueOf(file.getFileName());
        try {
            return new SheetArchive(name, new ZipFile(file.toFile()));
        } catch (ZipException e) {
            throw damaged(name, e);
        }
    }

    String name() {
        return name;
    }

    /** Reads one part of the archive as XML. */
    interface PartReader {
        void read(XMLStreamReader xml) throws XMLStreamException;
    }

    /** Reads a part; false if the archive lacks it. */
    boolean read(String part, PartReader reader) throws IOException {
        ZipEntry entry = zip.getEntry(part);
        if (entry == null) {
            return false;
        }
        try (InputStream bytes = new Limited(zip.getInputStream(entry), part)) {
            XMLInputFactory factory = XMLInputFactory.newDefaultFactory();
            factory.setProperty(XMLInputFactory.SUPPORT_DTD, false);
            factory.setProperty(XMLInputFactory.IS_SUPPORTING_EXTERNAL_ENTITIES, false);
            factory.setProperty(XMLInputFactory.IS_COALESCING, true);
            XMLStreamReader xml = factory.createXMLStreamReader(bytes);
            try {
                reader.read(xml);
            } finally {
                xml.close();
            }
            return true;
        } catch (XMLStreamException e) {
            if (e.getNestedException() instanceof TooLarge tooLarge) {
                throw tooLarge(tooLarge.getMessage());
            }
            throw ReadingsException.at(
                    Fault.UNREADABLE,
                    name,
                    "",
                    "its part " + part + " is not XML" + at(e),
                    "open it in the spreadsheet program and save it again");
        } catch (TooLarge e) {
            throw tooLarge(e.getMessage());
        } catch (ZipException e) {
            throw damaged(name, e);
        }
    }

    /** The text of a small part, such as the type of the file. */
    Optional<String> text(String part) throws IOException {
        ZipEntry entry = zip.getEntry(part);
        if (entry == null) {
            return Optional.empty();
        }
        try (InputStream bytes = zip.getInputStream(entry)) {
            return Optional.of(new String(bytes.readNBytes(200), StandardCharsets.UTF_8));
        }
    }

    private static String at(XMLStreamException e) {
        return e.getLocation() == null ? "" : " at line " + e.getLocation().getLineNumber();
    }

    private ReadingsException tooLarge(String part) {
        return ReadingsException.at(
                Fault.TOO_LARGE,
                name,
                "",
                "its part " + part + " unpacks to more than " + (MOST_BYTES >> 20) + " MB",
                "keep only the readings in the file, or save the sheet as CSV");
    }

    private static ReadingsException damaged(String name, ZipException e) {
        return ReadingsException.at(
                Fault.UNREADABLE,
                name,
                "",
                "the file is damaged, or is not a spreadsheet (" + e.getMessage() + ")",
                "open it in the spreadsheet program and save it again");
    }

    @Override
    public void close() throws IOException {
        zip.close();
    }

    private static final class TooLarge extends IOException {

        private static final long serialVersionUID = 1L;

        TooLarge(String part) {
            super(part);
        }
    }

    /** Counts what comes out of the compression, whatever the archive says of it. */
    private static final class Limited extends FilterInputStream {

        private final String part;
        private long left = MOST_BYTES;

        Limited(InputStream in, String part) {
            super(in);
            this.part = part;
        }

        @Override
        public int read() throws IOException {
            int next = in.read();
            count(next < 0 ? 0 : 1);
            return next;
        }

        @Override
        public int read(byte[] buffer, int offset, int length) throws IOException {
            int n = in.read(buffer, offset, length);
            count(n);
            return n;
        }

        private void count(int read) throws TooLarge {
            left -= Math.max(read, 0);
            if (left < 0) {
                throw new TooLarge(part);
            }
        }
    }
}
