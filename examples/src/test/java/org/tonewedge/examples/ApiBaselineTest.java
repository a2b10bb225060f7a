// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

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
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/**
 * The published API against its baseline, one signature a line. What vanishes from the file breaks users and needs a major
 * version; what is added needs a minor one. The file is written anew by
 *
 * <pre>mvn test -pl examples -am -Dtest=ApiBaselineTest -Dsurefire.failIfNoSpecifiedTests=false -Dtonewedge.api=write</pre>
 */
class ApiBaselineTest {

    private static final Path BASELINE = ProjectFiles.root().resolve("examples/src/test/resources/api.txt");

    @Test
    void signaturesAreThoseOfTheBaseline() throws Exception {
        Set<String> now = new TreeSet<>();
        PublicTypes.all().forEach(type -> describe(type, now));
        if ("write".equals(System.getProperty("tonewedge.api"))) {
            Files.write(BASELINE, now);
        }
        assumeTrue(Files.exists(BASELINE), "the baseline is written when a release is prepared");
        List<String> kept = Files.readAllLines(BASELINE);
        assertEquals(
                List.of(), kept.stream().filter(line -> !now.contains(line)).toList(), "vanished");
        assertEquals(
                List.of(), now.stream().filter(line -> !kept.contains(line)).toList(), "added");
    }

    private static void describe(Class<?> type, Set<String> lines) {
        lines.add(Modifier.toString(type.getModifiers()) + " " + type.getName()
                + (type.getGenericSuperclass() == null || type.getSuperclass() == Object.class
                        ? ""
                        : " extends " + type.getGenericSuperclass().getTypeName())
                + Arrays.stream(type.getGenericInterfaces())
                        .map(each -> " implements " + each.getTypeName())
                        .reduce("", String::concat));
        Stream.<AccessibleObject[]>of(
                        type.getDeclaredFields(), type.getDeclaredConstructors(), type.getDeclaredMethods())
                .flatMap(Arrays::stream)
                .filter(member -> isOpen(type, (Member) member))
                .map(ApiBaselineTest::signature)
                .forEach(lines::add);
    }

    private static boolean isOpen(Class<?> type, Member member) {
        boolean inherited = !Modifier.isFinal(type.getModifiers()) && Modifier.isProtected(member.getModifiers());
        return (Modifier.isPublic(member.getModifiers()) || inherited) && !member.isSynthetic();
    }

    private static String signature(AccessibleObject member) {
        if (member instanceof Method method) {
            return method.toGenericString();
        }
        return member instanceof Constructor<?> constructor
                ? constructor.toGenericString()
                : ((Field) member).toGenericString();
    }
}
