// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples;

import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.Reader;
import java.io.StringReader;
import java.io.StringWriter;
import java.io.Writer;
import java.lang.reflect.Array;
import java.lang.reflect.Constructor;
import java.lang.reflect.Executable;
import java.lang.reflect.InvocationHandler;
import java.lang.reflect.Method;
import java.lang.reflect.Modifier;
import java.lang.reflect.ParameterizedType;
import java.lang.reflect.Proxy;
import java.lang.reflect.Type;
import java.lang.reflect.TypeVariable;
import java.lang.reflect.WildcardType;
import java.nio.FloatBuffer;
import java.nio.ShortBuffer;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.Executor;
import java.util.stream.Stream;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.core.quantity.Estimate;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.quantity.SpectralResponse;
import org.tonewedge.core.quantity.TransmissionGeometry;
import org.tonewedge.core.scan.ScanRows;
import org.tonewedge.core.strip.Bracket;
import org.tonewedge.core.strip.BracketTable;
import org.tonewedge.core.strip.ReadingOrder;
import org.tonewedge.core.strip.ReadingsTable;
import org.tonewedge.core.strip.Repeatability;
import org.tonewedge.core.strip.StepTablet;
import org.tonewedge.core.strip.Strip;
import org.tonewedge.core.tone.DensityImage;
import org.tonewedge.core.tone.Granularity;
import org.tonewedge.core.tone.PatchRendering;
import org.tonewedge.core.tone.ShadowMatch;
import org.tonewedge.fitting.development.ContrastMeasure;
import org.tonewedge.fitting.development.DevelopmentSeries;
import org.tonewedge.fitting.parametric.StripFit;
import org.tonewedge.standards.comparison.FilmComparison;
import org.tonewedge.standards.densitometer.agreement.LimitsOfAgreement;
import org.tonewedge.standards.densitometer.input.Certificate;
import org.tonewedge.standards.densitometer.input.CertificateTable;
import org.tonewedge.standards.densitometer.input.LogLayout;
import org.tonewedge.standards.densitometer.input.RawCounts;
import org.tonewedge.standards.densitometer.summary.ReadingsSummary;
import org.tonewedge.standards.densitometer.summary.RunningSummary;
import org.tonewedge.standards.densitometer.verdict.DensitometerCheck;
import org.tonewedge.standards.density.CallierFactor;
import org.tonewedge.standards.density.DensityKind;
import org.tonewedge.standards.detail.ModulationTransfer;
import org.tonewedge.standards.detail.ResolvingPower;
import org.tonewedge.standards.exposure.CameraFlare;
import org.tonewedge.standards.exposure.FilterFactor;
import org.tonewedge.standards.exposure.PersonalExposureIndex;
import org.tonewedge.standards.exposure.PersonalExposureIndex.ShadowFrame;
import org.tonewedge.standards.exposure.ReciprocityFit;
import org.tonewedge.standards.exposure.ReciprocityFit.TimedExposure;
import org.tonewedge.standards.film.ProcessControl.ControlReading;

/**
 * A value of every published type that can be had: a few are made by hand from the demo, the rest is what public methods
 * return for them.
 */
final class Samples {

    private static final Map<Class<?>, Object> SAMPLES = new HashMap<>();
    private static final Set<String> RUN = new TreeSet<>();

    private Samples() {}

    /** Makes the samples, once. */
    static synchronized void make() throws IOException {
        if (!SAMPLES.isEmpty()) {
            return;
        }
        Path demo = ProjectFiles.demoStrips().getParent();
        ReadingsTable films = ReadingsTable.read(ProjectFiles.demoStrips());
        Strip strip = films.strip("R00");
        put(films, strip, CharacteristicCurve.through(strip));
        put(BracketTable.read(demo.resolve("frames.csv")));
        put(FilmComparison.of(films.strips().subList(0, 2), "R00"));
        put(DevelopmentSeries.of(
                ReadingsTable.read(demo.resolve("development.csv")).strips()));
        SAMPLES.put(
                StepTablet.class,
                CertificateTable.read("tablet.csv", Files.newBufferedReader(demo.resolve("densitometer/tablet.csv"))));
        Bracket bracket =
                ((BracketTable) SAMPLES.get(BracketTable.class)).brackets().get(0);
        put(PatchRendering.onFrame(bracket, "metered", Repeatability.of(0.01)));
        put(ShadowMatch.of(bracket, "shadow", bracket, "metered"));
        put(((DevelopmentSeries) SAMPLES.get(DevelopmentSeries.class))
                .contrast(ContrastMeasure.RISE_OVER_130)
                .best());
        put(StripFit.of(strip), new Granularity(48, Density.of(1), Estimate.of(0.0102, 0.0003, 24)));
        putDensitometer(demo.resolve("densitometer"));
        putDeterminations();
        SAMPLES.put(FloatBuffer.class, FloatBuffer.allocate(4));
        SAMPLES.put(ShortBuffer.class, ShortBuffer.allocate(4));
        put(ControlReading.of(0.2, 0.8, 1.6), new DensityKind<>(TransmissionGeometry.DIFFUSE, SpectralResponse.VISUAL));
        put(CallierFactor.of(Estimate.of(1.3, 0.02)));
        SAMPLES.put(ScanRows.class, ScanRows.of(new short[64], 8, 65_535));
        put(Density.of(0.5), LogExposure.ofLogLuxSeconds(-1), DensityImage.of(new double[16], 4, 10));
        put(Duration.ofMinutes(5), LocalDate.of(2026, 1, 1), "a name", OptionalDouble.of(1));
        put(2, 2L, 0.5, true, ',', 0.5f, (short) 1, (byte) 1);
        SAMPLES.put(int.class, 2);
        SAMPLES.put(long.class, 2L);
        SAMPLES.put(double.class, 0.5);
        SAMPLES.put(float.class, 0.5f);
        SAMPLES.put(boolean.class, true);
        SAMPLES.put(char.class, ',');
        SAMPLES.put(short.class, (short) 1);
        SAMPLES.put(Object.class, "anything");
        SAMPLES.put(CharSequence.class, "a name");
        SAMPLES.put(Path.class, Path.of(System.getProperty("java.io.tmpdir"), "tonewedge-no-such-folder", "file"));
        SAMPLES.put(Reader.class, new StringReader(""));
        SAMPLES.put(InputStream.class, InputStream.nullInputStream());
        SAMPLES.put(BufferedInputStream.class, new BufferedInputStream(InputStream.nullInputStream()));
        SAMPLES.put(OutputStream.class, OutputStream.nullOutputStream());
        SAMPLES.put(Writer.class, new StringWriter());
        SAMPLES.put(Charset.class, StandardCharsets.UTF_8);
        SAMPLES.put(Locale.class, Locale.ROOT);
        SAMPLES.put(Executor.class, (Executor) Runnable::run);
        int known = 0;
        while (known < SAMPLES.size()) {
            known = SAMPLES.size();
            for (Class<?> type : PublicTypes.all()) {
                executables(type).forEach(Samples::harvest);
            }
        }
    }

    private static void putDensitometer(Path demo) throws IOException {
        StepTablet tablet = (StepTablet) SAMPLES.get(StepTablet.class);
        LogLayout layout = LogLayout.parse("comma step=1 density=2 decimals=3");
        ReadingsSummary summary;
        try (InputStream log = Files.newInputStream(demo.resolve("stray-light.csv"))) {
            summary = ReadingsSummary.read(log, layout, tablet);
        }
        try (InputStream certificate = Files.newInputStream(demo.resolve("tablet.csv"))) {
            put(Certificate.read("tablet.csv", certificate));
        }
        put(layout, summary, DensitometerCheck.withDefaults().judge(summary), RawCounts.of(500, 10, 1000));
        put(RunningSummary.of(layout, tablet, ReadingOrder.FROM_CLEAR_END, 1));
    }

    /** Results that need more readings than one of a kind. */
    private static void putDeterminations() {
        put(PersonalExposureIndex.withDefaults()
                .determine(List.of(
                        new ShadowFrame(100, Estimate.of(0.14, 0.005, 4)),
                        new ShadowFrame(200, Estimate.of(0.08, 0.005, 4)))));
        put(ReciprocityFit.schwarzschild(List.of(
                new TimedExposure(Duration.ofSeconds(1), Estimate.of(-1, 0)),
                new TimedExposure(Duration.ofSeconds(10), Estimate.of(-0.88, 0)),
                new TimedExposure(Duration.ofSeconds(100), Estimate.of(-0.74, 0)))));
        StepTablet tablet = StepTablet.nominal(8, Density.of(0.05), 0.3);
        put(CameraFlare.of(
                tablet,
                tablet.steps().stream()
                        .map(step -> Estimate.of(
                                Math.log10(Math.pow(10, -step.density().value()) + 0.013), 0.01))
                        .toList()));
        put(FilterFactor.of(Estimate.of(-1, 0.01, 5), Estimate.of(-0.7, 0.01, 5)));
        put(ResolvingPower.ofObservations(2, 40, 80, 160));
        put(ModulationTransfer.of(
                new double[] {10, 20, 40}, new double[] {0.9, 0.6, 0.3}, new double[] {0.01, 0.01, 0.01}));
        put(LimitsOfAgreement.of(new double[] {0.1, 0.8, 1.5, 2.4}, new double[] {0.11, 0.80, 1.52, 2.41}));
    }

    private static void put(Object... values) {
        for (Object value : values) {
            SAMPLES.putIfAbsent(value.getClass(), value);
        }
    }

    /** Runs a method once, and keeps what it returns if there is no value of its type yet. */
    private static void harvest(Executable executable) {
        Object[] arguments = arguments(executable);
        Object target = target(executable);
        if (!isWanted(executable) || arguments == null || target == null || !RUN.add(executable.toString())) {
            return;
        }
        try {
            Object result = executable instanceof Method method
                    ? method.invoke(target, arguments)
                    : ((Constructor<?>) executable).newInstance(arguments);
            keep(result);
        } catch (ReflectiveOperationException e) {
            // Not with these arguments; the type may come from another method.
        }
    }

    /** Whether there is no value yet of what the method returns. */
    private static boolean isWanted(Executable executable) {
        Type returned =
                executable instanceof Method method ? method.getGenericReturnType() : executable.getDeclaringClass();
        if (returned instanceof ParameterizedType generic
                && !generic.getRawType().getTypeName().startsWith("org.")) {
            returned = generic.getActualTypeArguments()[0];
        }
        if (returned instanceof ParameterizedType generic) {
            returned = generic.getRawType();
        }
        return returned instanceof Class<?> type
                && type.getName().startsWith("org.tonewedge.")
                && !type.isEnum()
                && !SAMPLES.containsKey(type);
    }

    private static void keep(Object result) {
        Object value = result;
        if (value instanceof Optional<?> optional) {
            value = optional.orElse(null);
        }
        if (value instanceof Collection<?> values) {
            value = values.stream().findFirst().orElse(null);
        }
        if (value != null && value.getClass().getName().startsWith("org.tonewedge.")) {
            Object found = value;
            PublicTypes.all().stream()
                    .filter(type -> type.isInstance(found))
                    .forEach(type -> SAMPLES.putIfAbsent(type, found));
        }
    }

    /** In the order of their names: that of reflection differs from run to run, and with it the values that are tried. */
    static Stream<Executable> executables(Class<?> type) {
        return Stream.<Executable>concat(
                        Arrays.stream(type.getDeclaredMethods()), Arrays.stream(type.getConstructors()))
                .filter(each -> Modifier.isPublic(each.getModifiers())
                        && !Modifier.isAbstract(each.getModifiers())
                        && !each.isSynthetic()
                        && !each.getName().matches("equals|valueOf|compareTo|main"))
                .filter(each -> !(each instanceof Constructor && Modifier.isAbstract(type.getModifiers())))
                .sorted(Comparator.comparing(Executable::toString));
    }

    /** What the method is called on: an instance, or its class if it needs none. */
    static Object target(Executable executable) {
        return executable instanceof Constructor || Modifier.isStatic(executable.getModifiers())
                ? executable.getDeclaringClass()
                : sample(executable.getDeclaringClass());
    }

    static Object[] arguments(Executable executable) {
        Type[] types = executable.getGenericParameterTypes();
        if (types.length != executable.getParameterCount()) {
            types = executable.getParameterTypes();
        }
        Object[] arguments = Arrays.stream(types).map(Samples::sample).toArray();
        return Arrays.asList(arguments).contains(null) ? null : arguments;
    }

    /** A value of a type, or null if none could be made. */
    static Object sample(Type type) {
        if (type instanceof ParameterizedType generic) {
            return sampleOf(generic);
        }
        if (type instanceof WildcardType wildcard) {
            Type[] lower = wildcard.getLowerBounds();
            return sample(lower.length > 0 ? lower[0] : wildcard.getUpperBounds()[0]);
        }
        if (type instanceof TypeVariable<?> variable) {
            return sample(variable.getBounds()[0]);
        }
        if (!(type instanceof Class<?> plain)) {
            return null;
        }
        if (SAMPLES.containsKey(plain)) {
            return SAMPLES.get(plain);
        }
        if (plain.isEnum()) {
            return plain.getEnumConstants()[0];
        }
        if (plain.isSealed()) {
            return sample(plain.getPermittedSubclasses()[0]);
        }
        if (plain.isArray()) {
            Object element = sample(plain.getComponentType());
            Object array = Array.newInstance(plain.getComponentType(), 3);
            for (int i = 0; i < 3; i++) {
                if (element == null) {
                    return null;
                }
                Array.set(array, i, plain == double[].class ? (Object) (0.1 + 0.2 * i) : element);
            }
            return array;
        }
        return isFunction(plain) ? function(plain, null) : null;
    }

    private static Object sampleOf(ParameterizedType generic) {
        Class<?> raw = (Class<?>) generic.getRawType();
        Type[] of = generic.getActualTypeArguments();
        Object first = sample(of[0]);
        if (isFunction(raw)) {
            return function(raw, of[of.length - 1]);
        }
        if (SAMPLES.containsKey(raw)) {
            return SAMPLES.get(raw);
        }
        if (first == null) {
            return null;
        }
        if (raw == Optional.class) {
            return Optional.of(first);
        }
        if (raw == Map.class) {
            return sample(of[1]) == null ? null : Map.of(first, sample(of[1]));
        }
        return raw == Set.class ? Set.of(first) : raw.isAssignableFrom(List.class) ? List.of(first) : null;
    }

    private static boolean isFunction(Class<?> type) {
        return type.isInterface()
                && !type.isSealed()
                && type.getName().matches("java\\.util\\.function\\..*|org\\.tonewedge\\..*");
    }

    private static Object function(Class<?> type, Type returned) {
        return Proxy.newProxyInstance(
                Samples.class.getClassLoader(),
                new Class<?>[] {type},
                (proxy, method, given) -> method.isDefault()
                        ? InvocationHandler.invokeDefault(proxy, method, given)
                        : method.getDeclaringClass() == Object.class
                                ? method.getName().equals("hashCode")
                                        ? (Object) 1
                                        : method.getName().equals("equals")
                                : sample(
                                        method.getReturnType() == Object.class && returned != null
                                                ? returned
                                                : method.getReturnType()));
    }
}
