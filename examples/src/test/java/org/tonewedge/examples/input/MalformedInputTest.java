// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.input;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HexFormat;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.strip.CsvDialect;
import org.tonewedge.core.strip.ReadingsException;
import org.tonewedge.core.strip.ReadingsReader;
import org.tonewedge.core.strip.StepTablet;
import org.tonewedge.core.strip.UnusableInputException.Fault;
import org.tonewedge.examples.spreadsheet.Spreadsheets;

/**
 * Sixty and more files that are not what they should be, and what each gets: the place, what is wrong, what to do. Places are
 * counted by hand in the file above each message, and values are those of the file; limits such as −0.2 to 10 are those
 * that {@link Density} states. The words are our own, no source.
 */
class MalformedInputTest {

    @TempDir
    Path scratch;

    private String refused(Path file, Fault fault) {
        ReadingsReader reader = ReadingsReader.withDefaults().with(StepTablet.nominal(21, Density.of(0.05), 0.15));
        ReadingsException e = assertThrows(
                ReadingsException.class,
                () -> reader.read(Spreadsheets.open(file, Optional.empty(), CsvDialect.guessed())));
        assertEquals(fault, e.fault(), e.getMessage());
        assertTrue(e.getMessage().startsWith("t.csv"), e.getMessage());
        assertFalse(e.remedy().isBlank());
        assertTrue(e.getMessage().endsWith("; " + e.remedy()), e.getMessage());
        assertTrue(e.getMessage().length() < 400, e.getMessage());
        return e.getMessage();
    }

    /** In the files ¶ is a line break, → a tab. The short columns s, e and d are strip, log_exposure and density. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '@',
            quoteCharacter = '`',
            ignoreLeadingAndTrailingWhitespace = true,
            value = {
                // Nothing in it
                "¶ @ MISSING @ the table is empty",
                "¶¶ @ MISSING @ the table is empty",
                "s,e,d @ MISSING @ has a header but no readings",
                "s,e,d¶,,¶,,¶ @ MISSING @ has a header but no readings",
                // The header
                "S1,-2,0.3¶S1,-1,0.4 @ MISSING @ line 1, column log_exposure: the header lacks this column; it has s1, -2, 0.3",
                "s,e¶S,-2 @ MISSING @ line 1, column density: the header lacks this column",
                "e,d¶-2,0.3 @ MISSING @ line 1, column strip: the header lacks this column",
                "s,d¶S,0.3 @ MISSING @ line 1, column log_exposure: the header lacks",
                "s,e,d,d¶S,-2,1,1 @ DUPLICATE @ line 1, column density: the header names this column twice",
                "s,e,d,,¶S,-2,1,, @ DUPLICATE @ line 1: the header has two columns without a name",
                "s,e,relative_log_exposure,d¶S,-2,0,1 @ CONTRADICTION @ the table has both log_exposure and relative_log_exposure",
                "s e d¶S -2 0.3 @ MISSING @ the header lacks this column; it has strip log_exposure density",
                // Rows
                "s,e,d¶S,-2 @ WRONG_FORMAT @ line 2: the row has 2 fields, the header 3; give every row as many",
                "s,e,d¶S,-2,0,3 @ WRONG_FORMAT @ line 2: the row has 4 fields, the header 3; write decimals with a point",
                "s,film,e,d¶S,Alder, 50,-2,0.3 @ WRONG_FORMAT @ line 2: the row has 5 fields, the header 4",
                "s,e,d¶S,-2,\"0.3¶S,-1,0.4 @ WRONG_FORMAT @ line 2, column density: the field runs over several lines",
                "s,e,d¶S,-2,0.3¶S;-1;0.4 @ WRONG_FORMAT @ line 3: the row has 1 fields, the header 3",
                "s,e,d¶,-2,0.3 @ MISSING @ line 2, column strip: the field is empty; name the piece of film",
                "s,e,d¶S,-2, @ MISSING @ line 2, column density: the field is empty (strip 'S'); enter the density, or leave out",
                "s,e,d¶S,,0.3 @ MISSING @ has no exposed reading",
                // Numbers
                "s,e,d¶S,-2,O.42 @ BAD_NUMBER @ line 2, column density: \"O.42\" is not a number; enter a number such as 0.42",
                "s,e,d¶S,-2,\"0,42\" @ BAD_NUMBER @ line 2, column density: \"0,42\" is not a number; write decimals with a point: 0.42",
                "s,e,d¶S,-2,\"1,234\" @ BAD_NUMBER @ write decimals with a point and thousands without a separator: 1.234 or 1234",
                "s,e,d¶S,\u22122,0.42 @ BAD_NUMBER @ line 2, column log_exposure: \"\u22122\" is not a number; write the minus sign as a hyphen",
                "s,e,d¶S,-2,NaN @ BAD_NUMBER @ column density: \"NaN\" is not a number",
                "s,e,d¶S,-2,Infinity @ BAD_NUMBER @ column density: \"Infinity\" is not a number",
                "s,e,d¶S,-2,1e999 @ OUT_OF_RANGE @ column density",
                "s,e,d¶S,-2,0x1p1 @ BAD_NUMBER @ column density: \"0x1p1\" is not a number",
                "s,e,d¶S,-2,=B2 @ BAD_NUMBER @ \"=B2\" is not a number; enter the value, not the formula",
                "s,e,d¶S,-2,#N/A @ BAD_NUMBER @ \"#N/A\" is not a number; this is a spreadsheet's error value",
                "s,e,d¶S,-2,0.42 D @ BAD_NUMBER @ column density: \"0.42 D\" is not a number; leave out the unit if it is that of the column: 0.42",
                "s,e,d¶S,-2,<0.1 @ BAD_NUMBER @ column density: \"<0.1\" is not a number",
                // Values that cannot be
                "s,e,d¶S,-2,42 @ OUT_OF_RANGE @ line 2, column density",
                "s,e,d¶S,-2,-0.5 @ OUT_OF_RANGE @ line 2, column density",
                "s,e,d¶S,0.30,-2.85 @ OUT_OF_RANGE @ line 2, column density: density -2.85 is too far below 0, and log_exposure 0.30 beside it could be one: the two columns look swapped; exchange their names in the header",
                "s,e,d¶S,128,0.3 @ OUT_OF_RANGE @ line 2, column log_exposure",
                "s,e,d,minutes¶S,-2,0.3,0 @ OUT_OF_RANGE @ line 2, column minutes: time of development",
                "s,e,d,minutes¶S,-2,0.3,8:75 @ BAD_NUMBER @ line 2, column minutes: \"8:75\" is not a number",
                "s,e,d,minutes¶S,-2,0.3,8 min @ BAD_NUMBER @ column minutes: \"8 min\" is not a number; leave out the unit if it is that of the column: 8",
                "s,e,d¶S,01.Feb,0.3 @ BAD_NUMBER @ column log_exposure: \"01.Feb\" is not a number; enter a number such as 0.42",
                "s,e,d,celsius¶S,-2,0.3,68 @ OUT_OF_RANGE @ line 2, column celsius",
                "s,e,d,celsius¶S,-2,0.3,20 °C @ BAD_NUMBER @ column celsius: \"20 °C\" is not a number; leave out the unit if it is that of the column: 20",
                "s,e,d,celsius¶S,-2,0.3,68F @ BAD_NUMBER @ column celsius: \"68F\" is not a number; enter degrees Celsius",
                "s,e,d,box_speed¶S,-2,0.3,10O @ BAD_NUMBER @ column box_speed: \"10O\" is not a number; enter a number such as 0.42",
                "s,e,d,box_speed¶S,-2,0.3,0 @ OUT_OF_RANGE @ line 2, column box_speed",
                "s,e,d,box_speed¶S,-2,0.3,fast @ BAD_NUMBER @ column box_speed: \"fast\" is not a number",
                "s,e,d,minutes¶S,-2,0.3,8¶S,-1,0.4,9 @ CONTRADICTION @ strip 'S' has \"9\" here but \"8\" in line 2; make them agree",
                "s,e,d,film¶S,-2,0.3,Alder¶S,-1,0.4,alder @ CONTRADICTION @ strip 'S' has \"alder\" here but \"Alder\" in line 2",
                // Decimals of the whole file
                "s;e;d¶S;-2,5;0.42 @ CONTRADICTION @ decimals with a comma, \"-2,5\" in line 2, and with a point, \"0.42\" in line 2",
                "s;e;d¶S;-2;1,234 @ AMBIGUOUS @ \"1,234\" may be a number with decimals or with thousands; write decimals with a point",
                "s→e→d¶S→-2,5→0.42 @ CONTRADICTION @ decimals with a comma",
                // Steps and stops
                "s,step,d¶S,22,0.3 @ OUT_OF_RANGE @ line 2, column step: step must be a whole number from 1 to 21",
                "s,step,d¶S,0,0.3 @ OUT_OF_RANGE @ column step: step must be a whole number from 1 to 21",
                "s,step,d¶S,1.5,0.3 @ OUT_OF_RANGE @ column step: step must be a whole number",
                "s,stops,d¶S,1/0,0.3 @ BAD_NUMBER @ column stops: \"1/0\" is not a number",
                "s,step,lux,d¶S,1,5,0.3 @ MISSING @ strip 'S' states lux without seconds; state both",
                "s,step,exposure,d¶S,1,0,0.3¶T,1,,0.3 @ MISSING @ strip 'T' states no exposure but other strips do",
                "s,step,read_from,d¶S,1,top,0.3 @ UNKNOWN_NAME @ \"top\" is not an end of a tablet; enter clear",
                // Grids
                "s,A,B¶base_plus_fog,.2,.2¶1,.3,.4 @ WRONG_FORMAT @ the grid lacks the row that says what its steps are",
                "s,A,A¶base_plus_fog,.2,.2¶step,,¶1,.3,.4 @ DUPLICATE @ line 1, column strip: \"A\" stands here and in column 2",
                "s,A,¶base_plus_fog,.2,.2¶step,,¶1,.3,.4 @ MISSING @ line 2: \".2\" stands in a column without a strip",
                "s,A,B¶step,,¶1,.3,x @ BAD_NUMBER @ line 3, column B: \"x\" is not a number",
                "s,A,B¶step,,¶99,.3,.4 @ OUT_OF_RANGE @ line 3, column step: step must be a whole number from 1 to 21",
                "s,A,B¶step,, @ MISSING @ line 2: no row follows row step; give a row for each step",
                "s,A,B¶film,F,G¶film,F,G¶step,,¶1,.3,.4 @ DUPLICATE @ line 3: the grid has more than one row film; keep one",
                "s,A,B¶,8,9¶step,,¶1,.3,.4 @ WRONG_FORMAT @ line 2: the row does not say what it is",
                "s,A,B¶step,,¶1,61.7,50.2 @ OUT_OF_RANGE @ line 3, column A: density must be from -0.2 to 10, was 61.7: a percentage, counts or a missing",
                "s,step,1,x¶A,,.3,.4 @ BAD_NUMBER @ line 1, column step: \"x\" is not a number",
                "s,step,1,2¶A,,.3,y @ BAD_NUMBER @ line 2, column A: \"y\" is not a number",
                "My films¶,,,¶May @ MISSING @ line 1, column log_exposure: the header lacks this column; it has my films",
                "s,A,B¶step,,¶,.3,.4 @ MISSING @ line 3: the row gives no step; enter it in the first column"
            })
    void text(String file, Fault fault, String message) throws IOException {
        String[] lines = file.split("¶", -1);
        lines[0] = lines[0].replaceAll("\\bs\\b", "strip")
                .replaceAll("\\be\\b", "log_exposure")
                .replaceAll("\\bd\\b", "density");
        String text = String.join("\n", lines).replace('→', '\t') + "\n";
        String said = refused(Files.writeString(scratch.resolve("t.csv"), text), fault);
        assertTrue(said.contains(message), said + "\nfor " + text);
    }

    /** First bytes of files that are not text in UTF-8. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '@',
            value = {
                "504b0304 @ the file is damaged, or is not a spreadsheet",
                "d0cf11e0a1b1 @ a spreadsheet of the old binary kind (XLS); save its sheet as CSV in UTF-8",
                "1f8b0800 @ compressed with gzip; unpack it first",
                "fffe7300 @ in UTF-16; save the table as UTF-8, or state its encoding",
                "255044462d312e37 @ a PDF document",
                "89504e470d0a1a0a @ an image",
                "3c68746d6c3e @ a web page",
                "0001020304 @ not text: it has zero bytes",
                "73747269702c6c6f675f6578706f737572652c64656e736974790a53f6 @ line 2: the line has bytes that are not UTF-8"
            })
    void bytes(String hex, String message) throws IOException {
        String said =
                refused(Files.write(scratch.resolve("t.csv"), HexFormat.of().parseHex(hex)), Fault.UNREADABLE);
        assertTrue(said.contains(message), said);
    }

    @Test
    void aLabelWithAControlCharacter() throws IOException {
        byte[] text = "strip,log_exposure,density\nS\u0007,-2,0.3\n".getBytes(StandardCharsets.UTF_8);
        String said = refused(Files.write(scratch.resolve("t.csv"), text), Fault.OUT_OF_RANGE);
        assertTrue(said.contains("line 2, column strip: the label must be on one line without control"), said);
    }
}
