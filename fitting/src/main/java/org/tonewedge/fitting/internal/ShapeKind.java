// Copyright the Tonewedge developers. SPDX-License-Identifier: Apache-2.0
package org.tonewedge.fitting.internal;

import java.util.Arrays;

/**
 * A {@link Shape} with what a search for it needs: start, bounds and which parameters are softnesses. Stateless; a further
 * family is a further constant.
 */
public abstract class ShapeKind {

    /** The softness near which the penalty is least, in log units: common practice, no source. */
    public static final double USUAL_SOFTNESS = 0.2;

    /** The least softness searched, in log units: a corner that no strip can tell from a sharp one. */
    private static final double LEAST_WIDTH = 0.002;

    private static final double LOG_LEAST_WIDTH = Math.log(LEAST_WIDTH);

    /**
     * The least distance from toe to shoulder, in log units. Nearer ones give all but the same curve with an ever greater
     * gradient.
     */
    private static final double LEAST_RUN = 0.1;

    /** The greatest softness or width searched, in log units: longer than any exposure scale. */
    private static final double MOST_WIDTH = 10;

    private static final double LOG_MOST_WIDTH = Math.log(MOST_WIDTH);

    private static final double MOST_LOG_ASYMMETRY = 4;

    /** What a shape parameter stands for. */
    enum Term {
        /** Itself, a log exposure or a plain number. */
        POSITION,
        /** A distance from the first parameter to the position meant. */
        RUN,
        /** The logarithm of a softness. */
        SOFTNESS,
        /** The logarithm of another positive number. */
        WIDTH
    }

    /** {@link Shapes#TOE_SHOULDER}. */
    public static final ShapeKind TOE_SHOULDER =
            new ShapeKind(Shapes.TOE_SHOULDER, Term.POSITION, Term.SOFTNESS, Term.RUN, Term.SOFTNESS) {
                @Override
                void start(Landmarks at, double[] q) {
                    q[0] = at.foot;
                    q[1] = Math.log(at.toeSoftness());
                    q[2] = at.run();
                    q[3] = Math.log(at.shoulderSoftness());
                }

                @Override
                void limit(double lowest, double highest, double[] lower, double[] upper) {
                    limitPosition(lowest, highest, 0, lower, upper);
                    limitSoftness(1, lower, upper);
                    lower[2] = LEAST_RUN;
                    upper[2] = 2 * (highest - lowest);
                    limitSoftness(3, lower, upper);
                }
            };

    /** {@link Shapes#TOE}. */
    public static final ShapeKind TOE = new ShapeKind(Shapes.TOE, Term.POSITION, Term.SOFTNESS) {
        @Override
        void start(Landmarks at, double[] q) {
            q[0] = at.foot;
            q[1] = Math.log(USUAL_SOFTNESS);
        }

        @Override
        void limit(double lowest, double highest, double[] lower, double[] upper) {
            limitPosition(lowest, highest, 0, lower, upper);
            limitSoftness(1, lower, upper);
        }
    };

    /** {@link Shapes#SHOULDER}. */
    public static final ShapeKind SHOULDER = new ShapeKind(Shapes.SHOULDER, Term.POSITION, Term.SOFTNESS) {
        @Override
        void start(Landmarks at, double[] q) {
            q[0] = at.top;
            q[1] = Math.log(USUAL_SOFTNESS);
        }

        @Override
        void limit(double lowest, double highest, double[] lower, double[] upper) {
            limitPosition(lowest, highest, 0, lower, upper);
            limitSoftness(1, lower, upper);
        }
    };

    /** {@link Shapes#STRAIGHT_LINE}. */
    public static final ShapeKind STRAIGHT_LINE = new ShapeKind(Shapes.STRAIGHT_LINE) {
        @Override
        void start(Landmarks at, double[] q) {
            // no shape parameters
        }

        @Override
        void limit(double lowest, double highest, double[] lower, double[] upper) {
            // no shape parameters
        }
    };

    /** {@link Shapes#LOGISTIC}. */
    public static final ShapeKind LOGISTIC = new ShapeKind(Shapes.LOGISTIC, Term.POSITION, Term.WIDTH) {
        @Override
        void start(Landmarks at, double[] q) {
            startWidth(at, 0.5, 0.25, q);
        }

        @Override
        void limit(double lowest, double highest, double[] lower, double[] upper) {
            limitLocated(lowest, highest, lower, upper);
        }
    };

    /** {@link Shapes#LOGISTIC_POWER}. */
    public static final ShapeKind LOGISTIC_POWER =
            new ShapeKind(Shapes.LOGISTIC_POWER, Term.POSITION, Term.WIDTH, Term.WIDTH) {
                @Override
                void start(Landmarks at, double[] q) {
                    startWidth(at, 0.5, 0.25, q);
                    q[2] = 0;
                }

                @Override
                void limit(double lowest, double highest, double[] lower, double[] upper) {
                    limitLocated(lowest, highest, lower, upper);
                    lower[2] = -MOST_LOG_ASYMMETRY;
                    upper[2] = MOST_LOG_ASYMMETRY;
                }
            };

    /** {@link Shapes#RICHARDS}. */
    public static final ShapeKind RICHARDS = new ShapeKind(Shapes.RICHARDS, Term.POSITION, Term.WIDTH, Term.POSITION) {
        @Override
        void start(Landmarks at, double[] q) {
            startWidth(at, 0.5, 0.25, q);
            q[2] = 1;
        }

        @Override
        void limit(double lowest, double highest, double[] lower, double[] upper) {
            limitLocated(lowest, highest, lower, upper);
            lower[2] = 0;
            upper[2] = Math.exp(MOST_LOG_ASYMMETRY);
        }
    };

    /** {@link Shapes#GOMPERTZ}. */
    public static final ShapeKind GOMPERTZ = new ShapeKind(Shapes.GOMPERTZ, Term.POSITION, Term.WIDTH) {
        @Override
        void start(Landmarks at, double[] q) {
            startWidth(at, 1 / Math.E, 1 / Math.E, q);
        }

        @Override
        void limit(double lowest, double highest, double[] lower, double[] upper) {
            limitLocated(lowest, highest, lower, upper);
        }
    };

    /** {@link Shapes#CUMULATIVE_NORMAL}. */
    public static final ShapeKind CUMULATIVE_NORMAL =
            new ShapeKind(Shapes.CUMULATIVE_NORMAL, Term.POSITION, Term.WIDTH) {
                @Override
                void start(Landmarks at, double[] q) {
                    startWidth(at, 0.5, 1 / Math.sqrt(2 * Math.PI), q);
                }

                @Override
                void limit(double lowest, double highest, double[] lower, double[] upper) {
                    limitLocated(lowest, highest, lower, upper);
                }
            };

    /** {@link Shapes#HURTER_DRIFFIELD}. */
    public static final ShapeKind HURTER_DRIFFIELD = new ShapeKind(Shapes.HURTER_DRIFFIELD, Term.POSITION, Term.WIDTH) {
        @Override
        void start(Landmarks at, double[] q) {
            q[0] = at.foot;
            q[1] = Math.log(10) * at.run();
        }

        @Override
        void limit(double lowest, double highest, double[] lower, double[] upper) {
            limitPosition(lowest, highest, 0, lower, upper);
            lower[1] = Math.log(1.1);
            upper[1] = Math.log(10) * MOST_WIDTH;
        }
    };

    private final Shape shape;
    private final Term[] terms;
    private final boolean hasSoftness;

    ShapeKind(Shape shape, Term... terms) {
        this.shape = shape;
        this.terms = terms;
        hasSoftness = Arrays.asList(terms).contains(Term.SOFTNESS);
    }

    /**
     * Returns the shape.
     *
     * @return the shape
     */
    public Shape shape() {
        return shape;
    }

    /**
     * Tells whether a shape parameter is the logarithm of a softness.
     *
     * @param parameter its index
     * @return true for a softness
     */
    public boolean isSoftness(int parameter) {
        return terms[parameter] == Term.SOFTNESS;
    }

    /**
     * Tells whether a shape parameter is the distance from the first position to another.
     *
     * @param parameter its index
     * @return true for a distance
     */
    public boolean isRun(int parameter) {
        return terms[parameter] == Term.RUN;
    }

    /**
     * Tells whether a distance is so short that nothing is left between the positions: the least one that is searched.
     *
     * @param run the distance
     * @return true for the least
     */
    public static boolean isNothing(double run) {
        return run <= LEAST_RUN;
    }

    boolean hasSoftness() {
        return hasSoftness;
    }

    /**
     * Returns the parameters as they are spoken of: softnesses instead of their logarithms, positions instead of runs.
     *
     * @param q the shape parameters
     * @return the natural parameters
     */
    public double[] natural(double[] q) {
        double[] natural = q.clone();
        for (int k = 0; k < q.length; k++) {
            natural[k] = switch (terms[k]) {
                case POSITION -> q[k];
                case RUN -> q[0] + q[k];
                case SOFTNESS, WIDTH -> Math.exp(q[k]);
            };
        }
        return natural;
    }

    /**
     * Returns the shape parameters of natural ones.
     *
     * @param natural the natural parameters
     * @return the shape parameters
     */
    public double[] search(double[] natural) {
        double[] q = natural.clone();
        for (int k = 0; k < q.length; k++) {
            q[k] = switch (terms[k]) {
                case POSITION -> natural[k];
                case RUN -> natural[k] - natural[0];
                case SOFTNESS, WIDTH -> Math.log(natural[k]);
            };
        }
        return q;
    }

    /**
     * Returns the derivatives of the natural parameters by the shape parameters.
     *
     * @param q the shape parameters
     * @return one row for each natural parameter
     */
    public double[][] naturalBySearch(double[] q) {
        double[][] derivatives = new double[q.length][q.length];
        for (int k = 0; k < q.length; k++) {
            derivatives[k][k] = terms[k] == Term.SOFTNESS || terms[k] == Term.WIDTH ? Math.exp(q[k]) : 1;
            if (terms[k] == Term.RUN) {
                derivatives[k][0] = 1;
            }
        }
        return derivatives;
    }

    /** Writes shape parameters near those of the readings. */
    abstract void start(Landmarks at, double[] q);

    /** Writes the bounds of the search for readings between two exposures. */
    abstract void limit(double lowest, double highest, double[] lower, double[] upper);

    private static void startWidth(Landmarks at, double position, double width, double[] q) {
        q[0] = at.foot + position * at.run();
        q[1] = Math.log(width * at.run());
    }

    private static void limitLocated(double lowest, double highest, double[] lower, double[] upper) {
        limitPosition(lowest, highest, 0, lower, upper);
        limitSoftness(1, lower, upper);
    }

    /** A position may lie as far outside the readings as they are long. */
    private static void limitPosition(double lowest, double highest, int k, double[] lower, double[] upper) {
        lower[k] = lowest - (highest - lowest);
        upper[k] = highest + (highest - lowest);
    }

    private static void limitSoftness(int k, double[] lower, double[] upper) {
        lower[k] = LOG_LEAST_WIDTH;
        upper[k] = LOG_MOST_WIDTH;
    }
}
