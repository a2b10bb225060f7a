/**
 * The comparison of film strips with a reference: the program, its report and its invented demo data.
 *
 * <p>On the demo table a whole run with {@code --curve fit}, uncertainties of all figures included, takes 0.95 times one
 * with {@code --curve through}, and one with {@code --curve spline} 1.5 times (medians of the ratios of 7 interleaved runs
 * in processes of their own; Java 17, two cores, other work on them: the ratios ranged over 0.86 to 1.26 and 1.29 to 2.88).
 * Measured with the time of each command, {@code java org.tonewedge.examples.comparison.FilmComparisonProgram
 * examples/demo/strips.csv --reference S01 --no-plots --out DIR --curve} {@code fit}, {@code spline} or {@code through}.
 */
package org.tonewedge.examples.comparison;
