// A densitometer against its tablet, after tonewedge.jsh.
var tablet = CertificateTable.read("tablet.csv", Files.newBufferedReader(demo("densitometer/tablet.csv")))
var layout = LogLayout.parse("comma step=1 density=2 decimals=3")
var summary = ReadingsSummary.read(Files.newInputStream(demo("densitometer/stray-light.csv")), layout, tablet)
var verdict = DensitometerCheck.withDefaults().judge(summary)
System.out.println(verdict.outcome())
verdict.findings().forEach(found -> System.out.println(found.kind() + " at step " + found.step().orElse(0)))
System.out.println(verdict.correction().correct(Density.of(2.780)))
