// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.page;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Base64;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Assumptions;
import org.openqa.selenium.OutputType;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.chrome.ChromeDriverService;
import org.openqa.selenium.chrome.ChromeOptions;

/**
 * The Chromium of the distribution without a window, for tests of pages. Where there is none, a test is skipped by name,
 * unless the environment variable {@code TONEWEDGE_BROWSER} is {@code required}, as it is in CI.
 */
public final class Browser implements AutoCloseable {

    private static final Path BROWSER = Path.of("/usr/bin/chromium");
    private static final Path DRIVER = Path.of("/usr/bin/chromedriver");

    private final ChromeDriver driver;

    private Browser(ChromeDriver driver) {
        this.driver = driver;
    }

    /** Starts it with an empty profile. */
    public static Browser start(Path scratch) {
        boolean found = Files.exists(BROWSER) && Files.exists(DRIVER);
        if ("required".equals(System.getenv("TONEWEDGE_BROWSER"))) {
            assertTrue(found, "needs " + BROWSER + " and " + DRIVER);
        }
        Assumptions.assumeTrue(found, "skipped: there is no " + BROWSER + " with " + DRIVER);
        ChromeOptions options = new ChromeOptions();
        options.setBinary(BROWSER.toString());
        options.addArguments(
                "--headless",
                "--no-sandbox",
                "--disable-gpu",
                "--disable-dev-shm-usage",
                "--disable-quic",
                "--no-first-run",
                "--disable-background-networking",
                "--disable-component-update",
                "--disable-sync",
                "--user-data-dir=" + scratch.resolve("profile"));
        ChromeDriverService service = new ChromeDriverService.Builder()
                .usingDriverExecutable(DRIVER.toFile())
                .usingAnyFreePort()
                .build();
        ChromeDriver driver = new ChromeDriver(service, options);
        // A busy machine is no fault of a page.
        driver.manage().timeouts().scriptTimeout(Duration.ofMinutes(3));
        return new Browser(driver);
    }

    /** Opens a page from disk at a width of the screen. */
    public void open(Path page, int width) {
        width(width);
        driver.get(page.toUri().toString());
    }

    /** Sets the width of the screen. */
    public void width(int width) {
        driver.executeCdpCommand(
                "Emulation.setDeviceMetricsOverride",
                Map.of("width", width, "height", 900, "deviceScaleFactor", 1, "mobile", false));
    }

    /** Lets pages see a preference for dark or light. */
    public void prefer(String scheme) {
        driver.executeCdpCommand(
                "Emulation.setEmulatedMedia",
                Map.of("features", List.of(Map.of("name", "prefers-color-scheme", "value", scheme))));
    }

    /** Lets pages run scripts or not. */
    public void scripts(boolean run) {
        driver.executeCdpCommand("Emulation.setScriptExecutionDisabled", Map.of("value", !run));
    }

    /** Runs a function body in the page and returns what it returns. */
    public Object run(String script, Object... arguments) {
        return driver.executeScript(script, arguments);
    }

    /** What the accessibility engine finds wrong: rule, place and remedy. */
    public List<String> accessibilityFaults() throws IOException {
        return accessibilityFaults("{}");
    }

    /** The same for its rules about colours alone. */
    public List<String> colourFaults() throws IOException {
        return accessibilityFaults("{ runOnly: ['color-contrast', 'link-in-text-block'] }");
    }

    @SuppressWarnings("unchecked")
    private List<String> accessibilityFaults(String rules) throws IOException {
        try (InputStream in = ClassLoader.getSystemResourceAsStream("axe.min.js")) {
            driver.executeScript(new String(in.readAllBytes(), StandardCharsets.UTF_8));
        }
        return (List<String>) driver.executeAsyncScript("const done = arguments[arguments.length - 1];"
                + "axe.run(Object.assign({ resultTypes: ['violations'] }, " + rules + ")).then(function (result) {"
                + "done(result.violations.flatMap(function (v) { return v.nodes.slice(0, 3).map(function (n) {"
                + "return v.id + ': ' + n.target + ': ' + n.failureSummary; }); })); });");
    }

    /** Prints the page. */
    public byte[] pdf(double paperWidth, double paperHeight) {
        driver.executeCdpCommand("Emulation.clearDeviceMetricsOverride", Map.of());
        Map<String, Object> printed = driver.executeCdpCommand(
                "Page.printToPDF",
                Map.of(
                        "paperWidth",
                        paperWidth,
                        "paperHeight",
                        paperHeight,
                        "preferCSSPageSize",
                        false,
                        "printBackground",
                        false));
        return Base64.getDecoder().decode((String) printed.get("data"));
    }

    /** What the page looks like. */
    public void picture(Path png) throws IOException {
        Files.write(png, driver.getScreenshotAs(OutputType.BYTES));
    }

    /** Messages of the console that are no information. */
    public List<String> complaints() {
        return driver.manage().logs().get("browser").getAll().stream()
                .map(Object::toString)
                .toList();
    }

    @Override
    public void close() {
        driver.quit();
    }
}
