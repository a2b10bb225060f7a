// The speed of a strip, after tonewedge.jsh.
var strip = films.strip("R00")
var fit = CurveFits.best(strip)
draw(fit.curve())
show(fit)
var iso6 = Iso6.withDefaults()
show(ReadingUncertainty.of(Repeatability.of(0.01)).determine(strip, iso6::determine))
