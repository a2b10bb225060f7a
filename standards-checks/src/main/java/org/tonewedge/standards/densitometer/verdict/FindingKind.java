// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.standards.densitometer.verdict;

/** What a densitometer check can find, and what is usually done about it. */
public enum FindingKind {

    /** The firmware's arithmetic is wrong: printed densities do not follow from their counts. */
    ARITHMETIC("correct the computation and test it with golden vectors"),

    /** Printed densities are impossible for any sample. */
    IMPLAUSIBLE_DENSITIES("check the sign and the base of the logarithm in the firmware"),

    /** The log has numbers beside its counts, but none of them is used as the density. */
    DENSITY_NOT_USED("state the layout with the position of the density, so that the firmware's arithmetic is judged"),

    /** The dark counts of the open gate, counted at another gain or time than the sample, are not in the log. */
    OPEN_DARK_NOT_STATED("let the firmware print the open gate's own dark counts, or state open_dark=fixed:VALUE"),

    /** Without counts as evidence, the slope alone looks like a wrong logarithm. */
    ARITHMETIC_SUSPECTED("let the firmware print its counts beside the density and check again"),

    /** The first readings of a step are those of the step before. */
    STALE_READINGS("wait for a new reading after each change of step; clear the firmware's buffer"),

    /** Readings are means over earlier ones, which is wrong across a change of step. */
    READINGS_AVERAGED("begin the average anew at each change of step, or wait until it follows"),

    /** Two steps were swapped. */
    STEPS_SWAPPED("read the swapped steps again"),

    /**
     * A step was left out or read twice, so that the following ones have wrong numbers. Where single readings scatter
     * by an eighth of the spacing of the steps, 93 to 95 % of such passes by a right instrument are named ({@code
     * ShiftedStepsSimulation 500 RIGHT} in the tests). The instrument is then judged by the readings at
     * their own steps, so that other findings are its own: {@link DensitometerVerdict#realignedSummary()}.
     */
    STEP_SKIPPED("read the tablet again from that step on"),

    /** The numbers of all steps are wrong, for example because they are counted from 0. */
    STEPS_MISNUMBERED("let the firmware count steps from 1 at the clear end"),

    /** Counts overflow the range of their bits. */
    COUNTS_OVERFLOW("keep counts in more bits"),

    /** The detector is at full scale with clear samples in the gate. */
    SAMPLE_CLIPPED("use less light, a shorter time or a lower gain for clear samples"),

    /** The detector is at full scale with the gate open. */
    OPEN_GATE_CLIPPED("use less light, a shorter time or a lower gain for the open gate"),

    /** The detector's dark level lies below its range. */
    DARK_CLIPPED("raise the detector's offset, so that the dark is above 0"),

    /** The dark counts are subtracted twice. */
    DARK_SUBTRACTED_TWICE("log the counts before the dark is subtracted, and subtract it once"),

    /** The dark counts are those of another gain. */
    DARK_OF_OTHER_GAIN("read the dark at the gain and time of the sample"),

    /** The ratio of gains is not that of the hardware. */
    GAIN_RATIO_WRONG("measure the ratio of gains on one sample read at both, and put it into the firmware"),

    /** Errors die away during a single pass, as they do while a lamp warms up. */
    LAMP_WARM_UP("wait until the lamp is stable, and read the tablet upwards and downwards"),

    /** The line through the steps does not pass through zero. */
    ZERO_OFFSET("zero the densitometer on the open gate; clean the gate and the window"),

    /** Densities are read too large or too small in proportion. */
    SLOPE("correct by offset and slope; check the detector's linearity, and whether gain or time was left out"),

    /** In a single pass with one reading of each step, a drift and a slope give the same readings. */
    DRIFT_OR_SLOPE("read the tablet up and down again, each step twice or more; this separates the two"),

    /** The readings depart from the line by more than stray light explains. */
    NON_LINEAR("correct by a monotone table; check the analogue stage for a knee, and the gain steps"),

    /** The detector sees light that does not come through the sample, or too little dark is subtracted. */
    STRAY_LIGHT("shield the detector, blacken the light path, close the lid, read the dark with the lamp lit beside the"
            + " gate; correct the rest by the leak term"),

    /** Too much dark is subtracted, so that dense steps read too dense. */
    DARK_OVERSUBTRACTED("read the dark again with the lamp off, at the gain and time of the sample"),

    /** Dense steps are no longer distinguished. */
    SATURATED("do not use the densitometer above this step; count longer, use more light or a higher gain"),

    /** A denser step is read as less dense. */
    NOT_MONOTONE("check whether steps were swapped; read again with more readings of each step"),

    /** Readings of one step within a run scatter. */
    REPEATABILITY("average more readings, count longer, hold the film flat, wait until the lamp is stable"),

    /** Runs differ from each other. */
    REPRODUCIBILITY("zero before each run, place each step the same way, and take the mean of several runs"),

    /** Readings change with time. */
    DRIFT_WITH_TIME("let the lamp and the detector warm up; zero more often"),

    /** Readings change with temperature. */
    DRIFT_WITH_TEMPERATURE("read at a steady temperature, or read the dark with each reading"),

    /** Readings change, but time and temperature changed together. */
    DRIFT_NOT_SEPARABLE("repeat the check with the instrument warmed up"),

    /** The smallest step of density is coarse. */
    RESOLUTION("print more decimals, or count longer"),

    /** An error is larger than the uncertainties explain. */
    NORMALISED_ERROR("look for a cause that is not in the budget, or correct the readings"),

    /** A step that was to be judged has no density. */
    STEP_NOT_READ("read all steps, or limit the check to the densities that matter"),

    /** A step was marked as beyond the instrument's range, or let no light through that the detector saw. */
    STEP_OVERRANGE("limit the check to the densities for which the instrument is meant, or count longer"),

    /** The log has steps that the tablet does not have. */
    UNKNOWN_STEP("check that this is the tablet that was read, and how the firmware numbers the steps"),

    /** Lines of the log may be readings that were damaged in transmission. */
    DAMAGED_LINES("check the cable, the baud rate and the ground"),

    /** The certificate states no uncertainty. */
    CERTIFICATE_WITHOUT_UNCERTAINTY("enter the expanded uncertainty of the certificate"),

    /** The certificate's expanded uncertainty takes up more than half of the tolerance. */
    CERTIFICATE_TOO_UNCERTAIN(
            "check whether U was typed in per cent or in other units; otherwise get a better tablet or a wider"
                    + " tolerance"),

    /** There are not enough readings to estimate the scatter. */
    TOO_FEW_READINGS("read each step at least three times in at least two runs");

    private final String remedy;

    FindingKind(String remedy) {
        this.remedy = remedy;
    }

    /**
     * Returns what is usually done about it.
     *
     * @return the remedy in words
     */
    public String remedy() {
        return remedy;
    }
}
