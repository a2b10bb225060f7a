// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.core.strip;

import de.siegmar.fastcsv.reader.CommentStrategy;
import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.FieldMismatchStrategy;
import java.io.BufferedInputStream;
import java.io.BufferedReader;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.PushbackReader;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.strip.UnusableInputException.Fault;

/**
 * The rows of CSV, passed on as they are read; if a comma may be a decimal mark, they are kept until a number shows
 * which it is.
 */
final class CsvRows implements RowSource {

    /** The characters that may separate fields, the usual one first. */
    static final String SEPARATORS = ",;\t|";

    /** The first row must end within this many characters, so that its separator can be found. */
    private static final int LONGEST_START = 1 << 16;

    /** So much is read at once until that row has ended: mostly the first look is enough. */
    private static final int LOOK = 1 << 12;

    /** Begins a line that states the separator. */
    private static final String STATED = "sep=";

    private final CsvDialect dialect;
    private final String name;
    private final Path file;
    private final Reader characters;
    private final List<String> notices = new ArrayList<>();
    private char decimalMark;

    CsvRows(CsvDialect dialect, Path file) {
        this(dialect, String.valueOf(file.getFileName()), file, null);
    }

    CsvRows(CsvDialect dialect, String name, Reader characters) {
        this(dialect, name, null, characters);
    }

    private CsvRows(CsvDialect dialect, String name, Path file, Reader characters) {
        this.dialect = dialect;
        this.name = name;
        this.file = file;
        this.characters = characters;
        decimalMark = dialect.statedDecimalMark() == null ? '.' : dialect.statedDecimalMark();
    }

    @Override
    public String name() {
        return name;
    }

    @Override
    public char decimalMark() {
        return decimalMark;
    }

    @Override
    public List<String> notices() {
        return List.copyOf(notices);
    }

    @Override
    public void read(RowHandler rows) throws IOException {
        if (file == null) {
            readCharacters(characters, rows);
            return;
        }
        try (InputStream bytes = new BufferedInputStream(Files.newInputStream(file), LONGEST_START)) {
            bytes.mark(FileKind.NEEDED);
            byte[] start = bytes.readNBytes(FileKind.NEEDED);
            bytes.reset();
            FileKind kind = FileKind.of(start, dialect.encoding()).orElse(null);
            if (kind != null) {
                throw fault(Fault.UNREADABLE, 0, "the file is " + kind.inWords(), kind.remedy());
            }
            readCharacters(
                    new BufferedReader(
                            new InputStreamReader(bytes, dialect.encoding().newDecoder())),
                    rows);
        } catch (CharacterCodingException e) {
            throw wrongEncoding();
        }
    }

    private void readCharacters(Reader source, RowHandler rows) throws IOException {
        PushbackReader reader = new PushbackReader(source, LONGEST_START);
        int first = reader.read();
        if (first >= 0 && first != '\uFEFF') {
            reader.unread(first);
        }
        char[] start = new char[LONGEST_START];
        int length = 0;
        for (int n = 0;
                n >= 0 && length < start.length;
                n = reader.read(start, length, Math.min(LOOK, start.length - length))) {
            length += n;
            if (hasLineEnd(start, remarks(start, length), length)) {
                break;
            }
        }
        String beginning = new String(start, 0, length);
        int skipped = endOfStated(beginning);
        boolean isStated = skipped > 0;
        reader.unread(start, skipped, length - skipped);
        char separator = dialect.separator() != null
                ? dialect.separator()
                : isStated ? beginning.charAt(STATED.length()) : separator(beginning.substring(remarks(start, length)));
        CsvReader<RepeatedFields.Line> csv = CsvReader.builder()
                .fieldSeparator(separator)
                .commentStrategy(CommentStrategy.NONE)
                .skipEmptyLines(true)
                .extraFieldStrategy(FieldMismatchStrategy.IGNORE)
                .missingFieldStrategy(FieldMismatchStrategy.IGNORE)
                .detectBomHeader(false)
                .build(new RepeatedFields(), reader);
        int before = isStated ? 1 : 0;
        if (separator == ',' || dialect.statedDecimalMark() != null) {
            each(csv, before, rows);
        } else {
            Marked marked = new Marked(rows);
            each(csv, before, marked);
            marked.passOn();
        }
        if (separator != ',') {
            notices.add(name + ": read as CSV with " + inWords(separator) + " between fields and "
                    + (decimalMark == ',' ? "decimal commas" : "decimal points"));
        }
    }

    private record Row(long line, List<String> fields) {}

    /** Passes rows on as soon as the decimal mark is known. */
    private final class Marked implements RowHandler {

        private final RowHandler rows;
        private final DecimalMarks marks = new DecimalMarks(CsvRows.this::fault);
        private final List<Row> kept = new ArrayList<>();

        Marked(RowHandler rows) {
            this.rows = rows;
        }

        @Override
        public void accept(long line, List<String> fields) {
            marks.look(line, (RepeatedFields.Line) fields);
            if (marks.isKnown()) {
                passOn();
                rows.accept(line, fields);
            } else {
                kept.add(new Row(line, List.copyOf(fields)));
            }
        }

        void passOn() {
            decimalMark = marks.mark();
            if (!kept.isEmpty()) {
                kept.forEach(row -> rows.accept(row.line, row.fields));
                kept.clear();
            }
        }
    }

    private void each(CsvReader<RepeatedFields.Line> csv, int linesBefore, RowHandler rows) throws IOException {
        long line = 0;
        try {
            for (RepeatedFields.Line row : csv) {
                line = row.number() + linesBefore;
                rows.accept(line, row);
            }
        } catch (CsvParseException e) {
            if (e.getCause() instanceof IOException io) {
                throw io;
            }
            throw fault(
                    Fault.WRONG_FORMAT,
                    line + 1,
                    "from here on the text is not CSV (" + Checks.shortened(String.valueOf(e.getMessage())) + ")",
                    "look for a quotation mark that is not closed");
        } catch (UncheckedIOException e) {
            throw e.getCause();
        }
    }

    /** Where the line that states the separator ends; 0 if there is none. */
    private static int endOfStated(String beginning) {
        int at = STATED.length();
        if (!beginning.startsWith(STATED)
                || beginning.length() < at + 2
                || SEPARATORS.indexOf(beginning.charAt(at)) < 0) {
            return 0;
        }
        if (beginning.startsWith("\r\n", at + 1)) {
            return at + 3;
        }
        char end = beginning.charAt(at + 1);
        return end == '\n' || end == '\r' ? at + 2 : 0;
    }

    /** Where the lines that begin with # end, which say nothing about the form of the rest. */
    private static int remarks(char[] start, int length) {
        int at = 0;
        while (at < length && start[at] == '#') {
            while (at < length && start[at] != '\n' && start[at] != '\r') {
                at++;
            }
            boolean both = at + 1 < length && start[at] == '\r' && start[at + 1] == '\n';
            at = Math.min(length, at + (both ? 2 : 1));
        }
        return at;
    }

    /** The separator that occurs most often in the first row, outside quotation marks. */
    private static char separator(String beginning) {
        int[] counts = new int[SEPARATORS.length()];
        boolean quoted = false;
        for (char c : beginning.stripLeading().toCharArray()) {
            if (!quoted && (c == '\n' || c == '\r')) {
                break;
            }
            quoted ^= c == '"';
            int i = SEPARATORS.indexOf(c);
            if (!quoted && i >= 0) {
                counts[i]++;
            }
        }
        int most = 0;
        for (int i = 1; i < counts.length; i++) {
            most = counts[i] > counts[most] ? i : most;
        }
        return SEPARATORS.charAt(most);
    }

    private static String inWords(char separator) {
        return separator == ';' ? "semicolons" : separator == '\t' ? "tabs" : "bars";
    }

    /** Whether a line ends here; a carriage return at the end of what was read may be half of a line end. */
    private static boolean hasLineEnd(char[] text, int from, int length) {
        for (int i = from; i < length; i++) {
            if (text[i] == '\n' || (text[i] == '\r' && i + 1 < length)) {
                return true;
            }
        }
        return false;
    }

    private ReadingsException fault(Fault kind, long line, String fault, String remedy) {
        return new ReadingsException(kind, name, line, line > 0 ? place(line, -1) : "", null, null, fault, remedy);
    }

    private ReadingsException wrongEncoding() throws IOException {
        Charset encoding = dialect.encoding();
        long line = 1;
        // A malformed byte sequence of UTF-8 cannot include a line end, so lines can be decoded one by one.
        try (InputStream bytes = new BufferedInputStream(Files.newInputStream(file))) {
            ByteArrayOutputStream row = new ByteArrayOutputStream();
            int last = -1;
            for (int next = bytes.read(); next >= 0; next = bytes.read()) {
                if (last == '\n' || (last == '\r' && next != '\n')) {
                    if (!decodes(row.toByteArray(), encoding)) {
                        break;
                    }
                    row.reset();
                    line++;
                }
                row.write(next);
                last = next;
            }
        }
        return fault(
                Fault.UNREADABLE,
                encoding.equals(StandardCharsets.UTF_8) ? line : 0,
                "the line has bytes that are not " + encoding.name(),
                "save the table as UTF-8, or state its encoding where there is an option for it");
    }

    private static boolean decodes(byte[] bytes, Charset encoding) {
        try {
            encoding.newDecoder().decode(ByteBuffer.wrap(bytes));
            return true;
        } catch (CharacterCodingException e) {
            return false;
        }
    }
}
