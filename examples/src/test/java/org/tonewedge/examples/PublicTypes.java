// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.lang.reflect.Modifier;
import java.net.URI;
import java.nio.file.FileSystem;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.tonewedge.core.quantity.Density;
import org.tonewedge.fitting.parametric.CurveFit;
import org.tonewedge.standards.film.Iso6;

/** The public types of the packages that the published modules export to everybody. */
final class PublicTypes {

    /** One class of each published module. */
    private static final List<Class<?>> MODULES = List.of(Density.class, CurveFit.class, Iso6.class);

    private PublicTypes() {}

    static List<Class<?>> all() {
        List<Class<?>> types = new ArrayList<>();
        for (Class<?> anchor : MODULES) {
            try {
                Path place = Path.of(anchor.getProtectionDomain()
                        .getCodeSource()
                        .getLocation()
                        .toURI());
                if (Files.isDirectory(place)) {
                    collect(place, types);
                } else {
                    try (FileSystem jar =
                            FileSystems.newFileSystem(URI.create("jar:" + place.toUri()), java.util.Map.of())) {
                        collect(jar.getPath("/"), types);
                    }
                }
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            } catch (java.net.URISyntaxException e) {
                throw new IllegalStateException(e);
            }
        }
        return types;
    }

    private static void collect(Path root, List<Class<?>> types) throws IOException {
        try (Stream<Path> files = Files.walk(root)) {
            files.map(file -> root.relativize(file).toString().replace('\\', '/'))
                    .filter(name -> name.startsWith("org/tonewedge/") && name.endsWith(".class"))
                    .filter(name -> !name.matches(".*/(internal|numeric|bundled)/.*|.*package-info\\.class"))
                    .sorted()
                    .map(name -> named(name.substring(0, name.length() - 6).replace('/', '.')))
                    .filter(PublicTypes::isPublic)
                    .forEach(types::add);
        }
    }

    private static Class<?> named(String name) {
        try {
            return Class.forName(name, false, PublicTypes.class.getClassLoader());
        } catch (ClassNotFoundException e) {
            throw new IllegalStateException(e);
        }
    }

    private static boolean isPublic(Class<?> type) {
        return Modifier.isPublic(type.getModifiers())
                && (type.getDeclaringClass() == null || isPublic(type.getDeclaringClass()));
    }
}
