/** Published methods of speed and contrast. */
module org.tonewedge.standards {
    requires org.tonewedge.core;
}
