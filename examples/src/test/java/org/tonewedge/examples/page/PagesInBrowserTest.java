// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.page;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.io.PrintWriter;
import java.io.Writer;
import java.lang.reflect.Method;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The pages as a browser shows and prints them: the strips of the demo, its tone, development and densitometer. */
class PagesInBrowserTest {

    private static final Path DEMO = Path.of("demo");

    @TempDir
    private static Path folder;

    private static Browser browser;
    private static Path comparison;
    private static Path film;
    private static List<Path> pages;

    @BeforeAll
    static void makePages() throws Exception {
        browser = Browser.start(folder);
        comparison = folder.resolve("comparison/report.html");
        run(
                "comparison.FilmComparisonProgram",
                "strips.csv",
                "--reference",
                "R00",
                "--out",
                folder.resolve("comparison").toString(),
                "--frames",
                DEMO.resolve("frames.csv").toString(),
                "--frame",
                "metered",
                "--paper",
                DEMO.resolve("paper.csv").toString(),
                "--sort",
                "speed",
                "--no-png");
        film = folder.resolve("comparison/strip-S02.html");
        run(
                "development.DevelopmentPlanProgram",
                "development.csv",
                "--current",
                "D2",
                "--out",
                folder.resolve("development").toString(),
                "--no-png");
        run(
                "tone.ToneComparisonProgram",
                "frames.csv",
                "--reference",
                "Ostwick Reference 125",
                "--frame",
                "metered",
                "--strips",
                DEMO.resolve("strips.csv").toString(),
                "--paper",
                DEMO.resolve("paper.csv").toString(),
                "--out",
                folder.resolve("tone").toString(),
                "--no-png");
        run(
                "densitometer.DensitometerCheckProgram",
                "densitometer/stray-light.csv",
                "--tablet",
                DEMO.resolve("densitometer/tablet.csv").toString(),
                "--out",
                folder.resolve("check").toString(),
                "--no-png");
        pages = List.of(
                comparison,
                film,
                folder.resolve("comparison/films.html"),
                folder.resolve("development/plan.html"),
                folder.resolve("tone/tone.html"),
                folder.resolve("check/report.html"));
    }

    @AfterAll
    static void close() {
        if (browser != null) {
            browser.close();
        }
    }

    /** The entrances for tests are not visible here; the command line is the same. */
    private static void run(String program, String input, String... options) throws Exception {
        List<String> args = new ArrayList<>(List.of(DEMO.resolve(input).toString()));
        args.addAll(List.of(options));
        PrintWriter nowhere = new PrintWriter(Writer.nullWriter());
        PrintWriter errors = new PrintWriter(Writer.nullWriter());
        for (Method run : Class.forName("org.tonewedge.examples." + program).getDeclaredMethods()) {
            if (run.getName().equals("run") && run.getParameterCount() < 5) {
                run.setAccessible(true);
                Object[] given = run.getParameterCount() == 3
                        ? new Object[] {args.toArray(String[]::new), nowhere, errors}
                        : new Object[] {args.toArray(String[]::new), InputStream.nullInputStream(), nowhere, errors};
                assertNotEquals(2, run.invoke(null, given), program);
            }
        }
    }

    @Test
    void noPageIsWiderThanItsScreen() {
        for (Path page : pages) {
            browser.open(page, 1400);
            for (int width : new int[] {390, 768, 1400, 1920}) {
                browser.width(width);
                Object wider = browser.run("const room = document.documentElement.clientWidth;"
                        + "return Array.from(document.querySelectorAll('body, main, div, table, td, th, figure, svg, p, dl'))"
                        + ".filter(e => e.getBoundingClientRect().right > room + 0.5 || e.scrollWidth > e.clientWidth + 1"
                        + " && ['TABLE', 'TD', 'TH', 'BODY', 'DIV'].includes(e.tagName) && e.clientWidth > 0)"
                        + ".slice(0, 3).map(e => e.tagName + ' ' + e.textContent.slice(0, 40)).join('; ');");
                assertEquals("", wider, page.getFileName() + " at " + width);
            }
        }
    }

    @Test
    void aFilmTakesTwoSheetsAtMost() throws IOException {
        double[][] papers = {{8.27, 11.69}, {8.5, 11}};
        for (double[] paper : papers) {
            browser.open(film, 1400);
            assertEquals(
                    "4 true",
                    browser.run("const all = Array.from(document.images);"
                            + "return all.length + ' ' + all.every(i => i.complete && i.naturalWidth > 0);"),
                    "pictures are there before they are printed");
            byte[] pdf = browser.pdf(paper[0], paper[1]);
            try (PDDocument document = Loader.loadPDF(pdf)) {
                assertTrue(document.getNumberOfPages() <= 2, document.getNumberOfPages() + " sheets");
                String text = new PDFTextStripper().getText(document).replaceAll("\\s+", " ");
                Object figures = browser.run("return Array.from(document.querySelectorAll('td, main li'))"
                        + ".map(t => t.textContent.trim().replace(/\\s+/g, ' ')).filter(t => t.length > 0);");
                for (Object figure : (List<?>) figures) {
                    String first = figure.toString().split(" ", -1)[0];
                    assertTrue(text.contains(first), () -> "not on paper: " + figure);
                }
            }
        }
    }

    @Test
    void theKeyboardReachesHeadingsAndSorts() {
        browser.open(comparison, 1400);
        Object sorted = browser.run("const b = document.querySelectorAll('table thead th button')[1]; b.focus();"
                + "const focused = document.activeElement === b && b.tabIndex === 0; b.click();"
                + "return [focused, b.closest('th').getAttribute('aria-sort')];");
        assertEquals(List.of(true, "ascending"), sorted);
    }

    @Test
    void rowsComeInTheOrderAskedFor() {
        browser.open(comparison, 1400);
        Object falling = browser.run("const v = Array.from(document.querySelector('table').tBodies[0].rows)"
                + ".map(r => r.cells[1].dataset.value).filter(t => t !== '').map(Number);"
                + "return v.length + ' ' + v.every((x, i) => i === 0 || v[i - 1] >= x);");
        assertEquals("38 true", falling);
    }

    @Test
    void theVerdictIsOnTheFirstScreen() {
        for (int width : new int[] {390, 1400}) {
            browser.open(comparison, width);
            Object top = browser.run("return document.querySelector('table tbody tr').getBoundingClientRect().bottom;");
            assertTrue(((Number) top).doubleValue() < 900, "first row ends at " + top + " of 900");
        }
    }

    /** The names of the chosen films, which have no room beside the curves. */
    @Test
    void onAPhoneTheNamesOfCurvesStandBelowTheAxis() {
        browser.open(comparison, 390);
        Object found = browser.run("const box = e => e.getBoundingClientRect();"
                + "const svg = document.querySelector('.live svg');"
                + "const names = Array.from(svg.querySelectorAll('text')).filter(t => t.textContent.includes('(')"
                + " && !t.textContent.startsWith('log H'));"
                + "const axis = box(svg.querySelector('path.axis')).bottom;"
                + "return [names.length, names.every(t => box(t).top > axis && box(t).bottom <= box(svg).bottom"
                + " && box(t).right <= box(svg).right)];");
        assertEquals(List.of(3L, true), found);
    }

    /** Dark differs from light by its colours alone. */
    @Test
    void theAccessibilityEngineFindsNothing() throws IOException {
        for (Path page : pages) {
            browser.open(page, 1400);
            assertEquals(List.of(), browser.accessibilityFaults(), page.getFileName() + ", light");
            browser.prefer("dark");
            try {
                assertEquals(List.of(), browser.colourFaults(), page.getFileName() + ", dark");
            } finally {
                browser.prefer("light");
            }
        }
    }

    @Test
    void aPressOnAHeadingSorts() {
        browser.open(comparison, 1400);
        String first = "const t = document.querySelector('table');"
                + "const values = () => Array.from(t.tBodies[0].rows).map(r => r.cells[1].dataset.value);"
                + "t.tHead.rows[0].cells[1].querySelector('button').click();"
                + "const up = values(); const known = up.filter(v => v !== '').map(Number);"
                + "return [known.every((v, i) => i === 0 || known[i - 1] <= v), up.length,"
                + " up.slice(known.length).every(v => v === ''), t.tHead.rows[0].cells[1].getAttribute('aria-sort')];";
        assertEquals(List.of(true, 39L, true, "ascending"), browser.run(first));
    }

    @Test
    void chosenCurvesStandOutAndAreRead() {
        browser.open(comparison, 1400);
        assertEquals(3L, browser.run("return document.querySelectorAll('.chosen').length;"));
        assertEquals(
                38L,
                browser.run("return document.querySelectorAll('.live svg .curve[d*=\"L\"]:not([d*=\"H\"])').length;"));
        browser.run("document.querySelectorAll('.choices input')[5].click();");
        assertEquals(4L, browser.run("return document.querySelectorAll('.chosen').length;"));
        browser.run(
                "for (const box of document.querySelectorAll('.choices input')) { if (!box.checked) { box.click(); } }");
        assertEquals(6L, browser.run("return document.querySelectorAll('.chosen').length;"), "six at most");
        String before = (String) browser.run("return document.querySelector('.chosen').getAttribute('d');");
        browser.run("const s = document.querySelector('.live select'); s.value = 'speed-point';"
                + "s.dispatchEvent(new Event('change'));");
        assertNotEquals(before, browser.run("return document.querySelector('.chosen').getAttribute('d');"));
        Object said =
                browser.run("const svg = document.querySelector('.live svg'); const b = svg.getBoundingClientRect();"
                        + "for (let y = 0.9; y > 0.1; y -= 0.02) { svg.dispatchEvent(new PointerEvent('pointermove',"
                        + " { clientX: b.left + b.width * 0.5, clientY: b.top + b.height * y })); }"
                        + "return document.querySelector('.live output').textContent;");
        assertTrue(
                said.toString().matches(".+: log H .+, density \\d\\.\\d\\d, gradient \\d\\.\\d\\d"), said.toString());
    }

    /** At the speed point, all curves lie 0.10 above base plus fog (ISO 6:1993, through secondary sources). */
    @Test
    void alignedBySpeedPointAllCurvesMeetThere() {
        browser.open(comparison, 1400);
        Object spread = browser.run("const s = document.querySelector('.live select'); s.value = 'speed-point';"
                + "s.dispatchEvent(new Event('change')); const r = document.querySelector('.live input[type=range]');"
                + "r.value = 0; r.dispatchEvent(new Event('input'));"
                + "const data = JSON.parse(document.querySelector('.overlay script').textContent);"
                + "return data.curves.filter(c => c.m !== null).map(c => { const t = (c.m - c.x0) / c.dx;"
                + " const i = Math.floor(t); return Math.abs(c.d[i] + (t - i) * (c.d[i + 1] - c.d[i]) - c.base - 0.1); })"
                + ".reduce((a, b) => Math.max(a, b));");
        assertTrue(((Number) spread).doubleValue() < 0.005, "off by " + spread);
    }

    @Test
    void rowsLeadToTheirCurveAndBack() {
        browser.open(comparison, 1400);
        Object broken = browser.run("return Array.from(document.querySelectorAll('a[href^=\"#\"]'))"
                + ".filter(a => document.getElementById(a.hash.slice(1)) === null).length;");
        assertEquals(0L, broken);
        assertEquals(39L, browser.run("return document.querySelectorAll('.strips a[href^=\"#film-\"]').length;"));
    }

    @Test
    void thePictureStaysWithoutScripts() {
        browser.scripts(false);
        try {
            browser.open(comparison, 1400);
            browser.scripts(true);
            assertEquals(
                    List.of("block", "none"),
                    browser.run("return [getComputedStyle(document.querySelector('.static')).display,"
                            + " getComputedStyle(document.querySelector('.live')).display];"));
        } finally {
            browser.scripts(true);
        }
    }

    @Test
    void labelsRunNothingAndKeepTheirDirectionToThemselves() throws Exception {
        Path table = folder.resolve("hostile.csv");
        StringBuilder rows = new StringBuilder("strip,film,log_exposure,density\n");
        String label = "\"</script><script>window.ran=1</script><img src=x onerror=window.ran=1>\u05d0\u05d1\"";
        rows.append("A,").append(label).append(",,0.2\n");
        for (int i = 0; i < 12; i++) {
            double x = -3 + i * 0.3;
            double d = 0.2 + 0.6 * Math.log1p(Math.exp((x + 2) / 0.3)) * 0.3;
            rows.append(String.format(Locale.ROOT, "A,%s,%.2f,%.3f%n", label, x, d));
        }
        Files.writeString(table, rows);
        run(
                "comparison.FilmComparisonProgram",
                table.toAbsolutePath().toString(),
                "--reference",
                "A",
                "--out",
                folder.resolve("hostile").toString(),
                "--no-png");
        browser.open(folder.resolve("hostile/report.html"), 390);
        assertEquals(null, browser.run("return window.ran === undefined ? null : window.ran;"));
        assertEquals(1L, browser.run("return document.querySelectorAll('table tbody tr[id]').length;"));
        assertEquals(
                "isolate",
                browser.run("return getComputedStyle(document.querySelector('td bdi, th bdi')).unicodeBidi;"));
    }

    /** A library of films on one page: it stays within its screen, sorts, and its curves can be chosen. */
    @Test
    void threeHundredStripsAreOnePage() throws Exception {
        int strips = 300;
        Path table = folder.resolve("many.csv");
        StringBuilder rows = new StringBuilder("strip,film,box_speed,log_exposure,density\n");
        for (int k = 0; k < strips; k++) {
            String film = "T" + k + ",Invented " + k + ",100,";
            rows.append(film).append(",0.2\n");
            for (int i = 0; i < 15; i++) {
                double x = -3.5 + i * 0.3;
                double d = 0.2 + 0.62 * 0.25 * Math.log1p(Math.exp((x + 2 + 0.004 * k) / 0.25));
                rows.append(String.format(Locale.ROOT, "%s%.2f,%.3f%n", film, x, d));
            }
        }
        Files.writeString(table, rows);
        run(
                "comparison.FilmComparisonProgram",
                table.toAbsolutePath().toString(),
                "--reference",
                "T0",
                "--curve",
                "through",
                "--out",
                folder.resolve("many").toString(),
                "--no-plots",
                "--no-film-pages");
        Path page = folder.resolve("many/report.html");
        browser.open(page, 1400);
        for (int width : new int[] {390, 1400}) {
            browser.width(width);
            assertEquals(
                    0L,
                    browser.run("return document.documentElement.scrollWidth - document.documentElement.clientWidth;"));
        }
        assertEquals(
                List.of("T299", (long) strips, 4L),
                browser.run("const t = document.querySelector('table'); const b = t.tHead.rows[0].cells[1].firstChild;"
                        + "b.click(); b.click(); document.querySelectorAll('.choices input')[200].click();"
                        + "return [t.tBodies[0].rows[0].cells[0].textContent.match(/T\\d+/)[0], t.tBodies[0].rows.length,"
                        + " document.querySelectorAll('.chosen').length];"));
        assertTrue(((Number) browser.run("return document.querySelectorAll('*').length;")).intValue() < 120 * strips);
        try (PDDocument document = Loader.loadPDF(browser.pdf(8.27, 11.69))) {
            long headed = sheets(document).stream()
                    .filter(sheet -> sheet.contains("Stops from box"))
                    .count();
            assertTrue(headed >= 4, "the head of the verdict stands on " + headed + " sheets");
        }
    }

    @Test
    void paperHoldsTheTablesOnTwoPagesAndSixPlotsAPage() throws IOException {
        double[][] papers = {{8.27, 11.69}, {8.5, 11}};
        for (double[] paper : papers) {
            browser.open(comparison, 1400);
            try (PDDocument document = Loader.loadPDF(browser.pdf(paper[0], paper[1]))) {
                List<String> sheets = sheets(document);
                int plots = sheet(sheets, "Strip by strip");
                int end = sheet(sheets, "Matching the shadow");
                assertTrue(plots <= 3, "tables and overlay end before page " + (plots + 1));
                assertTrue(end - plots <= 7, "plots on pages " + (plots + 1) + " to " + (end + 1));
                String all = String.join(" ", sheets);
                Object figures = browser.run("return Array.from(document.querySelectorAll('table.sortable td'))"
                        + ".map(t => t.textContent.trim().replace(/\\s+/g, ' ')).filter(t => t.length > 0);");
                for (Object figure : (List<?>) figures) {
                    String first = figure.toString().split(" ", -1)[0];
                    assertTrue(all.contains(first), () -> "not on paper: " + figure);
                }
            }
        }
    }

    private static List<String> sheets(PDDocument document) throws IOException {
        List<String> sheets = new ArrayList<>();
        for (int i = 1; i <= document.getNumberOfPages(); i++) {
            PDFTextStripper text = new PDFTextStripper();
            text.setStartPage(i);
            text.setEndPage(i);
            sheets.add(text.getText(document).replaceAll("\\s+", " "));
        }
        return sheets;
    }

    private static int sheet(List<String> sheets, String heading) {
        for (int i = 0; i < sheets.size(); i++) {
            if (sheets.get(i).contains(heading)) {
                return i;
            }
        }
        throw new AssertionError("no page has '" + heading + "'");
    }

    @Test
    void thePageStatesWhatItWasMadeOf() throws IOException {
        String page = Files.readString(comparison);
        assertTrue(page.contains("film-comparison strips.csv --reference R00"), "command");
        assertTrue(page.matches("(?s).*<bdi>strips.csv</bdi></dt><dd>SHA-256 <code>[0-9a-f]{64}</code>.*"), "digest");
        assertFalse(page.contains(folder.toString()), "no path of this machine");
    }
}
