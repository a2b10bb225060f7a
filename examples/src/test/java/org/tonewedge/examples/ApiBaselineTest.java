// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.lang.reflect.AccessibleObject;
import java.lang.reflect.Constructor;
import java.lang.reflect.Field;
import java.lang.reflect.Member;
import java.lang.reflect.Method;
import java.lang.reflect.Modifier;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/**
 * The published API against its baseline: a signature a line, each beginning with its type, sorted, so that a difference
 * of two versions of the file reads as a list of changes. The file is written anew by
 *
 * <pre>mvn test -pl examples -am -Dtest=ApiBaselineTest -Dsurefire.failIfNoSpecifiedTests=false -Dtonewedge.api=write</pre>
 */
class ApiBaselineTest {

    private static final Path BASELINE = ProjectFiles.root().resolve("examples/src/test/resources/api.txt");
    private static final String REMEDY =
            "if this is meant, list it under Changes in DEVELOPERS.md and write the baseline"
                    + " anew with -Dtonewedge.api=write";

    @Test
    void signaturesAreThoseOfTheBaseline() throws IOException {
        Set<String> now = signatures(PublicTypes.all());
        if ("write".equals(System.getProperty("tonewedge.api"))) {
            Files.write(BASELINE, now);
        }
        assertEquals("", differences(new TreeSet<>(Files.readAllLines(BASELINE)), now));
    }

    /** What this test says of changes that it has never seen must be right too. */
    @Test
    void changesAreJudged() {
        Set<String> before = signatures(List.of(Before.class));
        assertEquals("", differences(before, before));
        Set<String> after = signatures(List.of(After.class)).stream()
                .map(line -> line.replace("After", "Before"))
                .collect(Collectors.toCollection(TreeSet::new));
        assertEquals("""
                breaks what others compiled against the baseline:
                  ApiBaselineTest.Before: public abstract double kept(int)
                breaks what others compiled against the baseline:
                  added for others to implement: ApiBaselineTest.Before: public abstract double kept(long)
                new:
                  ApiBaselineTest.Before: public default String added()
                """ + REMEDY, differences(before, after));
    }

    interface Before {
        double kept(int value);
    }

    interface After {
        double kept(long value);

        default String added() {
            return "";
        }
    }

    private static String differences(Set<String> before, Set<String> now) {
        StringBuilder text = new StringBuilder();
        String breaks = "breaks what others compiled against the baseline:\n  ";
        before.stream().filter(line -> !now.contains(line)).forEach(line -> text.append(breaks + line + "\n"));
        for (String line : now) {
            if (!before.contains(line)) {
                boolean toImplement =
                        line.contains(": public abstract ") && before.stream().anyMatch(isOfTheTypeOf(line));
                text.append(toImplement ? breaks + "added for others to implement: " : "new:\n  ")
                        .append(line)
                        .append('\n');
            }
        }
        return text.isEmpty() ? "" : text + REMEDY;
    }

    private static Predicate<String> isOfTheTypeOf(String line) {
        String type = line.substring(0, line.indexOf(": ") + 2);
        return other -> other.startsWith(type);
    }

    private static Set<String> signatures(List<Class<?>> types) {
        Set<String> lines = new TreeSet<>();
        for (Class<?> type : types) {
            String start = plain(type.getTypeName()).replace('$', '.') + ": ";
            lines.add(start + "is " + plain(type.toGenericString()) + parents(type));
            // A type that is not public lends its methods to those that extend it.
            for (Class<?> at = type; at == type || isHidden(at); at = at.getSuperclass()) {
                Stream.<AccessibleObject[]>of(
                                at.getDeclaredFields(), at.getDeclaredConstructors(), at.getDeclaredMethods())
                        .flatMap(Arrays::stream)
                        .filter(member -> isOpen(type, (Member) member))
                        .filter(member -> !(member instanceof Constructor<?> made) || made.getDeclaringClass() == type)
                        .map(member -> start + signature(member))
                        .forEach(lines::add);
            }
        }
        return lines;
    }

    private static boolean isHidden(Class<?> type) {
        return type != null && type.getName().startsWith("org.tonewedge.") && !Modifier.isPublic(type.getModifiers());
    }

    private static String parents(Class<?> type) {
        String extended = type.getGenericSuperclass() == null || type.getSuperclass() == Object.class
                ? ""
                : " extends " + plain(type.getGenericSuperclass().getTypeName());
        return extended
                + Arrays.stream(type.getGenericInterfaces())
                        .map(each -> " implements " + plain(each.getTypeName()))
                        .reduce("", String::concat);
    }

    private static boolean isOpen(Class<?> type, Member member) {
        boolean inherited = !Modifier.isFinal(type.getModifiers()) && Modifier.isProtected(member.getModifiers());
        return (Modifier.isPublic(member.getModifiers()) || inherited) && !member.isSynthetic();
    }

    /** As it is declared, without packages and without the type that begins the line. */
    private static String signature(AccessibleObject member) {
        Class<?> owner = ((Member) member).getDeclaringClass();
        String text = member instanceof Method method
                ? method.toGenericString()
                : member instanceof Constructor<?> constructor
                        ? constructor.toGenericString()
                        : ((Field) member).toGenericString();
        return plain(text.replace(owner.getTypeName() + ".", "")).replace('$', '.');
    }

    /** Without the names of packages, which begin with a small letter. */
    private static String plain(String text) {
        return text.replaceAll("\\b(?:[a-z][a-z0-9]*\\.)+(?=[A-Z])", "");
    }
}
