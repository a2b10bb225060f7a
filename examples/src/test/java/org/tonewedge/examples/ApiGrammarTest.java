// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.Serializable;
import java.lang.reflect.Method;
import java.lang.reflect.Modifier;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.strip.UnusableInputException;

/** The grammar of the published API, as DEVELOPERS.md states it, held over every public type. */
class ApiGrammarTest {

    private static List<String> offenders(Predicate<Class<?>> isWrong) {
        return PublicTypes.all().stream().filter(isWrong).map(Class::getName).toList();
    }

    private static Stream<Method> methods(Predicate<Method> wanted) {
        return PublicTypes.all().stream()
                .flatMap(type -> Arrays.stream(type.getDeclaredMethods()))
                .filter(method -> Modifier.isPublic(method.getModifiers()) && !method.isSynthetic())
                .filter(wanted);
    }

    private static boolean hasInstances(Class<?> type) {
        return !type.isInterface()
                && !Throwable.class.isAssignableFrom(type)
                && Arrays.stream(type.getDeclaredMethods())
                        .anyMatch(method ->
                                Modifier.isPublic(method.getModifiers()) && !Modifier.isStatic(method.getModifiers()));
    }

    private static boolean declares(Class<?> type, String name, Class<?>... parameters) {
        for (Class<?> at = type; at != null && at != Object.class; at = at.getSuperclass()) {
            if (Arrays.stream(at.getDeclaredMethods())
                    .anyMatch(method -> method.getName().equals(name)
                            && List.of(method.getParameterTypes()).equals(List.of(parameters)))) {
                return true;
            }
        }
        return false;
    }

    @Test
    void thereAreAsManyTypesAsAPageOfJavadocLists() {
        assertTrue(PublicTypes.all().size() > 150, () -> PublicTypes.all().size() + " types");
    }

    @Test
    void everyTypePrintsItselfInWords() {
        assertEquals(
                List.of(),
                offenders(type ->
                        hasInstances(type) && !type.getSimpleName().equals("Builder") && !declares(type, "toString")));
    }

    @Test
    void equalityAndHashGoTogether() {
        assertEquals(
                List.of(),
                offenders(type ->
                        hasInstances(type) && declares(type, "equals", Object.class) != declares(type, "hashCode")));
    }

    @Test
    void classesAreFinalAndWithoutPublicFields() {
        assertEquals(
                List.of(),
                offenders(type -> !type.isInterface()
                        && !type.isEnum()
                        && !Throwable.class.isAssignableFrom(type)
                        && !Modifier.isFinal(type.getModifiers())));
        assertEquals(
                List.of(),
                offenders(type -> Arrays.stream(type.getDeclaredFields())
                        .anyMatch(field -> Modifier.isPublic(field.getModifiers())
                                && !(Modifier.isStatic(field.getModifiers())
                                        && Modifier.isFinal(field.getModifiers())))));
    }

    @Test
    void signaturesNameNoOtherLibrary() {
        List<String> found = new ArrayList<>();
        methods(method -> true).forEach(method -> {
            List<Class<?>> named = new ArrayList<>(List.of(method.getParameterTypes()));
            named.add(method.getReturnType());
            for (Class<?> type : named) {
                Class<?> element = type;
                while (element.isArray()) {
                    element = element.getComponentType();
                }
                String name = element.getName();
                if (!element.isPrimitive()
                        && !name.matches(
                                "java\\..*|org\\.tonewedge\\.(core|fitting|standards)\\.(?!.*\\b(internal|numeric)\\b).*|org\\.tonewedge\\.standards\\.[A-Z].*")) {
                    found.add(method.toString());
                }
            }
        });
        assertEquals(List.of(), found);
    }

    @Test
    void optionsThatAreTypesAreWith() {
        assertEquals(
                List.of(),
                methods(method -> method.getName().matches("with[A-Z]\\w*")
                                && method.getParameterCount() == 1
                                && method.getParameterTypes()[0].isEnum())
                        .map(Method::toString)
                        .toList());
    }

    @Test
    void determineIsAnInstanceMethodOfAMethodWithDefaults() {
        assertEquals(
                List.of(),
                methods(method -> method.getName().equals("determine"))
                        .filter(method -> Modifier.isStatic(method.getModifiers()))
                        .map(Method::toString)
                        .toList());
    }

    @Test
    void timesAreDurations() {
        assertEquals(
                List.of(),
                methods(method -> Modifier.isStatic(method.getModifiers())
                                && method.getName().matches("of(Seconds|Minutes|Hours)"))
                        .map(Method::toString)
                        .toList());
    }

    /** The package pages list them; each is a promise, and {@code SerialFormsTest} tries them. */
    @Test
    void whatIsSerialisableIsListed() {
        assertEquals(
                Set.of(
                        "CameraSetting",
                        "CoverageInterval",
                        "CurvePoint",
                        "Density",
                        "DensityDifference",
                        "Estimate",
                        "ExposedStep",
                        "ExposureAxis",
                        "ExposureInterval",
                        "ExposureSeries",
                        "Gradient",
                        "LogExposure",
                        "Processing",
                        "ResultRecord",
                        "Step",
                        "StepTablet",
                        "Strip",
                        "Temperature",
                        "TestConditions"),
                PublicTypes.all().stream()
                        .filter(Serializable.class::isAssignableFrom)
                        .filter(type -> !type.isEnum() && !Throwable.class.isAssignableFrom(type))
                        .map(Class::getSimpleName)
                        .collect(Collectors.toSet()));
    }

    @Test
    void exceptionsAreOfTwoFamilies() {
        assertEquals(
                List.of(),
                offenders(type -> Throwable.class.isAssignableFrom(type)
                        && !NotDeterminableException.class.isAssignableFrom(type)
                        && !UnusableInputException.class.isAssignableFrom(type)));
    }
}
