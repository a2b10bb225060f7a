// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples;

import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAPackage;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.domain.JavaCodeUnit;
import com.tngtech.archunit.core.domain.JavaModifier;
import com.tngtech.archunit.core.domain.JavaType;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.lang.ArchCondition;
import com.tngtech.archunit.lang.ConditionEvents;
import com.tngtech.archunit.lang.SimpleConditionEvent;
import com.tngtech.archunit.lang.syntax.ArchRuleDefinition;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/** Guards the arrows between the modules and what may stand in a public signature. */
class ArchitectureTest {

    private static final String CORE = "org.tonewedge.core..";
    private static final String FITTING = "org.tonewedge.fitting..";
    private static final String STANDARDS = "org.tonewedge.standards..";
    private static final String EXAMPLES = "org.tonewedge.examples..";

    private static JavaClasses classes;

    @BeforeAll
    static void readClasses() {
        Path root = ProjectFiles.root();
        List<Path> paths = Stream.of("core", "fitting", "standards-checks", "examples")
                .map(module -> root.resolve(module + "/target/classes"))
                .toList();
        classes = new ClassFileImporter().importPaths(paths);
        for (String room : List.of(CORE, FITTING, STANDARDS, EXAMPLES)) {
            assertTrue(classes.stream().anyMatch(resideInAPackage(room)), "no class of " + room);
        }
    }

    @Test
    void coreKnowsNoOtherModule() {
        noClasses()
                .that()
                .resideInAPackage(CORE)
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage(FITTING, STANDARDS, EXAMPLES, "org.apache.commons.math3..", "org.ejml..")
                .check(classes);
    }

    @Test
    void fittingKnowsOnlyCore() {
        noClasses()
                .that()
                .resideInAPackage(FITTING)
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage(STANDARDS, EXAMPLES)
                .check(classes);
    }

    /** What a thread keeps outlives the class loader of a program that is unloaded. */
    @Test
    void nothingIsKeptInThreads() {
        noClasses()
                .that()
                .resideInAnyPackage(CORE, FITTING, STANDARDS)
                .should()
                .dependOnClassesThat()
                .areAssignableTo(ThreadLocal.class)
                .check(classes);
    }

    @Test
    void standardsDoNotKnowExamples() {
        noClasses()
                .that()
                .resideInAPackage(STANDARDS)
                .should()
                .dependOnClassesThat()
                .resideInAPackage(EXAMPLES)
                .check(classes);
    }

    @Test
    void quantitiesKnowNoOtherRoom() {
        noClasses()
                .that()
                .resideInAPackage("org.tonewedge.core.quantity..")
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage(
                        "org.tonewedge.core.strip..",
                        "org.tonewedge.core.curve..",
                        "org.tonewedge.core.scan..",
                        "org.tonewedge.core.tone..")
                .check(classes);
    }

    @Test
    void stripsKnowNoCurves() {
        noClasses()
                .that()
                .resideInAPackage("org.tonewedge.core.strip..")
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage(
                        "org.tonewedge.core.curve..", "org.tonewedge.core.scan..", "org.tonewedge.core.tone..")
                .check(classes);
    }

    @Test
    void curvesKnowNoScansAndNoTone() {
        noClasses()
                .that()
                .resideInAPackage("org.tonewedge.core.curve..")
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage("org.tonewedge.core.scan..", "org.tonewedge.core.tone..")
                .check(classes);
    }

    /** Each room of the densitometer knows only those before it. */
    @Test
    void roomsOfTheDensitometerPointOneWay() {
        String densitometer = "org.tonewedge.standards.densitometer.";
        List<String> rooms = List.of("input", "summary", "verdict", "calibration", "control", "agreement");
        for (int i = 0; i < rooms.size() - 1; i++) {
            String[] later = rooms.subList(i + 1, rooms.size()).stream()
                    .map(room -> densitometer + room + "..")
                    .toArray(String[]::new);
            noClasses()
                    .that()
                    .resideInAPackage(densitometer + rooms.get(i) + "..")
                    .should()
                    .dependOnClassesThat()
                    .resideInAnyPackage(later)
                    .check(classes);
        }
    }

    /** The numeric libraries are reached through one room, so that another could take their place. */
    @Test
    void onlyTheNumericRoomKnowsTheNumericLibraries() {
        noClasses()
                .that()
                .resideInAnyPackage(FITTING, STANDARDS, EXAMPLES)
                .and()
                .resideOutsideOfPackage("org.tonewedge.fitting.numeric..")
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage("org.apache.commons.math3..", "org.ejml..")
                .check(classes);
    }

    @Test
    void onlyStandardsReadTheNumericRoomOfFitting() {
        noClasses()
                .that()
                .resideInAPackage(EXAMPLES)
                .should()
                .dependOnClassesThat()
                .resideInAPackage("org.tonewedge.fitting.numeric..")
                .check(classes);
    }

    /** Types of other libraries may be used inside, but nobody who calls this one shall see them. */
    @Test
    void publicSignaturesNameNoForeignLibrary() {
        ArchRuleDefinition.codeUnits()
                .that()
                .areDeclaredInClassesThat(resideInAPackage(CORE)
                        .or(resideInAPackage(FITTING))
                        .or(resideInAPackage(STANDARDS))
                        .and(DescribedPredicate.describe("are public and not internal", ArchitectureTest::isPublished)))
                .should(new ArchCondition<>("name only the JDK and this project in public signatures") {
                    @Override
                    public void check(JavaCodeUnit unit, ConditionEvents events) {
                        if (unit.getModifiers().contains(JavaModifier.PUBLIC)
                                || unit.getModifiers().contains(JavaModifier.PROTECTED)) {
                            Stream.concat(Stream.of(unit.getReturnType()), unit.getParameterTypes().stream())
                                    .map(JavaType::toErasure)
                                    .map(JavaClass::getBaseComponentType)
                                    .filter(type -> !isOwnOrJdk(type))
                                    .forEach(type -> events.add(SimpleConditionEvent.violated(
                                            unit, unit.getFullName() + " names " + type.getName())));
                        }
                    }
                })
                .check(classes);
    }

    private static boolean isPublished(JavaClass type) {
        return type.getModifiers().contains(JavaModifier.PUBLIC)
                && !type.getPackageName().contains(".internal");
    }

    private static boolean isOwnOrJdk(JavaClass type) {
        return type.isPrimitive()
                || type.getName().startsWith("java.")
                || type.getName().startsWith("org.tonewedge.");
    }
}
