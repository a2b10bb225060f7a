// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.lang.reflect.Constructor;
import java.lang.reflect.Executable;
import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.Method;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/**
 * Null is refused at the door, with the name of the parameter: by every public method, factory and constructor of the
 * published modules, for each parameter in turn. Arguments are made from a few values by hand, and from what the methods
 * themselves return.
 */
class NullsTest {

    private static final Map<String, String> SOURCES = new HashMap<>();

    @BeforeAll
    static void makeSamples() throws IOException {
        Samples.make();
    }

    @Test
    void everyMethodNamesTheParameterThatIsNull() {
        Set<String> offenders = new TreeSet<>();
        List<String> untried = new ArrayList<>();
        int tried = 0;
        for (Class<?> type : PublicTypes.all()) {
            for (Executable executable : Samples.executables(type).toList()) {
                if (Arrays.stream(executable.getParameterTypes()).allMatch(Class::isPrimitive)) {
                    continue;
                }
                if (Samples.target(executable) == null || Samples.arguments(executable) == null) {
                    untried.add(executable.toString());
                } else {
                    tried += attempt(executable, offenders);
                }
            }
        }
        int attempts = tried;
        assertTrue(
                untried.size() * 20 < attempts,
                () -> attempts + " tried, not " + untried.size() + ": " + String.join("\n", untried));
        assertEquals("", String.join("\n", offenders));
    }

    private static int attempt(Executable executable, Set<String> offenders) {
        Class<?>[] parameters = executable.getParameterTypes();
        int tried = 0;
        for (int i = 0; i < parameters.length; i++) {
            if (parameters[i].isPrimitive()) {
                continue;
            }
            Object[] arguments = Samples.arguments(executable);
            arguments[i] = null;
            tried++;
            String name = parameterName(executable, i);
            String seen = outcome(executable, arguments);
            if (!seen.startsWith("NullPointerException") || !seen.matches(".*\\b" + Pattern.quote(name) + "\\b.*")) {
                offenders.add(executable.getDeclaringClass().getName() + " "
                        + (executable instanceof Method ? executable.getName() : "new") + "("
                        + String.join(
                                ",",
                                Arrays.stream(parameters)
                                        .map(Class::getSimpleName)
                                        .toList()) + ") " + name
                        + ": " + seen.lines().findFirst().orElse(""));
            }
        }
        return tried;
    }

    private static String outcome(Executable executable, Object[] arguments) {
        try {
            if (executable instanceof Method method) {
                method.invoke(Samples.target(executable), arguments);
            } else {
                ((Constructor<?>) executable).newInstance(arguments);
            }
            return "nothing thrown";
        } catch (InvocationTargetException e) {
            return e.getCause().getClass().getSimpleName() + " " + e.getCause().getMessage();
        } catch (ReflectiveOperationException e) {
            return e.toString();
        }
    }

    /** The name that the source gives a parameter. */
    private static String parameterName(Executable executable, int index) {
        Class<?> type = executable.getDeclaringClass();
        Class<?> outer = type;
        while (outer.getDeclaringClass() != null) {
            outer = outer.getDeclaringClass();
        }
        String source = SOURCES.computeIfAbsent(outer.getName(), NullsTest::source);
        if (executable instanceof Constructor && type.isRecord()) {
            return type.getRecordComponents()[index].getName();
        }
        String called = executable instanceof Method ? executable.getName() : type.getSimpleName();
        Matcher found = Pattern.compile(
                        "[\\w>\\]] " + called + "\\(((?:[^()]|\\([^()]*\\))*)\\)\\s*(?:throws [\\w., \\n]+)?\\{")
                .matcher(source);
        while (found.find()) {
            List<String> names = new ArrayList<>();
            List<String> types = new ArrayList<>();
            String plain = found.group(1).replaceAll("@\\w+(\\([^()]*\\))?", "");
            while (plain.contains("<")) {
                plain = plain.replaceAll("<[^<>]*>", "");
            }
            for (String each : plain.split(",", -1)) {
                String[] parts = each.strip().split("\\s+", -1);
                names.add(parts[parts.length - 1]);
                types.add(
                        parts.length > 1
                                ? parts[parts.length - 2].replace("...", "[]").replaceAll("^.*\\.", "")
                                : "");
            }
            if (fits(types, executable.getParameterTypes())) {
                return names.get(index);
            }
        }
        return "?";
    }

    private static boolean fits(List<String> types, Class<?>[] parameters) {
        if (types.size() != parameters.length) {
            return false;
        }
        for (int i = 0; i < parameters.length; i++) {
            if (!types.get(i).equals(parameters[i].getSimpleName())
                    && !types.get(i).matches("[A-Z]")) {
                return false;
            }
        }
        return true;
    }

    private static String source(String name) {
        String file = name.replace('.', '/') + ".java";
        try (Stream<Path> modules = Stream.of("core", "fitting", "standards-checks")
                .map(module ->
                        ProjectFiles.root().resolve(module + "/src/main/java").resolve(file))) {
            Path found = modules.filter(Files::exists).findFirst().orElseThrow();
            return Files.readString(found);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
