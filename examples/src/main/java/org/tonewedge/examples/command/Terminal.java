// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.examples.command;

import java.io.OutputStream;
import java.io.OutputStreamWriter;
import java.io.PrintStream;
import java.io.PrintWriter;
import java.nio.charset.Charset;
import java.nio.charset.CharsetEncoder;
import java.util.Map;

/**
 * A writer to a terminal. Of the signs that its character set lacks, the usual ones are spelt in ASCII, so that no minus sign
 * becomes a question mark.
 */
public final class Terminal extends PrintWriter {

    private static final Map<Character, String> SUBSTITUTES = Map.ofEntries(
            Map.entry('\u2212', "-"),
            Map.entry('\u2013', "-"),
            Map.entry('\u00b1', "+/-"),
            Map.entry('\u00b7', "*"),
            Map.entry('\u00d7', "x"),
            Map.entry('\u00b0', " deg"),
            Map.entry('\u0394', "delta "),
            Map.entry('\u00b5', "u"),
            Map.entry('\u2026', "..."),
            Map.entry('\u00b2', "^2"),
            Map.entry('\u03c7', "chi"),
            Map.entry('\u03c3', "sigma"),
            Map.entry('\u221a', "sqrt "),
            Map.entry('\u2265', ">="),
            Map.entry('\u2098', "m"),
            Map.entry('\u2082', "2"),
            Map.entry('\u2190', "<-"),
            Map.entry('\u2192', "->"),
            Map.entry('\u201c', "\""),
            Map.entry('\u201d', "\""));

    private final CharsetEncoder encoder;

    /**
     * Writes to a stream and flushes it after every line.
     *
     * @param stream the terminal
     * @param charset its character set
     */
    public Terminal(OutputStream stream, Charset charset) {
        super(new OutputStreamWriter(stream, charset), true);
        encoder = charset.newEncoder();
    }

    /**
     * Returns a stream that spells the same signs, for code that prints to {@link System#out} itself.
     *
     * @param stream the stream to write to
     * @param charset the character set of the terminal behind it
     * @return the stream
     */
    public static PrintStream spelling(PrintStream stream, Charset charset) {
        CharsetEncoder encoder = charset.newEncoder();
        return new PrintStream(stream, true, charset) {
            @Override
            public void print(String text) {
                super.print(spelt(String.valueOf(text), encoder));
            }

            @Override
            public void print(Object value) {
                print(String.valueOf(value));
            }

            @Override
            public void print(char sign) {
                print(String.valueOf(sign));
            }

            @Override
            public void print(char[] signs) {
                print(String.valueOf(signs));
            }
        };
    }

    /**
     * Returns the character set of the terminal: from Java 19 the platform tells it, before that it is the default one.
     *
     * @return the character set of {@link System#out}
     */
    public static Charset charset() {
        return charset(System.getProperty("stdout.encoding"));
    }

    static Charset charset(String told) {
        try {
            return told == null ? Charset.defaultCharset() : Charset.forName(told);
        } catch (IllegalArgumentException e) {
            return Charset.defaultCharset();
        }
    }

    /** Lets {@link System#out} spell the signs that the terminal lacks, so that no minus sign becomes a question mark. */
    public static void spellOut() {
        System.setOut(spelling(System.out, charset()));
    }

    @Override
    public void write(int sign) {
        write(String.valueOf((char) sign), 0, 1);
    }

    @Override
    public void write(char[] signs, int from, int length) {
        write(new String(signs, from, length), 0, length);
    }

    @Override
    public void write(String text, int from, int length) {
        synchronized (lock) {
            String shown = spelt(text.substring(from, from + length), encoder);
            super.write(shown, 0, shown.length());
        }
    }

    private static String spelt(String text, CharsetEncoder encoder) {
        StringBuilder shown = new StringBuilder(text.length());
        for (int i = 0; i < text.length(); i++) {
            char sign = text.charAt(i);
            String plain = encoder.canEncode(sign) ? null : SUBSTITUTES.get(sign);
            shown.append(plain == null ? String.valueOf(sign) : plain);
        }
        return shown.toString();
    }
}
