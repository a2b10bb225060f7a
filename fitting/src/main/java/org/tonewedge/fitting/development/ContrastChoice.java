// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.development;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.tonewedge.core.quantity.Recorded;
import org.tonewedge.core.quantity.ResultRecord;

/**
 * The models fitted to the contrasts of strips, with the evidence for each, including those not chosen and those that
 * could not be fitted.
 *
 * <p>Immutable and thread safe.
 */
public final class ContrastChoice implements Recorded {

    private final List<ContrastFit> fits;
    private final List<String> refusals;

    private ContrastChoice(List<ContrastFit> fits, List<String> refusals) {
        this.fits = List.copyOf(fits);
        this.refusals = List.copyOf(refusals);
    }

    /** The choice of the first of these fits. */
    static ContrastChoice of(List<ContrastFit> fits, List<String> refusals) {
        List<ContrastFit> all = new ArrayList<>(fits);
        all.set(0, fits.get(0).chosenAmong(fits));
        return new ContrastChoice(all, refusals);
    }

    ContrastChoice with(BeyondTested beyond) {
        return new ContrastChoice(fits.stream().map(fit -> fit.with(beyond)).toList(), refusals);
    }

    /**
     * Returns the model that the strips support best. The uncertainties of its predictions include that of the choice.
     *
     * @return the best fit
     */
    public ContrastFit best() {
        return fits.get(0);
    }

    /**
     * Returns all models that could be fitted.
     *
     * @return the fits, the best first
     */
    public List<ContrastFit> fits() {
        return fits;
    }

    /**
     * Returns the reasons why models could not be fitted.
     *
     * @return a sentence for each; empty if all models could be fitted
     */
    public List<String> refusals() {
        return refusals;
    }

    /**
     * Returns the choice in words.
     *
     * @return the models with their criteria, best first
     */
    @Override
    public String toString() {
        StringBuilder text = new StringBuilder();
        for (ContrastFit fit : fits) {
            text.append(fit.model())
                    .append(": ")
                    .append(
                            Double.isInfinite(fit.informationCriterion())
                                    ? "too few strips for a criterion"
                                    : String.format(Locale.ROOT, "%.1f", fit.informationCriterion()))
                    .append('\n');
        }
        refusals.forEach(refusal -> text.append(refusal).append('\n'));
        return text.toString();
    }

    /**
     * Returns the choice as named values: {@code best}, the {@code criterion} of each model under its name in lower case,
     * such as {@code exponential.criterion}, each {@code refusal.N}, and the records of the best fit under {@code fit}.
     *
     * @return the records
     */
    @Override
    public List<ResultRecord> records() {
        List<ResultRecord> records = new ArrayList<>();
        records.add(ResultRecord.ofText("best", best().model().name()));
        for (ContrastFit fit : fits) {
            records.add(fit.recordOfCriterion().under(fit.model().name().toLowerCase(Locale.ROOT)));
        }
        int number = 1;
        for (String refusal : refusals) {
            records.add(ResultRecord.ofText("refusal." + number++, refusal));
        }
        best().records().forEach(each -> records.add(each.under("fit")));
        return List.copyOf(records);
    }
}
