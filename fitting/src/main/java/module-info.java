/** Splines, toe-shoulder models and development models fitted to strips. */
module org.tonewedge.fitting {
    requires org.tonewedge.core;
}
