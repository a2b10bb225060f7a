/** Runnable programs on invented demo data. */
module org.tonewedge.examples {
    requires org.tonewedge.standards;
}
