package org.tonewedge.core.tone;

/** The two forms in which the Selwyn granularity is given, with aperture area A. */
public enum SelwynForm {
    /** σ √(2A), Selwyn's own. */
    ROOT_OF_TWICE_AREA(2),
    /** σ √A, as some texts have it. */
    ROOT_OF_AREA(1);

    private final double areas;

    SelwynForm(double areas) {
        this.areas = areas;
    }

    /** How many aperture areas stand under the root. */
    double areas() {
        return areas;
    }
}
