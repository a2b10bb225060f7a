// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.colour;

import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.tonewedge.core.curve.CharacteristicCurve;
import org.tonewedge.core.curve.NotDeterminableException;
import org.tonewedge.core.internal.Checks;
import org.tonewedge.core.quantity.LogExposure;
import org.tonewedge.core.strip.ExposedStep;
import org.tonewedge.core.strip.Strip;

/**
 * One piece of film read through several filters: a {@link Strip} of readings for each {@link Channel}, all at the same
 * exposures.
 *
 * <p>Immutable and thread safe.
 */
public final class MultichannelStrip {

    private final String id;
    private final Map<Channel, Strip> strips;

    private MultichannelStrip(String id, Map<Channel, Strip> strips) {
        this.id = id;
        this.strips = strips;
    }

    /**
     * Returns a strip with several channels.
     *
     * @param id the identifier of the piece of film
     * @param readings the readings through each filter, one channel or more
     * @return the strip
     * @throws IllegalArgumentException if the identifier is blank, there is no channel, or two channels were not read at
     *     the same exposures
     */
    public static MultichannelStrip of(String id, Map<Channel, Strip> readings) {
        Objects.requireNonNull(id, "id");
        String checkedId = Checks.notBlank("strip identifier", id);
        if (readings.isEmpty()) {
            throw new IllegalArgumentException("strip '" + checkedId + "' needs at least one channel, had none");
        }
        Map<Channel, Strip> strips = new EnumMap<>(readings);
        Map.Entry<Channel, Strip> first = strips.entrySet().iterator().next();
        strips.forEach((channel, strip) -> {
            if (!exposures(strip).equals(exposures(first.getValue()))) {
                throw new IllegalArgumentException("strip '" + checkedId + "': channels " + first.getKey() + " and "
                        + channel + " were read at different exposures, " + exposures(first.getValue()) + " and "
                        + exposures(strip) + "; read every step through every filter");
            }
        });
        return new MultichannelStrip(checkedId, Collections.unmodifiableMap(strips));
    }

    private static List<LogExposure> exposures(Strip strip) {
        return strip.steps().stream().map(ExposedStep::exposure).toList();
    }

    /**
     * Returns the identifier.
     *
     * @return the identifier of the piece of film
     */
    public String id() {
        return id;
    }

    /**
     * Returns the channels that were read.
     *
     * @return the channels, in the order red, green, blue, visual
     */
    public Set<Channel> channels() {
        return strips.keySet();
    }

    /**
     * Returns the readings of a channel.
     *
     * @param channel the channel
     * @return its readings
     * @throws IllegalArgumentException if the channel was not read
     */
    public Strip strip(Channel channel) {
        Objects.requireNonNull(channel, "channel");
        Strip strip = strips.get(channel);
        if (strip == null) {
            throw new IllegalArgumentException(this + " has no channel " + channel + ", only " + channels()
                    + "; read the steps through that filter");
        }
        return strip;
    }

    /**
     * Returns the monotone cubic through the readings of a channel.
     *
     * @param channel the channel
     * @return its curve
     * @throws IllegalArgumentException if the channel was not read
     * @throws NotDeterminableException as {@link CharacteristicCurve#through(Strip)} does
     */
    public CharacteristicCurve curve(Channel channel) {
        Objects.requireNonNull(channel, "channel");
        return CharacteristicCurve.through(strip(channel));
    }

    /**
     * Returns the curves of the three colour channels.
     *
     * @return the curves
     * @throws IllegalArgumentException if a channel was not read
     * @throws NotDeterminableException as {@link CharacteristicCurve#through(Strip)} does
     */
    public ColourCurves colourCurves() {
        return new ColourCurves(curve(Channel.RED), curve(Channel.GREEN), curve(Channel.BLUE));
    }

    /**
     * Returns the strip in words.
     *
     * @return its identifier
     */
    @Override
    public String toString() {
        return "strip '" + id + "'";
    }
}
