// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Every block of Java in the Javadoc of the published packages compiles, with what it takes for granted declared. */
class JavadocCodeTest {

    /** What blocks take for granted, by name: in any file, or after the name of the file in that file alone. */
    private static final Map<String, String> GIVEN = Map.ofEntries(
            Map.entry("strip", "Strip"),
            Map.entry("strips", "List<Strip>"),
            Map.entry("curve", "CharacteristicCurve"),
            Map.entry("tablet", "StepTablet"),
            Map.entry("fit", "FittedCurve"),
            Map.entry("figure", "ToDoubleFunction<CharacteristicCurve>"),
            Map.entry("basePlusFog", "Density"),
            Map.entry("logExposures", "double[]"),
            Map.entry("densities", "double[]"),
            Map.entry("codes", "short[]"),
            Map.entry("image", "DensityImage"),
            Map.entry("pool", "Executor"),
            Map.entry("encoding", "ScanEncoding"),
            Map.entry("inverse", "InverseCurveTable"),
            Map.entry("row", "StripComparison"),
            Map.entry("layout", "LogLayout"),
            Map.entry("summary", "ReadingsSummary"),
            Map.entry("certificate", "Reader"),
            Map.entry("log", "InputStream"),
            Map.entry("speed", "Estimate"),
            Map.entry("scan", "ScanRows"),
            Map.entry("box", "ScanRegion"),
            Map.entry("pairs", "List<CallierFactor.Pair>"),
            Map.entry("spectrum", "NoiseSpectrum"),
            Map.entry("enlarger", "ModulationTransfer"),
            Map.entry("enlargerLens", "ModulationTransfer"),
            Map.entry("logExposuresOfTheSteps", "List<Estimate>"),
            Map.entry("without", "CharacteristicCurve"),
            Map.entry("with", "CharacteristicCurve"),
            Map.entry("curveAt1s", "CharacteristicCurve"),
            Map.entry("curveAt10s", "CharacteristicCurve"),
            Map.entry("curveAt100s", "CharacteristicCurve"),
            Map.entry("readings", "List<ControlReading>"),
            Map.entry("firstWeeks", "double[]"),
            Map.entry("sinceThen", "double[]"),
            Map.entry("bracket", "Bracket"),
            Map.entry("camera", "CameraExposure"),
            Map.entry("printing", "Printing"),
            Map.entry("paper", "CharacteristicCurve"),
            Map.entry("film", "CharacteristicCurve"),
            Map.entry("Iso5800 red", "Strip"),
            Map.entry("Iso5800 green", "Strip"),
            Map.entry("Iso5800 blue", "Strip"),
            Map.entry("SampleConversion image", "float[]"),
            Map.entry("CodeConversion logExposures", "float[]"),
            Map.entry("PrintExposure film", "Density"),
            Map.entry("PrintExposure reference", "Density"),
            Map.entry("ShadowMatch reference", "Bracket"),
            Map.entry("PrintSharpness film", "ModulationTransfer"),
            Map.entry("PrintingChannel reference", "PrintingChannel"),
            Map.entry("ScannedRange reference", "ScannedRange"),
            Map.entry("StepFinder densities", "ScanCodeTable"));

    private static final String IMPORTS = """
            import java.io.*;
            import java.nio.file.*;
            import java.time.*;
            import java.util.*;
            import java.util.concurrent.*;
            import java.util.function.*;
            """;

    @TempDir
    Path scratch;

    @Test
    void everyBlockCompiles() throws Exception {
        String imports = PublicTypes.all().stream()
                .map(type -> type.getDeclaringClass() == null
                        ? type.getPackageName()
                        : type.getDeclaringClass().getCanonicalName())
                .collect(Collectors.toCollection(TreeSet::new))
                .stream()
                .map(place -> "import " + place + ".*;\n")
                .collect(Collectors.joining(
                        "", IMPORTS, "import static org.tonewedge.core.quantity.SpectralResponse.*;\n"));
        List<String> files = new ArrayList<>();
        for (Path source : sources()) {
            String name =
                    source.getFileName().toString().replaceFirst("\\.java$", "").replace('-', '_');
            Matcher block = Pattern.compile("<pre>\\{@code(.*?)\\}</pre>", Pattern.DOTALL)
                    .matcher(Files.readString(source));
            while (block.find()) {
                String code = block.group(1).replaceAll("\n *\\* ?", "\n");
                if (code.contains("BEGIN_DATA")) {
                    continue; // a file, not Java
                }
                String unit = "Block" + files.size() + "Of_" + name;
                boolean isType = code.strip().matches("(?s)(final )?class .*");
                String body =
                        isType ? code : "void show(" + given(name, code) + ") throws Exception {\n" + code + "\n}\n";
                files.add(Files.writeString(
                                scratch.resolve(unit + ".java"),
                                imports + (isType ? body : "\nclass " + unit + " {\n" + body + "}\n"))
                        .toString());
            }
        }
        assertTrue(files.size() > 45, () -> files.size() + " blocks");
        List<String> arguments =
                new ArrayList<>(List.of("-proc:none", "-nowarn", "-cp", Processes.testPath(), "-d", "classes"));
        arguments.addAll(files);
        Processes.Result compiled = Processes.run(scratch, scratch, "javac", arguments.toArray(String[]::new));
        assertEquals("", compiled.errors());
        assertEquals(0, compiled.status());
    }

    /** The parameters that a block needs: names that it uses and does not declare. */
    private static String given(String file, String block) {
        String code = block.replaceAll("//.*", "");
        return GIVEN.keySet().stream()
                .map(name -> name.replaceFirst(".* ", ""))
                .distinct()
                .filter(name -> Pattern.compile("(?<![.\\w\"])" + name + "\\b(?!\\()")
                        .matcher(code)
                        .find())
                .filter(name -> !Pattern.compile("[\\w>] " + name + " = |[\\w>] " + name + " : |[( ]" + name + " -> ")
                        .matcher(code)
                        .find())
                .filter(name -> GIVEN.containsKey(name) || GIVEN.containsKey(file + " " + name))
                .sorted()
                .map(name -> GIVEN.getOrDefault(file + " " + name, GIVEN.get(name)) + " " + name)
                .collect(Collectors.joining(", "));
    }

    private static boolean isPublished(Path source) {
        try {
            return source.endsWith("package-info.java")
                    || Files.readString(source).contains("\npublic ");
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static List<Path> sources() throws IOException {
        List<Path> found = new ArrayList<>();
        for (String module : List.of("core", "fitting", "standards-checks")) {
            try (Stream<Path> files = Files.walk(ProjectFiles.root().resolve(module + "/src/main/java"))) {
                files.filter(file -> file.toString().endsWith(".java")
                                && !file.toString().matches(".*[/\\\\](internal|numeric)[/\\\\].*"))
                        .filter(JavadocCodeTest::isPublished)
                        .sorted()
                        .forEach(found::add);
            }
        }
        return found;
    }
}
