// A development plan, after tonewedge.jsh.
var developed = DevelopmentSeries.of(series)
var contrast = developed.contrast(ContrastMeasure.RISE_OVER_130).best()
show(contrast.timeFor(ContrastTarget.isoContrastCondition(), Temperature.ofCelsius(20)))
var plan = developed.plan(List.of(ContrastTarget.isoContrastCondition()), List.of(Temperature.ofCelsius(20), Temperature.ofCelsius(22)))
plan.developments().forEach(each -> show(each))
